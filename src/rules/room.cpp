#include "rules/book.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

constexpr double in = 25.4, in2 = in * in;

/// The residential code's second way to the least room: 25 in wide where 1300 in2 are free. Same rounding as `keeps`.
constexpr double second_width = 25 * in, second_area = 1300 * in2;
bool larger_room(const facts::Facts& facts) {
  return facts.clear.area_mm2 >= second_area - units::tolerance::length_mm * 1e3;
}

Finding area(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  return found(facts.clear.area_mm2, "free floor inside upstands and threshold, under nothing that overhangs it",
               "at least " + text_of(*limit.least, Unit::mm2, job) +
                   " must stay free beside the bench: take a shallower bench (bench.depth) or a larger base");
}

Finding width(const Ground& ground, const Limit& limit) {
  const job::Job& job = ground.job;
  const facts::Facts& facts = ground.facts;
  const double own = facts.clear.least_width_mm;
  const bool second_way =
      job.book == "residential" && !ground.limits.by_user("clear.width") && larger_room(facts) && own < *limit.least;
  const double needed = second_way ? second_width : *limit.least;
  Finding finding = found(own, "smaller side of the free floor", "");
  if (own < needed)
    finding.advice = "the free floor must be " + text_at_least(needed - own, job) +
                     " wider: take a shallower bench (bench.depth) or a wider base";
  if (second_way) {
    finding.where += "; " + text_of(second_width, Unit::mm, job) + " will do where " +
                     text_of(second_area, Unit::mm2, job) + " are free, and " +
                     text_of(facts.clear.area_mm2, Unit::mm2, job) + " are";
    finding.least = second_width;
  }
  return finding;
}

Finding circle(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  return found(
      facts.clear.circle_mm, "largest circle on the free floor, centre at " + place_of(facts.clear.circle_at_mm, job),
      "where the local code asks for a circle of " + text_of(*limit.least, Unit::mm, job) + ", it lacks " +
          text_at_least(*limit.least - facts.clear.circle_mm, job) + ": take a shallower bench or a deeper base");
}

}  // namespace

/// The circle is the other model code's wording (see docs/sources.md): a caution here, a failure once a job sets it.
std::vector<Rule> room_rules() {
  return {
      {"clear.area",
       "floor is large enough",
       "plan area of the floor less what hangs over it",
       "base: outline of the floor; seat block: undersides",
       Unit::mm2,
       "clear_area",
       "",
       area,
       {Input::base, Input::seat_block}},
      {"clear.width",
       "floor is wide enough",
       "smaller side of the free floor; 25 in will do where 1300 in2 are free",
       "base: outline of the floor; seat block: undersides",
       Unit::mm,
       "clear_width",
       "",
       width,
       {Input::base, Input::seat_block}},
      {"clear.circle",
       "a person can turn",
       "diameter of the largest circle inscribed in the free floor",
       "base: outline of the floor; seat block: undersides",
       Unit::mm,
       "clear_circle",
       "",
       circle,
       {Input::base, Input::seat_block}},
  };
}

}  // namespace fallwright::rules
