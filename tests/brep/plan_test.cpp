#include "brep/plan.hpp"

#include <cmath>
#include <numbers>
#include <random>

#include <gtest/gtest.h>

namespace fallwright::brep {
namespace {

double area_of(const std::vector<std::vector<Loop>>& regions) {
  double sum = 0;
  for (const auto& region : regions)
    for (const Loop& loop : region) sum += area(loop);
  return sum;
}

TEST(Area, CircleAndRectangle) {
  // Source: closed form, pi r2 and a b; a hole counts negative.
  EXPECT_NEAR(area(circle({3, 4}, 2)), 4 * std::numbers::pi, 1e-12);
  EXPECT_DOUBLE_EQ(area(rectangle(1, 2, 4, 6)), 12);
  EXPECT_NEAR(area(reversed(circle({3, 4}, 2))), -4 * std::numbers::pi, 1e-12);
}

TEST(Area, ShoelaceTriangle) {
  // Source: the shoelace formula's textbook triangle (0, pi), (0, 0), (2, 0), area pi; far from the origin as well.
  const double pi = std::numbers::pi;
  for (const double far : {0.0, 1e6}) EXPECT_NEAR(area({{{far, far + pi}}, {{far, far}}, {{far + 2, far}}}), pi, 1e-9);
}

TEST(Area, ItsCentreIsThatOfRectangleAndHalfDisc) {
  // Source: closed forms: the middle of a rectangle; 4 r / 3 pi from the straight side of a half disc; a rectangle with
  // a round hole off its middle, moments less each other.
  const PlanPoint box = moment(rectangle(1, 2, 5, 8));
  EXPECT_NEAR(box.x, 24 * 3, 1e-9);
  EXPECT_NEAR(box.y, 24 * 5, 1e-9);
  const auto half = clip({circle({10, 20}, 3)}, 0, 1, -20);
  ASSERT_EQ(half.size(), 1U);
  const PlanPoint above = moment(half.front().front());
  const double area_of_half = M_PI * 9 / 2;
  EXPECT_NEAR(above.x, area_of_half * 10, 1e-6);
  EXPECT_NEAR(above.y, area_of_half * (20 + 4 * 3 / (3 * M_PI)), 1e-6);
  const PlanPoint hole = moment(reversed(circle({10, 20}, 3)));
  EXPECT_NEAR(hole.x, -M_PI * 9 * 10, 1e-6);
  EXPECT_NEAR(hole.y, -M_PI * 9 * 20, 1e-6);
}

TEST(Inside, IsExactBesideAnArcAndRoundItsCorners) {
  // Source: closed form: a place lies in a disc of 50 by its distance from the middle, a hair from the circle as well;
  // a slot of two half discs and what lies between them; a rectangle with a half disc bitten out of its right side.
  const Loop disc = circle({10, 20}, 50);
  for (int i = 0; i < 360; ++i) {
    const double angle = (i + 0.4) * std::numbers::pi / 180;
    for (const double off : {-1e-5, 1e-5, -30., 30.}) {
      const PlanPoint at{10 + (50 + off) * std::cos(angle), 20 + (50 + off) * std::sin(angle)};
      EXPECT_EQ(inside(disc, at), off < 0) << i << " " << off;
      EXPECT_EQ(inside(reversed(disc), at), off < 0) << i << " " << off;
    }
  }
  const Loop bitten{{{0, 0}}, {{100, 0}}, {{100, 30}, PlanPoint{100, 50}, true}, {{100, 70}}, {{100, 100}}, {{0, 100}}};
  EXPECT_FALSE(inside(bitten, {80.01, 50}));
  EXPECT_TRUE(inside(bitten, {79.99, 50}));
  EXPECT_TRUE(inside(bitten, {90, 30}));
  EXPECT_FALSE(inside(bitten, {99, 35}));
  EXPECT_FALSE(inside(bitten, {110, 50}));
}

TEST(Clip, HalvesAddUpToTheWhole) {
  // Source: conservation of area; random lines through random convex polygons.
  std::mt19937 random{20240611};
  std::uniform_real_distribution<double> at{-50, 50};
  for (int i = 0; i < 500; ++i) {
    const Polygon box{{-40, -30}, {40, -30}, {40, 30}, {-40, 30}};
    const double a = at(random), b = at(random), c = at(random) * 20;
    const Polygon one = clip(box, a, b, c), two = clip(box, -a, -b, -c);
    EXPECT_NEAR((one.empty() ? 0 : area(to_loop(one))) + (two.empty() ? 0 : area(to_loop(two))), 4800, 1e-6);
  }
}

TEST(Clip, CutsArcsAndHoles) {
  // Source: closed form: a circular segment, r2 (w - sin w) / 2 for its angle w; and halves add up to the whole.
  const double pi = std::numbers::pi;
  const std::vector<Loop> ring{circle({0, 0}, 10), reversed(circle({0, 0}, 6))};
  EXPECT_NEAR(area_of(clip(ring, 1, 0, 0)), 32 * pi, 1e-9);
  EXPECT_NEAR(area_of(clip(ring, 0, 1, -5)),
              100 * (2 * pi / 3 - std::sin(2 * pi / 3)) / 2 -
                  36 * (2 * std::acos(5. / 6) - std::sin(2 * std::acos(5. / 6))) / 2,
              1e-9);
  EXPECT_NEAR(area_of(clip(ring, 0, 1, -6)), 100 * (2 * std::acos(0.6) - std::sin(2 * std::acos(0.6))) / 2, 1e-9);
  EXPECT_EQ(clip(ring, 1, 1, 0).size(), 1u);
  EXPECT_NEAR(area_of(clip(ring, 0, 1, 11)), 64 * pi, 1e-9);
  EXPECT_TRUE(clip(ring, 0, 1, -11).empty());
  const std::vector<Loop> notched{rectangle(0, 0, 100, 60), reversed(circle({40, 30}, 25))};
  std::mt19937 random{1};
  std::uniform_real_distribution<double> any{-1, 1};
  for (int i = 0; i < 200; ++i) {
    const double a = any(random), b = any(random), c = -(a * (50 + 40 * any(random)) + b * (30 + 25 * any(random)));
    EXPECT_NEAR(area_of(clip(notched, a, b, c)) + area_of(clip(notched, -a, -b, -c)), 6000 - 625 * pi, 1e-6) << i;
  }
}

TEST(Clip, LeavesNothingOfWhatOnlyTouchesTheLine) {
  // Source: closed form: an edge on the line belongs to the side its region lies on.
  const std::vector<Loop> box{rectangle(0, 0, 100, 60)};
  EXPECT_NEAR(area_of(clip(box, 1, 0, 0)), 6000, 1e-9);
  EXPECT_TRUE(clip(box, -1, 0, 0).empty());
  EXPECT_NEAR(area_of(clip(box, -1, 0, 100)), 6000, 1e-9);
}

TEST(OutsideDisc, CutsArcs) {
  // Source: closed form: a ring less a larger disc about its centre, and two discs of one size that go through each
  // other's centres, whose lens is r2 (2 pi / 3 - sqrt(3) / 2).
  const double pi = std::numbers::pi;
  const std::vector<Loop> ring{circle({0, 0}, 10), reversed(circle({0, 0}, 6))};
  EXPECT_NEAR(area_of(outside_disc(ring, {0, 0}, 8)), 36 * pi, 1e-9);
  EXPECT_NEAR(area_of(outside_disc({circle({0, 0}, 10)}, {10, 0}, 10)), 100 * (pi - 2 * pi / 3 + std::sqrt(3.0) / 2),
              1e-9);
}

TEST(OutsideDisc, LeavesTheAreaOutside) {
  // Source: closed forms: quarter disc at a corner, half disc at an edge, whole disc inside, lens of two strips.
  const std::vector<Loop> box{rectangle(0, 0, 100, 60)};
  const double pi = std::numbers::pi;
  EXPECT_NEAR(area_of(outside_disc(box, {0, 0}, 20)), 6000 - 100 * pi, 1e-9);
  EXPECT_NEAR(area_of(outside_disc(box, {50, 0}, 20)), 6000 - 200 * pi, 1e-9);
  EXPECT_NEAR(area_of(outside_disc(box, {50, 30}, 20)), 6000 - 400 * pi, 1e-9);
  EXPECT_NEAR(area_of(outside_disc(box, {300, 30}, 20)), 6000, 1e-9);
  EXPECT_TRUE(outside_disc(box, {50, 30}, 90).empty());
}

TEST(OutsideDisc, MayLeaveSeveralPieces) {
  // Source: symmetry; a disc higher than the box cuts it in two equal halves.
  const auto halves = outside_disc({rectangle(0, 0, 100, 20)}, {50, 10}, 15);
  ASSERT_EQ(halves.size(), 2u);
  EXPECT_NEAR(area(halves[0][0]), area(halves[1][0]), 1e-9);
}

TEST(Ground, IsTheOutlineLessTheRegions) {
  // Source: conservation of area.
  const std::vector<Loop> outline{rectangle(0, 0, 100, 60), reversed(circle({80, 30}, 10))};
  const Relief regions{{{rectangle(0, 0, 20, 20)}, {}}, {{rectangle(30, 30, 50, 50)}, {}}};
  const Relief rest = ground(outline, regions, {1});
  ASSERT_EQ(rest.size(), 1u);
  double sum = 0;
  for (const Loop& loop : rest[0].loops) sum += area(loop);
  EXPECT_NEAR(sum, 6000 - 100 * std::numbers::pi - 800, 1e-9);
}

TEST(Ground, ComesInPiecesWhereARegionCutsThePlan) {
  // Source: closed form, 100 x 60 less a strip of 10 across it.
  const Relief rest = ground({rectangle(0, 0, 100, 60)}, {{{rectangle(40, 0, 50, 60)}, {}}}, {1});
  ASSERT_EQ(rest.size(), 2u);
  EXPECT_NEAR(area(rest[0].loops[0]) + area(rest[1].loops[0]), 5400, 1e-9);
}

}  // namespace
}  // namespace fallwright::brep
