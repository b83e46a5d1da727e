// Rooms and floors whose every number is worked out by hand, none of them square.
#include <cmath>

#include <gtest/gtest.h>

#include "survey/floor.hpp"
#include "survey/readings_of.hpp"
#include "survey/rest.hpp"
#include "survey/room.hpp"

namespace fallwright::survey {
namespace {

Reading read(double mm, Face face = Face::stud, double tolerance = 1) {
  return {mm, tolerance, face, 0};
}

/// Back (0, 900) to (1800, 900); the left front corner at (-90, 0), the right one at (1845, -30).
const Point bl{0, 900}, br{1800, 900}, fl{-90, 0}, fr{1845, -30};
Survey skew() {
  Survey s;
  s.plan = {read(1800),          read(apart(fl, fr)), read(apart(bl, fl)),
            read(apart(br, fr)), read(apart(bl, fr)), read(apart(br, fl))};
  return s;
}

TEST(SkewedRoom, WallsStandOnTheirLinesAndLeanSquareToThem) {
  // Source: by hand: the left wall is hypot(90, 900) = 904.49 long; its middle at (-45, 450); 100 up it has come in by
  // 1 mm square to it: (0.995, -0.0995). The right wall leans away by as much over 200.
  Survey s = skew();
  s.plumbs = {plumb(Side::left, 100, 12, 1200), plumb(Side::right, 100, -6, 1200)};
  const Room room = make_room(s, 1800, 900, three);
  const Wall &left = *room.wall(Side::left), &right = *room.wall(Side::right), &back = *room.wall(Side::back);
  EXPECT_NEAR(left.length(), std::hypot(90, 900), 1e-6);
  EXPECT_NEAR(right.length(), std::hypot(45, 930), 1e-6);
  const double l = std::hypot(90, 900), r = std::hypot(45, 930);
  EXPECT_NEAR(left.at(l / 2, 100).x, -45 + 900 / l, 1e-6);
  EXPECT_NEAR(left.at(l / 2, 100).y, 450 - 90 / l, 1e-6);
  EXPECT_NEAR(right.at(r / 2, 200).x, 1822.5 + 930 / r, 1e-6);
  EXPECT_NEAR(right.at(r / 2, 200).y, 435 + 45 / r, 1e-6);
  EXPECT_NEAR(back.inward().y, -1, 1e-9);
  EXPECT_NEAR(left.direction().x, -90 / l, 1e-9);
  EXPECT_TRUE(left.plumb_known());
  EXPECT_FALSE(back.plumb_known());
}

TEST(SkewedRoom, ReachesInWhereItIsAskedAndNotElsewhere) {
  // Source: by hand: between y = 300 and 600 the left wall's foot is innermost at 600, -30; the right one's at 600,
  // 1800 + 45 x 300 / 930. A wall that is not there is the rectangle's side.
  const Room room = make_room(skew(), 1800, 900, three);
  EXPECT_NEAR(room.innermost(Side::left, 300, 600, 0, 0), -30, 1e-6);
  EXPECT_NEAR(room.innermost(Side::right, 300, 600, 0, 0), 1800 + 45 * 300. / 930, 1e-6);
  EXPECT_NEAR(room.innermost(Side::back, 100, 1700, 0, 500), 900, 1e-6);
  const Room open = make_room({}, 1750, 880, {Side::back});
  EXPECT_EQ(open.innermost(Side::left, 0, 880, 0, 100), 0);
  EXPECT_EQ(open.innermost(Side::right, 0, 880, 0, 100), 1750);
  EXPECT_EQ(open.wall(Side::left), nullptr);
}

TEST(SkewedRoom, IsReadOffTheWallBesideAPlaceBothWays) {
  // Source: by hand: 450 from the entry the left wall stands at -45 and the right one at 1800 + 45 x 450 / 930: a place
  // at 700 is 745 off the left one; read 745 from the left and 450 from the back it is found again. Where no wall
  // stands, a tape begins at the rectangle's side.
  const StudFaces faces = make_room(skew(), 1800, 900, three).faces();
  const Point place{700, 450}, told = faces.told(place), again = faces.placed(told);
  EXPECT_NEAR(told.x, 745, 1e-6);
  EXPECT_EQ(told.y, 450);
  EXPECT_NEAR(again.x, 700, 1e-9);
  EXPECT_NEAR(faces.off(Side::right, place), 1100 + 45 * 450. / 930, 1e-6);
  EXPECT_NEAR(faces.off(Side::back, place), 450, 1e-6);
  EXPECT_NEAR(faces.at(Side::right, faces.off(Side::right, place), 450), 700, 1e-9);
  const Point hole = faces.placed_from_back(745, 450);
  EXPECT_NEAR(hole.x, 700, 1e-6);
  EXPECT_NEAR(hole.y, 450, 1e-6);
  const StudFaces open = make_room({}, 1750, 880, {Side::back}).faces();
  EXPECT_EQ(open.off(Side::left, {700, 450}), 700);
  EXPECT_EQ(open.off(Side::right, {700, 450}), 1050);
}

TEST(StudFaces, OfWallsThatAllRunAskewMeetWhereBothTapesRead) {
  // Source: closed form: a left wall at x = 10 + y / 10 and a back one at y = 900 + x / 20; a place at (400, 300) is
  // 400 - 40 off the left one and 920 - 300 off the back one.
  const StudFaces faces{{10, 0.1}, {1800, 0}, {900, 0.05}};
  const Point place = faces.placed_from_back(360, 620);
  EXPECT_NEAR(place.x, 400, 1e-9);
  EXPECT_NEAR(place.y, 300, 1e-9);
}

TEST(SkewedRoom, ABulgeBetweenPlumbsCounts) {
  // Source: by hand: plumb at both ends of the stretch, 12 mm in over 1200 in its middle: at 600 up 6 mm, at 900 up 9.
  Survey s;
  s.plumbs = {plumb(Side::right, 100, 0, 1200), plumb(Side::right, 450, 12, 1200), plumb(Side::right, 800, 0, 1200),
              plumb(Side::back, 300, 0, 1200),  plumb(Side::back, 900, -12, 1200), plumb(Side::back, 1500, 6, 1200)};
  const Room room = make_room(s, 1800, 900, three);
  EXPECT_NEAR(room.innermost(Side::right, 100, 800, 0, 600), 1794, 1e-9);
  EXPECT_NEAR(room.innermost(Side::right, 100, 800, 600, 900), 1791, 1e-9);
  EXPECT_NEAR(room.innermost(Side::right, 700, 800, 0, 600), 1800 - 6 * 100. / 350, 1e-9) << "beside it less";
  EXPECT_NEAR(room.innermost(Side::right, 700, 800, 0, 600, 40), 1800 - 6 * 120. / 350, 1e-9)
      << "a stud of 40 whose middle stands 20 behind the stretch leans as the wall does at 680";
  EXPECT_NEAR(room.innermost(Side::right, 460, 800, 0, 600, 40), 1794, 1e-9) << "as the reading at 450 says";
  EXPECT_NEAR(room.innermost(Side::back, 900, 1800, 0, 1200), 894, 1e-9);
  EXPECT_NEAR(room.innermost(Side::back, 0, 900, 0, 1200), 900, 1e-9);
  const Wall& back = *room.wall(Side::back);
  EXPECT_NEAR(back.lean(600), -0.005, 1e-12);
  EXPECT_NEAR(back.lean(1200), -0.0025, 1e-12);
  EXPECT_NEAR(back.lean(0), 0, 1e-12);
  EXPECT_NEAR(back.lean(1700), 0.005, 1e-12);
  EXPECT_EQ(back.places(), (std::vector<double>{0, 300, 900, 1500, 1800}));
}

TEST(RoomSizes, AreTheLeastThatWasReadBetweenStuds) {
  // Source: by hand: boards of 12 mm: 1776 between them at the back are 1800 between studs, 1790 read on studs at the
  // front; of left and right 890 and 880 the lesser, with its board 892. What is given stands.
  Survey s;
  s.board_mm = 12, s.finish_mm = 30;
  s.plan.back = read(1776, Face::board), s.plan.front = read(1790, Face::board);
  s.plan.left = read(890, Face::board), s.plan.right = read(880, Face::board);
  const Room room = make_room(s, {}, {}, three);
  EXPECT_FALSE(room.square_known);
  EXPECT_NEAR(room.width, 1800, 1e-9);
  EXPECT_NEAR(room.depth, 892, 1e-9);
  EXPECT_NEAR(make_room(s, 1750, {}, three).width, 1750, 1e-9);
  EXPECT_NEAR(make_room(s, {}, 870, three).depth, 870, 1e-9);
  s.plan = {};
  s.plan.back = read(1740, Face::finish), s.plan.right = read(850, Face::finish);
  EXPECT_NEAR(make_room(s, {}, {}, three).width, 1800, 1e-9);
  EXPECT_NEAR(make_room(s, {}, {}, three).depth, 880, 1e-9);
}

TEST(RoomSizes, OfASolvedFigureAreItsLeastSides) {
  // Source: by hand: 1800 at the back, 1935 at the entry; the left front corner 900 from the back wall's line, the
  // right one 930: the room's depth is 900.
  const Room room = make_room(skew(), {}, {}, three);
  EXPECT_TRUE(room.square_known);
  EXPECT_NEAR(room.width, 1800, 1e-5);
  EXPECT_NEAR(room.depth, 900, 1e-5);
  EXPECT_NEAR(room.wall(Side::right)->end().x, 1845, 1e-5);
  EXPECT_NEAR(room.wall(Side::right)->end().y, -30, 1e-5);
}

TEST(Closed, ReadingsOnBoardsAreOfTheFigureInsideThem) {
  // Source: closed form: a rectangle of 1800 x 900 between studs is 1776 wide between boards of 12 mm, and 888 deep
  // from the board on the back wall to the entry's line; its diagonal between boards hypot(1776, 888).
  Survey s;
  s.board_mm = 12;
  const Reading wide = read(1776, Face::board), deep = read(888, Face::board),
                across = read(std::hypot(1776, 888), Face::board);
  s.plan = {wide, wide, deep, deep, across, across};
  const Closure c = close(s);
  ASSERT_TRUE(c.solved);
  EXPECT_NEAR(c.figure.back_right.x, 1800, 1e-5);
  EXPECT_NEAR(c.figure.front_left.y, -900, 1e-5);
  EXPECT_NEAR(c.worst_mm, 0, 1e-5);
  ASSERT_EQ(c.readings.size(), 6u);
  EXPECT_NEAR(c.readings[0].solved_mm, 1776, 1e-5) << "told as it was read, between boards";
  EXPECT_EQ(c.readings[4].name, "diagonal from back left");
}

TEST(Closed, WhatIsLeftIsSharedByTolerance) {
  // Source: closed form: in a square with both diagonals 4 too long by the same tape, a figure can only grow: with
  // sides ten times as sure as diagonals the sides keep theirs.
  Survey s;
  const Reading side = read(1000, Face::stud, 0.1), diagonal = read(std::sqrt(2) * 1000 + 4, Face::stud, 10);
  s.plan = {side, side, side, side, diagonal, diagonal};
  const Closure c = close(s);
  ASSERT_TRUE(c.solved);
  for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(c.readings[i].solved_mm, 1000, 0.01);
  EXPECT_NEAR(c.readings[4].off_mm(), 4, 0.02);
  EXPECT_NEAR(c.worst_mm, 4, 0.02);
  EXPECT_NEAR(c.worst_share, 0.4, 0.002);
  EXPECT_NEAR(c.readings[4].tolerance_mm, 10, 1e-12);
}

TEST(Closed, SaysWhatCannotBe) {
  // Source: the triangle inequality, corner by corner.
  Survey s = skew();
  s.plan.from_back_left = read(3000);
  EXPECT_EQ(close(s).impossible, "the diagonal from back left is longer than back and right together");
  s = skew();
  s.plan.right = read(4200);
  EXPECT_EQ(close(s).impossible, "right is longer than back and the diagonal from back left together");
  s.plan.right.reset(), s.plan.front.reset();
  EXPECT_EQ(close(s).missing, (std::vector<std::string>{"front", "right"}));
  EXPECT_FALSE(close(s).solved);
}

TEST(Closed, NamesEachTriangleThatCannotBe) {
  // Source: the triangle inequality: of six readings of 1500 two of 1000 make no triangle with one of 2000, and no
  // other triangle is broken by that.
  using Field = std::optional<Reading> Plan::*;
  const Field back = &Plan::back, front = &Plan::front, left = &Plan::left, right = &Plan::right,
              bl_fr = &Plan::from_back_left, br_fl = &Plan::from_back_right;
  const struct {
    Field whole, a, b;
    const char* words;
  } all[] = {{bl_fr, back, right, "the diagonal from back left is longer than back and right together"},
             {bl_fr, left, front, "the diagonal from back left is longer than left and front together"},
             {br_fl, back, left, "the diagonal from back right is longer than back and left together"},
             {br_fl, right, front, "the diagonal from back right is longer than right and front together"},
             {back, bl_fr, right, "back is longer than right and the diagonal from back left together"},
             {back, br_fl, left, "back is longer than left and the diagonal from back right together"},
             {front, bl_fr, left, "front is longer than left and the diagonal from back left together"},
             {front, br_fl, right, "front is longer than right and the diagonal from back right together"},
             {left, back, br_fl, "left is longer than back and the diagonal from back right together"},
             {left, front, bl_fr, "left is longer than front and the diagonal from back left together"},
             {right, back, bl_fr, "right is longer than back and the diagonal from back left together"},
             {right, front, br_fl, "right is longer than front and the diagonal from back right together"}};
  for (const auto& t : all) {
    Survey s;
    for (const Field field : {back, front, left, right, bl_fr, br_fl}) s.plan.*field = read(1500);
    s.plan.*t.whole = read(2000), s.plan.*t.a = s.plan.*t.b = read(1000);
    EXPECT_EQ(close(s).impossible, t.words);
  }
}

TEST(FloorBeyond, GoesOnAsThePlaneThatFitsAllBest) {
  // Source: by hand: corners of a 1000 mm square 0, 0, 0 and 4 (right back): the plane is -1 + 0.002 (x + y), 1 below
  // the first corner and 1 above the second; each place beyond is as far off it as the nearest of the outline is.
  const Floor floor = floor_through({{0, 0, 0}, {1000, 0, 0}, {0, 1000, 0}, {1000, 1000, 4}}, {-100, -100, 1100, 1100});
  EXPECT_NEAR(floor.at(-100, -100), -0.4, 1e-9);
  EXPECT_NEAR(floor.at(1100, 0), 0.2, 1e-9);
  EXPECT_NEAR(floor.at(1100, -100), 0, 1e-9);
  EXPECT_NEAR(floor.at(1100, 1100), 4.4, 1e-9);
  EXPECT_NEAR(floor.at(0, 1100), 0.2, 1e-9);
  EXPECT_NEAR(floor.at(500, 500), 1, 1e-9) << "in the middle of four, their mean";
  EXPECT_NEAR(floor.at(500, 0), 0, 1e-9);
  EXPECT_NEAR(floor.at(1000, 500), 2, 1e-9);
  EXPECT_NEAR(floor.raised(3).at(1000, 500), 5, 1e-9);
  EXPECT_NEAR(floor.highest({900, 900, 1000, 1000}), 4, 1e-9);
  EXPECT_NEAR(floor.lowest({-100, -100, 1000, 1000}), -0.4, 1e-9);
}

TEST(FloorBeyond, ThePlaneOfLeastSquaresIsTheOneByHand) {
  // Source: normal equations by hand: (0, 0) 1, (4, 0) 3, (0, 2) 2, (4, 2) 6: mean 3, along x (2 + 4) / 2 over 4, along
  // y (1
  // + 3) / 2 over 2.
  const HeightPlane p = best_plane({{0, 0, 1}, {4, 0, 3}, {0, 2, 2}, {4, 2, 6}});
  EXPECT_NEAR(p.gx, 0.75, 1e-12);
  EXPECT_NEAR(p.gy, 1, 1e-12);
  EXPECT_NEAR(p.z0, 0.5, 1e-12);
}

TEST(FloorBeyond, AHandsBreadthEachWaySpansAPlane) {
  // Source: closed form: twice the area of the triangle against a square of 100 mm.
  EXPECT_TRUE(span_a_plane({{0, 0, 0}, {101, 0, 0}, {0, 100, 0}}));
  EXPECT_FALSE(span_a_plane({{0, 0, 0}, {100, 0, 0}, {0, 100, 0}}));
}

TEST(RestOnFloor, AStickLiesOnWhatStandsHighest) {
  // Source: by hand: a board along y = 0 from 0 to 1000 over a ridge 6 high at x = 400 rocks over it: it lies level on
  // average of both stands, or touches the ridge in both.
  const Floor floor = floor_through({{0, 0, 0}, {400, 0, 6}, {1000, 0, 0}, {0, 100, 0}, {400, 100, 6}, {1000, 100, 0}},
                                    {-50, -50, 1050, 150});
  const HeightPlane rest = rest_on(floor, to_polygon({0, 0, 1000, 100}));
  EXPECT_NEAR(rest.at(400, 50), 6, 1e-6);
  EXPECT_NEAR(rest.gx, -0.01, 1e-6) << "its middle, at 500, lies on the longer side of the ridge";
  EXPECT_NEAR(rest.gy, 0, 1e-6);
}

}  // namespace
}  // namespace fallwright::survey
