// Cut list.
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/imperial.hpp"
#include "support/sample.hpp"
#include "support/strips.hpp"
#include "takeoff/ripping.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright {
namespace {

facts::Member stick(const char* id, const char* stock, double length_mm, double angle_deg = 0) {
  facts::Member m;
  m.part_id = id;
  m.stock = stock;
  m.length_mm = length_mm;
  m.width_mm = 3.5 * in;
  m.thickness_mm = 1.5 * in;
  m.end_angle_deg = {0, angle_deg};
  return m;
}

facts::Facts with(std::vector<facts::Member> members) {
  facts::Facts facts;
  facts.members = std::move(members);
  return facts;
}

TEST(CutList, PointsLessThanHalfAMarkApartAreCutAtOneMark) {
  // Source: by hand: 10-27/32 lies half way from 10-13/16 to 10-7/8; a stud of 10.8445 and 10.8430 on a floor that
  // falls a little is one length, not a piece that is square and a sixteenth shorter at one point. 1/16 apart is two.
  facts::Facts facts = with({stick("a", "2x4", 10.8445 * in), stick("b", "2x4", 10.8445 * in)});
  facts.members[0].short_mm = 10.8430 * in;
  facts.members[1].short_mm = 10.7820 * in;
  const auto rows = takeoff::cut_list(facts, false);
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_NEAR(rows[0].length_mm, 10.875 * in, 1e-9);
  EXPECT_NEAR(rows[0].short_mm, 10.875 * in, 1e-9);
  EXPECT_NEAR(rows[1].short_mm, 10.8125 * in, 1e-9);
}

TEST(CutList, AStripEndsWhereItsStudComesToStandBeforeTheLine) {
  // Source: by hand: 1/4 behind the line at its foot and 3/4 before it at its top, a stud of 92 in crosses the line a
  // quarter up, at 23 in; one the other way round has its strip in the quarter below its top.
  facts::StudGap up;
  up.at_floor_mm = 0.25 * in, up.at_top_mm = -0.75 * in;
  const auto strip_on = [](const facts::StudGap& gap) {
    return facts::strips_for(gap.at_floor_mm, gap.at_top_mm, std::max(gap.at_floor_mm, gap.at_top_mm), in / 16);
  };
  ASSERT_EQ(strip_on(up).size(), 1u);
  const facts::Strip low = strip_on(up)[0];
  EXPECT_NEAR(low.to, 0.25, 1e-12);
  EXPECT_EQ(low.from, 0);
  std::swap(up.at_floor_mm, up.at_top_mm);
  const facts::Strip high = strip_on(up)[0];
  EXPECT_NEAR(high.from, 0.75, 1e-12);
  EXPECT_EQ(high.to, 1);
  facts::Facts facts;
  facts::Part stud;
  stud.id = "wall-left/stud-01", stud.bbox_mm = {0, 0, 1.5 * in, 1.5 * in, 3.5 * in, 93.5 * in};
  facts.parts = {stud};
  up.part_id = stud.id, up.before = facts::Before::base, up.at_floor_mm = 0.25 * in, up.at_top_mm = -0.75 * in;
  up.strips = strip_on(up);
  facts.room.studs = {up};
  const auto strips = takeoff::cut_list(facts, false);
  ASSERT_EQ(strips.size(), 1u);
  EXPECT_NEAR(strips[0].length_mm, 23 * in, 1e-9);
  EXPECT_EQ(strips[0].ends, "square, tapered to nothing at the head; from the stud's foot up");
}

TEST(CutList, StripsThatGoInAtOtherTimesHaveMarksOfTheirOwn) {
  // Source: by hand: of two strips that are cut alike one waits for the base, and whoever sets them reads which; a
  // third ends 16 in up, below a seat block, and goes on above it from 24 in, 69-1/2 of 93-1/2 in.
  facts::Facts facts;
  for (const char* id : {"a", "b", "c"}) {
    facts::Part stud;
    stud.id = id, stud.bbox_mm = {0, 0, 0, 3.5 * in, 1.5 * in, 93.5 * in};
    facts.parts.push_back(stud);
    facts::StudGap gap;
    gap.part_id = id, gap.before = facts::Before::base;
    gap.at_floor_mm = gap.at_upstand_mm = gap.at_top_mm = 0.8125 * in;
    gap.strips = facts::strips_for(gap.at_floor_mm, gap.at_top_mm, gap.at_floor_mm, in / 16);
    facts.room.studs.push_back(gap);
  }
  facts.room.studs[1].strips[0].turn = facts::Turn::base;
  facts::Strip low = facts.room.studs[2].strips[0], high = low;
  low.to = 16 / 93.5, low.turn = facts::Turn::base, low.below_seat = true;
  high.from = 24 / 93.5, high.turn = facts::Turn::seat;
  facts.room.studs[2].strips = {low, high};
  const auto rows = takeoff::cut_list(facts, false);
  ASSERT_EQ(rows.size(), 4u);
  std::vector<std::string> told;
  for (const takeoff::CutRow& row : rows)
    told.push_back(row.part_ids[0] + " " + std::to_string(static_cast<int>(row.turn)) + " " +
                   units::decimals(row.length_mm / in, 1) + " " + row.ends);
  EXPECT_THAT(told, testing::UnorderedElementsAre("a 0 93.5 square", "b 1 93.5 square",
                                                  "c 1 16.0 square; from the stud's foot up",
                                                  "c 2 69.5 square; from the stud's top down"));
}

TEST(CutList, StripsOfAWallThatIsToBeFramedOutWait) {
  // Source: by hand: a stud 2 in back is farther than the 1-1/2 that furring reaches, so a wall is framed before that
  // wall, and what was cut for its other stud is wrong by as much as that wall then stands elsewhere. The left one's
  // is cut. A notch and a piece at the foot are told: 4 in from the plate up, 3/8 out of the front edge.
  facts::Facts facts;
  const std::pair<facts::Side, double> studs[] = {
      {facts::Side::right, 0.75 * in}, {facts::Side::right, 2 * in}, {facts::Side::left, 0.75 * in}};
  for (const auto& [wall, back] : studs) {
    facts::Part stud;
    stud.id = std::to_string(facts.parts.size()), stud.bbox_mm = {0, 0, 1.5 * in, 3.5 * in, 1.5 * in, 94.5 * in};
    facts::StudGap gap;
    gap.part_id = stud.id, gap.wall = wall, gap.before = facts::Before::base;
    gap.at_floor_mm = gap.at_upstand_mm = gap.at_top_mm = back;
    gap.strips = facts::strips_for(back, back, back, in / 16);
    facts.parts.push_back(stud), facts.room.studs.push_back(gap);
  }
  facts::Strip& foot = facts.room.studs[2].strips.at(0);
  foot.to = 4. / 93, foot.parted = true, foot.turn = facts::Turn::base;
  foot.notch = facts::Notch{true, 0.375 * in, 3. / 93, 4. / 93};
  const auto rows = takeoff::cut_list(facts, false);
  ASSERT_EQ(rows.size(), 2u);
  for (const takeoff::CutRow& row : rows) EXPECT_EQ(row.hold.has_value(), row.part_ids[0] == "0");
  const bool first = rows[0].hold.has_value();
  EXPECT_THAT(rows[first ? 0 : 1].hold->first, testing::HasSubstr("frame the right wall out"));
  EXPECT_EQ(rows[first ? 1 : 0].ends,
            "square; from the stud's foot up; notched 3/8\" deep out of its front edge, from 3\" to its head");
  EXPECT_NEAR(rows[first ? 1 : 0].length_mm, 4 * in, 1e-9);
}

TEST(CutList, StripsThatDifferByNothingInLengthAreCutAlike) {
  // Source: by hand: four strips on a floor out of level, 87-3/16, 87-1/16, 87 and 86-3/4: within 1/4 in of the longest
  // three are cut as the shortest of them, and the fourth by itself; before blocks each is cut to its block.
  facts::Facts facts;
  for (const double length : {87.1875, 87.0625, 87., 86.75}) {
    facts::Part stud;
    stud.id = std::to_string(facts.parts.size()), stud.bbox_mm = {0, 0, 0, 3.5 * in, 1.5 * in, length * in};
    facts::StudGap gap;
    gap.part_id = stud.id, gap.before = facts::Before::base, gap.at_floor_mm = in, gap.strips = {{in, in}};
    facts.parts.push_back(stud), facts.room.studs.push_back(gap);
    facts.room.block_strips.push_back({"block", facts::Side::back, in, in, (length - 70) * in, 3.5 * in, 34 * in});
  }
  std::vector<std::pair<double, int>> studs, blocks;
  for (const takeoff::CutRow& row : takeoff::cut_list(facts, false))
    (row.on_block ? blocks : studs).emplace_back(row.length_mm / in, row.count);
  EXPECT_THAT(studs, testing::ElementsAre(std::pair{87., 3}, std::pair{86.75, 1}));
  EXPECT_EQ(blocks.size(), 4u);
}

TEST(CutList, AFootPieceThatRunsOutIsAsThickAsItBegins) {
  // Source: by hand: 1/16 at the plate, next to nothing 6 in up: cut alike at both ends it would be a strip of no
  // thickness at all.
  facts::Facts facts;
  facts::Part stud;
  stud.id = "stud", stud.bbox_mm = {0, 0, 1.5 * in, 3.5 * in, 1.5 * in, 94.5 * in};
  facts::StudGap gap;
  gap.part_id = stud.id, gap.wall = facts::Side::left, gap.before = facts::Before::base;
  facts::Strip foot{in / 16, 0.01 * in, 0, 6. / 93};
  foot.parted = true, foot.turn = facts::Turn::base;
  gap.strips = {foot};
  facts.parts.push_back(stud), facts.room.studs.push_back(gap);
  const auto rows = takeoff::cut_list(facts, false);
  ASSERT_EQ(rows.size(), 1u);
  EXPECT_NEAR(rows[0].thickness_mm, in / 16, 1e-9);
  EXPECT_THAT(rows[0].stock, testing::HasSubstr("shims 1/16 x "));
  EXPECT_THAT(rows[0].ends, testing::HasSubstr("tapered to nothing at the head"));
}

TEST(CutList, AStripIsToldWhereItStandsAsTheOrderOfWorkTellsIt) {
  // Source: by hand: of a stud that leans in strips run out before its head: one from the plate up, one between the
  // base's edge and that, and one between the seat block and that.
  facts::Facts facts;
  facts::Part stud;
  stud.id = "stud", stud.bbox_mm = {0, 0, 1.5 * in, 3.5 * in, 1.5 * in, 94.5 * in};
  facts::StudGap gap;
  gap.part_id = stud.id, gap.wall = facts::Side::left, gap.before = facts::Before::base;
  const auto add = [&](double from_in, double to_in, facts::Turn turn, bool parted) {
    facts::Strip strip{0.5 * in, 0.25 * in, from_in / 93, to_in / 93, turn};
    strip.parted = parted;
    gap.strips.push_back(strip);
  };
  add(0, 6, facts::Turn::base, true), add(6, 78, facts::Turn::after, true), add(21, 77, facts::Turn::seat, true),
      add(22, 76, facts::Turn::seat, false);
  facts.parts.push_back(stud), facts.room.studs.push_back(gap);
  for (const takeoff::CutRow& row : takeoff::cut_list(facts, false)) {
    const char* stands = row.turn == facts::Turn::base    ? "; from the stud's foot up"
                         : row.turn == facts::Turn::after ? "; over the base's edge"
                                                          : "; on the seat block";
    EXPECT_THAT(row.ends, testing::EndsWith(stands));
  }
}

TEST(CutList, AStripOfThreeQuartersIsALengthOfABoard) {
  // Source: PS 20, from memory: a dry 1x4 is 3/4 x 3-1/2 in. One of 5/8 is sold by nobody.
  EXPECT_EQ(takeoff::board_as_sold("furring 3/4 x 3-1/2\""), "1x4");
  EXPECT_EQ(takeoff::board_as_sold("furring 5/8 x 3-1/2\""), "");
  facts::Facts facts;
  facts.room.block_strips = {{"block", facts::Side::right, 0.75 * in, 0.75 * in, 14.5 * in, 3.5 * in, 34 * in}};
  const job::Job job = sample::alcove();
  const auto cuts = takeoff::cut_list(facts, false);
  const auto rows = takeoff::take_off(job, facts, cuts, takeoff::plan_cuts(cuts, job.cuts, false));
  const auto row = std::find_if(rows.begin(), rows.end(), [](const auto& r) { return r.item.starts_with("furring"); });
  ASSERT_NE(row, rows.end());
  EXPECT_THAT(row->basis, testing::EndsWith("; sold as 1x4"));
}

TEST(CutList, WhatARowWaitsForIsTheSameInTheMirror) {
  // Source: property: strips of one row, before a stud of the base and one of the bench, wait for the base, which comes
  // first, whichever wall is read first.
  facts::Holds holds;
  holds.base = facts::Held{"base.hand", "base", "another base"};
  holds.pieces = facts::Held{"seat.depth", "seat", "another seat"};
  const auto told = [&](std::initializer_list<facts::Before> order) {
    facts::Facts facts;
    for (const facts::Before before : order) {
      facts::Part stud;
      stud.id = std::to_string(facts.parts.size()), stud.bbox_mm = {0, 0, 1.5 * in, 3.5 * in, 1.5 * in, 94.5 * in};
      facts::StudGap gap;
      gap.part_id = stud.id, gap.wall = facts.parts.empty() ? facts::Side::left : facts::Side::right;
      gap.before = before, gap.strips = {facts::Strip{in / 16, in / 16}};
      facts.parts.push_back(stud), facts.room.studs.push_back(gap);
    }
    const auto rows = takeoff::cut_list(facts, false, {}, holds);
    for (facts::StudGap& gap : facts.room.studs) gap.wall = facts::Side::back;
    facts.room.block_strips = {{"block", facts::Side::back, 0.75 * in, 0.75 * in, 14.5 * in, 3.5 * in, 34 * in}};
    for (const auto& row : takeoff::cut_list(facts, false, {}, holds))
      EXPECT_EQ(row.on_block && (!row.hold || row.hold->check != "base.hand"), false);
    return rows.size() == 1 && rows[0].hold ? rows[0].hold->check : std::string{};
  };
  EXPECT_EQ(told({facts::Before::base, facts::Before::bench}), "base.hand");
  EXPECT_EQ(told({facts::Before::bench, facts::Before::base}), "base.hand");
}

TEST(CutList, AStripBeforeABlockIsAsLongAndHighAsThat) {
  // Source: by hand: 5/8 at its back end and 3/4 at its front one; what is thinner is told, and read back from that.
  facts::Facts facts;
  facts.room.block_strips = {
      {"block", facts::Side::right, 0.625 * in, 0.75 * in, 14.55 * in, 3.5 * in, 34 * in, facts::Turn::base}};
  const auto rows = takeoff::cut_list(facts, false);
  ASSERT_EQ(rows.size(), 1u);
  EXPECT_EQ(rows[0].stock, "furring 3/4 x 3-1/2\"");
  EXPECT_NEAR(rows[0].length_mm, 14.5 * in, 1e-9);
  EXPECT_EQ(rows[0].ends, "square, tapered to 5/8\" at the back end");
  EXPECT_TRUE(rows[0].on_block && rows[0].turn == facts::Turn::base);
  const auto taper = takeoff::taper_named(rows[0].ends);
  ASSERT_TRUE(taper);
  EXPECT_EQ(taper->thin_at, takeoff::StripEnd::back);
  EXPECT_NEAR(taper->thin_mm, 0.625 * in, 1e-9);
}

TEST(CutList, EqualPiecesShareAMark) {
  // Source: none; a saw is set once for one length.
  const auto rows =
      takeoff::cut_list(with({stick("a", "2x4", 300), stick("b", "2x4", 300.2), stick("c", "2x4", 500)}), false);
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].count, 1);
  EXPECT_EQ(rows[1].count, 2);
  EXPECT_EQ(rows[1].part_ids, (std::vector<std::string>{"a", "b"}));
}

TEST(CutList, LengthsAreRoundedToTheTape) {
  // Source: by hand: 10.375 in is 263.525 mm; a joist of 14.2531 in is cut to 14-1/4.
  const facts::Facts facts = with({stick("stud", "2x4", 263.525), stick("joist", "2x4", 14.2531 * in)});
  const auto inch = takeoff::cut_list(facts, false);
  EXPECT_NEAR(inch[0].length_mm, 14.25 * in, 1e-9);
  EXPECT_NEAR(inch[1].length_mm, 10.375 * in, 1e-9);
  EXPECT_NEAR(takeoff::cut_list(facts, true)[1].length_mm, 264, 1e-9);
}

TEST(CutList, ABevelSetsPiecesApart) {
  // Source: by hand: a seat falling 1:48 bevels its joists by atan(1/48) = 1.194 degrees.
  const auto rows = takeoff::cut_list(with({stick("a", "2x4", 300), stick("b", "2x4", 300, 1.194)}), false);
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].ends, "square");
  EXPECT_EQ(rows[1].ends, "0.0 and 1.2 deg from square");
  EXPECT_EQ(rows[1].end_deg, (std::array{0., 1.194}));
}

TEST(CutList, PiecesToldAlikeHaveTheEndsOfTheMostSlanted) {
  // Source: by hand: 1.16 and 1.24 degrees are both told as 1.2, in whichever order they come, in one room or in two.
  const facts::Facts a = with({stick("a", "2x4", 300, 1.16)}), b = with({stick("b", "2x4", 300, 1.24)}),
                     both = with({stick("b", "2x4", 300, 1.24), stick("a", "2x4", 300, 1.16)});
  const auto rows = takeoff::cut_list(both, false), first = takeoff::cut_list(a, false),
             second = takeoff::cut_list(b, false);
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_EQ(rows[0].end_deg, (std::array{0., 1.24}));
  const auto saw = takeoff::saw_list({&first, &second});
  ASSERT_EQ(saw.size(), 1U);
  EXPECT_EQ(saw[0].cut.end_deg, (std::array{0., 1.24}));
}

TEST(CutList, AnEndThatRisesLessThanHalfAMarkIsSquare) {
  // Source: by hand: over the 3-1/2" of a 2x4 0.5 degrees rise by 0.0305", less than 1/32", and 0.6 by 0.0367".
  const auto ends = [](double deg) { return takeoff::cut_list(with({stick("a", "2x4", 300, deg)}), false)[0].ends; };
  EXPECT_EQ(ends(0.5), "square");
  EXPECT_EQ(ends(0.6), "0.0 and 0.6 deg from square");
}

TEST(CutList, LongestFirstForEachStockAndSheetsLast) {
  // Source: none; the order in which a saw works through a pile.
  facts::Member deck = stick("deck", "plywood", 800);
  deck.sheet = true;
  const auto rows = takeoff::cut_list(
      with({deck, stick("a", "2x6", 100), stick("b", "2x4", 200), stick("c", "2x4", 900), stick("d", "2x6", 700)}),
      false);
  std::string order, marks;
  for (const takeoff::CutRow& row : rows) order += row.part_ids[0] + " ", marks += row.mark;
  EXPECT_EQ(order, "c b d a deck ");
  EXPECT_EQ(marks, "ABCDE");
}

TEST(Cuts, MarksLeaveOutIAndO) {
  // Source: by hand: after H comes J, after N comes P; the 24 letters end in Z, and then AA, AB.
  facts::Facts facts;
  for (int i = 0; i < 26; ++i) facts.members.push_back(stick("s", "2x4", 2000 - 25 * i));
  const auto rows = takeoff::cut_list(facts, false);
  ASSERT_EQ(rows.size(), 26u);
  for (const auto& [index, mark] :
       {std::pair{0, "A"}, {7, "H"}, {8, "J"}, {12, "N"}, {13, "P"}, {23, "Z"}, {24, "AA"}, {25, "AB"}})
    EXPECT_EQ(rows[static_cast<std::size_t>(index)].mark, mark);
}

TEST(CutList, AFittedPlateSaysSo) {
  // Source: by hand: 0.6 mm over its stock is within 1/16 in, or 1 mm; 1.7 mm is not. A plain one says nothing. Studs
  // cut to whole marks may all be alike within one of them.
  facts::Member plate = stick("sole-plate", "2x4", 900);
  EXPECT_EQ(takeoff::fitted_text(takeoff::cut_list(with({plate}), false)[0], false), "");
  plate.fitted_mm = 0.6;
  EXPECT_EQ(takeoff::fitted_text(takeoff::cut_list(with({plate}), false)[0], false),
            "lies straight on the floor's high spots, up to 1/16\" out of level: do not pack it level, its studs are "
            "packed on top");
  plate.fitted_mm = 1.7;
  EXPECT_EQ(
      takeoff::fitted_text(takeoff::cut_list(with({plate}), true)[0], true),
      "lies straight on the floor's high spots, up to 2 mm out of level: do not pack it level, studs are cut to it");
}

TEST(CutList, KeepsEveryPiece) {
  // Source: property; counts and part ids add up to the members.
  std::mt19937 random{7};
  std::vector<facts::Member> many;
  for (int i = 0; i < 60; ++i)
    many.push_back(stick("m", random() % 2 ? "2x4" : "2x6", 200 + 20 * double(random() % 8)));
  int count = 0;
  for (const takeoff::CutRow& row : takeoff::cut_list(with(many), true)) {
    EXPECT_EQ(row.count, static_cast<int>(row.part_ids.size()));
    count += row.count;
  }
  EXPECT_EQ(count, 60);
}

/// Strips of so many inches' thickness and length, out of a 2x4.
takeoff::CutRow strip_of(double thick_in, int count, double long_in = 87.3125) {
  takeoff::CutRow cut;
  cut.mark = "A", cut.stock = "furring", cut.furring = takeoff::Furring::strip, cut.count = count;
  cut.length_mm = long_in * 25.4, cut.width_mm = 1.5 * 25.4, cut.thickness_mm = thick_in * 25.4;
  cut.board = takeoff::Board{"2x4", 1.5 * 25.4, 3.5 * 25.4};
  return cut;
}
takeoff::CutRow framing_of(const char* stock, double long_in) {
  takeoff::CutRow cut;
  cut.mark = "B", cut.stock = stock, cut.count = 1, cut.length_mm = long_in * 25.4;
  return cut;
}
job::Cuts ripped_out_of(const std::vector<double>& feet) {
  job::Cuts how;
  how.sticks.clear();
  for (const double ft : feet) how.sticks.push_back(job::Length::feet(ft));
  how.kerf = how.trim = job::Length::inches(0.125);
  return how;
}

TEST(Ripping, StripsOfAnyThicknessShareABoard) {
  // Source: by hand: 9/16, 1/2, 7/16, 3/8 and twice 5/16 are 2-1/2, with a cut of 1/8 beside each 3-1/4 of a 2x4's
  // 3-1/2; one of 1/4 more makes 3-5/8. A strip of 87-5/16 comes out of 8 ft. Shims of 1/8 are not ripped.
  const job::Cuts how = ripped_out_of({12, 8, 6});
  std::vector<takeoff::CutRow> cuts;
  for (const double thick : {0.5625, 0.5, 0.4375, 0.375}) cuts.push_back(strip_of(thick, 1));
  cuts.push_back(strip_of(0.3125, 2)), cuts.push_back(strip_of(0.125, 9));
  cuts.back().stock = "shims 1/8 x 1-1/2\"", cuts.back().furring = takeoff::Furring::shims;
  auto plans = takeoff::plan_cuts(cuts, how, false);
  ASSERT_EQ(plans.size(), 1u);
  EXPECT_EQ(plans[0].stock, "2x4, for furring");
  EXPECT_EQ(plans[0].sold_as, "2x4");
  ASSERT_EQ(plans[0].sticks.size(), 1u);
  EXPECT_NEAR(plans[0].sticks[0].length_mm, 8 * 304.8, 1e-9);
  EXPECT_EQ(plans[0].sticks[0].pieces.size(), 6u);
  EXPECT_TRUE(plans[0].proven() && plans[0].fewest);
  auto rows = takeoff::stick_rows(plans, false);
  ASSERT_EQ(rows.size(), 1u) << "one row, whatever the thicknesses";
  EXPECT_EQ(takeoff::bought(rows[0]), "1 stick of 8 ft");
  EXPECT_EQ(rows[0].basis.substr(0, rows[0].basis.find(';')),
            "6 strips ripped side by side, a saw cut of 1/8\" beside each");
  cuts.push_back(strip_of(0.25, 1));
  plans = takeoff::plan_cuts(cuts, how, false);
  EXPECT_EQ(takeoff::bought(takeoff::stick_rows(plans, false).at(0)), "2 sticks of 8 ft");
  EXPECT_FALSE(plans[0].fewest);
  // (3-1/4 + 3/8) x 87-5/16 of strips and cuts over 3-1/2 + 1/8 across is a board's length: no two ways about one.
  EXPECT_NEAR(plans[0].least_mm, 8 * 304.8, 1e-9);
}

TEST(Ripping, AStripFillsItsBoardToTheLastCut) {
  // Source: by hand: two of 1-5/8 with their cuts are 3-1/2, at the limit and inside; of 1-11/16 they are 3-5/8.
  const auto boards = [&](double thick_in) {
    return takeoff::plan_cuts({strip_of(thick_in, 2)}, ripped_out_of({8}), false).at(0).sticks.size();
  };
  EXPECT_EQ(boards(1.625), 1u);
  EXPECT_EQ(boards(1.6875), 2u);
  EXPECT_EQ(boards(3.5), 2u) << "as thick as the board is wide: no cut";
}

TEST(Ripping, ShortStripsOfOneThicknessLieEndToEnd) {
  // Source: by hand: between its trimmed ends a board of 8 ft has 95-3/4; two strips of 47-3/4 and the cut between them
  // are 95-5/8, of 47-7/8 95-7/8. Four lanes of 3/4 with their cuts fill a 2x4: eight strips or four.
  const auto boards = [&](double long_in) {
    return takeoff::plan_cuts({strip_of(0.75, 8, long_in)}, ripped_out_of({8}), false).at(0).sticks.size();
  };
  EXPECT_EQ(boards(47.75), 1u);
  EXPECT_EQ(boards(47.875), 2u);
}

TEST(Ripping, StripsThatWaitHaveBoardsOfTheirOwn) {
  // Source: by hand: three strips of 1 in and their cuts of 1/8 fill 3-3/8 of a 2x4's 3-1/2; three that wait may not
  // take what is bought for those that do not.
  const job::Cuts how = ripped_out_of({8});
  std::vector<takeoff::CutRow> cuts{strip_of(0.5, 3), strip_of(0.5, 3)};
  EXPECT_EQ(takeoff::plan_cuts(cuts, how, false).size(), 1u);
  cuts[1].hold = takeoff::Hold{takeoff::HangsOn::base, "floor.fall-least", "floor falls enough"};
  const auto plans = takeoff::plan_cuts(cuts, how, false);
  ASSERT_EQ(plans.size(), 2u);
  EXPECT_EQ(plans[0].pieces, 3);
  EXPECT_FALSE(plans[0].hold);
  ASSERT_TRUE(plans[1].hold);
  EXPECT_EQ(plans[1].hold->on, takeoff::HangsOn::base);
  const auto rows = takeoff::stick_rows(plans, false);
  EXPECT_TRUE(rows[0].to_order());
  EXPECT_FALSE(rows[1].to_order());
}

TEST(Ripping, BoardsArePricedAsTheStockTheyAre) {
  // Source: by hand: a table knows 2x4, once; what has no price is named once.
  std::vector<takeoff::Row> rows = takeoff::stick_rows(
      takeoff::plan_cuts({strip_of(0.5, 1), framing_of("2x4", 90)}, ripped_out_of({8}), false), false);
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_THAT(takeoff::cost_of(rows).missing, testing::ElementsAre("'2x4' by the stick of 8 ft"));
  takeoff::set_prices(rows, {{"2x4", "stick of 8 ft", 4.5, "", 1}});
  EXPECT_NEAR(takeoff::cost_of(rows).sum.value_or(0), 9, 1e-9);
  EXPECT_TRUE(takeoff::cost_of(rows).missing.empty());
}

TEST(Ripping, BoardsAreOfAPreferredLengthWhereOneHoldsTheStrips) {
  // Source: by hand: a strip of 46 in comes out of 6, 8 or 12 ft, one of 94 out of 8 with 1/8 off each end, one of 110
  // out of 12 ft alone, one of 150 out of none: 14 ft to order, which takes the short one too.
  job::Cuts how = ripped_out_of({6, 8, 12});
  const auto board = [&](double strip_in) {
    return takeoff::plan_cuts({strip_of(0.5, 1, strip_in)}, how, false).at(0).sticks.at(0);
  };
  EXPECT_NEAR(board(46).length_mm / 304.8, 6, 1e-9);
  how.preferred = {job::Length::feet(8)};
  EXPECT_NEAR(board(46).length_mm / 304.8, 8, 1e-9);
  EXPECT_NEAR(board(94).length_mm / 304.8, 8, 1e-9);
  EXPECT_NEAR(board(110).length_mm / 304.8, 12, 1e-9) << "the preferred one is too short";
  EXPECT_FALSE(board(110).to_order);
  const auto plan = takeoff::plan_cuts({strip_of(0.5, 1, 46), strip_of(0.75, 1, 150)}, how, false).at(0);
  ASSERT_EQ(plan.sticks.size(), 1u);
  EXPECT_TRUE(plan.sticks[0].to_order);
  EXPECT_NEAR(plan.sticks[0].length_mm / 304.8, 14, 1e-9);
}

TEST(Ripping, ABoardIsKnownWhereItIsTimberAndThickEnough) {
  // Source: by hand: a strip 1-1/2 wide comes out of a 2x4; one 1-3/4 wide does not, nor any out of a steel stud.
  facts::Facts facts;
  for (const double wide : {1.5, 1.75}) {
    facts::Part stud;
    stud.id = "wall-left/stud-0" + std::to_string(facts.parts.size() + 1);
    stud.bbox_mm = {0, 0, 0, wide * 25.4, 3.5 * 25.4, 90 * 25.4};
    facts.parts.push_back(stud);
    facts.room.studs.push_back({stud.id, job::Side::left, facts::Before::base, 0, 12.7, 12.7, 12.7});
  }
  job::Job job = sample::alcove();
  job.walls.stock.name = "2x4", job.walls.stock.kind = job::StockKind::timber;
  job.walls.stock.thickness = job::Length::inches(1.5), job.walls.stock.depth = job::Length::inches(3.5);
  const auto cuts = takeoff::cut_list(sample::with_strips(facts, false), false, takeoff::board_of(job));
  ASSERT_EQ(cuts.size(), 2u);
  EXPECT_EQ(cuts[0].board.has_value(), cuts[0].width_mm < 39);
  EXPECT_EQ(cuts[1].board.has_value(), cuts[1].width_mm < 39);
  EXPECT_NE(cuts[0].board.has_value(), cuts[1].board.has_value());
  job.walls.stock.kind = job::StockKind::steel_stud;
  EXPECT_FALSE(takeoff::board_of(job));
}

}  // namespace
}  // namespace fallwright
