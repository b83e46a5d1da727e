/// What floor joists and the bench's frame carry, by simple beam formulas. It informs; a licensed engineer judges
/// structure.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"

namespace fallwright::rules {

/// Dead loads of joists, deck and tile with bed and base, or with the bench on its own strip; people, and the flood
/// test; shares of reference design values.
struct FloorLoad {
  double floor_kpa = 0;  ///< of joists and deck alone, part of both dead loads
  double dead_kpa = 0, bench_kpa = 0, live_kpa = 0, flood_kpa = 0;
  double bending_share = 0, shear_share = 0, deflection_mm = 0, span_mm = 0;
};
/// Nothing where stock, span or a known species and grade of the joists are missing, or the floor is a slab.
std::optional<FloorLoad> floor_load(const job::Job& job, const facts::Facts& facts);

/// What to find out where there is no floor load: the first thing that is missing or not known.
std::string unknown_joists(const job::Job& job);

/// One kind of member under the seat's load: shares of what its material may take.
struct SeatMember {
  std::string what, part_id;
  bool plate_under_rail = false;  ///< it bends with the rail above it, and takes its part by stiffness
  double clear_mm = 0, span_mm = 0;
  std::optional<double> bending, shear, bearing, axial;
  double deflection_mm = 0;
  /// The greatest share, and of what.
  std::pair<double, const char*> most() const;
};

/// 250 lbf anywhere on the seat (ADA 610.4), taken by each member that carries it, alone, as a simple span.
struct SeatLoad {
  std::string material;  ///< "SPF No.2, dry", "33 ksi steel, full section ..."
  std::string deck;      ///< "plywood rated 48/24"
  std::vector<SeatMember> members;
  const SeatMember& strongest_used() const;  ///< nearest its strength
  const SeatMember& most_deflected() const;  ///< deflection over span
};
/// Nothing without a bench, or where its frame was not measured.
std::optional<SeatLoad> seat_load(const job::Job& job, const facts::Facts& facts);

/// "joist ('bench-frame/joist-01') over 11-1/4\": bending 18 %, shear 53 %, bearing 26 %; deflection span / 2060"
std::string text_of(const SeatMember& member, const job::Job& job);

}  // namespace fallwright::rules
