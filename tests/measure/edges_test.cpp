// What turns up round the base, how much of it bears, and where a channel has its outlet.
#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "job/layout.hpp"
#include "job/validate.hpp"
#include "measure/measure.hpp"
#include "measure/once.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::measure {
namespace {

using job::Length;
using job::Side;
using Sides = std::vector<Side>;
using facts::Behind, facts::Turned;

const facts::Edge& edge(const facts::Facts& facts, Side side) {
  return *std::find_if(facts.edges.begin(), facts.edges.end(), [&](const facts::Edge& e) { return e.side == side; });
}

TEST(Edges, TellWhatTurnsUpOnEachSide) {
  // Source: the sample: upstands 4 in and a threshold 2-1/2 in over the drain's top, 1-1/2 in over the datum; its rim
  // lies 26-1/4 / 48 in over the drain.
  job::Job j = sample::alcove();
  j.base.upstands = {Side::back, Side::left};
  const facts::Facts facts = measured(j);
  ASSERT_EQ(facts.edges.size(), 4u);
  EXPECT_EQ(edge(facts, Side::back).turned, Turned::upstand);
  EXPECT_EQ(edge(facts, Side::back).behind, Behind::wall);
  EXPECT_EQ(edge(facts, Side::left).behind, Behind::bench);
  EXPECT_EQ(edge(facts, Side::front).turned, Turned::threshold);
  EXPECT_TRUE(edge(facts, Side::front).open());
  EXPECT_NEAR(edge(facts, Side::front).top_mm, 4 * 25.4, 1e-6);
  EXPECT_EQ(edge(facts, Side::right).turned, Turned::rim) << "the threshold's end is a small part of that side";
  EXPECT_NEAR(edge(facts, Side::right).top_mm, (1.5 + 26.75 / 48) * 25.4, 1e-6);
  EXPECT_EQ(facts.flood.over, Sides{Side::right}) << "water leaves there, wall or not";
  j.base.lapped = {Side::right};
  EXPECT_EQ(measured(j).flood.over, Sides{Side::front});
}

TEST(Edges, TellWhatIsOpenBelowAnApronOverARimThatIsNotLevel) {
  // Source: closed form: of one fall the rim stands over the drain by that fall times the run to whichever edge is
  // farther, so that along the left edge it is lowest beside the drain and highest at a corner; the apron's foot is as
  // high as the highest of all, at the right.
  job::Job j = sample::alcove();
  j.base.pattern = job::FallPattern::equal_fall, j.base.fall = job::Fall::ratio(1. / 48);
  j.base.upstands = {Side::back, Side::right}, j.base.threshold = {};
  j.drain.size = inches(4), j.drain.across = {Side::left, inches(14.5)}, j.drain.along = {Side::back, inches(17)};
  const double upstand = j.base.upstand_thickness.in_mm() / 25.4, length = j.base.length.in_mm() / 25.4,
               width = j.base.width.in_mm() / 25.4;
  const double left = 14.5 - 2, right = length - upstand - 14.5 - 2, front = width - 17 - 2, back = 17 - 2 - upstand;
  ASSERT_TRUE(right > front && front > back && back > left) << "all different";
  const auto skirt = measured(j).skirt;
  ASSERT_TRUE(skirt && skirt->gap_least_mm && skirt->gap_greatest_mm);
  EXPECT_NEAR(*skirt->gap_greatest_mm / 25.4, (right - left) / 48, 1e-6);
  EXPECT_NEAR(*skirt->gap_least_mm / 25.4, (right - front) / 48, 1e-6);
  EXPECT_NEAR(skirt->least_at_mm[1], 0, 1e-6) << "at the entry, the farther corner";
  j.base.upstands.push_back(Side::left);
  const auto turned_up = measured(j).skirt;
  EXPECT_NEAR(*turned_up->gap_greatest_mm, 0, 1e-6) << "an upstand's top is level";
}

TEST(Edges, AnOpenSideCountsInTheBaseAsSetToo) {
  // Source: closed form: an open right side without an upstand lies 26-3/4 / 48 in over the drain, and low by 1/4 in
  // over 56-1/2 or 57 in of rim it sinks by what lies between it and the drain's middle, 28-3/4 in.
  job::Job j = sample::alcove();
  j.alcove.walls = {Side::back, Side::left};
  j.base.upstands = {Side::back, Side::left};
  using P = job::RimPoint;
  for (const double low : {0., 0.25}) {
    j.as_set.readings = {
        {P::back_left, inches(low)}, {P::front_left, inches(low)}, {P::back_right, {}}, {P::front_right, {}}};
    const auto least = measured(j).room.as_set.threshold_least_mm;
    ASSERT_TRUE(least);
    EXPECT_NEAR(*least / 25.4, 26.75 / 48 - low * 28.75 / 57, 2e-4);
  }
}

TEST(Edges, ASideThatFallsIsAsHighAsItsLowestPlace) {
  // Source: closed form: 1/4 in/ft over 30 in to a channel near the back: the sides rise from it to the front.
  job::Job j = sample::bare(inches(60), inches(36), inches(30), inches(32));
  j.drain.kind = job::DrainKind::line;
  j.drain.opening = job::Opening::square;
  j.base.pattern = job::FallPattern::to_line;
  const facts::Edge left = edge(measured(j), Side::left);
  EXPECT_EQ(left.turned, Turned::rim);
  EXPECT_NEAR(left.top_mm, 1.5 * 25.4, 1e-6);
  EXPECT_NEAR(left.top_greatest_mm, (1.5 + 30. / 48) * 25.4, 1e-6);
}

TEST(Skirt, AnApronAndUpstandsKeepTheFrameDry) {
  // Source: the sample: apron from the underside of the seat, 16-3/4 in up, to the upstand at 5-1/2.
  const auto with = sample::alcove_facts().skirt;
  ASSERT_TRUE(with);
  EXPECT_NEAR(with->apron_mm, (18 - 1.25 - 5.5) * 25.4, 1e-6);
  EXPECT_TRUE(with->bare_walls.empty());
  job::Job j = sample::alcove();
  j.bench->upstand_height = Length{};
  j.bench->apron_thickness = Length{};
  const auto without = measured(j).skirt;
  EXPECT_EQ(without->apron_mm, 0);
  EXPECT_EQ(without->bare_walls, (Sides{Side::back, Side::left}));
}

TEST(Bearing, IsOfAllThatCouldBearAndNamesTheLargestBarePatch) {
  // Source: by hand: 57-1/2 x 36 in, held back 1/2 in along back, left and right: 57.5 / 2 + 2 x 35.5 / 2 = 64.25 in2
  // are bare; over the 5 in bore nothing could bear.
  const facts::Bed bed = sample::alcove_facts().bed;
  EXPECT_NEAR(bed.underside_mm2 / in2, 57.5 * 36 - std::numbers::pi * 6.25, 1e-6);
  EXPECT_NEAR(bed.bare.area_mm2 / in2, 64.25, 1e-4);
  EXPECT_EQ(bed.bare.along, (Sides{Side::back, Side::left, Side::right}));
  EXPECT_FALSE(bed.bare.round_drain);
}

TEST(Bearing, BareRoundTheDrainIsARing) {
  // Source: closed form: with nothing held back the bed's hole alone is bare, 6 in across about a bore of 5.
  for (const auto underside : {job::Underside::shell, job::Underside::flat}) {
    job::Job j = sample::alcove();
    j.base.underside = underside;
    j.bed.holdback = Length{};
    const facts::BarePatch bare = measured(j).bed.bare;
    EXPECT_NEAR(bare.area_mm2 / in2 / (std::numbers::pi * (9 - 6.25)), 1, 0.02);  // arcs are compared as chords
    EXPECT_TRUE(bare.round_drain);
    EXPECT_NEAR((bare.box_mm[2] - bare.box_mm[0]) / 25.4, 6, 0.01);
  }
}

TEST(Bearing, PatchesApartAreToldApart) {
  // Source: by hand: open left and right without overrun, held back 1/2 in along the back alone.
  job::Job j = sample::alcove();
  j.bench.reset();
  j.alcove.walls = {Side::back};
  j.bed.overrun = Length{};
  const facts::BarePatch bare = measured(j).bed.bare;
  EXPECT_EQ(bare.along, Sides{Side::back});
  EXPECT_NEAR(bare.area_mm2 / in2, 57.5 / 2, 1e-4);
  EXPECT_NEAR((bare.box_mm[3] - bare.box_mm[1]) / 25.4, 0.5, 1e-6);
}

TEST(Channel, HasItsOutletWhereTheJobSays) {
  // Source: the job: a channel from rim to rim along the depth, its outlet 10 in from the back of a base 36 in deep.
  job::Job j = sample::bare(inches(60), inches(36), inches(6), Length{});
  j.drain.kind = job::DrainKind::line;
  j.drain.opening = job::Opening::square;
  j.drain.channel_direction = job::Direction::along_depth;
  j.base.pattern = job::FallPattern::to_line;
  const facts::Facts middle = measured(j);
  EXPECT_NEAR(middle.room.drain.now_mm[1], 18 * 25.4, 1e-9) << "none given: the middle";
  for (const bool back : {true, false}) {
    j.drain.along = {back ? Side::back : Side::front, inches(10)};
    EXPECT_TRUE(job::contradictions(j).empty());
    const facts::Facts facts = measured(j);
    EXPECT_NEAR(facts.room.drain.now_mm[1], (back ? 26 : 10) * 25.4, 1e-9);
    EXPECT_NEAR(facts.room.drain.now_mm[0], 6 * 25.4, 1e-9);
    for (const facts::Part& part : facts.parts) EXPECT_TRUE(part.valid) << part.id;
    for (const facts::Drainage& d : facts.drainage) EXPECT_TRUE(d.drains) << name_of(d.surface);
    ASSERT_EQ(facts.facets.size(), middle.facets.size());
    EXPECT_NEAR(facts.clear.area_mm2, middle.clear.area_mm2, 1e-3) << "the channel itself lies as before";
    // A 3-1/4 in body stays in the channel.
    EXPECT_NEAR(facts.room.drain.other_mm.first, 1.625 * 25.4, 1e-6);
    EXPECT_NEAR(facts.room.drain.other_mm.second, (36 - 1.625) * 25.4, 1e-6);
  }
}

TEST(Channel, AnOutletPastItsEndIsRefused) {
  // Source: by hand: a 3-1/4 in body in a channel 36 in long: its centre 1-5/8 to 34-3/8 in from either end.
  job::Job j = sample::bare(inches(60), inches(36), inches(3), inches(35));
  j.drain.kind = job::DrainKind::line;
  j.drain.opening = job::Opening::square;
  j.drain.channel_direction = job::Direction::along_depth;
  j.base.pattern = job::FallPattern::to_line;
  const auto found = job::contradictions(j);
  ASSERT_FALSE(found.empty());
  EXPECT_EQ(found[0].key, "drain.from_front");
  EXPECT_NE(found[0].message.find("1-5/8\" to 34-3/8\" from the front edge"), std::string::npos) << found[0].message;
}

TEST(Rise, IsAboveTheDrainsEdgeWhateverItsShape) {
  // Source: what the key says: the rim above the drain's edge, of a round opening above its lowest point, the drain's
  // top. Lengths in either unit are the same lengths.
  for (const double x : {30., 22.}) {
    for (const auto opening : {job::Opening::square, job::Opening::round}) {
      job::Job j = sample::bare(inches(60), inches(34), inches(x), inches(17));
      j.drain.opening = opening;
      j.base.rise = inches(0.5);
      const facts::Heights h = measured(j).heights;
      EXPECT_NEAR(h.rim_least_mm - h.drain_top_mm, 0.5 * 25.4, 1e-6) << x;
      EXPECT_NEAR(h.rim_greatest_mm - h.drain_top_mm, 0.5 * 25.4, 1e-6) << x;
    }
  }
}

TEST(SeatGaps, AreWhatItsUpstandsTakeAtTheWallAndWallsBuiltUpTakeOffThat) {
  // Source: by hand: the seat lies between its upstands, and these stand at the framing: 3/4 in is left open to it, and
  // 1/4 in to a wall that is built up by 1/2 in; by 1 in: nothing. Alike on either hand.
  constexpr double in = 25.4;
  for (const Side place : {Side::left, Side::right}) {
    job::Job j = sample::alcove();
    j.bench->place = place, j.drain.across.side = place == Side::left ? j.drain.across.side : Side::right;
    j.bench->upstand_thickness = Length::inches(0.75);
    facts::Clear clear = measured(j).clear;
    ASSERT_TRUE(clear.seat_rear_gap_mm && clear.seat_side_gap_mm) << name_of(place);
    EXPECT_NEAR(*clear.seat_rear_gap_mm, 0.75 * in, 1e-6) << name_of(place);
    EXPECT_NEAR(*clear.seat_side_gap_mm, 0.75 * in, 1e-6) << name_of(place);
    for (const auto& [built_up, open] : {std::pair{0.5, 0.25}, {1.0, 0.0}}) {
      j.survey.finish_mm = built_up * in;
      clear = measured(j).clear;
      ASSERT_TRUE(clear.finished && clear.finished->seat_rear_gap_mm && clear.finished->seat_side_gap_mm);
      EXPECT_NEAR(*clear.finished->seat_rear_gap_mm, open * in, 1e-6) << name_of(place) << built_up;
      EXPECT_NEAR(*clear.finished->seat_side_gap_mm, open * in, 1e-6) << name_of(place) << built_up;
    }
  }
}

TEST(SeatGaps, OfASeatWithNoWallAtItsEndHaveNoSide) {
  // Source: definition: a gap at a wall needs the wall.
  job::Job j = sample::alcove();
  j.alcove.walls = {Side::left, Side::right};
  const facts::Clear clear = measured(j).clear;
  EXPECT_TRUE(clear.seat_rear_gap_mm);
  EXPECT_FALSE(clear.seat_side_gap_mm);
}

}  // namespace
}  // namespace fallwright::measure
