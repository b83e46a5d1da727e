/// What pictures of the work show of checks that fail, and where their floor lies. Inside `drawing` only.
#pragma once

#include <string>

#include "drawing/views.hpp"

namespace fallwright::drawing {

/// Whether nobody builds what a step brings, by the name it has in `Step::shows`, as it is drawn.
bool is_void(const Subject& subject, const std::string& shows);
/// Both diagonals of what is seen of a thing that is void; nothing of any other.
Projection strokes_over(const Subject& subject, const std::string& shows, const Projection& seen);
/// Likewise of the bore, in what a step brings that has it and shows it, drawn so far up.
Projection strokes_over_bore(const Subject& subject, const View& view, const std::string& shows, const Projection& seen,
                             double lifted_mm = 0);
/// Each line by which something of the picture is struck, and why.
void warn_in_pictures(Sheet& sheet, const Subject& subject);

/// Where the floor of a picture lies, which is level: at the lowest foot of what stands on it, lest that is seen to
/// end in the air under a floor that falls.
double drawn_floor_mm(const Subject& subject);

}  // namespace fallwright::drawing
