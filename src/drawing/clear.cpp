#include "drawing/clear.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace fallwright::drawing {
namespace {

/// A text as it lies before it is turned: its anchor at the origin.
class Lying {
 public:
  explicit Lying(const Text& text)
      : at_{text.at},
        cos_{text.rotation_deg == 0 ? 1 : std::cos(text.rotation_deg * M_PI / 180)},  // most lie level
        sin_{text.rotation_deg == 0 ? 0 : std::sin(text.rotation_deg * M_PI / 180)},
        width_{width_of(text.words, text.height)},
        from_{-share_before(text.anchor) * width_},
        height_{text.height} {}

  Point in(Point p) const {
    const double x = p.x - at_.x, y = p.y - at_.y;
    return {x * cos_ + y * sin_, y * cos_ - x * sin_};
  }
  Point out(Point p) const { return {at_.x + p.x * cos_ - p.y * sin_, at_.y + p.x * sin_ + p.y * cos_}; }
  Box box(double margin) const { return {from_ - margin, -margin, from_ + width_ + margin, height_ + margin}; }

 private:
  Point at_;
  double cos_, sin_, width_, from_, height_;
};

/// No letter of a text lies farther from its anchor, however it is turned: most lines of a sheet are nowhere near.
double reach_of(const Text& text, double margin) {
  constexpr double widest = 1.2;  // of a capital's height
  return (widest * letters_narrowed * static_cast<double>(text.words.size()) + 1) * text.height + 2 * margin;
}

bool is_far(const Box& box, const Text& text, double margin) {
  const double reach = reach_of(text, margin);
  return box.x1 < text.at.x - reach || box.x0 > text.at.x + reach || box.y1 < text.at.y - reach ||
         box.y0 > text.at.y + reach;
}

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

std::array<Point, 4> corners_of(const Text& text) {
  const Lying lying{text};
  const Box b = lying.box(0);
  return {lying.out({b.x0, b.y0}), lying.out({b.x1, b.y0}), lying.out({b.x1, b.y1}), lying.out({b.x0, b.y1})};
}

/// Whether all of `b`'s corners lie past one side of `a`, grown by `margin`.
bool lies_past(const Text& a, const Text& b, double margin) {
  const Lying lying{a};
  const Box box = lying.box(margin);
  bool left = true, right = true, below = true, above = true;
  for (const Point& corner : corners_of(b)) {
    const Point p = lying.in(corner);
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

bool crosses(const Line& line, const Text& text, double margin) {
  if (is_far(box_round(line), text, margin)) return false;
  const Lying lying{text};
  return share_in(lying.in(line.from), lying.in(line.to), lying.box(margin)).has_value();
}

bool crosses(const Line& line, const Box& box) {
  return share_in(line.from, line.to, box).has_value();
}

bool crosses(const Arc& arc, const Text& text, double margin) {
  const Point c = arc.centre;
  if (is_far({c.x - arc.radius, c.y - arc.radius, c.x + arc.radius, c.y + arc.radius}, text, margin)) return false;
  const std::vector<Line> chords = chords_of(arc);
  return std::any_of(chords.begin(), chords.end(), [&](const Line& chord) { return crosses(chord, text, margin); });
}

bool cross(const Line& a, const Line& b) {
  const auto side = [](const Line& line, Point p) {
    return (line.to.x - line.from.x) * (p.y - line.from.y) - (line.to.y - line.from.y) * (p.x - line.from.x);
  };
  return side(a, b.from) * side(a, b.to) < 0 && side(b, a.from) * side(b, a.to) < 0;
}

bool meet(const Text& a, const Text& b, double margin) {
  const double reach = reach_of(b, 0);
  if (is_far({b.at.x - reach, b.at.y - reach, b.at.x + reach, b.at.y + reach}, a, margin)) return false;
  return !lies_past(a, b, margin) && !lies_past(b, a, margin);
}

std::vector<Line> without_text(const Line& line, const Text& text, double margin) {
  if (is_far(box_round(line), text, margin)) return {line};
  const Lying lying{text};
  const auto in = share_in(lying.in(line.from), lying.in(line.to), lying.box(margin));
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
