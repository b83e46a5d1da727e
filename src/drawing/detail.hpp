/// Parts of a section drawn larger beside it. Inside `drawing` only.
#pragma once

#include <functional>
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

/// Draws it at a scale with its upper left corner at `place`: what is cut, filled and named, the title with its scale
/// below it, and about the window in the view a circle with the number. Nothing there is dimensioned: lengths would not
/// be the sheet's.
/// @return the lower right corner of all of it.
Point add_detail(Sheet& sheet, Pen& pen, const std::vector<CutSolid>& cut, const Detail& detail, double scale,
                 Point place);

/// Draws the details of a sheet, all at the scale it is given.
using Details = std::function<void(Sheet& sheet, Pen& pen, double scale)>;
/// Beside a view: at the largest usual scale at which the sheet still fits its page, at least twice the view's. Notes
/// that the sheet has stand there already: they take room.
void add_details(Sheet& sheet, Pen& pen, const job::Job& job, const Details& draw);
/// On a sheet of their own, for small paper: at the sheet's scale.
Sheet details_alone(const std::string& name, const std::string& title, const job::Job& job, const Details& draw);

}  // namespace fallwright::drawing
