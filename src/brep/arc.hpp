/// Arcs in plan, from their ends and their centre.
#pragma once

#include <cmath>
#include <numbers>

#include "brep/relief.hpp"

namespace fallwright::brep {

/// Angle turned counter-clockwise about `centre` from `a` to `b`, above 0 and up to a full turn.
inline double sweep(PlanPoint a, PlanPoint b, PlanPoint centre) {
  const double turn = std::atan2(b.y - centre.y, b.x - centre.x) - std::atan2(a.y - centre.y, a.x - centre.x);
  return turn > 0 ? turn : turn + 2 * std::numbers::pi;
}

/// The point at `share` of the arc from `a` to `b`.
inline PlanPoint along_arc(PlanPoint a, PlanPoint b, PlanPoint centre, bool clockwise, double share) {
  const double turn = clockwise ? -sweep(b, a, centre) : sweep(a, b, centre);
  const double angle = std::atan2(a.y - centre.y, a.x - centre.x) + share * turn;
  const double radius = std::hypot(a.x - centre.x, a.y - centre.y);
  return {centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)};
}

}  // namespace fallwright::brep
