/// What is measured in a surveyed room.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "brep/properties.hpp"
#include "job/layout.hpp"
#include "measure/measure.hpp"
#include "measure/once.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/levelling.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::measure {
namespace {

using job::Length;
using job::Side;

survey::Plumb plumb(Side wall, double along, double lean) {
  return {wall, along, {lean, 1.6, survey::Face::stud, 0}, 1200};
}

TEST(SurveyedWalls, RunIntoNothingHoweverCornersStandAndWallsLean) {
  // Source: property: plates, studs and blocking of the three walls share no volume, corners wide or narrow, walls
  // leaning in or out; every pair is looked at.
  for (const auto& [open, lean] : {std::pair{-12., -8.}, {-12., 8.}, {12., -8.}, {12., 8.}, {0., 8.}, {12., 0.}}) {
    job::Job j = sample::alcove();
    j.base.length = j.base.length - inches(1);  // so that the base stands clear of walls that lean in
    j.base.width = j.base.width - inches(1);
    const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm();
    sample::read_plan(j, {0, d}, {w, d}, {-open, 0}, {w + open / 2, 0});
    for (const Side side : {Side::left, Side::right, Side::back}) {
      j.survey.plumbs.push_back(plumb(side, 100, lean));
      j.survey.plumbs.push_back(plumb(side, 700, lean / 2));
    }
    for (const facts::Fit& f : measured(j).fits)
      EXPECT_NE(f.state, facts::Touch::clash)
          << text_of(f.a) << " and " << text_of(f.b) << ", open " << open << " lean " << lean;
  }
}

TEST(SurveyedBed, ThicknessIsFoundOverEveryTriangle) {
  // Source: a fine grid of depths between the layout's own planes: none is below the least or above the greatest, and
  // some come near both.
  job::Job j = sample::surveyed(sample::bare(inches(60), inches(34), inches(30), inches(17)));
  j.base.underside = job::Underside::flat;
  const facts::Facts facts = measured(j);
  const job::Layout at = job::lay_out(j);
  double least = 1e9, greatest = 0;
  const double hole = (j.drain.bore / 2 + j.bed.collar).in_mm();
  for (double x = at.bed.x0; x <= at.bed.x1; x += 4)
    for (double y = at.bed.y0; y <= at.bed.y1; y += 4) {
      if (std::hypot(x - at.drain_x, y - at.drain_y) < hole) continue;
      const double t = at.rib_plane - at.subfloor.at(x, y);
      least = std::min(least, t), greatest = std::max(greatest, t);
      EXPECT_GE(t, facts.bed.least_mm - 1e-6);
      EXPECT_LE(t, facts.bed.greatest_mm + 1e-6);
    }
  EXPECT_NEAR(facts.bed.least_mm, least, 0.1);
  EXPECT_NEAR(facts.bed.greatest_mm, greatest, 0.1);
  EXPECT_NEAR(facts.bed.least_under_ribs_mm, j.bed.least.in_mm(), 0.1);
}

TEST(FloorShape, TwistAndRockAreThoseOfTheCorners) {
  // Source: closed form: corners 0, 3, 0, 2 (back left, back right, front right, front left): twist 0 - 3 + 0 - 2 = -5;
  // put down dry the base stands on the high diagonal and rocks by 5.
  job::Job j = sample::bare(inches(60), inches(34), inches(30), inches(17));
  const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm();
  j.survey.level_tolerance_mm = 0.8;
  j.survey.spots = {{0, d, 0}, {w, d, 3}, {w, 0, 0}, {0, 0, 2}};
  const facts::FloorShape shape = measured(j).room.floor;
  EXPECT_NEAR(shape.twist_mm, -5, 1e-6);
  EXPECT_NEAR(shape.rock_mm, 5, 1e-6);
  EXPECT_NEAR(shape.along_width_mm, 3, 1e-6);
  EXPECT_NEAR(shape.along_depth_mm, 3, 1e-6);
}

TEST(FloorShape, AHumpStandsAboveTheCornersPlane) {
  // Source: closed form: level corners and one spot 6 high.
  job::Job j = sample::bare(inches(60), inches(34), inches(10), inches(17));
  const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm();
  j.survey.level_tolerance_mm = 0.8;
  j.survey.spots = {{0, d, 0}, {w, d, 0}, {w, 0, 0}, {0, 0, 0}, {w * 0.7, d / 2, 6}};
  const facts::FloorShape shape = measured(j).room.floor;
  EXPECT_NEAR(shape.hump_mm, 6, 1e-6);
  EXPECT_NEAR(shape.hump_at_mm[0], w * 0.7, 1e-6);
  EXPECT_NEAR(shape.hollow_mm, 0, 1e-6);
}

TEST(FloorShape, OutOfLevelIsReadOnEdgesBetweenSpotsToo) {
  // Source: closed form: on the line through the high spot (6) the floor is lowest where the edge from the low spot
  // (-6) down to the corner has come back to a third of it: 6 + 2.
  job::Job j = sample::bare(inches(60), inches(34), inches(10), inches(17));
  const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm();
  j.survey.level_tolerance_mm = 0.8;
  j.survey.spots = {{0, d, 0}, {w, d, 0}, {w, 0, 0}, {0, 0, 0}, {w * 0.3, d * 0.25, 6}, {w * 0.7, d * 0.75, -6}};
  EXPECT_NEAR(measured(j).room.floor.along_width_mm, 8, 1e-6);
}

TEST(FloorShape, TellsWhatOfItWasRead) {
  // Source: closed form: 1 in 100 across the whole width, read from 2 in off one wall to 3 off the other: the depth is
  // level. From drops alone nothing was read anywhere.
  job::Job j = sample::bare(inches(60), inches(34), inches(10), inches(17));
  const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm(), a = 2 * in, b = w - 3 * in;
  j.survey.level_tolerance_mm = 0.8;
  j.survey.spots = {{a, d - in, a / 100}, {b, d - in, b / 100}, {b, in, b / 100}, {a, in, a / 100}};
  const facts::FloorShape shape = measured(j).room.floor;
  EXPECT_NEAR(shape.along_width_mm, w / 100, 1e-6);
  EXPECT_NEAR(shape.read_mm.value(), (b - a) / 100, 1e-6);
  j.survey.spots.clear();
  j.floor.drops_typed = true;
  EXPECT_FALSE(measured(j).room.floor.read_mm.has_value());
}

/// A grid of spots an inch inside a room 70 by 34 in, as high at each x as told.
std::vector<survey::Spot> in_rows(const std::vector<survey::Spot>& row) {
  std::vector<survey::Spot> spots;
  for (const double y : {1 * in, 17 * in, 33 * in})
    for (const survey::Spot& s : row) spots.push_back({s.x, y, s.z});
  return spots;
}

TEST(FloorShape, AStepLeansNoFloorPastTheSpots) {
  // Source: by hand: level on both sides of a step of 3/8 in, read an inch off the walls: along the width 3/8 in, from
  // either end and along the other way as well, and along the step nothing.
  job::Job j = sample::bare(inches(70), inches(34), inches(30), inches(17));
  j.survey.level_tolerance_mm = 0.8;
  for (const double left : {0.0, 0.375 * in}) {
    const double right = 0.375 * in - left;
    j.survey.spots = in_rows({{1 * in, 0, left}, {36 * in, 0, left}, {37.875 * in, 0, right}, {69 * in, 0, right}});
    const facts::FloorShape shape = measured(j).room.floor;
    EXPECT_NEAR(shape.along_width_mm, 0.375 * in, 1e-6) << left;
    EXPECT_NEAR(shape.along_depth_mm, 0, 1e-6) << left;
  }
}

TEST(FloorShape, PastTheSpotsAFloorLeansAsNextToThem) {
  // Source: by hand: level for 35 in, then 1 in 100 up to the last spots and on to the wall, an inch more; in the
  // room's whole width a plane of 1 in 100 differs by it all.
  job::Job j = sample::bare(inches(70), inches(34), inches(30), inches(17));
  j.survey.level_tolerance_mm = 0.8;
  j.survey.spots = in_rows({{1 * in, 0, 0}, {36 * in, 0, 0}, {69 * in, 0, 0.33 * in}});
  const double bent = measured(j).room.floor.along_width_mm;
  EXPECT_GT(bent, 0.33 * in);
  EXPECT_LE(bent, 0.34 * in + 1e-6);
  j.survey.spots = in_rows({{1 * in, 0, 0}, {36 * in, 0, 0.35 * in}, {69 * in, 0, 0.68 * in}});
  EXPECT_NEAR(measured(j).room.floor.along_width_mm, 0.01 * j.alcove.width.in_mm(), 1e-6);
}

TEST(FloorShape, AHumpIsNotTakenForTwist) {
  // Source: closed form: corners 4, 0, 4, 0 high lie 2 off the level plane that fits them best; a spot 5 high stands 3
  // above it.
  job::Job j = sample::bare(inches(60), inches(34), inches(10), inches(17));
  const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm();
  j.survey.level_tolerance_mm = 0.8;
  j.survey.spots = {{0, d, 4}, {w, d, 0}, {w, 0, 4}, {0, 0, 0}, {w * 0.7, d / 2, 5}};
  EXPECT_NEAR(measured(j).room.floor.hump_mm, 3, 1e-6);
}

TEST(Clear, TheWholeFloorCountsBesideAChannel) {
  // Source: closed form: the floor inside upstands and threshold, and the circle its smaller side lets in.
  job::Job j = sample::alcove();
  j.alcove.width = inches(60.875), j.alcove.depth = inches(43.375);
  j.bench->depth = inches(12.125);
  j.base.length = inches(48.375), j.base.width = inches(43.375);
  j.base.upstand_thickness = inches(0.625);
  j.drain.kind = job::DrainKind::line;
  j.drain.along = {Side::back, inches(3.75)};
  const double length = (j.base.length - j.base.upstand_thickness * 2).in_mm();
  const double width = (j.base.width - j.base.upstand_thickness - j.base.threshold.width).in_mm();
  const facts::Clear clear = measured(j).clear;
  EXPECT_NEAR(clear.area_mm2, length * width, 1e-3);
  EXPECT_NEAR(clear.circle_mm, std::min(length, width), 1e-6);
}

/// The sample's base with a level rim so high above its drain, and how low its sides may lie.
struct Levelled {
  job::Job job;
  std::shared_ptr<const parts::Model> model;
  rules::Levelling window;
};
Levelled levelled_by_a_rise_of(job::Length rise) {
  Levelled at{sample::alcove(), {}, {}};
  at.job.base.fall = {};
  at.job.base.rise = rise;
  at.model = parts::build(at.job);
  at.window = rules::base_levelling(measure(*at.model), rules::limits_for(at.job));
  return at;
}

TEST(Levelling, WhatASideMayBeLowIsTrueOfReadingsOnTheRim) {
  // Source: the solids themselves, as readings at the four corners of the rim say they lie: with a side low by what is
  // allowed every fall is kept, with a little more one is not. The rim is nearer than the outside by the upstands' 1/2
  // in and the threshold's width.
  const Levelled at = levelled_by_a_rise_of(inches(0.5625));
  const job::Job& j = at.job;
  const auto& model = at.model;
  const rules::Levelling& window = at.window;
  ASSERT_EQ(window.ways.size(), 4u);
  const auto lies = [&](const std::string& low, double by_mm) {
    using P = job::RimPoint;
    job::AsSet set;
    for (const P p : {P::back_left, P::back_right, P::front_left, P::front_right}) {
      const std::string name = job::name_of(p);
      set.readings.push_back({p, job::Length::mm(name.find(low) == std::string::npos ? by_mm : 0)});
    }
    const facts::AsSet found = measure_as_set(*model, set);
    return std::all_of(found.falls.begin(), found.falls.end(), [](const facts::AsSetFall& f) {
      if (f.surface == facts::Surface::base_floor) return f.fall >= 1. / 48 && f.fall <= 1. / 24;
      return f.surface != facts::Surface::threshold || f.inward >= 1. / 96;
    });
  };
  for (const rules::Way& way : window.ways) {
    const std::string low = job::name_of(way.low);
    const bool along = low == "left" || low == "right";
    EXPECT_NEAR(way.over_mm, (along ? 56.5 : 31.5) * in + (along ? 0 : 4 * in - j.base.threshold.width.in_mm()), 1e-6);
    EXPECT_TRUE(lies(low, way.allowed_mm * 0.999)) << low;
    if (way.gives_way.find("height") != std::string::npos) continue;
    EXPECT_FALSE(lies(low, way.allowed_mm * 1.001)) << low << ": " << way.gives_way;
  }
}

TEST(Levelling, TheWindowIsWhereTiltedSolidsReachTheirLimits) {
  // Source: the solids themselves, tilted to the edge of the window in all directions: the floor's or the threshold's
  // fall is then at its limit, just inside it is kept, just outside it is not. Limits: IRC P2709.1, and 1/8 in/ft
  // inward.
  const Levelled at = levelled_by_a_rise_of(inches(0.5625));
  const auto& model = at.model;
  const rules::Levelling& window = at.window;
  ASSERT_EQ(window.edge.size(), 72u);
  const auto kept = [&](double gx, double gy) {
    bool all = true;
    for (const facts::Facet& f : tilted_falls(*model, gx, gy)) {
      if (f.surface == facts::Surface::base_floor) all = all && f.fall >= 1. / 48 && f.fall <= 1. / 24;
      if (f.surface == facts::Surface::threshold) all = all && f.fall * f.flow[1] >= 1. / 96;
    }
    return all;
  };
  for (const auto& [gx, gy] : window.edge) {
    EXPECT_TRUE(kept(gx * 0.999, gy * 0.999)) << gx << ' ' << gy;
    EXPECT_FALSE(kept(gx * 1.001, gy * 1.001)) << gx << ' ' << gy;
  }
}

TEST(AsSet, ALevelRimReadsLevelWhateverTheLine) {
  // Source: property: equal readings up or down from any line are level; four readings fit their plane.
  const auto model = parts::build(sample::alcove());
  for (const bool down : {false, true}) {
    job::AsSet set{down, {}, {}};
    for (const job::RimPoint p : job::all_rim_points) set.readings.push_back({p, Length::mm(437)});
    const facts::AsSet found = measure_as_set(*model, set);
    EXPECT_NEAR(found.gx, 0, 1e-12);
    EXPECT_NEAR(found.gy, 0, 1e-12);
    EXPECT_NEAR(found.twist_mm, 0, 1e-9);
  }
}

TEST(AsSet, DownIsUpTheOtherWay) {
  // Source: property.
  const auto model = parts::build(sample::alcove());
  using P = job::RimPoint;
  job::AsSet up{false,
                {{P::back_left, inches(0)},
                 {P::back_right, inches(0.25)},
                 {P::front_right, inches(0.5)},
                 {P::front_left, inches(0.25)}},
                {}};
  job::AsSet down = up;
  down.down = true;
  for (job::RimReading& r : down.readings) r.value = inches(20) - r.value;
  const facts::AsSet a = measure_as_set(*model, up), b = measure_as_set(*model, down);
  EXPECT_NEAR(a.gx, b.gx, 1e-12);
  EXPECT_NEAR(a.gy, b.gy, 1e-12);
  EXPECT_NEAR(a.gx, 0.25 / 56.5, 1e-9) << "the floor inside the upstands is 56-1/2 in long";
}

TEST(AsSet, AnEqualFallRimIsReadAgainstItsOwnShape) {
  // Source: property: readings equal to the rim's own heights are level.
  job::Job j = sample::alcove();
  j.base.pattern = job::FallPattern::equal_fall;
  const auto model = parts::build(j);
  const job::Layout at = job::lay_out(j);
  const job::Rect& f = at.floor;
  using P = job::RimPoint;
  const auto rim = [&](double x, double y) { return Length::mm(at.floor_at(x, y) + 100); };
  const job::AsSet set{false,
                       {{P::back_left, rim(f.x0, f.y1)},
                        {P::back_right, rim(f.x1, f.y1)},
                        {P::front_right, rim(f.x1, f.y0)},
                        {P::front, rim((f.x0 + f.x1) / 2, f.y0)}},
                       {}};
  const facts::AsSet found = measure_as_set(*model, set);
  EXPECT_NEAR(found.gx, 0, 1e-12);
  EXPECT_NEAR(found.twist_mm, 0, 1e-9);
}

TEST(AsSet, ReadingsOnUpstandsAndThresholdMixWithThoseOnTheRim) {
  // Source: closed form: whatever place a rule is held to, a base that lies as designed reads its designed heights, and
  // one tilted about the entry by 1/4 in over its depth reads these plus its share of that.
  const job::Job j = sample::alcove();
  const auto model = parts::build(j);
  const job::Layout at = job::lay_out(j);
  using P = job::RimPoint;
  using On = job::ReadOn;
  for (const double slope : {0.0, 0.25 / 36}) {
    const auto read = [&](P point, On on, double height, double y) {
      return job::RimReading{point, Length::mm(height + slope * (y - at.base.y0)), on};
    };
    const job::AsSet set{false,
                         {read(P::back_left, On::upstands, at.upstand_top, at.base.y1),
                          read(P::back_right, On::rim, at.rim_greatest(), at.floor.y1),
                          read(P::right, On::upstands, at.upstand_top, (at.base.y0 + at.base.y1) / 2),
                          read(P::front_left, On::threshold, at.threshold_outer, at.base.y0),
                          read(P::front, On::rim, at.rim_greatest(), at.floor.y0)},
                         {}};
    const facts::AsSet found = measure_as_set(*model, set);
    EXPECT_NEAR(found.gx, 0, 1e-9);
    EXPECT_NEAR(found.gy, slope, 1e-9);
    EXPECT_NEAR(found.twist_mm, 0, 1e-6);
    EXPECT_FALSE(found.raised_mm) << "no height of the line is known";
  }
}

TEST(AsSet, ALineOfKnownHeightTellsHowHighTheBaseLies) {
  // Source: closed form: read from a line 40 in above the datum, a base an eighth too high has its drain's body and its
  // edge under the apron an eighth higher, wherever it is read.
  const job::Job j = sample::alcove();
  const auto model = parts::build(j);
  const job::Layout at = job::lay_out(j);
  using P = job::RimPoint;
  for (const double high : {-0.125 * 25.4, 0.0, 0.125 * 25.4}) {
    const Length down = inches(40) - Length::mm(at.rim_greatest() + high);
    const job::AsSet set{
        true, {{P::back_left, down}, {P::back_right, down}, {P::front_right, down}, {P::front_left, down}}, inches(40)};
    const facts::AsSet found = measure_as_set(*model, set);
    EXPECT_NEAR(*found.raised_mm, high, 1e-6);
    EXPECT_NEAR(*found.drain_body_mm, at.drain_top + high - j.drain.body_depth.in_mm(), 1e-6);
    EXPECT_NEAR(*found.apron_least_mm, -high, 1e-6) << "the apron stands on the base's upstand, as designed";
    EXPECT_NEAR(*found.apron_greatest_mm, -high, 1e-6);
  }
}

TEST(AsSet, ATiltedBasesDrainLiesWhereItsPlaneDoes) {
  // Source: closed form: a plane that rises a thousandth to the right and two toward the entry, read at the rim's four
  // corners, stands over the drain as far above its design as at that place of it.
  const job::Job j = sample::alcove();
  const auto model = parts::build(j);
  const job::Layout at = job::lay_out(j);
  using P = job::RimPoint;
  const auto over = [&](double x, double y) { return 3 + 0.001 * (x - at.floor.x0) - 0.002 * (y - at.floor.y0); };
  const auto down = [&](double x, double y) { return inches(40) - Length::mm(at.rim_greatest() + over(x, y)); };
  const job::Rect& f = at.floor;
  const job::AsSet set{true,
                       {{P::back_left, down(f.x0, f.y1)},
                        {P::back_right, down(f.x1, f.y1)},
                        {P::front_right, down(f.x1, f.y0)},
                        {P::front_left, down(f.x0, f.y0)}},
                       inches(40)};
  const facts::AsSet found = measure_as_set(*model, set);
  EXPECT_NEAR(*found.raised_mm, over(at.drain_x, at.drain_y), 1e-6);
  EXPECT_NEAR(found.over_length_mm, 0.001 * j.base.length.in_mm(), 1e-6);
  EXPECT_NEAR(found.over_width_mm, -0.002 * j.base.width.in_mm(), 1e-6);
}

TEST(Chain, AddsUpOverAnyPoint) {
  // Source: property: from rung to rung the steps add up, and what lies there lies in the order it was built in.
  const auto model = parts::build(sample::surveyed(sample::alcove()));
  const facts::Facts facts = measure(*model);
  for (const auto& [x, y] : {std::pair{700., 300.}, {1500., 700.}, {200., 500.}}) {
    const auto chain = measure_chain(*model, facts, x, y);
    ASSERT_GT(chain.size(), 6u);
    for (std::size_t i = 1; i < chain.size(); ++i)
      EXPECT_NEAR(chain[i].above_last_mm, chain[i].above_datum_mm - chain[i - 1].above_datum_mm, 1e-12);
    const auto at = [&](const char* name) {
      const auto it = std::find_if(chain.begin(), chain.end(), [&](const auto& r) { return r.name == name; });
      return it == chain.end() ? -1e9 : it->above_datum_mm;
    };
    EXPECT_LT(at("deck, underside here"), at("subfloor here"));
    if (at("bed, top here") > -1e8) {
      EXPECT_LT(at("subfloor here"), at("bed, top here"));
      EXPECT_LT(at("bed, top here"), at("base, top here"));
    }
  }
}

TEST(Access, EntryOutletAndSeatAreMeasuredOnSolids) {
  // Source: arithmetic on the sample: 72 in between studs less a 14-1/2 in bench frame with a 1/2 in apron, 57 in; seat
  // 14-1/2 + 1/2 deep; outlet 2 in.
  const facts::Facts facts = sample::alcove_facts();
  EXPECT_NEAR(*facts.clear.entry_mm, 57 * 25.4, 1e-6);
  EXPECT_NEAR(*facts.clear.seat_depth_mm, 15 * 25.4, 1e-6);
  EXPECT_NEAR(*facts.drain.outlet_mm, 2 * 25.4, 1e-6);
}

TEST(Survey, AStudThatWasReadIsToldWhereTheTapeHadIt) {
  // Source: by hand: side walls that both lean over to one side by 2 in over 36 in make one corner narrow, where the
  // back wall's framing is in the way of a stud 3/4 in from it; it was read there all the same. Read from the other end
  // of a wall 36.06 in long it is told from the back.
  for (const double lean : {2 * in, -2 * in}) {
    job::Job j = sample::alcove();
    sample::read_plan(j, {0, 36 * in}, {72 * in, 36 * in}, {lean, 0}, {72 * in + lean, 0});
    const double length = std::hypot(36 * in, lean);
    j.survey.studs = {{Side::left, Side::back, {0.75 * in, 16 * in, 35 * in}},
                      {Side::right, Side::front, {length - 35 * in, length - 16 * in, length - 0.75 * in}}};
    std::vector<double> left, right;
    for (const facts::StudGap& stud : measured(j).room.studs)
      if (stud.wall != Side::back) (stud.wall == Side::left ? left : right).push_back(stud.running_mm / in);
    for (std::vector<double>* found : {&left, &right}) {
      std::sort(found->begin(), found->end());
      ASSERT_EQ(found->size(), 3U);
      EXPECT_NEAR((*found)[0], 0.75, 1e-3);
      EXPECT_NEAR((*found)[1], 16, 1e-3);
      EXPECT_NEAR((*found)[2], 35, 1e-3);
    }
  }
}

TEST(Access, AnEntryIsAsWideAsStudsThatWereReadThere) {
  // Source: by hand: side walls 36 in long whose last studs stand 30 in from the back end 5-1/4 in short of the entry:
  // nothing tells its width. A bench at the left bounds it on that side, and no wall. With a stud at the end both do.
  job::Job j = sample::alcove();
  const auto read_to = [&](double last) {
    j.survey.studs.clear();
    for (const Side side : {Side::left, Side::right})
      j.survey.studs.push_back({side, Side::back, {0.75 * 25.4, 16 * 25.4, last * 25.4}});
    return measured(j).clear;
  };
  facts::Clear clear = read_to(30);
  EXPECT_FALSE(clear.entry_mm || clear.compartment.face_mm);
  EXPECT_EQ(clear.nothing_at_entry, std::vector<Side>{Side::right});
  EXPECT_EQ(clear.compartment.no_stud_at_entry, (std::vector<Side>{Side::left, Side::right}));
  clear = read_to(35.25);
  EXPECT_NEAR(clear.entry_mm.value_or(0) / 25.4, 57, 1e-6);
  EXPECT_NEAR(clear.compartment.face_mm.value_or(0) / 25.4, 72, 1e-6);
  EXPECT_TRUE(clear.nothing_at_entry.empty() && clear.compartment.no_stud_at_entry.empty());
}

TEST(Access, BlockingBehindAFixtureIsAShareOfItsPlate) {
  // Source: by hand: a row of 3-1/2 in blocking centred 34 in up, studs at 16 in: a 3 in plate at 34 is all backed, one
  // at 34 + 1-3/4 is half, one at 50 between studs is not backed at all.
  job::Job j = sample::alcove();
  const auto fixture = [&](double along, double height) {
    j.fixtures.push_back({"bar", Side::back, inches(along), inches(height), inches(3), inches(3)});
  };
  fixture(24, 34), fixture(24, 35.75), fixture(24, 50), fixture(24, 34 + 3.25);
  const auto b = measured(j).backings;
  ASSERT_EQ(b.size(), 4u);
  EXPECT_NEAR(b[0].share, 1, 1e-9);
  EXPECT_NEAR(b[1].share, 0.5, 1e-9);
  EXPECT_NEAR(b[2].share, 0, 1e-9);
  EXPECT_NEAR(b[3].share, 0, 1e-9);
}

TEST(SurveyedWalls, KeepTheirStudsAtTheSizeOfTheStock) {
  // Source: a stick's section is its stock's, however the wall stands and leans.
  job::Job job = sample::surveyed(sample::alcove());
  sample::read_plan(job, {0, 914}, {1830, 914}, {-30, 0}, {1870, 0});
  int studs = 0;
  for (const facts::Member& m : measured(job).members) {
    if (m.part_id.rfind("wall-", 0) != 0 || m.part_id.find("/stud-") == std::string::npos) continue;
    ++studs;
    EXPECT_NEAR(m.width_mm, 88.9, 1e-6) << m.part_id;
    EXPECT_NEAR(m.thickness_mm, 38.1, 1e-6) << m.part_id;
  }
  EXPECT_GT(studs, 8);
}

TEST(Survey, TellsByHowMuchSideWallsEndApart) {
  // Source: by hand: a left wall that runs 2 in past the right one's end, and its mirror; a plan that nobody read tells
  // nothing.
  job::Job j = sample::alcove();
  const auto apart = [&] { return measure::measure(*parts::build(j)).room.ends_apart_mm; };
  EXPECT_FALSE(apart() && std::abs(*apart()) > 1e-9);
  sample::read_plan(j, {0, 36 * in}, {72 * in, 36 * in}, {0, -2 * in}, {72 * in, 0});
  ASSERT_TRUE(apart());
  EXPECT_NEAR(*apart(), 2 * in, 1e-3);
  sample::read_plan(j, {0, 36 * in}, {72 * in, 36 * in}, {0, 0}, {72 * in, -2 * in});
  EXPECT_NEAR(*apart(), -2 * in, 1e-3);
}

}  // namespace
}  // namespace fallwright::measure
