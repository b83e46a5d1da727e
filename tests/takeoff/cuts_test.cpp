// Cut list.
#include <random>

#include <gtest/gtest.h>

#include "support/imperial.hpp"
#include "support/sample.hpp"
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
  const takeoff::Strip low = takeoff::strip_on(up, false);
  EXPECT_NEAR(low.to, 0.25, 1e-12);
  EXPECT_EQ(low.from, 0);
  std::swap(up.at_floor_mm, up.at_top_mm);
  const takeoff::Strip high = takeoff::strip_on(up, false);
  EXPECT_NEAR(high.from, 0.75, 1e-12);
  EXPECT_EQ(high.to, 1);
  facts::Facts facts;
  facts::Part stud;
  stud.id = "wall-left/stud-01", stud.bbox_mm = {0, 0, 1.5 * in, 1.5 * in, 3.5 * in, 93.5 * in};
  facts.parts = {stud};
  up.part_id = stud.id, up.before = facts::Before::base, up.at_floor_mm = 0.25 * in, up.at_top_mm = -0.75 * in;
  facts.room.studs = {up};
  const auto strips = takeoff::cut_list(facts, false);
  ASSERT_EQ(strips.size(), 1u);
  EXPECT_NEAR(strips[0].length_mm, 23 * in, 1e-9);
  EXPECT_EQ(strips[0].ends, "square, tapered to nothing at the head; from the stud's foot up");
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

TEST(CutList, MarksGoOnBehindZ) {
  // Source: none.
  std::vector<facts::Member> many;
  for (int i = 0; i < 28; ++i) many.push_back(stick("m", "2x4", 1000 - 10 * i));
  const auto rows = takeoff::cut_list(with(many), true);
  EXPECT_EQ(rows[23].mark, "Z");
  EXPECT_EQ(rows[24].mark, "AA");
  EXPECT_EQ(rows[25].mark, "AB");
}

TEST(CutList, AFittedPlateSaysSo) {
  // Source: by hand: 0.6 mm over its stock is within 1/16 in, or 1 mm; 1.7 mm is not. A plain one says nothing.
  facts::Member plate = stick("sole-plate", "2x4", 900);
  EXPECT_EQ(takeoff::fitted_text(takeoff::cut_list(with({plate}), false)[0], false), "");
  plate.fitted_mm = 0.6;
  EXPECT_EQ(takeoff::fitted_text(takeoff::cut_list(with({plate}), false)[0], false),
            "fitted to the floor: shim or scribe, up to 1/16\"");
  plate.fitted_mm = 1.7;
  EXPECT_EQ(takeoff::fitted_text(takeoff::cut_list(with({plate}), true)[0], true),
            "fitted to the floor: shim or scribe, up to 2 mm");
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

TEST(Ripping, StripsOfAnyThicknessShareABoard) {
  // Source: by hand: 9/16, 1/2, 7/16, 3/8 and twice 5/16 are 2-1/2, with a cut of 1/8 beside each 3-1/4 of a 2x4's
  // 3-1/2; one of 1/4 more makes 3-5/8. A strip of 87-5/16 comes out of 8 ft. Shims of 1/8 are not ripped.
  job::Job job = sample::alcove();
  job.walls.stock.name = "2x4", job.walls.stock.kind = job::StockKind::timber;
  job.walls.stock.thickness = job::Length::inches(1.5), job.walls.stock.depth = job::Length::inches(3.5);
  job.cuts.sticks = {job::Length::feet(12), job::Length::feet(8), job::Length::feet(6)};
  job.cuts.kerf = job.cuts.trim = job::Length::inches(0.125);
  std::vector<takeoff::CutRow> cuts;
  const auto add = [&](double thick_in, int count, const char* name) {
    takeoff::CutRow cut;
    cut.stock = name, cut.furring = true, cut.count = count;
    cut.length_mm = 87.3125 * 25.4, cut.width_mm = 1.5 * 25.4, cut.thickness_mm = thick_in * 25.4;
    cuts.push_back(cut);
  };
  EXPECT_EQ(takeoff::ripped_together(job, cuts), "");
  for (const double thick : {0.5625, 0.5, 0.4375, 0.375}) add(thick, 1, "furring");
  add(0.3125, 2, "furring"), add(0.125, 9, "shims 1/8 x 1-1/2\"");
  EXPECT_EQ(takeoff::ripped_together(job, cuts),
            "all 6 strips side by side from 1 of 2x4, 8 ft long, a saw cut of 1/8\" beside each");
  add(0.25, 1, "furring");
  EXPECT_EQ(takeoff::boards_to_rip(job, cuts)->count, 2);
  cuts.back().width_mm = 1.75 * 25.4;
  EXPECT_FALSE(takeoff::boards_to_rip(job, cuts)) << "wider than the board is thick";
  cuts.back().width_mm = 1.5 * 25.4, cuts.back().length_mm = 12 * 304.8;
  EXPECT_FALSE(takeoff::boards_to_rip(job, cuts)) << "longer than any on offer, its ends trimmed";
}

TEST(Ripping, StripsThatWaitAreToldAndNoBoardIsCountedForThem) {
  // Source: by hand: three strips of 1 in and their cuts of 1/8 fill 3-3/8 of a 2x4's 3-1/2; six take two boards.
  job::Job job = sample::alcove();
  job.walls.stock.name = "2x4", job.walls.stock.kind = job::StockKind::timber;
  job.walls.stock.thickness = job::Length::inches(1.5), job.walls.stock.depth = job::Length::inches(3.5);
  job.cuts.sticks = {job::Length::feet(8)};
  job.cuts.kerf = job.cuts.trim = job::Length::inches(0.125);
  takeoff::CutRow cut;
  cut.stock = "furring 1 x 1-1/2\"", cut.furring = true, cut.count = 3;
  cut.length_mm = 90 * 25.4, cut.width_mm = 1.5 * 25.4, cut.thickness_mm = 25.4;
  std::vector<takeoff::CutRow> cuts{cut, cut};
  EXPECT_EQ(takeoff::boards_to_rip(job, cuts)->count, 2);
  cuts[1].hold = takeoff::Hold{"base", "floor.fall-least", "floor falls enough"};
  EXPECT_EQ(takeoff::boards_to_rip(job, cuts)->count, 1);
  const std::string one =
      "3 strips side by side from 1 of 2x4, 8 ft long, a saw cut of 1/8\" beside each; 3 more wait, on HOLD";
  EXPECT_EQ(takeoff::ripped_together(job, cuts), one);
  std::vector<takeoff::Row> rows(2);
  for (takeoff::Row& row : rows) row.basis = "3 pieces" + std::string{takeoff::rip_from_wider} + ": all 6 strips";
  rows[1].hold = cuts[1].hold;
  takeoff::tell_boards(job, cuts, rows);
  EXPECT_EQ(rows[0].basis, "3 pieces; not sold so thin: rip from wider stock: " + one);
  EXPECT_EQ(rows[1].basis, "3 pieces; not sold so thin: rip from wider stock");
  cuts[0].hold = cuts[1].hold;
  EXPECT_FALSE(takeoff::boards_to_rip(job, cuts));
}

TEST(Ripping, BoardsAreOfAPreferredLengthWhereOneHoldsTheStrips) {
  // Source: by hand: a strip of 46 in comes out of 6, 8 or 12 ft, one of 94 out of 8 with 1/8 off each end, one of 110
  // out of 12 ft alone.
  job::Job job = sample::alcove();
  job.walls.stock.name = "2x4", job.walls.stock.kind = job::StockKind::timber;
  job.walls.stock.thickness = job::Length::inches(1.5), job.walls.stock.depth = job::Length::inches(3.5);
  job.cuts.sticks = {job::Length::feet(6), job::Length::feet(8), job::Length::feet(12)};
  job.cuts.kerf = job.cuts.trim = job::Length::inches(0.125);
  const auto board_ft = [&](double strip_in) {
    takeoff::CutRow cut;
    cut.stock = "furring", cut.furring = true, cut.count = 1;
    cut.length_mm = strip_in * 25.4, cut.width_mm = 1.5 * 25.4, cut.thickness_mm = 0.5 * 25.4;
    return takeoff::boards_to_rip(job, {cut})->length_mm / 304.8;
  };
  EXPECT_NEAR(board_ft(46), 6, 1e-9);
  job.cuts.preferred = {job::Length::feet(8)};
  EXPECT_NEAR(board_ft(46), 8, 1e-9);
  EXPECT_NEAR(board_ft(94), 8, 1e-9);
  EXPECT_NEAR(board_ft(110), 12, 1e-9) << "the preferred one is too short";
}

}  // namespace
}  // namespace fallwright
