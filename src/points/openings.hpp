/// What pieces of a plan leave open. Decided in whole numbers on a grid about the plan's middle, by Boost.Polygon, so
/// that the same comes out whatever the order of the pieces, and in a mirror. Lengths come in one unit, areas in its
/// square; those of models are millimetres.

#pragma once

#include <vector>

#include "points/points.hpp"

namespace fallwright::points {

struct Box2 {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
};

/// A part that is open in one piece.
struct Opening {
  std::vector<std::vector<Point2>> rings;  ///< its outline, and round what stands within it
  double area = 0;
};

/// The largest of the parts that convex pieces, which may lie over each other, leave of a box, and those whose area is
/// no more than `alike` less. A part is all that a square of the side `narrow`, its sides along the axes, sweeps
/// without touching a piece or leaving the box, and such a square cannot get from one part to another. None: no square
/// has room.
std::vector<Opening> largest_openings(const Box2& box, const std::vector<std::vector<Point2>>& covered, double narrow,
                                      double alike);

}  // namespace fallwright::points
