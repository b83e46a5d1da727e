// A push sideways on the bench, and the seat block past its deck: worked by hand in pounds and inches.
#include <cmath>
#include <map>
#include <tuple>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/check.hpp"
#include "rules/fasteners.hpp"
#include "rules/good_facts.hpp"
#include "rules/push.hpp"
#include "rules/words.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"
#include "units/length.hpp"

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

TEST(Push, TwoStudsSideBySideAreTwoPlaces) {
  // Source: closed form as above: two studs of 35 mm side by side at a bench's middle, their centres 35 mm apart,
  // pushed 457.2 mm from there: 1/2 + 457.2 x 17.5 / 612.5 = 13.563 times 200 lbf off the wall, and along it 200 x 381
  // / 35. Taken for a single stud they were told to take 200 lbf off the wall, with nothing to be done about it.
  facts::Facts facts = sample::good_facts();
  const double middle = (facts.stand->from_mm + facts.stand->to_mm) / 2;
  ASSERT_NEAR(facts.stand->to_mm - facts.stand->from_mm, 914.4, 1e-9);
  ASSERT_NEAR(facts.stand->reach_mm, 381, 1e-9);
  facts.cleat->studs_at_mm = {middle - 17.5, middle + 17.5};
  const Push push = push_of(*facts.cleat, *facts.stand, 200, {1000, 1000}, 1, 1000, 1, Together::added);
  ASSERT_EQ(push.joints.size(), 4U);
  EXPECT_THAT(push.joints[0].line, HasSubstr("2713 lbf pulled out"));
  EXPECT_THAT(push.joints[2].line, HasSubstr("2177 lbf pulled out"));
  const Result r = result_in(sample::alcove(), facts, "load.seat-push");
  EXPECT_EQ(r.outcome, Outcome::fail);
  EXPECT_FALSE(std::isinf(*r.measured));
  EXPECT_THAT(r.advice, HasSubstr("holds so much at a stud: set another one behind the bench, away from these"));
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
  EXPECT_THAT(short_nails.advice, HasSubstr("3 8d nails at each end of a joist, 2-1/2\" long (bench.frame."))
      << "six nails askew through one end split it: those that are there were cut short";
  job.bench->frame.joist_fastener_length = Length::inches(2.5);
  job.bench->frame.fastener = "#10";
  job.bench->frame.fasteners_at_stud = 2, job.bench->frame.fasteners_at_joist = 3;
  EXPECT_EQ(result_in(job, facts, "load.seat-push").outcome, Outcome::pass) << "two screws hold what two nails do not";
}

job::Job with_lines(job::Job job, const std::vector<job::Change>& changes) {
  std::string why;
  for (const job::Change& change : changes) {
    job::BenchFrame& frame = job.bench->frame;
    const bool quoted = change.value.starts_with('"');
    const std::string value = quoted ? change.value.substr(1, change.value.size() - 2) : change.value;
    const auto length = units::parse_length(value, units::LengthUnit::mm, why);
    if (change.key == "bench.frame.fastener") frame.fastener = value;
    if (change.key == "bench.frame.joist_fastener") frame.joist_fastener = value;
    if (change.key == "bench.frame.fasteners_at_stud") frame.fasteners_at_stud = std::stoi(value);
    if (change.key == "bench.frame.fasteners_at_joist") frame.fasteners_at_joist = std::stoi(value);
    if (change.key == "bench.frame.fastener_length") frame.fastener_length = *length;
    if (change.key == "bench.frame.joist_fastener_length") frame.joist_fastener_length = *length;
  }
  return job;
}

TEST(Push, WhatItIsToldToTakeHoldsAndIsSold) {
  // Source: ASTM F1667 (from memory): a common nail of 8d is 2-1/2 in long, of 10d 3 in and of 16d 3-1/2 in, and no
  // other; whoever takes what is told passes the same check, in either unit.
  const std::map<std::string, double> penny{{"8d", 2.5}, {"10d", 3}, {"16d", 3.5}};
  const facts::Facts facts = sample::good_facts();
  int followed = 0;
  for (const bool metric : {false, true})
    for (const char* fastener : {"8d", "16d", "#8", "3.1 mm nail", "5 mm screw"})
      for (const double length_in : {1.75, 2.5, 3.5})
        for (const char* tie : {"8d", "3.1 mm nail"})
          for (const double tie_in : {1.5, 2.0, 2.5}) {
            job::Job job = sample::alcove();
            if (metric) job.unit = job::UnitSystem::metric;
            job::BenchFrame& frame = job.bench->frame;
            frame.fastener = fastener, frame.fastener_length = Length::inches(length_in), frame.fasteners_at_stud = 2;
            frame.joist_fastener = tie, frame.joist_fastener_length = Length::inches(tie_in);
            frame.fasteners_at_joist = 2;
            const Result r = result_in(job, facts, "load.seat-push");
            if (r.outcome != Outcome::fail) continue;
            ASSERT_EQ(r.remedies.size(), 1u) << r.advice;
            const job::Job mended = with_lines(job, r.remedies[0].changes);
            EXPECT_EQ(result_in(mended, facts, "load.seat-push").outcome, Outcome::pass) << r.advice;
            const job::BenchFrame& then = mended.bench->frame;
            for (const auto& [name, length, before] :
                 {std::tuple{*then.fastener, then.fastener_length->in_mm(), length_in},
                  {*then.joist_fastener, then.joist_fastener_length->in_mm(), tie_in}})
              if (const auto sold = penny.find(name); sold != penny.end() && length != before * in) {
                EXPECT_NEAR(length, sold->second * in, 1e-9) << r.advice;
              }
            ++followed;
          }
  EXPECT_GT(followed, 60);
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

/// With nothing but the deck's fasteners to decide.
Result rail_with(const char* fastener, double length_in, double edge_in, double field_in = 12,
                 const facts::Facts& facts = sample::good_facts()) {
  job::Job job = sample::alcove();
  job.bench->frame.deck_fastener = fastener, job.bench->frame.deck_fastener_length = Length::inches(length_in);
  job.buy.fasteners.deck_edge = Length::inches(edge_in), job.buy.fasteners.deck_field = Length::inches(field_in);
  return result_in(job, facts, "load.seat-rail");
}

TEST(Push, OffTheWallIsSharedOutOverTheDecksFasteners) {
  // Source: closed form of a group of fasteners, as above. On 36 in twelve 3 in apart, pushed at an end: 1/12 + 18 x
  // 16.5 / (9 x 143); on joists of 13 in at 3/4, 12-1/4, 23-3/4 and 35-1/4 five in the outer ones and two in the
  // others: 1/14 + 18 x 17.25 / (10 x 297.5625 + 4 x 33.0625).
  const facts::Rail rail = *sample::good_facts().rail;
  const DeckHold hold = deck_hold(rail, 0, 36 * in, 3 * in, 12 * in);
  EXPECT_NEAR(hold.at_rail, 1. / 12 + 18 * 16.5 / (9 * 143), 1e-9);
  EXPECT_NEAR(hold.at_joists, 1. / 14 + 18 * 17.25 / (10 * 297.5625 + 4 * 33.0625), 1e-9);
  EXPECT_NEAR(deck_hold(rail, 18 * in, 18 * in, 3 * in, 12 * in).at_rail, 1. / 12, 1e-9);
  EXPECT_NEAR(deck_hold(rail, 0, 36 * in, 20 * in, 20 * in).at_rail, 1.5, 1e-9) << "past two it prises at the nearer";
  EXPECT_EQ(deck_hold(rail, 0, 36 * in, 40 * in, 20 * in).at_rail, 1) << "a single one takes it all";
  EXPECT_NEAR(deck_hold(rail, 0, 36 * in, 3.003 * in, 12 * in).at_rail, hold.at_rail, 1e-9) << "what a saw leaves";
  EXPECT_NEAR(deck_hold(rail, 0, 36 * in, 2.99 * in, 12 * in).at_rail, hold.at_rail, 1e-9);
  EXPECT_EQ(deck_hold(rail, 0, 36 * in, 3 * in, 0).at_joists, 1) << "none holds nothing in the joists";
  facts::Rail mirrored = rail;
  for (double& at : mirrored.joists_at_mm) at = 36 * in - at;
  EXPECT_NEAR(deck_hold(mirrored, 0, 36 * in, 4 * in, 6 * in).at_joists,
              deck_hold(rail, 0, 36 * in, 4 * in, 6 * in).at_joists, 1e-12);
}

TEST(Push, OffTheWallTheRailIsHeldByTheDecksFasteners) {
  // Source: NDS 12.3 (2018): a #8 screw through 3/4 in of plywood (3350 psi, Table 12.3.3B, from memory) into SPF is
  // worked out at 68.61 lbf; 200 lbf on twelve or six along 36 in, by the closed form above.
  const double one = across_lbf(*fastener_of("#8"), 0.42, 0.75, 1.75, 3350);
  EXPECT_NEAR(one, 68.612, 1e-3);
  const Result held = rail_with("#8", 2.5, 3);
  EXPECT_EQ(held.outcome, Outcome::pass) << held.where;
  EXPECT_NEAR(*held.measured, 200 * (1. / 12 + 18 * 16.5 / (9 * 143)) / one, 1e-6);
  EXPECT_THAT(held.where, HasSubstr("taken to come on the rail whole; through the deck 3\" apart along its edges"));
  EXPECT_THAT(held.details, Contains(HasSubstr("off the wall 63 lbf (279 N) at the deck's fastener that takes most")));
  facts::Facts bare = sample::good_facts();
  bare.stand.reset();
  EXPECT_NEAR(*rail_with("#8", 2.5, 3, 12, bare).measured, *held.measured, 1e-9)
      << "from end to end of the rail itself";
  const Result wide = rail_with("#8", 2.5, 6);
  EXPECT_EQ(wide.outcome, Outcome::fail);
  EXPECT_NEAR(*wide.measured, 200 * (1. / 6 + 18 * 15. / (9 * 70)) / one, 1e-6);
  EXPECT_THAT(wide.advice, HasSubstr("fasten the deck down along its edges every 3-1/2 in (fasteners.deck_edge)"));
  ASSERT_EQ(wide.remedies.size(), 1U);
  EXPECT_EQ(wide.remedies[0].changes, (std::vector{job::Change{"fasteners.deck_edge", "\"3-1/2 in\"", 0}}));
  const Result weak = rail_with("#8", 1.75, 2.5);
  EXPECT_EQ(weak.outcome, Outcome::fail);
  EXPECT_THAT(weak.advice, HasSubstr("longer fasteners (bench.frame.deck_fastener_length)")) << "one inch into it";
  EXPECT_TRUE(weak.remedies.empty());
  const Result none = rail_with("#8", 1.5, 3);
  EXPECT_EQ(none.outcome, Outcome::fail);
  EXPECT_FALSE(none.measured);
  EXPECT_THAT(none.where, HasSubstr("too short to hold anything"));
}

TEST(Push, OffTheWallTheJoistsWantScrewsOfTheirOwn) {
  // Source: by hand: one in each of four joists, 13 in apart: 1/4 + 18 x 17.25 / (2 x 297.5625 + 2 x 33.0625) = 0.7196
  // of 200 lbf is more than the 76.5 that a #10 takes.
  const Result r = rail_with("#10", 3, 2, 13);
  EXPECT_EQ(r.outcome, Outcome::pass) << "the outer joists lie along the deck's edges: " << r.where;
  job::Job job = sample::alcove();
  job.buy.fasteners.deck_edge = job.buy.fasteners.deck_field = Length::inches(13);
  const Result wide = result_in(job, sample::good_facts(), "load.seat-rail");
  EXPECT_EQ(wide.outcome, Outcome::fail);
  ASSERT_EQ(wide.remedies.size(), 1U);
  EXPECT_EQ(wide.remedies[0].changes[0].key, "fasteners.deck_edge");
  for (const job::Change& change : wide.remedies[0].changes) {
    auto& to = change.key == "fasteners.deck_edge" ? job.buy.fasteners.deck_edge : job.buy.fasteners.deck_field;
    to = Length::inches(std::stod(change.value.substr(1)));
  }
  EXPECT_EQ(result_in(job, sample::good_facts(), "load.seat-rail").outcome, Outcome::pass);
}

TEST(Push, ADeckThatNobodyToldOfMakesNoPass) {
  // Source: NDS 12.2.3 and EN 1995-1-1, 8.3.2 (4), from memory: nails in end grain are not counted against being drawn
  // out, so the rail is held that way by the deck alone. What fails without it fails.
  job::Job job = sample::alcove();
  job.bench->frame.deck_fastener.reset();
  const Result open = result_in(job, sample::good_facts(), "load.seat-rail");
  EXPECT_EQ(open.outcome, Outcome::not_checked);
  EXPECT_EQ(open.advice,
            "say what fasteners hold the bench: deck to rail and joists, which they are "
            "(bench.frame.deck_fastener)");
  job.bench->frame.rail_fastener_length = Length::inches(2);
  EXPECT_EQ(result_in(job, sample::good_facts(), "load.seat-rail").outcome, Outcome::fail);
}

TEST(Push, RestsOnTheStudsBehindTheBenchAlone) {
  // Source: none; studs of another wall that nobody read hold nothing of it.
  job::Job job = sample::alcove();
  job.walls.existing = true;
  const facts::Facts facts = sample::good_facts();
  const Result unread = result_in(job, facts, "load.seat-push");
  EXPECT_EQ(unread.outcome, Outcome::not_checked);
  EXPECT_THAT(unread.advice, HasSubstr("left wall, behind the bench"));
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
    if (b.kind == facts::Bears::joist) b.steel = true, b.sheet_mm = 0.0451 * in;
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
  facts.seat_edge = facts::SeatEdge{past * in, job::Side::right, thick * in};
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
