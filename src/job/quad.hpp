/// A plan of four straight sides: a base or a floor that need not be square.
#pragma once

#include <array>

#include "survey/floor.hpp"
#include "survey/readings.hpp"

namespace fallwright::job {

/// Where two lines cross, each square to a direction and so far along it from the origin.
survey::Point crossing(const survey::Point& n, double at_n, const survey::Point& m, double at_m);

/// Convex; corners counter-clockwise from the front left one, so that the sides follow as front, right, back, left.
class Quad {
 public:
  Quad() = default;
  explicit Quad(const survey::Rect& r) : at_{{{r.x0, r.y0}, {r.x1, r.y0}, {r.x1, r.y1}, {r.x0, r.y1}}} {}
  Quad(survey::Point front_left, survey::Point front_right, survey::Point back_right, survey::Point back_left)
      : at_{front_left, front_right, back_right, back_left} {}

  const std::array<survey::Point, 4>& corners() const { return at_; }
  survey::Polygon polygon() const { return {at_.begin(), at_.end()}; }
  survey::Rect box() const;
  bool is_square() const;  ///< all sides run along the axes
  Quad moved(double dx, double dy) const;

  survey::Point outward(survey::Side side) const;  ///< square to the side, a unit vector
  double reach(survey::Side side) const;           ///< how far the side lies along that, from the origin
  /// Sides moved inward, by `Side` (back, front, left, right); negative: outward.
  Quad inset(const std::array<double, 4>& by) const;
  /// The point so far inside two sides that meet.
  survey::Point within(survey::Side a, double by_a, survey::Side b, double by_b) const;
  /// Where a point of the box round it lies once the box is drawn to its four corners.
  survey::Point drawn(const survey::Point& p) const;

 private:
  std::array<survey::Point, 4> at_{};
};

}  // namespace fallwright::job
