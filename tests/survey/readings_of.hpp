/// Readings of rooms that are drawn by their corners. Inside the tests of `survey` only.
#pragma once

#include <cmath>
#include <vector>

#include "survey/room.hpp"

namespace fallwright::survey {

inline const std::vector<Side> three{Side::back, Side::left, Side::right};

inline Plumb plumb(Side wall, double along, double lean, double over) {
  return {wall, along, {lean, 1, Face::stud, 0}, over};
}
inline double apart(Point a, Point b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

}  // namespace fallwright::survey
