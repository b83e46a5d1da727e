#include "drawing/sheet.hpp"

#include <algorithm>
#include <cmath>

namespace fallwright::drawing {

const char* name_of(LineKind kind) {
  switch (kind) {
    case LineKind::section:
      return "section";
    case LineKind::outline:
      return "outline";
    case LineKind::hidden:
      return "hidden";
    case LineKind::centre:
      return "centre";
    case LineKind::phantom:
      return "phantom";
    case LineKind::dimension:
      return "dimension";
    case LineKind::hatch:
      return "hatch";
    case LineKind::text:
      return "text";
    case LineKind::existing:
      return "existing";
    case LineKind::faint:
      return "faint";
    case LineKind::correction:
      return "correction";
    case LineKind::limit:
      return "limit";
    case LineKind::rejected:
      return "rejected";
    case LineKind::sheet:
      return "sheet";
    case LineKind::frame:
      return "frame";
  }
  return "";
}

double share_before(Anchor anchor) {
  return anchor == Anchor::left ? 0 : anchor == Anchor::middle ? 0.5 : 1;
}

double width_of(std::string_view words, double height) {
  // Widths of osifont's letters from the blank to the tilde, in hundredths of a capital's height, unhinted, rounded up.
  static constexpr int widths[] = {59, 30,  54, 84, 64, 104, 84, 28,  35, 35, 72, 64,  32, 64,  28, 67, 77, 66,  78,
                                   78, 79,  83, 80, 79, 81,  82, 31,  35, 64, 63, 64,  63, 110, 84, 91, 82, 90,  82,
                                   84, 94,  97, 44, 57, 93,  80, 108, 96, 91, 90, 93,  97, 91,  85, 95, 97, 120, 95,
                                   99, 90,  37, 63, 37, 53,  64, 43,  74, 82, 68, 81,  81, 74,  83, 80, 41, 45,  82,
                                   53, 101, 80, 79, 83, 80,  68, 79,  65, 80, 79, 104, 81, 81,  63, 43, 30, 43,  64};
  constexpr int beyond_ascii = 110;  // as wide as the widest but one
  int width = 0;
  for (const char c : words) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte >= ' ' && byte <= '~')
      width += widths[byte - ' '];
    else if ((byte & 0xc0u) != 0x80u)  // letters beyond ASCII take several bytes
      width += beyond_ascii;
  }
  return 0.01 * width * letters_narrowed * height;
}

Box box_of(const Text& t) {
  const double w = width_of(t.words, t.height);
  const double from = -share_before(t.anchor) * w;
  const double turn = t.rotation_deg * 3.14159265358979323846 / 180;
  const double c = turn == 0 ? 1 : std::cos(turn), s = turn == 0 ? 0 : std::sin(turn);
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
