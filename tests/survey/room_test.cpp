// Where the stud faces stand.
#include <cmath>

#include <gtest/gtest.h>

#include "survey/readings_of.hpp"
#include "survey/room.hpp"

namespace fallwright::survey {
namespace {

TEST(Room, AsDesignedItIsSquareAndPlumbAndSaysNothingIsKnown) {
  // Source: none.
  const Room room = make_room({}, 1800, 900, three);
  EXPECT_FALSE(room.square_known || room.levels_known);
  EXPECT_FALSE(room.wall(Side::left)->plumb_known());
  EXPECT_EQ(room.innermost(Side::left, 0, 900, 0, 2400), 0);
  EXPECT_EQ(room.innermost(Side::right, 0, 900, 0, 2400), 1800);
  EXPECT_EQ(room.innermost(Side::back, 0, 1800, 0, 2400), 900);
}

TEST(Room, ALeanIsProportionalToHeight) {
  // Source: closed form: 3/16 over 48 in is 0.015625 in at 4 in.
  Survey s;
  s.plumbs = {plumb(Side::right, 100, 0.1875, 48), plumb(Side::left, 100, 0.1875, 48)};
  const Room room = make_room(s, 60.25, 36, three);
  EXPECT_NEAR(room.wall(Side::right)->at(18, 4).x, 60.25 - 0.015625, 1e-12);
  EXPECT_NEAR(room.wall(Side::left)->at(18, 48).x, 0.1875, 1e-12);
  EXPECT_NEAR(room.innermost(Side::right, 0, 36, 0, 48), 60.0625, 1e-12);
}

TEST(Room, BetweenReadingsTheLeanChangesInProportion) {
  // Source: closed form.
  Survey s;
  s.plumbs = {plumb(Side::back, 1000, 8, 1000), plumb(Side::back, 0, 0, 1000)};
  const Room room = make_room(s, 1800, 900, three);
  const Wall& back = *room.wall(Side::back);
  EXPECT_NEAR(back.lean(500), 0.004, 1e-15);
  EXPECT_NEAR(back.lean(1700), 0.008, 1e-15);
  EXPECT_NEAR(back.at(500, 100).y, 900 - 0.4, 1e-12);
  EXPECT_NEAR(room.innermost(Side::back, 0, 1800, 0, 1000), 892, 1e-9);
}

TEST(Room, LeaningAwayTheFootReachesInFarthest) {
  // Source: closed form.
  Survey s;
  s.plumbs = {plumb(Side::left, 0, -5, 1000)};
  EXPECT_EQ(make_room(s, 1800, 900, three).innermost(Side::left, 0, 900, 0, 1000), 0);
}

TEST(Room, SizesFollowFromReadingsWhereNoneAreGiven) {
  // Source: closed form: a parallelogram 1800 wide leaning 20 over 900.
  Survey s;
  const auto r = [](double mm) { return Reading{mm, 1, Face::stud, 0}; };
  s.plan = {r(1800),
            r(1800),
            r(std::hypot(20, 900)),
            r(std::hypot(20, 900)),
            r(std::hypot(1820, 900)),
            r(std::hypot(1780, 900))};
  const Room room = make_room(s, {}, {}, three);
  EXPECT_TRUE(room.square_known);
  EXPECT_NEAR(room.width, 1800, 1e-6);
  EXPECT_NEAR(room.depth, 900, 1e-6);
  EXPECT_NEAR(room.wall(Side::left)->end().x, 20, 1e-6);
  EXPECT_NEAR(room.innermost(Side::left, 0, 900, 0, 0), 20, 1e-6);
  EXPECT_NEAR(room.innermost(Side::right, 0, 900, 0, 0), 1800, 1e-6);
}

}  // namespace
}  // namespace fallwright::survey
