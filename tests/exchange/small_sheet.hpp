/// A sheet small enough to know by heart. Inside the tests of `exchange` only.
#pragma once

#include "drawing/sheet.hpp"

namespace fallwright::exchange {

/// A page of 200 x 100 mm at 1:2 whose lower left corner lies at (-20, -10).
inline drawing::Sheet small_sheet(bool metric) {
  using drawing::Anchor, drawing::LineKind;
  drawing::Sheet s{"plan", "Plan", metric, {}, {}, {}, {}};
  double y = 0;
  for (const LineKind kind : drawing::all_line_kinds) s.lines.push_back({{25.4, y += 12.7}, {50.8, y + 2}, kind});
  s.arcs = {{{100, 50}, 25.4, 0, 360, LineKind::outline}, {{110, 60}, 12.7, 30, 150, LineKind::hidden}};
  s.texts = {{{10, 20}, 5.08, "abc", 0, Anchor::left},
             {{10, 40}, 5.08, "abc", 0, Anchor::middle},
             {{10, 60}, 10.16, "abc", 0, Anchor::right},
             {{30, 80}, 5.08, "abc", 90, Anchor::left},
             {{40, 80}, 5.08, "abc", 90, Anchor::middle}};
  s.page = {{"own", 200, 100}, 2, {-20, -10}};
  return s;
}

}  // namespace fallwright::exchange
