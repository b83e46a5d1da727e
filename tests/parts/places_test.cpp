// Where every stick and slab stands, by hand in inches: boxes of solids in rooms whose sides are not alike.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "brep/properties.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "parts/stick.hpp"
#include "support/imperial.hpp"
#include "support/skew_room.hpp"

namespace fallwright::parts {
namespace {

using job::Length;
using job::Side;

struct Box {
  const char* id;
  double x0, y0, z0, x1, y1, z1;
};

void expect_boxes(const Model& model, const std::vector<Box>& wanted) {
  for (const Box& w : wanted) {
    const Solid* solid = model.find(w.id);
    ASSERT_TRUE(solid) << w.id;
    const auto b = brep::box_of(solid->shape);
    const double all[] = {w.x0, w.y0, w.z0, w.x1, w.y1, w.z1};
    for (std::size_t i = 0; i < 6; ++i) EXPECT_NEAR(b[i] / in, all[i], 1e-4) << w.id << " side " << i;
  }
}

std::size_t count(const Model& model, const std::string& family) {
  std::size_t n = 0;
  for (const Solid& solid : model.solids) n += solid.id.rfind(family, 0) == 0;
  return n;
}

/// 80 x 40 with a bench of 15 at one end and a base of 65 x 40 beside it; studs of 2x4 every 16, two top plates.
job::Job plain(job::Side place) {
  job::Job j = sample::alcove();
  j.alcove.width = inches(80), j.alcove.depth = inches(40);
  j.walls.top_plates = 2;
  j.bench->place = place, j.bench->depth = inches(15);
  j.base.length = inches(65), j.base.width = inches(40);
  return j;
}

TEST(Places, OfWalls) {
  // Source: by hand: the back wall runs on behind the side walls, 3-1/2 each way, with a stud at either end, one in
  // each inside corner and one every 16 from the left corner, but where one stands already (80). Side walls count
  // theirs from the back corner. Plates 1-1/2, the upper two below 96.
  const auto model = build(plain(job::Side::left));
  expect_boxes(*model, {{"wall-back/sole-plate", -3.5, 40, 0, 83.5, 43.5, 1.5},
                        {"wall-back/top-plate-01", -3.5, 40, 93, 83.5, 43.5, 94.5},
                        {"wall-back/top-plate-02", -3.5, 40, 94.5, 83.5, 43.5, 96},
                        {"wall-back/stud-01", -3.5, 40, 1.5, -2, 43.5, 93},
                        {"wall-back/stud-02", 0, 40, 1.5, 1.5, 43.5, 93},
                        {"wall-back/stud-03", 15.25, 40, 1.5, 16.75, 43.5, 93},
                        {"wall-back/stud-04", 31.25, 40, 1.5, 32.75, 43.5, 93},
                        {"wall-back/stud-06", 63.25, 40, 1.5, 64.75, 43.5, 93},
                        {"wall-back/stud-07", 78.5, 40, 1.5, 80, 43.5, 93},
                        {"wall-back/stud-08", 82, 40, 1.5, 83.5, 43.5, 93},
                        {"wall-left/sole-plate", -3.5, 0, 0, 0, 40, 1.5},
                        {"wall-left/stud-01", -3.5, 0, 1.5, 0, 1.5, 93},
                        {"wall-left/stud-02", -3.5, 7.25, 1.5, 0, 8.75, 93},
                        {"wall-left/stud-03", -3.5, 23.25, 1.5, 0, 24.75, 93},
                        {"wall-left/stud-04", -3.5, 38.5, 1.5, 0, 40, 93},
                        {"wall-right/stud-01", 80, 38.5, 1.5, 83.5, 40, 93},
                        {"wall-right/stud-02", 80, 23.25, 1.5, 83.5, 24.75, 93},
                        {"wall-right/stud-03", 80, 7.25, 1.5, 83.5, 8.75, 93},
                        {"wall-right/stud-04", 80, 0, 1.5, 83.5, 1.5, 93},
                        {"wall-back/blocking-1-01", 1.5, 40, 4.25, 15.25, 41.5, 7.75},
                        {"wall-back/blocking-2-02", 16.75, 40, 32.25, 31.25, 41.5, 35.75},
                        {"wall-left/blocking-1-01", -1.5, 1.5, 4.25, 0, 7.25, 7.75},
                        {"wall-right/blocking-2-01", 80, 24.75, 32.25, 81.5, 38.5, 35.75}});
  EXPECT_EQ(count(*model, "wall-back/stud"), 8u);
  EXPECT_EQ(count(*model, "wall-left/stud"), 4u);
  EXPECT_EQ(count(*model, "wall-back/blocking"), 10u) << "none between the corner's studs, 2 in apart";
}

TEST(Places, NoBayOfANewWallIsWiderThanItsSpacing) {
  // Source: by hand: side walls 50 deep, studs every 16 from the back: the one at 48 would overlap that at the front's
  // end, at 49-1/4, and without it 17-1/4 would be left from 32: it stands tight beside that, at 47-3/4. Any depth
  // does.
  job::Job j = plain(job::Side::left);
  j.alcove.depth = inches(50);
  expect_boxes(build_framing(j), {{"wall-right/stud-04", 80, 1.5, 1.5, 83.5, 3, 93},
                                  {"wall-right/stud-05", 80, 0, 1.5, 83.5, 1.5, 93},
                                  {"wall-left/stud-02", -3.5, 1.5, 1.5, 0, 3, 93}});
  for (double depth = 40; depth <= 66; depth += 0.5) {
    j.alcove.depth = inches(depth), j.alcove.width = inches(depth + 40);
    const Model model = build_framing(j);
    for (const auto& [wall, axis] : {std::pair{Side::left, 1}, {Side::right, 1}, {Side::back, 0}}) {
      std::vector<double> places;
      for (const Solid& solid : model.solids)
        if (solid.part.is(Role::wall, Kind::stud) && solid.part.family.wall == wall)
          places.push_back(brep::box_of(solid.shape)[static_cast<std::size_t>(axis)] / in);
      std::sort(places.begin(), places.end());
      for (std::size_t i = 0; i + 1 < places.size(); ++i) {
        EXPECT_LE(places[i + 1] - places[i], 16 + 1e-6) << name_of(wall) << " of a room " << depth << " deep";
        EXPECT_GE(places[i + 1] - places[i], 1.5 - 1e-6) << name_of(wall) << " of a room " << depth << " deep";
      }
    }
  }
}

TEST(Places, OfStudsThatStandAlready) {
  // Source: by hand: centres from the corner that was named.
  job::Job j = plain(job::Side::left);
  j.walls.existing = true;
  j.survey.studs = {{Side::back, Side::right, {20 * in, 36.5 * in}},
                    {Side::left, Side::front, {10 * in}},
                    {Side::right, Side::back, {12 * in, 0}}};
  const auto model = build(j);
  expect_boxes(*model, {{"wall-back/stud-01", 42.75, 40, 1.5, 44.25, 43.5, 93},
                        {"wall-back/stud-02", 59.25, 40, 1.5, 60.75, 43.5, 93},
                        {"wall-left/stud-01", -3.5, 9.25, 1.5, 0, 10.75, 93},
                        {"wall-right/stud-01", 80, 38.5, 1.5, 83.5, 40, 93},
                        {"wall-right/stud-02", 80, 27.25, 1.5, 83.5, 28.75, 93}});
  EXPECT_EQ(count(*model, "wall-back/stud"), 2u);
  EXPECT_FALSE(model->find("wall-back/stud-01")->cut) << "what stands is not cut";
  EXPECT_TRUE(model->find("wall-back/blocking-1-01")->cut);
  j.survey.studs[1].from = Side::back, j.survey.studs[2].from = Side::front, j.survey.studs[0].from = Side::left;
  expect_boxes(*build(j), {{"wall-back/stud-01", 19.25, 40, 1.5, 20.75, 43.5, 93},
                           {"wall-left/stud-01", -3.5, 29.25, 1.5, 0, 30.75, 93},
                           {"wall-right/stud-01", 80, 11.25, 1.5, 83.5, 12.75, 93}});
}

TEST(Places, OfATimberBenchAtEitherEndAndAtTheBack) {
  // Source: by hand: seat 18 less 1-1/4 and 3/4: joists' top at 16, plates' at 12-1/2; the knee wall 3-1/2 deep at the
  // front; members evenly 38-1/2 / 3 apart; the first from the back is an end cleat, as the back is walled.
  const double step = 38.5 / 3;
  const auto left = build(plain(job::Side::left));
  expect_boxes(*left, {{"bench-frame/sole-plate", 11.5, 0, 0, 15, 40, 1.5},
                       {"bench-frame/top-plate", 11.5, 0, 11, 15, 40, 12.5},
                       {"bench-frame/front-rail", 13.5, 0, 12.5, 15, 40, 16},
                       {"bench-frame/wall-cleat", 0, 0, 9, 1.5, 40, 12.5},
                       {"bench-frame/deck", 0, 0, 16, 15, 40, 16.75},
                       {"bench-frame/stud-01", 11.5, 38.5, 1.5, 15, 40, 11},
                       {"bench-frame/stud-02", 11.5, 38.5 - step, 1.5, 15, 40 - step, 11},
                       {"bench-frame/end-cleat-01", 0, 38.5, 12.5, 13.5, 40, 16},
                       {"bench-frame/joist-01", 0, 38.5 - step, 12.5, 13.5, 40 - step, 16},
                       {"bench-frame/joist-03", 0, 0, 12.5, 13.5, 1.5, 16},
                       {"seat-block", 0, 0, 5.5, 15.5, 40, 18 + 15. / 48 + 3},
                       {"base", 15, 0, 0.5, 80, 40, 5.5}});
  const auto right = build(plain(job::Side::right));
  expect_boxes(*right, {{"bench-frame/sole-plate", 65, 0, 0, 68.5, 40, 1.5},
                        {"bench-frame/front-rail", 65, 0, 12.5, 66.5, 40, 16},
                        {"bench-frame/wall-cleat", 78.5, 0, 9, 80, 40, 12.5},
                        {"bench-frame/stud-01", 65, 0, 1.5, 68.5, 1.5, 11},
                        {"bench-frame/end-cleat-01", 66.5, 38.5, 12.5, 80, 40, 16},
                        {"bench-frame/joist-01", 66.5, 0, 12.5, 80, 1.5, 16},
                        {"seat-block", 64.5, 0, 5.5, 80, 40, 18 + 15. / 48 + 3},
                        {"base", 0, 0, 0.5, 65, 40, 5.5}});
  job::Job j = plain(job::Side::back);
  j.base.length = inches(80), j.base.width = inches(25), j.drain.along = {Side::back, inches(11)};
  const double across = 78.5 / 5;
  const auto back = build(j);
  expect_boxes(*back, {{"bench-frame/sole-plate", 0, 25, 0, 80, 28.5, 1.5},
                       {"bench-frame/front-rail", 0, 25, 12.5, 80, 26.5, 16},
                       {"bench-frame/wall-cleat", 0, 38.5, 9, 80, 40, 12.5},
                       {"bench-frame/stud-01", 78.5, 25, 1.5, 80, 28.5, 11},
                       {"bench-frame/stud-02", 78.5 - across, 25, 1.5, 80 - across, 28.5, 11},
                       {"bench-frame/end-cleat-01", 78.5, 26.5, 12.5, 80, 40, 16},
                       {"bench-frame/end-cleat-02", 0, 26.5, 12.5, 1.5, 40, 16},
                       {"bench-frame/joist-01", 78.5 - across, 26.5, 12.5, 80 - across, 40, 16},
                       {"seat-block", 0, 24.5, 5.5, 80, 40, 18 + 15. / 48 + 3},
                       {"base", 0, 0, 0.5, 80, 25, 5.5}});
}

TEST(Places, OfASteelBench) {
  // Source: by hand: studs 350S162-33, tracks 3-1/2 deep inside, of sheet 0.0346 bent to 0.0764: 3.5692 outside. Joists
  // and tracks lie under a deck from 16 to 16-3/4; studs stand off the tracks' bends by sheet and radius, 0.111.
  job::Job j = plain(job::Side::left);
  std::string why;
  j.bench->frame.kind = job::FrameKind::steel;
  j.bench->frame.stock = *job::parse_stock("350S162-33", why),
  j.bench->frame.track = *job::parse_stock("350T125-33", why);
  const double t = 0.0346, out = 3.5 + 2 * t, gap = t + 0.0764, plate = 16 - out;
  const auto model = build(j);
  expect_boxes(*model, {{"bench-frame/sole-track", 15 - out, 0, 0, 15, 40, 1.25},
                        {"bench-frame/top-track", 15 - out, 0, plate - 1.25, 15, 40, plate},
                        {"bench-frame/wall-track", 0, 0, plate, 1.25, 40, 16},
                        {"bench-frame/front-track", 13.75, 0, plate, 15, 40, 16},
                        {"bench-frame/deck", 0, 0, 16, 15, 40, 16.75},
                        {"bench-frame/stud-01", 15 - out + t, 40 - 1.625, gap, 15 - t, 40, plate - gap},
                        {"bench-frame/joist-03", gap, 0, plate + t, 15 - gap, 1.625, 16 - t}});
  const Solid& track = *model->find("bench-frame/sole-track");
  EXPECT_EQ(track.material, "steel");
  EXPECT_EQ(track.density_kg_m3, 7850);
  // Flat strip of the same middle line: two flanges and a web, each corner's outside cut by its bend.
  const double middle = 0.0764 + t / 2, bend = M_PI / 2 * middle - 2 * (0.0764 + t);
  EXPECT_NEAR(brep::volume_mm3(track.shape) / std::pow(in, 3), 40 * t * (2 * 1.25 + out + 2 * bend), 1e-3);
  EXPECT_EQ(model->find("bench-frame/deck")->material, "plywood");
  EXPECT_EQ(model->find("bench-frame/deck")->density_kg_m3, 600);
  EXPECT_EQ(model->find("wall-back/stud-01")->density_kg_m3, 450);
}

TEST(Places, OfDrainBedAndFloor) {
  // Source: by hand: the drain's grate 4 across at 1-1/2, its body down to -2-1/2; the bed from 1/2 inside the framing,
  // and 1/2 past the entry; the deck runs 3-1/2 under walls and 12 past the entry; joists 9-1/4 deep under its 3/4,
  // every 16 from 3.
  const auto model = build(plain(job::Side::left));
  expect_boxes(*model, {{"drain", 41.75, 21.75, -2.5, 45.75, 25.75, 1.5},
                        {"bed-spread", 15.5, -0.5, 0, 79.5, 39.5, 22. / 16},
                        {"subfloor", -3.5, -12, -0.75, 83.5, 43.5, 0},
                        {"joists/joist-01", 2.25, -12, -10, 3.75, 43.5, -0.75},
                        {"joists/joist-05", 66.25, -12, -10, 67.75, 43.5, -0.75}});
  EXPECT_EQ(count(*model, "joists/"), 5u) << "the next would end at 83.75, past the deck's 83.5";
  // The line it is spread to is the lowest mark at which it is enough: 64 x 40 in less a circle of 3.
  const double plan = 64 * 40 - M_PI * 9, set = brep::volume_mm3(model->find("bed")->shape) / std::pow(in, 3);
  EXPECT_GE(plan * 22 / 16, set);
  EXPECT_LT(plan * 21 / 16, set);
  const auto b = brep::box_of(model->find("bed")->shape);
  EXPECT_NEAR(b[0] / in, 15.5, 1e-6);
  EXPECT_NEAR(b[1] / in, -0.5, 1e-6);
  EXPECT_NEAR(b[3] / in, 79.5, 1e-6);
  EXPECT_NEAR(b[4] / in, 39.5, 1e-6);
}

TEST(Places, JoistsAlongTheWidthCountFromTheEntry) {
  // Source: by hand: 16 apart from 3, under a deck that runs from -12 to 43-1/2.
  job::Job j = plain(job::Side::left);
  j.floor.joist_direction = job::Direction::along_width;
  const auto model = build(j);
  expect_boxes(*model, {{"joists/joist-01", -3.5, 2.25, -10, 83.5, 3.75, -0.75},
                        {"joists/joist-03", -3.5, 34.25, -10, 83.5, 35.75, -0.75}});
  EXPECT_EQ(count(*model, "joists/"), 3u);
}

TEST(Places, JoistsStayWhereTheyWereReadWhenTheDrainMoves) {
  // Source: by hand: the left wall runs from (0, 36) to (-3, 0) in. A joist 7 in from it 12 in from the entry, where
  // its face stands at -2, has its middle at 5, wherever the drain is; read level with the bore it goes with that.
  job::Job j = plain(job::Side::right);
  j.alcove.width = inches(72), j.alcove.depth = inches(36);
  j.base.length = inches(57), j.base.width = inches(36);
  sample::read_plan(j, {0, 36 * in}, {72 * in, 36 * in}, {-3 * in, 0}, {72 * in, 0});
  j.floor.joist_first = inches(7);
  const auto middle = [&](double from_back) {
    j.drain.along.distance = inches(from_back);
    const auto b = brep::box_of(build(j)->find("joists/joist-01")->shape);
    return (b[0] + b[3]) / 2 / in;
  };
  const double bore = middle(12);
  EXPECT_NEAR(middle(24) - bore, -1, 1e-4) << "12 in nearer to the entry the wall stands an inch farther left";
  j.floor.joist_first_at = inches(12);
  EXPECT_NEAR(middle(24), 5, 1e-4);
  EXPECT_NEAR(middle(12), 5, 1e-4);
}

TEST(Places, NothingHangsInTheAir) {
  // Source: closed form: on a floor that falls, under walls that lean, every joist's top lies 3/4 in plumb under the
  // deck's plane and every stud's top reaches the plate above it.
  const auto model = build(sample::skew_room());
  const auto floor = [](double x, double y) { return -0.01 * (x - 1) - 0.01 * y; };
  for (const Solid& solid : model->solids) {
    const auto b = brep::box_of(solid.shape);
    if (solid.role == Role::joist) {
      EXPECT_NEAR(b[5] / in, floor(b[0] / in, b[1] / in) - 0.75, 1e-4) << solid.id;
      EXPECT_NEAR(b[2] / in, floor(b[3] / in, b[4] / in) - 10, 1e-4) << solid.id;
    }
    if (solid.role != Role::wall || solid.id.find("/stud-") == std::string::npos) continue;
    const std::string wall = solid.id.substr(0, solid.id.find('/'));
    EXPECT_NEAR(b[5], brep::box_of(model->find(wall + "/top-plate")->shape)[2], 1.6) << solid.id << ": within a mark";
    EXPECT_LE(b[5], brep::box_of(model->find(wall + "/top-plate")->shape)[2] + 1e-6) << solid.id;
  }
  const auto top = brep::box_of(model->find("wall-left/top-plate")->shape);
  double tallest = 0;
  for (const Solid& solid : model->solids)
    if (solid.id.rfind("wall-left/stud", 0) == 0) tallest = std::max(tallest, brep::box_of(solid.shape)[5]);
  EXPECT_NEAR(tallest, top[2], 1e-6);
}

TEST(Places, WhatTheTapeLeavesIsMissingAtTheEntry) {
  // Source: by hand: 40-1/32 deep is cut to 40: of a side wall's plate 1/32 is missing at the entry; 80-1/32 wide the
  // back wall's plate, 87-1/32, is cut to 87, a 64th short at either end. The bench stands tight to the back.
  job::Job j = plain(job::Side::right);
  j.cuts.to_tape = true;
  j.alcove.width = inches(80 + 1. / 32), j.alcove.depth = inches(40 + 1. / 32);
  const auto model = build(j);
  const double d = 40 + 1. / 32;
  expect_boxes(*model, {{"wall-left/sole-plate", -3.5, 1. / 32, 0, 0, d, 1.5},
                        {"wall-right/sole-plate", 80 + 1. / 32, 1. / 32, 0, 83.5 + 1. / 32, d, 1.5},
                        {"wall-back/sole-plate", -3.5 + 1. / 64, d, 0, 83.5 + 1. / 64, d + 3.5, 1.5},
                        {"bench-frame/sole-plate", 65 + 1. / 32, 1. / 32, 0, 68.5 + 1. / 32, d, 1.5}});
}

}  // namespace
}  // namespace fallwright::parts
