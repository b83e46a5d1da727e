/// What is drawn by assumption.
#pragma once

#include <algorithm>
#include <vector>

#include "facts/room.hpp"

namespace fallwright::facts {

/// Whether a wall stands already and nobody read where its studs are.
inline bool are_studs_assumed(const std::vector<StudGap>& studs, Side wall) {
  return std::any_of(studs.begin(), studs.end(),
                     [&](const StudGap& stud) { return stud.wall == wall && stud.assumed; });
}

}  // namespace fallwright::facts
