/// Nails and wood screws thinner than 1/4 in, by NDS 12.2 and 12.3 (2018), in pounds and inches as its tables have
/// them. The formulas were read in public code libraries that name clause and page.
#pragma once

#include <array>
#include <optional>
#include <string>

namespace fallwright::rules {

struct Fastener {
  const char* name;  ///< "16d", "#10"
  double diameter;   ///< of the shank
  double root;       ///< of a screw's thread; a nail's diameter
  bool screw = false;
};
std::optional<Fastener> fastener_of(const std::string& name);

/// The six ways in which a joint of two members gives way, lbf each: I main, I side, II, III main, III side, IV.
/// @param gravity of both members; @param into length in the main one; @param side thickness of the side member
std::array<double, 6> yield_modes(const Fastener& fastener, double gravity, double side, double into);

/// What one fastener takes across: the least of the six, less in proportion where it goes in less than ten diameters,
/// nothing below six.
double across_lbf(const Fastener& fastener, double gravity, double side, double into);

/// What one takes along itself, for each inch that its shank (a screw's thread) is in the holding member, side grain.
double pulled_lbf_in(const Fastener& fastener, double gravity);

}  // namespace fallwright::rules
