// Lengths for many rooms.
#include <algorithm>
#include <random>

#include <gtest/gtest.h>

#include "support/imperial.hpp"
#include "support/part_id.hpp"
#include "takeoff/kits.hpp"

namespace fallwright {
namespace {

const takeoff::KitGap gap = takeoff::usual_gap(false);

TEST(Kits, TwelveRoomsTakeThreeLengths) {
  // Source: by hand: the smallest opening less 1/8 in serves up to 3/8 in more than itself, and so on from the next.
  std::vector<double> openings;
  for (const double sixteenths : {13., 15., 16., 17., 17., 18., 19., 20., 20., 21., 23., 26.})
    openings.push_back((34 + sixteenths / 16) * in);
  const auto kits = takeoff::group_openings(openings, gap);
  ASSERT_EQ(kits.size(), 3U);
  const std::pair<double, std::size_t> expected[] = {{34 + 11. / 16, 5}, {35, 5}, {35 + 5. / 16, 2}};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(kits[i].length_mm / in, expected[i].first, 1e-9);
    EXPECT_EQ(kits[i].rooms.size(), expected[i].second);
  }
}

TEST(Kits, EveryRoomOnceAndWithinTheGap) {
  // Source: property.
  std::mt19937 random{4};
  for (int n = 0; n < 200; ++n) {
    std::vector<double> openings(random() % 30);
    for (double& opening : openings) opening = (30 + double(random() % 64) / 16) * in;
    std::vector<int> served(openings.size());
    for (const takeoff::Kit& kit : takeoff::group_openings(openings, gap))
      for (const std::size_t room : kit.rooms) {
        ++served[room];
        EXPECT_GE(openings[room] - kit.length_mm, gap.least_mm - 1e-6);
        EXPECT_LE(openings[room] - kit.length_mm, gap.greatest_mm + 1e-6);
      }
    EXPECT_TRUE(std::all_of(served.begin(), served.end(), [](int times) { return times == 1; }));
  }
}

TEST(Kits, NoFewerLengthsServeAll) {
  // Source: every way tried: some fewest set of lengths has each as long as its smallest opening allows.
  std::mt19937 random{8};
  for (int n = 0; n < 100; ++n) {
    std::vector<double> openings(1 + random() % 9);
    for (double& opening : openings) opening = (34 + double(random() % 32) / 16) * in;
    int fewest = 99;
    for (unsigned chosen = 0; chosen < 1U << openings.size(); ++chosen) {
      const auto served = [&](double opening) {
        for (std::size_t i = 0; i < openings.size(); ++i) {
          const double left = opening - (openings[i] - gap.least_mm);
          if ((chosen >> i & 1U) != 0 && left > gap.least_mm - 1e-6 && left < gap.greatest_mm + 1e-6) return true;
        }
        return false;
      };
      if (std::all_of(openings.begin(), openings.end(), served)) fewest = std::min(fewest, __builtin_popcount(chosen));
    }
    EXPECT_EQ(static_cast<int>(takeoff::group_openings(openings, gap).size()), fewest);
  }
}

TEST(Kits, TheOpeningIsReadOffTheFramesUpperPlate) {
  // Source: none; a room without a bench has none.
  facts::Facts facts;
  EXPECT_FALSE(takeoff::bench_opening_mm(facts));
  facts::Member plate;
  plate.part_id = "bench-frame/top-plate", plate.which = sample::part_id(plate.part_id);
  plate.length_mm = 914.4;
  facts.members = {plate};
  EXPECT_EQ(takeoff::bench_opening_mm(facts), 914.4);
}

TEST(Kits, AreOneLengthWhereItServes) {
  // Source: by hand: 3/8 - 1/8 in apart one length does, a hair more wants two; in metric 7 mm. The opening is the
  // upper plate's or track's length.
  EXPECT_EQ(takeoff::group_openings({914.4, 914.4 + 6.35}, takeoff::usual_gap(false)).size(), 1u);
  const auto two = takeoff::group_openings({914.4 + 6.4, 914.4}, takeoff::usual_gap(false));
  ASSERT_EQ(two.size(), 2u);
  EXPECT_NEAR(two[0].length_mm, 914.4 - 3.175, 1e-9);
  EXPECT_NEAR(two[1].length_mm, 914.4 + 6.4 - 3.175, 1e-9);
  EXPECT_EQ(two[0].rooms, (std::vector<std::size_t>{1}));
  EXPECT_EQ(takeoff::group_openings({900, 907}, takeoff::usual_gap(true)).size(), 1u);
  EXPECT_EQ(takeoff::group_openings({900, 907.1}, takeoff::usual_gap(true)).size(), 2u);
  facts::Facts facts;
  for (const auto& [id, inches] : {std::pair{"bench-frame/sole-plate", 35}, {"bench-frame/top-track", 36}}) {
    facts.members.emplace_back();
    facts.members.back().which = sample::part_id(id), facts.members.back().length_mm = inches * in;
  }
  EXPECT_NEAR(*takeoff::bench_opening_mm(facts), 36 * in, 1e-9);
  facts.members.pop_back();
  EXPECT_FALSE(takeoff::bench_opening_mm(facts));
}

}  // namespace
}  // namespace fallwright
