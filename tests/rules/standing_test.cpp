// How a plane that carries water stands to its limits, for pages and sheets alike.
#include <gtest/gtest.h>

#include "rules/standing.hpp"

namespace fallwright {
namespace {

using facts::Surface;
using rules::FallStanding, rules::Outcome;

facts::Facet falling(Surface surface, double fall, double to_back = 1) {
  facts::Facet facet;
  facet.surface = surface, facet.fall = fall, facet.flow = {0, to_back, 0};
  return facet;
}

std::vector<rules::Result> results_of_falls(Outcome seat = Outcome::pass) {
  std::vector<rules::Result> all(5);
  const char* const ids[] = {"floor.fall-least", "floor.fall-greatest", "threshold.falls-inward", "seat.fall-least",
                             "seat.fall-greatest"};
  for (std::size_t i = 0; i < all.size(); ++i) all[i].id = ids[i], all[i].limit.unit = rules::Unit::ratio;
  all[0].limit.least = all[3].limit.least = 1. / 48;
  all[1].limit.greatest = all[4].limit.greatest = 1. / 24;
  all[2].limit.least = 1. / 96;
  all[0].outcome = Outcome::fail, all[3].outcome = seat;
  return all;
}

FallStanding standing(const facts::Facet& facet, Outcome seat = Outcome::pass) {
  return rules::judged_fall(facet, results_of_falls(seat)).standing;
}

TEST(FallStanding, AtItsLimitIsInside) {
  // Source: by hand, between 1/48 and 1/24: at either, just past either, and between.
  EXPECT_EQ(standing(falling(Surface::base_floor, 1. / 48)), FallStanding::at_limit);
  EXPECT_EQ(standing(falling(Surface::base_floor, 1. / 48 - 1e-6)), FallStanding::gentle);
  EXPECT_EQ(standing(falling(Surface::base_floor, 1. / 24)), FallStanding::at_limit);
  EXPECT_EQ(standing(falling(Surface::base_floor, 1. / 24 + 1e-6)), FallStanding::steep);
  EXPECT_EQ(standing(falling(Surface::base_floor, 1. / 32)), FallStanding::within);
}

TEST(FallStanding, APlaneIsToldAsTheCheckThatFoundItsNumberOnIt) {
  // Source: by hand: 0.4823 in/ft is 1:24.88: no less steep than 0.483 and 1:24.8, where the nearest would do for any
  // other plane; the gentlest, 0.2597 in/ft or 1:46.21, is no more than 0.259 and 1:46.3.
  std::vector<rules::Result> results = results_of_falls();
  const double steep = 0.4823 / 12, gentle = 0.2597 / 12;
  results[0].outcome = Outcome::pass, results[0].measured = gentle, results[1].measured = steep;
  const auto text = [&](double fall) {
    const facts::Facet facet = falling(Surface::base_floor, fall);
    return rules::text_of_fall(facet, rules::judged_fall(facet, results), job::Job{});
  };
  EXPECT_EQ(text(steep), "0.483 in/ft (1:24.8)");
  EXPECT_EQ(text(gentle), "0.259 in/ft (1:46.3)");
  EXPECT_EQ(text(0.3082 / 12), "0.308 in/ft (1:38.9)");
}

TEST(FallStanding, OneFloorPlaneThatKeepsItsLimitsIsNoneOfAFloorThatFails) {
  // Source: by hand: the check fails by another plane; this one is not what it tells of.
  const std::vector<rules::Result> results = results_of_falls();
  EXPECT_FALSE(rules::judged_fall(falling(Surface::base_floor, 1. / 32), results).fails());
  EXPECT_TRUE(rules::judged_fall(falling(Surface::base_floor, 1. / 60), results).fails());
  EXPECT_FALSE(rules::judged_fall(falling(Surface::base_floor, 1. / 20), results).fails()) << "its greatest passes";
}

TEST(FallStanding, OfAThresholdCountsWhatLeadsInward) {
  // Source: by hand: 1/48 that leads half inward is 1/96, and outward it is less than nothing.
  EXPECT_EQ(standing(falling(Surface::threshold, 1. / 48, 0.5)), FallStanding::within);
  EXPECT_EQ(standing(falling(Surface::threshold, 1. / 48, 0.49)), FallStanding::gentle);
  EXPECT_EQ(standing(falling(Surface::threshold, 1. / 48, -1)), FallStanding::gentle);
}

TEST(FallStanding, ASeatThatFallsTheWrongWayIsNoneToFollow) {
  // Source: by hand: it falls enough, and its check fails by the way it falls: page and sheets say so alike.
  EXPECT_EQ(standing(falling(Surface::seat, 1. / 32)), FallStanding::within);
  EXPECT_EQ(standing(falling(Surface::seat, 1. / 32), Outcome::fail), FallStanding::gentle);
}

}  // namespace
}  // namespace fallwright
