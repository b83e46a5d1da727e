#include "support/skew_room.hpp"

namespace fallwright::sample {

job::Job skew_room() {
  using job::Side;
  constexpr double inch = 25.4;
  const auto in = [](double v) { return job::Length::inches(v); };
  job::Job j = alcove();
  j.alcove.width = in(80), j.alcove.depth = in(40);
  j.bench->place = job::Side::right, j.bench->depth = in(15);
  j.base.length = in(64), j.base.width = in(40);
  read_plan(j, {0, 40 * inch}, {80 * inch, 40 * inch}, {0, 0}, {82 * inch, 0});
  const auto lean = [&](Side wall, double by) {
    j.survey.plumbs.push_back({wall, 10 * inch, {by * 48 * inch, 1.5, survey::Face::stud, 0}, 48 * inch});
  };
  lean(Side::left, 0.01), lean(Side::back, -0.005);
  j.survey.board_mm = 0.5 * inch, j.survey.finish_mm = 1.25 * inch;
  j.survey.widths = {{10 * inch, 40 * inch, {79.5 * inch, 2, survey::Face::board, 0}}};
  j.floor.drop_along_width = in(0.8), j.floor.drop_along_depth = in(0.4), j.floor.drops_typed = true;
  j.floor.finish_outside = in(0.5);
  return j;
}

job::Job settled_skew_room() {
  job::Job job = skew_room();
  job.limits.push_back({"floor_fall_greatest", 0.06, ""});
  return job;
}

}  // namespace fallwright::sample
