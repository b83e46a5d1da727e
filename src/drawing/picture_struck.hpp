/// What pictures of the work show of checks that fail, and where their floor lies. Inside `drawing` only.
#pragma once

#include <string>

#include "drawing/views.hpp"

namespace fallwright::drawing {

/// Whether nobody builds what a step brings, by the name it has in `Step::shows`, as it is drawn.
bool is_void(const Subject& subject, const std::string& shows);
/// Both diagonals of what is seen of a thing that is void, not to its corners; nothing of any other.
Projection strokes_over(const Subject& subject, const std::string& shows, const Projection& seen);
/// Strokes as far as they run clear of what stands there and is not void: to its outline, as if that had no hollows.
Projection strokes_beside(const Projection& strokes, const Projection& stands);
/// Likewise of the bore in the floor, where that shows it, drawn so far up. What is laid over it is whole there till
/// its place is settled.
Projection strokes_over_bore(const Subject& subject, const View& view, const std::string& shows, const Projection& seen,
                             double lifted_mm = 0);
/// Each line by which something of the picture is struck, and why.
void warn_in_pictures(Sheet& sheet, const Subject& subject);

/// Where the floor of a picture lies, which is level: at the lowest foot of what stands on it, lest that is seen to
/// end in the air under a floor that falls.
double drawn_floor_mm(const Subject& subject);

}  // namespace fallwright::drawing
