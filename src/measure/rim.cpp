#include "measure/rim.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using survey::Point, survey::Polygon, survey::Side;

/// Corners that rounding alone has made: on a straight side, or one beside another.
Polygon without_straight_corners(Polygon polygon) {
  for (std::size_t i = 0; i < polygon.size() && polygon.size() > 3;) {
    const Point before = polygon[(i + polygon.size() - 1) % polygon.size()];
    const Point after = polygon[(i + 1) % polygon.size()];
    const double span = std::hypot(after.x - before.x, after.y - before.y);
    const bool twin = std::hypot(polygon[i].x - before.x, polygon[i].y - before.y) <= units::tolerance::length_mm;
    if (twin || cross(before, polygon[i], after) <= units::tolerance::length_mm * span)
      polygon.erase(polygon.begin() + static_cast<std::ptrdiff_t>(i));
    else
      ++i;
  }
  return polygon;
}

/// Leaves out what lies well within the four points that reach farthest aslant: of a base that is nearly all.
void drop_inner(std::vector<Point>& points) {
  if (points.size() < 16) return;
  const auto by_sum = [](const Point& a, const Point& b) { return a.x + a.y < b.x + b.y; };
  const auto by_difference = [](const Point& a, const Point& b) { return a.x - a.y < b.x - b.y; };
  const auto [low, high] = std::minmax_element(points.begin(), points.end(), by_sum);
  const auto [left, right] = std::minmax_element(points.begin(), points.end(), by_difference);
  const std::array<Point, 4> outer{*low, *right, *high, *left};  // counter-clockwise
  struct Edge {
    double x, y, dx, dy, least;
  };
  std::array<Edge, 4> edges{};
  for (std::size_t i = 0; i < 4; ++i) {
    const Point &a = outer[i], &b = outer[(i + 1) % 4];
    const double dx = b.x - a.x, dy = b.y - a.y;
    edges[i] = {a.x, a.y, dx, dy, units::tolerance::length_mm * (std::abs(dx) + std::abs(dy))};
  }
  const auto is_within = [&](const Point& p) {
    return std::all_of(edges.begin(), edges.end(),
                       [&](const Edge& s) { return s.dx * (p.y - s.y) - s.dy * (p.x - s.x) > s.least; });
  };
  std::erase_if(points, is_within);
}

/// The way that the outline faces from `a` to `b`, counter-clockwise.
Side facing(const Point& a, const Point& b) {
  const double dx = b.x - a.x, dy = b.y - a.y;
  if (std::abs(dx) >= std::abs(dy)) return dx > 0 ? Side::front : Side::back;
  return dy > 0 ? Side::right : Side::left;
}

}  // namespace

/// Signs of the cross product are taken as they are: with a tolerance a true corner would be lost where points on an
/// upright side stand in no order.
Polygon hull(std::vector<Point> points) {
  drop_inner(points);
  std::sort(points.begin(), points.end(),
            [](const Point& a, const Point& b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
  Polygon polygon;
  const auto half = [&](auto begin, auto end) {
    const std::size_t start = polygon.size();
    for (auto it = begin; it != end; ++it) {
      while (polygon.size() >= start + 2 && cross(polygon[polygon.size() - 2], polygon.back(), *it) <= 0)
        polygon.pop_back();
      polygon.push_back(*it);
    }
    polygon.pop_back();
  };
  half(points.begin(), points.end());
  half(points.rbegin(), points.rend());
  return without_straight_corners(polygon);
}

std::array<Point, 4> four_corners(const Polygon& plan) {
  const auto farthest = [&](double right, double back) {
    const auto reach = [&](const Point& p) { return right * p.x + back * p.y; };
    return *std::max_element(plan.begin(), plan.end(), [&](const Point& a, const Point& b) {
      return reach(a) < reach(b) - units::tolerance::length_mm;
    });
  };
  return {farthest(-1, 1), farthest(1, 1), farthest(1, -1), farthest(-1, -1)};
}

double area_of(const Polygon& polygon) {
  double twice = 0;
  for (std::size_t i = 1; i + 1 < polygon.size(); ++i) twice += cross(polygon[0], polygon[i], polygon[i + 1]);
  return twice / 2;
}

Rim::Rim(const parts::Solid& solid) {
  std::vector<Point> points;
  for (const gp_Pnt& p : parts::corners_of(solid)) points.push_back({p.X(), p.Y()});
  corners_ = hull(std::move(points));
}

bool Rim::on(const gp_Pnt& p, Side side, double near_mm) const {
  for (std::size_t i = 0; i < corners_.size(); ++i) {
    const Point &a = corners_[i], &b = corners_[(i + 1) % corners_.size()];
    if (facing(a, b) == side && std::abs(cross(a, b, {p.X(), p.Y()})) < near_mm * std::hypot(b.x - a.x, b.y - a.y))
      return true;
  }
  return false;
}

double Rim::away(const gp_Pnt& p, Side side) const {
  double least = std::numeric_limits<double>::max();
  for (std::size_t i = 0; i < corners_.size(); ++i) {
    const Point &a = corners_[i], &b = corners_[(i + 1) % corners_.size()];
    if (facing(a, b) == side)
      least = std::min(least, std::abs(cross(a, b, {p.X(), p.Y()})) / std::hypot(b.x - a.x, b.y - a.y));
  }
  return least;
}

double Rim::reach(Side side) const {
  const bool across = side == Side::back || side == Side::front;
  double reach = 0;
  for (std::size_t i = 0; i < corners_.size(); ++i) {
    const Point &a = corners_[i], &b = corners_[(i + 1) % corners_.size()];
    if (facing(a, b) == side) reach += std::abs(across ? b.x - a.x : b.y - a.y);
  }
  return reach;
}

double Rim::length(Side side) const {
  double length = 0;
  for (std::size_t i = 0; i < corners_.size(); ++i) {
    const Point &a = corners_[i], &b = corners_[(i + 1) % corners_.size()];
    if (facing(a, b) == side) length += std::hypot(b.x - a.x, b.y - a.y);
  }
  return length;
}

}  // namespace fallwright::measure
