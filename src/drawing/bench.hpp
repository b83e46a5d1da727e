/// What the sheets of the bench share. Inside `drawing` only.
#pragma once

#include "drawing/views.hpp"

namespace fallwright::drawing {

/// The way from the bench's wall to its front, in the alcove. @pre there is a bench.
gp_Dir front_of(const job::Job& job);
/// A place in plan off the bench's frame, on the side that a direction points to.
Point before_bench(const parts::Model& model, const gp_Dir& toward);
bool is_timber(const job::Job& job);  ///< its frame
bool in_frame(const parts::Solid& solid);
Frame extent_of_frame(const parts::Model& model, const View& view);
/// Strikes a view of the frame out while a check of it fails.
void strike_frame(Pen& pen, const Subject& subject, const Frame& view);

/// The seat block from its front, its left edge at `x`: how far its apron is notched at each end, and how high.
void add_notches(Sheet& sheet, Pen& pen, const Subject& subject, double x);
/// The same on a sheet of its own. @pre apron_is_notched(subject).
Sheet draw_notches(const Subject& subject);

}  // namespace fallwright::drawing
