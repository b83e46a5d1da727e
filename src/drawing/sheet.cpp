#include "drawing/sheet.hpp"

#include <algorithm>
#include <cmath>

namespace fallwright::drawing {

const char* name_of(LineKind kind) {
  switch (kind) {
    case LineKind::outline:
      return "outline";
    case LineKind::hidden:
      return "hidden";
    case LineKind::centre:
      return "centre";
    case LineKind::dimension:
      return "dimension";
    case LineKind::text:
      return "text";
    case LineKind::existing:
      return "existing";
    case LineKind::correction:
      return "correction";
    case LineKind::rejected:
      return "rejected";
    case LineKind::sheet:
      return "sheet";
  }
  return "";
}

Box box_of(const Text& t) {
  std::size_t letters = 0;  // not bytes: letters beyond ASCII take several
  for (const char c : t.words) letters += (static_cast<unsigned char>(c) & 0xc0u) != 0x80u;
  const double w = letter_width * t.height * static_cast<double>(letters);
  const double from = t.anchor == Anchor::left ? 0 : t.anchor == Anchor::middle ? -w / 2 : -w;
  const double turn = t.rotation_deg * 3.14159265358979323846 / 180, c = std::cos(turn), s = std::sin(turn);
  Box box{1e300, 1e300, -1e300, -1e300};
  for (const double u : {from, from + w})
    for (const double v : {0.0, t.height}) {
      const double x = t.at.x + u * c - v * s, y = t.at.y + u * s + v * c;
      box = {std::min(box.x0, x), std::min(box.y0, y), std::max(box.x1, x), std::max(box.y1, y)};
    }
  return box;
}

bool meet(const Box& a, const Box& b) {
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}

}  // namespace fallwright::drawing
