// How much mortar lies under a base as it was read in its bed: enough in all, and no more than one lift.
#include "rules/as_set.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/check.hpp"
#include "rules/good_facts.hpp"
#include "rules/pressing.hpp"
#include "rules/result_of.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::rules {
namespace {

using testing::HasSubstr;

TEST(LyingBed, LiesHollowWhereItWantsMoreMortarThanWasSpread) {
  // Source: closed form: over a bed of 2037 sq in that holds 1.65 cu ft as designed, of 1.67 spread, a base 3/4 in
  // higher wants 2037 x 3/4 / 1728 = 0.88 cu ft more: 0.86 cu ft of voids, 47/64 in on average, so that it goes down by
  // 3/4 in to the mark. It still stands below the line that was spread to.
  constexpr double cubic_foot = 1728 * in * in * in;
  facts::Facts f = sample::good_facts();
  f.room.gauges = {{"A1", 0, 900, 0, 1.5 * in, 2.5 * in, false}};
  f.bed.plan_mm2 = 2037 * in * in, f.bed.plan_centre_mm = {700, 450};
  f.bed.set_mm3 = 1.65 * cubic_foot, f.bed.spread_mm3 = 1.67 * cubic_foot;
  f.room.drain.now_mm = {700, 450, 0};
  for (const auto unit : {job::UnitSystem::inch, job::UnitSystem::metric}) {
    job::Job job = sample::alcove();
    job.unit = unit;
    f.room.as_set.raised_mm = 0.75 * in;
    const auto results = check(job, f);
    const Result* bed = find(results, "rim.bed");
    EXPECT_EQ(bed->outcome, Outcome::fail);
    EXPECT_NEAR((*bed->measured - *bed->limit.greatest) * f.bed.plan_mm2 / cubic_foot, 2037 * 0.75 / 1728 - 0.02, 1e-9);
    const AsSetVerdict verdict = judge_as_set(job, f, results);
    EXPECT_EQ(verdict.next, Next::press);
    EXPECT_THAT(verdict.words,
                HasSubstr(unit == job::UnitSystem::inch ? "down by 3/4\": the mortar that was spread does "
                                                          "not fill"
                                                        : "down by 19 mm: the mortar"));
    f.room.as_set.raised_mm = 0;
    EXPECT_EQ(judge_as_set(job, f, check(job, f)).next, Next::leave);
    f.room.as_set.raised_mm = 0.02 * 1728 / 2037 * in;  // at its limit
    EXPECT_EQ(judge_as_set(job, f, check(job, f)).next, Next::leave);
  }
}

TEST(LyingBed, WhatATiltAddsUnderTheBaseIsThatOfItsPlansCentre) {
  // Source: closed form: a plane over a plan comes to the plan times its height at the centre of area. 200 mm right of
  // the drain and 100 behind it, 1 in 100 up to the right and 1 in 50 down to the back are nothing together.
  facts::Facts f = sample::good_facts();
  f.room.drain.now_mm = {700, 450, 0};
  f.bed.plan_centre_mm = {900, 550}, f.bed.spread_mm3 = f.bed.set_mm3;
  f.room.as_set.raised_mm = 0, f.room.as_set.gx = 0.01, f.room.as_set.gy = -0.02;
  EXPECT_NEAR(*hollow_now(f), 0, 1e-9);
  f.room.as_set.gy = 0.02;
  EXPECT_NEAR(*hollow_now(f), 4, 1e-9);
}

TEST(LyingBed, ABedIsNoThickerAsSetThanOneLiftHolds) {
  // Source: common practice, no source: 2 in are placed in one lift. A bed of 1-1/2 in under a base 1/2 in high is
  // that, and 1/16 higher it asks for care, or fails where the job itself says so; it is pressed by that then.
  facts::Facts f = sample::good_facts();
  f.room.gauges = {{"A1", 0, 900, 0, 1.5 * in, 4 * in, false}};
  f.bed.spread_mm3 = f.bed.set_mm3 + 2.5 * in * f.bed.plan_mm2;
  job::Job job = sample::alcove();
  const auto outcome = [&](double raised) {
    f.room.as_set.raised_mm = raised * in;
    return sample::result_of(job, f, "rim.bed").outcome;
  };
  EXPECT_EQ(outcome(0.5), Outcome::pass);
  EXPECT_EQ(outcome(0.5625), Outcome::caution);
  EXPECT_THAT(sample::result_of(job, f, "rim.bed").advice, HasSubstr("2-1/16\" thick at A1, and one lift holds 2\""));
  EXPECT_THAT(judge_as_set(job, f, check(job, f)).words,
              HasSubstr("CAUTION, as set, bed is under it and thick enough: the bed is 2-1/16\""));
  job.limits = {{"bed_greatest", 2 * in, ""}};
  EXPECT_EQ(outcome(0.5), Outcome::pass);
  EXPECT_EQ(outcome(0.5625), Outcome::fail);
  EXPECT_THAT(sample::result_of(job, f, "rim.bed").advice,
              HasSubstr("down by 1/16\": its bed is thicker than one lift may be"));
}

TEST(LyingBed, IsHeldToWhatIsLeftOverAHumpBetweenTheGauges) {
  // Source: by hand: 1/2 in over a hump where the gauge beside it has 1 in: 1/8 low 3/8 are left, which is asked for,
  // and 1/4 low 1/4; wherever the hump is, in either unit. Tilted by 1/100 down to it, 100 mm from the drain, it lies
  // 1 mm lower than the drain does.
  for (const auto unit : {job::UnitSystem::inch, job::UnitSystem::metric})
    for (const double aside : {-100., 100.}) {
      job::Job job = sample::alcove();
      job.unit = unit, job.limits = {{"bed_thickness_least", 0.375 * in, ""}};
      facts::Facts f = sample::good_facts();
      const auto& drain = f.room.drain.now_mm;
      f.room.gauges = {{"A1", drain[0] + 300, drain[1], 0, 1 * in, 2.5 * in, false}};
      f.bed.spread_mm3 = f.bed.set_mm3;
      f.room.as_set.beds = {{drain[0] + aside, drain[1], 0.5 * in}};
      const auto at = [&](double raised_in, double gx = 0) {
        f.room.as_set.raised_mm = raised_in * in, f.room.as_set.gx = gx;
        return sample::result_of(job, f, "rim.bed");
      };
      EXPECT_EQ(at(-0.125).outcome, Outcome::pass);
      EXPECT_EQ(at(-0.25).outcome, Outcome::fail);
      EXPECT_NEAR(*at(-0.25).measured, 0.25 * in, 1e-9);
      EXPECT_THAT(at(-0.25).advice,
                  HasSubstr(unit == job::UnitSystem::inch ? "1/8\" too low: lift it" : "4 mm too low"));
      EXPECT_NEAR(*at(0, aside > 0 ? -0.01 : 0.01).measured, 0.5 * in - 1, 1e-9);
    }
}

TEST(LyingBed, ReadingsThatPutItsRibsIntoTheFloorAreReadAgain) {
  // Source: by hand: 1/2 in over a hump, and a base 3/4 in low: its ribs 1/4 in in the deck, where none can lie. By a
  // mark of the rule and the floor's own 1/32 they may: then the base stands on the hump, and is lifted.
  job::Job job = sample::alcove();
  job.survey.level_tolerance_mm = in / 32;
  facts::Facts f = sample::good_facts();
  const auto& drain = f.room.drain.now_mm;
  f.room.as_set.gx = f.room.as_set.gy = 0;
  f.room.gauges = {{"A1", drain[0] + 300, drain[1], 0, 1.5 * in, 2.5 * in, false}};
  f.bed.spread_mm3 = f.bed.set_mm3;
  f.room.as_set.beds = {{drain[0] - 100, drain[1], 0.5 * in}};
  const auto verdict = [&](double raised_in) {
    f.room.as_set.raised_mm = raised_in * in;
    return judge_as_set(job, f, check(job, f));
  };
  EXPECT_EQ(verdict(-0.75).next, Next::read_again);
  EXPECT_THAT(verdict(-0.75).words, HasSubstr("3/4\" lower than designed, its ribs 1/4\" in the floor, and no base"));
  EXPECT_EQ(verdict(-0.5 - 3. / 32).next, Next::lift);
  EXPECT_EQ(verdict(-0.5 - 4. / 32).next, Next::read_again);
  job.unit = job::UnitSystem::metric;
  EXPECT_EQ(verdict(-0.75).next, Next::read_again);
}

}  // namespace
}  // namespace fallwright::rules
