// Mortar, sealant, notches and packs against handbook figures and worked examples.
#include <cmath>

#include <gtest/gtest.h>

#include "support/imperial.hpp"
#include "support/part_id.hpp"
#include "support/sample.hpp"
#include "takeoff/finish.hpp"
#include "takeoff/item.hpp"
#include "takeoff/need.hpp"
#include "takeoff/row_named.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright {
namespace {

job::Length inches(double v) {
  return job::Length::inches(v);
}

/// Two cubic feet of pre-slope under one of top coat.
facts::Facts beds_round_a_liner() {
  facts::Facts facts;
  facts.site_built.emplace();
  facts.bed.set_mm3 = 2 * ft3;
  facts::Part coat;
  coat.id = "base", coat.which = sample::part_id("base"), coat.volume_mm3 = 1 * ft3;
  facts.parts = {coat};
  return facts;
}

TEST(Supplies, SiteMixIsBoughtInBags) {
  // Source: closed form: at 1:5 a cubic foot takes 22.135 lb of cement and 1.1774 ft3 of damp sand; 10 ft3 with 10 %
  // waste 2.59 bags of 94 lb and 12.95 ft3.
  job::Job job = sample::alcove();
  job.buy.mix = {{1, 0, 5}, "", 94 * 0.45359237, 50 * 0.45359237, job::damp_sand_kg_m3, {}};
  facts::Facts facts;
  facts.bed.set_mm3 = facts.bed.spread_mm3 = 10 * ft3;
  const auto rows = takeoff::take_off(job, facts, {}, {});
  const auto *cement = row_named(rows, "cement"), *sand = row_named(rows, "sand, damp and loose");
  ASSERT_TRUE(cement && sand);
  EXPECT_EQ(takeoff::bought(*cement), "3 bags");
  EXPECT_NEAR(sand->buy, 12.95, 0.01);
  EXPECT_EQ(row_named(rows, "hydrated lime"), nullptr);
  EXPECT_EQ(row_named(rows, "mortar, bags"), nullptr);
}

TEST(Supplies, WaterComesAsABand) {
  // Source: by hand; 3.019 bags at 4 to 5 pints each.
  job::Job job = sample::alcove();
  job.bed.bag_yield_m3 = 0.45 * ft3 * 1e-9;
  const double pint = 231 / 8. * in3;
  job.buy.water_least_mm3 = 4 * pint, job.buy.water_greatest_mm3 = 5 * pint;
  facts::Facts facts;
  facts.bed.set_mm3 = 1.23511 * ft3;
  const auto rows = takeoff::take_off(job, facts, {}, {});
  const auto* water = row_named(rows, "water for the mortar");
  ASSERT_TRUE(water);
  EXPECT_NEAR(water->quantity, 3.019 * 4 / 8, 1e-3);
  EXPECT_NEAR(water->buy, 3.019 * 5 / 8, 1e-3);
}

TEST(Supplies, AThresholdBuiltOnSiteIsToldByItsSolid) {
  // Source: by hand: 5 ft of 4 in, whose top falls 1/16 in inward from 5-9/16; 3/4 in is laid on it. Its way outward,
  // the outer edge is the low one.
  job::Job job = sample::alcove();
  job.base.kind = job::BaseKind::site_built;
  job.base.site.waterproofing = job::Waterproofing::liner;
  job.base.threshold.finish.reset();
  facts::Facts facts;
  EXPECT_FALSE(takeoff::threshold_of(job, facts));
  facts.site_built.emplace();
  facts.site_built->cover_least_mm = 15;
  EXPECT_FALSE(takeoff::threshold_of(job, facts)) << "no threshold on the solid";
  facts::Facet top;
  top.surface = facts::Surface::threshold;
  top.fall = 1 / 64., top.run_mm = 4 * in, top.flow = {0, 1, 0};
  top.area_mm2 = 60 * 4 * in * in * std::hypot(1, top.fall);
  facts.facets.push_back(top);
  facts.heights.threshold_least_mm = 5.5 * in, facts.heights.threshold_greatest_mm = 5.5625 * in;
  auto found = takeoff::threshold_of(job, facts);
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->width_mm, 4 * in, 1e-9);
  EXPECT_NEAR(found->length_mm, 60 * in, 1e-6);
  EXPECT_NEAR(found->inner_mm, 5.5 * in, 1e-9);
  EXPECT_NEAR(found->outer_mm, 5.5625 * in, 1e-9);
  EXPECT_FALSE(found->laid_on_mm) << "over a liner nobody said it";
  EXPECT_EQ(row_named(takeoff::take_off(job, facts, {}, {}), "threshold, rough"), nullptr)
      << "its mortar is the top coat's";
  facts.facets[0].flow[1] = -1;
  EXPECT_NEAR(takeoff::threshold_of(job, facts)->inner_mm, 5.5625 * in, 1e-9);
  job.base.site.waterproofing = job::Waterproofing::bonded;
  EXPECT_EQ(takeoff::threshold_of(job, facts)->laid_on_mm, 15) << "tile and its bond";
  job.base.threshold.finish = inches(0.75);
  EXPECT_EQ(takeoff::threshold_of(job, facts)->laid_on_mm, 0.75 * in);
  facts.site_built->forms_mm = 60 * in;
  const auto rows = takeoff::take_off(job, facts, {}, {});
  ASSERT_TRUE(row_named(rows, "threshold, rough"));
  EXPECT_NEAR(row_named(rows, "threshold, rough")->quantity, 5, 1e-6);
  // It stands on the bed, whose solid lies under it too: before that a form holds the bed.
  ASSERT_TRUE(row_named(rows, "edge forms"));
  EXPECT_NEAR(row_named(rows, "edge forms")->quantity, 5, 1e-6);
  EXPECT_NE(row_named(rows, "edge forms")->basis.find("under the threshold"), std::string::npos);
  EXPECT_FALSE(row_named(rows, "threshold, rough")->for_sale) << "nobody knows of what it is";
}

TEST(Supplies, AStripBesideABenchIsLappedUnderWhatHidesIt) {
  // Source: by hand: lapped 2 in past both ends of 36 in and up the frame; on the base 2 in under tile, and under an
  // apron of 1/2 in no more than that where the floor comes finished. Beside a bench at an end the edge climbs from the
  // rim at 2 in onto a threshold at 4; along the back it is 57-1/2 in and climbs nothing.
  job::Job job = sample::alcove();
  job.buy.membrane.lap = inches(2);
  job.bench->apron_thickness = inches(0.5);
  facts::Facts facts;
  facts::Part base;
  base.id = "base", base.which = sample::part_id("base");
  base.bbox_mm = {14.5 * in, 0, 0, 72 * in, 36 * in, 6 * in};
  facts.parts = {base};
  facts.heights.rim_least_mm = 2 * in;
  facts.edges = {{job::Side::left}, {job::Side::back}};
  EXPECT_FALSE(takeoff::lapped_strip(job, facts)) << "no edge is lapped";
  for (facts::Edge& edge : facts.edges) edge.lapped = true;
  const auto strip = [&] { return takeoff::lapped_strip(job, facts).value(); };
  job.buy.tile.surfaces = {job::Tiled::floor, job::Tiled::walls};
  EXPECT_EQ(strip().side, job::Side::left);
  EXPECT_NEAR(strip().edge_mm, 36 * in, 1e-9);
  EXPECT_NEAR(strip().length_mm, 40 * in, 1e-9);
  EXPECT_NEAR(strip().on_base_mm, 2 * in, 1e-9);
  EXPECT_NEAR(strip().up_mm, 2 * in, 1e-9);
  facts.heights.threshold_least_mm = 4 * in;
  EXPECT_NEAR(strip().edge_mm, 38 * in, 1e-9);
  job.buy.tile.surfaces = {job::Tiled::walls};
  EXPECT_NEAR(strip().on_base_mm, 0.5 * in, 1e-9);
  EXPECT_NEAR(strip().width_mm(), 2.5 * in, 1e-9);
  job.bench->apron_thickness = {};
  EXPECT_NEAR(strip().on_base_mm, 2 * in, 1e-9) << "nothing hides it, and nothing has it end";
  job.bench->place = job::Side::back;
  EXPECT_NEAR(strip().edge_mm, 57.5 * in, 1e-9);
  job.base.kind = job::BaseKind::site_built;
  EXPECT_FALSE(takeoff::lapped_strip(job, facts)) << "all of it is waterproofed in one";
}

TEST(Supplies, MortarOverALinerIsThatOfBedAndTopCoat) {
  // Source: by hand: 2 ft3 of bed and 1 of coat are 3, 10 % more, 0.45 ft3 a bag: 7.33, so 8 bags; bonded on one bed 2
  // ft3: 4.89, so 5.
  job::Job job = sample::alcove();
  job.base.kind = job::BaseKind::site_built;
  job.base.site.waterproofing = job::Waterproofing::liner;
  job.bed.bag_yield_m3 = 0.45 * ft3 * 1e-9;
  const facts::Facts facts = beds_round_a_liner();
  const auto bags = [&] {
    for (const takeoff::Row& row : takeoff::take_off(job, facts, {}, {}))
      if (row.item == "mortar, bags") return row;
    throw std::logic_error{"no bags"};
  };
  EXPECT_EQ(bags().buy, 8);
  EXPECT_NE(bags().basis.find("solids of the bed and of the top coat"), std::string::npos) << bags().basis;
  job.base.site.waterproofing = job::Waterproofing::bonded;
  EXPECT_EQ(bags().buy, 5);
}

TEST(Supplies, BatchesOverALinerAreWholeForEachBed) {
  // Source: by hand: 2 ft3 of pre-slope and 1 of coat in batches of 0.9: 2.22 and 1.11, so 3 and 2, where 3 ft3 at once
  // would be 4. Bonded on one bed 2 ft3 are 3.
  job::Job job = sample::alcove();
  job.base.kind = job::BaseKind::site_built;
  job.base.site.waterproofing = job::Waterproofing::liner;
  job.buy.batch_mm3 = 0.9 * ft3;
  const facts::Facts facts = beds_round_a_liner();
  const auto rows = takeoff::take_off(job, facts, {}, {});
  EXPECT_EQ(row_named(rows, "mortar, batches")->buy, 5);
  EXPECT_NE(row_named(rows, "mortar, batches")->basis.find(": 3 for it, 2 for the top coat"), std::string::npos);
  const auto two = takeoff::batches_of_two_beds(job, facts);
  ASSERT_TRUE(two);
  EXPECT_NEAR(two->bed, 2 / 0.9, 1e-9);
  EXPECT_NEAR(two->coat, 1 / 0.9, 1e-9);
  job.base.site.waterproofing = job::Waterproofing::bonded;
  EXPECT_FALSE(takeoff::batches_of_two_beds(job, facts));
  EXPECT_EQ(row_named(takeoff::take_off(job, facts, {}, {}), "mortar, batches")->buy, 3);
}

TEST(Supplies, WhatHoldsMortarBuiltOnSiteIsBoughtByItsSides) {
  // Source: by hand: 7 ft of open sides are 7 ft of forms, in metric 2.1 m; 10 ft2 of bed are as much liner and
  // reinforcement with their waste, and a bonded membrane needs neither.
  job::Job job = sample::alcove();
  job.base.kind = job::BaseKind::site_built;
  job.base.site.waterproofing = job::Waterproofing::liner;
  job.bed.waste = 0.1, job.buy.membrane.waste = 0.2;
  facts::Facts facts;
  facts.site_built.emplace();
  facts.site_built->bed_top_mm2 = 1440 * in * in;
  EXPECT_EQ(row_named(takeoff::take_off(job, facts, {}, {}), "edge forms"), nullptr) << "walls hold it all round";
  facts.site_built->forms_mm = 84 * in;
  const auto rows = takeoff::take_off(job, facts, {}, {});
  ASSERT_TRUE(row_named(rows, "edge forms"));
  EXPECT_NEAR(row_named(rows, "edge forms")->quantity, 7, 1e-9);
  EXPECT_NEAR(row_named(rows, "edge forms")->buy, 7, 1e-9);
  EXPECT_EQ(row_named(rows, "edge forms")->buy_unit, "ft");
  EXPECT_NE(row_named(rows, "edge forms")->basis.find("neither wall nor bench bounds"), std::string::npos);
  ASSERT_TRUE(row_named(rows, "reinforcement"));
  EXPECT_NEAR(row_named(rows, "reinforcement")->quantity, 10, 1e-9);
  EXPECT_NEAR(row_named(rows, "reinforcement")->buy, 11, 1e-9);
  EXPECT_NEAR(row_named(rows, takeoff::name_of(takeoff::Item::liner))->buy, 12, 1e-9);
  facts::Facet threshold;  // 48 by 6 of the bed is under it
  threshold.surface = facts::Surface::threshold;
  threshold.run_mm = 6 * in, threshold.area_mm2 = 288 * in * in;
  facts.facets.push_back(threshold);
  const auto before_threshold = takeoff::take_off(job, facts, {}, {});
  EXPECT_NEAR(row_named(before_threshold, "reinforcement")->quantity, 8, 1e-9) << "the top coat ends at it";
  EXPECT_NEAR(row_named(before_threshold, takeoff::name_of(takeoff::Item::liner))->quantity, 8, 1e-9);
  facts.facets.clear();
  job.unit = job::UnitSystem::metric;
  const auto metric = takeoff::take_off(job, facts, {}, {});
  EXPECT_NEAR(row_named(metric, "edge forms")->quantity, 2.1336, 1e-9);
  EXPECT_EQ(row_named(metric, "edge forms")->unit, "m");
  job.base.site.waterproofing = job::Waterproofing::bonded;
  const auto bonded = takeoff::take_off(job, facts, {}, {});
  EXPECT_EQ(row_named(bonded, "reinforcement"), nullptr);
  EXPECT_TRUE(row_named(bonded, "edge forms"));
}

TEST(Supplies, ALinerIsBoughtAsHighAsItTurnsUp) {
  // Source: by hand: the bed meets the walls 2 above the datum at the lowest, the threshold's top is 5-1/2 to 6 and 4
  // wide, the liner 3 above it: 6 + 3 - 2 = 7 up along 60 + 34 + 34 of walls in plan, whatever their joints climb, and
  // over 60 of threshold 4 up from the bed 1-1/2 high there, 4 across and 6 down. Until its top is read nobody knows.
  // Lath is as large as the bed's underside, on timber alone.
  job::Job job = sample::alcove();
  job.base.kind = job::BaseKind::site_built;
  job.base.site.waterproofing = job::Waterproofing::liner;
  job.base.threshold.width = inches(4);
  job.buy.membrane.waste = 0, job.buy.felt.waste = 0.1;
  facts::Facts facts;
  facts::SiteBuilt& site = facts.site_built.emplace();
  site.flange_top_mm = in, site.bed_top_mm2 = 1440 * in * in;
  site.low_at_walls_mm = 2 * in, site.low_at_threshold_mm = 1.5 * in;
  // Marks may stand anywhere: they say nothing of the lowest place.
  for (const double bed : {2.5, 2.25}) site.marks.push_back({"back wall", 0, {}, 0, bed * in, 0});
  facts.heights.threshold_least_mm = 5.5 * in, facts.heights.threshold_greatest_mm = 6 * in;
  facts::Facet top;
  top.surface = facts::Surface::threshold, top.area_mm2 = 60 * 4 * in * in, top.run_mm = 4 * in;
  top.flow = {0, 1, 0};
  facts.facets.push_back(top);
  facts.finish.joints = {{facts::Joint::floor_to_walls, 121 * in},
                         {facts::Joint::threshold_to_walls, 13 * in},
                         {facts::Joint::wall_corners, 500 * in}};
  for (const auto& [side, length] :
       {std::pair{job::Side::back, 60.}, {job::Side::left, 34.}, {job::Side::right, 34.}, {job::Side::front, 60.}}) {
    facts::Edge edge;
    edge.side = side, edge.length_mm = length * in;
    if (side != job::Side::front) edge.behind = facts::Behind::wall;
    facts.edges.push_back(edge);
  }
  facts.finish.bed_bottom_mm2 = 1440 * in * in;
  const auto unread = takeoff::take_off(job, facts, {}, {});
  EXPECT_EQ(row_named(unread, "liner, turned up"), nullptr);
  EXPECT_NE(row_named(unread, "liner, floor")->basis.find("is not said"), std::string::npos);
  job.liner.emplace().above_threshold = inches(3);
  const auto rows = takeoff::take_off(job, facts, {}, {});
  ASSERT_TRUE(row_named(rows, "liner, turned up"));
  EXPECT_NEAR(row_named(rows, "liner, turned up")->quantity, (128 * 7 + 60 * 14) / 144., 1e-9);
  EXPECT_NE(row_named(rows, "liner, turned up")->basis.find("10.7 ft of walls and bench, 7\" up from the bed"),
            std::string::npos);
  // One piece: 60 and 7 up at both walls; 34 and 7 up at the back, 4 up the threshold, over it as wide as what lies
  // under it, and 6 down.
  EXPECT_EQ(takeoff::liner_size(job, facts), "74\" x 51\"");
  EXPECT_NE(row_named(rows, "liner, turned up")->basis.find("74\" x 51\""), std::string::npos);
  EXPECT_EQ(row_named(rows, "weep hole protection")->buy, 1);
  EXPECT_NEAR(row_named(rows, "lath over the felt")->buy, 11, 1e-9);
  job.floor.kind = job::FloorKind::slab;
  EXPECT_EQ(row_named(takeoff::take_off(job, facts, {}, {}), "lath over the felt"), nullptr);
  job.base.site.waterproofing = job::Waterproofing::bonded;
  EXPECT_EQ(row_named(takeoff::take_off(job, facts, {}, {}), "weep hole protection"), nullptr);
}

TEST(Supplies, ALinerThatIsCarriedOverASeatIsBoughtForIt) {
  // Source: by hand: the bed meets the walls 2 above the datum, the threshold is 6 high and the liner 3 above it: 7 up
  // along two walls of 34. Over a seat of 60 x 14, 18 high in front and 18-1/4 behind, up to 3 above that: the bench's
  // front 60 x 16, the seat, and 3-1/4 up along 60 behind it and 14 at either end. At one end of the room its other end
  // is open: 34 behind it, 14 at its back end.
  job::Job job = sample::alcove();
  job.base.kind = job::BaseKind::site_built;
  job.base.site.waterproofing = job::Waterproofing::liner;
  job.base.threshold.width = {};
  job.buy.membrane.waste = 0;
  job.bench->place = job::Side::back;
  job.liner.emplace().above_threshold = inches(3);
  facts::Facts facts;
  facts.site_built.emplace().low_at_walls_mm = 2 * in;
  facts.heights.threshold_greatest_mm = 6 * in;
  facts.heights.seat_front_mm = 18 * in, facts.heights.seat_back_mm = 18.25 * in;
  facts::Facet seat;
  seat.surface = facts::Surface::seat, seat.area_mm2 = 60 * 14 * in * in;
  facts.facets = {seat};
  facts::Part block;
  block.which = sample::part_id("seat-block"), block.bbox_mm = {0, 34 * in, 0, 60 * in, 48 * in, 18.25 * in};
  facts.parts = {block};
  facts::Edge back, left, right;
  back.side = job::Side::back, back.behind = facts::Behind::bench, back.length_mm = 60 * in;
  left.side = job::Side::left, right.side = job::Side::right;
  left.behind = right.behind = facts::Behind::wall, left.length_mm = right.length_mm = 34 * in;
  facts.edges = {back, left, right};
  const auto turned_up = [&] { return *row_named(takeoff::take_off(job, facts, {}, {}), "liner, turned up"); };
  EXPECT_FALSE(takeoff::liner_over_seat_mm(job, facts));
  EXPECT_NEAR(turned_up().quantity, 128 * 7 / 144., 1e-9);
  job.liner->above_seat = inches(3);
  EXPECT_NEAR(*takeoff::liner_over_seat_mm(job, facts), 21.25 * in, 1e-9);
  EXPECT_NEAR(turned_up().quantity, (68 * 7 + 60 * 16 + 60 * 14 + 88 * 3.25) / 144., 1e-9);
  EXPECT_NE(turned_up().basis.find("over the bench's front and seat and up the walls behind it 14.5 ft2"),
            std::string::npos)
      << turned_up().basis;
  // One piece: 34 in to the bench, 16 up its front, 14 over the seat and 3-1/4 up behind it.
  EXPECT_EQ(takeoff::liner_size(job, facts), "74\" x 68\"");
  for (const bool at_left : {true, false}) {
    job.bench->place = at_left ? job::Side::left : job::Side::right;
    facts.parts[0].bbox_mm = {0, 0, 0, 14 * in, 34 * in, 18.25 * in};
    facts.facets[0].area_mm2 = 34 * 14 * in * in;
    facts.edges[0].behind = facts::Behind::wall;
    facts.edges[1].behind = at_left ? facts::Behind::bench : facts::Behind::wall;
    facts.edges[2].behind = at_left ? facts::Behind::wall : facts::Behind::bench;
    EXPECT_NEAR(turned_up().quantity, (94 * 7 + 34 * 16 + 34 * 14 + 48 * 3.25) / 144., 1e-9);
  }
}

TEST(Supplies, ADrainIsToldWhereItsWasteStands) {
  // Source: none: what joins the waste to the base has to fit the base's opening, and no drain is bought for it here; a
  // base of mortar brings none.
  job::Job job = sample::alcove();
  facts::Facts facts;
  facts::Part drain;
  drain.which = sample::part_id("drain"), drain.bbox_mm = {0, 0, 0, 4 * in, 4 * in, 50};
  facts.parts.push_back(drain);
  const auto row = [&] { return *row_named(takeoff::take_off(job, facts, {}, {}), "drain with its grate"); };
  EXPECT_TRUE(row().for_sale);
  EXPECT_NE(row().basis.find("not if it comes with the base"), std::string::npos);
  facts.bought.emplace();
  facts.bought->waste_aside_mm = 0;
  EXPECT_FALSE(row().for_sale);
  EXPECT_NE(row().basis.find("base's opening, 4\" square"), std::string::npos) << row().basis;
  facts.bought.reset();
  job.base.kind = job::BaseKind::site_built;
  EXPECT_TRUE(row().for_sale);
  EXPECT_EQ(row().basis.find("comes with"), std::string::npos);
}

TEST(Supplies, ABucketTellsHowManyBatches) {
  // Source: by hand; 1.45 ft3 out of buckets of 0.5 ft3.
  job::Job job = sample::alcove();
  job.buy.batch_mm3 = 0.5 * ft3;
  facts::Facts facts;
  facts.bed.set_mm3 = 1.4 * ft3, facts.bed.spread_mm3 = 1.45 * ft3;
  EXPECT_EQ(row_named(takeoff::take_off(job, facts, {}, {}), "mortar, batches")->buy, 3);
}

TEST(Sealant, AMeasuredCartridgeFillsSoMuchJoint) {
  // Source: arithmetic on the US fluid ounce, 231/128 in3: 10.1 fl oz are 18.227 in3.
  const double cartridge = 10.1 * 231 / 128;
  EXPECT_NEAR(cartridge, 18.227, 5e-4);
  struct Entry {
    job::Bead shape;
    double width, depth, feet;
  };
  for (const Entry& e : {Entry{job::Bead::square, 0.25, 0.25, 24.30},
                         {job::Bead::square, 0.375, 0.25, 16.20},
                         {job::Bead::square, 0.375, 0.375, 10.80},
                         {job::Bead::square, 0.5, 0.25, 12.15},
                         {job::Bead::fillet, 0.25, 0.25, 48.6},
                         {job::Bead::round, 0.1875, 0.1875, 55.0},
                         {job::Bead::round, 0.25, 0.25, 30.9}}) {
    const job::Sealant s{e.shape, inches(e.width), inches(e.depth), 0, 0};
    EXPECT_NEAR(cartridge * in * in / takeoff::section_of(s) / 12, e.feet, 0.05) << e.width << " x " << e.depth;
  }
}

TEST(Sealant, ThreeJointsOfOneRoom) {
  // Source: worked example, invented: 128 + 160 + 98 in at 1/4 x 1/4 with 15 % take 1.522 cartridges, 1/4 x 3/8 2.283.
  job::Job job = sample::alcove();
  facts::Facts facts;
  facts.finish.joints = {{facts::Joint::floor_to_walls, 128 * in},
                         {facts::Joint::seat_to_walls, 160 * in},
                         {facts::Joint::wall_corners, 98 * in}};
  for (const auto& [depth, packs, exact] : {std::tuple{0.25, 2., 1.522}, {0.375, 3., 2.283}}) {
    job.buy.sealant.depth = inches(depth);
    const auto rows = takeoff::take_off(job, facts, {}, {});
    const takeoff::Row* row = row_named(rows, "sealant");
    ASSERT_TRUE(row);
    EXPECT_EQ(row->buy, packs);
    EXPECT_NEAR(row->quantity * 1.15 / row->pack, exact, 5e-4);
  }
}

TEST(Bond, NotchesLeaveSoMuchMortar) {
  // Source: geometry, in3 to the square foot: 1/4 x 1/4 x 1/4 18, 1/4 x 3/8 x 1/4 27, 1/2 x 1/2 x 1/2 36; V notches of
  // 3/16 that touch 13.5.
  const auto per_ft2 = [](const job::Bond& bond) { return takeoff::depth_of(bond) / in * 144; };
  const auto square = [](double w, double d, double s) {
    return job::Bond{false, inches(w), inches(d), inches(s), {}, 0};
  };
  EXPECT_NEAR(per_ft2(square(0.25, 0.25, 0.25)), 18, 1e-9);
  EXPECT_NEAR(per_ft2(square(0.25, 0.375, 0.25)), 27, 1e-9);
  EXPECT_NEAR(per_ft2(square(0.5, 0.5, 0.5)), 36, 1e-9);
  EXPECT_NEAR(per_ft2({true, inches(0.1875), inches(0.1875), {}, {}, 0}), 13.5, 1e-9);
}

TEST(Supplies, WhatIsLeftOutIsNotBought) {
  // Source: property.
  job::Job job = sample::alcove();
  facts::Facts facts;
  facts.finish.joints = {{facts::Joint::floor_to_walls, 100}};
  facts.finish.covered = {{job::Tiled::floor, {}, 1e6}, {job::Tiled::walls, job::Side::back, 2e6}};
  EXPECT_TRUE(row_named(takeoff::take_off(job, facts, {}, {}), "sealant"));
  EXPECT_TRUE(row_named(takeoff::take_off(job, facts, {}, {}), "tile"));
  job.buy.leave_out = {"sealant", "tile", "bond"};
  for (const char* item : {"sealant", "tile", "bonding mortar"})
    EXPECT_FALSE(row_named(takeoff::take_off(job, facts, {}, {}), item)) << item;
  job.buy.leave_out = {};
  job.buy.tile.surfaces = {job::Tiled::walls};
  EXPECT_FALSE(row_named(takeoff::take_off(job, facts, {}, {}), "tile, floor"));
  EXPECT_NEAR(row_named(takeoff::take_off(job, facts, {}, {}), "waterproofing")->quantity * 304.8 * 304.8,
              2e6 + 100 * 2 * in, 1e-6)
      << "a floor that comes finished is its own waterproofing";
}

}  // namespace
}  // namespace fallwright
