// A stiff plate on an uneven floor.
#include <random>

#include <gtest/gtest.h>

#include "survey/rest.hpp"

namespace fallwright::survey {
namespace {

std::vector<Spot> corners(double back_left, double back_right, double front_right, double front_left) {
  return {{0, 34, back_left}, {60, 34, back_right}, {60, 0, front_right}, {0, 0, front_left}};
}

TEST(Rest, OnAPlaneItLiesOnThePlane) {
  // Source: closed form.
  const auto stands = stands_on(corners(0, 2, 3, 1), {30, 17});
  ASSERT_EQ(stands.size(), 1u);
  EXPECT_NEAR(stands[0].gx, 2. / 60, 1e-12);
  EXPECT_NEAR(stands[0].gy, -1. / 34, 1e-12);
}

TEST(Rest, OnAPlaneOfManySpotsItLiesOnThePlane) {
  // Source: closed form: a grid of 60 spots on a floor that falls 1/50 across and 1/40 along.
  std::vector<Spot> spots;
  for (int i = 0; i < 10; ++i)
    for (int k = 0; k < 6; ++k) spots.push_back({6. * i, 5. * k, 3 + 6. * i / 50 - 5. * k / 40});
  const auto stands = stands_on(spots, {30, 17});
  ASSERT_EQ(stands.size(), 1u);
  EXPECT_NEAR(stands[0].gx, 1. / 50, 1e-12);
  EXPECT_NEAR(stands[0].gy, -1. / 40, 1e-12);
  EXPECT_NEAR(stands[0].at(0, 0), 3, 1e-12);
}

TEST(Rest, OnATwistItRocksByTheTwist) {
  // Source: closed form: twist = back left - back right + front right - front left; a plate on the high diagonal
  // touches one of the other two corners and stands off the last by the whole twist.
  const double twist = 5 - 1 + 4 - 2;
  const auto spots = corners(5, 1, 4, 2);
  const auto stands = stands_on(spots, {30, 17});
  ASSERT_EQ(stands.size(), 2u);
  for (const HeightPlane& stand : stands) {
    double gap = 0;
    for (const Spot& s : spots) gap = std::max(gap, stand.at(s.x, s.y) - s.z);
    EXPECT_NEAR(gap, twist, 1e-9);
  }
}

TEST(Rest, KeepsBothPlanesWhereSpotsLieCloseTogether) {
  // Source: closed form: as on a twist, with a spot beside each of the high corners that lies lower than they do.
  auto spots = corners(5, 1, 4, 2);
  for (const Spot& s : {Spot{1e-7, 34, 4.9}, Spot{60, 1e-7, 3.9}}) spots.insert(spots.begin(), s);
  EXPECT_EQ(stands_on(spots, {30, 17}).size(), 2u);
}

TEST(Rest, NothingStandsAboveThePlate) {
  // Source: property: no spot is above the plane, and three at least touch it; 200 random floors, fixed seed.
  std::mt19937 random{31};
  std::uniform_real_distribution<double> x{0, 60}, y{0, 34}, z{-1, 1};
  for (int i = 0; i < 200; ++i) {
    auto spots = corners(z(random), z(random), z(random), z(random));
    for (int k = 0; k < i % 12; ++k) spots.push_back({x(random), y(random), z(random)});
    for (const HeightPlane& stand : stands_on(spots, {30, 17})) {
      int touching = 0;
      for (const Spot& s : spots) {
        EXPECT_LE(s.z, stand.at(s.x, s.y) + 1e-5);
        touching += std::abs(s.z - stand.at(s.x, s.y)) < 1e-5;
      }
      EXPECT_GE(touching, 3);
    }
  }
}

TEST(Rest, OnAThousandSpotsItStandsOnThreeOfThem) {
  // Source: property: of all planes that no spot pierces, a stand is the lowest over the middle; so the height there is
  // no greater than that of any other such plane, and three spots touch it. A hump in the middle leaves it to rock.
  std::mt19937 random{5};
  std::uniform_real_distribution<double> x{0, 60}, y{0, 34}, z{-1, 1};
  for (const double hump : {0., 2.}) {
    auto spots = corners(0.1, 0.2, -0.3, 0.4);
    for (int k = 0; k < 1000; ++k) spots.push_back({x(random), y(random), z(random)});
    if (hump > 0) spots.push_back({30, 17, hump});
    const auto stands = stands_on(spots, {30, 17});
    EXPECT_EQ(stands.size() > 1, hump > 0);
    for (const HeightPlane& stand : stands) {
      int touching = 0;
      for (const Spot& s : spots) {
        EXPECT_LE(s.z, stand.at(s.x, s.y) + 1e-5);
        touching += std::abs(s.z - stand.at(s.x, s.y)) < 1e-5;
      }
      EXPECT_GE(touching, 3);
      EXPECT_NEAR(stand.at(30, 17), stands.front().at(30, 17), 1e-6);
    }
  }
}

TEST(Rest, ManySpotsOnAPlaneAreThePlane) {
  // Source: closed form.
  std::vector<Spot> spots;
  for (int i = 0; i < 20; ++i)
    for (int k = 0; k < 20; ++k) spots.push_back({i * 3., k * 2., 0.01 * i * 3 - 0.02 * k * 2});
  const auto stands = stands_on(spots, {30, 20});
  ASSERT_EQ(stands.size(), 1u);
  EXPECT_NEAR(stands[0].gx, 0.01, 1e-12);
  EXPECT_NEAR(stands[0].gy, -0.02, 1e-12);
}

TEST(Rest, MirrorsWithTheFloor) {
  // Source: property.
  const HeightPlane a = rest_on(corners(5, 1, 4, 2), {30, 17}), b = rest_on(corners(1, 5, 2, 4), {30, 17});
  EXPECT_NEAR(a.gx, -b.gx, 1e-12);
  EXPECT_NEAR(a.gy, b.gy, 1e-12);
  EXPECT_NEAR(a.at(10, 5), b.at(50, 5), 1e-12);
}

}  // namespace
}  // namespace fallwright::survey
