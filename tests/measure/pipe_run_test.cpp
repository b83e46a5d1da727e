// The drain's pipe against the solids it passes.
#include <gtest/gtest.h>

#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::measure {
namespace {

using job::Fall;
using job::Length;
using job::Side;

/// 2 in of pipe from below the drain: it stands 43-1/4 in from the left and 19-3/4 from the entry, over joists every 16
/// in from 3 on.
job::Job with_trap(Side to) {
  job::Job j = sample::alcove();
  job::Trap& t = j.trap.emplace();
  t.pipe = Length::inches(2);
  t.arm = Length::inches(36);
  t.fall = Fall::inches_per_foot(0.25);
  t.hub = Length::inches(-5);
  t.weir = Length::inches(-6);
  t.to = to;
  return j;
}

facts::Facts facts_of(const job::Job& job) {
  return measure(*parts::build(job));
}

TEST(PipeRun, IsToldAtEveryJoistThatTheArmCrosses) {
  // Source: by hand: to the left joists at 35 and 19 in are 8-1/4 and 24-1/4 in along; the one at 3 in is beyond 36.
  // The arm's middle is an inch above its inside bottom, at -6 - 8.25 / 48 + 1 = -5.171875 in; a 2x10 below 3/4 in of
  // deck runs from -10 to -3/4 in: 3.234375 in are left above a hole of 2-3/8, 3.640625 below.
  const facts::PipeRun run = facts_of(with_trap(Side::left)).pipe;
  ASSERT_TRUE(run.routed);
  ASSERT_EQ(run.crossings.size(), 2U);
  EXPECT_NEAR(run.crossings[0].from_weir_mm, 8.25 * in, 1e-6);
  EXPECT_NEAR(run.crossings[1].from_weir_mm, 24.25 * in, 1e-6);
  EXPECT_NEAR(*run.crossings[0].centre_mm, -5.171875 * in, 1e-6);
  EXPECT_NEAR(*run.crossings[0].above_mm(), 3.234375 * in, 1e-6);
  EXPECT_NEAR(*run.crossings[0].below_mm(), 3.640625 * in, 1e-6);
  EXPECT_NEAR(*run.crossings[1].below_mm(), (3.640625 - 16. / 48) * in, 1e-6);
  EXPECT_FALSE(run.crossings[0].along_span);
  EXPECT_TRUE(run.bay.empty());
}

TEST(PipeRun, ToTheOtherSideMeetsTheOtherJoists) {
  // Source: by hand: to the right joists at 51 and 67 in are 7-3/4 and 23-3/4 in along.
  const facts::PipeRun run = facts_of(with_trap(Side::right)).pipe;
  ASSERT_EQ(run.crossings.size(), 2U);
  EXPECT_NEAR(run.crossings[0].from_weir_mm, 7.75 * in, 1e-6);
  EXPECT_NEAR(run.crossings[1].from_weir_mm, 23.75 * in, 1e-6);
}

TEST(PipeRun, GoesOnThroughJoistsPastTheWall) {
  // Source: by hand: past the joist at 67 in the next would stand at 83 and 99 in, 39-3/4 and 55-3/4 in along.
  job::Job j = with_trap(Side::right);
  j.trap->arm = Length::inches(60);
  const facts::PipeRun run = facts_of(j).pipe;
  ASSERT_EQ(run.crossings.size(), 4U);
  EXPECT_TRUE(run.crossings[1].modelled);
  EXPECT_EQ(run.crossings[2].joist, "1 past joist-05");
  EXPECT_FALSE(run.crossings[2].modelled);
  EXPECT_NEAR(run.crossings[2].from_weir_mm, 39.75 * in, 1e-6);
  EXPECT_EQ(run.crossings[3].joist, "2 past joist-05");
  EXPECT_NEAR(run.crossings[3].from_weir_mm, 55.75 * in, 1e-6);
  EXPECT_NEAR(run.crossings[3].bottom_mm, run.crossings[1].bottom_mm, 1e-9);
}

TEST(PipeRun, BelowTheJoistsCrossesNone) {
  // Source: by hand: 2-3/8 in of pipe whose middle hangs at -13.17 in ends at -11.98, under joists that end at -10; two
  // inches higher it would cut into them from below.
  job::Job j = with_trap(Side::left);
  j.trap->weir = Length::inches(-14);
  const facts::PipeRun below = facts_of(j).pipe;
  EXPECT_TRUE(below.routed);
  EXPECT_TRUE(below.crossings.empty());
  EXPECT_EQ(below.passed_under, (std::vector<std::string>{"joists/joist-02", "joists/joist-03"}));
  j.trap->weir = Length::inches(-12);
  EXPECT_LT(*facts_of(j).pipe.crossings.at(0).below_mm(), 0);
}

TEST(PipeRun, IsAsThickAsAnyMakeUntilItIsMeasured) {
  // Source: BS 5255: waste of DN 50 is up to 55.8 mm thick outside (from memory); EN 1329 has 50.
  job::Job j = with_trap(Side::left);
  j.trap->pipe = Length::mm(50);
  EXPECT_NEAR(facts_of(j).pipe.crossings.at(0).hole_mm, 55.8, 1e-9);
  j.trap->outside = Length::mm(50);
  EXPECT_NEAR(facts_of(j).pipe.crossings.at(0).hole_mm, 50, 1e-9);
}

TEST(PipeRun, AlongItsBayCrossesNothing) {
  // Source: by hand: between joists whose faces are at 35-3/4 and 50-1/4 in the nearer is 7 in from the arm's line,
  // less half of 2-3/8.
  const facts::PipeRun run = facts_of(with_trap(Side::back)).pipe;
  EXPECT_TRUE(run.routed);
  EXPECT_TRUE(run.crossings.empty());
  EXPECT_EQ(run.bay, "joists/joist-03 and joists/joist-04");
  EXPECT_NEAR(*run.beside_mm, (7 - 2.375 / 2) * in, 1e-6);
}

TEST(PipeRun, AlongItsBayAndIntoAJoistIsTold) {
  // Source: by hand: 2-3/8 in of pipe about 36 in reach to 34.8125, into a joist that ends at 35-3/4; below it, it is
  // free.
  job::Job j = with_trap(Side::back);
  j.trap->from_left = Length::inches(36);
  EXPECT_NEAR(*facts_of(j).pipe.beside_mm, (0.25 - 2.375 / 2) * in, 1e-6);
  j.trap->weir = Length::inches(-14);
  EXPECT_FALSE(facts_of(j).pipe.beside_mm);
}

TEST(PipeRun, ARiserReachesFromTheHubToTheDrainAsItLies) {
  // Source: by hand: the drain's body ends 4 in below its top, the grate's ledge lies 3/8 in below it.
  job::Job j = with_trap(Side::left);
  facts::Facts facts = facts_of(j);
  const double top = facts.heights.drain_top_mm;
  EXPECT_NEAR(*facts.pipe.riser_mm, top - 4 * in + 5 * in, 1e-6);
  EXPECT_NEAR(*facts.pipe.riser_most_mm, top - 0.375 * in + 5 * in, 1e-6);
  EXPECT_NEAR(*facts.pipe.down_to_weir_mm, top - 4 * in + 6 * in, 1e-6);
  EXPECT_NEAR(facts.pipe.aside_mm, 0, 1e-9);
  j.floor.drop_along_width = Length::inches(0.5);
  const double higher = facts_of(j).heights.drain_top_mm;
  EXPECT_NEAR(*facts_of(j).pipe.riser_mm, higher + in, 1e-6)
      << "a floor that falls away is under the base, not the hub";
}

TEST(PipeRun, AHubAsideOfTheDrainTakesTheArmWithIt) {
  // Source: by hand: 3 in to the right and 4 nearer to the entry are 5 in aside; the joist at 35 in is then 11-1/4 in
  // along.
  job::Job j = with_trap(Side::left);
  j.trap->from_left = Length::inches(46.25);
  j.trap->from_back = Length::inches(20.25);
  const facts::PipeRun run = facts_of(j).pipe;
  EXPECT_NEAR(run.aside_mm, 5 * in, 1e-6);
  EXPECT_NEAR(run.crossings[0].from_weir_mm, 11.25 * in, 1e-6);
}

TEST(PipeRun, KnowsWhereOnItsSpanAJoistIsCrossed) {
  // Source: by hand: a span of 120 in from 20 in before the entry is crossed 39-3/4 in along, 33.125 % of it.
  job::Job j = with_trap(Side::left);
  j.floor.joist_span = Length::inches(120);
  j.floor.joist_bearing = Length::inches(-20);
  EXPECT_NEAR(*facts_of(j).pipe.crossings[0].along_span, 0.33125, 1e-9);
  j.floor.joist_bearing = Length::inches(-60);
  EXPECT_NEAR(*facts_of(j).pipe.crossings[0].along_span, 1 - 79.75 / 120, 1e-9) << "from the nearer bearing";
}

TEST(PipeRun, WithoutARouteNothingIsCrossed) {
  // Source: none; no route is guessed, and no height without the weir's.
  job::Job j = with_trap(Side::left);
  j.trap->weir.reset();
  EXPECT_FALSE(facts_of(j).pipe.crossings[0].centre_mm);
  j.trap->to.reset();
  EXPECT_FALSE(facts_of(j).pipe.routed);
  j.trap.reset();
  EXPECT_FALSE(facts_of(j).pipe.known);
}

TEST(Cleat, IsHeldByTheStudsBehindIt) {
  // Source: by hand: studs of the left wall every 16 in over 36 in, from the back corner on: at both ends and at 16 and
  // 32 in.
  const facts::Facts facts = facts_of(sample::alcove());
  ASSERT_TRUE(facts.cleat);
  EXPECT_NEAR(facts.cleat->thickness_mm, 1.5 * in, 1e-6);
  EXPECT_GE(facts.cleat->studs, 3);
  EXPECT_LE(facts.cleat->studs, 4);
}

}  // namespace
}  // namespace fallwright::measure
