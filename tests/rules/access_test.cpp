// What an accessible shower asks for beside its sizes.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/check.hpp"
#include "rules/flood.hpp"
#include "rules/good_facts.hpp"
#include "rules/result_of.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

using job::Length;
using rules::Outcome, rules::Result, rules::check, rules::flood_levels, rules::flood_table;
using sample::in_book, sample::result_of;
using testing::HasSubstr;

job::Fixture fixture(job::FixtureKind kind, job::Side wall, double along_in, double height_in) {
  job::Fixture f{"it", wall, Length::inches(along_in), Length::inches(height_in), {}, {}};
  f.kind = kind;
  return f;
}

TEST(Access, WhatNobodyDeclaredIsAskedFor) {
  // Source: none; a row that nobody can pass by silence.
  const std::pair<const char*, const char*> rows[] = {{"bar.height", "grab-bar"},
                                                      {"bar.strength", "grab-bar"},
                                                      {"controls.height", "controls"},
                                                      {"controls.reach", "controls"},
                                                      {"access.clearance-along", "floor.clear_along"},
                                                      {"access.clearance-before", "floor.clear_before"}};
  for (const auto& [id, words] : rows) {
    const rules::Result r = result_of(in_book("accessible"), sample::good_facts(), id);
    EXPECT_EQ(r.outcome, Outcome::not_checked) << id;
    EXPECT_THAT(r.advice, HasSubstr(words)) << id;
    EXPECT_EQ(result_of(in_book("residential"), sample::good_facts(), id).outcome, Outcome::not_applicable) << id;
  }
}

TEST(Access, ABarMayBeThinOrThickAndTheFloorFalls) {
  // Source: ADA 609.4 (2010): 33 to 36 in to the top; bars are 1-1/4 to 2 in. A flange 34 in above a level rim holds a
  // bar whose top is at 34-5/8 to 35 in; on a rim that is an inch lower elsewhere at 36.
  job::Job job = in_book("accessible");
  facts::Facts facts = sample::good_facts();
  job.fixtures = {
      fixture(job::FixtureKind::grab_bar, job::Side::right, 24, 34 + 2)};  // the rim is 2 in above the datum
  EXPECT_EQ(result_of(job, facts, "bar.height").outcome, Outcome::pass);
  facts.heights.rim_least_mm -= in;
  EXPECT_EQ(result_of(job, facts, "bar.height").outcome, Outcome::pass);
  facts.heights.rim_least_mm -= 0.1 * in;
  EXPECT_EQ(result_of(job, facts, "bar.height").outcome, Outcome::fail);
  EXPECT_THAT(result_of(job, facts, "bar.height").advice, HasSubstr("lower"));
  job.fixtures[0].height = Length::inches(34);
  EXPECT_THAT(result_of(job, facts, "bar.height").advice, HasSubstr("higher"));
}

TEST(Access, TheCodesOwnNewtonsCarryItsPounds) {
  // Source: ADA 609.8 and 610.4 (2010, from memory): 250 lbf (1112 N): what carries either figure is inside.
  job::Job job = in_book("accessible");
  const facts::Facts facts = sample::good_facts();
  job.fixtures = {fixture(job::FixtureKind::grab_bar, job::Side::back, 24, 36)};
  for (const auto& [kg, outcome] : {std::pair{1112 / 9.80665, Outcome::pass},
                                    {250 * 0.45359237, Outcome::pass},
                                    {1111.9 / 9.80665, Outcome::fail}}) {
    job.fixtures[0].carries_kg = kg;
    EXPECT_EQ(result_of(job, facts, "bar.strength").outcome, outcome) << kg;
  }
}

TEST(Access, NoBarIsOverTheSeat) {
  // Source: ADA 608.3 (2010), in public guidance: none over the seat. By hand: the sample's seat is as deep as its
  // bench and stands at the left end: a bar on the left wall is over it, one on the back wall where it is, one on the
  // right wall never.
  job::Job job = in_book("accessible");
  facts::Facts facts = sample::good_facts();
  ASSERT_TRUE(job.bench && job.bench->place == job::Side::left);
  for (facts::Part& part : facts.parts)
    if (part.which.is(facts::Role::seat_block)) part.bbox_mm = {0, 4 * in, 16 * in, 15 * in, 36 * in, 20 * in};
  const auto outcome = [&](job::Side wall, double along) {
    job.fixtures = {fixture(job::FixtureKind::grab_bar, wall, along, 36)};
    return result_of(job, facts, "bar.height").outcome;
  };
  EXPECT_EQ(outcome(job::Side::left, 16), Outcome::fail);
  EXPECT_EQ(outcome(job::Side::back, 14.9), Outcome::fail);
  EXPECT_THAT(result_of(job, facts, "bar.height").where, HasSubstr("over the seat"));
  EXPECT_EQ(outcome(job::Side::back, 15.1), Outcome::pass);
  EXPECT_EQ(outcome(job::Side::right, 16), Outcome::pass);
  EXPECT_THAT(result_of(job, facts, "bar.height").where, HasSubstr("how far bars run"));
}

TEST(Access, ControlsOfARollInShowerAreAboveTheBar) {
  // Source: ADA 608.5.2 (2010), secondary: above the bar, and at most 48 in up. A bar of 2 in whose flange is 36 in up
  // ends at 37: a control there is inside, 1/100 lower it is not.
  job::Job job = in_book("accessible-roll-in");
  const facts::Facts facts = sample::good_facts();
  job.fixtures = {fixture(job::FixtureKind::controls, job::Side::back, 48, 37)};
  EXPECT_EQ(result_of(job, facts, "controls.height").outcome, Outcome::not_checked) << "above which bar";
  job.fixtures.push_back(fixture(job::FixtureKind::grab_bar, job::Side::back, 30, 36));
  EXPECT_EQ(result_of(job, facts, "controls.height").outcome, Outcome::pass);
  job.fixtures[0].height = Length::inches(36.99);
  EXPECT_EQ(result_of(job, facts, "controls.height").outcome, Outcome::fail);
  EXPECT_THAT(result_of(job, facts, "controls.height").advice, HasSubstr("higher"));
  job.fixtures[1].wall = job::Side::right;
  EXPECT_EQ(result_of(job, facts, "controls.height").outcome, Outcome::fail) << "none on its own wall: above any";
}

TEST(Access, ControlsBelongAcrossFromTheSeat) {
  // Source: ADA 608.5.1 (2010): on the wall across from the seat, within 15 in of its middle toward the entry.
  job::Job job = in_book("accessible");
  const facts::Facts facts = sample::good_facts();
  job.fixtures = {fixture(job::FixtureKind::controls, job::Side::left, 20, 44)};
  EXPECT_EQ(result_of(job, facts, "controls.reach").outcome, Outcome::fail);
  EXPECT_THAT(result_of(job, facts, "controls.reach").advice, HasSubstr("the right wall"));
  job.fixtures[0].wall = job::Side::right;
  EXPECT_EQ(result_of(job, facts, "controls.reach").outcome, Outcome::pass);
}

TEST(Access, TheControlThatIsTooHighIsFoundAmongThoseThatAreNot) {
  // Source: ADA 308.2.1 (2010): 48 in at most, and no least is set: of two controls, 40 and 52 in above the rim, the
  // higher one fails. The rim is 2 in above the datum.
  job::Job job = in_book("accessible-roll-in");
  const facts::Facts facts = sample::good_facts();
  job.fixtures = {fixture(job::FixtureKind::controls, job::Side::right, 18, 42),
                  fixture(job::FixtureKind::grab_bar, job::Side::right, 18, 36),
                  fixture(job::FixtureKind::controls, job::Side::right, 18, 54)};
  const rules::Result r = result_of(job, facts, "controls.height");
  EXPECT_EQ(r.outcome, Outcome::fail);
  EXPECT_NEAR(*r.measured, 52 * in, 1e-6);
  EXPECT_THAT(r.advice, HasSubstr("lower"));
  job.fixtures.pop_back();
  EXPECT_EQ(result_of(job, facts, "controls.height").outcome, Outcome::pass);
}

TEST(Access, ARollInShowerIsLargerThanATransferShower) {
  // Source: ADA 608.2.1 and 608.2.2 (2010): 36 by 36 in is too small for the one, 60 by 30 too large for the other.
  facts::Facts facts = sample::good_facts();
  EXPECT_EQ(result_of(in_book("accessible"), facts, "access.inside-width").outcome, Outcome::pass);
  EXPECT_EQ(result_of(in_book("accessible-roll-in"), facts, "access.inside-width").outcome, Outcome::fail);
  facts.clear.compartment = {60 * in, 30 * in, 60 * in};
  EXPECT_EQ(result_of(in_book("accessible"), facts, "access.inside-width").outcome, Outcome::fail);
  for (const char* id : {"access.inside-width", "access.inside-depth", "access.face"})
    EXPECT_EQ(result_of(in_book("accessible-roll-in"), facts, id).outcome, Outcome::pass) << id;
  facts.clear.compartment = {72 * in, 40 * in, 72 * in};
  EXPECT_EQ(result_of(in_book("accessible-roll-in"), facts, "access.inside-width").outcome, Outcome::pass);
}

TEST(Access, ABevelIsAskedOfRollInTypesAlone) {
  // Source: ADA 303, 608.7 (2010): upright to 1/4 in, bevelled to 1/2; a transfer type's threshold may be upright.
  facts::Facts facts = sample::good_facts();
  facts.heights.threshold_greatest_mm = *facts.heights.floor_at_threshold_mm + 0.4 * in;
  facts.heights.outside = sample::level_at(*facts.heights.threshold_greatest_mm - 0.2 * in);
  job::Job job = in_book("accessible-roll-in");
  EXPECT_EQ(result_of(job, facts, "threshold.bevel").outcome, Outcome::fail);
  job.base.threshold.bevelled = true;
  EXPECT_EQ(result_of(job, facts, "threshold.bevel").outcome, Outcome::pass);
  EXPECT_EQ(result_of(in_book("accessible"), facts, "threshold.bevel").outcome, Outcome::not_applicable);
}

TEST(Access, ASeatAlongTheBackIsNoTransferSeat) {
  // Source: ADA 610.3 (2010): the seat reaches from the back wall to within 3 in of the entry.
  job::Job job = in_book("accessible");
  job.bench->place = job::Side::back;
  facts::Facts facts = sample::good_facts();
  facts.clear.seat_reach_mm = 20 * in;
  EXPECT_EQ(result_of(job, facts, "seat.reach").outcome, Outcome::fail);
  EXPECT_THAT(result_of(job, facts, "seat.reach").advice, HasSubstr("bench.place"));
}

TEST(Access, GlassIsAskedAboutWhereThereIsSome) {
  // Source: IRC R308.4.5: panes near a shower are safety glazing, each with its mark.
  job::Job job = in_book("residential");
  EXPECT_EQ(result_of(job, sample::good_facts(), "glass.safety").outcome, Outcome::not_applicable);
  job.glass.emplace().height = Length::feet(6);
  EXPECT_EQ(result_of(job, sample::good_facts(), "glass.safety").outcome, Outcome::not_checked);
  job.glass->marked = false;
  EXPECT_EQ(result_of(job, sample::good_facts(), "glass.safety").outcome, Outcome::fail);
}

TEST(Access, AThresholdTooLowForTheFloodTestAsksForADam) {
  // Source: IRC P2503.6 (from memory): 2 in at the threshold. 4 in above the datum on a floor at 2-1/16 hold 1-15/16.
  facts::Facts facts = sample::good_facts();
  facts.heights.floor_at_threshold_mm = 2.0625 * in;
  const rules::Result r = result_of(in_book("residential"), facts, "flood.depth");
  EXPECT_EQ(r.outcome, Outcome::caution);
  EXPECT_NEAR(*r.measured, 1.9375 * in, 1e-9);
  EXPECT_THAT(r.advice, HasSubstr("temporary dam at the entry for the flood test, 1/16\""));
}

TEST(Access, WaterForTheFloodTestRunsOverAtTheLowestOpenEdge) {
  // Source: the same: the right side is open, its rim 1/2 in above the floor at the threshold, 1-1/2 in short of 2 in.
  facts::Facts facts = sample::good_facts();
  facts.heights.floor_at_threshold_mm = 2 * in;
  facts.edges.push_back({job::Side::right, facts::Behind::nothing, facts::Turned::rim, 2.5 * in, 2.5 * in});
  const rules::Result r = result_of(in_book("residential"), facts, "flood.depth");
  EXPECT_EQ(r.outcome, Outcome::caution);
  EXPECT_NEAR(*r.measured, 0.5 * in, 1e-9);
  EXPECT_THAT(r.where, HasSubstr("the right edge, which is open"));
  EXPECT_THAT(r.advice, HasSubstr("1-1/2\" above that edge"));
  facts.edges.push_back({job::Side::left, facts::Behind::nothing, facts::Turned::rim, 2.5 * in, 2.5 * in});
  EXPECT_THAT(result_of(in_book("residential"), facts, "flood.depth").advice,
              AllOf(HasSubstr("the open right and left edges"), HasSubstr("above those edges")));
}

TEST(Access, OfEdgesAsLowThatAtAWallIsToldFirst) {
  // Source: none; which of two edges that are alike comes first in a list says nothing, nor does a hair between them: a
  // dam helps at an open one, and none at a wall over whose edge nothing laps.
  const auto of = [&](double walled_in, double open_in, bool walled_first) {
    facts::Facts facts = sample::good_facts();
    facts.heights.floor_at_threshold_mm = 2 * in;
    facts::Edge walled{job::Side::back, facts::Behind::wall, facts::Turned::rim, walled_in * in, walled_in * in},
        open{job::Side::right, facts::Behind::nothing, facts::Turned::rim, open_in * in, open_in * in};
    facts.edges = {walled_first ? walled : open, walled_first ? open : walled};
    return result_of(in_book("residential"), facts, "flood.depth");
  };
  constexpr double hair = 1e-7;
  for (const bool first : {true, false})
    for (const double by : {-hair, 0., hair}) {
      EXPECT_THAT(of(2.5, 2.5 + by, first).where, HasSubstr("the back edge, over which nothing laps")) << by;
      EXPECT_THAT(of(2.5, 2.5 + by, first).advice, HasSubstr("see to the back edge"));
    }
  EXPECT_THAT(of(2.5, 2.25, true).where, HasSubstr("the right edge, which is open"));
}

TEST(Doors, AreJudgedOnceTheyAreTold) {
  // Source: UPC 408.5 and IRC P2708.1.1: 22 in with the door open, and no leaf that opens inward alone.
  facts::Facts facts = sample::good_facts();
  job::Job job = sample::alcove();
  for (const char* id : {"door.opening", "door.swing"})
    EXPECT_EQ(result_of(job, facts, id).outcome, Outcome::not_applicable) << id;
  job.door.emplace().kind = job::DoorKind::swings_out;
  const Result unread = result_of(job, facts, "door.opening");
  EXPECT_EQ(unread.outcome, Outcome::not_checked) << "told of, and not read";
  EXPECT_THAT(unread.advice, HasSubstr("door.clear"));
  EXPECT_EQ(result_of(job, facts, "door.swing").outcome, Outcome::pass);
  job.door->clear = Length::inches(21.5);
  const Result narrow = result_of(job, facts, "door.opening");
  EXPECT_EQ(narrow.outcome, Outcome::fail);
  EXPECT_THAT(narrow.advice, HasSubstr("1/2\" more free"));
  job.door->clear = Length::inches(90);
  EXPECT_NEAR(*result_of(job, facts, "door.opening").measured, *facts.clear.finished->entry_mm, 1e-9)
      << "no door is wider than the entry it hangs in";
  job.door->kind = job::DoorKind::swings_in;
  const Result inward = result_of(job, facts, "door.swing");
  EXPECT_EQ(inward.outcome, Outcome::fail);
  ASSERT_EQ(inward.remedies.size(), 1U);
  for (const char* book : {"european", "metric"}) {
    job.book = book;  // which asks nothing of it: its row says why, and what is better all the same
    const Result unasked = result_of(job, facts, "door.swing");
    EXPECT_EQ(unasked.outcome, Outcome::not_applicable) << book;
    EXPECT_THAT(unasked.where, HasSubstr("hang it outward")) << book;
  }
  job.book = "residential";
  job.door = job::Door{job::DoorKind::curtain, {}};
  for (const char* id : {"door.opening", "door.swing"})
    EXPECT_EQ(result_of(job, facts, id).outcome, Outcome::not_applicable) << id;
  job.door = job::Door{{}, Length::inches(24)};
  EXPECT_EQ(result_of(job, facts, "door.swing").outcome, Outcome::not_checked);
  job.book = "european";
  EXPECT_EQ(result_of(job, facts, "door.opening").outcome, Outcome::not_applicable);
}

TEST(SeatGaps, ToAFrameThatIsNotBuiltUpYetStandIfTheyAreSmall) {
  // Source: ADA 610.3.1 (2010): 2-1/2 in behind, 1-1/2 in at the end; what a wall is built up takes some off.
  facts::Facts facts = sample::good_facts();
  job::Job job = in_book("accessible");
  facts.clear.finished.reset();
  facts.clear.seat_rear_gap_mm = 2.5 * in;
  EXPECT_EQ(result_of(job, facts, "seat.rear-gap").outcome, Outcome::pass);
  facts.clear.seat_rear_gap_mm = 2.6 * in;
  EXPECT_EQ(result_of(job, facts, "seat.rear-gap").outcome, Outcome::not_checked);
  EXPECT_THAT(result_of(job, facts, "seat.rear-gap").advice, HasSubstr("survey.finish"));
  job.book = "residential";
  EXPECT_EQ(result_of(job, facts, "seat.rear-gap").outcome, Outcome::not_applicable);
}

TEST(FloodLevels, AreThoseThatTheBookAsksFor) {
  // Source: IPC 312.9: 2 in at the threshold, behind a dam where it holds less; UPC 408.7.5: the rough threshold.
  facts::Facts facts = sample::good_facts();
  const double drain = facts.heights.drain_top_mm, floor = *facts.heights.floor_at_threshold_mm - drain;
  facts.heights.threshold_least_mm = drain + floor + 1.5 * in;
  facts.edges[1].top_mm = *facts.heights.threshold_least_mm;
  const double edge = floor + 1.5 * in;
  facts.flood.dips = {{edge, 4e7, 1.2e6}};
  facts.flood.dammed = {{edge, 4e7, 1.2e6}, {edge + 10, 5.2e7, 1.2e6}, {edge + 20, 6.4e7, 1.2e6}};
  const auto levels = [&](const char* book, double finish_mm) {
    job::Job job = in_book(book);
    job.base.threshold.finish = Length::mm(finish_mm);
    return flood_levels(job, facts, check(job, facts));
  };
  ASSERT_EQ(levels("building", 0).size(), 1U);
  EXPECT_EQ(levels("building", 0)[0].what, "behind a dam");
  EXPECT_NEAR(levels("building", 0)[0].dip.above_drain_mm, floor + 2 * in, 1e-9);
  EXPECT_NEAR(levels("building", 0)[0].dip.volume_mm3, 4e7 + 12.7 * 1.2e6, 1e-3) << "upright sides above the edge";
  facts.flood.rough = facts::Dip{edge - 10, 2.8e7, 1.2e6};
  ASSERT_EQ(levels("plumbing", 10).size(), 1U);
  EXPECT_EQ(levels("plumbing", 10)[0].what, "rough threshold");
  EXPECT_NEAR(levels("plumbing", 10)[0].dip.volume_mm3, 2.8e7, 1e-3);
  ASSERT_EQ(levels("building", 10).size(), 2U) << "it spills at the rough one whichever book asks for more";
  EXPECT_EQ(levels("european", 0).size(), 0U);
  facts.flood.rough.reset();
  const auto table = [&](const char* book) {
    const job::Job job = in_book(book);
    return flood_table(job, facts, check(job, facts));
  };
  EXPECT_TRUE(table("plumbing").levels.empty());
  EXPECT_THAT(table("plumbing").unknown, HasSubstr("base.threshold.finish"));
  EXPECT_EQ(table("building").unknown, "");
  const auto fill = [&](const char* book) {
    const job::Job job = in_book(book);
    return rules::fill_words(job, facts, check(job, facts));
  };
  EXPECT_EQ(table("building").fill_mm, floor + 2 * in);
  EXPECT_THAT(fill("building"), testing::StartsWith("fill to "));
  EXPECT_THAT(fill("european"), testing::StartsWith("fill as high as it holds, "));
  EXPECT_EQ(fill("plumbing"), "") << "nobody can say how high the rough threshold is";
}

/// A base built on site: drain 1-1/2 in and its flange 1/4 in above the datum, 1-1/4 in of cover; the floor along the
/// threshold 2 in up, 3/4 in at its waterproofing, and the threshold 4.
job::Job on_site(job::Waterproofing waterproofing, std::optional<double> finish_in) {
  job::Job job = in_book("residential");
  job.base.kind = job::BaseKind::site_built;
  job.base.site.waterproofing = waterproofing;
  if (finish_in) job.base.threshold.finish = Length::inches(*finish_in);
  return job;
}

facts::Facts of_site() {
  facts::Facts facts = sample::good_facts();
  facts.site_built.emplace();
  facts.site_built->flange_top_mm = 0.25 * in, facts.site_built->cover_least_mm = 1.25 * in;
  facts.flood.dips = {{0.5 * in, 1e7, 1.2e6}, {2.5 * in, 7e7, 1.2e6}};
  return facts;
}

TEST(Flood, ABrimJustOverWhatIsFilledReadsApartFromIt) {
  // Source: by hand: 2 in on a floor that stands 1/2 in above the drain there are 2-1/2 above it. A brim of 2.53 in,
  // 2-1/2 to the nearest 1/16, would read like the fill; one of 2.56 does not. A height of 2.51 in is no mark: the
  // next, 2-9/16, is over a brim of 2.53, which is filled until it spills.
  facts::Facts facts = sample::good_facts();
  facts.flood.rough.reset();
  const auto table = [&](double asked_in, double brim_in) {
    const job::Job job = in_book("residential");
    facts.heights.floor_at_threshold_mm = facts.heights.drain_top_mm + (asked_in - 2) * in;
    facts.heights.rim_least_mm = facts.heights.drain_top_mm + brim_in * in;
    for (facts::Edge& edge : facts.edges) edge.top_mm = facts.heights.rim_least_mm;
    facts.flood.dips = {{0.5 * in, 1e7, 1.2e6}, {brim_in * in, 7e7, 1.2e6}};
    return std::pair{flood_table(job, facts, check(job, facts)), fill_words(job, facts, check(job, facts))};
  };
  const job::Job job = in_book("residential");
  EXPECT_EQ(brim_text(table(2.5, 2.53).first, job), "just over 2-1/2\"");
  EXPECT_EQ(table(2.5, 2.53).second, "fill to 2-1/2\" above the drain's top");
  EXPECT_EQ(brim_text(table(2.5, 2.56).first, job), "2-9/16\"");
  EXPECT_TRUE(table(2.51, 2.53).first.to_brim);
  EXPECT_EQ(table(2.51, 2.53).second, "fill to the brim, 2-1/2\" above the drain's top");
  EXPECT_EQ(table(2.51, 2.53).first.filled->volume_mm3, 7e7);
}

TEST(FloodOnSite, StandsOnTheWaterproofingUpToTheRoughThreshold) {
  // Source: by hand: rough top 4 - 2 in, the waterproofing at 3/4: 1-1/4 in stand, 3/4 short of 2; of 4 - 1/2 in it is
  // 2-3/4, though the finished threshold stands 2 in over the finished floor either way.
  using job::Waterproofing;
  const facts::Facts facts = of_site();
  for (const Waterproofing each : {Waterproofing::liner, Waterproofing::bonded}) {
    const job::Job low = on_site(each, 2.);
    const Result r = result_of(low, facts, "flood.depth");
    EXPECT_EQ(r.outcome, Outcome::caution);
    EXPECT_NEAR(*r.measured, 1.25 * in, 1e-9);
    EXPECT_THAT(r.where, HasSubstr("the rough threshold, on the waterproofing"));
    EXPECT_THAT(r.advice, HasSubstr("3/4\" above the rough threshold"));
    const rules::FloodTable table = flood_table(low, facts, check(low, facts));
    EXPECT_NEAR(table.dips.back().above_drain_mm, 1.75 * in, 1e-9) << "above the flange";
    ASSERT_EQ(table.levels.size(), 1U);
    EXPECT_NEAR(table.levels[0].dip.above_drain_mm, 2.5 * in, 1e-9) << "3/4 in + 2 in - 1/4 in";
    const auto fill = [&](job::Job job, job::UnitSystem unit) {
      job.unit = unit;
      return rules::fill_words(job, facts, check(job, facts));
    };
    EXPECT_EQ(fill(low, job::UnitSystem::inch), "fill to 2-1/2\" above the drain's flange, behind a dam");
    EXPECT_EQ(fill(on_site(each, 0.5), job::UnitSystem::inch), "fill to 2-1/2\" above the drain's flange");
    EXPECT_EQ(fill(on_site(each, 0.5), job::UnitSystem::metric), "fill to 64 mm above the drain's flange");
    const job::Job high = on_site(each, 0.5);
    EXPECT_NEAR(*result_of(high, facts, "flood.depth").measured, 2.75 * in, 1e-9);
    EXPECT_TRUE(flood_table(high, facts, check(high, facts)).levels.empty());
  }
}

TEST(FloodOnSite, IsNoPassWhereNobodySaidHowHighTheRoughThresholdIs) {
  // Source: by hand: 4 - 3/4 in would hold 3-1/4 in at most; 2-1/2 - 3/4 hold 1-3/4 in at most, too little anyway. On a
  // membrane the threshold is covered like the floor, 1-1/4 in: 2 in, at the limit.
  facts::Facts facts = of_site();
  const job::Job liner = on_site(job::Waterproofing::liner, {});
  EXPECT_EQ(result_of(liner, facts, "flood.depth").outcome, Outcome::not_checked);
  EXPECT_THAT(result_of(liner, facts, "flood.depth").advice, HasSubstr("base.threshold.finish"));
  const Result covered = result_of(on_site(job::Waterproofing::bonded, {}), facts, "flood.depth");
  EXPECT_EQ(covered.outcome, Outcome::pass);
  EXPECT_NEAR(*covered.measured, 2 * in, 1e-9);
  facts.heights.threshold_least_mm = facts.edges[1].top_mm = 2.5 * in;
  const Result low = result_of(liner, facts, "flood.depth");
  EXPECT_EQ(low.outcome, Outcome::caution);
  EXPECT_THAT(low.advice, HasSubstr("1/4\" above what will be the finished threshold"));
}

TEST(FloodOnSite, HoldsNoneWhereTheWaterproofingRunsOutOverItsLowestEdge) {
  // Source: by hand: without a threshold the membrane leaves over the open front at the flange's height: of none a
  // level is marked. A book that asks for a depth has it behind a dam.
  facts::Facts facts = of_site();
  facts.edges.clear();
  facts.edges.push_back({facts::Side::front});
  facts.edges[0].top_mm = facts.site_built->flange_top_mm + facts.site_built->cover_least_mm;
  facts.heights.threshold_least_mm.reset();
  facts.heights.floor_at_threshold_mm.reset();
  job::Job open = on_site(job::Waterproofing::bonded, {});
  open.base.threshold.width = {};
  open.book = "european";
  const auto table = [&] { return flood_table(open, facts, check(open, facts)); };
  EXPECT_TRUE(table().levels.empty());
  EXPECT_TRUE(table().holds_none);
  open.book = "residential";
  EXPECT_FALSE(table().holds_none);
  EXPECT_EQ(table().levels.size(), 1U);
  open.book = "european";
  facts.edges[0].top_mm += 2;
  EXPECT_FALSE(table().holds_none) << "two millimetres can be read";
}

TEST(LinerOnSite, APreSlopeIsMendedAsTheFloorThatLiesOnIt) {
  // Source: by hand: under a cover of one thickness both have one fall, and one key makes both: at equal falls of 2 %
  // 1/4 in/ft is 1:48.
  facts::Facts facts = of_site();
  facts.site_built->bed_fall_least = 0.02;
  job::Job job = on_site(job::Waterproofing::liner, {});
  job.base.pattern = job::FallPattern::equal_fall;
  job.base.rise.reset();
  job.base.fall = units::Fall::ratio(0.02);
  const Result r = result_of(job, facts, "liner.fall");
  ASSERT_EQ(r.outcome, Outcome::fail);
  ASSERT_EQ(r.remedies.size(), 1U);
  ASSERT_EQ(r.remedies[0].changes.size(), 1U);
  EXPECT_EQ(r.remedies[0].changes[0].key, "base.fall");
  for (facts::Facet& facet : facts.facets)
    if (facet.surface == facts::Surface::base_floor) facet.fall = 0.02;
  const Result floor = result_of(job, facts, "floor.fall-least");
  ASSERT_EQ(floor.remedies.size(), 1U);
  EXPECT_EQ(r.remedies[0].changes[0].value, floor.remedies[0].changes[0].value) << "one value for one key";
}

TEST(Access, WhatIsLaidOnAThresholdLaterHoldsNoTestOfABaseInOnePieceEither) {
  // Source: by hand: 4 in less 3/4 on a floor at 2 in: 1-1/4, 3/4 in short.
  const facts::Facts facts = sample::good_facts();
  job::Job job = in_book("residential");
  EXPECT_EQ(result_of(job, facts, "flood.depth").outcome, Outcome::pass);
  job.base.threshold.finish = Length::inches(0.75);
  const Result r = result_of(job, facts, "flood.depth");
  EXPECT_EQ(r.outcome, Outcome::caution);
  EXPECT_NEAR(*r.measured, 1.25 * in, 1e-9);
  EXPECT_THAT(r.advice, HasSubstr("3/4\" above the rough threshold"));
}

TEST(Access, WaterThatLeavesAtAWallIsHeldByNoDam) {
  // Source: by hand: the back's rim, 1/2 in over the floor at the threshold, turns up nowhere and nothing laps over it.
  facts::Facts facts = sample::good_facts();
  facts.edges[0] = {job::Side::back, facts::Behind::wall, facts::Turned::rim, 2.5 * in, 2.5 * in, false};
  const Result r = result_of(in_book("residential"), facts, "flood.depth");
  EXPECT_NEAR(*r.measured, 0.5 * in, 1e-9);
  EXPECT_THAT(r.where, HasSubstr("the back edge, over which nothing laps"));
  EXPECT_THAT(r.advice, HasSubstr("base.upstands.lapped"));
  facts.edges[0].lapped = true;
  EXPECT_EQ(result_of(in_book("residential"), facts, "flood.depth").outcome, Outcome::pass);
}

}  // namespace
}  // namespace fallwright
