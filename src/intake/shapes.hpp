/// Circles and straight lines among the loops of a plan. Inside `intake` only.
#pragma once

#include <cmath>
#include <optional>
#include <vector>

#include "brep/relief.hpp"
#include "job/quad.hpp"

namespace fallwright::intake {

/// What is off a line by less is on it: what a file keeps of its digits.
inline constexpr double straight_mm = 1e-3;

struct Circle {
  brep::PlanPoint centre;
  double radius = 0;
};
/// The circle that a loop is; nothing for any other loop.
std::optional<Circle> circle_of(const brep::Loop& loop);

/// A straight edge of an outline that runs counter-clockwise.
struct Line {
  brep::PlanPoint a, b;
  double length = 0;
  Line() = default;
  Line(brep::PlanPoint from, brep::PlanPoint to) : a{from}, b{to}, length{std::hypot(to.x - from.x, to.y - from.y)} {}
  double beyond(brep::PlanPoint p) const;  ///< how far a point lies outside of it
  survey::Point meet(const Line& other) const;
};

/// Corners of a loop of straight edges, those on a straight line left out; empty where an edge is bent.
std::vector<brep::PlanPoint> corners_of(const brep::Loop& loop);

survey::Rect box_of(const brep::Loop& loop);

/// The way that an outline looks from `a` to `b`, counter-clockwise.
survey::Side facing(brep::PlanPoint a, brep::PlanPoint b);

}  // namespace fallwright::intake
