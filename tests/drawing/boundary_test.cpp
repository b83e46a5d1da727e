#include "drawing/boundary.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include <gtest/gtest.h>

namespace fallwright::drawing {
namespace {

double area(const Outline& outline) {
  double twice = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point &a = outline[i], &b = outline[(i + 1) % outline.size()];
    twice += a.x * b.y - b.x * a.y;
  }
  return twice / 2;
}

std::vector<Line> loop(const Outline& corners) {
  std::vector<Line> lines;
  for (std::size_t i = 0; i < corners.size(); ++i) lines.push_back({corners[i], corners[(i + 1) % corners.size()]});
  return lines;
}

TEST(Boundary, GoesRoundARectangleCounterClockwiseFromItsLowerLeftCorner) {
  // Source: closed form: 30 by 20.
  const Outline outline = boundary_of(loop({{30, 0}, {0, 0}, {0, 20}, {30, 20}}));
  ASSERT_EQ(outline.size(), 4u);
  EXPECT_EQ(outline[0].x, 0);
  EXPECT_EQ(outline[0].y, 0);
  EXPECT_DOUBLE_EQ(area(outline), 600);
}

TEST(Boundary, LeavesOutWhatLiesWithinAndCornersInLine) {
  // Source: closed form: a bevel's edge across, from the middle of one side to the middle of the other; a notch stays.
  std::vector<Line> lines = loop({{0, 0}, {30, 0}, {30, 20}, {18, 20}, {18, 15}, {12, 15}, {12, 20}, {0, 20}});
  lines.push_back({{6, 0}, {6, 20}});
  lines.push_back({{0, 0}, {6, 10}});
  const Outline outline = boundary_of(lines);
  EXPECT_EQ(outline.size(), 8u);
  EXPECT_DOUBLE_EQ(area(outline), 600 - 30);
  EXPECT_TRUE(runs_along({{2, 0}, {9, 0}}, outline));
  EXPECT_FALSE(runs_along({{6, 0}, {6, 20}}, outline));
}

TEST(Boundary, IsNothingWhereLinesDoNotClose) {
  // Source: by construction: a line alone has an outside and no inside.
  EXPECT_TRUE(boundary_of({}).empty());
  EXPECT_TRUE(boundary_of({{{0, 0}, {10, 0}}}).empty());
}

TEST(Boundary, HoldsWhateverTheOrderAndWayOfItsLines) {
  // Source: property: lines are a set; the outline of a random star-shaped figure with spokes has the star's area.
  std::mt19937 random{11};
  std::uniform_real_distribution<double> reach{20, 60};
  for (int round = 0; round < 50; ++round) {
    Outline star;
    for (int i = 0; i < 9; ++i) {
      const double r = reach(random), turn = 2 * M_PI * i / 9;
      star.push_back({r * std::cos(turn), r * std::sin(turn)});
    }
    std::vector<Line> lines = loop(star);
    for (const Point& corner : star) lines.push_back({{0, 0}, corner});
    std::shuffle(lines.begin(), lines.end(), random);
    for (Line& line : lines)
      if (random() % 2) std::swap(line.from, line.to);
    EXPECT_NEAR(area(boundary_of(lines)), area(star), 1e-6 * area(star)) << round;
  }
}

}  // namespace
}  // namespace fallwright::drawing
