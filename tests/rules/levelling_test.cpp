#include "rules/levelling.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include "rules/good_facts.hpp"
#include "rules/limits.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

using rules::Levelling;

/// A floor of four facets, each falling away from its side.
facts::Facts floor_falling(double left, double right, double back, double front) {
  facts::Facts f = sample::good_facts();
  f.facets.clear();
  const struct {
    const char* name;
    double fall, x, y;
  } facets[] = {{"left", left, 1, 0}, {"right", right, -1, 0}, {"back", back, 0, -1}, {"front", front, 0, 1}};
  for (const auto& facet : facets) {
    facts::Facet made;
    made.surface = "base-floor", made.facet = facet.name, made.fall = facet.fall;
    made.flow = {facet.x, facet.y};
    f.facets.push_back(made);
  }
  return f;
}

Levelling window_of(const facts::Facts& facts) {
  return rules::base_levelling(facts, rules::limits_for(sample::alcove()));
}

const rules::Way& low(const Levelling& window, const std::string& side) {
  return *std::find_if(window.ways.begin(), window.ways.end(), [&](const rules::Way& w) { return w.low == side; });
}

TEST(LevellingWindow, AFallEqualToItsLimitIsInsideIt) {
  // Source: closed form: with the left facet at the least fall of 1/48, as a computer holds it or a hair under it for
  // its rounding, the left side may not be low, and all the others may by what their own facets have to spare.
  for (const double at_limit : {1. / 48, 0.02083333333333333, 1. / 48 + 1e-17}) {
    const Levelling window = window_of(floor_falling(at_limit, 0.03, 0.03, 0.03));
    EXPECT_FALSE(window.broken);
    EXPECT_NEAR(low(window, "left").allowed_mm, 0, 1e-4);
    EXPECT_GT(low(window, "right").allowed_mm / low(window, "right").over_mm, 0.009);
    EXPECT_GT(low(window, "back").allowed_mm / low(window, "back").over_mm, 0.009);
    EXPECT_GT(low(window, "front").allowed_mm / low(window, "front").over_mm, 0.009);
  }
}

TEST(LevellingWindow, OfTwoBrokenFallsTheWorseIsNamed) {
  // Source: common practice, no source: what is broken most is what a person must hear of, in a mirror as well.
  for (const auto& [left, right, worse] : {std::tuple{0.0174, 0.0163, "right"}, std::tuple{0.0163, 0.0174, "left"}}) {
    const Levelling window = window_of(floor_falling(left, right, 0.03, 0.03));
    EXPECT_TRUE(window.broken);
    for (const rules::Way& way : window.ways)
      EXPECT_EQ(way.gives_way, std::string{"least fall of the "} + worse + " facet") << way.low;
  }
}

TEST(LevellingWindow, TheThresholdsHeightGivesWayWhereItIsLeast) {
  // Source: closed form: a threshold 2-1/16 in above the drain, its edge 18 in in front of it, loses 1/16 in when the
  // front is low by that over 18 in, 1/8 in over the 36 in of the base; IRC P2709.1 (2009, 2021) asks for 2 in.
  constexpr double in = 25.4;
  facts::Facts f = floor_falling(0.03, 0.03, 0.03, 0.03);
  facts::Part drain;
  drain.role = "drain", drain.bbox_mm = {26 * in, 16 * in, -3 * in, 30 * in, 20 * in, 0};
  f.parts.push_back(drain);
  f.heights.drain_top_mm = 0;
  facts::Facet top;
  top.surface = "threshold", top.facet = "top", top.fall = 0.02, top.flow = {0, 1};
  top.low_mm = {0, 0, 33. / 16 * in}, top.high_mm = {0, 0, 33. / 16 * in};
  f.facets.push_back(top);
  const Levelling window = window_of(f);
  EXPECT_NEAR(low(window, "front").allowed_mm, in / 8, 0.01);
  EXPECT_EQ(low(window, "front").gives_way, "threshold's least height");
  EXPECT_GT(low(window, "back").allowed_mm, in / 4) << "its threshold rises";
  EXPECT_NEAR(low(window, "left").allowed_mm, 57.5 / 28 * in / 16, 0.01) << "its left end goes down with that side";
  f.facets.back().low_mm[2] = f.facets.back().high_mm[2] = 1.9 * in;
  EXPECT_TRUE(window_of(f).broken);
}

}  // namespace
}  // namespace fallwright
