/// The plan that a solid or a surface takes, if convex, and its sides by the way they face. Inside `measure` only.
#pragma once

#include <array>
#include <vector>

#include <gp_Pnt.hxx>

#include "measure/shapes.hpp"
#include "parts/model.hpp"
#include "survey/floor.hpp"

namespace fallwright::measure {

/// Convex hull, counter-clockwise, without corners that rounding alone has made.
survey::Polygon hull(std::vector<survey::Point> points);

/// Of a convex plan what reaches farthest toward each corner: back left, back right, front right, front left. A base
/// built between walls out of square fills no rectangle, and what lies beside it lies under no base.
std::array<survey::Point, 4> four_corners(const survey::Polygon& plan);

double area_of(const survey::Polygon& polygon);

/// A convex plan. A side is all of its outline that faces one way more than any other.
class Rim {
 public:
  Rim() = default;
  explicit Rim(const std::vector<survey::Point>& points) : corners_{hull(points)} {}
  explicit Rim(const parts::Solid& solid);

  const survey::Polygon& corners() const { return corners_; }
  /// Whether a point lies on a side in plan, or nearer to it than so much.
  bool on(const gp_Pnt& p, survey::Side side, double near_mm) const;
  /// How far a point lies from the line of a side in plan.
  double away(const gp_Pnt& p, survey::Side side) const;
  /// How far a side reaches along the width (back, front) or along the depth (left, right).
  double reach(survey::Side side) const;
  /// How long a side is along itself.
  double length(survey::Side side) const;

 private:
  survey::Polygon corners_;
};

}  // namespace fallwright::measure
