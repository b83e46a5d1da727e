#include "brep/relief.hpp"

#include <array>
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

/// A rectangular frustum, or a pyramid where the top is a point, standing on z = 0.
double frustum(double base_x, double base_y, double top_x, double top_y, double height) {
  const Loop base = rectangle(-base_x / 2, -base_y / 2, base_x / 2, base_y / 2);
  const Loop top = rectangle(-top_x / 2, -top_y / 2, top_x / 2, top_y / 2);
  const double sx = height / ((base_x - top_x) / 2), sy = height / ((base_y - top_y) / 2);
  const Plane planes[] = {
      {sy * base_y / 2, 0, sy}, {sx * base_x / 2, -sx, 0}, {sy * base_y / 2, 0, -sy}, {sx * base_x / 2, sx, 0}};
  Relief upper;
  if (top_x > 0) upper.push_back(whole(top, {height}));
  for (int i = 0; i < 4; ++i) {
    const int next = (i + 1) % 4;
    Loop side{{base[i].at}, {base[next].at}, {top[next].at}};
    if (top_x > 0) side.push_back({top[i].at});
    upper.push_back(whole(side, planes[i]));
  }
  return checked_volume(between(upper, level(base, 0), "frustum").solid);
}

TEST(Between, PyramidsAndFrusta) {
  // Source: Machinery's Handbook 31, p. 88 and 89: pyramid 3 x 3 x 5: 15; frustum 3 x 2 to 1.5 x 1, height 4.5: 15.75.
  // Moscow papyrus, problem 14: 4 to 2, height 6: 56. Textbook frusta: 1 to 0.6 m, 0.25 m: 49/300; 10 to 7, 6 cm: 438.
  EXPECT_NEAR(frustum(3, 3, 0, 0, 5), 15, 1e-10);
  EXPECT_NEAR(frustum(3, 2, 1.5, 1, 4.5), 15.75, 1e-10);
  EXPECT_NEAR(frustum(4, 4, 2, 2, 6), 56, 1e-10);
  EXPECT_NEAR(frustum(1, 1, 0.6, 0.6, 0.25), 49. / 300, 1e-12);
  EXPECT_NEAR(frustum(10, 10, 7, 7, 6), 438, 1e-9);
}

/// Height plane through three corners.
Plane through(PlanPoint a, double za, PlanPoint b, double zb, PlanPoint c, double zc) {
  const double d = (b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y);
  const double gx = ((zb - za) * (c.y - a.y) - (zc - za) * (b.y - a.y)) / d;
  const double gy = ((b.x - a.x) * (zc - za) - (c.x - a.x) * (zb - za)) / d;
  return {za - gx * a.x - gy * a.y, gx, gy};
}

TEST(Between, GridOfSpotLevels) {
  // Source: surveying textbooks, volume of a grid of levels, A/4 (sum h1 + 2 sum h2 + 4 sum h4): 2 x 2 cells of 15 x 12
  // m, levels 45.2 48.5 55.6 / 47.3 51.2 56.6 / 50.0 53.2 58.5 over formation 50.00: net 1138.5 m3. The rule is the
  // mean of the two ways to cut every cell into triangles; the solid stands on 40 so that it has no hollow part.
  const double z[3][3] = {{45.2, 48.5, 55.6}, {47.3, 51.2, 56.6}, {50.0, 53.2, 58.5}};
  double sum = 0;
  for (const bool falling : {false, true}) {
    Relief upper;
    for (int r = 0; r < 2; ++r)
      for (int c = 0; c < 2; ++c) {
        const PlanPoint p[4] = {
            {15. * c, 12. * r}, {15. * (c + 1), 12. * r}, {15. * (c + 1), 12. * (r + 1)}, {15. * c, 12. * (r + 1)}};
        const double h[4] = {z[r][c], z[r][c + 1], z[r + 1][c + 1], z[r + 1][c]};
        const int o = falling ? 1 : 0;
        for (const auto& [i, j, k] : {std::array{o, o + 1, o + 2}, std::array{o, o + 2, (o + 3) % 4}})
          upper.push_back(whole({{p[i]}, {p[j]}, {p[k]}}, through(p[i], h[i], p[j], h[j], p[k], h[k])));
      }
    sum += checked_volume(between(upper, level(rectangle(0, 0, 30, 24), 40), "ground").solid) - 10 * 30 * 24;
  }
  EXPECT_NEAR(sum / 2, 1138.5, 1e-9);
}

TEST(Between, TriangularPrism) {
  // Source: ditch-wedge examples of a soil conservation handbook: 1/2 x 6 x 9 x 4.8 = 129.6; 1/2 x 7 x 10.3 x 5 =
  // 180.25.
  const auto prism = [](double base, double height, double length) {
    const Loop plan{{{0, 0}}, {{base, 0}}, {{0, height}}};
    return checked_volume(between(level(plan, length), level(plan, 0), "prism").solid);
  };
  EXPECT_NEAR(prism(6, 9, 4.8), 129.6, 1e-10);
  EXPECT_NEAR(prism(7, 10.3, 5), 180.25, 1e-10);
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

TEST(Between, RoundHoleIsBuiltWhereACreasePassesItsMiddleByAHair) {
  // Source: closed form: over a plane top, less a roof under it whose ridge runs along the hole's middle: of the hole
  // nothing tells whether the ridge passes it by a hundred thousandth of a millimetre, by ten times that, or not at
  // all.
  const double r = 25, middle = 50, rise = 0.04;
  const Loop plan = rectangle(0, 0, 200, 100);
  for (const double off : {0.0, 2e-6, 1e-5, 1e-4, 1e-3}) {
    const double ridge = middle + off;
    Relief lower;
    const std::array<std::pair<Loop, Plane>, 2> halves{
        std::pair{rectangle(0, 0, 200, ridge), Plane{10 - rise * ridge, 0, rise}},
        std::pair{rectangle(0, ridge, 200, 100), Plane{10 + rise * ridge, 0, -rise}}};
    for (const auto& [loop, plane] : halves)
      for (auto& loops : outside_disc({loop}, {90, middle}, r)) lower.push_back({std::move(loops), plane});
    Relief upper;
    for (const Loop& half : {rectangle(0, 0, 200, middle), rectangle(0, middle, 200, 100)})
      for (auto& loops : outside_disc({half}, {90, middle}, r)) upper.push_back({std::move(loops), {40, 0.01, 0.02}});
    const double volume = checked_volume(between(upper, lower, "slab").solid);
    const double top = 200 * 100 * (40 + 1 + 1) - std::numbers::pi * r * r * (40 + 0.9 + 1),
                 roof = 200 * 100 * (10 - rise * 25) - (std::numbers::pi * r * r * 10 - rise * 4 * r * r * r / 3);
    EXPECT_NEAR(volume, top - roof, 1 + off * 1000) << off;
  }
}

TEST(Between, IsBuiltHoweverNearCreasesAboveAndStepsBelowEndOnTheOutline) {
  // Source: a prism's volume is its section's area times its length; 80 long, a step of 10 under a ridge of 100.
  for (int tenths = -50; tenths <= 50; ++tenths) {
    const double ridge = 50, step = ridge + tenths * 1e-7;
    const Relief top{whole(rectangle(0, 0, 80, ridge), {100 - 0.01 * ridge, 0, 0.01}),
                     whole(rectangle(0, ridge, 80, 90), {100 + 0.01 * ridge, 0, -0.01})};
    const Relief below{whole(rectangle(0, 0, 80, step), {0}), whole(rectangle(0, step, 80, 90), {10})};
    const double section = 100 * 90 - 0.01 * (50 * 50 + 40 * 40) / 2 - 10 * (90 - step);
    EXPECT_NEAR(checked_volume(between(top, below, "ridge").solid), 80 * section, 1e-2) << tenths;
  }
}

TEST(Between, NamedRegionsComeBackAsFaces) {
  // Source: closed form, a falling face is longer than its plan by sqrt(1 + fall2).
  const Loop plan = rectangle(0, 0, 10, 10);
  const Slab slab = between({{{plan}, {5, 0.1, 0}, "top"}}, level(plan, 0), "block");
  ASSERT_EQ(slab.upper.size(), 1u);
  EXPECT_NEAR(area_mm2(slab.upper[0].face), 100 * std::sqrt(1.01), 1e-9);
}

TEST(Between, RefusesATopBelowItsUnderside) {
  // Source: definition: a solid has its top over its underside.
  const Loop plan = rectangle(0, 0, 10, 10);
  EXPECT_THROW(between(level(plan, 0), level(plan, 1), "slab"), diag::ModelError);
  EXPECT_THROW(between({whole(plan, {0, 1, 0})}, level(plan, 5), "slab"), diag::ModelError);
}

TEST(Between, RefusesReliefsOfDifferentPlans) {
  // Source: definition: what lies between two reliefs has one plan.
  EXPECT_THROW(between(level(rectangle(0, 0, 10, 10), 5), level(rectangle(0, 0, 10, 9), 0), "slab"), diag::ModelError);
}

}  // namespace
}  // namespace fallwright::brep
