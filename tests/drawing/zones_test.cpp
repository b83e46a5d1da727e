/// A map cut into zones, from nodes made by hand.
#include "drawing/zones.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "drawing/study.hpp"
#include "drawing/zone_letters.hpp"
#include "support/sample.hpp"

namespace fallwright::drawing {
namespace {

/// A map of nx by ny nodes, one square apart, with the margins of two checks as functions of the place.
template <class A, class B>
facts::Map mapped(std::size_t nx, std::size_t ny, const A& a, const B& b) {
  facts::Map map;
  map.up = 1;
  for (std::size_t i = 0; i < nx; ++i) map.xs.push_back(i);
  for (std::size_t j = 0; j < ny; ++j) map.ys.push_back(j);
  for (std::size_t j = 0; j < ny; ++j)
    for (std::size_t i = 0; i < nx; ++i) {
      const double x = static_cast<double>(i), y = static_cast<double>(j), m = a(x, y), n = b(x, y);
      const bool passes = m >= 0 && n >= 0;
      map.nodes.push_back(
          {true, passes ? facts::Verdict::passes : facts::Verdict::fails, std::min(m, n), {m, n}, {m, n}});
    }
  return map;
}

Axis even(std::size_t count) {
  Axis axis;
  for (std::size_t i = 0; i < count; ++i)
    axis.at.push_back(static_cast<double>(i)), axis.node.push_back(i), axis.joined.push_back(true);
  axis.joined.pop_back();
  return axis;
}

double area_of(const Zones& zones, std::size_t zone) {
  double twice = 0;
  for (const Patch& patch : zones.patches())
    for (std::size_t i = 0; patch.zone == zone && i < patch.ring.size(); ++i) {
      const Point &p = patch.ring[i], &q = patch.ring[(i + 1) % patch.ring.size()];
      twice += p.x * q.y - q.x * p.y;
    }
  return twice / 2;
}

TEST(Zones, HaveTheirBorderWhereAStraightMarginIsZero) {
  // Source: closed form: of 6 x 4 squares a margin (x - 2.3) / 10 is below zero over 2.3 x 4, one of (3.1 - y) / 10
  // over 6 x 0.9; where both are, the lower one counts: x - 2.3 < 3.1 - y is x + y < 5.4, in the corner 2.3 x 0.9 all
  // but a triangle with legs 0.9.
  const facts::Map map = mapped(
      7, 5, [](double x, double) { return (x - 2.3) / 10; }, [](double, double y) { return (3.1 - y) / 10; });
  const Zones zones{map, even(7), even(5)};
  const double corner = 0.9 * 0.9 / 2;
  EXPECT_NEAR(area_of(zones, passing), 3.7 * 3.1, 1e-9);
  EXPECT_NEAR(area_of(zones, first_check), 2.3 * 4 - corner, 1e-9);
  EXPECT_NEAR(area_of(zones, first_check + 1), 6 * 0.9 - 2.3 * 0.9 + corner, 1e-9);
  double upright = 0;
  for (const Stretch& s : zones.borders())
    if (std::abs(s.from.x - 2.3) < 1e-9 && std::abs(s.to.x - 2.3) < 1e-9) upright += std::abs(s.to.y - s.from.y);
  EXPECT_NEAR(upright, 3.1, 1e-9);
}

TEST(Zones, HaveABorderWhereALimitLiesOnAValue) {
  // Source: closed form: a margin that is zero at x = 3 keeps its limit there; the border stands at 3.
  const facts::Map map = mapped(
      7, 5, [](double x, double) { return (x - 3) / 10; }, [](double, double) { return 1; });
  const Zones zones{map, even(7), even(5)};
  EXPECT_NEAR(area_of(zones, passing), 12, 1e-9);
  double upright = 0;
  for (const Stretch& s : zones.borders()) {
    upright += std::abs(s.to.y - s.from.y);
    EXPECT_NEAR(s.from.x, 3, 1e-9);
  }
  EXPECT_NEAR(upright, 4, 1e-9);
}

TEST(Zones, GoHalfWayToWhatCannotStand) {
  // Source: by definition: nothing is known between a job that stands and one that cannot; the border is drawn midway.
  facts::Map map = mapped(
      3, 2, [](double, double) { return 0.5; }, [](double, double) { return 1; });
  for (const std::size_t i : {2u, 5u}) map.nodes[i] = {true, facts::Verdict::refused, {}, {}};
  const Zones zones{map, even(3), even(2)};
  EXPECT_NEAR(area_of(zones, passing), 1.5, 1e-9);
  EXPECT_NEAR(area_of(zones, not_built), 0.5, 1e-9);
}

TEST(Zones, AreHatchedByLinesThatMissNothing) {
  // Source: closed form: level lines 0.5 apart over the 2.3 x 4 of the first test's first zone, its corner off: at 0,
  // 0.5
  // ... 4 high; above 3.1 the zone ends at x = 5.4 - y.
  const facts::Map map = mapped(
      7, 5, [](double x, double) { return (x - 2.3) / 10; }, [](double, double y) { return (3.1 - y) / 10; });
  double length = 0;
  for (const Stretch& s : Zones{map, even(7), even(5)}.hatch(first_check, 0, 0.5)) length += s.to.x - s.from.x;
  EXPECT_NEAR(length, 7 * 2.3 + (5.4 - 3.5) + (5.4 - 4), 2.4);  // the lines on the map's own edges may go either way
  EXPECT_GT(length, 6 * 2.3 + 1.9);
}

TEST(Zones, HaveLinesOfEqualAim) {
  // Source: closed form: the least of x / 10 and 1 is 0.25 at x = 2.5, over 4 squares' height.
  const facts::Map map = mapped(
      7, 5, [](double x, double) { return x / 10; }, [](double, double) { return 1; });
  double length = 0;
  for (const Stretch& s : Zones{map, even(7), even(5)}.contours({0.25})) {
    EXPECT_NEAR(s.from.x, 2.5, 1e-9);
    length += std::abs(s.to.y - s.from.y);
  }
  EXPECT_NEAR(length, 4, 1e-9);
}

TEST(Zones, HaveLinesOfTheLeastMarginWithTheirCornersBetweenCrossings) {
  // Source: closed form: the least of x / 10 and (3 - y) / 10 is 0.25 along x = 2.5 below y = 0.5 and along y = 0.5
  // right of it: half a square and three and a half. Past y = 3, where the second fails, is none.
  const facts::Map map = mapped(
      7, 5, [](double x, double) { return x / 10; }, [](double, double y) { return (3 - y) / 10; });
  double up = 0, across = 0;
  for (const Stretch& s : Zones{map, even(7), even(5)}.margin_lines({0.25})) {
    const bool upright = std::abs(s.from.x - 2.5) < 1e-9 && std::abs(s.to.x - 2.5) < 1e-9;
    EXPECT_TRUE(upright || (std::abs(s.from.y - 0.5) < 1e-9 && std::abs(s.to.y - 0.5) < 1e-9));
    (upright ? up : across) += std::hypot(s.to.x - s.from.x, s.to.y - s.from.y);
  }
  EXPECT_NEAR(up, 0.5, 1e-9);
  EXPECT_NEAR(across, 3.5, 1e-9);
}

TEST(StudySheet, HasNoTextOverText) {
  // Source: the contract of sheets. A map of 30 x 20 with three zones and today's mark in a corner where lines meet.
  job::Study study;
  study.job = sample::alcove();
  study.name = "two ways";
  std::vector<job::Varied> varied(2);
  for (std::size_t k = 0; k < 2; ++k) {
    job::Varied& v = varied[k];
    v.name = k == 0 ? "drain.from_left" : "base.fall";
    v.measure = k == 0 ? job::Measure::length : job::Measure::fall;
    for (int i = 0; i < (k == 0 ? 30 : 20); ++i) {
      v.numbers.push_back(k == 0 ? 25.4 * (20 + i) : (8 + i) / 600.);
      v.shown.push_back(std::to_string(i));
      v.changes.push_back({v.name, "1"});
    }
    v.now = "5", v.now_number = v.numbers[7], v.held = 7;
  }
  facts::Study all;
  all.checks = {{"a", "a check with a title that is rather long, and then some"}, {"b", "another"}};
  all.map = mapped(
      30, 20, [](double x, double) { return (x - 7.3) / 20; }, [](double x, double y) { return (x + y - 16) / 20; });
  const std::vector<Sheet> sheets = draw_study({study, varied, all, {}});
  ASSERT_EQ(sheets.size(), 1u);
  for (std::size_t i = 0; i < sheets[0].texts.size(); ++i)
    for (std::size_t j = 0; j < i; ++j)
      EXPECT_FALSE(meet(box_of(sheets[0].texts[i]), box_of(sheets[0].texts[j])))
          << sheets[0].texts[i].words << " over " << sheets[0].texts[j].words;
  std::size_t letters = 0;
  for (const Text& text : sheets[0].texts) letters += text.words == "A" || text.words == "B" || text.words == "PASSES";
  EXPECT_GE(letters, 5u);  // each zone's on the map, those of checks in the legend too
}

TEST(ZoneHatch, FillsItsRectangleAndNoMore) {
  // Source: closed form: lines 2 apart over 30 by 10, wherever that lies, are 300 / 2 long together, less or more by
  // what the outermost lack; none leaves it.
  for (const Point low : {Point{10, 40}, Point{-70, 5}})
    for (const double angle : {45., 135., 20.}) {
      const Point high{low.x + 30, low.y + 10};
      double sum = 0;
      for (const Stretch& line : hatch_of_box(low, high, angle, 2)) {
        sum += std::hypot(line.to.x - line.from.x, line.to.y - line.from.y);
        for (const Point& p : {line.from, line.to}) {
          EXPECT_GE(p.x, low.x - 1e-9);
          EXPECT_LE(p.x, high.x + 1e-9);
          EXPECT_GE(p.y, low.y - 1e-9);
          EXPECT_LE(p.y, high.y + 1e-9);
        }
      }
      EXPECT_NEAR(sum, 150, 6) << low.x << " at " << angle;
    }
}

}  // namespace
}  // namespace fallwright::drawing
