// Several rooms' buy lists as one.
#include <gtest/gtest.h>

#include "takeoff/need.hpp"
#include "takeoff/pool.hpp"

namespace fallwright {
namespace {

using takeoff::Row;

const takeoff::Pooled& of(const std::vector<takeoff::Pooled>& all, const std::string& item) {
  for (const takeoff::Pooled& p : all)
    if (p.row.item == item) return p;
  throw std::logic_error(item);
}

TEST(Pool, TwoHundredRoomsShareTheirBags) {
  // Source: worked example, invented: 1.35863 ft3 a room with waste, 0.45 ft3 a bag: 3.019 bags a room are 4 each or
  // 604 together.
  const std::vector<Row> room{takeoff::to_row({"mortar, bags", 1.23511, "ft3", 0.1, 0.45, "bags", "bed"})};
  const std::vector<const std::vector<Row>*> rooms(200, &room);
  const auto pooled = takeoff::pool(rooms);
  EXPECT_EQ(of(pooled, "mortar, bags").row.buy, 604);
  EXPECT_EQ(of(pooled, "mortar, bags").apart, 800);
  EXPECT_EQ(of(pooled, "mortar, bags").rooms, 200);
  EXPECT_NEAR(of(pooled, "mortar, bags").row.quantity, 247.022, 1e-9);
}

TEST(Pool, AnotherPackIsAnotherProduct) {
  // Source: by hand.
  const std::vector<Row> a{takeoff::to_row({"tile", 12, "ft2", 0, 10, "boxes", ""})};
  const std::vector<Row> b{takeoff::to_row({"tile", 12, "ft2", 0, 8, "boxes", ""})};
  const auto pooled = takeoff::pool({&a, &b, &a});
  ASSERT_EQ(pooled.size(), 2U);
  EXPECT_EQ(pooled[0].row.buy, 3) << "24 ft2 in boxes of 10";
  EXPECT_EQ(pooled[0].apart, 4);
  EXPECT_EQ(pooled[1].row.buy, 2);
}

TEST(Pool, WhatIsSoldByTheUnitIsAddedAndSticksAreNot) {
  // Source: property; sticks take one cutting plan over all rooms.
  const std::vector<Row> room{takeoff::to_row({"felt", 10, "ft2", 0.1, 0, "", ""}),
                              {"2x4", 30, "ft", 4, "sticks of 8 ft", ""}};
  const auto pooled = takeoff::pool({&room, &room});
  ASSERT_EQ(pooled.size(), 1U);
  EXPECT_NEAR(pooled[0].row.buy, 22, 1e-12);
}

TEST(Pool, NeverBuysMoreThanTheRoomsApart) {
  // Source: property.
  std::vector<std::vector<Row>> rooms;
  for (int i = 1; i <= 40; ++i)
    rooms.push_back({takeoff::to_row({"x", 0.37 * i, "L", 0.05 * (i % 3), 2.5, "pails", ""})});
  std::vector<const std::vector<Row>*> lists;
  for (const auto& room : rooms) lists.push_back(&room);
  const auto pooled = takeoff::pool(lists);
  ASSERT_EQ(pooled.size(), 1U);
  EXPECT_LE(pooled[0].row.buy, pooled[0].apart);
  EXPECT_GT(pooled[0].row.buy, pooled[0].apart - 40);
}

}  // namespace
}  // namespace fallwright
