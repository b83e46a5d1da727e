/// Nails and wood screws of 6 mm at most in timber of a European strength class, by EN 1995-1-1 (2004, with A1 of
/// 2008), in newtons and millimetres. Nails: formulas read in a public code library, secondary; of screws what pulls
/// them out or their head through: the weakest class of the German annex, from memory. What a fastener gains by being
/// drawn tight (its rope) is not counted.
#pragma once

#include <array>

#include "rules/fasteners.hpp"

namespace fallwright::rules {

/// A fastener's two members, of one density.
struct TimberJoint {
  double density_kg_m3 = 0;         ///< characteristic, of the lighter one
  double side_mm = 0, into_mm = 0;  ///< length of the fastener in the member under its head, and in the one that holds
};

/// The six ways in which such a joint gives way, (a) to (f) of its formula 8.6, characteristic.
std::array<double, 6> yield_modes_n(const Fastener& fastener, const TimberJoint& joint);

/// What one takes across and along itself, characteristic: nothing where its point goes in less than eight thicknesses
/// of a nail, four of a screw.
double across_n(const Fastener& fastener, const TimberJoint& joint);
double pulled_n(const Fastener& fastener, const TimberJoint& joint);

/// What of that one person may use, who is there for a short time: k_mod 0.9 over 1.3, and a load times 1.5.
inline constexpr double eurocode_may_use = 0.9 / 1.3 / 1.5;

/// A nail driven askew through a member's end: as an American one, since no formula there speaks of it. From memory.
double toe_nailed_n(const Fastener& nail, double density_kg_m3, double length_mm);

}  // namespace fallwright::rules
