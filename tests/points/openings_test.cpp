// What pieces of a plan leave open, by closed formulas.
#include <algorithm>
#include <cmath>
#include <random>

#include <gtest/gtest.h>

#include "points/openings.hpp"

namespace fallwright::points {
namespace {

using Ring = std::vector<Point2>;
constexpr double narrow = 0.1, alike = 1;

/// A rectangle in two triangles, cut along either diagonal.
void add(std::vector<Ring>& pieces, const Box2& r, bool rising) {
  const Point2 a{r.x0, r.y0}, b{r.x1, r.y0}, c{r.x1, r.y1}, d{r.x0, r.y1};
  for (const Ring& t : rising ? std::vector<Ring>{{a, b, c}, {a, c, d}} : std::vector<Ring>{{a, b, d}, {b, c, d}})
    pieces.push_back(t);
}

Ring disc(double x, double y, double radius) {
  Ring ring;
  for (int i = 0; i < 64; ++i) {
    const double turn = 2 * M_PI * (i + 0.5) / 64;
    ring.push_back({x + radius * std::cos(turn), y + radius * std::sin(turn)});
  }
  return ring;
}

/// Ribs over a base, meshed at random, and a disc over some of them.
std::vector<Ring> ribs(const Box2& base, int columns, int rows, double thick, unsigned seed) {
  std::mt19937 random{seed};
  const auto either = [&] { return random() % 2 == 0; };
  const double dx = (base.x1 - base.x0) / columns, dy = (base.y1 - base.y0) / rows;
  std::vector<Ring> pieces;
  for (int i = 0; i <= columns; ++i)
    for (int k = 0; k < rows; ++k)
      add(pieces,
          {std::max(base.x0, base.x0 + i * dx - thick / 2), base.y0 + k * dy,
           std::min(base.x1, base.x0 + i * dx + thick / 2), base.y0 + (k + 1) * dy},
          either());
  for (int k = 0; k <= rows; ++k)
    for (int i = 0; i < columns; ++i)
      add(pieces,
          {base.x0 + i * dx, std::max(base.y0, base.y0 + k * dy - thick / 2), base.x0 + (i + 1) * dx,
           std::min(base.y1, base.y0 + k * dy + thick / 2)},
          either());
  std::shuffle(pieces.begin(), pieces.end(), random);
  return pieces;
}

double area(const std::vector<Opening>& all) {
  double sum = 0;
  for (const Opening& o : all) sum += o.area;
  return sum;
}

TEST(Openings, OfARasterAreItsPockets) {
  // Source: closed form: twelve by seven pockets, each its raster less a rib both ways; at a side less half a rib.
  const Box2 base{3, 5, 3 + 1460.5, 5 + 914.4};
  const double t = 19.05, dx = 1460.5 / 12, dy = 914.4 / 7;
  const auto found = largest_openings(base, ribs(base, 12, 7, t, 1), narrow, alike);
  ASSERT_EQ(found.size(), 12u * 7u);
  for (const Opening& o : found) EXPECT_NEAR(o.area, (dx - t) * (dy - t), 0.01);
}

TEST(Openings, DoNotHangOnHowPiecesAreCutNorOnTheirOrder) {
  // Source: property: the same plan, meshed otherwise and told in another order.
  const Box2 base{0, 0, 1460.5, 914.4};
  for (const double radius : {90., 290.}) {
    std::vector<Ring> one = ribs(base, 12, 7, 19.05, 1), other = ribs(base, 12, 7, 19.05, 2);
    one.push_back(disc(333.3, 412.7, radius)), other.insert(other.begin(), disc(333.3, 412.7, radius));
    const auto a = largest_openings(base, one, narrow, alike), b = largest_openings(base, other, narrow, alike);
    ASSERT_EQ(a.size(), b.size());
    EXPECT_EQ(area(a), area(b));
  }
}

TEST(Openings, AreTheSameInAMirror) {
  // Source: property: x for -x, about a middle that is no round number.
  const Box2 base{11.3, 0, 11.3 + 1460.5, 914.4};
  std::vector<Ring> one = ribs(base, 5, 3, 19.05, 1);
  one.push_back(disc(333.3, 412.7, 190));
  std::vector<Ring> other = ribs(base, 5, 3, 19.05, 2);
  other.push_back(disc(base.x0 + base.x1 - 333.3, 412.7, 190));
  const auto a = largest_openings(base, one, narrow, alike), b = largest_openings(base, other, narrow, alike);
  ASSERT_EQ(a.size(), b.size());
  EXPECT_NEAR(area(a), area(b), 1e-9 * area(a));
}

TEST(Openings, AreApartWhereTheWayBetweenIsTooNarrow) {
  // Source: closed form: two rooms of a plan and a door between them, along either axis.
  for (const double door : {0.09, 0.11})
    for (const bool turned : {false, true}) {
      std::vector<Ring> pieces;
      const auto put = [&](Box2 r) {
        if (turned) r = {r.y0, r.x0, r.y1, r.x1};
        add(pieces, r, true);
      };
      put({500, 0, 510, 200}), put({500, 200 + door, 510, 400});
      const Box2 plan = turned ? Box2{0, 0, 400, 1000} : Box2{0, 0, 1000, 400};
      const auto found = largest_openings(plan, pieces, narrow, alike);
      ASSERT_EQ(found.size(), 1u);
      EXPECT_NEAR(found[0].area, door < narrow ? 500 * 400 : 990 * 400 + 10 * door, 0.01) << door << turned;
    }
}

TEST(Openings, ReachTheSidesOfThePlanToTheLastBit) {
  // Source: closed form: a band along three sides of a plan that is covered but for it.
  const Box2 plan{0.1, 0.2, 1460.7, 914.9};
  std::vector<Ring> pieces;
  add(pieces, {plan.x0 + 12.7, plan.y0, plan.x1 - 12.7, plan.y1 - 12.7}, true);
  const auto found = largest_openings(plan, pieces, narrow, alike);
  ASSERT_EQ(found.size(), 1u);
  const double w = plan.x1 - plan.x0, d = plan.y1 - plan.y0;
  EXPECT_NEAR(found[0].area, 12.7 * w + 2 * 12.7 * (d - 12.7), 0.01);
  double left = 0, back = 0;
  for (const Ring& ring : found[0].rings)
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point2 &p = ring[i], &q = ring[(i + 1) % ring.size()];
      if (p.x == plan.x0 && q.x == plan.x0) left += std::abs(q.y - p.y);
      if (p.y == plan.y1 && q.y == plan.y1) back += std::abs(q.x - p.x);
    }
  EXPECT_NEAR(left, d, 1e-5);
  EXPECT_NEAR(back, w, 1e-5);
}

TEST(Openings, AreNoneWhereAllIsCoveredButForHairs) {
  // Source: closed form: what is narrower than the square has no room for it.
  std::vector<Ring> pieces;
  add(pieces, {0, 0, 499.96, 400}, true), add(pieces, {500.04, 0, 1000, 400}, false);
  EXPECT_TRUE(largest_openings({0, 0, 1000, 400}, pieces, narrow, alike).empty());
  EXPECT_TRUE(largest_openings({0, 0, 0.05, 400}, {}, narrow, alike).empty());
}

}  // namespace
}  // namespace fallwright::points
