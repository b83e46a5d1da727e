// Every row of the buy list by hand, in both units: what it needs, what is bought, and what that rests on.
#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/imperial.hpp"
#include "support/part_id.hpp"
#include "support/sample.hpp"
#include "support/strips.hpp"
#include "takeoff/cuts.hpp"
#include "takeoff/cutting.hpp"
#include "takeoff/finish.hpp"
#include "takeoff/item.hpp"
#include "takeoff/kits.hpp"
#include "takeoff/need.hpp"
#include "takeoff/pool.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright {
namespace {

using testing::HasSubstr;

facts::Member stick(const char* id, double length_in) {
  const bool named = std::string{id}.find('/') != std::string::npos;
  return {named ? sample::part_id(id) : facts::PartId{},
          id,
          "2x4",
          false,
          false,
          length_in * in,
          length_in * in,
          3.5 * in,
          1.5 * in,
          {0, 0}};
}

/// Areas and lengths that nothing else in the room has, so that each row shows which it took.
facts::Facts finished_room() {
  facts::Facts f;
  f.bed.set_mm3 = 4 * ft3, f.bed.spread_mm3 = 4.4 * ft3, f.bed.gauge_mm = 1.25 * in;
  f.finish.top_mm = 73.5 * in;
  f.finish.covered = {{job::Tiled::floor, {}, 12.5 * ft2},
                      {job::Tiled::threshold, {}, 1.5 * ft2},
                      {job::Tiled::seat, {}, 3.5 * ft2},
                      {job::Tiled::apron, {}, 3 * ft2},
                      {job::Tiled::walls, job::Side::back, 30 * ft2},
                      {job::Tiled::walls, job::Side::right, 15 * ft2}};
  f.finish.joints = {{facts::Joint::floor_to_walls, 96 * in},
                     {facts::Joint::wall_corners, 144 * in},
                     {facts::Joint::floor_to_drain, 16 * in}};
  f.finish.flashings = {{facts::Role::base, job::Side::back, 60 * in},
                        {facts::Role::base, job::Side::right, 36 * in},
                        {facts::Role::seat_block, job::Side::back, 15 * in}};
  f.holds.resize(2);  // along blocking alone
  f.holds[0].length_mm = 60 * in, f.holds[1].length_mm = 36 * in;
  f.finish.flashing_corners = 2;
  f.finish.seat_bond_mm2 = 504 * in2;
  f.finish.seat_bonds = {{"deck", 360 * in2}, {"front rail", 144 * in2}};
  f.finish.bed_bottom_mm2 = 14 * ft2;
  f.members = {stick("bench-frame/joist-01", 13),
               stick("bench-frame/joist-02", 13),
               stick("bench-frame/stud-01", 9.5),
               {sample::part_id("bench-frame/deck"),
                "bench-frame/deck",
                "deck sheet",
                false,
                true,
                36 * in,
                36 * in,
                14.5 * in,
                0.75 * in,
                {0, 0}}};
  facts::Part base, seat, bed;
  base.id = "base", base.which = sample::part_id(base.id), base.mass_kg = 90;
  seat.id = "seat-block", seat.which = sample::part_id(seat.id), seat.mass_kg = 40;
  bed.id = "bed", bed.which = sample::part_id(bed.id), bed.mass_kg = 85;
  f.parts = {base, seat, bed};
  return f;
}

job::Job buyer() {
  job::Job j = sample::alcove();
  j.bed.bag_yield_m3 = 0.5 * ft3 * 1e-9;
  j.buy.batch_mm3 = 0.45 * ft3;
  j.buy.felt = {20 * ft2, 0.1};
  j.buy.flashing.length = job::Length::feet(10);
  j.buy.membrane.roll_mm2 = 50 * ft2;
  j.buy.tile.box_mm2 = 10 * ft2;
  j.buy.bond.bag_yield_mm3 = 0.5 * ft3;
  return j;
}

struct Wanted {
  const char* item;
  double quantity;
  const char* unit;
  double buy;
  const char* buy_unit;
  double waste, pack;
  const char* says;
};

void expect_rows(const std::vector<takeoff::Row>& rows, const std::vector<Wanted>& wanted) {
  ASSERT_EQ(rows.size(), wanted.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const takeoff::Row& r = rows[i];
    const Wanted& w = wanted[i];
    EXPECT_EQ(r.item, w.item);
    EXPECT_NEAR(r.quantity, w.quantity, 1e-4 * w.quantity) << w.item;
    EXPECT_EQ(r.unit, w.unit) << w.item;
    EXPECT_NEAR(r.buy, w.buy, 1e-4 * w.buy) << w.item;
    EXPECT_EQ(r.buy_unit, w.buy_unit) << w.item;
    EXPECT_NEAR(r.waste, w.waste, 1e-9) << w.item;
    EXPECT_NEAR(r.pack, w.pack, 1e-4 * w.pack) << w.item;
    EXPECT_THAT(r.basis, HasSubstr(w.says)) << w.item;
  }
}

TEST(BuyList, EveryRowInFeetAndPounds) {
  // Source: by hand. Adhesive: 504 in2 in lines 4 in apart are 126 in of 3/8 in bead, 0.11045 in2. Flashing: 111 in and
  // two corners lapped 2 in both ways. Waterproofing: 65.5 ft2 and 20 ft of corners lapped 2 in. Bond: notches 1/4 x
  // 3/8 with teeth of 1/4 leave 3/16 in over 65.5 ft2. Sealant: 256 in of 1/4 x 1/4. Three in each end of two joists,
  // two of one stick. Screws: 101 in at 6 in, 26 in at 12 in. Upstands: 60 and 36 in at 16 in, one at each end; a
  // seat's upstand takes none. Sheet: six decks lie on one.
  const double cartridge = 10.1 * 231 / 128;
  const job::Job job = buyer();
  expect_rows(
      takeoff::take_off(job, finished_room(), {}, {}),
      {{"mortar, bed as set", 4, "ft3", 4.4, "ft3", 0.1, 0, "solid of the bed, 187 lb wet; with 10 % waste"},
       {"mortar, bed as spread", 4.4, "ft3", 4.4, "ft3", 0, 0, "a level line 1-1/4\" above the datum"},
       {"mortar, bags", 4.4, "ft3", 10, "bags", 0.1, 0.5,
        "solid of the bed as it is spread; yield as printed on the bag"},
       {"mortar, batches", 4.4, "ft3", 10, "batches", 0, 0.45, "9.78 batches of 0.45 ft3"},
       {"deck sheet 3/4\", plywood", 3.625, "ft2", 1, "sheets 4 x 8 ft", 32 / 6. / 3.625 - 1, 32,
        "deck of the bench frame"},
       {"felt under the bed", 14, "ft2", 1, "rolls", 0.1, 20, "its underside"},
       {"construction adhesive", 13.9163, "in3", 1, "cartridges", 0.1, cartridge,
        "3.50 ft2 (deck 2.50, front rail 1.00), 10.5 ft of bead"},
       {"flashing over upstands", 119 / 12., "ft", 1, "pieces", 0, 10, "base and seat block, their top edges, with 2"},
       {"waterproofing", 65.5 + 10 / 3., "ft2", 2, "packs", 0.1, 50,
        "walls to 73-1/2\" above the datum, floor, threshold, seat, apron; 3.3 ft2 of it laps"},
       {"tile", 65.5, "ft2", 8, "boxes", 0.1, 10,
        "true area, floor 12.5, threshold 1.5, seat 3.5, apron 3.0, back wall 30.0, right wall 15.0 ft2, walls from "
        "the"},
       {"bonding mortar", 65.5 * 0.1875 / 12, "ft3", 3, "bags", 0.1, 0.5, "65.5 ft2 of tile at a mean of 0.18"},
       {"sealant", 16, "in3", 2, "cartridges", 0.15, cartridge,
        "21.3 ft of joint: floor to walls 8.0, wall corners 12.0, floor to drain 1.3"},
       {"fasteners, framing", 4, "pieces", 1, "boxes", 0, 100, "2 in each end of 1 stick;"},
       {"fasteners, bench joists", 12, "pieces", 1, "boxes", 0, 100, "3 into each of 4 joists' ends"},
       {"screws, deck", 34 + 3, "pieces", 1, "boxes", 0, 100,
        "#10, 3\" long: 3\" apart along edges, 12\" along joists"},
       {"fasteners, upstands", 5 + 4, "pieces", 1, "boxes", 0, 100, "at most 16\" apart"},
       {"shower base", 90 / lb, "lb", 1, "pieces", 0, 0, "solid of the base at"},
       {"seat block", 40 / lb, "lb", 1, "pieces", 0, 0, "solid of the seat block at"},
       {"drain with its grate", 1, "pieces", 1, "pieces", 0, 0, "its body at most"}});
}

TEST(BuyList, EveryRowInMetresAndLitres) {
  // Source: by hand: the same areas and volumes; 1 ft2 is 0.09290304 m2, 1 ft3 28.316846592 L, 1 in3 16.387064 mL. A
  // metric sheet is 1220 x 2440 mm and takes six of these decks as well.
  job::Job job = buyer();
  job.unit = job::UnitSystem::metric;
  job.buy.mix = {};
  const double m2 = 0.09290304, litre = 28.316846592, ml = 16.387064;
  const double deck = 36 * 14.5 * in2 * 1e-6, sheet = 1.22 * 2.44;
  expect_rows(
      takeoff::take_off(job, finished_room(), {}, {}),
      {{"mortar, bed as set", 4 * litre, "L", 4.4 * litre, "L", 0.1, 0, "solid of the bed"},
       {"mortar, bed as spread", 4.4 * litre, "L", 4.4 * litre, "L", 0, 0, "a level line 32 mm above the datum"},
       {"mortar, bags", 4.4 * litre, "L", 10, "bags", 0.1, 0.5 * litre, "bags of 14.2 L"},
       {"mortar, batches", 4.4 * litre, "L", 10, "batches", 0, 0.45 * litre, "at a time"},
       {"deck sheet 19 mm, plywood", deck, "m2", 1, "sheets 1220 x 2440", sheet / 6 / deck - 1, sheet, "deck"},
       {"felt under the bed", 14 * m2, "m2", 1, "rolls", 0.1, 20 * m2, "its underside"},
       {"construction adhesive", 13.9163 * ml, "mL", 1, "cartridges", 0.1, 10.1 * 231 / 128 * ml,
        "0.33 m2 (deck 0.23, front rail 0.09), 3.2 m of bead"},
       {"flashing over upstands", 119 * in / 1000, "m", 1, "pieces", 0, 3.048, "corners lapped both ways"},
       {"waterproofing", (65.5 + 10 / 3.) * m2, "m2", 2, "packs", 0.1, 50 * m2, "walls to 1867 mm"},
       {"tile", 65.5 * m2, "m2", 8, "boxes", 0.1, 10 * m2,
        "floor 1.2, threshold 0.1, seat 0.3, apron 0.3, back wall 2.8"},
       {"bonding mortar", 65.5 * 0.1875 / 12 * litre, "L", 3, "bags", 0.1, 0.5 * litre, "at a mean of 4.8 mm"},
       {"sealant", 16 * ml, "mL", 2, "cartridges", 0.15, 10.1 * 231 / 128 * ml, "6.5 m of joint"},
       {"fasteners, framing", 4, "pieces", 1, "boxes", 0, 100, "2 in each end of 1 stick;"},
       {"fasteners, bench joists", 12, "pieces", 1, "boxes", 0, 100, "3 into each of 4 joists' ends"},
       {"screws, deck", 37, "pieces", 1, "boxes", 0, 100, "76 mm apart along edges, 305 mm along joists"},
       {"fasteners, upstands", 9, "pieces", 1, "boxes", 0, 100, "at most 406 mm apart"},
       {"shower base", 90, "kg", 1, "pieces", 0, 0, "solid of the base at"},
       {"seat block", 40, "kg", 1, "pieces", 0, 0, "solid of the seat block at"},
       {"drain with its grate", 1, "pieces", 1, "pieces", 0, 0, "not if it comes with the base"}});
}

const takeoff::Row& row(const std::vector<takeoff::Row>& rows, const std::string& item) {
  for (const takeoff::Row& r : rows)
    if (r.item == item) return r;
  throw std::logic_error(item);
}

TEST(BuyList, SiteMixWithLimeTakesItsPartsOfEach) {
  // Source: closed form by absolute volumes: 94 lb of cement, 20 of lime and 320 of sand in 4 ft3 with 39.06 lb of
  // water and 15 % of air make 3.738 ft3 of mortar, so 4.4 ft3 take 1.177 of each: 110.6 lb from bags of 47 lb, 23.5
  // from bags of 20, 4.708 ft3 of sand, and 10 % waste.
  job::Job job = buyer();
  job.buy.mix = {{1, 0.5, 4}, "", 47 * lb, 20 * lb, job::damp_sand_kg_m3, {}};
  const double water = 1000 * 0.028316846592 / lb,
               made = (94 / 3.15 + 20 / 2.3 + 320 / 2.65 + 0.09 * 434) / water / 0.85, share = 4.4 / made;
  auto rows = takeoff::take_off(job, finished_room(), {}, {});
  EXPECT_NEAR(row(rows, "cement").quantity, 94 * share, 1e-6);
  EXPECT_EQ(row(rows, "cement").unit, "lb");
  EXPECT_EQ(takeoff::bought(row(rows, "cement")), "3 bags");
  EXPECT_NEAR(row(rows, "hydrated lime").quantity, 20 * share, 1e-6);
  EXPECT_EQ(takeoff::bought(row(rows, "hydrated lime")), "2 bags");
  EXPECT_NEAR(row(rows, "sand, damp and loose").quantity, 4 * share, 1e-6);
  EXPECT_NEAR(row(rows, "sand, damp and loose").buy, 4.4 * share, 1e-6);
  EXPECT_THAT(row(rows, "sand, damp and loose").basis, HasSubstr("1 : 0.50 : 4 by loose volume"));
  EXPECT_THAT(row(rows, "sand, damp and loose").basis, HasSubstr("about 377 lb dry"));
  job.buy.mix.sand_bag_kg = 50 * lb;
  rows = takeoff::take_off(job, finished_room(), {}, {});
  EXPECT_NEAR(row(rows, "sand, in bags").quantity, 320 * share * 1.04, 1e-6);
  EXPECT_EQ(takeoff::bought(row(rows, "sand, in bags")), "9 bags");
  job.unit = job::UnitSystem::metric;
  job.buy.mix.sand_bag_kg.reset();
  rows = takeoff::take_off(job, finished_room(), {}, {});
  EXPECT_NEAR(row(rows, "cement").quantity, 94 * share * lb, 1e-6);
  EXPECT_NEAR(row(rows, "hydrated lime").quantity, 20 * share * lb, 1e-6);
  EXPECT_NEAR(row(rows, "sand, damp and loose").quantity, 4 * share * 28.316846592, 1e-6);
}

TEST(BuyList, ATileOfItsOwnComesInBoxesOfItsOwn) {
  // Source: by hand: floor and threshold are 14 ft2 of the one, 51.5 of the other; apart they take 2 and 6 boxes of 10
  // ft2 with 10 % waste, and surface by surface 10 would be bought.
  job::Job job = buyer();
  job.buy.tile.own = {job::Tiled::floor, job::Tiled::threshold};
  const auto rows = takeoff::take_off(job, finished_room(), {}, {});
  EXPECT_EQ(row(rows, "tile").buy, 6);
  EXPECT_EQ(row(rows, "tile, floor").buy, 2);
  EXPECT_EQ(row(rows, "tile, threshold").buy, 1);
  EXPECT_NEAR(row(rows, "bonding mortar").quantity, 65.5 * 0.1875 / 12, 1e-6);
}

TEST(BuyList, NoStickIsBoughtForStripsBeforeBlocks) {
  // Source: by hand: 10 in and 14 in of 1/4 x 3-1/2 in come out of offcuts, 2 ft in all; 3/4 in is a length of a 1x4.
  facts::Facts facts = finished_room();
  for (const auto& [thick, length] : {std::pair{0.25, 10}, {0.25, 14}, {0.75, 14}})
    facts.room.block_strips.push_back(
        {"wall-back/blocking-1-01", job::Side::back, thick * in, thick * in, length * in, 3.5 * in, 34 * in});
  const auto cuts = takeoff::cut_list(facts, false, takeoff::board_of(buyer()));
  const auto plans = takeoff::plan_cuts(cuts, buyer().cuts, false);
  const auto rows = takeoff::take_off(buyer(), facts, cuts, plans);
  EXPECT_EQ(takeoff::bought(row(rows, "furring 1/4 x 3-1/2\"")), "2 ft");
  EXPECT_EQ(takeoff::blanks_named(row(rows, "furring 1/4 x 3-1/2\"")), takeoff::Blanks::shims);
  EXPECT_EQ(plans.back().stock, "furring 3/4 x 3-1/2\"");
}

TEST(BuyList, StudsThatStandBackAreFurred) {
  // Source: by hand: 3/16 in at the floor and 1/16 at the top take a strip of 3/16 tapered to 1/16, as long as its
  // stud; 0.18 and 0.05 one of 1/8 tapered to nothing, since a strip thicker than its gap stands in the base's way;
  // less than a mark takes none, 2 in is a wall to frame.
  facts::Facts facts = finished_room();
  const auto stud = [&](const char* id, double floor_in, double top_in) {
    facts::Part part;
    part.id = id, part.which = sample::part_id(id), part.bbox_mm = {0, 0, 1.5 * in, 1.5 * in, 3.5 * in, 94 * in};
    facts.parts.push_back(part);
    facts.room.studs.push_back({id, job::Side::left, facts::Before::base, 0, floor_in * in, top_in * in, top_in * in});
  };
  stud("wall-left/stud-01", 0.1875, 0.0625), stud("wall-left/stud-02", 0.18, 0.05),
      stud("wall-left/stud-03", 0.25, 0.25);
  stud("wall-left/stud-04", 0.03, 0.03), stud("wall-left/stud-05", 2, 2), stud("wall-left/stud-06", -0.5, -0.2);
  const auto cuts = takeoff::cut_list(sample::with_strips(facts, false), false);
  std::vector<takeoff::CutRow> strips;
  for (const takeoff::CutRow& cut : cuts)
    if (cut.furring) strips.push_back(cut);
  ASSERT_EQ(strips.size(), 3u);
  const auto strip = [&](const char* stock) {
    return *std::find_if(strips.begin(), strips.end(), [&](const takeoff::CutRow& cut) { return cut.stock == stock; });
  };
  EXPECT_EQ(strip("furring 1/4 x 1-1/2\"").ends, "square");
  EXPECT_EQ(strip("shims 3/16 x 1-1/2\"").count, 1);
  EXPECT_EQ(strip("shims 3/16 x 1-1/2\"").part_ids[0], "wall-left/stud-01") << "the stud it goes on";
  EXPECT_EQ(strip("shims 3/16 x 1-1/2\"").ends, "square, tapered to 1/16\" at the head");
  EXPECT_EQ(strip("shims 1/8 x 1-1/2\"").ends, "square, tapered to nothing at the head");
  EXPECT_NEAR(strip("shims 3/16 x 1-1/2\"").length_mm, 92.5 * in, 1e-9);
  const job::Job job = buyer();
  const auto rows = takeoff::take_off(job, facts, cuts, takeoff::plan_cuts(cuts, job.cuts, false));
  // No saw rips a strip under 1/4 in (common practice, no source): 92-1/2 in of shims are 7.71 ft.
  const auto plans = takeoff::plan_cuts(cuts, job.cuts, false);
  for (const char* thin : {"shims 3/16 x 1-1/2\"", "shims 1/8 x 1-1/2\""}) {
    EXPECT_EQ(takeoff::bought(row(rows, thin)), "7.71 ft");
    EXPECT_TRUE(std::none_of(plans.begin(), plans.end(), [&](const auto& plan) { return plan.stock == thin; }));
  }
  EXPECT_EQ(takeoff::bought(row(rows, "furring 1/4 x 1-1/2\"")), "1 stick of 8 ft");
  EXPECT_EQ(row(rows, "studs to bring out").quantity, 1);
  EXPECT_NE(row(rows, "furring 1/4 x 1-1/2\"").basis.find("not sold so thin: rip from wider stock"), std::string::npos);
  // Source: closed form: turned by 2 degrees the box about 1-1/2 x 3-1/2 is 1.62 wide, and the stud as it was.
  facts::Part& turned = facts.parts.back();
  const double cos = std::cos(M_PI / 90), sin = std::sin(M_PI / 90);
  turned.bbox_mm[3] = (3.5 * cos + 1.5 * sin) * in, turned.bbox_mm[4] = (1.5 * cos + 3.5 * sin) * in;
  turned.volume_mm3 = 1.5 * 3.5 * 92.5 * in * in * in;
  turned.area_mm2 = 2 * (1.5 * 3.5 + 5 * 92.5) * in * in;
  facts.room.studs.back().at_top_mm = facts.room.studs.back().at_floor_mm = 0.25 * in;
  facts.room.studs.back().at_upstand_mm = 0.25 * in;
  const auto with_turned = takeoff::cut_list(sample::with_strips(facts, false), false);
  EXPECT_TRUE(std::any_of(with_turned.begin(), with_turned.end(), [](const takeoff::CutRow& cut) {
    return cut.stock == "furring 1/4 x 1-1/2\"" && cut.count == 2;
  }));
  turned.volume_mm3 = turned.area_mm2 = 0, turned.bbox_mm[4] = 3.5 * in;
  // Two that differ in width alone are two to whoever buys and cuts them.
  facts.parts.back().bbox_mm[3] = 2.5 * in, facts.room.studs.back().at_top_mm = 0.25 * in;
  facts.room.studs.back().at_floor_mm = facts.room.studs.back().at_upstand_mm = 0.25 * in;
  const auto wider = takeoff::cut_list(sample::with_strips(facts, false), false);
  EXPECT_EQ(std::count_if(wider.begin(), wider.end(),
                          [](const takeoff::CutRow& cut) {
                            return cut.stock == "furring 1/4 x 1-1/2\"" || cut.stock == "furring 1/4 x 2-1/2\"";
                          }),
            2);
  const auto metric = takeoff::cut_list(sample::with_strips(facts, true), true);
  EXPECT_TRUE(std::any_of(metric.begin(), metric.end(),
                          [](const takeoff::CutRow& cut) { return cut.stock == "furring 6 x 64 mm"; }));
  EXPECT_FALSE(row(rows, "studs to bring out").for_sale);
}

TEST(BuyList, WaterIsTwoEndsOfWhatTheBagSays) {
  // Source: by hand: 4.4 ft3 with 10 % waste from bags of 0.5 ft3 are 9.68 bags; 2 to 3 L each, or 2 alone.
  job::Job job = buyer();
  job.unit = job::UnitSystem::metric;
  job.buy.water_greatest_mm3 = 3e6;
  takeoff::Row water = row(takeoff::take_off(job, finished_room(), {}, {}), "water for the mortar");
  EXPECT_NEAR(water.quantity, 29.04, 1e-6);
  EXPECT_NEAR(water.buy, 29.04, 1e-6);
  job.buy.water_least_mm3 = 2e6;
  water = row(takeoff::take_off(job, finished_room(), {}, {}), "water for the mortar");
  EXPECT_NEAR(water.quantity, 19.36, 1e-6);
  EXPECT_NEAR(water.buy, 29.04, 1e-6);
  EXPECT_EQ(water.unit, "L");
  EXPECT_THAT(water.basis, HasSubstr("from 19.36 to 29.04 L for 9.68 bags"));
  job.unit = job::UnitSystem::inch;
  job.buy.water_greatest_mm3.reset();
  water = row(takeoff::take_off(job, finished_room(), {}, {}), "water for the mortar");
  EXPECT_NEAR(water.buy, 19.36e6 / (231 * in3), 1e-6);
  EXPECT_EQ(water.buy_unit, "gal");
}

TEST(BuyList, NoFeltOnASlabAndNoAdhesiveWithoutASeat) {
  // Source: by the words of the rows: felt keeps mortar off timber, adhesive holds the seat block.
  job::Job job = buyer();
  facts::Facts facts = finished_room();
  const auto listed = [&](takeoff::Item item) {
    const auto rows = takeoff::take_off(job, facts, {}, {});
    return std::any_of(rows.begin(), rows.end(), [&](const takeoff::Row& r) { return is(r, item); });
  };
  EXPECT_TRUE(listed(takeoff::Item::felt));
  EXPECT_TRUE(listed(takeoff::Item::adhesive));
  job.floor.kind = job::FloorKind::slab;
  facts.finish.seat_bond_mm2 = 0;
  EXPECT_FALSE(listed(takeoff::Item::felt));
  EXPECT_FALSE(listed(takeoff::Item::adhesive));
}

TEST(BuyList, AFloorThatIsNotTiledIsItsOwnWaterproofing) {
  // Source: by hand: 65.5 - 12.5 ft2, and the laps.
  job::Job job = buyer();
  job.buy.tile.surfaces = {job::Tiled::threshold, job::Tiled::walls};
  const auto rows = takeoff::take_off(job, finished_room(), {}, {});
  EXPECT_NEAR(row(rows, "waterproofing").quantity, 53 + 10 / 3., 1e-6);
  EXPECT_NEAR(row(rows, "bonding mortar").quantity, 46.5 * 0.1875 / 12, 1e-6);
}

TEST(BuyList, AMouldedThresholdComesFinishedWithItsFloor) {
  // Source: by hand: neither floor nor threshold of a base is tiled: 65.5 - 12.5 - 1.5 ft2, and the laps; where the
  // floor is tiled, what is not tiled of the base gets wet as well.
  job::Job job = buyer();
  job.buy.tile.surfaces = {job::Tiled::walls};
  EXPECT_NEAR(row(takeoff::take_off(job, finished_room(), {}, {}), "waterproofing").quantity, 51.5 + 10 / 3., 1e-6);
  job.buy.tile.surfaces = {job::Tiled::walls, job::Tiled::floor};
  EXPECT_NEAR(row(takeoff::take_off(job, finished_room(), {}, {}), "waterproofing").quantity, 65.5 + 10 / 3., 1e-6);
}

TEST(BuyList, ALinerRunsOverTheThresholdWithoutALap) {
  // Source: by hand: walls, seat and apron, 51.5 ft2, and 20 ft of laps by 2 in; 5 ft where floor and threshold meet
  // lie over the liner and take none.
  job::Job job = buyer();
  job.base.kind = job::BaseKind::site_built, job.base.site.waterproofing = job::Waterproofing::liner;
  facts::Facts room = finished_room();
  room.finish.joints.push_back({facts::Joint::floor_to_threshold, 60 * in});
  EXPECT_NEAR(row(takeoff::take_off(job, room, {}, {}), "waterproofing").quantity, 51.5 + 10 / 3., 1e-6);
  job.base.site.waterproofing = job::Waterproofing::bonded;
  EXPECT_NEAR(row(takeoff::take_off(job, room, {}, {}), "waterproofing").quantity, 65.5 + 10 / 3. + 5 / 6., 1e-6);
}

TEST(BuyList, TheBenchsPanelAndSpeciesAreNamed) {
  // Source: by hand: what the checks take the bench for is what is asked for at the counter.
  job::Job job = buyer();
  const std::vector<takeoff::StockPlan> plan =
      takeoff::plan_cuts(takeoff::cut_list(finished_room(), false), job.cuts, false);
  EXPECT_NE(row(takeoff::take_off(job, finished_room(), {}, plan), "2x4").basis.find("; SPF No.2 for the bench"),
            std::string::npos);
  EXPECT_EQ(row(takeoff::take_off(job, finished_room(), {}, plan), "deck sheet 3/4\", plywood").buy, 1);
  job.bench->frame.panel = job::PanelKind::osb;
  EXPECT_EQ(row(takeoff::take_off(job, finished_room(), {}, plan), "deck sheet 3/4\", OSB").buy, 1);
}

TEST(BuyList, ADeckTakesTheSawsCutOutOfASheet) {
  // Source: by hand: two decks of 48 in want 96-1/8 in with a cut of 1/8, so one to a sheet; of 47-15/16 two. Three
  // strips of 16 in lie in 48 only without a cut. One longer and wider than a sheet takes two by two.
  facts::Facts facts = finished_room();
  const auto share = [&](double length, double width, double kerf) {
    facts.members = {{sample::part_id("bench-frame/deck"),
                      "bench-frame/deck",
                      "d",
                      false,
                      true,
                      length * in,
                      length * in,
                      width * in,
                      0.75 * in,
                      {0, 0}}};
    job::Job job = buyer();
    job.cuts.kerf = job::Length::inches(kerf);
    const takeoff::Row r = row(takeoff::take_off(job, facts, {}, {}), "deck sheet 3/4\", plywood");
    return r.quantity * (1 + r.waste) / r.pack;
  };
  EXPECT_NEAR(share(48, 40, 0.125), 1, 1e-9);
  EXPECT_NEAR(share(47.9375, 40, 0.125), 1 / 2., 1e-9);
  EXPECT_NEAR(share(90, 16, 0.125), 1 / 2., 1e-9);
  EXPECT_NEAR(share(90, 16, 0), 1 / 3., 1e-9);
  EXPECT_NEAR(share(100, 49, 0.125), 4, 1e-9);
}

TEST(Plan, APieceToOrderLeavesRoomForShortOnes) {
  // Source: by hand: 150 in is longer than any stick, so 14 ft; of its 18 in a piece of 12 takes 12-1/8 with its cut,
  // and the cut before the offcut 1/8: 5-3/4 left. 40 in is cut from 8 ft: 55-7/8 left. No choice holds 202 in in less.
  facts::Facts facts;
  facts.members = {stick("a", 40), stick("b", 150), stick("c", 12)};
  const auto plans =
      takeoff::plan_cuts(takeoff::cut_list(facts, false),
                         {{job::Length::feet(8), job::Length::feet(12)}, job::Length::inches(0.125)}, false);
  ASSERT_EQ(plans.size(), 1u);
  const takeoff::StockPlan& plan = plans[0];
  ASSERT_EQ(plan.sticks.size(), 2u);
  EXPECT_TRUE(plan.sticks[0].to_order);
  EXPECT_NEAR(plan.sticks[0].length_mm, 14 * ft, 1e-9);
  EXPECT_NEAR(plan.sticks[0].offcut_mm, 5.75 * in, 1e-9);
  EXPECT_NEAR(plan.sticks[1].offcut_mm, 55.875 * in, 1e-9);
  EXPECT_NEAR(plan.offcut_mm, 61.625 * in, 1e-9);
  EXPECT_NEAR(plan.bought_mm, 22 * ft, 1e-9);
  EXPECT_NEAR(plan.least_mm, 202 * in, 1e-9);
  EXPECT_FALSE(plan.fewest);
  EXPECT_EQ(plan.pieces, 3);
  const auto rows = takeoff::stick_rows(plans, false);
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_NEAR(rows[0].quantity, 162 / 12., 1e-9);
  EXPECT_NEAR(rows[1].quantity, 40 / 12., 1e-9);
  EXPECT_EQ(rows[1].buy_unit, "stick of 8 ft");
  EXPECT_THAT(rows[0].basis,
              HasSubstr("2 pieces, longer than any stick on offer: order to length; 1/8\" kerf; of 2x4 22.0 ft bought "
                        "for 3 pieces, 5.1 ft offcuts; at most 62\" above the least possible"));
}

TEST(Cuts, APieceIsAnotherOneBySizeEndsAndStock) {
  // Source: by hand: a sixteenth more, a bevel, other stock, another width: each a row of its own; a quarter of a
  // degree is square; the fit of a mark is that of its worst piece.
  facts::Facts facts;
  facts.members = {stick("a", 13), stick("b", 13), stick("c", 13.0625), stick("d", 13), stick("e", 13), stick("f", 13)};
  facts.members[1].end_angle_deg = {0.2, 0.24}, facts.members[1].fitted_mm = 1.7;
  facts.members[3].end_angle_deg = {0, 2.345};
  facts.members[4].stock = "2x3";
  facts.members[5].short_mm = 12.5 * in;
  const auto rows = takeoff::cut_list(facts, false);
  ASSERT_EQ(rows.size(), 5u);
  EXPECT_EQ(rows[0].stock, "2x3");
  EXPECT_NEAR(rows[1].length_mm, 13.0625 * in, 1e-9);
  EXPECT_EQ(rows[2].count, 2);
  EXPECT_EQ(rows[2].part_ids, (std::vector<std::string>{"a", "b"}));
  EXPECT_EQ(rows[2].ends, "square");
  EXPECT_NEAR(rows[2].fitted_mm, 1.7, 1e-12);
  EXPECT_EQ(
      takeoff::fitted_text(rows[2], false),
      "lies straight on the floor's high spots, up to 1/8\" out of level: do not pack it level, studs are cut to it")
      << "1.7 is more than 1/16";
  EXPECT_EQ(
      takeoff::fitted_text(rows[2], true),
      "lies straight on the floor's high spots, up to 2 mm out of level: do not pack it level, studs are cut to it");
  EXPECT_EQ(rows[3].ends, "0.0 and 2.3 deg from square");
  EXPECT_NEAR(rows[4].short_mm, 12.5 * in, 1e-9);
}

}  // namespace
}  // namespace fallwright
