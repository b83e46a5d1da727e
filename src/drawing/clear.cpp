#include "drawing/clear.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace fallwright::drawing {

Lying::Lying(const Text& text)
    : at_{text.at},
      cos_{text.rotation_deg == 0 ? 1 : std::cos(text.rotation_deg * M_PI / 180)},  // most lie level
      sin_{text.rotation_deg == 0 ? 0 : std::sin(text.rotation_deg * M_PI / 180)},
      width_{width_of(text.words, text.height)},
      from_{-share_before(text.anchor) * width_},
      height_{text.height} {
  constexpr double widest = 1.2;  // of a capital's height
  reach_ = (widest * letters_narrowed * static_cast<double>(text.words.size()) + 1) * text.height;
}

namespace {

Box box_round(const Line& line) {
  return {std::min(line.from.x, line.to.x), std::min(line.from.y, line.to.y), std::max(line.from.x, line.to.x),
          std::max(line.from.y, line.to.y)};
}

/// Between which shares of its length a line lies in a box (Liang and Barsky); nothing where it only touches it.
std::optional<std::pair<double, double>> share_in(Point a, Point b, const Box& box) {
  double from = 0, to = 1;
  const double dx = b.x - a.x, dy = b.y - a.y;
  const double p[] = {-dx, dx, -dy, dy}, q[] = {a.x - box.x0, box.x1 - a.x, a.y - box.y0, box.y1 - a.y};
  for (int i = 0; i < 4; ++i) {
    if (p[i] == 0 && q[i] <= 0) return std::nullopt;
    if (p[i] < 0) from = std::max(from, q[i] / p[i]);
    if (p[i] > 0) to = std::min(to, q[i] / p[i]);
  }
  if (from >= to) return std::nullopt;
  return std::pair{from, to};
}

std::array<Point, 4> corners_of(const Lying& text) {
  const Box b = text.box(0);
  return {text.out({b.x0, b.y0}), text.out({b.x1, b.y0}), text.out({b.x1, b.y1}), text.out({b.x0, b.y1})};
}

/// Whether all of `b`'s corners lie past one side of `a`, grown by `margin`.
bool lies_past(const Lying& a, const Lying& b, double margin) {
  const Box box = a.box(margin);
  bool left = true, right = true, below = true, above = true;
  for (const Point& corner : corners_of(b)) {
    const Point p = a.in(corner);
    left = left && p.x <= box.x0, right = right && p.x >= box.x1;
    below = below && p.y <= box.y0, above = above && p.y >= box.y1;
  }
  return left || right || below || above;
}

}  // namespace

std::vector<Line> chords_of(const Arc& arc) {
  constexpr double step = 4;  // degrees
  const auto at = [&](double degrees) {
    const double angle = degrees * M_PI / 180;
    return Point{arc.centre.x + arc.radius * std::cos(angle), arc.centre.y + arc.radius * std::sin(angle)};
  };
  std::vector<Line> chords;
  for (double d = arc.from_deg; d < arc.to_deg; d += step)
    chords.push_back({at(d), at(std::min(d + step, arc.to_deg)), arc.kind});
  return chords;
}

bool crosses(const Line& line, const Lying& text, double margin) {
  if (text.is_far(box_round(line), margin)) return false;
  return share_in(text.in(line.from), text.in(line.to), text.box(margin)).has_value();
}

bool crosses(const Line& line, const Box& box) {
  return share_in(line.from, line.to, box).has_value();
}

bool crosses(const Arc& arc, const Lying& text, double margin) {
  const Point c = arc.centre;
  if (text.is_far({c.x - arc.radius, c.y - arc.radius, c.x + arc.radius, c.y + arc.radius}, margin)) return false;
  const std::vector<Line> chords = chords_of(arc);
  return std::any_of(chords.begin(), chords.end(), [&](const Line& chord) { return crosses(chord, text, margin); });
}

bool cross(const Line& a, const Line& b) {
  const auto side = [](const Line& line, Point p) {
    return (line.to.x - line.from.x) * (p.y - line.from.y) - (line.to.y - line.from.y) * (p.x - line.from.x);
  };
  return side(a, b.from) * side(a, b.to) < 0 && side(b, a.from) * side(b, a.to) < 0;
}

bool meet(const Lying& a, const Lying& b, double margin) {
  if (a.is_far(b.about(), margin)) return false;
  return !lies_past(a, b, margin) && !lies_past(b, a, margin);
}

std::vector<Line> without_text(const Line& line, const Lying& text, double margin) {
  if (text.is_far(box_round(line), margin)) return {line};
  const auto in = share_in(text.in(line.from), text.in(line.to), text.box(margin));
  if (!in) return {line};
  const auto at = [&](double share) {
    return Point{line.from.x + share * (line.to.x - line.from.x), line.from.y + share * (line.to.y - line.from.y)};
  };
  std::vector<Line> left;
  if (in->first > 0) left.push_back({line.from, at(in->first), line.kind});
  if (in->second < 1) left.push_back({at(in->second), line.to, line.kind});
  return left;
}

}  // namespace fallwright::drawing
