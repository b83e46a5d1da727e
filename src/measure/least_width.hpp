/// How near opposite sides of a convex plan come to each other. Inside `measure` only.
#pragma once

#include <optional>
#include <vector>

#include "job/job.hpp"
#include "survey/floor.hpp"

namespace fallwright::measure {

/// A straight side of a plan as a line: inside lies what has nx x + ny y >= reach_mm, with a normal of length 1.
struct SideLine {
  job::Side side = job::Side::back;
  double nx = 0, ny = 0, reach_mm = 0;
  double inside(const survey::Point& p) const { return nx * p.x + ny * p.y - reach_mm; }
};

/// The sides of a convex plan, counter-clockwise: its long edges that run along the room's axes or a little askew to
/// them. Roundings and cut corners are no side; a side that has no such edge is taken where it reaches farthest.
std::vector<SideLine> side_lines(const survey::Polygon& plan);

/// The least distance between a plan's left and right, and between its front and back: where a side that is askew comes
/// nearest to the other. @param lines of all four sides; those that the plan does not touch count for nothing
struct Least {
  double across_mm = 0, deep_mm = 0;
};
Least least_between(const survey::Polygon& plan, const std::vector<SideLine>& lines);

}  // namespace fallwright::measure
