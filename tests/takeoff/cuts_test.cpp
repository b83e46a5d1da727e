// Cut list and stick count.
#include <algorithm>
#include <functional>
#include <numeric>
#include <random>

#include <gtest/gtest.h>

#include "takeoff/takeoff.hpp"

namespace fallwright {
namespace {

constexpr double in = 25.4;

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

/// Fewest sticks by trying every piece in every stick.
std::size_t fewest(const std::vector<double>& lengths, double stick, double kerf) {
  std::size_t best = lengths.size();
  std::vector<double> left;
  const std::function<void(std::size_t)> place = [&](std::size_t i) {
    if (left.size() >= best) return;
    if (i == lengths.size()) {
      best = left.size();
      return;
    }
    for (std::size_t s = 0; s < left.size(); ++s) {
      if (left[s] < lengths[i]) continue;
      left[s] -= lengths[i] + kerf;
      place(i + 1);
      left[s] += lengths[i] + kerf;
    }
    left.push_back(stick - lengths[i] - kerf);
    place(i + 1);
    left.pop_back();
  };
  place(0);
  return best;
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
  EXPECT_EQ(rows[25].mark, "Z");
  EXPECT_EQ(rows[26].mark, "AA");
  EXPECT_EQ(rows[27].mark, "AB");
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

TEST(Sticks, SmallCasesByHand) {
  // Source: by hand.
  EXPECT_EQ(takeoff::sticks_needed({}, 96, 0.125), 0);
  EXPECT_EQ(takeoff::sticks_needed({96}, 96, 0.125), 1) << "a whole stick needs no cut";
  EXPECT_EQ(takeoff::sticks_needed({48, 48}, 96, 0), 1);
  EXPECT_EQ(takeoff::sticks_needed({48, 48}, 96, 0.125), 2) << "the saw takes an eighth";
  EXPECT_EQ(takeoff::sticks_needed({47.9375, 47.9375}, 96, 0.125), 1);
  EXPECT_EQ(takeoff::sticks_needed({60, 36, 35, 60}, 96, 0.125), 3) << "60 + 36 leaves nothing for the kerf";
}

TEST(Sticks, NeverTooFewAndWithinTheKnownBoundOfTheLeast) {
  // Source: every way tried, for up to 8 pieces; longest-first first-fit is within 11/9 of the least plus 6/9.
  std::mt19937 random{11};
  for (int n = 0; n < 300; ++n) {
    std::vector<double> lengths(1 + random() % 8);
    for (double& length : lengths) length = 10 + double(random() % 87);
    const auto least = fewest(lengths, 96, 0.125),
               found = static_cast<std::size_t>(takeoff::sticks_needed(lengths, 96, 0.125));
    EXPECT_GE(found, least);
    EXPECT_LE(double(found), 11. / 9 * double(least) + 6. / 9 + 1e-9);
  }
}

}  // namespace
}  // namespace fallwright
