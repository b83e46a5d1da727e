#include "measure/least_width.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using job::Side;
using survey::Point, survey::Polygon;

constexpr double touch_mm = 0.01;  ///< a corner nearer to a line lies on it

Side across_from(Side side) {
  return side == Side::left    ? Side::right
         : side == Side::right ? Side::left
         : side == Side::back  ? Side::front
                               : Side::back;
}

/// Into the plan, from a side that runs along an axis.
Point inward_of(Side side) {
  return {side == Side::left    ? 1.
          : side == Side::right ? -1.
                                : 0.,
          side == Side::front  ? 1.
          : side == Side::back ? -1.
                               : 0.};
}

}  // namespace

std::vector<SideLine> side_lines(const Polygon& plan) {
  constexpr double askew = 0.25, long_enough = 0.125;  // to the axis; of all that the plan reaches along it
  std::vector<SideLine> lines;
  for (const Side side : {Side::back, Side::front, Side::left, Side::right}) {
    const Point in = inward_of(side);
    double low = std::numeric_limits<double>::max(), high = -low, farthest = low;
    for (const Point& p : plan) {
      const double along = in.x == 0 ? p.x : p.y;
      low = std::min(low, along), high = std::max(high, along);
      farthest = std::min(farthest, in.x * p.x + in.y * p.y);
    }
    bool any = false;
    for (std::size_t i = 0; i < plan.size(); ++i) {
      const Point &a = plan[i], &b = plan[(i + 1) % plan.size()];
      const double length = std::hypot(b.x - a.x, b.y - a.y);
      if (length < long_enough * (high - low)) continue;
      const SideLine line{side, -(b.y - a.y) / length, (b.x - a.x) / length, 0};
      if (line.nx * in.x + line.ny * in.y < 1 / std::hypot(1, askew)) continue;
      lines.push_back({side, line.nx, line.ny, line.inside(a)});
      any = true;
    }
    if (!any) lines.push_back({side, in.x, in.y, farthest});
  }
  return lines;
}

Least least_between(const Polygon& plan, const std::vector<SideLine>& lines) {
  const auto touches = [&](const SideLine& line) {
    return std::any_of(plan.begin(), plan.end(), [&](const Point& p) { return line.inside(p) < touch_mm; });
  };
  std::vector<SideLine> bounds;
  std::copy_if(lines.begin(), lines.end(), std::back_inserter(bounds), touches);
  constexpr double none = std::numeric_limits<double>::max();
  Least least{none, none};
  for (const SideLine& one : bounds)
    for (const SideLine& other : bounds) {
      if (other.side != across_from(one.side)) continue;
      double& of = one.side == Side::left || one.side == Side::right ? least.across_mm : least.deep_mm;
      for (const Point& p : plan)
        if (one.inside(p) < touch_mm) of = std::min(of, std::max(0.0, other.inside(p)));
    }
  return {least.across_mm < none ? least.across_mm : 0, least.deep_mm < none ? least.deep_mm : 0};
}

}  // namespace fallwright::measure
