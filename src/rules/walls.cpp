#include <algorithm>

#include "rules/book.hpp"

namespace fallwright::rules {
namespace {

const char* const no_fixtures =
    "no fixture is in the job file: name what will be screwed to the walls, bar, glass hinge, valve or rail "
    "([[fixture]])";

template <class Less>
const facts::Backing* worst_of(const facts::Facts& facts, Less less) {
  const auto it = std::min_element(facts.backings.begin(), facts.backings.end(), less);
  return it == facts.backings.end() ? nullptr : &*it;
}

std::string named(const facts::Backing& b) {
  return "'" + b.name + "' on the " + b.wall + " wall";
}

std::string studs_of(const std::string& walls) {
  return "find the studs of the " + walls + (walls.find(',') == std::string::npos ? " wall" : " walls") +
         ", which nobody read, and give their centres (survey.studs)";
}

/// The least that is known to be there comes first.
Finding blocking(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (job.fixtures.empty()) return not_applicable(no_fixtures);
  const auto sure = [](const facts::Backing& b) { return b.share - b.assumed; };
  const facts::Backing* worst =
      worst_of(facts, [&](const facts::Backing& a, const facts::Backing& b) { return sure(a) < sure(b); });
  if (!worst) return cannot_tell("no wall was found behind the fixtures");
  const std::string row = "set blocking behind '" + worst->name + "' (walls.blocking at " +
                          text_of(worst->height_mm, Unit::mm, job) + ") before the board goes on";
  Finding finding = found(sure(*worst), "least backed: " + named(*worst), row);
  finding.holds_anyway = sure(*worst) >= limit.least.value_or(1);
  finding.may_hold = worst->stud_can;
  finding.read = studs_of(worst->wall) + "; or " + row;
  return finding;
}

Finding above_water(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (job.fixtures.empty()) return not_applicable(no_fixtures);
  const facts::Backing* worst = worst_of(
      facts, [](const facts::Backing& a, const facts::Backing& b) { return a.above_water_mm < b.above_water_mm; });
  if (!worst) return cannot_tell("no wall was found behind the fixtures");
  const bool none = job.base.threshold.width.is_zero();
  return found(worst->above_water_mm,
               "lower edge of " + named(*worst) + ", above the " + (none ? "base's rim" : "threshold's highest edge"),
               "raise " + named(*worst) + " by " + text_at_least(*limit.least - worst->above_water_mm, job) +
                   " (fixture.height): a screw that low goes through upstand or lining");
}

Finding clear_of_bench(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (job.fixtures.empty()) return not_applicable(no_fixtures);
  if (!job.bench) return not_applicable("no bench");
  const facts::Backing* worst =
      worst_of(facts, [](const facts::Backing& a, const facts::Backing& b) { return a.behind_bench > b.behind_bench; });
  if (!worst) return cannot_tell("no wall was found behind the fixtures");
  return found(worst->behind_bench,
               worst->behind_bench > 0 ? named(*worst) + " lies behind the bench"
                                       : "no fixture lies behind bench frame or seat block",
               "raise " + named(*worst) + " by " + text_at_least(worst->clear_by_mm, job) +
                   " to clear the seat and its upstands (fixture.height), or move it beside the bench");
}

std::string stretch_of(const facts::Hold& hold, const job::Job& job) {
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  return hold.side + " upstand, between " + len(hold.from_mm) + " and " + len(hold.to_mm) + " from its " +
         (hold.side == "back" ? "left" : "back") + " end, " + len(hold.band_low_mm) + " to " + len(hold.band_high_mm) +
         " above the datum";
}

/// One that breaks the limit by what was read comes before one that may.
const facts::Hold& worst_hold(const std::vector<facts::Hold>& holds, const Limit& limit) {
  const auto broken_surely = [&](const facts::Hold& h) {
    return !h.assumed && h.sure_apart_mm > limit.greatest.value_or(0);
  };
  return *std::max_element(holds.begin(), holds.end(), [&](const facts::Hold& a, const facts::Hold& b) {
    return std::pair{broken_surely(a), a.sure_apart_mm} < std::pair{broken_surely(b), b.sure_apart_mm};
  });
}

Finding held(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (job.base.upstand_thickness.is_zero() || job.base.upstands.empty())
    return not_applicable("the base has no upstands");
  const bool along_wall = std::any_of(job.base.upstands.begin(), job.base.upstands.end(),
                                      [&](job::Side side) { return job.alcove.has_wall(side); });
  if (!along_wall) return not_applicable("no upstand stands along a wall");
  if (facts.holds.empty()) return cannot_tell("the base has upstands along walls, and none was found on its solid");
  const facts::Hold* worst = &worst_hold(facts.holds, limit);
  const std::string what = worst->behind == "bench"
                               ? "bring the bench's studs closer (bench.frame.spacing)"
                               : "set a row of blocking behind it (walls.blocking at " +
                                     text_of((worst->band_low_mm + worst->band_high_mm) / 2, Unit::mm, job) +
                                     "), or studs between";
  Finding finding = found(worst->sure_apart_mm, "nothing to screw the upstand to: " + stretch_of(*worst, job),
                          what + " before the board");
  if (finding.measured && *finding.measured <= limit.greatest.value_or(0))
    finding.where = "longest way between fasteners: " + stretch_of(*worst, job);
  finding.holds_anyway = !worst->assumed || worst->sure_apart_mm <= limit.greatest.value_or(0);
  finding.may_hold = worst->assumed;
  std::string sides;
  for (const facts::Hold& hold : facts.holds)
    if (hold.assumed && hold.behind == "wall") sides += (sides.empty() ? "" : ", ") + hold.side;
  finding.read = studs_of(sides) + "; or " + what;
  return finding;
}

}  // namespace

std::vector<Rule> wall_rules() {
  return {
      {"blocking.behind",
       "every fixture has timber behind it",
       "share of each fixture's plate that lies on studs or blocking",
       "walls: faces of studs and blocking",
       Unit::share,
       "",
       "",
       blocking,
       {Input::fixtures, Input::studs, Input::walls}},
      {"fixture.above-water",
       "fixtures' screws stay above the water",
       "lower edge of each fixture's plate above the threshold's highest edge; without a threshold, above the rim",
       "job file: [[fixture]]; base: corners of the threshold's top",
       Unit::mm,
       "",
       "",
       above_water,
       {Input::fixtures, Input::base}},
      {"fixture.clear-of-bench",
       "no fixture lies behind the bench",
       "share of each fixture's plate that bench frame or seat block hides",
       "job file: [[fixture]]; bench frame, seat block: extents against that wall",
       Unit::share,
       "",
       "",
       clear_of_bench,
       {Input::fixtures, Input::bench_frame, Input::seat_block}},
      {"upstand.held",
       "upstands can be screwed to something",
       "greatest way between fasteners that find timber behind the upper inch of an upstand; its ends included",
       "walls, bench frame: members behind each upstand; base: upstands",
       Unit::mm,
       "",
       "",
       held,
       {Input::studs, Input::base, Input::walls, Input::bench_frame}},
  };
}

}  // namespace fallwright::rules
