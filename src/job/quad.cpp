#include "job/quad.hpp"

#include <algorithm>
#include <cmath>

#include "units/tolerance.hpp"

namespace fallwright::job {

using survey::Point, survey::Side;

namespace {

/// The corner that a side begins at, going round counter-clockwise.
std::size_t begin_of(Side side) {
  switch (side) {
    case Side::front:
      return 0;
    case Side::right:
      return 1;
    case Side::back:
      return 2;
    case Side::left:
      return 3;
  }
  return 0;
}

}  // namespace

survey::Rect Quad::box() const {
  survey::Rect box{at_[0].x, at_[0].y, at_[0].x, at_[0].y};
  for (const Point& p : at_) {
    box.x0 = std::min(box.x0, p.x), box.x1 = std::max(box.x1, p.x);
    box.y0 = std::min(box.y0, p.y), box.y1 = std::max(box.y1, p.y);
  }
  return box;
}

bool Quad::is_square() const {
  constexpr double same = units::tolerance::weld_mm;
  return std::abs(at_[0].y - at_[1].y) < same && std::abs(at_[1].x - at_[2].x) < same &&
         std::abs(at_[2].y - at_[3].y) < same && std::abs(at_[3].x - at_[0].x) < same;
}

Quad Quad::moved(double dx, double dy) const {
  Quad quad = *this;
  for (Point& p : quad.at_) p.x += dx, p.y += dy;
  return quad;
}

Point Quad::outward(Side side) const {
  const Point &a = at_[begin_of(side)], &b = at_[(begin_of(side) + 1) % 4];
  const double dx = b.x - a.x, dy = b.y - a.y, length = std::hypot(dx, dy);
  return {dy / length, -dx / length};
}

double Quad::reach(Side side) const {
  const Point n = outward(side), &p = at_[begin_of(side)];
  return n.x * p.x + n.y * p.y;
}

Point crossing(const Point& n, double at_n, const Point& m, double at_m) {
  const double det = n.x * m.y - n.y * m.x;
  return {(at_n * m.y - at_m * n.y) / det, (at_m * n.x - at_n * m.x) / det};
}

Point Quad::within(Side a, double by_a, Side b, double by_b) const {
  return crossing(outward(a), reach(a) - by_a, outward(b), reach(b) - by_b);
}

Quad Quad::inset(const std::array<double, 4>& by) const {
  const auto corner = [&](Side a, Side b) {
    return within(a, by[static_cast<std::size_t>(a)], b, by[static_cast<std::size_t>(b)]);
  };
  return {corner(Side::front, Side::left), corner(Side::front, Side::right), corner(Side::back, Side::right),
          corner(Side::back, Side::left)};
}

Point Quad::drawn(const Point& p) const {
  if (is_square()) return p;
  const survey::Rect r = box();
  const double u = (p.x - r.x0) / r.width(), v = (p.y - r.y0) / r.depth();
  const auto between = [&](double fl, double fr, double br, double bl) {
    return (1 - v) * ((1 - u) * fl + u * fr) + v * ((1 - u) * bl + u * br);
  };
  return {between(at_[0].x, at_[1].x, at_[2].x, at_[3].x), between(at_[0].y, at_[1].y, at_[2].y, at_[3].y)};
}

}  // namespace fallwright::job
