/// Draws on a sheet: dimensions as plain lines that every reader shows, notes, arrows, views.
#pragma once

#include <string>

#include "drawing/projection.hpp"
#include "drawing/sheet.hpp"

namespace fallwright::drawing {

class Pen {
 public:
  /// `text_mm` is the height of ordinary text, in millimetres of the real thing.
  Pen(Sheet& sheet, double text_mm) : sheet_{sheet}, text_{text_mm} {}
  double text_mm() const { return text_; }

  void add(const Projection& projection, Point shift = {});
  void line(Point from, Point to, LineKind kind);
  void note(Point at, const std::string& words, Anchor anchor = Anchor::left, double size = 1, double rotation_deg = 0);
  void arrow(Point from, Point to);

  /// Where a text stands that is too long for the space between its ticks.
  enum class Overflow { right, left };

  /// A level dimension between two points, its line at height `y`; the text shows the length in the trade's notation.
  void across(Point from, Point to, double y, Overflow overflow = Overflow::right);
  /// An upright dimension, its line at `x`; the text stands level, on the side away from what is measured, so that
  /// short heights one above the other stay legible.
  void upright(Point from, Point to, double x);

 private:
  void tick(Point at);
  void witness(Point from, Point to);
  std::string words(double length_mm) const;

  Sheet& sheet_;
  double text_;
};

}  // namespace fallwright::drawing
