/// Parts of a section drawn larger beside it. Inside `drawing` only.
#pragma once

#include <string>
#include <vector>

#include "drawing/hatch.hpp"

namespace fallwright::drawing {

/// What of a section is drawn larger, and what it shows; its number runs through the sheet.
struct Detail {
  int number = 1;
  std::string title;   ///< "rim and apron"
  Frame window;        ///< in the section's view
  bool marked = true;  ///< by a circle: the sheet shows the whole section as well
};

/// The scale at which details stand beside a view of another: the largest usual one that is at most half of it.
double detail_scale(double scale, bool metric);

/// Draws it with its upper left corner at `place`: what is cut, filled and named, the title with its scale below it,
/// and about the window in the view a circle with the number. Nothing there is dimensioned: lengths would not be the
/// sheet's.
/// @return the lower right corner of all of it.
Point add_detail(Sheet& sheet, Pen& pen, const std::vector<CutSolid>& cut, const Detail& detail, Point place);

}  // namespace fallwright::drawing
