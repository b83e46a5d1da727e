/// Whether texts stand clear of lines and of each other, turned as they are.
#pragma once

#include "drawing/sheet.hpp"

namespace fallwright::drawing {

/// The box of a text's capitals, as it lies before it is turned: its anchor at the origin. Made once for a text that is
/// asked about again and again.
class Lying {
 public:
  Lying(const Text& text);  // NOLINT: wherever one is asked for, the text may be given

  Point in(Point p) const {
    const double x = p.x - at_.x, y = p.y - at_.y;
    return {x * cos_ + y * sin_, y * cos_ - x * sin_};
  }
  Point out(Point p) const { return {at_.x + p.x * cos_ - p.y * sin_, at_.y + p.x * sin_ + p.y * cos_}; }
  Box box(double margin) const { return {from_ - margin, -margin, from_ + width_ + margin, height_ + margin}; }
  /// Farther from its anchor than any of its letters, however it is turned, grown by `margin`.
  bool is_far(const Box& box, double margin) const {
    const double reach = reach_ + 2 * margin;
    return box.x1 < at_.x - reach || box.x0 > at_.x + reach || box.y1 < at_.y - reach || box.y0 > at_.y + reach;
  }
  /// A box about it, wherever in it the letters are.
  Box about() const { return {at_.x - reach_, at_.y - reach_, at_.x + reach_, at_.y + reach_}; }

 private:
  Point at_;
  double cos_, sin_, width_, from_, height_, reach_;
};

/// Whether a line comes into the box of a text's capitals, grown by `margin` all round.
bool crosses(const Line& line, const Lying& text, double margin = 0);
/// The same of an arc, along chords that are no further from it than anybody sees.
bool crosses(const Arc& arc, const Lying& text, double margin = 0);
/// Whether it comes into a box.
bool crosses(const Line& line, const Box& box);
/// Whether each of two lines runs on past the other on both its sides: what only begins or ends there does not.
bool cross(const Line& a, const Line& b);
/// Whether two texts' capitals lie over each other, or nearer to each other than `margin`.
bool meet(const Lying& a, const Lying& b, double margin = 0);

/// An arc as chords, each a few degrees.
std::vector<Line> chords_of(const Arc& arc);

/// What is left of a line once the box of a text, grown by `margin`, is taken out of it: none, one or two pieces.
std::vector<Line> without_text(const Line& line, const Lying& text, double margin);

}  // namespace fallwright::drawing
