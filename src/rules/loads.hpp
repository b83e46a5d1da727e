/// What floor joists and bench joists carry, by simple beam formulas. It informs; a licensed engineer judges structure.
#pragma once

#include <optional>
#include <string>

#include "facts/facts.hpp"
#include "job/job.hpp"

namespace fallwright::rules {

/// Under the base: dead load of deck, bed, base and tile, people, and the flood test; shares of reference design
/// values.
struct FloorLoad {
  double dead_kpa = 0, live_kpa = 0, flood_kpa = 0;
  double bending_share = 0, shear_share = 0, deflection_mm = 0, span_mm = 0;
};
/// Nothing where stock, span or a known species and grade of the joists are missing, or the floor is a slab.
std::optional<FloorLoad> floor_load(const job::Job& job, const facts::Facts& facts);

/// 250 lbf anywhere on the seat (ADA 610.4), taken by one bench joist alone. Timber frames only.
struct SeatLoad {
  std::string member;
  double span_mm = 0, bending_share = 0, shear_share = 0, bearing_share = 0, deflection_mm = 0;
};
std::optional<SeatLoad> seat_load(const job::Job& job, const facts::Facts& facts);

}  // namespace fallwright::rules
