// Where base, bench, bed and drain stand, and how high, by hand.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "job/layout.hpp"
#include "job/pitch.hpp"
#include "job/read.hpp"
#include "job/validate.hpp"
#include "support/imperial.hpp"
#include "support/skew_room.hpp"

namespace fallwright::job {
namespace {

void expect_rect(const Rect& r, double x0, double y0, double x1, double y1) {
  EXPECT_NEAR(r.x0 / in, x0, 1e-4);
  EXPECT_NEAR(r.y0 / in, y0, 1e-4);
  EXPECT_NEAR(r.x1 / in, x1, 1e-4);
  EXPECT_NEAR(r.y1 / in, y1, 1e-4);
}

TEST(Layout, OfARoomWithNothingAlike) {
  // Source: by hand: base from 1 to 65, tight to the bench at 65 to 80; upstands 1/2, threshold 4; the bed held back
  // 1/2 along framing and past the entry; the floor modelled under 3-1/2 of walls that reach to 82, and 12 past the
  // entry.
  const Layout at = lay_out(sample::skew_room());
  expect_rect(at.base, 1, 0, 65, 40);
  expect_rect(at.bench, 65, 0, 80, 40);
  expect_rect(at.floor, 1.5, 4, 64.5, 39.5);
  expect_rect(at.bed, 1.5, -0.5, 64.5, 39.5);
  expect_rect(at.opening, 27.75, 21.75, 31.75, 25.75);
  expect_rect(at.extent, -3.5, -12, 85.5, 43.5);
  EXPECT_NEAR(at.drain_x / in, 29.75, 1e-6);
  EXPECT_NEAR(at.drain_y / in, 23.75, 1e-6);
  EXPECT_NEAR(at.rib_plane / in, 0.5, 1e-9);
  EXPECT_NEAR(at.drain_top / in, 1.5, 1e-9);
  EXPECT_NEAR(at.upstand_top / in, 5.5, 1e-9);
  EXPECT_NEAR(at.threshold_inner / in, 4, 1e-9);
  EXPECT_NEAR(at.threshold_outer / in, 4 + 4. / 48, 1e-9);
  EXPECT_NEAR(at.bench_length / in, 40, 1e-6);
  EXPECT_NEAR(at.seat_front / in, 18, 1e-9);
  EXPECT_NEAR(at.deck_top / in, 16.75, 1e-9);
  EXPECT_NEAR(at.joist_top / in, 16, 1e-9);
  EXPECT_NEAR(at.plate_top / in, 12.5, 1e-9);
  EXPECT_NEAR(at.subfloor.at(1 * in, 0) / in, 0, 1e-9);
  EXPECT_NEAR(at.subfloor.at(31 * in, 20 * in) / in, -0.5, 1e-9);
  const double rise = 32.75 / 48;
  EXPECT_NEAR(at.floor_at(1.5 * in, 23.75 * in) / in, 1.5 + rise, 1e-6) << "left rim";
  EXPECT_NEAR(at.floor_at(48.125 * in, 23.75 * in) / in, 1.5 + rise / 2, 1e-6) << "half way to the right";
  EXPECT_NEAR(at.floor_at(29.75 * in, 32.625 * in) / in, 1.5 + rise / 2, 1e-6) << "half way to the back";
  EXPECT_NEAR(at.rim_greatest() / in, 1.5 + rise, 1e-6);
}

TEST(Layout, ABenchIsNoLongerThanTheRoomAtItsNose) {
  // Source: by hand: 72 in at the back, 36 farther forward 1 in less, half of it at either side: each side wall comes
  // in by 1/72 per inch. Frame 15, apron 5/8 and overhang 1 before the back wall: at 16-5/8 from it the walls stand
  // 0.2309 in, where the frame's front has 0.2083.
  Job j = sample::alcove();
  j.bench->depth = inches(15), j.bench->apron_thickness = inches(0.625), j.bench->overhang = inches(1);
  j.bench->place = Side::back;
  sample::read_plan(j, {0, 36 * in}, {72 * in, 36 * in}, {0.5 * in, 0}, {71.5 * in, 0});
  const Layout back = lay_out(j);
  EXPECT_NEAR(back.bench.x0 / in, 16.625 / 72, 1e-4);
  EXPECT_NEAR(back.bench.x1 / in, 72 - 16.625 / 72, 1e-4);
  EXPECT_NEAR(back.bench_length / in, 72 - 2 * 16.625 / 72, 1e-4);
  EXPECT_NEAR(back.bench.depth() / in, 15, 1e-9) << "the frame is as deep as it was";
}

TEST(Layout, ABenchIsNoLongerThanStudsLetItBeThatLeanMoreBesideItsNose) {
  // Source: by hand: a side wall leans in by 0.1 in 48 where it was read 5 from the back, by 0.5 at 25. The nose is at
  // 16-5/8; a stud 1-1/2 thick that ends there has its middle 3/4 farther forward, where the wall leans 0.3475 in 48,
  // and stands so over its thickness. Alike at the other wall.
  Job j = sample::alcove();
  j.bench->depth = inches(15), j.bench->apron_thickness = inches(0.625), j.bench->overhang = inches(1);
  j.bench->place = Side::back;
  const auto lean = [](Side wall, double along, double by) {
    return survey::Plumb{wall, along * in, {by * in, 1, survey::Face::stud, 0}, 48 * in};
  };
  const double reach = 0.3475 / 48 * top_of_bench(j);
  j.survey.plumbs = {lean(Side::left, 5, 0.1), lean(Side::left, 25, 0.5)};
  const Layout left = lay_out(j);
  EXPECT_NEAR(left.bench.x0, reach, 1e-9);
  j.survey.plumbs = {lean(Side::right, 5, 0.1), lean(Side::right, 25, 0.5)};
  const Layout right = lay_out(j);
  EXPECT_NEAR(right.bench.x1, 72 * in - reach, 1e-9);
  EXPECT_NEAR(right.bench_length, left.bench_length, 1e-9);
}

TEST(Layout, BetweenTwoWallsThatFaceEachOtherIsTheFigureThatWasRead) {
  // Source: by hand: no back wall; between the walls' back ends 72 in, at the entry 2 in more to the left and 1 to the
  // right: half-way a left wall's face stands at -1, a right one's at 72-1/2. What is built on site fills that.
  Job j = sample::alcove();
  j.alcove.walls = {Side::left, Side::right};
  j.bench.reset();
  j.base.kind = BaseKind::site_built;
  sample::read_plan(j, {0, 36 * in}, {72 * in, 36 * in}, {-2 * in, 0}, {73 * in, 0});
  const Layout at = lay_out(j);
  EXPECT_TRUE(at.room.square_known);
  EXPECT_NEAR(at.room.faces().left.at(18 * in) / in, -1, 1e-4);
  EXPECT_NEAR(at.room.faces().right.at(18 * in) / in, 72.5, 1e-4);
  const auto& [front_left, front_right, back_right, back_left] = at.base_outline.corners();
  EXPECT_NEAR(front_left.x / in, -2, 1e-4);
  EXPECT_NEAR(front_right.x / in, 73, 1e-4);
  EXPECT_NEAR(back_right.x / in, 72, 1e-4);
  EXPECT_NEAR(back_left.x / in, 0, 1e-4);
  EXPECT_NEAR(back_left.y / in, 36, 1e-4);
}

TEST(Layout, SpotLevelsLieOffTheWallBesideThem) {
  // Source: by hand: a left wall from (0, 36) to (-3, 0) in: 12 in from the entry its face is at -2. A spot read 40
  // from it is at 38. The floor reaches 75-1/2 to the right and 6-1/2 to the left: 77 read at the entry is in the room,
  // at 74.
  Job j = sample::alcove();
  sample::read_plan(j, {0, 36 * in}, {72 * in, 36 * in}, {-3 * in, 0}, {72 * in, 0});
  j.survey.level_tolerance_mm = 0.8;
  j.survey.spots = {{40 * in, 12 * in, 0}, {77 * in, 0, 0}, {10 * in, 30 * in, 0}};
  const Layout at = lay_out(j);
  ASSERT_EQ(at.spots.size(), 3u);
  EXPECT_NEAR(at.spots[0].x / in, 38, 1e-6);
  EXPECT_NEAR(at.spots[0].y / in, 12, 1e-9);
  EXPECT_NEAR(at.spots[1].x / in, 74, 1e-6);
  EXPECT_TRUE(survey_contradictions(j).empty());
  j.survey.spots[1].x = 79 * in;
  const auto faults = survey_contradictions(j);
  ASSERT_EQ(faults.size(), 1u);
  EXPECT_NE(faults[0].message.find("a spot level at 79\" from the left, 0\" from the entry"), std::string::npos)
      << faults[0].message;
}

TEST(Layout, ARimThatATapeReadRisesAsItReads) {
  // Source: by hand: left rim 3/4 above the drain's edge, right 1/2, back 5/8, front 7/16, at the rim's middles; a side
  // that nobody read falls as the others are said to.
  Job j = sample::skew_room();
  j.base.tape.rises = {};
  const auto read = [&](Side side, double inches) {
    j.base.tape.rises[static_cast<std::size_t>(side)] = Length::inches(inches);
  };
  read(Side::left, 0.75), read(Side::back, 0.625), read(Side::front, 0.4375);
  const auto up = [&](double x, double y) {
    const Layout at = lay_out(j);
    return (at.floor_at(x * in, y * in) - at.drain_edge) / in;
  };
  EXPECT_NEAR(up(1.5, 23.75), 0.75, 1e-6);
  EXPECT_NEAR(up(29.75, 39.5), 0.625, 1e-6);
  EXPECT_NEAR(up(29.75, 4), 0.4375, 1e-6);
  EXPECT_NEAR(up(64.5, 23.75), 32.75 / 48, 1e-6) << "1/4 in/ft over the longest run";
  read(Side::right, 0.5);
  EXPECT_NEAR(up(64.5, 23.75), 0.5, 1e-6);
}

TEST(Layout, ARimThatWasReadRisesAboveARoundOpeningsLowestEdge) {
  // Source: property: what a tape reads from a round opening up to each rim is what the floor rises from the opening's
  // lowest edge.
  Job j = sample::skew_room();
  j.drain.opening = Opening::round;
  const double inches[] = {0.625, 0.4375, 0.75, 0.5};
  const Side sides[] = {Side::back, Side::front, Side::left, Side::right};
  for (std::size_t i = 0; i < 4; ++i) j.base.tape.rises[static_cast<std::size_t>(sides[i])] = Length::inches(inches[i]);
  const Layout at = lay_out(j);
  const double low = opening_edge_low(j, at);
  const survey::Point middles[] = {{29.75, 39.5}, {29.75, 4}, {1.5, 23.75}, {64.5, 23.75}};
  for (std::size_t i = 0; i < 4; ++i)
    EXPECT_NEAR((at.floor_at(middles[i].x * in, middles[i].y * in) - low) / in, inches[i], 1e-5) << i;
}

TEST(Layout, BareNumbersAreInTheJobsUnit) {
  // Source: docs/job-file.md: a number without a unit is in job.unit, wherever that stands in the file.
  for (const auto& [unit, mm] : {std::pair{"mm", 1.}, {"in", 25.4}}) {
    const double k = mm == 1 ? 25.4 : 1;  // the same room in either
    const auto text = [&](double inches) { return std::to_string(inches * k); };
    const Job j = read("[alcove]\nwidth = " + text(60) + "\ndepth = " + text(36) + "\n[base]\nlength = " + text(58) +
                           "\nwidth = " + text(36) + "\n[drain]\nfrom_left = " + text(30) +
                           "\nfrom_back = " + text(16) + "\n[job]\nname = \"x\"\nunit = \"" + unit + "\"\n",
                       "x.toml");
    EXPECT_NEAR(j.alcove.width.in_mm(), 1524, 1e-3) << unit;
    EXPECT_NEAR(j.drain.across.distance.in_mm(), 762, 1e-3) << unit;
    EXPECT_EQ(j.is_metric(), mm == 1);
  }
}

TEST(Layout, SticksAreOfSomeLength) {
  // Source: none; what is asked for is said: a length.
  Job j = sample::skew_room();
  j.cuts.sticks.clear();
  const auto faults = contradictions(j);
  ASSERT_EQ(faults.size(), 1u);
  EXPECT_EQ(faults[0].key, "cuts.sticks");
  EXPECT_EQ(faults[0].message, "no length is given; name at least one that is sold");
}

TEST(Layout, TheFloorRunsOnPastASideWithoutAWall) {
  // Source: by hand: 12 past the entry and past an open side, under 3-1/2 of wall elsewhere; 72 x 36 between them.
  Job j = sample::alcove();
  j.bench.reset();
  for (const auto& [open, x0, x1] : {std::tuple{Side::left, -12., 75.5}, std::tuple{Side::right, -3.5, 84.}}) {
    j.alcove.walls = {open == Side::left ? Side::right : Side::left, Side::back};
    expect_rect(lay_out(j).extent, x0, -12, x1, 39.5);
  }
}

TEST(Layout, OfABaseWithoutABenchGoesWhereItIsSetAgainst) {
  // Source: by hand: a base of 60 between walls leaning in and out: 0.06 on the left at its top, 5-1/2 + ... up; the
  // rest shared, or on one side. Without upstands and threshold the floor is the base; an open side lets the bed run
  // on.
  Job j = sample::alcove();
  j.bench.reset();
  j.base.length = Length::inches(60);
  const auto x0 = [&](Against against) {
    j.base.against = against;
    return lay_out(j).base.x0 / in;
  };
  EXPECT_NEAR(x0(Against::middle), 6, 1e-9);
  EXPECT_NEAR(x0(Against::left), 0, 1e-9);
  EXPECT_NEAR(x0(Against::right), 12, 1e-9);
  j.alcove.walls = {Side::back, Side::left};
  j.base.upstands = {Side::back, Side::front};
  j.base.threshold = {};
  const Layout at = lay_out(j);
  expect_rect(at.floor, 12, 0.5, 72, 35.5);
  expect_rect(at.bed, 12.5, -0.5, 72.5, 35.5);
  EXPECT_NEAR(at.extent.x1 / in, 72 + 12, 1e-9);
}

TEST(Layout, ABaseBeforeABackBenchStandsBetweenTheWallsBesideItself) {
  // Source: by hand: 72 in between side walls that lean over to the right by 1/36 on their way from entry to back, 36
  // deep. A base 20 deep before 14 of bench stands 2 to 22 from the entry: there the left wall comes in to 22/36 and
  // the right one to 72 + 2/36, so that 71 goes between with 16/36 left. Behind it, beside the bench, the left one comes
  // in 14/36 more, which is nothing to the base. Its twin's walls lean over to the left.
  Job j = sample::alcove();
  j.bench->place = Side::back, j.bench->depth = inches(14);
  j.base.length = inches(71), j.base.width = inches(20);
  const auto x0 = [&](Against against) {
    j.base.against = against;
    return lay_out(j).base.x0 / in;
  };
  sample::read_plan(j, {0, 36 * in}, {72 * in, 36 * in}, {-1 * in, 0}, {71 * in, 0});
  EXPECT_NEAR(lay_out(j).base.y1 / in, 22, 1e-4);
  const double left = -1 + 22. / 36, right = 71 + 2. / 36;
  EXPECT_NEAR(x0(Against::left), left, 1e-4);
  EXPECT_NEAR(x0(Against::right), right - 71, 1e-4);
  EXPECT_NEAR(x0(Against::middle), (left + right - 71) / 2, 1e-4);
  sample::read_plan(j, {0, 36 * in}, {72 * in, 36 * in}, {1 * in, 0}, {73 * in, 0});
  EXPECT_NEAR(x0(Against::left), 1 - 2. / 36, 1e-4);
  EXPECT_NEAR(x0(Against::right), 73 - 22. / 36 - 71, 1e-4);
  EXPECT_NEAR(x0(Against::middle), (1 - 2. / 36 + 73 - 22. / 36 - 71) / 2, 1e-4);
}

TEST(Layout, OfAChannelAndItsOutlet) {
  // Source: by hand: 2-1/2 wide from rim to rim, 4 in from the back of a base 57-1/2 x 36 that begins at 14-1/2: its
  // floor runs from 15 to 71-1/2; the outlet in its middle, or 10 from the base's right; another one 20 long about its
  // own place.
  Job j = sample::alcove();
  j.drain.kind = DrainKind::line;
  j.base.pattern = FallPattern::to_line;
  j.drain.size = Length::inches(2.5);
  j.drain.along = {Side::back, Length::inches(4)};
  j.drain.across.distance = {};
  Layout at = lay_out(j);
  expect_rect(at.opening, 15, 30.75, 71.5, 33.25);
  EXPECT_NEAR(at.drain_x / in, 43.25, 1e-9);
  EXPECT_NEAR(at.drain_y / in, 32, 1e-9);
  ASSERT_EQ(at.facets.size(), 2u) << "to the back and to the front";
  EXPECT_EQ(at.facets[0].name, "back");
  EXPECT_NEAR(at.facets[0].plane.gy, 1. / 48, 1e-12);
  EXPECT_NEAR(at.facets[1].plane.gy, -1. / 48, 1e-12);
  j.drain.across = {Side::right, Length::inches(10)};
  at = lay_out(j);
  EXPECT_NEAR(at.drain_x / in, 62, 1e-9);
  expect_rect(at.opening, 15, 30.75, 71.5, 33.25);
  j.drain.channel_length = Length::inches(20);
  expect_rect(lay_out(j).opening, 52, 30.75, 72, 33.25);
  j.drain.channel_direction = Direction::along_depth;
  expect_rect(lay_out(j).opening, 60.75, 22, 63.25, 42);
}

TEST(Layout, OfARoundOpeningItsEdgeIsLowestOnAHip) {
  // Source: closed form: facets of falls a and b rise along their hip by a b / hypot(a, b) for each unit; the opening
  // of 4 in has its edge 2 in out; a given rise counts from there: 1 - 2 / D of the whole, D the farthest corner's
  // distance.
  Job j = sample::alcove();
  j.drain.opening = Opening::round;
  const Layout at = lay_out(j);
  const double rise = 28.25 / 48, left = rise / 28.25, back = rise / 15.75, right = rise / 28.25, front = rise / 15.75;
  const double low = std::min({left * back, right * back, left * front, right * front}) / std::hypot(left, back) * 2;
  EXPECT_NEAR((at.drain_top - at.drain_edge) / in, low, 1e-6);
  j.base.rise = Length::inches(0.75);
  const double whole_rise = 0.75 / (1 - 2 / std::hypot(28.25, 15.75));
  EXPECT_NEAR((lay_out(j).rim_greatest() - lay_out(j).drain_edge) / in, whole_rise, 1e-6);
}

TEST(Layout, TopOfABenchIsItsUpstands) {
  // Source: by hand: 18 + 3 and 14-1/2 / 48 of fall, whichever way it leads.
  Job j = sample::alcove();
  EXPECT_NEAR(top_of_bench(j) / in, 21 + 14.5 / 48, 1e-9);
  j.bench->seat_fall = Fall::inches_per_foot(-0.25);
  EXPECT_NEAR(top_of_bench(j) / in, 21 + 14.5 / 48, 1e-9);
}

TEST(Cut, IsTheMarkAtOrBelow) {
  // Source: by hand: 10.37 in is cut to 10-5/16 (10-3/8 would be 10.375); 263.9 mm to 263; what is on a mark stays on
  // it.
  Job j = sample::alcove();
  EXPECT_NEAR(j.cut_mm(10.37 * in), 10.37 * in, 1e-12) << "exact, unless the job says to the tape";
  j.cuts.to_tape = true;
  EXPECT_NEAR(j.cut_mm(10.37 * in), 10.3125 * in, 1e-9);
  EXPECT_NEAR(j.cut_mm(10.375 * in - 1e-8), 10.375 * in, 1e-6);
  j.unit = UnitSystem::metric;
  EXPECT_NEAR(j.cut_mm(263.9), 263, 1e-9);
}

}  // namespace
}  // namespace fallwright::job
