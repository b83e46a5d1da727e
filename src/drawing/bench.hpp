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
bool is_stud(const parts::Solid& solid);  ///< of the frame
Frame extent_of_frame(const parts::Model& model, const View& view);
/// Strikes a view of the frame out while a check of it fails.
void strike_frame(Pen& pen, const Subject& subject, const Frame& view);

/// An edge of the frame's courses at one end of it, as a height above the datum.
struct CourseEdge {
  facts::Kind kind = facts::Kind::deck;
  bool top = false;  ///< of it; else its underside
  double z_mm = 0;
  double printed_mm = 0;  ///< down from the deck's top by the courses as those are printed, so that they add up
  std::string name() const;
};
std::string told(const Pen& pen, const CourseEdge& edge);  ///< its height with its name
/// Named by what ends there: its top, if anything's top does; the lowest first.
std::vector<CourseEdge> courses(const parts::Model& model, const View& view, bool right);
/// Courses one above the other, each as high as it is, and the whole.
std::vector<double> heights_of(const std::vector<CourseEdge>& edges);
/// For a ladder.
std::vector<Level> levels_of(const Pen& pen, const std::vector<CourseEdge>& edges);
/// Heights at both ends as a table under the view, where they would leave it no room at its sides; the highest first.
void add_heights(const Sheet& sheet, Pen& pen, const std::vector<CourseEdge>& at_left,
                 const std::vector<CourseEdge>& at_right, bool alike);

/// The seat block from its front, its left edge at `x`: how far its apron is notched at each end, and how high.
void add_notches(Sheet& sheet, Pen& pen, const Subject& subject, double x);
/// The same on a sheet of its own. @pre apron_is_notched(subject).
Sheet draw_notches(const Subject& subject);

}  // namespace fallwright::drawing
