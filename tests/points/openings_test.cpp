// What pieces of a plan leave open, by closed formulas.
#include <algorithm>
#include <cmath>
#include <fstream>
#include <random>
#include <sstream>
#include <string>
#include <utility>

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

/// Rows of numbers, in pairs.
std::vector<Ring> rings_of(const std::string& file) {
  std::ifstream in{file};
  std::vector<Ring> rings;
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line[0] == '#') continue;
    std::istringstream numbers{line};
    Ring& ring = rings.emplace_back();
    for (Point2 p; numbers >> p.x >> p.y;) ring.push_back(p);
  }
  return rings;
}

/// Of a box what convex pieces leave open, line by line.
double open_by_lines(const Box2& box, const std::vector<Ring>& pieces, int lines) {
  double open = 0;
  for (int i = 0; i < lines; ++i) {
    const double y = box.y0 + (i + 0.5) * (box.y1 - box.y0) / lines;
    std::vector<std::pair<double, double>> taken;
    for (const Ring& ring : pieces) {
      double low = 1e9, high = -1e9;
      for (std::size_t k = 0; k < ring.size(); ++k) {
        const Point2 &a = ring[k], &b = ring[(k + 1) % ring.size()];
        if ((a.y < y) == (b.y < y)) continue;
        const double x = a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
        low = std::min(low, x), high = std::max(high, x);
      }
      if (low < high) taken.emplace_back(std::max(low, box.x0), std::min(high, box.x1));
    }
    std::sort(taken.begin(), taken.end());
    double at = box.x0;
    for (const auto& [from, to] : taken) open += std::max(0.0, from - at), at = std::max(at, to);
    open += std::max(0.0, box.x1 - at);
  }
  return open * (box.y1 - box.y0) / lines;
}

TEST(Openings, AreFoundWhereCornersAllButLieOnOthersSides) {
  // Source: summed line by line. Pieces as a surveyed floor and a round drain left them: decided by numbers that round,
  // the way along the sides lost itself.
  const std::vector<Ring> rings = rings_of(PROJECT_DIR "/tests/points/slivers.txt");
  ASSERT_EQ(rings.size(), 8U);
  const Box2 box{rings[0][0].x, rings[0][0].y, rings[0][1].x, rings[0][1].y};
  const std::vector<Ring> pieces(rings.begin() + 1, rings.end());
  EXPECT_NEAR(area(largest_openings(box, pieces, narrow, alike)), open_by_lines(box, pieces, 20000), 100);
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

TEST(Openings, GoRoundADisc) {
  // Source: closed form: a regular polygon of n sides in a circle covers n r2 sin(2 pi / n) / 2. A square that has room
  // between it and a side of the plan goes all the way round; one that has none is shut off on either side.
  constexpr double r = 50;
  constexpr int n = 100;
  const auto disc = [](double x, double y) {
    Ring ring;
    for (int i = 0; i < n; ++i)
      ring.push_back({x + r * std::cos(2 * M_PI * i / n), y + r * std::sin(2 * M_PI * i / n)});
    return ring;
  };
  const double covered = n * r * r * std::sin(2 * M_PI / n) / 2;
  for (const double gap : {0.2, 30.0})
    EXPECT_NEAR(area(largest_openings({0, 0, 300, 200}, {disc(150, r + gap)}, narrow, alike)), 300 * 200 - covered,
                0.02);
  // It all but bars a passage: left and right of it lies as much.
  const auto halves = largest_openings({0, 0, 300, 100.05}, {disc(150, r + 0.025)}, narrow, 200);
  ASSERT_EQ(halves.size(), 2u);
  EXPECT_NEAR(halves[0].area, halves[1].area, 1);
  EXPECT_LT(halves[0].area, (300 * 100.05 - covered) / 2);
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
