/// Readings on the rim of the base as it lies in the wet bed.
#pragma once

#include <vector>

#include "units/length.hpp"

namespace fallwright::job {

/// Places on the rim where a level or a rule is held while the mortar is wet.
enum class RimPoint { back_left, back, back_right, right, front_right, front, front_left, left };
inline constexpr RimPoint all_rim_points[] = {RimPoint::back_left,  RimPoint::back,        RimPoint::back_right,
                                              RimPoint::right,      RimPoint::front_right, RimPoint::front,
                                              RimPoint::front_left, RimPoint::left};
const char* name_of(RimPoint point);  ///< "back left", "back" ...

struct RimReading {
  RimPoint point = RimPoint::back_left;
  units::Length value;
};

/// Readings on the rim of the base as it lies in the wet bed, against any one level line.
struct AsSet {
  bool down = false;  ///< distances below the line, not heights above it
  std::vector<RimReading> readings;
};

}  // namespace fallwright::job
