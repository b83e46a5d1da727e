// The floor through spot levels.
#include <cmath>
#include <random>

#include <gtest/gtest.h>

#include "survey/floor.hpp"

namespace fallwright::survey {
namespace {

double area(const Polygon& p) {
  double twice = 0;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Point &a = p[i], &b = p[(i + 1) % p.size()];
    twice += a.x * b.y - b.x * a.y;
  }
  return twice / 2;
}

/// Integral of a plane over a polygon: area times the height at its centroid, triangle by triangle.
double volume(const Floor& floor, const Rect& over) {
  double sum = 0;
  for (const Cell& cell : floor.cells()) {
    const Polygon p = common(cell.plan, to_polygon(over));
    for (std::size_t i = 1; i + 1 < p.size(); ++i) {
      const Polygon t{p[0], p[i], p[i + 1]};
      sum += area(t) * cell.plane.at((t[0].x + t[1].x + t[2].x) / 3, (t[0].y + t[1].y + t[2].y) / 3);
    }
  }
  return sum;
}

std::vector<Spot> some_spots(std::mt19937& random, int count) {
  std::uniform_real_distribution<double> x{0, 1500}, y{0, 900}, z{-10, 10};
  std::vector<Spot> spots;
  for (int i = 0; i < count; ++i) spots.push_back({x(random), y(random), z(random)});
  return spots;
}

const Rect extent{-100, -300, 1600, 1000};

TEST(Floor, GoesThroughEverySpot) {
  // Source: the floor's promise; 50 random sets of spots, fixed seed.
  std::mt19937 random{21};
  for (int i = 0; i < 50; ++i) {
    const auto spots = some_spots(random, 4 + i);
    const Floor floor = floor_through(spots, extent);
    for (const Spot& s : spots) EXPECT_NEAR(floor.at(s.x, s.y), s.z, 1e-7);
  }
}

TEST(Floor, CoversItsExtentOnceAndMeetsAtEdges) {
  // Source: property: areas of the cells add up to the extent; along every edge neighbours agree.
  std::mt19937 random{22};
  for (int i = 0; i < 30; ++i) {
    const Floor floor = floor_through(some_spots(random, 3 + i), extent);
    double sum = 0;
    for (const Cell& cell : floor.cells()) {
      EXPECT_GT(area(cell.plan), 0);
      sum += area(cell.plan);
      for (const Point& p : cell.plan) EXPECT_NEAR(cell.plane.at(p.x, p.y), floor.at(p.x, p.y), 1e-6);
    }
    EXPECT_NEAR(sum / (1700. * 1300), 1, 1e-9);
  }
}

TEST(Floor, SpotsOnAPlaneMakeOnePlane) {
  // Source: closed form.
  const HeightPlane plane{3, 0.004, -0.002};
  std::vector<Spot> spots;
  for (const double x : {0., 400., 1500.})
    for (const double y : {0., 900.}) spots.push_back({x, y, plane.at(x, y)});
  const Floor floor = floor_through(spots, extent);
  ASSERT_TRUE(floor.is_plane());
  EXPECT_NEAR(floor.cells()[0].plane.gx, 0.004, 1e-12);
  EXPECT_NEAR(floor.at(-100, 1000), plane.at(-100, 1000), 1e-9);
}

TEST(Floor, GridOfLevelsHasTheHandbooksVolume) {
  // Source: surveying textbooks, A / 4 (sum h1 + 2 sum h2 + 4 sum h4): 2 x 2 cells of 15 x 12 m, levels 45.2 48.5 55.6
  // / 47.3 51.2 56.6 / 50.0 53.2 58.5 over formation 50.00: net 1138.5 m3. Here in metres for millimetres.
  const double levels[3][3] = {{50.0, 53.2, 58.5}, {47.3, 51.2, 56.6}, {45.2, 48.5, 55.6}};  // front row first
  std::vector<Spot> spots;
  for (int row = 0; row < 3; ++row)
    for (int column = 0; column < 3; ++column) spots.push_back({15. * column, 12. * row, levels[row][column] - 50});
  const Floor floor = floor_through(spots, {-5, -5, 35, 29});
  EXPECT_NEAR(volume(floor, {0, 0, 30, 24}), 1138.5, 1e-6);
}

TEST(Floor, ReadingsAHandOffTheWallMakeNoStepAlongIt) {
  // Source: by hand: along each side wall 6 in 72 lower in the middle, 6, 20 or 60 mm off the line of the corners
  // there, and 12 lower in the room's middle: at the wall the floor is as low as beside it, and nowhere steeper than
  // 1:70.
  for (const double off : {0.0, 6.0, 20.0, 60.0}) {
    const std::vector<Spot> spots{{0, 0, 12},           {900, 0, 6},  {1800, 0, 12}, {off, 450, 6},  {900, 450, 0},
                                  {1800 - off, 450, 6}, {0, 900, 12}, {900, 900, 6}, {1800, 900, 12}};
    const Floor floor = floor_through(spots, {-50, -50, 1850, 950});
    for (const double x : {-40., 0.5, 1799.5, 1840.}) EXPECT_NEAR(floor.at(x, 450), 6, 0.5) << x << " off " << off;
    EXPECT_NEAR(floor.at(900, 450), 0, 1e-9);
    for (const Cell& cell : floor.cells()) EXPECT_LT(std::hypot(cell.plane.gx, cell.plane.gy), 1. / 60) << off;
  }
}

TEST(Floor, MirroredSpotsMakeTheMirroredFloor) {
  // Source: property: a grid has no preferred diagonal.
  std::vector<Spot> spots, mirrored;
  std::mt19937 random{23};
  std::uniform_real_distribution<double> z{-10, 10};
  for (const double x : {0., 500., 1000., 1500.})
    for (const double y : {0., 300., 900.}) {
      spots.push_back({x, y, z(random)});
      mirrored.push_back({1500 - x, y, spots.back().z});
    }
  const Floor floor = floor_through(spots, extent), other = floor_through(mirrored, {-100, -300, 1600, 1000});
  for (double x = -90; x < 1600; x += 70)
    for (double y = -290; y < 1000; y += 70) EXPECT_NEAR(floor.at(x, y), other.at(1500 - x, y), 1e-9) << x << ' ' << y;
}

TEST(Floor, TurnedSpotsMakeTheTurnedFloor) {
  // Source: property: a quarter turn, (x, y) to (-y, x).
  std::mt19937 random{24};
  const auto spots = some_spots(random, 20);
  std::vector<Spot> turned;
  for (const Spot& s : spots) turned.push_back({-s.y, s.x, s.z});
  const Floor floor = floor_through(spots, extent), other = floor_through(turned, {-1000, -100, 300, 1600});
  for (double x = -90; x < 1600; x += 70)
    for (double y = -290; y < 1000; y += 70) EXPECT_NEAR(floor.at(x, y), other.at(-y, x), 1e-7) << x << ' ' << y;
}

TEST(Floor, HighestAndLowestAreFoundInsideAsWell) {
  // Source: closed form: a hump between four level corners.
  const Floor floor =
      floor_through({{0, 0, 0}, {1000, 0, 0}, {0, 1000, 0}, {1000, 1000, 0}, {500, 400, 7}}, {-50, -50, 1050, 1050});
  EXPECT_NEAR(floor.highest({100, 100, 900, 900}), 7, 1e-9);
  EXPECT_NEAR(floor.lowest({0, 0, 1000, 1000}), 0, 1e-9);
  EXPECT_LT(floor.highest({600, 600, 900, 900}), 7);
}

TEST(Floor, OutsideItGoesOnAsTheNearestOfItsCells) {
  // Source: by another way: of a convex cell the farthest that a point lies beyond one of its sides, by the side's unit
  // normal; the cell where that is least goes on. Points a hand round a floor of a hundred cells of all shapes.
  std::mt19937 random{7};
  std::uniform_real_distribution<double> across{0, 1500}, along{-40, 950}, beyond{-90, 90};
  const Floor floor = floor_through(some_spots(random, 50), {0, 0, 1500, 900});
  int outside = 0;
  for (int i = 0; i < 400; ++i) {
    const Point p =
        i % 3 ? Point{(i % 3 == 1 ? 0 : 1500) + beyond(random), along(random)} : Point{across(random), beyond(random)};
    const Cell* nearest = nullptr;
    double least = 1e9, next = 1e9;
    for (const Cell& cell : floor.cells()) {
      double out = 0;
      for (std::size_t k = 0; k < cell.plan.size(); ++k) {
        const Point a = cell.plan[k], b = cell.plan[(k + 1) % cell.plan.size()];
        const double length = std::sqrt((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y));
        const Point normal{(b.y - a.y) / length, -(b.x - a.x) / length};
        out = std::max(out, (p.x - a.x) * normal.x + (p.y - a.y) * normal.y);
      }
      if (out < least)
        next = least, least = out, nearest = &cell;
      else
        next = std::min(next, out);
    }
    if (least < 1 || next - least < 1e-3) continue;  // inside, or as near to another
    ++outside;
    EXPECT_NEAR(floor.at(p.x, p.y), nearest->plane.at(p.x, p.y), 1e-9);
  }
  EXPECT_GT(outside, 40);
}

TEST(Floor, SpotsInALineSpanNoPlane) {
  // Source: none.
  EXPECT_FALSE(span_a_plane({{0, 0, 0}, {500, 0, 1}, {1000, 0, 2}}));
  EXPECT_FALSE(span_a_plane({{0, 0, 0}, {500, 300, 1}}));
  EXPECT_TRUE(span_a_plane({{0, 0, 0}, {500, 0, 1}, {0, 500, 2}}));
  EXPECT_TRUE(span_a_plane({{0, 0, 0}, {0, 500, 2}, {500, 0, 1}})) << "whichever way round they were read";
}

}  // namespace
}  // namespace fallwright::survey
