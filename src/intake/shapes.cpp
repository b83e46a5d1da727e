#include "intake/shapes.hpp"

#include <algorithm>

#include "units/tolerance.hpp"

namespace fallwright::intake {

using brep::Loop;
using brep::PlanPoint;
using survey::Side;

std::optional<Circle> circle_of(const Loop& loop) {
  constexpr double same = units::tolerance::length_mm;
  std::optional<Circle> circle;
  for (const brep::Corner& c : loop) {
    if (!c.centre) return std::nullopt;
    const Circle own{*c.centre, std::hypot(c.at.x - c.centre->x, c.at.y - c.centre->y)};
    if (!circle) circle = own;
    if (std::hypot(own.centre.x - circle->centre.x, own.centre.y - circle->centre.y) > same ||
        std::abs(own.radius - circle->radius) > same)
      return std::nullopt;
  }
  return circle;
}

double Line::beyond(PlanPoint p) const {
  return ((p.x - a.x) * (b.y - a.y) - (p.y - a.y) * (b.x - a.x)) / std::hypot(b.x - a.x, b.y - a.y);
}

survey::Point Line::meet(const Line& other) const {
  const double at_a = other.beyond(a), at_b = other.beyond(b), t = at_a / (at_a - at_b);
  return {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
}

std::vector<PlanPoint> corners_of(const Loop& loop) {
  std::vector<PlanPoint> corners;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    if (loop[i].centre) return {};
    const Line chord{loop[(i + loop.size() - 1) % loop.size()].at, loop[(i + 1) % loop.size()].at};
    if (std::abs(chord.beyond(loop[i].at)) > straight_mm) corners.push_back(loop[i].at);
  }
  return corners;
}

survey::Rect box_of(const Loop& loop) {
  survey::Rect box{loop[0].at.x, loop[0].at.y, loop[0].at.x, loop[0].at.y};
  for (const brep::Corner& c : loop) {
    box.x0 = std::min(box.x0, c.at.x), box.x1 = std::max(box.x1, c.at.x);
    box.y0 = std::min(box.y0, c.at.y), box.y1 = std::max(box.y1, c.at.y);
  }
  return box;
}

Side facing(PlanPoint a, PlanPoint b) {
  const double dx = b.x - a.x, dy = b.y - a.y;
  if (std::abs(dx) >= std::abs(dy)) return dx > 0 ? Side::front : Side::back;
  return dy > 0 ? Side::right : Side::left;
}

}  // namespace fallwright::intake
