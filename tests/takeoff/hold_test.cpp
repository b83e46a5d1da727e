// What of the lists waits while a check fails: row by row, and by which.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/part_id.hpp"
#include "support/sample.hpp"
#include "takeoff/hold.hpp"
#include "takeoff/item.hpp"
#include "takeoff/need.hpp"
#include "takeoff/pool.hpp"

namespace fallwright {
namespace {

using takeoff::Row;

std::vector<Row> rows_named(const std::vector<const char*>& names) {
  std::vector<Row> rows;
  for (const char* name : names) rows.push_back({name, 1, "pieces", 1, "pieces", ""});
  return rows;
}

/// "shower base: base" of each that waits.
std::vector<std::string> waiting(const std::vector<const char*>& names, const facts::Holds& holds,
                                 const job::Job& job = sample::alcove()) {
  std::vector<Row> rows = rows_named(names);
  facts::Facts facts;
  facts::Part rail;
  rail.which = sample::part_id("bench-frame/front-rail"), rail.id = "bench-frame/front-rail";
  facts.parts = {rail};
  std::vector<takeoff::CutRow> cuts(2);
  cuts[0].part_ids = {"bench-frame/front-rail"}, cuts[0].stock = "2x4";
  cuts[1].part_ids = {"wall-left/blocking-01"}, cuts[1].stock = "2x6";
  takeoff::hold_back(rows, cuts, job, facts, holds);
  EXPECT_EQ(cuts[0].hold.has_value(), holds.pieces.has_value());
  EXPECT_FALSE(cuts[1].hold);
  std::vector<std::string> all;
  for (const Row& row : rows) {
    if (row.hold) all.push_back(row.item + ": " + row.hold->on);
    EXPECT_EQ(row.to_order(), !row.hold);
  }
  return all;
}

const facts::Held some{"floor.fall-least", "floor falls enough"};

TEST(Hold, NothingWaitsWhereNothingFails) {
  // Source: by hand.
  EXPECT_TRUE(waiting({"shower base", "mortar, bags", "liner, floor", "2x4"}, {}).empty());
}

TEST(Hold, WithTheBaseAllWaitsThatIsMeasuredByItOrItsBed) {
  // Source: by hand, the rows of every kind of base; framing, furring that is cut for none of its studs and what holds
  // a bench's frame know no base.
  const std::vector<const char*> waits{"shower base",
                                       "drain with its grate",
                                       "channel drain with its grate",
                                       "mortar, bed as set",
                                       "mortar, bed as spread",
                                       "mortar, pre-slope",
                                       "mortar, sloped bed",
                                       "mortar, top coat",
                                       "mortar, bags",
                                       "mortar, batches",
                                       "water for the mortar",
                                       "water for the site mix",
                                       "cement",
                                       "hydrated lime",
                                       "sand, damp and loose",
                                       "sand, dry and loose",
                                       "sand, in bags",
                                       "felt under the bed",
                                       "lath over the felt",
                                       "liner, floor",
                                       "liner, turned up",
                                       "reinforcement",
                                       "weep hole protection",
                                       "edge forms",
                                       "threshold, rough",
                                       "waterproofing",
                                       "tile",
                                       "tile, floor",
                                       "bonding mortar",
                                       "sealant",
                                       "flashing over upstands",
                                       "membrane strip, lapped edge",
                                       "fasteners, upstands",
                                       "backing boards, bench front",
                                       "seat block",
                                       "construction adhesive"};
  facts::Holds holds;
  holds.base = some;
  EXPECT_EQ(waiting(waits, holds).size(), waits.size());
  EXPECT_TRUE(waiting({"2x4", "furring 1/2 x 1-1/2\"", "deck sheet 3/4\"", "fasteners, framing", "screws, deck",
                       "fasteners, bench at the wall"},
                      holds)
                  .empty());
  job::Job no_apron = sample::alcove();
  no_apron.bench->apron_thickness = {};
  EXPECT_TRUE(waiting({"seat block", "construction adhesive"}, holds, no_apron).empty())
      << "nothing stands on the base";
}

TEST(Hold, FurringWaitsForWhatItBringsTheStudsOutTo) {
  // Source: by hand: strips before the base are as thick as it stands off its studs; those behind the bench know it
  // alone. Sticks from which one strip waits wait whole.
  facts::Facts facts;
  facts.room.studs = {{"wall-right/stud-01", job::Side::right, facts::Before::base},
                      {"wall-left/stud-01", job::Side::left, facts::Before::bench},
                      {"wall-left/stud-02", job::Side::left, facts::Before::bench}};
  const auto strip = [](const char* stud, const char* stock) {
    takeoff::CutRow cut;
    cut.part_ids = {stud}, cut.stock = stock, cut.furring = true;
    return cut;
  };
  std::vector<takeoff::CutRow> cuts{strip("wall-right/stud-01", "furring 1/2 x 1-1/2\""),
                                    strip("wall-left/stud-01", "furring 1/2 x 1-1/2\""),
                                    strip("wall-left/stud-02", "furring 1/4 x 1-1/2\"")};
  std::vector<Row> rows = rows_named({"furring 1/2 x 1-1/2\"", "furring 1/4 x 1-1/2\""});
  const auto waits = [&](const facts::Holds& holds) {
    takeoff::hold_back(rows, cuts, sample::alcove(), facts, holds);
    std::vector<std::string> all;
    for (const Row& row : rows) all.push_back(row.hold ? row.hold->on : "");
    for (const takeoff::CutRow& cut : cuts) all.push_back(cut.hold ? cut.hold->on : "");
    return all;
  };
  facts::Holds holds;
  holds.base = some;
  EXPECT_THAT(waits(holds), testing::ElementsAre("base", "", "base", "", ""));
  holds.base.reset(), holds.pieces = some;
  EXPECT_THAT(waits(holds), testing::ElementsAre("bench", "bench", "", "bench", "bench"));
  EXPECT_THAT(waits({}), testing::Each(""));
}

TEST(Hold, ALinerWaitsAloneAsOnePiece) {
  // Source: by hand: floor and what turns up are one piece.
  facts::Holds holds;
  holds.liner = facts::Held{"liner.above-threshold", "liner stands above the threshold"};
  EXPECT_THAT(waiting({"liner, floor", "liner, turned up", "cement", "lath over the felt"}, holds),
              testing::ElementsAre("liner, floor: liner", "liner, turned up: liner"));
}

TEST(Hold, ADrainTooNarrowWaitsAlone) {
  // Source: by hand: of either kind; with a base that waits it waits for that.
  facts::Holds holds;
  holds.drain = facts::Held{"drain.outlet", "drain's outlet is wide enough"};
  EXPECT_THAT(waiting({"drain with its grate", "channel drain with its grate", "shower base"}, holds),
              testing::ElementsAre("drain with its grate: drain", "channel drain with its grate: drain"));
  holds.base = some;
  EXPECT_THAT(waiting({"drain with its grate"}, holds), testing::ElementsAre("drain with its grate: base"));
}

TEST(Hold, OfABenchEachWaitsForItsOwn) {
  // Source: by hand: fasteners for the frame, sticks and sheets for the pieces, block and adhesive for the seat.
  const std::vector<const char*> all{"seat block",       "construction adhesive", "2x4",          "2x6",
                                     "deck sheet 3/4\"", "fasteners, framing",    "screws, deck", "mortar, bags"};
  facts::Holds holds;
  holds.frame = some;
  EXPECT_THAT(waiting(all, holds), testing::ElementsAre("screws, deck: bench"));
  holds.pieces = some;
  EXPECT_THAT(waiting(all, holds), testing::ElementsAre("2x4: bench", "deck sheet 3/4\": bench",
                                                        "fasteners, framing: bench", "screws, deck: bench"));
  holds.seat = some;
  EXPECT_EQ(waiting(all, holds).size(), 6u) << "all but blocking's stock and mortar";
}

TEST(Hold, AnOrderKeepsWhatWaitsApart) {
  // Source: by hand: rooms of 1.2 ft3 in bags of 0.45: two that go on need 2.4 / 0.45, 6 bags; the third's wait.
  const std::vector<Row> sound{takeoff::to_row({"mortar, bags", 1.2, "ft3", 0, 0.45, "bags", "bed"})};
  std::vector<Row> waits = sound;
  waits[0].hold = takeoff::Hold{"base", "floor.fall-least", "floor falls enough"};
  const auto pooled = takeoff::pool({&sound, &waits, &sound});
  ASSERT_EQ(pooled.size(), 2u);
  EXPECT_TRUE(pooled[0].row.to_order());
  EXPECT_EQ(pooled[0].row.buy, 6);
  EXPECT_EQ(pooled[0].rooms, 2);
  ASSERT_TRUE(pooled[1].row.hold);
  EXPECT_EQ(pooled[1].row.basis, "1 room") << "and no amount";
  EXPECT_EQ(takeoff::waits_text(*pooled[1].row.hold),
            "hangs on the base, which is not settled: 'floor falls enough' fails");
}

TEST(Hold, CostTellsHowMuchOfItNobodySpendsYet) {
  // Source: by hand: 4 bags of 8.50 are 34.00 and wait; 2 boxes of 10 are bought.
  Row bags{"mortar, bags", 1.6, "ft3", 4, "bags", ""}, boxes{"tile", 17, "ft2", 2, "boxes", ""};
  bags.price = 8.5, boxes.price = 10, bags.hold = takeoff::Hold{"base", "floor.fall-least", "floor falls enough"};
  const takeoff::Cost cost = takeoff::cost_of({bags, boxes});
  EXPECT_EQ(cost.sum, 54);
  EXPECT_EQ(cost.held, 34);
  EXPECT_EQ(takeoff::cost_text(cost, "EUR"), "EUR 54.00, of which EUR 34.00 is on HOLD");
  EXPECT_FALSE(takeoff::cost_of({boxes}).held);
}

}  // namespace
}  // namespace fallwright
