/// What upstands, fixtures and decks are fastened to, which spots span a base, and widths that were read.
#include <algorithm>

#include <gtest/gtest.h>

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

const facts::Hold& hold(const facts::Facts& facts, job::Side side) {
  return *std::find_if(facts.holds.begin(), facts.holds.end(), [&](const auto& h) { return h.side == side; });
}

/// Walls that stand already, their studs read where `back` says, no blocking.
job::Job standing(std::vector<double> back_mm) {
  job::Job j = sample::alcove();
  j.walls.existing = true;
  j.walls.blocking.clear();
  if (!back_mm.empty()) j.survey.studs.push_back({Side::back, Side::left, std::move(back_mm)});
  return j;
}

job::Job mirrored(job::Job j) {
  j.bench->place = job::Side::right;
  j.drain.across.side = Side::right;
  for (survey::Studs& s : j.survey.studs)
    if (s.wall == Side::back) s.from = s.from == Side::left ? Side::right : Side::left;
  return j;
}

TEST(Hold, ANewWallHoldsItsUpstandAtItsSpacingAndBlockingAnywhere) {
  // Source: by hand: studs every 16 in, 1-1/2 in thick, fasteners 3/8 in from an edge: 15-1/4 in between; a row of
  // 3-1/2 in blocking centred 6 in up covers what lies 3/8 in above and below 5-5/8 in, 1/8 in over the edge.
  job::Job j = sample::alcove();
  const facts::Facts with = measured(j);
  ASSERT_EQ(with.holds.size(), 3U);
  EXPECT_LT(hold(with, job::Side::back).apart_mm, 2 * in);
  EXPECT_EQ(hold(with, job::Side::left).behind, facts::Behind::bench);
  EXPECT_EQ(hold(with, job::Side::right).behind, facts::Behind::wall);
  EXPECT_NEAR(hold(with, job::Side::back).thickness_mm, in / 2, 1e-6);
  EXPECT_NEAR(hold(with, job::Side::right).thickness_mm, in / 2, 1e-6);
  j.walls.blocking.clear();
  EXPECT_NEAR(hold(measured(j), job::Side::back).apart_mm, 15.25 * in, 1e-6);
}

TEST(Hold, ARowHoldsWhereScrewsGoInOverTheEdgeAlone) {
  // Source: by hand: an upstand's edge 5-1/2 in up, screws in the middle of 5-5/8 in, 3/8 in from the edges of what
  // they go into. Of rows 3-1/2 in high those hold whose middle lies from 4-1/4 to 7 in up; one at 3-1/2 in, whose top
  // is at 5-1/4 in, stands behind the upstand and holds nothing: from stud to stud are 15-1/4 in.
  job::Job j = sample::alcove();
  for (const auto& [row_in, holds] :
       {std::pair{3.5, false}, {4.2, false}, {4.25, true}, {5.625, true}, {7., true}, {7.05, false}})
    for (const bool mirror : {false, true})
      for (const bool metric : {false, true}) {
        j.walls.blocking = {metric ? Length::mm(row_in * in) : inches(row_in)};
        const facts::Facts facts = measured(mirror ? mirrored(j) : j);
        const double away = hold(facts, Side::back).apart_mm;
        EXPECT_NEAR(hold(facts, Side::back).screws_mm, 5.625 * in, 1e-6);
        if (holds)
          EXPECT_LT(away, 2 * in) << row_in;
        else
          EXPECT_NEAR(away, 15.25 * in, 1e-6) << row_in;
      }
}

TEST(Hold, TheLongestWayAndItsPlaceAreTold) {
  // Source: by hand: studs centred 3/4 and 71 in from the left behind a base from 14-1/2 to 72 in: from its left end to
  // 3/8 in short of the middle of the stud at 71 in.
  const facts::Hold back = hold(measured(standing({0.75 * in, 71 * in})), job::Side::back);
  EXPECT_FALSE(back.assumed);
  EXPECT_NEAR(back.apart_mm, 56.125 * in, 1e-6);
  EXPECT_NEAR(back.from_mm, 0, 1e-6);
  EXPECT_NEAR(back.to_mm, 56.125 * in, 1e-6);
  EXPECT_NEAR(back.to_at_mm[0], 70.625 * in, 1e-6);
}

TEST(Hold, KnowsEachStudThatTakesAScrew) {
  // Source: by hand: of studs centred 3/4, 20, 50 and 71 in from the left three stand behind a base from 14-1/2 to
  // 72 in, each 1-1/2 in wide and 3/8 in of that from its edges: 19-5/8 to 20-3/8 in, 5-1/8 to 5-7/8 in from its end.
  // From the back end of a side wall's the stud at 16 in is 15-1/4 to 16-3/4 in off O, as is the base's back edge.
  const job::Job j = standing({0.75 * in, 20 * in, 50 * in, 71 * in});
  const facts::Hold back = hold(measured(j), Side::back), other = hold(measured(mirrored(j)), Side::back);
  ASSERT_EQ(back.studs_mm.size(), 3u);
  EXPECT_NEAR(back.studs_mm[0].first, 5.125 * in, 1e-6);
  EXPECT_NEAR(back.studs_mm[0].second, 5.875 * in, 1e-6);
  EXPECT_NEAR(back.studs_mm[2].first, 56.125 * in, 1e-6);
  ASSERT_EQ(other.studs_mm.size(), 3u);
  EXPECT_NEAR(other.studs_mm[2].second, back.length_mm - 5.125 * in, 1e-6);
  const facts::Hold right = hold(measured(sample::alcove()), Side::right);
  ASSERT_GE(right.studs_mm.size(), 2u);
  EXPECT_NEAR(right.studs_mm[1].first, 15.625 * in, 1e-6);
}

TEST(Hold, IsTheSameInTheMirror) {
  // Source: property: whatever is true of a room is true of its mirror.
  const job::Job j = standing({0.75 * in, 20 * in, 50 * in, 71 * in});
  const facts::Facts one = measured(j), other = measured(mirrored(j));
  EXPECT_NEAR(hold(one, job::Side::back).apart_mm, 29.25 * in, 1e-6);
  EXPECT_NEAR(hold(one, job::Side::back).apart_mm, hold(other, job::Side::back).apart_mm, 1e-6);
  EXPECT_NEAR(hold(one, job::Side::left).apart_mm, hold(other, job::Side::right).apart_mm, 1e-6);
  EXPECT_NEAR(hold(one, job::Side::right).apart_mm, hold(other, job::Side::left).apart_mm, 1e-6);
  EXPECT_EQ(hold(other, job::Side::right).behind, facts::Behind::bench);
}

TEST(Hold, AnEndIsAsFarFromItsFirstFastenerAsTheStudThere) {
  // Source: by hand: behind a base from 14-1/2 to 72 in, studs centred 20, 40 and 60 in: 3/8 in short of the first
  // one's middle from the left, and from 3/8 in past the last one's on the right; the other way round in the mirror.
  const job::Job j = standing({20 * in, 40 * in, 60 * in});
  const facts::Hold back = hold(measured(j), job::Side::back), other = hold(measured(mirrored(j)), job::Side::back);
  EXPECT_EQ(back.ends[0].at, job::Side::left);
  EXPECT_NEAR(back.ends[0].to_first_mm, 5.125 * in, 1e-6);
  EXPECT_NEAR(back.ends[1].to_first_mm, 11.625 * in, 1e-6);
  EXPECT_NEAR(back.ends[1].sure_mm, 11.625 * in, 1e-6);
  for (std::size_t i = 0; i < 2; ++i)
    EXPECT_NEAR(other.ends[i].to_first_mm, back.ends[1 - i].to_first_mm, 1e-6) << "mirror";
  EXPECT_EQ(hold(measured(j), job::Side::right).ends[1].at, job::Side::front);
}

TEST(Hold, AStudThatTheNextUpstandLapsTakesAFastenerWhereThreeQuartersStay) {
  // Source: by hand: of a stud from 70-1/2 to 72 in the right upstand, 1/2 in thick, laps as much and leaves 1 in: the
  // fastener nearest to the end goes in 7/8 in from it. One 13/16 in thick leaves 11/16 in, and the stud takes none.
  for (const bool mirror : {false, true})
    for (const auto& [thick_in, end_in] : {std::pair{0.5, 0.875}, {0.8125, 31.625}}) {
      job::Job j = standing({20 * in, 40 * in, 71.25 * in});
      j.base.upstand_thickness = inches(thick_in);
      const facts::Hold back = hold(measured(mirror ? mirrored(j) : j), job::Side::back);
      EXPECT_NEAR(back.ends[mirror ? 0 : 1].to_first_mm, end_in * in, 1e-4) << thick_in;
    }
}

TEST(Hold, WhereNobodyReadTheStudsNothingIsSure) {
  // Source: common practice, no source: blocking is set from stud to stud, and ends where the last one stands.
  job::Job j = standing({});
  facts::Hold back = hold(measured(j), job::Side::back);
  EXPECT_TRUE(back.assumed);
  EXPECT_NEAR(back.sure_apart_mm, back.length_mm, 1e-6);
  j.walls.blocking = {inches(6)};
  back = hold(measured(j), job::Side::back);
  EXPECT_LT(back.apart_mm, 2 * in);
  EXPECT_NEAR(back.sure_apart_mm, back.length_mm, 1e-6);
  EXPECT_NEAR(back.ends[1].sure_mm, back.length_mm, 1e-6);
}

TEST(Hold, NothingHoldsAtTheSeamOfABenchsPlateAndItsStuds) {
  // Source: by hand: under a seat 12 in high the bench's plate begins 5 in up, and takes a screw at 5-5/8 in. Under one
  // 12-1/2 in high it begins 5-1/2 in up, 1/8 in below the screws: neither it nor the studs, which end there, take one
  // 3/8 in from their edges; nor does a plate of 4 to 5-1/2 in, under a seat of 11. Higher, studs no more than 16 in
  // apart do.
  job::Job j = sample::alcove();
  ASSERT_NEAR(j.bench->frame.spacing.in_mm(), 16 * in, 1e-9);
  for (double height = 11; height <= 14; height += 1. / 2) {
    j.bench->height = inches(height);
    const facts::Facts one = measured(j), other = measured(mirrored(j));
    EXPECT_EQ(hold(one, job::Side::left).behind, facts::Behind::bench);
    if (height == 11 || height == 12.5)
      EXPECT_NEAR(hold(one, job::Side::left).apart_mm, hold(one, job::Side::left).length_mm, 1e-6);
    else
      EXPECT_LE(hold(one, job::Side::left).apart_mm, 16 * in) << height;
    EXPECT_NEAR(hold(one, job::Side::left).apart_mm, hold(other, job::Side::right).apart_mm, 1e-6) << height;
  }
  j.bench->height = inches(18);
  j.bench->frame.spacing = inches(30);
  EXPECT_GT(hold(measured(j), job::Side::left).apart_mm, 16 * in) << "studs alone, and too far apart";
}

TEST(Fixture, StandsSoFarAboveTheWaterAndBehindTheBench) {
  // Source: by hand: a 3 in plate whose middle is 6 in up begins 4-1/2 in up; the bench stands against the left wall
  // over its whole depth, from the floor past 18 in; at 40 in nothing hides the plate, and the right wall has no bench.
  job::Job j = sample::alcove();
  const auto fixture = [&](Side wall, double along, double height) {
    j.fixtures.push_back({"bar", wall, inches(along), inches(height), inches(3), inches(3)});
  };
  fixture(Side::left, 16, 6), fixture(Side::left, 16, 40), fixture(Side::right, 16, 6), fixture(Side::back, 7, 10);
  const facts::Facts facts = measured(j);
  const auto& b = facts.backings;
  EXPECT_NEAR(b[0].above_water_mm, 4.5 * in - *facts.heights.threshold_greatest_mm, 1e-6);
  EXPECT_NEAR(b[0].behind_bench, 1, 1e-9);
  EXPECT_EQ(b[1].behind_bench, 0);
  EXPECT_EQ(b[2].behind_bench, 0);
  EXPECT_NEAR(b[3].behind_bench, 1, 1e-9) << "the bench's end stands against the back wall";
}

TEST(Fixture, IsBackedAlsoWhereBlockingIsCutToAMark) {
  // Source: property: what a saw's mark leaves open beside a stud takes no screw; alike on either hand.
  for (const Side wall : {Side::left, Side::right, Side::back}) {
    job::Job j = sample::alcove();
    j.cuts.to_tape = true;
    j.walls.blocking = {inches(34)};
    j.fixtures.push_back({"bar", wall, inches(16), inches(34), inches(3), inches(3)});
    EXPECT_NEAR(measured(j).backings[0].share, 1, 1e-9) << name_of(wall);
  }
}

TEST(Fixture, IsBackedAlsoWhereARowIsSetOnTheSolePlateByAMark) {
  // Source: by hand: a sole plate 1-1/2 in high, and a row of 3-1/2 in from 1-9/16 up: the sixteenth between them takes
  // no screw. A row a quarter inch over the plate leaves a twelfth of one 3 in high, from 1-1/2 up, bare.
  job::Job j = sample::alcove();
  j.fixtures.push_back({"soap", Side::right, inches(8), inches(3), inches(3), inches(3)});
  const auto share = [&](double row_in) {
    j.walls.blocking = {inches(row_in)};
    return measured(j).backings[0].share;
  };
  EXPECT_NEAR(share(3.25), 1, 1e-9);
  EXPECT_NEAR(share(3.3125), 1, 1e-9);
  EXPECT_NEAR(share(3.5), 11. / 12, 1e-6);
}

TEST(Fixture, StudsThatNobodyReadAreToldApart) {
  // Source: by hand: a 1-1/2 in plate before the assumed stud at 32 in. A row of blocking 3-1/2 in high backs any plate
  // as high between studs, wherever those stand, and ends at the last of them: it is known no more than they are. One
  // 3 in wide and 6 in high neither row nor stud can back.
  job::Job j = standing({});
  j.fixtures.push_back({"bar", Side::back, inches(32), inches(34), inches(1.5), inches(3)});
  facts::Backing bar = measured(j).backings[0];
  EXPECT_NEAR(bar.share, 1, 1e-9);
  EXPECT_NEAR(bar.assumed, 1, 1e-9);
  EXPECT_TRUE(bar.stud_can);
  j.walls.blocking = {inches(34)};
  bar = measured(j).backings[0];
  EXPECT_NEAR(bar.share, 1, 1e-9);
  EXPECT_NEAR(bar.assumed, 1, 1e-9);
  EXPECT_TRUE(bar.stud_can);
  j.fixtures[0].width = inches(3);
  EXPECT_TRUE(measured(j).backings[0].stud_can);
  j.fixtures[0].tall = inches(6);
  bar = measured(j).backings[0];
  EXPECT_FALSE(bar.stud_can);
  EXPECT_NEAR(bar.in_rows, 3.5 / 6, 1e-9) << "whoever reads the studs";
}

TEST(Fixture, BesideAStudIsBackedByStudAndBlockingAndNoMore) {
  // Source: by hand: a plate 3 x 6 in whose middle stands on the stud's edge: 1-1/2 in of it lie on the stud, the rest
  // on the 3-1/2 in of a row: (1.5 x 6 + 1.5 x 3.5) / 18. Blocking is cut to a mark, by another length in either unit.
  for (const auto unit : {job::UnitSystem::inch, job::UnitSystem::metric}) {
    job::Job j = standing({0.75 * in, 16.03 * in, 31.98 * in, 48 * in, 71.25 * in});
    j.unit = unit, j.cuts.to_tape = true;
    j.walls.blocking = {inches(34)};
    for (const double edge : {16.03 - 0.75, 31.98 + 0.75}) {
      j.fixtures = {{"bar", Side::back, inches(edge), inches(34), inches(3), inches(6)}};
      EXPECT_NEAR(measured(j).backings[0].share, (1.5 * 6 + 1.5 * 3.5) / 18, 1e-6) << edge;
    }
  }
}

TEST(Deck, IsTakenBetweenTheMiddlesOfItsJoists) {
  // Source: by hand: 2x10 every 24 in under a deck of 3/8 in.
  job::Job j = sample::alcove();
  j.floor.deck = inches(0.375);
  j.floor.joist_spacing = inches(24);
  j.floor.joist_first = inches(8);
  j.drain.bore = inches(4);
  for (const auto way : {job::Direction::along_depth, job::Direction::along_width}) {
    j.floor.joist_direction = way;
    const facts::FloorDeck deck = measured(j).deck;
    EXPECT_TRUE(deck.measured);
    EXPECT_NEAR(deck.thickness_mm, 0.375 * in, 1e-6);
    EXPECT_NEAR(deck.apart_mm, 24 * in, 1e-6);
  }
}

TEST(Span, CornersOfTheBaseThatSpotsDoNotReachAreNamed) {
  // Source: common practice, no source: 6 in. Three spots near one corner leave the other three; spots an inch from
  // all four walls reach all.
  job::Job j = sample::alcove();
  j.survey.spots = {{in, in, 0}, {13 * in, in, 0}, {in, 13 * in, 0}};
  EXPECT_EQ(measured(j).room.floor.unread.size(), 3U) << "the base begins 14-1/2 in from the left";
  j.survey.spots = {{in, in, 0}, {71 * in, in, 0}, {in, 35 * in, 0}, {71 * in, 35 * in, 0}};
  EXPECT_TRUE(measured(j).room.floor.unread.empty());
  j.survey.spots[3].y = 20 * in;
  const auto unread = measured(j).room.floor.unread;
  ASSERT_EQ(unread.size(), 1U);
  EXPECT_EQ(unread[0].name, "back right");
}

TEST(WidthRead, CountsWhereItIsLessThanBetweenTheSolids) {
  // Source: by hand: 60-1/4 in at the floor, 59-3/4 in read 48 in up, a base of 60 in: 1/4 in short there. A width that
  // is more than between the solids changes nothing.
  job::Job j = sample::bare(inches(60), inches(34), inches(30), inches(17));
  j.alcove.width = inches(60.25);
  j.base.lowered_from = inches(48);
  const double y = j.alcove.depth.in_mm();
  sample::read_plan(j, {0, y}, {60.25 * in, y}, {0, 0}, {60.25 * in, 0});
  for (const Side side : {Side::left, Side::right, Side::back})
    j.survey.plumbs.push_back({side, 400, {0, 1.6, survey::Face::stud, 0}, 1200});
  const auto read = [&](double width_in) {
    j.survey.widths = {{17 * in, 48 * in, {width_in * in, 1.6, survey::Face::stud, 0}}};
    return measured(j).room.drop_in;
  };
  const facts::DropIn narrow = read(59.75), wide = read(60.5);
  EXPECT_NEAR(narrow.least_mm, -0.25 * in, 1e-6);
  EXPECT_NEAR(narrow.least_at_mm, 48 * in, 1e-6);
  ASSERT_TRUE(narrow.narrower);
  EXPECT_NEAR(wide.least_mm, 0.25 * in, 1e-6);
  EXPECT_FALSE(wide.narrower);
  EXPECT_LT(narrow.tip_clear_mm, wide.tip_clear_mm);
}

}  // namespace
}  // namespace fallwright::measure
