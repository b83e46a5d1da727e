// A push sideways on the bench, and the seat block past its deck: worked by hand in pounds and inches.
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/check.hpp"
#include "rules/fasteners.hpp"
#include "rules/good_facts.hpp"
#include "rules/push.hpp"
#include "rules/words.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::rules {
namespace {

using job::Length;
using testing::Contains;
using testing::HasSubstr;

Result result_in(const job::Job& job, const facts::Facts& facts, const char* id) {
  for (const Result& r : check(job, facts))
    if (r.id == id) return r;
  ADD_FAILURE() << "no rule " << id;
  return {};
}

TEST(Push, IsSharedOutAsByAStiffBody) {
  // Source: closed form of a group of fasteners: an even part, and in proportion to the distance from their middle.
  // Four at 0.75, 16, 20 and 35.25 in, pushed at 36: 1/4 + 18 x 17.25 / 603.125 = 0.7648; in their middle 1/4; a turn:
  // 17.25 / 603.125.
  const std::vector<double> four{0.75, 16, 20, 35.25};
  EXPECT_NEAR(*greatest_part(four, 36), 0.25 + 18 * 17.25 / 603.125, 1e-12);
  EXPECT_NEAR(*greatest_part(four, 0), *greatest_part(four, 36), 1e-12) << "its mirror image";
  EXPECT_NEAR(*greatest_part(four, 18), 0.25, 1e-12);
  EXPECT_NEAR(*greatest_of_turn(four), 17.25 / 603.125, 1e-12);
  EXPECT_NEAR(*greatest_part({0, 10}, 10), 1, 1e-12) << "at the end of two it is all on one, as on a beam";
  EXPECT_FALSE(greatest_part({7}, 7));
  EXPECT_FALSE(greatest_of_turn({7, 7}));
}

TEST(Push, TwoWaysAtOnceGoByTheFormulaOfTheCode) {
  // Source: NDS 2018 12.4-1: Z'a = W'p Z' / (W'p cos2 a + Z' sin2 a): 60 pulled and 80 across are 100 at 36.87 degrees;
  // of 150 and 200 there may be 150 x 200 / (150 x 0.64 + 200 x 0.36) = 178.57.
  EXPECT_NEAR(both_ways_share(80, 60, 200, 150), 100 / 178.5714, 1e-6);
  EXPECT_NEAR(both_ways_share(80, 0, 200, 150), 80. / 200, 1e-12);
  EXPECT_NEAR(both_ways_share(0, 60, 200, 150), 60. / 150, 1e-12);
  EXPECT_EQ(both_ways_share(0, 0, 200, 150), 0);
}

TEST(Push, AToeNailGoesInByItsSlope) {
  // Source: by hand with NDS 12.3 and 12.5.4: 8d, 2-1/2 in: a third of it, 0.833 in, is in the joist, and 2.5 cos 30 -
  // 0.833 = 1.332 in in the cleat, over 10 diameters; 74.49 lbf of SPF x 0.83 = 61.83.
  EXPECT_NEAR(toe_nailed_lbf(*fastener_of("8d"), 0.42, 2.5), 61.825, 0.005);
  EXPECT_EQ(toe_nailed_lbf(*fastener_of("16d"), 0.42, 1.75), 0) << "0.932 in, under six diameters";
}

TEST(Push, SheetSteelBearsMoreThanWood) {
  // Source: by hand with NDS 12.3.1 and 61850 psi for sheet of 33 ksi (from memory): #10 through 0.0346 in into SPF:
  // 464.9, 147.9, 189.6, 204.1, 97.2, 137.0 lbf.
  const auto modes = yield_modes(*fastener_of("#10"), 0.42, 0.0346, 2, sheet_bears_psi);
  const double by_hand[] = {464.9, 147.9, 189.6, 204.1, 97.2, 137.0};
  for (std::size_t i = 0; i < modes.size(); ++i) EXPECT_NEAR(modes[i], by_hand[i], 0.06) << i;
}

TEST(Push, ABenchWorkedByHand) {
  // Source: by hand, 200 lbf at the end of a bench of 36 in whose seat is 18-1/4 in up, its cleat's middle 10-3/4, its
  // knee wall 12-3/4 in from the studs: off the wall 0.7648 x 200 = 152.96 lbf pull at the last stud, and the cleat is
  // lifted by 152.96 x 7.5 / 12.75 = 89.98; three 16d hold 153.34 and 359.53: 98.67 %. Along the wall at 15 in:
  // 200 x 15 x 17.25 / 603.125 = 85.80 pulled, 200 / 4 and 57.06 / 4 of its weight across: 55.35 %. A joist off the
  // wall: 0.7196 x 200 = 143.91 of 185.48, 77.59 %; along: 92.87, 50.07 %.
  const facts::Facts facts = sample::good_facts();
  const double z16 = 119.8426, w16 = 1380 * std::pow(0.42, 2.5) * 0.162 * 2, toe = 61.82506;
  const Push push = push_of(*facts.cleat, *facts.stand, 200, {z16, w16}, 3, toe, 3, Together::by_nds);
  ASSERT_EQ(push.joints.size(), 4U);
  const double shares[] = {0.98668, 0.77592, 0.55349, 0.50071};
  for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(push.joints[i].share, shares[i], 2e-5) << push.joints[i].what;
  EXPECT_EQ(&push.worst(), &push.joints[0]);
  const Result r = result_in(sample::alcove(), facts, "load.seat-push");
  EXPECT_NEAR(*r.measured, 0.98668, 2e-5);
  EXPECT_EQ(r.outcome, Outcome::pass);
  EXPECT_THAT(r.where, HasSubstr("pushed off the wall: 200 lbf (890 N)"));
  EXPECT_THAT(r.details, Contains(HasSubstr("153 lbf pulled out, 90 lbf across")));
  EXPECT_THAT(r.details, Contains(HasSubstr("not counted")));
}

TEST(Push, WhereTheBuildingCodeHoldsItIs250) {
  // Source: IBC 1607.9.2 (as adopted in California, 2022) and ADA 610.4: 250 lbf, any direction; in dwellings 200 is
  // common practice, no source.
  job::Job job = sample::alcove();
  const facts::Facts facts = sample::good_facts();
  const double home = *result_in(job, facts, "load.seat-push").measured;
  for (const char* book : {"building", "accessible"}) {
    job.book = book;
    const Result r = result_in(job, facts, "load.seat-push");
    EXPECT_NEAR(*r.measured / home, 1.25, 1e-9) << book;
    EXPECT_EQ(r.outcome, Outcome::fail) << book;
  }
}

TEST(Push, ItsRemedyPassesOnceFollowed) {
  // Source: none; counts that are advised are enough, and one less is not.
  job::Job job = sample::alcove();
  const facts::Facts facts = sample::good_facts();
  job.bench->frame.fasteners_at_stud = 1;
  job.bench->frame.fasteners_at_joist = 1;
  const Result r = result_in(job, facts, "load.seat-push");
  EXPECT_EQ(r.outcome, Outcome::fail);
  ASSERT_EQ(r.remedies.size(), 1U);
  ASSERT_EQ(r.remedies[0].changes.size(), 2U);
  EXPECT_EQ(r.remedies[0].changes[0], (job::Change{"bench.frame.fasteners_at_stud", "3", 0}));
  EXPECT_EQ(r.remedies[0].changes[1], (job::Change{"bench.frame.fasteners_at_joist", "3", 0}));
  EXPECT_THAT(r.advice, HasSubstr("3 fasteners at each stud"));
  for (const auto& [stud, joist, outcome] :
       {std::tuple{3, 3, Outcome::pass}, {2, 3, Outcome::fail}, {3, 2, Outcome::fail}}) {
    job.bench->frame.fasteners_at_stud = stud, job.bench->frame.fasteners_at_joist = joist;
    EXPECT_EQ(result_in(job, facts, "load.seat-push").outcome, outcome) << stud << " " << joist;
  }
  job.bench->frame.fasteners_at_stud = 3, job.bench->frame.fasteners_at_joist = 3;
  job.bench->frame.joist_fastener_length = Length::inches(1.5);
  const Result short_nails = result_in(job, facts, "load.seat-push");
  EXPECT_THAT(short_nails.advice, HasSubstr("longer or stouter fasteners at each end of a joist"));
  EXPECT_TRUE(short_nails.remedies.empty()) << "six nails askew through one end split it";
  job.bench->frame.joist_fastener_length = Length::inches(2.5);
  job.bench->frame.fastener = "#10";
  job.bench->frame.fasteners_at_stud = 2, job.bench->frame.fasteners_at_joist = 3;
  EXPECT_EQ(result_in(job, facts, "load.seat-push").outcome, Outcome::pass) << "two screws hold what two nails do not";
}

TEST(Push, WhatNobodySaidOrTheTablesLackIsNoPass) {
  // Source: none.
  job::Job job = sample::alcove();
  const facts::Facts facts = sample::good_facts();
  job.bench->frame.fasteners_at_joist.reset();
  EXPECT_EQ(result_in(job, facts, "load.seat-push").outcome, Outcome::not_checked);
  EXPECT_THAT(result_in(job, facts, "load.seat-push").advice, HasSubstr("bench.frame.fasteners_at_joist"));
  EXPECT_EQ(result_in(job, facts, "load.seat-cleat").outcome, Outcome::pass) << "a joist's nails are no matter to it";
  job.bench->frame.fasteners_at_joist = 3;
  job.bench->frame.joist_fastener = "#8";
  EXPECT_EQ(result_in(job, facts, "load.seat-push").outcome, Outcome::not_checked);
  EXPECT_THAT(result_in(job, facts, "load.seat-push").advice, HasSubstr("screws driven askew"));
  job.bench->frame.joist_fastener = "8d";
  job.bench->frame.joist_fastener_length = Length::inches(1.25);
  EXPECT_EQ(result_in(job, facts, "load.seat-push").outcome, Outcome::fail) << "nails too short to count";
  job.bench->frame.joist_fastener_length = Length::inches(2.5);
  facts::Facts lone = facts;
  lone.cleat->studs_at_mm = {16 * in};
  EXPECT_EQ(result_in(job, lone, "load.seat-push").outcome, Outcome::fail) << "about one stud the bench turns";
  facts::Facts none = facts;
  none.stand.reset();
  EXPECT_EQ(result_in(job, none, "load.seat-push").outcome, Outcome::not_checked);
}

TEST(Push, WhatHoldsNothingIsSaidInWords) {
  // Source: none; a load over nothing is no number.
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  const auto expect_words = [&](const char* id, const char* words) {
    const Result r = result_in(job, facts, id);
    EXPECT_EQ(r.outcome, Outcome::fail) << id;
    EXPECT_FALSE(r.measured) << id;
    EXPECT_FALSE(r.margin) << id;
    EXPECT_EQ(measured_text(r, job), "holds nothing") << id;
    EXPECT_THAT(r.where, HasSubstr(words)) << id;
    EXPECT_FALSE(r.advice.empty()) << id;
  };
  job.bench->frame.fastener_length = Length::inches(2);
  expect_words("load.seat-cleat", "1/2\" into the stud, which counts for nothing");
  expect_words("load.seat-push", "hold on the stud that takes most, pushed off the wall holds nothing");
  job = sample::alcove();
  job.bench->frame.joist_fastener_length = Length::inches(1.25);
  expect_words("load.seat-push", "hold of the joist that takes most, pushed off the wall holds nothing");
  job.bench->frame.rail_fastener_length = Length::inches(2);
  expect_words("load.seat-rail", "too short to hold anything");
  job = sample::alcove();
  facts.cleat->studs_at_mm = {16 * in};
  expect_words("load.seat-push", "a single stud, about which it turns holds nothing");
  EXPECT_THAT(result_in(job, facts, "load.seat-push").advice, HasSubstr("set another stud behind the bench"));
  const std::vector<Result> all = worst_first(check(job, facts));
  EXPECT_EQ(all.front().id, "load.seat-push") << "no margin: before all that is a matter of degree";
}

TEST(Push, WhatDrawsTheRailOffItsJoistsIsNotJudgedAndMakesNoPass) {
  // Source: NDS 12.2.3 and EN 1995-1-1, 8.3.2 (4), from memory: nails in end grain are not counted against being drawn
  // out. 200 lbf on four joists of two 16d: 200 / (8 x 120 x 0.67) = 31 %.
  const Result r = result_in(sample::alcove(), sample::good_facts(), "load.seat-rail");
  ASSERT_TRUE(r.measured);
  EXPECT_LT(*r.measured, 1);
  EXPECT_EQ(r.outcome, Outcome::caution);
  EXPECT_THAT(r.advice, HasSubstr("not judged, for an engineer: what draws the rail off the joists' ends"));
  EXPECT_THAT(r.advice, HasSubstr("which screws hold the deck down to the rail"));
}

TEST(Push, RestsOnTheStudsBehindTheBenchAlone) {
  // Source: none; studs of another wall that nobody read hold nothing of it.
  job::Job job = sample::alcove();
  job.walls.existing = true;
  const facts::Facts facts = sample::good_facts();
  const Result unread = result_in(job, facts, "load.seat-push");
  EXPECT_EQ(unread.outcome, Outcome::not_checked);
  EXPECT_THAT(unread.advice, HasSubstr("left wall behind the bench"));
  survey::Studs studs;
  studs.wall = job::Side::left;
  job.survey.studs = {studs};
  EXPECT_EQ(result_in(job, facts, "load.seat-push").outcome, Outcome::pass);
  job.survey.studs[0].wall = job::Side::right;
  EXPECT_EQ(result_in(job, facts, "load.seat-push").outcome, Outcome::not_checked);
}

TEST(Push, ASteelBenchHangsOnScrews) {
  // Source: by hand: #10 through 0.0451 in of track into SPF: its own worst way across; pulled: 1.5 x 0.0451 x 0.340 x
  // 45 ksi / 3 = 345 lbf is more than 2 in of thread at 95.5. Joists: #8 through two sheets of 0.0451 in, 244.36 lbf.
  job::Job job = sample::alcove();
  job.bench->frame.kind = job::FrameKind::steel;
  job.bench->frame.fastener = "#10", job.bench->frame.fastener_length = Length::inches(3);
  job.bench->frame.fasteners_at_stud = 2;
  job.bench->frame.joist_fastener = "#8", job.bench->frame.fasteners_at_joist = 2;
  job.bench->frame.joist_fastener_length.reset();
  facts::Facts facts = sample::good_facts();
  facts.cleat->thickness_mm = 0.0451 * in;
  for (facts::Bearer& b : facts.bearers)
    if (b.what == "joist") b.steel = true, b.sheet_mm = 0.0451 * in;
  const Fastener ten = *fastener_of("#10");
  const double across = across_lbf(ten, 0.42, 0.0451, 3 - 0.0451, sheet_bears_psi),
               pulled = 2850 * 0.42 * 0.42 * 0.19 * 2;
  EXPECT_NEAR(*result_in(job, facts, "load.seat-cleat").measured, 250 / (2 * across), 1e-9);
  const Push push = push_of(*facts.cleat, *facts.stand, 200, {across, pulled}, 2, 244.3584, 2, Together::added);
  EXPECT_NEAR(*result_in(job, facts, "load.seat-push").measured, push.worst().share, 1e-6);
  EXPECT_NEAR(push.joints[0].share, 89.9787 / (2 * across) + 152.9637 / (2 * pulled), 1e-5);
  EXPECT_NEAR(push.joints[1].share, 143.9130 / (2 * 244.3584), 1e-6);
  job.bench->frame.fastener = "16d";
  EXPECT_EQ(result_in(job, facts, "load.seat-push").outcome, Outcome::not_checked);
  EXPECT_THAT(result_in(job, facts, "load.seat-push").advice, HasSubstr("hang it on screws"));
}

/// A block that reaches `past` the deck and is `thick` over its edge, of 60 psi foam.
Result edge(double past, double thick, std::optional<double> psi = 60) {
  job::Job job = sample::alcove();
  job.bench->strength_mpa.reset();
  if (psi) job.bench->strength_mpa = *psi * 0.006894757293168;
  facts::Facts facts = sample::good_facts();
  facts.seat_edge = facts::SeatEdge{past * in, "right", thick * in};
  return result_in(job, facts, "load.seat-nose");
}

TEST(Nose, AFoamBlockBendsOverTheDecksEdge) {
  // Source: by hand: 250 lbf on 3 x 3 in flush with the edge. 1/2 in past: 41.67 lbf at 1/4 in are 10.417 lbf in on
  // 4.25 x 1.25^2 / 6 = 1.1068 in3, 9.412 psi of 20: 47.06 %. 4 in past: 250 x 2.5 = 625 on 5 x 4 / 6 = 3.333, 187.5
  // psi, 937.5 %.
  EXPECT_NEAR(*edge(0.5, 1.25).measured, 9.41176 / 20, 1e-5);
  EXPECT_EQ(edge(0.5, 1.25).outcome, Outcome::pass);
  EXPECT_NEAR(*edge(4, 2).measured, 9.375, 1e-6);
  EXPECT_EQ(edge(4, 2).outcome, Outcome::fail);
  EXPECT_THAT(edge(4, 2).where, HasSubstr("187.5 psi of 20.0 psi"));
  EXPECT_THAT(edge(4, 2).advice, HasSubstr("bench.overhang"));
  EXPECT_NEAR(*edge(3, 2).measured, 250 * 1.5 / (5 * 4 / 6.) / 20, 1e-9) << "both ways to reckon it meet at 3 in";
}

TEST(Nose, AStrengthThatNobodyKnowsIsAskedOfTheMaker) {
  // Source: none.
  const Result r = edge(0.5, 1.25, {});
  EXPECT_EQ(r.outcome, Outcome::not_checked);
  EXPECT_THAT(r.advice, HasSubstr("bench.strength"));
  EXPECT_THAT(r.advice, HasSubstr("1/2\" past the deck"));
  EXPECT_EQ(edge(1. / 32, 1.25, {}).outcome, Outcome::not_applicable) << "less than the tape shows";
}

TEST(Nose, TheMakersOwnLoadComesFirst) {
  // Source: common practice, no source: 250 lbf are 113.4 kg.
  job::Job job = sample::alcove();
  const facts::Facts facts = sample::good_facts();
  job.bench->nose_carries_kg = 113;
  EXPECT_EQ(result_in(job, facts, "load.seat-nose").outcome, Outcome::fail);
  job.bench->nose_carries_kg = 114;
  EXPECT_EQ(result_in(job, facts, "load.seat-nose").outcome, Outcome::pass);
}

}  // namespace
}  // namespace fallwright::rules
