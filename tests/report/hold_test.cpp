// What waits while a check fails waits in every output, and says for what.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "report/report.hpp"
#include "report/sample_report.hpp"
#include "report/together.hpp"

namespace fallwright {
namespace {

using testing::HasSubstr, testing::Not;

/// Two rows and two pieces of which the first waits.
report::Report waiting() {
  report::Report report = sample::Reported{}.report();
  takeoff::Row bags{"mortar, bags", 1.6, "ft3", 4, "bags", "solid of the bed"},
      boxes{"tile", 17, "ft2", 2, "boxes", "t"};
  bags.hold = takeoff::Hold{takeoff::HangsOn::base, "floor.fall-least", "floor falls enough"};
  report.rows = {bags, boxes};
  report.cuts = {{"A", {"x"}, "2x4", 300, 300, 89, 38, 2, "square"},
                 {"B", {"y"}, "2x4", 200, 200, 89, 38, 1, "square"}};
  report.cuts[0].hold = takeoff::Hold{takeoff::HangsOn::bench, "load.seat-strength", "bench carries a person"};
  return report;
}
const char* const base_waits = "hangs on the base, which is not settled: 'floor falls enough' fails";
const char* const bench_waits = "hangs on the bench, which is not settled: 'bench carries a person' fails";

TEST(Held, RowsAndPiecesSaySoOnTheTerminal) {
  // Source: by hand: what waits has neither amount nor "buy".
  const std::string text = report::takeoff_table(waiting());
  EXPECT_THAT(text, HasSubstr(base_waits));
  EXPECT_THAT(text, Not(HasSubstr("4 bags")));
  EXPECT_THAT(text, HasSubstr("buy 2 boxes"));
  EXPECT_THAT(text, HasSubstr("square; HOLD: " + std::string{bench_waits} + "\n"));
  EXPECT_THAT(report::summary(waiting(), "out"), HasSubstr("HOLD the mortar: it " + std::string{base_waits}));
}

TEST(Held, FilesSaySoInAColumnOfTheirOwn) {
  // Source: by hand; nobody orders by an empty field.
  const std::string rows = report::takeoff_csv(waiting()), cuts = report::cuts_csv(waiting());
  EXPECT_THAT(rows, HasSubstr("supplier,hold\r\n\"mortar, bags\",1.600,ft3,,bags,"));
  EXPECT_THAT(rows, HasSubstr("\"" + std::string{base_waits} + "\"\r\n"));
  EXPECT_THAT(rows, HasSubstr("tile,17.000,ft2,2,boxes,"));
  EXPECT_THAT(cuts, HasSubstr("\"" + std::string{bench_waits} + "\",\r\n"));
  const auto json = nlohmann::json::parse(report::to_json(waiting()));
  EXPECT_FALSE(json["takeoff"][0]["for_sale"].get<bool>());
  EXPECT_EQ(
      json["takeoff"][0]["hold"],
      nlohmann::json::parse(R"({"on": "base", "check": "floor.fall-least", "title": "floor falls enough", "first": "",
                                      "for_sale_then": true})"));
  EXPECT_TRUE(json["takeoff"][1]["for_sale"].get<bool>());
  EXPECT_TRUE(json["takeoff"][1]["hold"].is_null());
  EXPECT_EQ(json["cuts"][0]["hold"]["check"], "load.seat-strength");
  EXPECT_TRUE(json["cuts"][1]["hold"].is_null());
}

TEST(Held, NoNumberStandsUnderBuyOfWhatIsOnlyTold) {
  // Source: docs/buying.md: a row that is told and not bought has no number to buy, in a room's list and in an order's.
  report::Report one = waiting();
  takeoff::Row batches{"mortar, batches", 1.6, "ft3", 4, "batches", "mixed"};
  batches.for_sale = false, batches.by_room = true;
  one.rows.push_back(batches);
  EXPECT_THAT(report::takeoff_csv(one), HasSubstr("\"mortar, batches\",1.600,ft3,,batches,mixed,"));
  EXPECT_THAT(report::packs_csv(report::together({report::Room{&one}})),
              HasSubstr("\"mortar, batches\",1.600,ft3,,batches,,1,"));
}

TEST(Held, SticksSaySoBesideTheirLengths) {
  // Source: by hand: two pieces of 2x4 wait, so the sticks they come from are no order yet, in lines and in the order's
  // table.
  report::Report one = waiting();
  takeoff::Row sticks{"2x4", 2.6, "ft", 1, "stick of 8 ft", ""};
  sticks.blanks = takeoff::Blanks::sticks;
  sticks.hold = one.cuts[0].hold;
  one.rows.push_back(sticks);
  one.plan = takeoff::plan_cuts(one.cuts, one.job.cuts, false);
  const std::string line = "    2x4: 3 pieces from 1 stick, ", text = report::takeoff_table(one);
  const std::size_t at = text.find(line);
  ASSERT_NE(at, std::string::npos);
  EXPECT_THAT(text.substr(at, text.find('\n', at) - at), HasSubstr("HOLD: " + std::string{bench_waits}));
  const std::string csv = report::sticks_csv(report::together({report::Room{&one}}));
  EXPECT_THAT(csv, HasSubstr("to order,hold\r\n"));
  EXPECT_THAT(csv, HasSubstr("\"" + std::string{bench_waits} + "\"\r\n"));
}

TEST(Held, ABenchThatWaitsIsNoKit) {
  // Source: by hand: of three benches 36 in long one waits; two are built from one length.
  std::vector<sample::Reported> samples(3);
  for (sample::Reported& sample : samples)
    sample.facts.members.push_back({sample::part_id("bench-frame/top-plate"),
                                    "bench-frame/top-plate",
                                    "2x6",
                                    false,
                                    false,
                                    914.4,
                                    914.4,
                                    139.7,
                                    38.1,
                                    {0, 0}});
  std::vector<report::Report> reports;
  for (const sample::Reported& sample : samples) reports.push_back(sample.report());
  for (takeoff::CutRow& cut : reports[1].cuts)
    cut.hold = takeoff::Hold{takeoff::HangsOn::bench, "load.seat-strength", "carries"};
  const report::Together all = report::together({&reports[0], &reports[1], &reports[2]});
  ASSERT_EQ(all.kits.size(), 1u);
  EXPECT_EQ(all.kits[0].rooms, (std::vector<std::size_t>{1, 3}));
}

TEST(Held, AnOrderOfSeveralRoomsSaysSoToo) {
  // Source: by hand: of two rooms one waits; its bags are kept apart, and so are its sticks: two pieces of 300 mm and
  // one of 200 make 2.62 ft in either room.
  const report::Report held = waiting();
  report::Report sound = waiting();
  sound.rows[0].hold.reset(), sound.cuts[0].hold.reset();
  for (const bool kept : {false, true}) {
    std::vector<report::Room> rooms{report::Room{&held}, report::Room{&sound}};
    if (kept)
      for (report::Room& room : rooms) room = report::read_room(report::kept_room(room));
    const report::Together all = report::together(rooms);
    const std::string text = report::together_text(all);
    EXPECT_THAT(text, HasSubstr("buy 4 bags"));
    EXPECT_THAT(text, HasSubstr("1 room, " + std::string{base_waits}));
    EXPECT_THAT(text, HasSubstr("HOLD: " + std::string{bench_waits}));
    int free = 0, waits = 0;
    for (const takeoff::Pooled& p : all.packs) {
      if (p.row.item != "2x4" || p.row.buy == 0) continue;
      ++(p.row.hold ? waits : free);
      EXPECT_NEAR(p.row.quantity, 800 / 304.8, 1e-9);
    }
    EXPECT_EQ(free, 1);
    EXPECT_EQ(waits, 1);
  }
}

TEST(Held, FurringThatWaitsIsPlannedApartAndSaysSo) {
  // Source: by hand: of two rooms one strip of 1/2 each goes on and two of 3/4 wait: a board for each kind, whose rows,
  // stocks and sticks say which waits. What goes on is priced, once, as the stock it is.
  takeoff::CutRow strip;
  strip.stock = "furring 1/2 x 1-1/2\"", strip.mark = "A", strip.count = 1, strip.furring = takeoff::Furring::strip;
  strip.length_mm = 90 * 25.4, strip.width_mm = 38.1, strip.thickness_mm = 12.7, strip.ends = "square";
  strip.board = takeoff::Board{"2x4", 38.1, 88.9};
  takeoff::CutRow held = strip;
  held.stock = "furring 3/4 x 1-1/2\"", held.mark = "B", held.count = 2, held.thickness_mm = 19.05;
  held.hold = takeoff::Hold{takeoff::HangsOn::base, "floor.fall-least", "floor falls enough"};
  sample::Reported sample;
  report::Report one = sample.report();
  one.cuts = {strip, held};
  one.plan = takeoff::plan_cuts(one.cuts, one.job.cuts, false);
  one.rows = takeoff::stick_rows(one.plan, false);
  one.job.buy.prices.prices = {{"2x4", "stick of 8 ft", 4, "", 1}};
  one.job.buy.prices.file = "prices.csv";
  const report::Report other = one;
  const report::Together all = report::together({&one, &other});
  const auto json = nlohmann::json::parse(report::to_json(all));
  int waits = 0, free = 0;
  for (const char* list : {"stocks", "sticks", "takeoff"}) {
    ASSERT_EQ(json.at(list).size(), 2u) << list;
    for (const auto& row : json.at(list)) ++(row.at("hold").is_null() ? free : waits);
  }
  EXPECT_EQ(free, 3);
  EXPECT_EQ(waits, 3);
  for (const auto& row : json.at("takeoff")) {
    EXPECT_EQ(row.at("item"), "2x4, for furring");
    EXPECT_EQ(row.at("buy"), 1) << "four of 3/4 with their cuts are 3-1/2 in";
  }
  EXPECT_EQ(json.at("cost").at("sum"), 8) << json.at("takeoff").dump();
  EXPECT_THAT(report::sticks_csv(all), HasSubstr("hangs on the base"));
}

}  // namespace
}  // namespace fallwright
