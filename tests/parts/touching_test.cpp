/// Plans whose lines and arcs touch without crossing, and solids that hang together along a line.
#include <algorithm>
#include <array>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "brep/plan.hpp"
#include "brep/properties.hpp"
#include "brep/relief.hpp"
#include "job/layout.hpp"
#include "job/read.hpp"
#include "job/validate.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "parts/touching.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::parts {
namespace {

using job::Length;
using job::Side;

/// The bore with its collar as wide as the base's square collar round the drain.
job::Job bore_touching_its_collar() {
  job::Job j = sample::alcove();
  j.drain.size = inches(4);
  j.base.shell = inches(0.75);
  j.bed.collar = inches(0.5);
  j.drain.bore = inches(4.5);
  return j;
}

TEST(TouchingPlans, BoreThatTouchesTheSquareCollarIsBuilt) {
  // Source: continuity: the volume lies between those of bores a sixty-fourth narrower and wider.
  const job::Job j = bore_touching_its_collar();
  ASSERT_TRUE(job::contradictions(j).empty());
  const auto bed_with = [&](double bore_in) {
    job::Job other = j;
    other.drain.bore = inches(bore_in);
    const auto model = build(other);
    EXPECT_TRUE(brep::is_sound(model->find("bed")->shape)) << bore_in;
    EXPECT_TRUE(brep::is_sound(model->find("base")->shape)) << bore_in;
    return brep::volume_mm3(model->find("bed")->shape);
  };
  const double narrower = bed_with(4.5 - 1. / 64), touching = bed_with(4.5), wider = bed_with(4.5 + 1. / 64);
  EXPECT_LT(wider, touching);
  EXPECT_LT(touching, narrower);
  EXPECT_NEAR(touching, (narrower + wider) / 2, (narrower - wider) / 15);
}

TEST(TouchingPlans, BoreAsWideAsTheOpeningOfABaseBuiltOnSiteIsBuilt) {
  // Source: continuity, as above: nothing stays solid round that opening, and the bed's hole touches its sides or its
  // corners.
  const std::string job =
      "[job]\nname = \"x\"\nunit = \"in\"\n[alcove]\nwidth = 67.875\ndepth = 48.6\n[base]\nkind = \"site-built\"\n"
      "fall = \"1.6 %\"\ncover = 1.5\n[drain]\nsize = 4.625\nfrom_right = 42.05\nfrom_front = 17.77\nbody = 3.25\n"
      "bore = 4.5\n[bed]\nleast = 0.5\ncollar = 0\n";
  const std::string skew =
      "[survey.plan]\nback = 67.875\nleft = 48.6\nright = 48.6\nfront = 67.5\n"
      "diagonal_from_back_left = 83.1\n";
  for (const std::string& room : {job, job + skew})
    for (const double at : {4.625, 4.625 * std::sqrt(2.)}) {
      const job::Job j = job::read(room, "x.toml");
      const auto bed_with = [&](double bore_in) {
        job::Job other = j;
        other.drain.bore = inches(bore_in);
        const auto model = build(other);
        EXPECT_TRUE(brep::is_sound(model->find("bed")->shape)) << bore_in;
        return brep::volume_mm3(model->find("bed")->shape);
      };
      const double narrower = bed_with(at - 1. / 64), touching = bed_with(at), wider = bed_with(at + 1. / 64);
      EXPECT_LT(wider, touching);
      EXPECT_LT(touching, narrower);
    }
}

/// A drain whose ring of solid base reaches just to a pocket's side (or corner), from `beyond` past it.
job::Job ring_touching_a_pocket(bool round, bool mirrored, double beyond_mm, bool corner) {
  job::Job j = sample::alcove();
  j.drain.opening = round ? job::Opening::round : job::Opening::square;
  const double rib = j.base.ribs.width.in_mm();
  const double pitch_x = (j.base.length.in_mm() - rib) / j.base.ribs.columns;
  const double pitch_y = (j.base.width.in_mm() - rib) / j.base.ribs.rows;
  const double ring = j.drain.bore.in_mm() / 2 + j.bed.collar.in_mm() + beyond_mm;
  const double x = rib + 4 * pitch_x, y = rib + 2 * pitch_y;  // a pocket's corner
  const double along = corner ? std::sqrt(0.5) * ring : ring, across = corner ? -along : 20;
  j.drain.across = {mirrored ? job::Side::right : job::Side::left, Length::mm(x - across)};
  j.drain.along = {job::Side::front, Length::mm(y - along)};
  return j;
}

TEST(TouchingPlans, RingRoundTheDrainThatTouchesAPocketIsBuilt) {
  // Source: continuity: with the drain a tenth of a millimetre either way base and bed are nearly as large.
  for (const bool round : {true, false})
    for (const bool mirrored : {false, true})
      for (const bool corner : {false, true}) {
        double last = 0;
        for (const double beyond : {-0.1, -1e-7, 0., 1e-7, 1e-4, 0.1}) {
          const job::Job j = ring_touching_a_pocket(round, mirrored, beyond, corner);
          ASSERT_TRUE(job::contradictions(j).empty());
          const auto base_shape = build_base(j).shape, bed_shape = build_bed(j).shape;
          EXPECT_TRUE(brep::is_sound(base_shape)) << round << mirrored << corner << beyond;
          EXPECT_TRUE(brep::is_sound(bed_shape)) << round << mirrored << corner << beyond;
          const double bed = brep::volume_mm3(bed_shape);
          if (last > 0) {
            EXPECT_NEAR(bed, last, 2e-4 * bed) << beyond;
          }
          last = bed;
        }
      }
}

TEST(TouchingCircles, AreMovedPastWhatTheyTouchUnlessTheyAreOneWithIt) {
  // Source: by hand: a circle a hair from one that is there becomes that one, unless that touches something; one that
  // is near nothing stays; past what it touches it goes by a hair, and on to the next.
  const double near = 50 + hair_mm / 2, eps = 1e-12;
  EXPECT_EQ(clear_of(near, {30}, {20, 50}), 50);
  EXPECT_EQ(clear_of(near, {30}, {50, 20}), 50);
  EXPECT_EQ(clear_of(near, {30}, {20, 70}), near);
  EXPECT_NEAR(clear_of(near, {50}, {20, 50}), 50 + hair_mm, eps);
  EXPECT_NEAR(clear_of(near, {50}), 50 + hair_mm, eps);
  EXPECT_NEAR(clear_of(near, {50 + 1.5 * hair_mm, 50}), 50 + 2.5 * hair_mm, eps);
  EXPECT_EQ(clear_of(50 + 2 * hair_mm, {50}), 50 + 2 * hair_mm);
}

TEST(TouchingCircles, GoByCornersSidesAndArcsOfOtherCentres) {
  // Source: by hand: about the middle of a square of 40 its sides are 20 away and its corners hypot(20, 20); about a
  // point 100 to the left of it the nearest side 80; a circle of 5 that stands 30 off reaches from 25 to 35. What runs
  // round the centre itself is its own, and nothing at its radius counts as touched.
  std::vector<double> radii, own;
  const auto sorted = [](std::vector<double> all) {
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end(), [](double a, double b) { return b - a < 1e-9; }), all.end());
    return all;
  };
  add_touching({brep::rectangle(-20, -20, 20, 20)}, {0, 0}, radii, own);
  EXPECT_THAT(sorted(radii),
              testing::ElementsAre(testing::DoubleNear(20, 1e-9), testing::DoubleNear(std::sqrt(800), 1e-9)));
  EXPECT_TRUE(own.empty());
  radii.clear();
  add_touching({brep::rectangle(-10, -20, 40, 70)}, {0, 0}, radii, own);
  for (const double side : {10., 20., 40., 70.})
    EXPECT_TRUE(std::any_of(radii.begin(), radii.end(), [&](double r) { return std::abs(r - side) < 1e-9; }))
        << "every side, the first and the last too: " << side;
  radii.clear();
  add_touching({brep::rectangle(-20, -20, 20, 20)}, {-100, 0}, radii, own);
  EXPECT_THAT(sorted(radii),
              testing::ElementsAre(testing::DoubleNear(80, 1e-9), testing::DoubleNear(std::hypot(80, 20), 1e-9),
                                   testing::DoubleNear(120, 1e-9), testing::DoubleNear(std::hypot(120, 20), 1e-9)));
  radii.clear();
  add_touching({brep::circle({30, 0}, 5)}, {0, 0}, radii, own);
  EXPECT_NEAR(sorted(radii).front(), 25, 1e-9);
  EXPECT_NEAR(sorted(radii).back(), 35, 1e-9);
  radii.clear();
  add_touching({brep::circle({0, 0}, 10), brep::circle({0, 0}, 20), brep::rectangle(-20, -20, 20, 20)}, {0, 0}, radii,
               own);
  EXPECT_THAT(sorted(own), testing::ElementsAre(testing::DoubleNear(10, 1e-9), testing::DoubleNear(20, 1e-9)));
  EXPECT_THAT(sorted(radii), testing::ElementsAre(testing::DoubleNear(std::sqrt(800), 1e-9)));
}

TEST(SoundSolids, PartTwoFacesAtEveryEdge) {
  // Source: closed form: two cubes over a chequered plan share one upright edge, where four faces meet.
  const brep::Relief top{{{brep::rectangle(0, 0, 1, 1)}, {1}}, {{brep::rectangle(1, 1, 2, 2)}, {1}}};
  const brep::Relief bottom{{{brep::rectangle(0, 0, 1, 1)}, {0}}, {{brep::rectangle(1, 1, 2, 2)}, {0}}};
  const auto solid = brep::between(top, bottom, "cubes").solid;
  EXPECT_NEAR(brep::volume_mm3(solid), 2, 1e-9);
  EXPECT_FALSE(brep::is_sound(solid));
}

TEST(ShellWithoutRibs, IsRefusedWhereTheLedgeDoesNotHoldOnToIt) {
  // Source: closed form: shell less recess is what holds the ledge; with nothing left they meet in a line.
  job::Job j = sample::alcove();
  j.base.ribs = {};
  j.base.shell = j.drain.recess;
  const auto refused = job::contradictions(j);
  ASSERT_EQ(refused.size(), 1u);
  EXPECT_EQ(refused.front().key, "base.shell");
  j.base.shell = j.drain.recess + Length::mm(2);
  ASSERT_TRUE(job::contradictions(j).empty());
  EXPECT_TRUE(brep::is_sound(build(j)->find("base")->shape));
}

TEST(TouchingPlans, BoreAndBedTouchWhereTheReadFloorChangesItsSlope) {
  // Source: continuity, as above: spots at one width make a crease of the floor along it, and the drain goes past it
  // in steps that let the bore, and then the bed's hole, touch it from either side.
  job::Job j = sample::alcove();
  const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm(), crease = 0.6 * w;
  const double bore = j.drain.bore.in_mm() / 2, hole = bore + j.bed.collar.in_mm();
  j.drain.across = {Side::left, inches(30)};
  const double of_drain = j.drain.across.distance.in_mm() - job::lay_out(j).drain_x;  // from the base's edge to where
  // One spot so near that creases leave it through the bore as well.
  const double near = job::lay_out(j).drain_y - 38;
  j.survey.spots = {{50, 50, 0},     {crease, near, 9},    {w - 50, 50, 3},
                    {50, d - 50, 6}, {crease, d - 50, 12}, {w - 50, d - 50, 15}};
  std::size_t built = 0;
  for (const double radius : {bore, hole})
    for (const double side : {-1., 1.}) {
      std::array<double, 3> volumes{};
      for (std::size_t i = 0; i < 3; ++i) {
        job::Job other = j;
        other.drain.across = {Side::left,
                              Length::mm(of_drain + crease + side * radius + 0.4 * (static_cast<double>(i) - 1))};
        const auto model = build(other);
        const job::Layout layout = job::lay_out(other);
        if (i == 1) {
          EXPECT_NEAR(std::abs(layout.drain_x - crease), radius, 1e-6) << "it does not touch";
        }
        for (const char* id : {"subfloor", "bed", "bed-spread", "base"})
          EXPECT_TRUE(brep::is_sound(model->find(id)->shape)) << id << " " << radius << " " << side << " " << i;
        volumes[i] = brep::volume_mm3(model->find("subfloor")->shape);
        ++built;
      }
      EXPECT_NEAR(volumes[1], (volumes[0] + volumes[2]) / 2, 120) << "mm3: a bore wider by a hair";
    }
  EXPECT_EQ(built, 12u);
}

}  // namespace
}  // namespace fallwright::parts
