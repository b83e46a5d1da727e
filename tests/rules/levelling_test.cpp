#include "rules/levelling.hpp"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "rules/good_facts.hpp"
#include "rules/limits.hpp"
#include "rules/result_of.hpp"
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
    made.surface = facts::Surface::base_floor, made.facet = facet.name, made.fall = facet.fall;
    made.flow = {facet.x, facet.y};
    f.facets.push_back(made);
  }
  return f;
}

Levelling window_of(const facts::Facts& facts) {
  return rules::base_levelling(facts, rules::limits_for(sample::alcove()));
}

const rules::Way& low(const Levelling& window, const std::string& side) {
  return *std::find_if(window.ways.begin(), window.ways.end(),
                       [&](const rules::Way& w) { return job::name_of(w.low) == side; });
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
      EXPECT_EQ(way.gives_way, std::string{"least fall of the "} + worse + " facet") << job::name_of(way.low);
  }
}

TEST(LevellingWindow, SaysWhichWayTheFallMustGoToOpenIt) {
  // Source: by hand, limits 1/48 and 1/24: near the least more fall helps, near the greatest less. All falls times s
  // leave s x 0.022 - 1/48 and 1/24 - s x 0.04, most where both are the same: (0.022 / 24 - 0.04 / 48) / 0.062, which
  // is 1.96 mm over 57-1/2 in and enough; of 0.0209 and 0.0412 it is 0.29 mm, and no fall is.
  const auto advice_on = [](double least, double greatest) {
    return sample::result_of(sample::alcove(), floor_falling(least, greatest, greatest, greatest), "levelling.window")
        .advice;
  };
  EXPECT_NEAR(*window_of(floor_falling(0.022, 0.04, 0.04, 0.04)).most_slope, (0.022 / 24 - 0.04 / 48) / 0.062, 1e-12);
  EXPECT_NE(advice_on(0.0209, 0.03).find("loses the least fall of the left facet; a little more fall helps"),
            std::string::npos);
  EXPECT_NE(advice_on(0.03, 0.0416).find("; a little less fall helps"), std::string::npos) << advice_on(0.03, 0.0416);
  EXPECT_NE(advice_on(0.0209, 0.0412).find("; no other fall leaves it enough"), std::string::npos);
}

TEST(LevellingWindow, OfABaseThatWasBoughtAsksForNoOtherFall) {
  // Source: none: what was bought falls as it does.
  job::Job job = sample::alcove();
  job.base.made = job::Made::bought;
  const rules::Result r = sample::result_of(job, floor_falling(0.0209, 0.03, 0.03, 0.03), "levelling.window");
  EXPECT_NE(r.advice.find("loses the least fall of the left facet"), std::string::npos) << r.advice;
  EXPECT_EQ(r.advice.find("helps"), std::string::npos) << r.advice;
}

TEST(LevellingWindow, OfTheSampleByHand) {
  // Source: closed form: tilted about a level axis square to it, a facet's angle grows or shrinks by the base's own.
  // Left low: the left facet's 0.3 in/ft to 1/4; right low: it steepens to 1/2, the right one shrinks to 1/4 first.
  // Back low: the front facet's 0.45 reaches 1/2; front low: so does the back's, before the threshold's 1/4 has come to
  // 1/8.
  const auto tilt = [](double from, double to) {
    return std::tan(std::abs(std::atan(from / 12) - std::atan(to / 12)));
  };
  const facts::Facts facts = sample::good_facts();
  const Levelling base = window_of(facts);
  const struct {
    const char* low;
    double over, slope;
    const char* gives_way;
  } ways[] = {{"left", 57.5, tilt(0.3, 0.25), "least fall of the left facet"},
              {"right", 57.5, tilt(0.3, 0.25), "least fall of the right facet"},
              {"back", 36, tilt(0.45, 0.5), "greatest fall of the front facet"},
              {"front", 36, tilt(0.45, 0.5), "greatest fall of the back facet"}};
  ASSERT_EQ(base.ways.size(), 4u);
  for (const auto& w : ways) {
    EXPECT_NEAR(low(base, w.low).over_mm / 25.4, w.over, 1e-9) << w.low;
    EXPECT_NEAR(low(base, w.low).allowed_mm / 25.4, w.over * w.slope, 1e-5) << w.low;
    EXPECT_EQ(low(base, w.low).gives_way, w.gives_way) << w.low;
  }
  EXPECT_FALSE(base.broken);
  EXPECT_NEAR(base.least_mm() / 25.4, 36 * tilt(0.45, 0.5), 1e-5) << "0.05 in/ft either way, and the angles' tangents";
  ASSERT_EQ(base.edge.size(), 72u);
  EXPECT_NEAR(base.edge[0][0], tilt(0.3, 0.25), 1e-7);
  EXPECT_NEAR(base.edge[18][1], tilt(0.45, 0.5), 1e-7);
}

TEST(LevellingWindow, TheThresholdAndTheSeatAreHeldTowardTheWayTheyDrain) {
  // Source: closed form, as above; along the bench the seat's fall of 1/48 grows to 1/24 where sin2 (1 + 1/576) = 1/576
  // - 1/2304.
  const auto tilt = [](double from, double to) {
    return std::tan(std::abs(std::atan(from / 12) - std::atan(to / 12)));
  };
  facts::Facts facts = sample::good_facts();
  for (facts::Facet& f : facts.facets)
    if (f.facet == "back" || f.facet == "front") f.fall = 0.375 / 12;
  for (facts::Facet& f : facts.facets)
    if (f.surface == facts::Surface::threshold) f.fall = 0.15 / 12;
  const Levelling base = window_of(facts);
  EXPECT_NEAR(low(base, "front").allowed_mm / 25.4, 36 * tilt(0.15, 0.125), 1e-5);
  EXPECT_EQ(low(base, "front").gives_way, "least fall of the threshold");
  EXPECT_NEAR(low(base, "back").allowed_mm / 25.4, 36 * tilt(0.375, 0.5), 1e-5);
  const job::Job job = sample::alcove();
  const Levelling seat = rules::seat_levelling(job, facts, rules::limits_for(job));
  const double sine = std::sqrt((1 / 576. - 1 / 2304.) / (1 + 1 / 576.)), along = sine / std::sqrt(1 - sine * sine);
  EXPECT_EQ(seat.of, facts::Surface::seat);
  EXPECT_NEAR(low(seat, "left").allowed_mm / 25.4, 57.5 * tilt(0.25, 0.125), 1e-5);
  EXPECT_NEAR(low(seat, "right").allowed_mm / 25.4, 57.5 * tilt(0.25, 0.5), 1e-5);
  EXPECT_NEAR(low(seat, "back").allowed_mm / 25.4, 36 * along, 1e-4);
  EXPECT_NEAR(low(seat, "front").allowed_mm / 25.4, 36 * along, 1e-4);
}

TEST(LevellingWindow, WhatASideMayBeLowIsToldInMarksOfATape) {
  // Source: by hand: 3/64 in lie between 1/32 and 1/16, 19/64 between 9/32 and 5/16; down, as more is not allowed.
  job::Job job = sample::alcove();
  EXPECT_EQ(rules::allowance_text(3. / 64 * 25.4, job), "1/32\"");
  EXPECT_EQ(rules::allowance_text(19. / 64 * 25.4, job), "9/32\"");
  EXPECT_EQ(rules::allowance_text(0.5 * 25.4 - 1e-9, job), "1/2\"");
  EXPECT_EQ(rules::allowance_text(0.7, job), "0\"");
  job.unit = job::UnitSystem::metric;
  EXPECT_EQ(rules::allowance_text(2.79, job), "2.7 mm");
}

TEST(LevellingWindow, AllowancesAreRoundedDown) {
  // Source: by hand: 64ths of an inch, tenths of a millimetre; what is whole but for rounding stays whole.
  job::Job job = sample::alcove();
  EXPECT_EQ(rules::text_at_most(2.999 * 25.4, job), "2-63/64\"");
  EXPECT_EQ(rules::text_at_most(0.49 * 25.4, job), "31/64\"");
  EXPECT_EQ(rules::text_at_most(0.5 * 25.4 - 1e-9, job), "1/2\"");
  EXPECT_EQ(rules::text_at_most(3 * 25.4, job), "3\"");
  EXPECT_EQ(rules::text_at_most(-1.3438 * 25.4, job), "-1-23/64\"");
  EXPECT_EQ(rules::text_at_most(-0.51 * 25.4, job), "-33/64\"");
  job.unit = job::UnitSystem::metric;
  EXPECT_EQ(rules::text_at_most(12.99, job), "12.9 mm");
  EXPECT_EQ(rules::text_at_most(12, job), "12 mm");
  // The same number in a check's row: 2.792 mm is less than 2.8 by more than any face is off.
  rules::Result window;
  window.measured = 2.792, window.limit.unit = rules::Unit::mm, window.limit.least = 1.5875;
  EXPECT_EQ(rules::measured_text(window, job), "2.7 mm");
  EXPECT_EQ(rules::text_at_most(2.792, job), "2.7 mm");
}

TEST(Thinnest, IsToldAsItsCheckHasIt) {
  // Source: by hand: 19.05 mm is 3/4"; under the base the bed keeps it, beside that it is 0.04 mm thinner, which would
  // be 11/16". Half an inch less beside it is no hair, and told.
  job::Job job;
  facts::Bed bed;
  bed.contact_mm2 = 1, bed.least_under_ribs_mm = 19.069, bed.least_mm = 19.025;
  EXPECT_EQ(rules::thinnest_text(bed, job), "3/4\"");
  bed.least_mm = 19.05 - 12.7;
  EXPECT_EQ(rules::thinnest_text(bed, job), "1/4\"");
}

TEST(LevellingWindow, TheThresholdsHeightGivesWayWhereItIsLeast) {
  // Source: closed form: a threshold 2-1/16 in above the drain, its edge 18 in in front of it, loses 1/16 in when the
  // front is low by that over 18 in, 1/8 in over the 36 in of the base; IRC P2709.1 (2009, 2021) asks for 2 in.
  constexpr double in = 25.4;
  facts::Facts f = floor_falling(0.03, 0.03, 0.03, 0.03);
  facts::Part drain;
  drain.which = {{facts::Role::drain}}, drain.bbox_mm = {26 * in, 16 * in, -3 * in, 30 * in, 20 * in, 0};
  f.parts.push_back(drain);
  f.heights.drain_top_mm = 0;
  facts::Facet top;
  top.surface = facts::Surface::threshold, top.facet = "top", top.fall = 0.02, top.flow = {0, 1};
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

TEST(LevellingWindow, OfTwoHandsThatAreAlikeBothAreTold) {
  // Source: property: of a base that is its own image neither hand comes first; a channel's floor has no facet on
  // either.
  constexpr double in = 25.4;
  facts::Facts f = sample::good_facts();
  std::erase_if(f.facets, [](const facts::Facet& facet) { return facet.facet == "left" || facet.facet == "right"; });
  for (facts::Facet& facet : f.facets)
    if (facet.surface == facts::Surface::threshold)
      facet.low_mm = {0, 0, f.heights.drain_top_mm + 2.001 * in}, facet.high_mm = facet.low_mm;
  facts::Part drain;
  drain.which = {{facts::Role::drain}}, drain.bbox_mm = {26.75 * in, 16 * in, -3 * in, 30.75 * in, 20 * in, 0};
  f.parts.push_back(drain);
  const rules::Result alike = sample::result_of(sample::alcove(), f, "levelling.window");
  EXPECT_EQ(alike.where.rfind("its left or right side low over ", 0), 0u) << alike.where;
  EXPECT_NE(alike.advice.find("its left or right side low by"), std::string::npos) << alike.advice;
  f.parts.back().bbox_mm[0] += 2 * in, f.parts.back().bbox_mm[3] += 2 * in;  // farther from the left end
  EXPECT_EQ(sample::result_of(sample::alcove(), f, "levelling.window").where.rfind("its left side low over ", 0), 0u);
}

}  // namespace
}  // namespace fallwright
