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

TEST(PipeRun, MeetsJoistsPastTheWallOnItsWayInAndOutAgain) {
  // Source: by hand: 60 in to the right, past joists at 83 and 99 in, and 10 in back, to 103-1/4 in. From there on
  // 12 in more to the right end at 115-1/4 in, just past the third joist; 50 in to the left meet the three at 99, 83
  // and 67 in, 4-1/4, 20-1/4 and 36-1/4 in along.
  const auto beyond = [](Side to, double arm) {
    job::Job j = with_trap(Side::right);
    j.trap->bends = {{90, Length::inches(60), Side::back}, {90, Length::inches(70), to}};
    j.trap->arm = Length::inches(arm);
    auto crossings = facts_of(j).pipe.crossings;
    std::erase_if(crossings, [](const facts::JoistCrossing& c) { return c.from_weir_mm < 60 * in; });
    return crossings;
  };
  const auto out = beyond(Side::right, 82), back_in = beyond(Side::left, 120);
  ASSERT_EQ(out.size(), 1U);
  EXPECT_EQ(out[0].joist, "3 past joist-05");
  EXPECT_NEAR(out[0].from_weir_mm, 81.75 * in, 1e-6);
  ASSERT_EQ(back_in.size(), 3U);
  const double along[] = {74.25, 90.25, 106.25};
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(back_in[i].from_weir_mm, along[i] * in, 1e-6) << i;
  EXPECT_EQ(back_in[0].joist, "2 past joist-05");
  EXPECT_EQ(back_in[1].joist, "1 past joist-05");
  EXPECT_TRUE(back_in[2].modelled);
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

TEST(PipeRun, FindsTheJoistThatAHoleGoesThrough) {
  // Source: by hand: the arm, 19-3/4 in from the entry, crosses the joists at 35 and 19 in; a hole read at 35-3/4 in
  // from the left and 12 from the back goes through the first of them, 24 in from the entry. Seen in a mirror, of 72
  // in, joists from 5 in on: at 37 in, and the hole at 36-1/4.
  job::Job j = with_trap(Side::left);
  j.floor.joist_holes = {{Length::inches(35.75), Length::inches(12), Length::inches(-5), Length::inches(1)},
                         {Length::inches(27), Length::inches(12), Length::inches(-5), Length::inches(1)}};
  const facts::PipeRun run = facts_of(j).pipe;
  ASSERT_EQ(run.holes.size(), 2U);
  EXPECT_EQ(run.holes[0].joist, run.crossings[0].joist);
  EXPECT_NEAR(run.holes[0].along_mm, 24 * in, 1e-6);
  EXPECT_NEAR(run.holes[0].centre_mm, -5 * in, 1e-6);
  EXPECT_NEAR(run.crossings[0].along_mm, 19.75 * in, 1e-6);
  EXPECT_EQ(run.holes[1].joist, "") << "in the middle of a bay it is in neither joist";
  for (const double height : {5., -60.}) {
    job::Job off = j;
    off.floor.joist_holes[0].height = Length::inches(height);
    EXPECT_EQ(facts_of(off).pipe.holes[0].joist, "") << "no wood is there: a sign was forgotten";
  }
  j.trap->to = Side::right, j.bench->place = Side::right, j.drain.across.side = Side::right;
  j.floor.joist_first = Length::inches(5);
  j.floor.joist_holes[0].from_left = Length::inches(36.25);
  const facts::PipeRun image = facts_of(j).pipe;
  ASSERT_EQ(image.crossings.size(), run.crossings.size());
  EXPECT_EQ(image.holes[0].joist, image.crossings[0].joist);
  EXPECT_NEAR(image.holes[0].along_mm, run.holes[0].along_mm, 1e-6);
  EXPECT_NEAR(image.crossings[0].from_weir_mm, run.crossings[0].from_weir_mm, 1e-6);
}

TEST(PipeRun, PlacesAreReadOffTheWallAsItStandsThere) {
  // Source: by hand: the left wall flares by 3 in over the depth of 36: at the bore, 16-1/4 in from the back, its stud
  // face stands at -1.354167; a joist read 3 in off it is centred at 1.645833, so two bays on at 33.645833, 43.25 -
  // 33.645833 - 3/4 - 2-1/2 = 6.354167 in from the bore, and three on at 49.645833: 3.145833 in from it. A hub that
  // reads the bore's own distances lies below the drain; a hole read 34 in off the wall and 27 from the back, where its
  // face stands at -2.25, is at 31.75: in the wood of no joist; one read at 36, at 33.75, is in that of the third.
  job::Job j = with_trap(Side::left);
  sample::read_plan(j, {0, 36 * in}, {72 * in, 36 * in}, {-3 * in, 0}, {72 * in, 0});
  j.trap->from_left = Length::inches(43.25 + 3 * 16.25 / 36), j.trap->from_back = Length::inches(16.25);
  j.floor.joist_holes = {{Length::inches(33.5), Length::inches(27), Length::inches(-5), Length::inches(1)},
                         {Length::inches(36), Length::inches(27), Length::inches(-5), Length::inches(1)}};
  const facts::Facts facts = facts_of(j);
  EXPECT_NEAR(facts.room.drain.left_face_mm / in, -3 * 16.25 / 36, 1e-6);
  EXPECT_NEAR(*facts.drain.bore_to_joist_mm / in, 49.645833 - 43.25 - 0.75 - 2.5, 1e-5);
  EXPECT_NEAR(facts.pipe.aside_mm, 0, 1e-6);
  ASSERT_EQ(facts.pipe.holes.size(), 2U);
  EXPECT_EQ(facts.pipe.holes[0].joist, "");
  EXPECT_EQ(facts.pipe.holes[1].joist, "joists/joist-03");

  // Source: symmetry: in the mirror the left wall is square, and joists are read off that.
  job::Job image = with_trap(Side::right);
  sample::read_plan(image, {0, 36 * in}, {72 * in, 36 * in}, {0, 0}, {75 * in, 0});
  image.bench->place = Side::right, image.drain.across.side = Side::right;
  image.floor.joist_first = Length::inches(72 - 1.645833 - 64);
  EXPECT_NEAR(*facts_of(image).drain.bore_to_joist_mm / in, 49.645833 - 43.25 - 0.75 - 2.5, 1e-5);
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

TEST(PipeRun, ATrapThatStandsInAJoistIsTold) {
  // Source: by hand: a joist from 34-1/4 to 35-3/4 in and a pipe of 2-3/8 in: on the joist's middle either way is
  // 3/4 + 1-3/16 in; at 36-15/16 from the left it just touches, and a sixteenth nearer it stands in it by that,
  // whichever way its arm goes. Below the joists, at -10 in, it is free.
  job::Job j = with_trap(Side::left);
  j.trap->from_left = Length::inches(35);
  for (const Side to : {Side::left, Side::right}) {
    j.trap->to = to;
    const auto in_it = facts_of(j).pipe.hub_in;
    ASSERT_TRUE(in_it);
    EXPECT_EQ(in_it->joist, "joists/joist-03");
    EXPECT_NEAR(in_it->less_mm, 1.9375 * in, 1e-6);
    EXPECT_NEAR(in_it->more_mm, 1.9375 * in, 1e-6);
  }
  for (const double side : {-1.0, 1.0}) {
    j.trap->from_left = Length::inches(35 + side * 1.9375);
    EXPECT_FALSE(facts_of(j).pipe.hub_in) << side;
    j.trap->from_left = Length::inches(35 + side * 1.875);
    const auto in_it = facts_of(j).pipe.hub_in;
    ASSERT_TRUE(in_it) << side;
    EXPECT_NEAR(std::min(in_it->less_mm, in_it->more_mm), in / 16, 1e-6);
    EXPECT_EQ(in_it->more_mm<in_it->less_mm, side> 0);
  }
  j.trap->hub = Length::inches(-12), j.trap->weir = Length::inches(-13);
  EXPECT_FALSE(facts_of(j).pipe.hub_in);
}

TEST(PipeRun, AnArmThatEndsInAJoistIsBoredIntoIt) {
  // Source: by hand: from 43-1/4 in from the left the joist from 18-1/4 to 19-3/4 in begins 23-1/2 in along the arm,
  // its middle 24-1/4; to the right the one from 66-1/4 in 23 along, and past the walls the one at 83 in begins 39
  // along.
  const auto crossed = [](Side to, double arm) {
    job::Job j = with_trap(to);
    j.trap->arm = Length::inches(arm);
    return facts_of(j).pipe.crossings.size();
  };
  EXPECT_EQ(crossed(Side::left, 23.5), 1U);
  EXPECT_EQ(crossed(Side::left, 23.6), 2U);
  EXPECT_EQ(crossed(Side::left, 24.2), 2U);
  EXPECT_EQ(crossed(Side::right, 23), 1U);
  EXPECT_EQ(crossed(Side::right, 23.1), 2U);
  EXPECT_EQ(crossed(Side::right, 39), 2U);
  EXPECT_EQ(crossed(Side::right, 39.1), 3U);
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

TEST(PipeRun, ThePipeToAHubBeyondAJoistGoesThroughIt) {
  // Source: by hand: the drain at 43-1/4 in, joists about 19, 35, 51 and 67 in and 2x10, down to -10 in. A hub at 40 or
  // 46 in is in the drain's bay; at 30 or 56 in one joist lies between, at 10 in two. A pipe that ends 2-3/8 and more
  // below the joists passes under them.
  const auto through = [](double from_left, std::optional<double> hub) {
    job::Job j = with_trap(Side::back);
    j.trap->from_left = Length::inches(from_left), j.trap->from_back = Length::inches(16.25);
    j.trap->hub = hub ? std::optional{Length::inches(*hub)} : std::nullopt;
    return facts_of(j).pipe.offset_through;
  };
  using Ids = std::vector<std::string>;
  EXPECT_EQ(through(40, -5), Ids{});
  EXPECT_EQ(through(46, -5), Ids{});
  EXPECT_EQ(through(30, -5), Ids{"joists/joist-03"});
  EXPECT_EQ(through(56, -5), Ids{"joists/joist-04"});
  EXPECT_EQ(through(10, -5), (Ids{"joists/joist-02", "joists/joist-03"}));
  EXPECT_EQ(through(30, {}), Ids{"joists/joist-03"}) << "nobody read how low the hub hangs";
  EXPECT_EQ(through(30, -12.3), Ids{"joists/joist-03"});
  EXPECT_EQ(through(30, -12.5), Ids{});
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

TEST(PipeRun, ABendLeadsOnToTheNextSide) {
  // Source: by hand: 10 in toward the back in the bay of the joists at 35 and 51 in, 43-1/4 in from the left; then to
  // the left: the joist at 35 in is 10 + 8-1/4 along, the one at 19 in 34-1/4, of an arm of 36. Heights go by the whole
  // way: 18.25 / 48 in lower. On the right of the room the same in a mirror.
  job::Job j = with_trap(Side::back);
  j.trap->bends = {{90, Length::inches(10), Side::left}};
  const facts::PipeRun run = facts_of(j).pipe;
  ASSERT_EQ(run.crossings.size(), 2U);
  EXPECT_NEAR(run.crossings[0].from_weir_mm, 18.25 * in, 1e-6);
  EXPECT_NEAR(run.crossings[1].from_weir_mm, 34.25 * in, 1e-6);
  EXPECT_NEAR(*run.crossings[0].centre_mm, (-6 - 18.25 / 48 + 1) * in, 1e-6);
  ASSERT_EQ(run.bends.size(), 1U);
  EXPECT_NEAR(run.bends[0].from_weir_mm, 10 * in, 1e-6);
  EXPECT_EQ(run.bends[0].to, Side::left);
  EXPECT_NEAR(run.bends[0].off_left_mm, 43.25 * in, 1e-6);
  const double off_back = j.alcove.depth.in_mm() - 29.75 * in;
  EXPECT_NEAR(run.bends[0].off_back_mm, off_back, 1e-6);
  for (const facts::JoistCrossing& c : run.crossings) EXPECT_NEAR(*c.off_face_mm, off_back, 1e-6) << c.joist;
  EXPECT_EQ(run.bay, "joists/joist-03 and joists/joist-04");
  EXPECT_NEAR(*run.beside_mm, (51 - 0.75 - 43.25 - 2.375 / 2) * in, 1e-6);
  j.trap->bends[0].to = Side::right;
  const facts::PipeRun right = facts_of(j).pipe;
  ASSERT_EQ(right.crossings.size(), 2U);
  EXPECT_NEAR(right.crossings[0].from_weir_mm, (10 + 51 - 43.25) * in, 1e-6);
}

TEST(PipeRun, ABendThatNobodyPlacedLeavesTheWayOpen) {
  // Source: none; neither its place nor where it leads is guessed.
  job::Job j = with_trap(Side::left);
  j.trap->bends = {{45, Length::inches(10), {}}};
  const facts::PipeRun run = facts_of(j).pipe;
  EXPECT_TRUE(run.unplaced_bend);
  EXPECT_FALSE(run.routed);
  EXPECT_TRUE(run.crossings.empty());
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
  // 32 in. The plates' top is 12-1/2 in up, the cleat hangs from there, 3-1/2 in deep.
  const facts::Facts facts = facts_of(sample::alcove());
  ASSERT_TRUE(facts.cleat);
  EXPECT_NEAR(facts.cleat->thickness_mm, 1.5 * in, 1e-6);
  EXPECT_GE(facts.cleat->studs, 3);
  EXPECT_LE(facts.cleat->studs, 4);
  EXPECT_EQ(facts.cleat->studs_at_mm.size(), static_cast<std::size_t>(facts.cleat->studs));
  EXPECT_EQ(facts.cleat->joists_at_mm.size(), 4U) << "the one against the back wall as well";
  EXPECT_NEAR(facts.cleat->middle_mm, (12.5 - 1.75) * in, 1e-6);
}

/// A room whose bench stands at a place, with a deck that ends short of a seat that overhangs.
job::Job with_bench(Side place) {
  job::Job j = sample::alcove();
  j.bench->place = place;
  j.bench->overhang = Length::inches(1.5);
  if (place == Side::back) j.alcove.depth = Length::inches(50.5), j.base.length = Length::inches(72);
  return j;
}

TEST(Cleat, KnowsHowFarTheStudsStandBehindIt) {
  // Source: by hand: a wall that leans out by 1 in 24 stands at the cleat's head, 12-1/2 in up, farther behind it than
  // at the rib plane by a twenty-fourth of the way between; a plumb one stands at it.
  for (const Side place : {Side::left, Side::right, Side::back}) {
    job::Job j = with_bench(place);
    const facts::Facts plumb = facts_of(j);
    EXPECT_EQ(plumb.cleat->farthest_id, "") << name_of(place);
    EXPECT_EQ(plumb.cleat->farthest_mm, 0) << name_of(place);
    for (const double along : {100., 700.})
      j.survey.plumbs.push_back({place, along, {-2 * in, 1.6, survey::Face::stud, 0}, 48 * in});
    const facts::Facts leans = facts_of(j);
    const auto stud = std::find_if(leans.room.studs.begin(), leans.room.studs.end(),
                                   [&](const facts::StudGap& s) { return s.part_id == leans.cleat->farthest_id; });
    ASSERT_NE(stud, leans.room.studs.end()) << name_of(place);
    EXPECT_EQ(stud->wall, place);
    EXPECT_NEAR(leans.cleat->farthest_mm, stud->at_floor_mm + (12.5 * in - leans.heights.rib_plane_mm) / 24, 1e-3)
        << name_of(place);
    EXPECT_GT(leans.cleat->farthest_mm, 0.2 * in) << name_of(place);
  }
}

TEST(Stand, IsAlikeWhereverTheBenchLeans) {
  // Source: by hand: 14-1/2 in to the framed front, 1/2 in of apron, 1-1/2 in over it: 16-1/2 in; the knee wall is
  // 3-1/2 in thick; the seat falls 1/4 in/ft from 18.33 in at its upstand to 18.
  for (const auto& [place, along] : {std::pair{Side::left, 36.}, {Side::right, 36.}, {Side::back, 72.}}) {
    const facts::Facts facts = facts_of(with_bench(place));
    ASSERT_TRUE(facts.stand && facts.cleat) << name_of(place);
    EXPECT_NEAR(facts.stand->to_mm - facts.stand->from_mm, along * in, 1e-6) << name_of(place);
    EXPECT_NEAR(facts.stand->reach_mm, 16.5 * in, 1e-6) << name_of(place);
    EXPECT_NEAR(facts.stand->knee_mm, 12.75 * in, 1e-6) << name_of(place);
    EXPECT_NEAR(facts.stand->top_mm, (18 + 16. / 48) * in, 1e-6) << name_of(place);
    EXPECT_GT(facts.stand->mass_at_mm, 5 * in) << name_of(place);
    EXPECT_LT(facts.stand->mass_at_mm, 11 * in) << name_of(place);
    for (const double at : facts.cleat->studs_at_mm) {
      EXPECT_GE(at, facts.stand->from_mm) << name_of(place);
      EXPECT_LE(at, facts.stand->to_mm) << name_of(place);
    }
  }
  const facts::Facts left = facts_of(with_bench(Side::left)), right = facts_of(with_bench(Side::right));
  EXPECT_NEAR(left.stand->mass_kg, right.stand->mass_kg, 1e-6);
  EXPECT_NEAR(left.stand->mass_at_mm, right.stand->mass_at_mm, 1e-6);
}

TEST(SeatEdge, IsHowFarTheBlockReachesPastItsDeck) {
  // Source: by hand: apron and overhang are 2 in past the deck; there the seat is 1-1/4 in and 2 in of 1/4 in/ft thick.
  for (const auto& [place, side] :
       {std::pair{Side::left, Side::right}, {Side::right, Side::left}, {Side::back, Side::front}}) {
    const auto edge = facts_of(with_bench(place)).seat_edge;
    ASSERT_TRUE(edge) << name_of(side);
    EXPECT_NEAR(edge->past_mm, 2 * in, 1e-6) << name_of(side);
    EXPECT_EQ(edge->side, side) << name_of(side);
    EXPECT_NEAR(edge->thick_mm, (1.25 + 2. / 48) * in, 0.05) << name_of(side);
  }
}

}  // namespace
}  // namespace fallwright::measure
