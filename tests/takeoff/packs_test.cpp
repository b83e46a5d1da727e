// One product in packs, whatever it holds.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "takeoff/need.hpp"
#include "takeoff/packs.hpp"
#include "takeoff/pool.hpp"

namespace fallwright {
namespace {

using takeoff::Row;
using testing::HasSubstr;

Row nails(const char* item, double count, const char* product) {
  Row row = takeoff::to_row({item, count, "pieces", 0, 100, "boxes", "by hand"});
  row.product = product;
  return row;
}

TEST(SharedPacks, NailsOfOneKindComeOutOfOneBox) {
  // Source: by hand: 16, 8 and 4 nails of one kind are 28 of a box of 100, and 24 of another kind have their own.
  std::vector<Row> rows{nails("wall", 16, "16d"), nails("joists", 24, "8d"), nails("rail", 8, "16d"),
                        nails("floor", 4, "16d"), nails("framing", 176, "")};
  rows[0].price = rows[2].price = 9.5;
  takeoff::share_packs(rows);
  EXPECT_EQ(takeoff::bought(rows[0]), "1 box");
  EXPECT_EQ(rows[0].quantity, 16) << "what it is wanted for itself";
  EXPECT_EQ(rows[0].basis, "by hand; with 8 pieces of 'rail', 4 pieces of 'floor'; 0.28 boxes of 100 pieces");
  EXPECT_THAT(takeoff::sharers_of(rows[0], rows), testing::ElementsAre("rail", "floor"));
  EXPECT_EQ(rows[2].out_of, "wall");
  EXPECT_FALSE(rows[2].for_sale);
  EXPECT_EQ(takeoff::bought(rows[2]), "8 pieces");
  EXPECT_EQ(rows[2].basis, "by hand; out of the boxes of 'wall'");
  EXPECT_NEAR(*takeoff::cost_of(rows).sum, 9.5, 1e-9) << "a box is paid once";
  EXPECT_EQ(rows[1].basis, "by hand; 0.24 boxes of 100 pieces");
  EXPECT_EQ(takeoff::bought(rows[4]), "2 boxes") << "which nail that is nobody said";
}

TEST(SharedPacks, ABoxIsCountedForAllOfThem) {
  // Source: by hand: 60 and 60 nails are one box each by themselves, and 120 of them two.
  std::vector<Row> rows{nails("wall", 60, "16d"), nails("rail", 60, "16d")};
  takeoff::share_packs(rows);
  EXPECT_EQ(takeoff::bought(rows[0]), "2 boxes");
}

TEST(SharedPacks, WhatIsBoughtNowWaitsForNothingThatIsHeld) {
  // Source: by hand: while the wall's nails wait for its studs, the rail's and the floor's are bought without them.
  std::vector<Row> rows{nails("wall", 16, "16d"), nails("rail", 8, "16d"), nails("floor", 4, "16d")};
  rows[0].hold = takeoff::Hold{takeoff::HangsOn::studs, "", "", "find the studs"};
  takeoff::share_packs(rows);
  EXPECT_TRUE(rows[0].for_sale);
  EXPECT_EQ(takeoff::bought(rows[1]), "1 box");
  EXPECT_THAT(rows[1].basis, HasSubstr("; 0.12 boxes of 100 pieces"));
  EXPECT_EQ(rows[2].out_of, "rail");
}

TEST(SharedPacks, OfSeveralRoomsAreCountedTogether) {
  // Source: by hand: five rooms want 28 nails of one kind each, 140 in all, two boxes; by themselves each buys one. A
  // room without a bench at its wall has its rail's nails out of the same.
  std::vector<Row> room{nails("wall", 16, "16d"), nails("rail", 12, "16d")}, other{nails("rail", 12, "16d")};
  takeoff::share_packs(room), takeoff::share_packs(other);
  const auto pooled = takeoff::pool({&room, &room, &other, &room, &room, &room});
  ASSERT_EQ(pooled.size(), 2u);
  EXPECT_EQ(pooled[0].row.item, "wall");
  EXPECT_EQ(pooled[0].row.quantity, 80);
  EXPECT_EQ(takeoff::bought(pooled[0].row), "2 boxes") << "152 nails";
  EXPECT_EQ(pooled[0].apart, 6);
  EXPECT_EQ(pooled[1].row.quantity, 72);
  EXPECT_EQ(pooled[1].row.out_of, "wall");
}

}  // namespace
}  // namespace fallwright
