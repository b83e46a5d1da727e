/// Worked examples of the trade, each measured on the solids that the program builds for it.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "measure/measure.hpp"
#include "measure/once.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::measure {
namespace {

using job::Fall;
using job::Length;

/// Fall of a floor facet in inches per foot.
double fall(const facts::Facts& facts, const std::string& name) {
  for (const facts::Facet& f : facts.facets)
    if (f.surface == facts::Surface::base_floor && f.facet == name) return f.fall * 12;
  ADD_FAILURE() << "no facet " << name;
  return 0;
}

std::vector<double> creases(const facts::Facts& facts) {
  std::vector<double> found;
  for (const facts::Crease& c : facts.creases)
    if (c.surface == facts::Surface::base_floor) found.push_back(c.fall * 12);
  std::sort(found.begin(), found.end());
  return found;
}

TEST(Scenario, LevelRimPointDrainOffCentre) {
  // Source: worked by hand, s = 12 H / d and hips 12 H / sqrt(dx2 + dy2): drain at (48, 17) in 60 x 34, H 1.000:
  // left 0.2500, right 1.0000, back and front 0.7059 in/ft; hips left 0.23566, right 0.57668, always under their
  // facets.
  job::Job j = sample::bare(inches(60), inches(34), inches(48), inches(17));
  j.base.rise = sample::above_edge(j, inches(1));
  const facts::Facts facts = measured(j);
  EXPECT_NEAR(fall(facts, "left"), 0.25, 1e-9);
  EXPECT_NEAR(fall(facts, "right"), 1.0, 1e-9);
  EXPECT_NEAR(fall(facts, "back"), 12. / 17, 1e-9);
  EXPECT_NEAR(fall(facts, "front"), 12. / 17, 1e-9);
  const auto hips = creases(facts);
  ASSERT_EQ(hips.size(), 4u);
  EXPECT_NEAR(hips[0], 0.23566, 1e-5);
  EXPECT_NEAR(hips[1], 0.23566, 1e-5);
  EXPECT_NEAR(hips[2], 0.57668, 1e-5);
  EXPECT_NEAR(hips[3], 0.57668, 1e-5);
}

TEST(Scenario, LevelRimSquareDrainInTheMiddle) {
  // Source: worked by hand: 60 x 34, 4 x 4 opening, H 0.600: 12 x 0.6 / 28 = 0.2571 and 12 x 0.6 / 15 = 0.4800;
  // 48 x 36 with H 0.5625: 0.3068 and 0.4219.
  job::Job j = sample::bare(inches(60), inches(34), inches(30), inches(17));
  j.drain.opening = job::Opening::square;
  j.base.rise = inches(0.6);
  facts::Facts facts = measured(j);
  EXPECT_NEAR(fall(facts, "left"), 0.2571, 5e-5);
  EXPECT_NEAR(fall(facts, "back"), 0.48, 1e-9);
  j = sample::bare(inches(48), inches(36), inches(24), inches(18));
  j.drain.opening = job::Opening::square;
  j.base.rise = inches(0.5625);
  facts = measured(j);
  EXPECT_NEAR(fall(facts, "right"), 0.3068, 5e-5);
  EXPECT_NEAR(fall(facts, "front"), 0.4219, 5e-5);
}

TEST(Scenario, LevelRimIsPossibleOnlyUpToTwiceTheShortestRun) {
  // Source: closed form under 1/4 to 1/2 in/ft (IRC P2709.1): 60 x 30 with a point drain in the middle has one single
  // rise, 5/8, at both limits at once; 66 x 30 has none: at 1/4 on the long run the short one is steeper than 1/2.
  job::Job j = sample::bare(inches(60), inches(30), inches(30), inches(15));
  j.base.rise = sample::above_edge(j, inches(0.625));
  facts::Facts facts = measured(j);
  EXPECT_NEAR(fall(facts, "left"), 0.25, 1e-12);
  EXPECT_NEAR(fall(facts, "back"), 0.5, 1e-12);
  j = sample::bare(inches(66), inches(30), inches(33), inches(15));
  facts = measured(j);
  EXPECT_NEAR(fall(facts, "left"), 0.25, 1e-12);
  EXPECT_NEAR(fall(facts, "back"), 0.55, 1e-12);
}

TEST(Scenario, EqualFallRimHeights) {
  // Source: worked by hand for 1/4 in/ft about (48, 17) in 60 x 34, 4 x 4: rim 0.9583 at the left wall, 0.2083 at the
  // right. Every facet falls at 1/4; the hips run at 45 degrees and read 1/4 / sqrt 2.
  job::Job j = sample::bare(inches(60), inches(34), inches(48), inches(17));
  j.drain.opening = job::Opening::square;
  j.base.pattern = job::FallPattern::equal_fall;
  const facts::Facts facts = measured(j);
  for (const char* side : {"left", "right", "back", "front"}) EXPECT_NEAR(fall(facts, side), 0.25, 1e-9);
  for (const double hip : creases(facts)) EXPECT_NEAR(hip, 0.25 / std::sqrt(2), 1e-9);
  EXPECT_NEAR((facts.heights.rim_greatest_mm - facts.heights.drain_top_mm) / 25.4, 46. / 48, 1e-9);
  // The right wall is 10 from the opening's edge; the rim's lowest corner stretch is that wall's.
  EXPECT_NEAR((facts.heights.rim_least_mm - facts.heights.drain_top_mm) / 25.4, 10. / 48, 1e-9);
}

TEST(Scenario, CornerOfASquareBaseReadsLessThanItsPlanes) {
  // Source: 36 x 36, four planes at 1/4 in/ft: corner to drain is 1.473 %, under the planes' 2.083 %.
  const facts::Facts facts = measured(sample::bare(inches(36), inches(36), inches(18), inches(18)));
  for (const double hip : creases(facts)) EXPECT_NEAR(hip / 12 * 100, 1.473, 5e-4);
}

TEST(Scenario, MetricLevelRim) {
  // Source: worked by hand: 1500 x 900, drain (1200, 450), 1:80 on the longest run: H 15; right 1:20, front and back
  // 1:30, hip 1:85.44.
  job::Job j = sample::bare(Length::mm(1500), Length::mm(900), Length::mm(1200), Length::mm(450));
  j.base.fall = Fall::one_in(80);
  const facts::Facts facts = measured(j);
  EXPECT_NEAR(12 / fall(facts, "left"), 80, 1e-6);
  EXPECT_NEAR(12 / fall(facts, "right"), 20, 1e-6);
  EXPECT_NEAR(12 / fall(facts, "front"), 30, 1e-6);
  EXPECT_NEAR(12 / creases(facts).front(), 85.44, 0.005);
}

}  // namespace
}  // namespace fallwright::measure
