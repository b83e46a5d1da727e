#include "exchange/white.hpp"

#include <algorithm>

#include "drawing/clear.hpp"
#include "exchange/line_styles.hpp"

namespace fallwright::exchange {

using drawing::Box, drawing::Line, drawing::LineKind;

White::White(const drawing::Sheet& sheet) : scale_{sheet.page.scale} {
  const auto add = [&](const Line& line) {
    if (line.kind != LineKind::section && line.kind != LineKind::outline && line.kind != LineKind::existing &&
        line.kind != LineKind::faint && line.kind != LineKind::correction && line.kind != LineKind::sheet)
      return;
    const auto [x0, x1] = std::minmax(line.from.x, line.to.x);
    const auto [y0, y1] = std::minmax(line.from.y, line.to.y);
    edges_.push_back({line, {x0, y0, x1, y1}, style_of(line.kind).weight / 2 * scale_});
  };
  for (const Line& line : sheet.lines) add(line);
  for (const drawing::Arc& arc : sheet.arcs)
    for (const Line& chord : drawing::chords_of(arc)) add(chord);
}

double White::about(const drawing::Text& text) const {
  constexpr double usual = 0.6, step = 0.1;
  const Box own = box_of(text);
  const double reach = (usual + 1) * scale_;
  const Box wide{own.x0 - reach, own.y0 - reach, own.x1 + reach, own.y1 + reach};
  double left = usual;
  for (const Edge& edge : edges_) {
    if (!meet(edge.box, wide)) continue;
    double clear = left;
    while (clear > 0 && crosses(edge.line, text, clear * scale_ + edge.half)) clear -= step;
    if (clear > 0) left = clear;  // else it runs through the letters, and stops before them
  }
  return left;
}

}  // namespace fallwright::exchange
