// What lies within a ring, by rays, against the angle that its corners turn round a place: the winding number, from
// memory.
#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include <gtest/gtest.h>

#include "points/points.hpp"

namespace fallwright::points {
namespace {

bool rays_tell(const std::vector<Point2>& ring, Point2 at) {
  bool in = false;
  for (std::size_t i = 0; i < ring.size(); ++i)
    if (crosses_ray(ring[i], ring[(i + 1) % ring.size()], at)) in = !in;
  return in;
}

double turned_round(const std::vector<Point2>& ring, Point2 at) {
  double sum = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point2 &a = ring[i], &b = ring[(i + 1) % ring.size()];
    const double ax = a.x - at.x, ay = a.y - at.y, bx = b.x - at.x, by = b.y - at.y;
    sum += std::atan2(ax * by - ay * bx, ax * bx + ay * by);
  }
  return sum;
}

TEST(Ring, HoldsWhatItsCornersTurnRound) {
  std::mt19937 draw{11};
  std::uniform_real_distribution<> far{2, 20}, place{-20, 20};
  int within = 0;
  for (int round = 0; round < 300; ++round) {
    std::vector<Point2> ring;
    const int corners = std::uniform_int_distribution{3, 12}(draw);
    for (int i = 0; i < corners; ++i) {
      const double angle = 2 * M_PI * i / corners, r = far(draw);
      ring.push_back({r * std::cos(angle), r * std::sin(angle)});
    }
    if (draw() % 2) std::reverse(ring.begin(), ring.end());
    for (int k = 0; k < 20; ++k) {
      const Point2 at{place(draw), place(draw)};
      EXPECT_EQ(rays_tell(ring, at), std::abs(turned_round(ring, at)) > 1) << at.x << ' ' << at.y;
      within += rays_tell(ring, at);
    }
  }
  EXPECT_GT(within, 500);
  EXPECT_LT(within, 5500);
}

TEST(Ring, OfSquaresThatShareASideHoldsAPlaceOnItOnce) {
  const std::vector<Point2> left{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, right{{1, 0}, {2, 0}, {2, 1}, {1, 1}};
  for (const double y : {0.0, 0.25, 0.5, 0.75}) EXPECT_NE(rays_tell(left, {1, y}), rays_tell(right, {1, y})) << y;
}

}  // namespace
}  // namespace fallwright::points
