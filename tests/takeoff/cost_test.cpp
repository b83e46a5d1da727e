// What a buy list costs by the user's own prices.
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job/prices.hpp"
#include "support/sample.hpp"
#include "takeoff/need.hpp"
#include "takeoff/pool.hpp"

namespace fallwright {
namespace {

using takeoff::Row;
using testing::ElementsAre;
using testing::HasSubstr;

std::vector<Row> list() {
  return {takeoff::to_row({"cement", 100, "lb", 0.1, 94, "bags", ""}),
          takeoff::to_row({"felt", 10, "ft2", 0, 0, "", ""}),
          {"2x4", 30, "ft", 4, "sticks of 8 ft", ""}};
}

TEST(Cost, IsCountTimesPriceAndSummed) {
  // Source: by hand: 110 lb are two bags at 12.505 (25.01), four sticks at 3.10; felt has no price.
  auto rows = list();
  takeoff::set_prices(rows, {{"cement", "bag", 12.505, "yard"}, {"2x4", "stick of 8 ft", 3.10, ""}});
  EXPECT_EQ(rows[0].cost(), 25.01);
  EXPECT_EQ(rows[0].supplier, "yard");
  const takeoff::Cost cost = takeoff::cost_of(rows);
  EXPECT_EQ(cost.sum, 37.41);
  EXPECT_THAT(cost.missing, ElementsAre("'felt' by the ft2"));
  EXPECT_EQ(takeoff::cost_text(cost, "USD"), "USD 37.41; without 1 that has no price: 'felt' by the ft2");
}

TEST(Cost, ATableThatNamesNoPanelHasPlywood) {
  // Source: by hand: the sheet of OSB has no price.
  std::vector<Row> rows{{"deck sheet 3/4\", plywood", 4, "ft2", 1, "sheets 4 x 8 ft", ""},
                        {"deck sheet 3/4\", OSB", 4, "ft2", 1, "sheets 4 x 8 ft", ""}};
  takeoff::set_prices(rows, {{"deck sheet 3/4\"", "sheet 4 x 8 ft", 52, "yard"}});
  EXPECT_EQ(rows[0].cost(), 52);
  EXPECT_FALSE(rows[1].cost());
}

TEST(Cost, APackOfAnotherSizeHasNoPrice) {
  // Source: by hand: the price of a bag of 47 lb is none for one of 94; a bag without a size is any bag, and the one
  // with its size comes first.
  auto rows = list();
  takeoff::set_prices(rows, {{"cement", "bag of 47 lb", 7, ""}});
  EXPECT_FALSE(rows[0].cost());
  EXPECT_THAT(takeoff::cost_of(rows).missing,
              ElementsAre("'cement' by the bag of 94 lb (the table has it by the bag of 47 lb)", "'felt' by the ft2",
                          "'2x4' by the stick of 8 ft"));
  takeoff::set_prices(rows, {{"cement", "bag", 9, ""}, {"cement", "bag of 94 lb", 13, ""}});
  EXPECT_EQ(rows[0].price, 13);
  rows = list();
  rows[0].pack = 0.45;
  takeoff::set_prices(rows, {{"cement", "bag of 0.45 lb", 5, ""}, {"cement", "bag of 0.4 lb", 4, ""}});
  EXPECT_EQ(rows[0].price, 5) << "a size with its decimals";
}

TEST(Cost, NothingIsInvented) {
  // Source: property; without a table there is no cost and no sum, whatever is bought.
  auto rows = list();
  takeoff::set_prices(rows, {});
  EXPECT_FALSE(takeoff::cost_of(rows).sum);
  EXPECT_EQ(takeoff::cost_of(rows).missing.size(), 3u);
  EXPECT_THAT(takeoff::cost_text(takeoff::cost_of(rows), ""), HasSubstr("not known; without 3 that have no price"));
}

TEST(Cost, WhatIsOnlyToldCostsNothing) {
  // Source: by hand: a count of batches is no order, and water comes from the tap.
  job::Job job = sample::alcove();
  job.bed.bag_yield_m3 = 0.45 * 0.028316846592;
  job.buy.leave_out = {"felt", "adhesive", "sealant", "flashing", "tile", "bond", "membrane", "fasteners", "drain"};
  job.buy.prices.prices = {{"mortar, bags", "bag", 8, ""},
                           {"mortar, batches", "batch", 1000, ""},
                           {"water for the mortar", "gal", 1000, ""}};
  facts::Facts facts;
  facts.bed.set_mm3 = facts.bed.spread_mm3 = 1.45 * 0.028316846592 * 1e9;
  const auto rows = takeoff::take_off(job, facts, {}, {});
  const takeoff::Cost cost = takeoff::cost_of(rows);
  EXPECT_EQ(cost.sum, 32) << "four bags";
  EXPECT_TRUE(cost.missing.empty());
}

TEST(Cost, ATablesNameThatNoListHasIsToldAndWhatAnotherJobBuysIsNot) {
  // Source: by hand: strips of furring are bought as the boards they are ripped from, so a line that prices them prices
  // nothing; a liner, a channel and a joist are on other jobs' lists.
  job::Job job = sample::alcove();
  job.buy.prices.prices = {{"liner, floor", "ft2", 2, "", 2},
                           {"furring 5/16\"", "stick of 8 ft", 3, "", 3},
                           {"channel drain with its grate", "piece", 90, "", 4},
                           {"2x12", "stick of 8 ft", 9, "", 5},
                           {"tile, floor", "ft2", 7, "", 6},
                           {"mortar bags", "bag", 8, "", 7}};
  const std::vector<Row> rows{takeoff::to_row({"tile", 12, "ft2", 0, 0, "", ""})};
  EXPECT_EQ(takeoff::cost_text(rows, job.buy).substr(0, 9), "not known");
  EXPECT_THAT(
      takeoff::cost_text(rows, job.buy),
      testing::EndsWith("; the table prices what no list has: 'furring 5/16\"' (line 3), 'mortar bags' (line 7)"));
}

TEST(Cost, APackIsToldOnceHoweverManyRoomsReadTheTable) {
  // Source: by hand: two rooms of one order bring the same table along.
  std::vector<Row> rows{takeoff::to_row({"tile", 12, "ft2", 0, 8, "boxes", ""})};
  const job::Price ten{"tile", "box of 10 ft2", 31, ""}, twelve{"tile", "box of 12 ft2", 36, ""};
  takeoff::set_prices(rows, {ten, twelve, ten});
  EXPECT_THAT(takeoff::cost_of(rows).missing,
              ElementsAre("'tile' by the box of 8 ft2 (the table has it by the box of 10 ft2, box of 12 ft2)"));
}

TEST(Cost, OfAnOrderIsNoMoreThanOfItsRooms) {
  // Source: property; one price for one thing, and packs shared.
  std::vector<std::vector<Row>> rooms;
  for (int i = 1; i <= 30; ++i) {
    rooms.push_back({takeoff::to_row({"x", 0.37 * i, "L", 0.05 * (i % 3), 2.5, "pails", "", 0.01 * i})});
    takeoff::set_prices(rooms.back(), {{"x", "pail", 3.33, ""}});
  }
  std::vector<const std::vector<Row>*> lists;
  double apart = 0;
  for (const auto& room : rooms) lists.push_back(&room), apart += *takeoff::cost_of(room).sum;
  const auto pooled = takeoff::pool(lists);
  ASSERT_EQ(pooled.size(), 1u);
  EXPECT_LE(*pooled[0].row.cost(), apart);
  EXPECT_NEAR(pooled[0].apart * 3.33, apart, 1e-6);
}

TEST(Pool, BatchesAreMixedInTheirRoom) {
  // Source: by hand: 1.2 batches in each of three rooms are two in each: what is left stiffens on the way to the next.
  std::vector<Row> room{takeoff::to_row({"mortar, batches", 0.54, "ft3", 0, 0.45, "batches", ""})};
  room[0].by_room = true;
  const auto pooled = takeoff::pool({&room, &room, &room});
  EXPECT_EQ(pooled[0].row.buy, 6);
  EXPECT_EQ(pooled[0].apart, 6);
}

}  // namespace
}  // namespace fallwright
