// Several rooms told as one order.
#include <map>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "job/prices.hpp"
#include "report/sample_report.hpp"
#include "report/together.hpp"
#include "support/part_id.hpp"
#include "units/quantity.hpp"

namespace fallwright {
namespace {

using testing::HasSubstr;

std::string told(const std::vector<report::Room>& rooms) {
  return report::together_text(report::together(rooms));
}

TEST(Together, MortarIsPooledOverAllRooms) {
  // Source: by hand: 1.23511 ft3 net, 10 % waste, 0.45 ft3 a bag: 3.019 bags a room; 200 rooms 603.8, so 604 and not
  // 800.
  sample::Reported sample;
  sample.facts.bed.set_mm3 = sample.facts.bed.spread_mm3 = 1.23511 * units::mm3_per_ft3;
  sample.facts.room.worst.clear();
  const report::Report one = sample.report();
  const std::string text = told(std::vector<report::Room>(200, &one));
  EXPECT_THAT(text, HasSubstr("buy 604 bags              200 rooms, 603.83 bags (800 if every room bought its own)"));
  EXPECT_THAT(text, HasSubstr("200 x base 57-1/2\" x 36\", bench left"));
}

TEST(Together, SawListAndKitsAreOfAllRooms) {
  // Source: by hand: 10-3/8 and 7-7/8 in a room; twelve of each and 22 kerfs are 221-3/4 in, of which 8, 10, 12 and 16
  // ft make up 20 ft in two sticks and no less. Places of 36, 36-1/4 and 36-3/8 in go with 35-7/8 and 36-1/4 in.
  std::vector<sample::Reported> rooms(12);
  const double places_in[] = {36, 36.25, 36.375};
  for (std::size_t i = 0; i < 3; ++i) {
    const double mm = places_in[i] * 25.4;
    rooms[i].facts.members.push_back({sample::part_id("bench-frame/top-plate"),
                                      "bench-frame/top-plate",
                                      "2x6",
                                      false,
                                      false,
                                      mm,
                                      mm,
                                      139.7,
                                      38.1,
                                      {0, 0}});
  }
  std::vector<report::Report> reports;
  for (const sample::Reported& room : rooms) reports.push_back(room.report());
  std::vector<report::Room> all;
  for (const report::Report& report : reports) all.emplace_back(&report);
  const std::string text = told(all);
  EXPECT_THAT(text, HasSubstr("2x4: 24 pieces from 2 sticks, 20.0 ft in all"));
  EXPECT_THAT(text, HasSubstr("the least possible"));
  EXPECT_THAT(text, HasSubstr("3 frames in 2 lengths, each 1/8\" to 3/8\" shorter"));
  EXPECT_THAT(text, HasSubstr("the cut lists keep each room's own length"));
  EXPECT_THAT(text, HasSubstr("35-7/8\"     2 rooms: 1, 2"));
  EXPECT_THAT(text, HasSubstr("36-1/4\"     1 room: 3"));
}

TEST(Together, TheWorstRoomOfEachCheckIsNamed) {
  // Source: none: one room falls 0.2 in/ft, the other 0.26; the first has the worst margin, -20 %.
  sample::Reported bad, good;
  good.job.name = "the good one";
  good.facts.facets[2].fall = 0.26 / 12;
  const report::Report a = bad.report(), b = good.report();
  const std::string text = told({&b, &a});
  const std::size_t at = text.find("    floor.fall-least");
  ASSERT_NE(at, std::string::npos);
  EXPECT_THAT(text.substr(text.rfind("    floor.fall-least"), 120), HasSubstr("-20.0 %"));
}

TEST(Together, PiecesKeepTheirRoomsMarks) {
  // Source: by hand: every room cuts A 10-3/8 and B 7-7/8, but room 2 has a longer plate first, so there A becomes B.
  std::vector<sample::Reported> rooms(3);
  rooms[1].facts.members.push_back({sample::part_id("bench-frame/front-rail"),
                                    "bench-frame/rail",
                                    "2x4",
                                    false,
                                    false,
                                    914.4,
                                    914.4,
                                    88.9,
                                    38.1,
                                    {0, 0}});
  const report::Report a = rooms[0].report(), b = rooms[1].report(), c = rooms[2].report();
  const report::Together all = report::together({&a, &b, &c});
  ASSERT_EQ(all.pieces.size(), 3u);
  EXPECT_EQ(all.pieces[0].cut.mark, "S1");
  EXPECT_EQ(report::owners_text(all.pieces[0].owners), "A of 2");
  EXPECT_EQ(report::owners_text(all.pieces[1].owners), "A of 1, 3; B of 2");
  EXPECT_EQ(all.pieces[1].cut.count, 3);
  EXPECT_NEAR(all.pieces[1].cut.length_mm, 10.375 * 25.4, 1e-9);
}

TEST(Together, TakesEveryLengthOnOfferAndTheWidestCut) {
  // Source: by hand: 8 and 10 ft, 10 and 12: three lengths; 1/8 and 3/32 of kerf, 1/4 and 1/2 of trim: the more of
  // each. Lengths are preferred only where each room prefers some.
  using job::Length;
  std::vector<sample::Reported> rooms(2);
  rooms[0].job.cuts = {{Length::feet(8), Length::feet(10)}, Length::inches(0.125)};
  rooms[1].job.cuts = {{Length::feet(10), Length::feet(12)}, Length::inches(0.09375)};
  rooms[0].job.cuts.trim = Length::inches(0.25), rooms[1].job.cuts.trim = Length::inches(0.5);
  rooms[0].job.cuts.preferred = {Length::feet(8)};
  const auto cuts = [&] {
    const report::Report a = rooms[0].report(), b = rooms[1].report();
    return report::together({&a, &b}).cuts;
  };
  EXPECT_EQ(cuts().sticks, (std::vector<Length>{Length::feet(8), Length::feet(10), Length::feet(12)}));
  EXPECT_DOUBLE_EQ(cuts().kerf.in_inches(), 0.125);
  EXPECT_DOUBLE_EQ(cuts().trim.in_inches(), 0.5);
  EXPECT_TRUE(cuts().preferred.empty());
  rooms[0].job.cuts.preferred = {Length::feet(16)};
  EXPECT_EQ(cuts().sticks.back(), Length::feet(16)) << "what one room prefers is on offer to all";
  rooms[0].job.cuts.preferred = {Length::feet(8)};
  rooms[1].job.cuts.preferred = {Length::feet(12)};
  EXPECT_EQ(cuts().preferred, (std::vector<Length>{Length::feet(8), Length::feet(12)}));
}

TEST(Together, BuysNoMoreTimberThanTheRoomsApart) {
  // Source: property; the pieces of a room whose own plan is the least possible, twice: a search over both at once ends
  // before it finds as little.
  sample::Reported room;
  room.job.cuts = {{job::Length::feet(8), job::Length::feet(10), job::Length::feet(12), job::Length::feet(16)},
                   job::Length::inches(0.125)};
  room.job.cuts.trim = job::Length::inches(0.125);
  room.facts.members.clear();
  for (const auto& [count, inches] :
       {std::pair{16, 93.}, {2, 79.}, {8, 36.}, {10, 14.5}, {6, 13.75}, {4, 13.}, {4, 9.5}, {2, 5.75}})
    for (int n = 0; n < count; ++n) {
      const double mm = inches * 25.4;
      room.facts.members.push_back(
          {sample::part_id("bench-frame/stud-01"), "stud", "2x4", false, false, mm, mm, 88.9, 38.1, {0, 0}});
    }
  const report::Report one = room.report();
  const report::Together all = report::together({&one, &one});
  double bought = 0;
  int pieces = 0;
  for (const takeoff::StockPlan& plan : all.plan) {
    bought += plan.bought_mm;
    double sticks = 0;
    for (const takeoff::Stick& stick : plan.sticks) {
      sticks += stick.length_mm, pieces += static_cast<int>(stick.pieces.size());
      for (const takeoff::StickPiece& piece : stick.pieces) EXPECT_EQ(piece.mark[0], 'S') << "the order's marks";
    }
    EXPECT_NEAR(sticks, plan.bought_mm, 1e-6);
  }
  EXPECT_EQ(pieces, 2 * 52);
  EXPECT_LE(bought, all.bought_apart_mm + 1e-6);
}

TEST(Together, ARoomThatCouldNotBeBuiltKeepsItsNumber) {
  // Source: the contract: nothing is lost; an order that lacks a room says so first.
  const sample::Reported sample;
  const report::Report one = sample.report();
  const report::Together all = report::together({&one, {"the attic", "a file is in the way"}, &one});
  EXPECT_EQ(report::owners_text(all.pieces[0].owners), "A of 1, 3");
  const std::string text = report::together_text(all);
  EXPECT_EQ(text.rfind("ROOMS TOGETHER: 2 OF 3, THE REST IS MISSING", 0), 0u);
  EXPECT_THAT(text, HasSubstr("2   the attic                         NOT IN THIS ORDER: a file is in the way"));
  EXPECT_THAT(report::rooms_csv(all), HasSubstr("2,the attic,,,0,,,,a file is in the way,0,"));
  EXPECT_EQ(nlohmann::json::parse(report::to_json(all)).at("rooms")[1].at("failure"), "a file is in the way");
}

TEST(Together, SticksStandInTheBuyList) {
  // Source: by hand: three rooms of 10-3/8 and 7-7/8 in: 54-3/4 in with five kerfs 55-3/8 in, one stick of 8 ft.
  const sample::Reported sample;
  const report::Report one = sample.report();
  EXPECT_THAT(report::packs_csv(report::together({&one, &one, &one})),
              HasSubstr("2x4,4.562,ft,1,stick of 8 ft,3,3,by the saw list"));
}

TEST(Together, WhatRoomsWouldBuyApartIsTheSumOfTheirLists) {
  // Source: conservation: each row's packs bought apart, by item and pack, are those of the rooms' own lists; sticks
  // too, of lengths that the order does without as well. What comes out of another row's packs is not bought.
  std::vector<sample::Reported> rooms(3);
  rooms[1].facts.members.push_back({sample::part_id("bench-frame/front-rail"),
                                    "bench-frame/rail",
                                    "2x4",
                                    false,
                                    false,
                                    2900,
                                    2900,
                                    88.9,
                                    38.1,
                                    {0, 0}});
  rooms[2].facts.bed.set_mm3 *= 1.7;
  std::vector<report::Report> reports;
  for (const sample::Reported& room : rooms) reports.push_back(room.report());
  const report::Together all = report::together({&reports[0], &reports[1], &reports[2]});
  const auto json = nlohmann::json::parse(report::to_json(all));
  std::map<std::pair<std::string, std::string>, double> apart, own;
  for (const auto& row : json["takeoff"])
    if (row["out_of"].is_null()) apart[{row["item"], job::one_of(row["buy_unit"])}] += row["buy_apart"].get<double>();
  for (const report::Report& report : reports)
    for (const takeoff::Row& row : report.rows)
      if (row.out_of.empty()) own[{row.item, job::one_of(row.buy_unit)}] += row.buy;
  for (const auto& [row, packs] : apart) EXPECT_NEAR(packs, own[row], 1e-9) << row.first << " " << row.second;
  for (const auto& [row, packs] : own) EXPECT_NEAR(apart[row], packs, 1e-9) << row.first << " " << row.second;
}

TEST(Together, CostIsOfTheOrderAndOfRoomsApart) {
  // Source: by hand: two rooms of one stick of 8 ft each, 3.50 apiece, share one: 3.50 and not 7.00.
  sample::Reported sample;
  sample.job.buy.prices = {"prices.csv", 0, 0, "", {{"2x4", "stick of 8 ft", 3.5, "", 2}}};
  sample.job.buy.currency = "USD";
  const report::Report one = sample.report();
  const report::Together all = report::together({&one, &one});
  EXPECT_EQ(all.cost.sum, 3.5);
  EXPECT_EQ(all.cost_apart, 7);
  const std::string text = report::together_text(all);
  EXPECT_THAT(text, HasSubstr("cost: USD 3.50; without "));
  EXPECT_THAT(text, HasSubstr("if every room bought its own: USD 7.00"));
  const auto json = nlohmann::json::parse(report::to_json(all));
  EXPECT_EQ(json["cost"]["sum"], 3.5);
  EXPECT_EQ(json["cost_apart"], 7.0);
  EXPECT_EQ(json["rooms"][1]["cost"], 3.5);
}

TEST(Together, ABrokenCheckWithoutAMarginIsListed) {
  // Source: none: a clash has no margin, since none at all is allowed; it still is the tightest there is.
  sample::Reported sample;
  sample.facts.fits.push_back(
      {sample::part_id("base"), sample::part_id("wall-back/stud-01"), facts::Touch::clash, 0, 500, {0, 0, 0}});
  const report::Report one = sample.report();
  EXPECT_THAT(report::together_text(report::together({&one})), HasSubstr("fit.no-clash                  fail "));
}

TEST(Together, NamesAreCutBetweenLetters) {
  // Source: UTF-8: a letter may be two bytes.
  sample::Reported sample;
  sample.job.name = std::string(30, 'a') + "\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4";
  const report::Report one = sample.report();
  EXPECT_THAT(report::together_text(report::together({&one})),
              HasSubstr(std::string(30, 'a') + "\xc3\xa4\xc3\xa4\xc3\xa4 left"));
}

TEST(Together, NumbersInARowAreOneRange) {
  // Source: none.
  EXPECT_EQ(report::numbers_text({1}), "1");
  EXPECT_EQ(report::numbers_text({1, 2}), "1, 2");
  EXPECT_EQ(report::numbers_text({1, 2, 3, 7, 9, 10}), "1-3, 7, 9, 10");
}

TEST(Together, TablesAndJsonHoldTheSameOrder) {
  // Source: property: every piece and stick of the plan stands in each writer's output.
  const sample::Reported sample;
  const report::Report one = sample.report();
  const report::Together all = report::together({&one, &one, &one});
  const auto json = nlohmann::json::parse(report::to_json(all));
  int pieces = 0, sawn = 0;
  for (const auto& cut : json.at("cuts")) pieces += cut.at("count").get<int>();
  for (const auto& stick : json.at("sticks"))
    sawn += stick.at("count").get<int>() * static_cast<int>(stick.at("pieces").size());
  EXPECT_EQ(pieces, 6);
  EXPECT_EQ(sawn, pieces);
  EXPECT_EQ(json.at("rooms").size(), 3u);
  EXPECT_THAT(report::pieces_csv(all),
              HasSubstr("S1,3,2x4,\"10-3/8\"\"\",263.525,88.900,38.100,square,A of 1-3,0.000,,\r\n"));
  EXPECT_THAT(report::sticks_csv(all), HasSubstr("3 x S1 10-3/8"));
  EXPECT_THAT(report::packs_csv(all), HasSubstr("\"mortar, bags\""));
  EXPECT_THAT(report::rooms_csv(all), HasSubstr("\r\n3,sample alcove,left,"));
  EXPECT_THAT(report::tightest_csv(all), HasSubstr("floor.fall-least,fail,-0.200000,1,sample alcove,"));
}

}  // namespace
}  // namespace fallwright
