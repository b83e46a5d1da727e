/// The sheets, one function each. Inside `drawing` only.
#pragma once

#include <vector>

#include "drawing/sheet.hpp"
#include "drawing/subject.hpp"

namespace fallwright::drawing {

std::vector<Sheet> draw_plan(const Subject& subject);
std::vector<Sheet> draw_falls(const Subject& subject);
std::vector<Sheet> draw_bed(const Subject& subject);
Sheet draw_screed(const Subject& subject);  ///< in place of the bed's, of a base that is built on site
/// The same base's threshold and how its floor meets the back wall, larger; nothing where it has neither.
std::vector<Sheet> draw_site_sections(const Subject& subject);
std::vector<Sheet> draw_drain(const Subject& subject);
std::vector<Sheet> draw_template(const Subject& subject);
std::vector<Sheet> draw_story_stick(const Subject& subject);
std::vector<Sheet> draw_gauge_strip(const Subject& subject);
std::vector<Sheet> draw_bench_profile(const Subject& subject);
/// @pre `subject.changes`.
std::vector<Sheet> draw_changes(const Subject& subject);
Sheet draw_bench_plan(const Subject& subject);
Sheet draw_bench_front(const Subject& subject);
std::vector<Sheet> draw_bench_end(const Subject& subject);
std::vector<Sheet> draw_bench_section(const Subject& subject);
std::vector<Sheet> draw_wall(const Subject& subject, job::Side side);
/// Pieces and fastening of bench and walls, where they do not stand beside the views.
std::vector<Sheet> draw_schedules(const Subject& subject);
std::vector<Sheet> draw_cuts(const Subject& subject);
std::vector<Sheet> draw_sticks(const Subject& subject);
std::vector<Sheet> draw_buy(const Subject& subject);
/// `others`: the sheets before them, which their rows name.
std::vector<Sheet> draw_inspection(const Subject& subject, const std::vector<Sheet>& others);
std::vector<Sheet> draw_order_of_work(const Subject& subject);
Sheet draw_assembly(const Subject& subject);
Sheet draw_exploded(const Subject& subject);
Sheet draw_steps(const Subject& subject);
/// What the set is, for whom which sheet is, and who answers for it; `others` have their codes already.
/// On small paper that takes several pages; the first of `others` is the cover itself.
std::vector<Sheet> draw_cover(const Subject& subject, const std::vector<Sheet>& others);
/// Pieces that are not plain square-ended sticks, each full size on a sheet for machines.
std::vector<Sheet> draw_pieces(const Subject& subject);

}  // namespace fallwright::drawing
