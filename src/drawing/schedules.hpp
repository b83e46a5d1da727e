/// Schedules that stand beside the framer's views, or on a sheet of their own. Inside `drawing` only.
#pragma once

#include "drawing/views.hpp"

namespace fallwright::drawing {

/// Of what is counted, and nobody said which.
inline constexpr const char* kind_on_hold = ", kind on HOLD";

/// Whether a piece of the cut list waits: lists then have a column that says which.
bool any_on_hold(const std::vector<takeoff::CutRow>& cuts);

/// Why pieces of the cut list wait, a line for each cause: "HOLD N, P: hangs on the base,
/// ...". The bench's have a warning of their own, and what waits for studs that nobody read has the note of those.
std::vector<std::string> hold_notes(const Subject& subject);

/// What holds the bench's frame together, and each wall's own pieces: joint, what with, how many of it. @return where
/// the table ends.
double add_bench_fasteners(Pen& pen, const Subject& subject, Point top_left, double width);
double add_wall_fasteners(Pen& pen, const Subject& subject, const facts::Family& family, Point top_left, double width);

/// Whether they stand on a sheet of their own, beside no view: on small paper, and where one of them is longer than its
/// place on a page.
/// The note of a view whose schedules have sheets of their own: on which each stands.
std::string where_pieces_stand(const Subject& s);
bool schedules_apart(const Subject& subject);

/// That a wall's framing stands already; else what holds its plates, of which no key says anything: beside a view that
/// is no row of its table, which would make it smaller.
std::string framing_note(const job::Job& job);

/// Whether a wall has pieces or fastenings to tell of.
bool has_schedule(const Pen& pen, const Subject& subject, const facts::Family& family);

/// The marks of the pieces of a family: mark, count, stock, length, ends.
double add_marks_table(Pen& pen, const Subject& subject, const facts::Family& family, Point top_left, double width);

}  // namespace fallwright::drawing
