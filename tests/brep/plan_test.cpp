#include "brep/plan.hpp"

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
