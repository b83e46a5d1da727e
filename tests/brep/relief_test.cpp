#include "brep/relief.hpp"

#include <cmath>
#include <numbers>
#include <utility>

#include <gtest/gtest.h>

#include "brep/plan.hpp"
#include "brep/properties.hpp"
#include "diag/fault.hpp"

namespace fallwright::brep {
namespace {

Region whole(const Loop& loop, const Plane& plane) {
  return {{loop}, plane};
}
Relief level(const Loop& loop, double z) {
  return {whole(loop, {z})};
}

double checked_volume(const TopoDS_Solid& solid) {
  EXPECT_TRUE(is_sound(solid));
  return volume_mm3(solid);
}

TEST(Between, PrismIsAreaTimesHeight) {
  // Source: Machinery's Handbook 31, p. 88, rectangular prism 6 x 5 x 4 = 120.
  const Loop plan = rectangle(0, 0, 6, 5);
  EXPECT_NEAR(checked_volume(between(level(plan, 4), level(plan, 0), "prism").solid), 120, 120e-12);
}

TEST(Between, HexagonalPrism) {
  // Source: Machinery's Handbook 31, p. 88, side 7.5, height 25: 3653.5 (2.598 s2 h).
  Loop plan;
  for (int i = 0; i < 6; ++i) {
    const double angle = i * std::numbers::pi / 3;
    plan.push_back({{7.5 * std::cos(angle), 7.5 * std::sin(angle)}});
  }
  EXPECT_NEAR(checked_volume(between(level(plan, 25), level(plan, 0), "prism").solid), 3653.5, 0.6);
}

TEST(Between, TruncatedTriangularPrismIsAreaTimesMeanEdge) {
  // Source: Philippine ME board examination, April 1996: sides 10, 9, 12, edges 8.6, 7.1, 5.5: 311.
  const double x = (10. * 10 + 9 * 9 - 12. * 12) / (2 * 10),
               y = std::sqrt(81 - x * x);  // apex, 9 from the first corner
  const PlanPoint a{0, 0}, b{10, 0}, c{x, y};
  const double gx = (7.1 - 8.6) / 10, gy = (5.5 - 8.6 - gx * c.x) / c.y;
  const Loop plan{{a}, {b}, {c}};
  const double volume = checked_volume(between({whole(plan, {8.6, gx, gy})}, level(plan, 0), "prism").solid);
  EXPECT_NEAR(volume, 311, 0.5);
  EXPECT_NEAR(volume, area(plan) * (8.6 + 7.1 + 5.5) / 3, 1e-10 * volume);
}

TEST(Between, TruncatedCylinder) {
  // Source: Machinery's Handbook 31, p. 89: d 125, heights 100 and 150; the exact value is pi d2 (h1 + h2) / 8.
  const Loop plan = circle({0, 0}, 62.5);
  const double volume = checked_volume(between({whole(plan, {125, 0.4, 0})}, level(plan, 0), "cylinder").solid);
  EXPECT_NEAR(volume, 1533981, 1);
  EXPECT_NEAR(volume, std::numbers::pi * 125 * 125 * 250 / 8, 1e-8 * volume);
}

TEST(Between, WedgeOfTheHandbook) {
  // Source: Machinery's Handbook 31, p. 89: base 4 x 3, top edge 5, h 4.5: (2a + c) b h / 6 = 29.25. The top edge
  // overhangs the base, so the solid stands on its edge side: two sloping trapezoids over the plan's halves.
  const double a = 4, b = 3, c = 5, h = 4.5;
  // Lay the wedge down: plan is its view along the height axis of the base; heights run along b.
  const Loop near{{{0, 0}}, {{a, 0}}, {{(a + c) / 2, h}}, {{(a - c) / 2, h}}};
  const Plane top{b, 0, -b / (2 * h)}, bottom{0, 0, b / (2 * h)};
  EXPECT_NEAR(checked_volume(between({whole(near, top)}, {whole(near, bottom)}, "wedge").solid), 29.25, 1e-10);
}

TEST(Between, FrustumOfAPyramid) {
  // Source: Machinery's Handbook 31, p. 89: base 2 x 3, top 1 x 1.5, h 4.5: 15.75.
  const Loop base = rectangle(-1.5, -1, 1.5, 1), top = rectangle(-0.75, -0.5, 0.75, 0.5);
  const double sx = 4.5 / 0.75, sy = 4.5 / 0.5;
  const auto side = [](PlanPoint p, PlanPoint q, PlanPoint r, PlanPoint s) { return Loop{{p}, {q}, {r}, {s}}; };
  const Relief upper{whole(top, {4.5}), whole(side(base[0].at, base[1].at, top[1].at, top[0].at), {sy, 0, sy}),
                     whole(side(base[1].at, base[2].at, top[2].at, top[1].at), {1.5 * sx, -sx, 0}),
                     whole(side(base[2].at, base[3].at, top[3].at, top[2].at), {sy, 0, -sy}),
                     whole(side(base[3].at, base[0].at, top[0].at, top[3].at), {1.5 * sx, sx, 0})};
  EXPECT_NEAR(checked_volume(between(upper, level(base, 0), "frustum").solid), 15.75, 1e-10);
}

TEST(Between, StepsAndPocketsAreUpright) {
  // Source: closed form, block less pocket plus boss.
  const Loop plan = rectangle(0, 0, 100, 60), boss = rectangle(10, 10, 30, 30);
  const Loop pocket = circle({70, 30}, 12);
  Relief upper{whole(boss, {25})}, lower{whole(pocket, {8})};
  for (Region& r : ground({plan}, upper, {20})) upper.push_back(r);
  for (Region& r : ground({plan}, lower, {0})) lower.push_back(r);
  const double volume = checked_volume(between(upper, lower, "block").solid);
  EXPECT_NEAR(volume, 100 * 60 * 20 + 400 * 5 - std::numbers::pi * 144 * 8, 1e-6);
}

TEST(Between, RoundHoleThroughAFallingSlabIsExact) {
  // Source: closed form, (area of the plan) * thickness, whatever the fall.
  const Loop plan = rectangle(0, 0, 200, 100), hole = reversed(circle({90, 40}, 25));
  const Relief upper{{{plan, hole}, {30, 0.02, -0.05}}}, lower{{{plan, hole}, {12, 0.02, -0.05}}};
  const double volume = checked_volume(between(upper, lower, "slab").solid);
  EXPECT_NEAR(volume, (200 * 100 - std::numbers::pi * 625) * 18, 1e-6);
}

TEST(Between, NamedRegionsComeBackAsFaces) {
  const Loop plan = rectangle(0, 0, 10, 10);
  const Slab slab = between({{{plan}, {5, 0.1, 0}, "top"}}, level(plan, 0), "block");
  ASSERT_EQ(slab.upper.size(), 1u);
  // Source: closed form, a falling face is longer than its plan by sqrt(1 + fall2).
  EXPECT_NEAR(area_mm2(slab.upper[0].face), 100 * std::sqrt(1.01), 1e-9);
  EXPECT_TRUE(slab.lower.empty());
}

TEST(Between, RefusesATopBelowItsUnderside) {
  const Loop plan = rectangle(0, 0, 10, 10);
  EXPECT_THROW(between(level(plan, 0), level(plan, 1), "slab"), diag::ModelError);
  EXPECT_THROW(between({whole(plan, {0, 1, 0})}, level(plan, 5), "slab"), diag::ModelError);
}

TEST(Between, RefusesReliefsOfDifferentPlans) {
  EXPECT_THROW(between(level(rectangle(0, 0, 10, 10), 5), level(rectangle(0, 0, 10, 9), 0), "slab"), diag::ModelError);
}

}  // namespace
}  // namespace fallwright::brep
