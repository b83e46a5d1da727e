#include "rules/as_set.hpp"

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/check.hpp"
#include "rules/good_facts.hpp"
#include "rules/pressing.hpp"
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

rules::Result judged(const job::Job& job, const facts::Facts& facts, const std::string& id) {
  for (const rules::Result& r : rules::check(job, facts))
    if (r.id == id) return r;
  return {};
}

/// As much mortar in all as its first gauge says of every place, its plan's centre in the middle of the base.
void fill_as_gauged(facts::Facts& f) {
  const facts::Gauge& g = f.room.gauges.front();
  f.bed.plan_centre_mm = {700, 450};
  f.bed.spread_mm3 = f.bed.set_mm3 + (g.spread_mm - g.set_mm) * f.bed.plan_mm2;
}

/// Four corners of the rim as read, from the back left round to the front left, above where they were designed, and the
/// plane that fits them: how high the base lies at its drain.
void read_rim(facts::Facts& f, double back_left, double back_right, double front_right, double front_left) {
  facts::AsSet& set = f.room.as_set;
  const double off[] = {back_left, back_right, front_right, front_left}, lowest = *std::min_element(off, off + 4);
  for (std::size_t i = 0; i < 4; ++i) set.points[i].off_mm = set.points[i].plane_mm = off[i] - lowest;
  set.gx = (back_right + front_right - back_left - front_left) / 2 / 1400;
  set.gy = (back_left + back_right - front_left - front_right) / 2 / 900;
  const auto& drain = f.room.drain.now_mm;
  set.raised_mm =
      (back_left + back_right + front_right + front_left) / 4 + set.gx * (drain[0] - 700) + set.gy * (drain[1] - 450);
  set.drain_body_mm = -2.5 * in + *set.raised_mm;
  fill_as_gauged(f);
}

TEST(AsSet, MayStayWhereAllItIsHeldToHolds) {
  // Source: common practice, no source.
  const AsSetVerdict verdict = verdict_of(sample::good_facts());
  EXPECT_EQ(verdict.next, Next::leave) << verdict.words;
  EXPECT_TRUE(verdict.passes());
}

TEST(AsSet, IsNotKnownToBeStraightWhereTwoOfFourReadingsLieAtOneCorner) {
  // Source: closed form: three places always lie in a plane, and an upstand or a threshold a few inches from a rim's
  // corner stands where that does.
  const job::Job job = sample::alcove();
  facts::Facts f = sample::good_facts();
  ASSERT_EQ(judged(job, f, "rim.twist").outcome, rules::Outcome::pass);
  auto& points = f.room.as_set.points;
  ASSERT_EQ(points.size(), 4U);
  points[3].x_mm = points[2].x_mm, points[3].y_mm = points[2].y_mm - job.base.threshold.width.in_mm();
  const rules::Result r = judged(job, f, "rim.twist");
  EXPECT_EQ(r.outcome, rules::Outcome::not_checked);
  EXPECT_THAT(r.advice, HasSubstr("some lie at one corner"));
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

TEST(AsSet, HalfWayBetweenTwoMarksIsTheLowerOneWhateverRoundingDid) {
  // Source: closed form: one and a half of 1/16 in and one part in 10^12, as sums of readings leave it, is a half.
  facts::Facts f = sample::good_facts();
  const double nearly = (3. / 32) * in * (1 + 1e-12);
  read_rim(f, nearly, nearly, 0, 0);
  f.room.as_set.threshold_least_mm = 1.9 * in;
  EXPECT_THAT(verdict_of(f).words, HasSubstr("back left 1/16\", back right 1/16\""));
}

TEST(AsSet, AStiffBaseIsPressedWhereItIsHighestAndNotAllRound) {
  // Source: by hand: one corner of four reads a mark higher. The plane that fits best has it a mark, its neighbours
  // half a mark and the corner across nothing above that: pressed at three corners the base would go down whole.
  for (const auto& [unit, mark, words] : {std::tuple{job::UnitSystem::inch, in / 16, "back right 1/16\""},
                                          {job::UnitSystem::metric, 1., "back right 1 mm"}}) {
    job::Job job = sample::alcove();
    job.unit = unit;
    facts::Facts f = sample::good_facts();
    read_rim(f, mark / 2, mark, mark / 2, 0);
    f.room.as_set.threshold_least_mm = 1.9 * in;
    EXPECT_THAT(
        judge_as_set(job, f, rules::check(job, f)).words,
        HasSubstr("NOT YET: press down: " + std::string{words} +
                  " (the last mark of the rule: little by little, since each round lowers all of the base); or raise"))
        << words;
  }
}

TEST(AsSet, WhatTheRuleCannotTellFromLevelAsksForCare) {
  // Source: by hand: half a mark of 1/16 in over 36 in takes 1/64 off a threshold's 2 in, 18 in from the drain: nothing
  // is there to press, so that it may stay, and is told. By a hair more the next mark is pressed; and where it fails
  // level as well no rule mends it.
  const auto tilted_by = [](double back) {
    facts::Facts f = sample::good_facts();
    read_rim(f, back, back, 0, 0);
    f.room.as_set.threshold_least_mm = 2 * in - back / 2;
    return f;
  };
  const facts::Facts within = tilted_by(in / 32), past = tilted_by(in / 32 + 0.01);
  EXPECT_EQ(judged(sample::alcove(), within, "rim.threshold-least").outcome, rules::Outcome::caution);
  const AsSetVerdict leave = verdict_of(within);
  EXPECT_EQ(leave.next, Next::leave);
  EXPECT_TRUE(leave.passes());
  EXPECT_THAT(leave.words, HasSubstr("CAUTION, as set, threshold stands above the drain: nothing to press: the base is "
                                     "level within a mark of the rule."));
  EXPECT_EQ(judged(sample::alcove(), past, "rim.threshold-least").outcome, rules::Outcome::fail);
  EXPECT_EQ(verdict_of(past).next, Next::press);
  facts::Facts low = within;
  low.heights.threshold_least_mm = low.heights.drain_top_mm + 1.9 * in;
  EXPECT_EQ(judged(sample::alcove(), low, "rim.threshold-least").outcome, rules::Outcome::fail);
  EXPECT_EQ(verdict_of(low).next, Next::mend_the_design);
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
  // Source: by hand: 1/2 in of bed as designed, spread to 1-1/4 in, 3/8 in asked for: 1/2 in lower stands on the floor,
  // 7/8 higher is 1/8 above the mortar; 1/8 lower and 3/4 higher will do. All readings are level.
  const auto at = [](double raised_in) {
    facts::Facts f = sample::good_facts();
    fill_as_gauged(f);
    f.room.as_set.raised_mm = raised_in * in;
    return verdict_of(f);
  };
  EXPECT_EQ(at(-0.5).next, Next::lift);
  EXPECT_THAT(at(-0.5).words, HasSubstr("it lies 3/8\" too low: lift it"));
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
  fill_as_gauged(f);
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
  // Source: common practice, no source: an inch of pressing over half an inch of bed, and nobody knows how high it
  // lies.
  facts::Facts f = sample::good_facts();
  read_rim(f, 0, in, in, 0);
  f.room.as_set.drain_body_mm.reset(), f.room.as_set.raised_mm.reset();
  f.room.as_set.falls.front().fall = 0.2 / 12;
  f.room.gauges = {{"A1", 0, 900, 0, 2 * in, 3 * in, false}, {"C1", 1400, 900, 0, in / 2, in, false}};
  const AsSetVerdict verdict = verdict_of(f);
  EXPECT_EQ(verdict.next, Next::lift);
  EXPECT_THAT(verdict.words, HasSubstr("would have to go down 1\", and the bed there is 1/2\" thick"));
  read_rim(f, 0, 7 * in / 8, in, 0);  // of two places the one by most, in whichever order they were read
  f.room.as_set.drain_body_mm.reset(), f.room.as_set.raised_mm.reset();
  const std::string words = verdict_of(f).words;
  std::reverse(f.room.as_set.points.begin(), f.room.as_set.points.end());
  EXPECT_EQ(verdict_of(f).words, words);
  EXPECT_THAT(words, HasSubstr("would have to go down 1\""));
}

/// A base over 1/2 in of bed that is spread to so much, its drain in the middle, and its riser 1-1/2 in into the drain
/// where it lies as designed, or by so much less. Corners in inches above that, left and right.
facts::Facts bedded(double left, double right, double spread_to = 2, double less_reach = 0) {
  facts::Facts f = sample::good_facts();
  f.room.drain.now_mm = {700, 450, 0};
  f.room.gauges = {{"A1", 0, 900, 0, in / 2, spread_to * in, false}, {"B2", 1400, 0, 0, in / 2, spread_to * in, false}};
  read_rim(f, left * in, right * in, right * in, left * in);
  *f.room.as_set.drain_body_mm += less_reach * in;
  return f;
}

TEST(AsSet, LevellingLowersTheDrainBeforeTheWholeIsPressed) {
  // Source: by hand, half an inch of riser asked for: 15/16 and 1-3/16 in high, 7/16 in reach the drain in the middle,
  // and 9/16 once the right is down by 1/4; raised at the left instead 5/16 would. From 1-1/8 and 1-3/8 in 3/8 reach
  // then, and 1/8 is left to press.
  EXPECT_EQ(verdict_of(bedded(15. / 16, 19. / 16)).words,
            "NOT YET: press down: back right 1/4\", front right 1/4\". Then read the base again.");
  const AsSetVerdict whole = verdict_of(bedded(1.125, 1.375));
  EXPECT_EQ(whole.next, Next::press);
  EXPECT_EQ(
      whole.words,
      "NOT YET: press down: back right 1/4\", front right 1/4\"; then press the whole base down by 1/8\", or lift it "
      "and lengthen the riser by 1/8\". Then read the base again.");
}

TEST(AsSet, IsPressedByTheLargerOfWhatItsRiserAndItsBedAskFor) {
  // Source: by hand: 1-5/16 in high over a bed of 1/2 in that is spread to 1-1/4, it stands 9/16 in above that, and
  // 3/16 in of 1/2 reach the drain: 9/16 are more than 5/16; with 1/2 in less of riser 13/16 are more than 9/16.
  EXPECT_THAT(
      verdict_of(bedded(21. / 16, 21. / 16, 1.25)).words,
      HasSubstr("NOT YET: press the whole base down by 9/16\": it stands above the line the mortar was spread to, "
                "and bears on nothing there; and the riser reaches too little into the drain."));
  const facts::Facts f = bedded(21. / 16, 21. / 16, 1.25, 0.5);
  EXPECT_THAT(verdict_of(f).words, HasSubstr("NOT YET: press the whole base down by 13/16\": it stands above"));
  const std::string advice = judged(sample::alcove(), f, "rim.riser").advice;
  EXPECT_EQ(judged(sample::alcove(), f, "rim.bed").advice, advice) << "one plan, whoever asks";
  EXPECT_THAT(verdict_of(f).words, HasSubstr(advice));
}

TEST(AsSet, IsPressedNoDeeperThanItsBedIsAskedToBe) {
  // Source: by hand: as designed over 1/2 in of bed, of which 3/8 must stay, 3/10 in reach of 1/2: 1/5 in is more than
  // the eighth there is. An eighth higher, 7/40 reach, and 13/40 are more than 1/4. 9/10 in higher there is room.
  EXPECT_EQ(
      verdict_of(bedded(0, 0, 2, 1.2)).words,
      "LIFT IT: lift the base and lengthen the riser by 1/4\": the bed under it is 1/2\" thick at its thinnest, and "
      "3/8\" of it must stay.");
  EXPECT_EQ(verdict_of(bedded(0.125, 0.125, 2, 1.2)).next, Next::lift);
  EXPECT_EQ(verdict_of(bedded(0.9, 0.9, 2, 0.3)).next, Next::press);
  // Level alone can take too much: 1/2 in of bed is 1/4 where the right went down by as much.
  const AsSetVerdict level = verdict_of([] {
    facts::Facts f = bedded(0, 0.25);
    f.room.gauges[1].set_mm = in / 4, f.room.as_set.falls.front().fall = 0.2 / 12;
    return f;
  }());
  EXPECT_EQ(level.words,
            "LIFT IT: pressed level it would lie 1/8\" too low: lift it, and bed it again on more mortar.");
  // Lifted for its bed, 1/4 in low, it takes its drain off a riser that reaches by 13/20 there and by 2/5 as designed.
  EXPECT_EQ(verdict_of(bedded(-0.25, -0.25, 2, 1.1)).words,
            "LIFT IT: it lies 1/8\" too low: lift it, and bed it again on more mortar; lengthen the riser by 1/8\" "
            "meanwhile.");
}

TEST(AsSet, TheLowSideMayBeRaisedWhereMortarAndRiserFollow) {
  // Source: by hand: the right 1/4 in high over 1/2 in of bed: as high as that the whole bears where mortar was spread
  // to 3/4 in, and not where it was to 11/16.
  const auto out_of_level = [](double spread_to) {
    facts::Facts f = bedded(0, 0.25, spread_to);
    f.room.as_set.falls.front().fall = 0.2 / 12;
    return verdict_of(f).words;
  };
  EXPECT_THAT(out_of_level(0.75), HasSubstr("front right 1/4\"; or raise the low side as much"));
  EXPECT_THAT(out_of_level(11. / 16), testing::Not(HasSubstr("raise the low side")));
}

TEST(AsSet, ABaseThatLiesWhereNoneCanIsReadAgain) {
  // Source: by hand: over 1/2 in of bed, spread to 1-1/4: as much again above that it lies 2 in high, and 1/2 in low it
  // stands on the floor, into which it may be read by a mark. Without `down`, or under another line, it lies by feet
  // from there.
  const auto at = [](double high) { return verdict_of(bedded(high, high, 1.25)); };
  EXPECT_EQ(at(2).next, Next::press);
  EXPECT_EQ(at(2.0625).next, Next::read_again);
  EXPECT_EQ(at(-0.5625).next, Next::lift);
  EXPECT_EQ(at(-0.6875).next, Next::read_again);
  EXPECT_THAT(at(40).words,
              HasSubstr("READ AGAIN before anyone presses: by these readings the base lies 40\" higher than "
                        "designed, and no base lies so: look whether they are heights above the level line "
                        "or distances below it, and how high that line hangs above the datum."));
  EXPECT_THAT(at(-4).words, HasSubstr("lies 4\" lower than designed, its ribs 3-1/2\" in the floor, and no base"));
  facts::Facts f = bedded(0, 0, 1.25);
  read_rim(f, 0, 0, 40 * in, 0);
  f.room.as_set.twist_mm = 10 * in;
  EXPECT_THAT(verdict_of(f).words,
              HasSubstr("front right disagrees with the others by 40\"; if it reads the same, look whether they are"));
  EXPECT_THAT(judged(sample::alcove(), bedded(40, 40, 1.25), "rim.bed").advice, HasSubstr("no base lies so"));
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

TEST(AsSet, LiesAsDesignedWithinHalfOfWhatARuleTells) {
  // Source: by hand: a good rule tells 1/64 in, or 0.1 mm; half of it either way is none.
  job::Job job = sample::alcove();
  for (const auto& [unit, half_mm] : {std::pair{job::UnitSystem::inch, in / 128}, {job::UnitSystem::metric, 0.05}}) {
    job.unit = unit;
    for (const double way : {-1., 1.}) {
      EXPECT_TRUE(rules::reads_as_designed(way * half_mm, job));
      EXPECT_EQ(rules::raised_text(way * half_mm, job), "as high as designed");
      EXPECT_FALSE(rules::reads_as_designed(way * half_mm * 1.01, job));
      EXPECT_THAT(rules::raised_text(way * half_mm * 2, job),
                  HasSubstr(way < 0 ? " lower than designed" : " higher than designed"));
    }
  }
}

TEST(AsSet, IsNotPressedBelowTheFloorBeforeIt) {
  // Source: by hand: a base 3/16 in high at its back and as designed in front lies level as designed once it is
  // pressed: it may go down where the bath's floor lies no higher than its threshold then, and is lifted by what lacks
  // where that is higher.
  facts::Facts f = sample::good_facts();
  for (facts::Gauge& g : f.room.gauges) g.set_mm += in, g.spread_mm += in;  // mortar enough
  f.parts = {{sample::part_id("base"), "base", "resin", 1, 1, 1, {0, 0, 0, 1400, 900, 4 * in}, {}, true, false}};
  read_rim(f, 3. / 16 * in, 3. / 16 * in, 0, 0);
  f.room.as_set.threshold_least_mm = 1.9 * in;
  f.heights.outside = sample::level_at(*f.heights.threshold_least_mm - 0.1);
  EXPECT_EQ(verdict_of(f).next, Next::press) << verdict_of(f).words;
  f.heights.outside = sample::level_at(*f.heights.threshold_least_mm + in / 8);
  EXPECT_EQ(verdict_of(f).next, Next::lift);
  EXPECT_THAT(verdict_of(f).words,
              HasSubstr("LIFT IT: pressed level it would lie 1/8\" too low for what lies in front of it ('threshold "
                        "stands above the bath floor'): lift it, and bed it again level on more mortar"));
}

/// A base of 57-1/2 by 36 in without a threshold, level with the floor before it, its drain 20 in behind the entry.
std::pair<job::Job, facts::Facts> rolled_into() {
  std::pair<job::Job, facts::Facts> room{sample::alcove(), sample::good_facts()};
  auto& [job, f] = room;
  job.base.threshold = {};
  f.heights.outside = sample::level_at(2 * in);
  f.edges[1] = {job::Side::front, facts::Behind::nothing, facts::Turned::rim, 2 * in, 2 * in, false};
  f.parts = {
      {sample::part_id("base"), "base", "resin", 1, 1, 1, {0, 0, 0, 57.5 * in, 36 * in, 4 * in}, {}, true, false}};
  f.room.drain.now_mm = {28 * in, 20 * in, 0};
  return room;
}

TEST(AsSet, ABaseThatIsRolledIntoMeetsTheFloorAsItLies) {
  // Source: by hand: 36 in deep, its drain 20 in behind the entry; tilted by 1/8 in over its depth, front low, and
  // raised by 1/4 in at the drain, its front edge lies 1/4 - 20 / 36 / 8 in higher than designed.
  auto [job, f] = rolled_into();
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

TEST(AsSet, IsPressedToTheFloorItIsRolledInFromWhereItsBedAllows) {
  // Source: by hand: level and 3/4 in above a floor that it may stand 1/2 in above: down by 1/4 in. Its bed is to keep
  // what it has less 1/4 in or more, or else it is lifted.
  auto [job, f] = rolled_into();
  f.room.as_set.gx = f.room.as_set.gy = 0;
  f.room.as_set.raised_mm = 3. / 4 * in;
  for (facts::Gauge& g : f.room.gauges) g.spread_mm = g.set_mm + in;
  fill_as_gauged(f);
  const auto results = rules::check(job, f);
  const rules::Result* step = rules::find(results, "entry.step");
  ASSERT_NE(step, nullptr);
  ASSERT_NE(step->outcome, rules::Outcome::pass);
  EXPECT_NEAR(*step->limit.greatest, in / 2, 1e-9);
  EXPECT_THAT(step->advice,
              HasSubstr("press the whole base down by 1/4\" while its mortar is wet, or raise the bath's"));
  const AsSetVerdict verdict = rules::judge_as_set(job, f, results);
  EXPECT_EQ(verdict.next, Next::press);
  EXPECT_THAT(verdict.words, HasSubstr("press the whole base down by 1/4\" while its mortar is wet. Then read"));
  // Where 3/4 in more than the least it is to have lies under it less 1/8 in by the design, the bed would be too thin.
  const rules::Result* bed = rules::find(results, "rim.bed");
  ASSERT_TRUE(bed && bed->limit.least);
  for (facts::Gauge& g : f.room.gauges) g.set_mm = *bed->limit.least - 3. / 4 * in + in / 8, g.spread_mm = 4 * in;
  const auto thin = rules::check(job, f);
  EXPECT_THAT(rules::find(thin, "entry.step")->advice, HasSubstr("lift it while the mortar is wet and bed it"));
  const AsSetVerdict left = rules::judge_as_set(job, f, thin);
  EXPECT_EQ(left.words.find("press the whole base down"), std::string::npos) << left.words;
  EXPECT_THAT(left.words, HasSubstr("no step trips at an open edge")) << "it is told all the same";
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
