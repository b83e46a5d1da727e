#include "rules/as_set.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/check.hpp"
#include "rules/good_facts.hpp"
#include "support/imperial.hpp"
#include "support/part_id.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

using rules::AsSetVerdict, rules::Next;
using testing::HasSubstr;

AsSetVerdict verdict_of(const facts::Facts& facts) {
  const job::Job job = sample::alcove();
  return rules::judge_as_set(job, facts, rules::check(job, facts));
}

/// Four corners of the rim as read, from the back left round to the front left, and the plane that fits them.
void read_rim(facts::Facts& f, double back_left, double back_right, double front_right, double front_left) {
  const double off[] = {back_left, back_right, front_right, front_left};
  for (std::size_t i = 0; i < 4; ++i) f.room.as_set.points[i].off_mm = f.room.as_set.points[i].plane_mm = off[i];
}

TEST(AsSet, MayStayWhereAllItIsHeldToHolds) {
  // Source: common practice, no source.
  const AsSetVerdict verdict = verdict_of(sample::good_facts());
  EXPECT_EQ(verdict.next, Next::leave) << verdict.words;
  EXPECT_TRUE(verdict.passes());
}

TEST(AsSet, IsPressedWhereAThresholdWentBelowItsLimit) {
  // Source: IRC P2709.1 (2009, 2021), 2 in: a base 3/16 in low in front over 36 in, its threshold 18 in from the drain.
  facts::Facts f = sample::good_facts();
  read_rim(f, 3. / 16 * in, 3. / 16 * in, 0, 0);
  f.room.as_set.threshold_least_mm = (2 - 3. / 16 / 36 * 18) * in;
  const AsSetVerdict verdict = verdict_of(f);
  EXPECT_EQ(verdict.next, Next::press);
  EXPECT_THAT(verdict.words, HasSubstr("back left 3/16\", back right 3/16\""));
}

TEST(AsSet, HalfWayBetweenTwoMarksIsTheUpperOneWhateverRoundingDid) {
  // Source: closed form: a half of 1/16 in less one part in 10^12, as sums of readings leave it, is a half.
  facts::Facts f = sample::good_facts();
  const double nearly = (3. / 32) * in * (1 - 1e-12);
  read_rim(f, nearly, nearly, 0, 0);
  f.room.as_set.threshold_least_mm = 1.9 * in;
  EXPECT_THAT(verdict_of(f).words, HasSubstr("back left 1/8\", back right 1/8\""));
}

TEST(AsSet, OfTwoReadingsThatAreAlikeOddTheFirstIsNamed) {
  // Source: closed form: two corners across from each other stand 1/4 in up, one of them by a millionth of a mm more.
  facts::Facts f = sample::good_facts();
  read_rim(f, in / 4, 0, in / 4 + 1e-9, 0);
  f.room.as_set.twist_mm = in / 4;
  EXPECT_THAT(verdict_of(f).words, HasSubstr(": back left disagrees"));
}

TEST(AsSet, NamesTheReadingThatDisagreesBeforeAnyonePresses) {
  // Source: closed form: three corners at one height and the fourth half an inch above; the plane is an eighth off
  // each.
  facts::Facts f = sample::good_facts();
  read_rim(f, 0, 0, in / 2, 0);
  f.room.as_set.twist_mm = in / 8;
  const AsSetVerdict verdict = verdict_of(f);
  EXPECT_EQ(verdict.next, Next::read_again);
  EXPECT_THAT(verdict.words, HasSubstr("front right disagrees with the others by 1/2\""));
}

TEST(AsSet, AFailingDesignAsksForNoPressing) {
  // Source: common practice, no source.
  facts::Facts f = sample::good_facts();
  for (facts::Facet& each : f.facets)
    if (each.surface == facts::Surface::base_floor) each.fall = 1. / 12;
  for (facts::AsSetFall& each : f.room.as_set.falls) each.fall = 1.02 / 12;
  const AsSetVerdict verdict = verdict_of(f);
  EXPECT_EQ(verdict.next, Next::mend_the_design);
  EXPECT_THAT(verdict.words, HasSubstr("no pressing mends that: 'floor is not too steep'"));
  for (const rules::Result& r : rules::check(sample::alcove(), f))
    if (r.id == "rim.fall-greatest") {
      EXPECT_THAT(r.advice, HasSubstr("the design fails when it lies level"));
    }
}

TEST(AsSet, TheRiserDecidesBeforeLevelness) {
  // Source: common practice, no source: half an inch of riser in the drain's body at least, and none up to its grate.
  facts::Facts f = sample::good_facts();
  f.room.gauges.clear();
  f.room.as_set.raised_mm = 1.25 * in, f.room.as_set.drain_body_mm = -1.25 * in;
  AsSetVerdict verdict = verdict_of(f);
  EXPECT_EQ(verdict.next, Next::press);
  EXPECT_THAT(verdict.words, HasSubstr("press the whole base down by 1/4\""));
  // No deeper than the bed is thick.
  f.room.gauges = {{"A1", 0, 0, 0, 0.5 * in, 1.25 * in, false}};
  f.room.as_set.raised_mm = 0, f.room.as_set.drain_body_mm = -0.5 * in;
  verdict = verdict_of(f);
  EXPECT_EQ(verdict.next, Next::lift);
  EXPECT_THAT(verdict.words, HasSubstr("lengthen the riser by 1\": the bed under it is 1/2\" thick"));
  f.room.gauges.clear();
  f.room.as_set.raised_mm = -2.25 * in, f.room.as_set.drain_body_mm = -4.75 * in;
  verdict = verdict_of(f);
  EXPECT_EQ(verdict.next, Next::lift);
  EXPECT_THAT(verdict.words, HasSubstr("cut the riser off by 1/8\""));
}

TEST(AsSet, ABaseThatLiesTooLowOrTouchesNoMortarIsNotLeft) {
  // Source: by hand: 1/2 in of bed as designed, spread to 1-1/4 in, 3/8 in asked for: 1 in lower is inside the floor,
  // 7/8 higher is 1/8 above the mortar; 1/8 lower and 3/4 higher will do. All readings are level.
  const auto at = [](double raised_in) {
    facts::Facts f = sample::good_facts();
    f.room.as_set.raised_mm = raised_in * in;
    return verdict_of(f);
  };
  EXPECT_EQ(at(-1).next, Next::lift);
  EXPECT_THAT(at(-1).words, HasSubstr("it lies 7/8\" too low: lift it"));
  EXPECT_EQ(at(-0.125).next, Next::leave);
  EXPECT_EQ(at(0.75).next, Next::leave);
  EXPECT_EQ(at(0.875).next, Next::press);
  EXPECT_THAT(at(0.875).words, HasSubstr("press the whole base down by 1/8\""));
}

TEST(AsSet, TheBedIsThinnestWhereATiltedBaseIsLow) {
  // Source: by hand: over 12 mm of bed, its drain at (700, 450): a base that rises 1 in 100 to the right is 7 mm lower
  // at the left, one that rises 1 in 90 to the back 5 mm lower in front; the whole base a millimetre up.
  facts::Facts f = sample::good_facts();
  f.room.drain.now_mm = {700, 450, 0};
  f.room.gauges = {{"A1", 0, 900, 0, 12, 30, false},
                   {"C1", 1400, 900, 0, 12, 30, false},
                   {"C2", 1400, 0, 0, 12, 30, false},
                   {"A2", 0, 0, 0, 12, 30, false},
                   {"B1", 700, 450, 0, 1, 2, true}};
  const auto thin = [&](double gx, double gy) {
    f.room.as_set.raised_mm = 1, f.room.as_set.gx = gx, f.room.as_set.gy = gy;
    for (const rules::Result& r : rules::check(sample::alcove(), f))
      if (r.id == "rim.bed") return *r.measured;
    return 0.;
  };
  EXPECT_NEAR(thin(0, 0), 13, 1e-9);
  EXPECT_NEAR(thin(0.01, 0), 13 - 7, 1e-9);
  EXPECT_NEAR(thin(0, 1. / 90), 13 - 5, 1e-9);
  EXPECT_NEAR(thin(0.01, 1. / 90), 13 - 12, 1e-9);
  f.room.gauges.erase(f.room.gauges.begin() + 2, f.room.gauges.begin() + 4);  // those at the back alone
  EXPECT_NEAR(thin(0.01, -1. / 90), 13 - 7 - 5, 1e-9);
  EXPECT_NEAR(thin(-0.01, 1. / 90), 13 - 7 + 5, 1e-9);
  f.room.gauges.erase(f.room.gauges.begin());  // the right one
  EXPECT_NEAR(thin(0.005, 0), 13 + 3.5, 1e-9);
}

TEST(AsSet, WhereTheLineHangsIsAskedForAndNotGuessed) {
  // Source: none; readings against any line tell levelness alone, and that is judged without it.
  facts::Facts f = sample::good_facts();
  f.room.as_set.drain_body_mm.reset(), f.room.as_set.apron_least_mm.reset(), f.room.as_set.raised_mm.reset();
  for (const rules::Result& r : rules::check(sample::alcove(), f))
    if (r.id == "rim.riser" || r.id == "rim.apron" || r.id == "rim.bed") {
      EXPECT_EQ(r.outcome, rules::Outcome::not_checked);
      EXPECT_THAT(r.advice, HasSubstr("(as_set.line)"));
    }
  EXPECT_EQ(verdict_of(f).next, Next::leave);
}

TEST(AsSet, IsLiftedWhereItWouldBePressedThroughItsBed) {
  // Source: common practice, no source: an inch of pressing over half an inch of bed.
  facts::Facts f = sample::good_facts();
  read_rim(f, 0, in, in, 0);
  f.room.as_set.falls.front().fall = 0.2 / 12;
  f.room.gauges = {{"A1", 0, 900, 0, 2 * in, 3 * in, false}, {"C1", 1400, 900, 0, in / 2, in, false}};
  const AsSetVerdict verdict = verdict_of(f);
  EXPECT_EQ(verdict.next, Next::lift);
  EXPECT_THAT(verdict.words, HasSubstr("would have to go down 1\", and the bed there is 1/2\" thick"));
}

rules::Result judged(const job::Job& job, const facts::Facts& facts, const std::string& id) {
  for (const rules::Result& r : rules::check(job, facts))
    if (r.id == id) return r;
  return {};
}

TEST(AsSet, StepsAtTheEntryAreThoseOfTheBaseAsItLies) {
  // Source: by hand: designed 1/8 in above the bath's floor and set 1/4 in low, the threshold lies 1/8 in below it.
  facts::Facts f = sample::good_facts();
  f.heights.outside = sample::level_at(*f.heights.threshold_least_mm - in / 8);
  for (facts::Gauge& g : f.room.gauges) g.set_mm += in, g.spread_mm += in;  // mortar enough
  EXPECT_EQ(judged(sample::alcove(), f, "threshold.above-outside").outcome, rules::Outcome::pass);
  f.room.as_set.raised_mm = -in / 4;
  const rules::Result low = judged(sample::alcove(), f, "threshold.above-outside");
  EXPECT_EQ(low.outcome, rules::Outcome::fail);
  EXPECT_NEAR(*low.measured, -in / 8, 1e-9);
  EXPECT_THAT(low.where, HasSubstr("as the base lies now"));
  EXPECT_THAT(low.advice, HasSubstr("bed it again 1/8\" higher"));
  EXPECT_TRUE(low.remedies.empty()) << "no line of the job file lifts it";
  const AsSetVerdict verdict = verdict_of(f);
  EXPECT_EQ(verdict.next, Next::lift);
  EXPECT_THAT(verdict.words, HasSubstr("'threshold stands above the bath floor' fails"));
  f.room.as_set.raised_mm.reset();  // nobody knows how high it lies
  EXPECT_NEAR(*judged(sample::alcove(), f, "threshold.above-outside").measured, in / 8, 1e-9);
}

TEST(AsSet, ABaseThatIsRolledIntoMeetsTheFloorAsItLies) {
  // Source: by hand: 36 in deep, its drain 20 in behind the entry; tilted by 1/8 in over its depth, front low, and
  // raised by 1/4 in at the drain, its front edge lies 1/4 - 20 / 36 / 8 in higher than designed.
  facts::Facts f = sample::good_facts();
  job::Job job = sample::alcove();
  job.base.threshold = {};
  f.heights.outside = sample::level_at(2 * in);
  f.edges[1] = {job::Side::front, facts::Behind::nothing, facts::Turned::rim, 2 * in, 2 * in, false};
  f.parts = {
      {sample::part_id("base"), "base", "resin", 1, 1, 1, {0, 0, 0, 57.5 * in, 36 * in, 4 * in}, {}, true, false}};
  f.room.drain.now_mm = {28 * in, 20 * in, 0};
  f.room.as_set.gx = 0, f.room.as_set.gy = 1. / 8 / 36;
  f.room.as_set.raised_mm = in / 4;
  EXPECT_NEAR(*judged(job, f, "entry.step").measured, (1. / 4 - 20. / 36 / 8) * in, 1e-9);
  // Tilted along its 57-1/2 in as well, by 1/4 in, the drain 28 in from its left: either end may be the higher.
  f.room.as_set.gx = 1. / 4 / 57.5;
  EXPECT_NEAR(*judged(job, f, "entry.step").measured, (1. / 4 - 20. / 36 / 8 + 29.5 / 57.5 / 4) * in, 1e-9);
  f.room.as_set.gx *= -1;
  EXPECT_NEAR(*judged(job, f, "entry.step").measured, (1. / 4 - 20. / 36 / 8 + 28 / 57.5 / 4) * in, 1e-9);
  // Of an open side its end at the back, 16 in behind the drain, lies higher; at the left by less, at the right by
  // more.
  f.room.as_set.gx *= -1;
  f.edges[1].side = job::Side::left;
  EXPECT_NEAR(*judged(job, f, "entry.step").measured, (1. / 4 + 16. / 36 / 8 - 28 / 57.5 / 4) * in, 1e-9);
  f.edges[1].side = job::Side::right;
  EXPECT_NEAR(*judged(job, f, "entry.step").measured, (1. / 4 + 16. / 36 / 8 + 29.5 / 57.5 / 4) * in, 1e-9);
  f.room.as_set.gy *= -1;
  EXPECT_NEAR(*judged(job, f, "entry.step").measured, (1. / 4 + 20. / 36 / 8 + 29.5 / 57.5 / 4) * in, 1e-9);
}

TEST(AsSet, WhatIsLeftSaysWhatElseIsToBeDone) {
  // Source: common practice, no source: the apron's foot is cut, and what fails is mended, while the mortar is wet.
  facts::Facts f = sample::good_facts();
  f.room.as_set.apron_least_mm = f.room.as_set.apron_greatest_mm = -in / 2;
  EXPECT_EQ(verdict_of(f).next, Next::leave);
  EXPECT_THAT(verdict_of(f).words,
              HasSubstr("CAUTION, as set, apron's foot meets the base: cut the apron's foot off by 1/2\""));
  f.edges[0].turned = facts::Turned::rim;
  EXPECT_THAT(
      verdict_of(f).words,
      HasSubstr("Other checks fail, and are mended more easily before the mortar sets: 'every walled side turns up'"));
}

}  // namespace
}  // namespace fallwright
