// What of the lists waits while a check fails: row by row, and by which.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/part_id.hpp"
#include "support/sample.hpp"
#include "support/strips.hpp"
#include "takeoff/hold.hpp"
#include "takeoff/item.hpp"
#include "takeoff/need.hpp"
#include "takeoff/pool.hpp"

namespace fallwright {
namespace {

using takeoff::Row;

std::vector<Row> rows_named(const std::vector<const char*>& names) {
  std::vector<Row> rows;
  for (const char* name : names) {
    rows.push_back({name, 1, "pieces", 1, "pieces", ""});
    rows.back().blanks = takeoff::blanks_named(rows.back());
  }
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
  std::vector<std::string> all;
  for (const Row& row : rows) {
    if (row.hold) all.push_back(row.item + ": " + name_of(row.hold->on));
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

TEST(Hold, WhatGoesOnTheWallsWaitsForTheirBoard) {
  // Source: common practice, no source: tile, bond and waterproofing are counted by faces that stand, as high as they
  // go; a tile that the floor alone has, and what goes under it, do not wait for a wall.
  const std::vector<const char*> on_walls{"tile", "tile, walls", "bonding mortar", "waterproofing"},
      others{"tile, floor", "sealant", "flashing over upstands", "shower base"};
  facts::Holds holds;
  holds.board = facts::Held{"wall.above-floor", "walls are waterproof high enough above the floor"};
  job::Job job = sample::alcove();
  job.buy.tile.surfaces = {job::Tiled::floor, job::Tiled::walls};
  EXPECT_EQ(waiting(on_walls, holds, job).size(), on_walls.size());
  EXPECT_TRUE(waiting(others, holds, job).empty());
  job.buy.tile.surfaces = {job::Tiled::floor};
  EXPECT_EQ(waiting(on_walls, holds, job), std::vector<std::string>{"waterproofing: wall board"});

  job.buy.tile.surfaces = {job::Tiled::floor, job::Tiled::walls};
  for (const job::Side wall : {job::Side::left, job::Side::right})
    for (const bool unsaid : {false, true}) {
      facts::Facts facts;
      facts::Covered covered;
      covered.surface = job::Tiled::walls, covered.wall = wall;
      facts.finish.covered = {covered};
      facts.room.studs = {{"stud", wall, facts::Before::base, 0, 50, 50, 50}};
      facts.room.studs[0].tile_unsaid = unsaid;
      std::vector<Row> rows = rows_named(on_walls);
      takeoff::hold_back(rows, {}, job, facts, {});
      for (const Row& row : rows) {
        ASSERT_TRUE(row.hold) << row.item;
        EXPECT_THAT(row.hold->first,
                    testing::HasSubstr(unsaid ? "tile.height" : "frame the " + std::string{name_of(wall)}));
      }
      facts.room.studs[0].at_floor_mm = 5, facts.room.studs[0].tile_unsaid = false;  // no wall has room before it
      takeoff::hold_back(rows, {}, job, facts, {});
      EXPECT_THAT(rows[0].hold->first, testing::HasSubstr("plumb or sister the studs of the "));
      facts.room.studs[0].at_upstand_mm = facts.room.studs[0].at_top_mm = 5;
      takeoff::hold_back(rows, {}, job, facts, {});
      EXPECT_FALSE(rows[0].hold);
    }
}

TEST(Hold, OnlyTheStripsWaitWhoseStudsComeOutToWhatWaits) {
  // Source: by hand: strips before the base are as thick as it stands off its studs; those behind the bench know it
  // alone. Four equal ones of 1/2 fill a 2x4 with their cuts, and all shims are of one thickness: of each list what
  // waits stands by itself, and the rest goes on.
  facts::Facts facts;
  const auto stud = [&](const char* id, job::Side wall, facts::Before before, double gap_mm) {
    facts::Part part;
    part.id = id, part.bbox_mm = {0, 0, 0, 38.1, 88.9, 2286};
    facts.parts.push_back(part);
    facts.room.studs.push_back({id, wall, before, 0, gap_mm, gap_mm, gap_mm});
  };
  stud("wall-right/stud-01", job::Side::right, facts::Before::base, 12.7);
  stud("wall-left/stud-01", job::Side::left, facts::Before::bench, 12.7);
  stud("wall-left/stud-02", job::Side::left, facts::Before::bench, 12.7);
  stud("wall-right/stud-02", job::Side::right, facts::Before::base, 3.175);
  stud("wall-left/stud-03", job::Side::left, facts::Before::bench, 3.175);
  facts::Part rail;
  rail.which = sample::part_id("bench-frame/front-rail"), rail.id = "bench-frame/front-rail";
  facts.parts.push_back(rail);
  facts::Member member;
  member.part_id = rail.id, member.stock = "2x4", member.length_mm = 900;
  facts.members = {member};
  const job::Job job = sample::alcove();
  // "2x4, for furring: 1 of 2 strips, base" of each row; its pieces by the plan.
  const auto told = [&](const facts::Holds& holds) {
    const auto cuts =
        takeoff::cut_list(sample::with_strips(facts, false), false, takeoff::Board{"2x4", 38.1, 88.9}, holds);
    auto rows = takeoff::take_off(job, facts, cuts, takeoff::plan_cuts(cuts, job.cuts, false));
    takeoff::hold_back(rows, cuts, job, facts, holds);
    std::vector<std::string> all;
    for (const Row& row : rows)
      if (row.item.starts_with("2x4") || row.item.starts_with("shims"))
        all.push_back(row.item + ", " + row.basis.substr(0, row.basis.find(' ')) + ": " +
                      (row.hold ? name_of(row.hold->on) : "goes on"));
    for (const takeoff::CutRow& cut : cuts)
      if (cut.hold) all.push_back(std::to_string(cut.count) + " of " + cut.stock);
    return all;
  };
  EXPECT_THAT(told({}), testing::ElementsAre("2x4, 1: goes on", "2x4, for furring, 3: goes on",
                                             "shims 1/8 x 1-1/2\", before: goes on"));
  facts::Holds holds;
  holds.base = some;
  EXPECT_THAT(told(holds),
              testing::ElementsAre("2x4, 1: goes on", "2x4, for furring, 2: goes on", "2x4, for furring, one: base",
                                   "shims 1/8 x 1-1/2\", before: goes on", "shims 1/8 x 1-1/2\", before: base",
                                   "1 of furring 1/2 x 1-1/2\"", "1 of shims 1/8 x 1-1/2\""));
  holds.base.reset(), holds.pieces = some;
  EXPECT_THAT(told(holds),
              testing::ElementsAre("2x4, 1: bench", "2x4, for furring, one: goes on", "2x4, for furring, 2: bench",
                                   "shims 1/8 x 1-1/2\", before: goes on", "shims 1/8 x 1-1/2\", before: bench",
                                   "1 of 2x4", "2 of furring 1/2 x 1-1/2\"", "1 of shims 1/8 x 1-1/2\""));
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

TEST(Hold, WhatHoldsTheBenchToTheFloorWaitsWithIt) {
  // Source: by hand; a steel bench's screws wait, and the nails of timber walls do not.
  facts::Holds holds;
  holds.frame = holds.pieces = some;
  EXPECT_THAT(waiting({"fasteners, bench to the floor", "fasteners, framing"}, holds),
              testing::ElementsAre("fasteners, bench to the floor: bench", "fasteners, framing: bench"));
  job::Job steel = sample::alcove();
  steel.bench->frame.kind = job::FrameKind::steel;
  EXPECT_THAT(waiting({"fasteners, bench frame", "fasteners, framing"}, holds, steel),
              testing::ElementsAre("fasteners, bench frame: bench"));
}

TEST(Hold, APieceOfTheBenchThatWaitsIsNoneOfTheWalls) {
  // Source: by hand: a sole plate of the wall and one of the bench, both 36 in: one row of two, and two rows of one
  // while the bench waits, of which the wall's is cut.
  facts::Facts facts;
  for (const char* id : {"wall-left/sole-plate", "bench-frame/sole-plate"}) {
    facts::Member member;
    member.part_id = id, member.which = sample::part_id(id), member.stock = "2x4";
    member.length_mm = member.short_mm = 914.4, member.width_mm = 88.9, member.thickness_mm = 38.1;
    facts.members.push_back(member);
    facts::Part part;
    part.id = id, part.which = member.which;
    facts.parts.push_back(part);
  }
  EXPECT_EQ(takeoff::cut_list(facts, false).size(), 1u);
  facts::Holds holds;
  holds.pieces = some;
  const auto cuts = takeoff::cut_list(facts, false, {}, holds);
  ASSERT_EQ(cuts.size(), 2u);
  std::vector<Row> rows;
  takeoff::hold_back(rows, cuts, sample::alcove(), facts, holds);
  for (const takeoff::CutRow& cut : cuts)
    EXPECT_EQ(cut.hold.has_value(), cut.part_ids == std::vector<std::string>{"bench-frame/sole-plate"});
}

/// A stud of that wall, before the base; of a wall that stands and that nobody read if it is assumed.
facts::StudGap stud_of(survey::Side wall, const char* id, bool assumed) {
  return {id, wall, facts::Before::base, 406.4, 5, 5, 5, assumed};
}

TEST(Hold, WhatIsCutToStudsThatNobodyReadWaitsAndItsTwinAtStudsThatWereReadDoesNot) {
  // Source: by hand: of two blocks of one length, one to a wall, that of the left wall hangs on studs drawn by
  // assumption; a strip of furring 5 mm thick before a stud likewise. A plate of the bench hangs on no stud of a wall.
  facts::Facts facts;
  facts.room.studs = {stud_of(survey::Side::left, "wall-left/stud-01", true),
                      stud_of(survey::Side::back, "wall-back/stud-01", false)};
  for (const char* id : {"wall-left/blocking-1-01", "wall-back/blocking-1-01", "bench-frame/top-plate"}) {
    facts::Member member;
    member.part_id = id, member.stock = "2x4", member.length_mm = member.short_mm = 368.3;
    member.which = sample::part_id(id);
    member.width_mm = 89, member.thickness_mm = 38;
    facts.members.push_back(member);
  }
  facts.members.back().length_mm = facts.members.back().short_mm = 900;
  for (const facts::StudGap& gap : facts.room.studs) {
    facts::Part stud;
    stud.id = gap.part_id, stud.bbox_mm = {0, 0, 0, 38, 89, 2300};
    facts.parts.push_back(stud);
  }
  facts::Holds holds;
  holds.studs = facts::Held{"", "", "find the studs"};
  const std::vector<takeoff::CutRow> cuts = takeoff::cut_list(sample::with_strips(facts, true), true, {}, holds);
  std::vector<Row> rows =
      rows_named({"2x4", "fasteners, framing", "fasteners, bench at the wall", "fasteners, upstands"});
  job::Job job = sample::alcove();  // its bench stands at the left
  takeoff::hold_back(rows, cuts, job, facts, holds);
  for (const takeoff::CutRow& cut : cuts)
    for (const std::string& id : cut.part_ids)
      EXPECT_EQ(cut.hold.has_value(), id.starts_with("wall-left")) << id << " " << cut.stock;
  EXPECT_EQ(std::count_if(cuts.begin(), cuts.end(), [](const auto& cut) { return cut.hold.has_value(); }), 2);
  std::vector<std::string> waits;
  for (const Row& row : rows)
    if (row.hold) waits.push_back(row.item + ": " + takeoff::waits_text(*row.hold));
  EXPECT_THAT(waits, testing::ElementsAre("2x4: first find the studs", "fasteners, framing: first find the studs",
                                          "fasteners, bench at the wall: first find the studs"));
  holds.loose = {survey::Side::left};
  takeoff::hold_back(rows, cuts, job, facts, holds);
  EXPECT_TRUE(rows.back().hold) << "no timber is known that would take them";
  job.bench->place = job::Side::back;
  takeoff::hold_back(rows, cuts, job, facts, holds);
  EXPECT_FALSE(rows[2].hold) << "the studs behind it were read";
}

TEST(Hold, FastenersThatNobodyNamedWait) {
  // Source: by hand: a box of what is not said is no order.
  facts::Holds holds;
  holds.cleat = facts::Held{"", "", "say what holds the cleat"};
  const std::vector<const char*> all{"fasteners, bench at the wall", "fasteners, bench rail", "fasteners, bench joists",
                                     "screws, deck"};
  EXPECT_THAT(waiting(all, holds), testing::ElementsAre("fasteners, bench at the wall: fasteners"));
  holds.rail = facts::Held{"", "", "say what holds the rail"};
  holds.joists = facts::Held{"", "", "say what holds the joists"};
  EXPECT_EQ(waiting(all, holds).size(), 3u);
}

TEST(Hold, AnOrderKeepsWhatWaitsApart) {
  // Source: by hand: rooms of 1.2 ft3 in bags of 0.45: two that go on need 2.4 / 0.45, 6 bags; the third's wait.
  const std::vector<Row> sound{takeoff::to_row({"mortar, bags", 1.2, "ft3", 0, 0.45, "bags", "bed"})};
  std::vector<Row> waits = sound;
  waits[0].hold = takeoff::Hold{takeoff::HangsOn::base, "floor.fall-least", "floor falls enough"};
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
  bags.price = 8.5, boxes.price = 10,
  bags.hold = takeoff::Hold{takeoff::HangsOn::base, "floor.fall-least", "floor falls enough"};
  const takeoff::Cost cost = takeoff::cost_of({bags, boxes});
  EXPECT_EQ(cost.sum, 54);
  EXPECT_EQ(cost.held, 34);
  EXPECT_EQ(takeoff::cost_text(cost, "EUR"), "EUR 54.00, of which EUR 34.00 is on HOLD");
  EXPECT_FALSE(takeoff::cost_of({boxes}).held);
}

}  // namespace
}  // namespace fallwright
