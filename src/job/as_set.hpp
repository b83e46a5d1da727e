/// Readings on the base as it lies in the wet bed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "units/length.hpp"

namespace fallwright::job {

/// Places on the rim where a level or a rule is held while the mortar is wet.
enum class RimPoint { back_left, back, back_right, right, front_right, front, front_left, left };
inline constexpr RimPoint all_rim_points[] = {RimPoint::back_left,  RimPoint::back,        RimPoint::back_right,
                                              RimPoint::right,      RimPoint::front_right, RimPoint::front,
                                              RimPoint::front_left, RimPoint::left};
const char* name_of(RimPoint point);  ///< "back left", "back" ...

/// What a rule is held to there: the rim of the floor, the upstands' tops, or the threshold's outer top edge.
enum class ReadOn { rim, upstands, threshold };

struct RimReading {
  RimPoint point = RimPoint::back_left;
  units::Length value;
  ReadOn on = ReadOn::rim;
};
std::string place_on(const RimReading& reading);  ///< on what it was read on: "back left"; of the threshold "left"
std::string name_of(const RimReading& reading);   ///< "back left", "upstand back left", "threshold left"

/// Readings on the base as it lies in the wet bed, against any one level line; each is compared with the designed
/// height of its own place.
struct AsSet {
  bool down = false;  ///< distances below the line, not heights above it
  std::vector<RimReading> readings;
  std::optional<units::Length> line;  ///< of the level line above the datum; absent: only levelness is known
};

}  // namespace fallwright::job
