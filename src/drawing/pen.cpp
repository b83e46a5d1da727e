#include "drawing/pen.hpp"

#include <cmath>

#include "units/length.hpp"

namespace fallwright::drawing {

void Pen::add(const Projection& projection, Point shift) {
  for (Line line : projection.lines) {
    line.from = {line.from.x + shift.x, line.from.y + shift.y};
    line.to = {line.to.x + shift.x, line.to.y + shift.y};
    sheet_.lines.push_back(line);
  }
  for (Arc arc : projection.arcs) {
    arc.centre = {arc.centre.x + shift.x, arc.centre.y + shift.y};
    sheet_.arcs.push_back(arc);
  }
}

void Pen::line(Point from, Point to, LineKind kind) {
  sheet_.lines.push_back({from, to, kind});
}

void Pen::note(Point at, const std::string& words, Anchor anchor, double size, double rotation_deg) {
  sheet_.texts.push_back({at, text_ * size, words, rotation_deg, anchor});
}

void Pen::arrow(Point from, Point to) {
  line(from, to, LineKind::dimension);
  const double angle = std::atan2(to.y - from.y, to.x - from.x), barb = text_ * 0.7;
  for (const double side : {0.85, -0.85})
    line(to, {to.x - barb * std::cos(angle + side / 2), to.y - barb * std::sin(angle + side / 2)}, LineKind::dimension);
}

std::string Pen::words(double length_mm) const {
  return units::to_text(units::Length::mm(length_mm), sheet_.metric);
}

void Pen::tick(Point at) {
  const double half = text_ * 0.35;
  line({at.x - half, at.y - half}, {at.x + half, at.y + half}, LineKind::dimension);
}

/// From near the thing to just past the dimension line.
void Pen::witness(Point from, Point to) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  if (length < text_) return;
  const double ux = (to.x - from.x) / length, uy = (to.y - from.y) / length, gap = text_ * 0.4;
  line({from.x + ux * gap, from.y + uy * gap}, {to.x + ux * gap, to.y + uy * gap}, LineKind::dimension);
}

void Pen::across(Point from, Point to, double y, Overflow overflow) {
  if (from.x > to.x) std::swap(from, to);
  const Point a{from.x, y}, b{to.x, y};
  witness(from, a);
  witness(to, b);
  line(a, b, LineKind::dimension);
  tick(a);
  tick(b);
  const std::string text = words(to.x - from.x);
  const double above = y + text_ * 0.35;
  if (to.x - from.x > text_ * (0.75 * static_cast<double>(text.size()) + 0.5))
    note({(a.x + b.x) / 2, above}, text, Anchor::middle);
  else if (overflow == Overflow::right)
    note({b.x + text_ * 0.6, above}, text);
  else
    note({a.x - text_ * 0.6, above}, text, Anchor::right);
  sheet_.dimensions.push_back({from, to, text, to.x - from.x});
}

void Pen::upright(Point from, Point to, double x) {
  if (from.y > to.y) std::swap(from, to);
  const Point a{x, from.y}, b{x, to.y};
  const bool to_the_right = x > from.x;
  witness(from, a);
  witness(to, b);
  line(a, b, LineKind::dimension);
  tick(a);
  tick(b);
  const std::string text = words(to.y - from.y);
  note({x + (to_the_right ? 0.6 : -0.6) * text_, (a.y + b.y - text_) / 2}, text,
       to_the_right ? Anchor::left : Anchor::right);
  sheet_.dimensions.push_back({from, to, text, to.y - from.y});
}

}  // namespace fallwright::drawing
