// Every number of a room in which nothing is alike (support/skew_room.hpp), by hand and in inches.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/imperial.hpp"
#include "support/skew_room.hpp"

namespace fallwright::measure {
namespace {

using job::Length;
using job::Side;

const parts::Model& model() {
  static const auto built = parts::build(sample::skew_room());
  return *built;
}
const facts::Facts& found() {
  static const facts::Facts facts = measure(model());
  return facts;
}

double leaning_left(double z) {
  return 0.01 * z;
}

/// With its strips, which taper from 15/16 at the studs' feet to nothing at their heads: to 1 in it lacks 0.985 at
/// 1-1/2, and 0.055, less than a mark, at 94-1/2. It comes in farthest where it is looked at lowest.
double furred_left(double z) {
  return leaning_left(z) + 15. / 16 * (1 - (z - 1.5) / 93);
}
/// The floor falls: feet stand a little lower than that.
constexpr double by_feet = 0.006;

TEST(SkewRoom, StudsAreGapsAtTheirOwnPlace) {
  // Source: by hand; heights: rib plane 1/2, upstand's top 5-1/2, alcove's top 96. Left studs stand before the base's
  // edge at 1; the back corner's is 1 mm off the back wall's plane. Back studs lean away. Right studs stand before the
  // bench's edge at 80, and their back edge counts: 3/4 nearer to the back than their centre.
  struct Wanted {
    const char *id, *wall, *before;
    double running, floor, upstand, top;
  };
  const double slope = 2 / std::hypot(2, 40), along = 40 / std::hypot(2, 40);
  const auto right = [&](double centre) { return (centre - 0.75) * slope; };
  const Wanted all[] = {{"wall-left/stud-01", "left", "base", 39.25, 1 - 0.005, 1 - 0.055, 1 - 0.96},
                        {"wall-left/stud-02", "left", "base", 32, 1 - 0.005, 1 - 0.055, 1 - 0.96},
                        {"wall-left/stud-03", "left", "base", 16, 1 - 0.005, 1 - 0.055, 1 - 0.96},
                        {"wall-back/stud-03", "back", "base", 16, 0.0025, 0.0275, 0.48},
                        {"wall-back/stud-06", "back", "base", 64, 0.0025, 0.0275, 0.48},
                        {"wall-right/stud-02", "right", "bench", 16 * along, right(16), right(16), right(16)},
                        {"wall-right/stud-03", "right", "bench", 32 * along, right(32), right(32), right(32)}};
  for (const Wanted& w : all) {
    const auto at = std::find_if(found().room.studs.begin(), found().room.studs.end(),
                                 [&](const facts::StudGap& s) { return s.part_id == w.id; });
    ASSERT_NE(at, found().room.studs.end()) << w.id;
    EXPECT_STREQ(name_of(at->wall), w.wall) << w.id;
    EXPECT_STREQ(name_of(at->before), w.before) << w.id;
    EXPECT_NEAR(at->running_mm / in, w.running, 1e-3) << w.id;
    EXPECT_NEAR(at->at_floor_mm / in, w.floor, 1e-3) << w.id;
    EXPECT_NEAR(at->at_upstand_mm / in, w.upstand, 1e-3) << w.id;
    EXPECT_NEAR(at->at_top_mm / in, w.top, 1e-3) << w.id;
  }
}

TEST(SkewRoom, CornersOfTheBaseLeanWithTheirWall) {
  // Source: by hand; where the bench stands no wall stands before the base.
  struct Wanted {
    const char *corner, *wall;
    double floor, upstand;
  };
  const Wanted all[] = {{"back left", "left", 0.995, 0.945},
                        {"front left", "left", 0.995, 0.945},
                        {"back left", "back", 0.0025, 0.0275},
                        {"back right", "back", 0.0025, 0.0275}};
  ASSERT_EQ(found().room.corners.size(), std::size(all));
  for (std::size_t i = 0; i < std::size(all); ++i) {
    const facts::CornerGap& c = found().room.corners[i];
    EXPECT_EQ(c.name(), all[i].corner);
    EXPECT_STREQ(name_of(c.wall), all[i].wall);
    EXPECT_NEAR(c.at_floor_mm / in, all[i].floor, 1e-4) << c.name();
    EXPECT_NEAR(c.at_upstand_mm / in, all[i].upstand, 1e-4) << c.name();
  }
}

TEST(SkewRoom, AWidthIsReadWhereTheNextStudsStand) {
  // Source: by hand: 10 from the back and 40 up the next studs are those at 16: 0.4 on the left, the back edge of the
  // right one 15-1/4 along; over 1/2 in boards, so 80-1/2 between studs.
  ASSERT_EQ(found().room.widths.size(), 1u);
  const facts::WidthRead& w = found().room.widths[0];
  EXPECT_NEAR(w.reading_mm / in, 80.5, 1e-9);
  EXPECT_NEAR(w.solids_mm / in, 80 + 15.25 * 2 / std::hypot(2, 40) - 0.4, 1e-3);
  EXPECT_NEAR(w.height_mm / in, 40, 1e-9);
  EXPECT_NEAR(w.from_back_mm / in, 10, 1e-9);
  EXPECT_NEAR(w.tolerance_mm, 2, 1e-9);
  EXPECT_EQ(found().room.not_plumbed, std::vector{job::Side::right});
}

TEST(SkewRoom, IsSetOutFromFacesThatAreThere) {
  // Source: by hand: the bore at (29-3/4, 23-3/4); the right wall there at 80-13/16; finished faces 1-1/4 before
  // strips: of the left wall to nearly 1. The right one is to be framed out before a stud 2 in back: where it will be
  // finished nobody knows. The bench 15 from the right wall at the back and 17 at the front.
  const std::pair<const char*, double> all[] = {{"bore centre from the left stud face", 29.75},
                                                {"bore centre from the finished left wall", 28.5 - furred_left(1.5)},
                                                {"bore centre from the right stud face", 80.8125 - 29.75},
                                                {"bore centre from the back stud face", 16.25},
                                                {"bore centre from the finished back wall", 15},
                                                {"bore centre from the base's front edge", 23.75},
                                                {"base's front edge from the back stud face, at its left end", 40},
                                                {"base's front edge from the back stud face, at its right end", 40},
                                                {"diagonal of the base, both ways alike", std::hypot(64, 40)},
                                                {"bench frame's front from the right stud face, at its back end", 15},
                                                {"bench frame's front from the right stud face, at its front end", 17},
                                                {"diagonal of the bench frame, both ways alike", std::hypot(15, 40)}};
  ASSERT_EQ(found().room.set_out.size(), std::size(all));
  for (std::size_t i = 0; i < std::size(all); ++i) {
    EXPECT_EQ(found().room.set_out[i].name, all[i].first);
    EXPECT_NEAR(found().room.set_out[i].mm / in, all[i].second,
                std::string{all[i].first}.find("finished") == std::string::npos ? 1e-3 : by_feet)
        << all[i].first;
  }
}

TEST(SkewRoom, OpeningsAreBetweenWhatComesInFarthest) {
  // Source: by hand: the left wall at the upstand's top, 5-1/2 up, the right one at the back; the right wall's framing
  // begins a hair off the back wall.
  const facts::Opening &width = found().openings.at(0), &depth = found().openings.at(1);
  EXPECT_NEAR(width.alcove_mm / in, 80 - leaning_left(5.5), 0.01);
  EXPECT_NEAR(width.base_mm / in, 64, 1e-9);
  EXPECT_NEAR(*width.bench_mm / in, 15, 1e-9);
  EXPECT_NEAR(width.left_over_mm / in, 1 - leaning_left(5.5), 0.01);
  EXPECT_NEAR(depth.alcove_mm / in, 40, 0.01);
  EXPECT_NEAR(depth.base_mm / in, 40, 1e-9);
  EXPECT_FALSE(depth.bench_mm);
}

TEST(SkewRoom, EntryAndCompartmentAreBetweenFramingAndFinish) {
  // Source: by hand: 70 in above the threshold's top at 4.0833 the left wall has come in by 0.7408, and with its
  // strips, at the threshold's top, by 0.952; the seat's apron stands 1/2 before its frame at 65; of the compartment's
  // face the seat takes nothing, and the right wall, at the threshold's inner edge, is at 81.8.
  const double low = 4 + 4. / 48, left = leaning_left(low + 70);
  const facts::Clear& clear = found().clear;
  EXPECT_NEAR(*clear.entry_mm / in, 64.5 - left, 1e-3);
  EXPECT_NEAR(*clear.finished->entry_mm / in, 64.5 - furred_left(low) - 1.25, by_feet);
  EXPECT_NEAR(*clear.compartment.face_mm / in, 81.8 - furred_left(low) - 2.5, by_feet);
  EXPECT_NEAR(*clear.seat_depth_mm / in, 15.5, 1e-6);
}

TEST(SkewRoom, FreeFloorIsInsideUpstandsAndFinishedWalls) {
  // Source: by hand: 63 x 35-1/2 inside upstands and threshold. Finished: the left wall's strips, at the
  // drain, at 0.9525 + 1.25, the back one, at the drain, at 40.0075 - 1.25. The compartment's width is taken at its
  // middle to the right wall, which is furred to the bench's edge at 80.
  const facts::Clear& clear = found().clear;
  EXPECT_NEAR(clear.area_mm2 / in / in, 63 * 35.5, 1e-6);
  EXPECT_NEAR(clear.circle_mm / in, 35.5, 1e-6);
  EXPECT_NEAR(clear.least_width_mm / in, 35.5, 1e-6);
  const double left = furred_left(1.5) + 1.25, depth = 40.0075 - 1.25 - 4;
  EXPECT_NEAR(clear.finished->area_mm2 / in / in, (64.5 - left) * depth, 65 * by_feet);
  EXPECT_NEAR(clear.finished->circle_mm / in, depth, by_feet);
  EXPECT_NEAR(clear.finished->least_width_mm / in, depth, by_feet);
  EXPECT_NEAR(clear.compartment.depth_mm / in, depth, by_feet);
  EXPECT_NEAR(clear.compartment.width_mm / in, 80 - 1.25 - left, by_feet);
}

TEST(SkewRoom, TheDrainsWindowIsBetweenJoistsOnTheFloor) {
  // Source: by hand: joists 1-1/2 wide at 3 + 16 k, a bore of 5: 3-1/4 to either side; a 4 in opening on the floor from
  // 1-1/2 to 64-1/2 and from 4 to 39-1/2.
  const facts::DrainWindow& w = found().room.drain;
  const std::pair<double, double> free[] = {{6.25, 15.75}, {22.25, 31.75}, {38.25, 47.75}, {54.25, 62.5}};
  ASSERT_EQ(w.free_mm.size(), std::size(free));
  for (std::size_t i = 0; i < std::size(free); ++i) {
    EXPECT_NEAR(w.free_mm[i].first / in, free[i].first, 1e-6);
    EXPECT_NEAR(w.free_mm[i].second / in, free[i].second, 1e-6);
  }
  EXPECT_NEAR(w.other_mm.first / in, 6, 1e-6);
  EXPECT_NEAR(w.other_mm.second / in, 37.5, 1e-6);
  EXPECT_NEAR(w.now_mm[0] / in, 29.75, 1e-6);
  EXPECT_NEAR(w.now_mm[1] / in, 23.75, 1e-6);
  EXPECT_TRUE(w.along_width && w.joists_known);
  EXPECT_NEAR(found().drain.body_to_bore_mm / in, 0.875, 1e-6);
  EXPECT_NEAR(*found().drain.bore_to_joist_mm / in, 34.25 - 29.75 - 2.5, 1e-6);
  EXPECT_EQ(found().drain.nearest_joist, "joists/joist-03");
  EXPECT_NEAR(*found().drain.body_to_bed_mm / in, 2.5 + 0.5 - 1.625, 1e-3);
  EXPECT_NEAR(*found().drain.outlet_mm / in, 2, 1e-6);
}

TEST(SkewRoom, TheFloorIsLookedAtFromFootToFoot) {
  // Source: by hand: 82 in along the entry fall 0.82, 40 in of depth 0.4; a plane has neither hump nor twist nor rock.
  const facts::FloorShape& floor = found().room.floor;
  EXPECT_TRUE(floor.known);
  EXPECT_NEAR(floor.along_width_mm / in, 0.82, 1e-4);
  EXPECT_NEAR(floor.along_depth_mm / in, 0.4, 1e-4);
  EXPECT_NEAR(floor.twist_mm, 0, 1e-6);
  EXPECT_NEAR(floor.hump_mm, 0, 1e-6);
  EXPECT_NEAR(floor.rock_mm, 0, 1e-6);
}

TEST(SkewRoom, HeightsAreAboveTheBasesHighestSpot) {
  // Source: by hand: a half of bed, ribs and shell below the drain; the rim 1/48 of the longest run, 64-1/2 - 31-3/4,
  // above it; the threshold 2-1/2 and 4/48 more at its outer edge; the seat 1/48 over 15-1/2, its upstands taking 1/2
  // at the wall; outside, 25 mm before the entry, from 1 to 65.
  const facts::Heights& h = found().heights;
  EXPECT_NEAR(h.rib_plane_mm / in, 0.5, 1e-9);
  EXPECT_NEAR(h.drain_top_mm / in, 1.5, 1e-9);
  EXPECT_NEAR(h.rim_least_mm / in, 1.5 + 32.75 / 48, 1e-6);
  EXPECT_NEAR(h.rim_greatest_mm / in, 1.5 + 32.75 / 48, 1e-6);
  EXPECT_NEAR(*h.floor_at_threshold_mm / in, 1.5 + 32.75 / 48, 1e-6);
  EXPECT_NEAR(*h.threshold_least_mm / in, 4, 1e-9);
  EXPECT_NEAR(*h.threshold_greatest_mm / in, 4 + 4. / 48, 1e-9);
  EXPECT_NEAR(*h.upstand_top_mm / in, 5.5, 1e-9);
  EXPECT_NEAR(*h.seat_front_mm / in, 18, 0.07) << "less what the tape leaves of the studs";
  EXPECT_NEAR((*h.seat_back_mm - *h.seat_front_mm) / in, 15. / 48, 1e-6);
  EXPECT_NEAR(h.outside->greatest_mm / in, 0.01 * 25 / in + 0.5, 1e-6);
  EXPECT_NEAR(h.outside->least_mm / in, -0.64 + 0.01 * 25 / in + 0.5, 1e-6);
}

TEST(SkewRoom, ReadingsInTheMiddlesOfSidesMakeThePlane) {
  // Source: by hand: readings on a plane that rises 0.001 to the right and falls 0.002 to the back, from any line, on
  // the floor's rim: middles at (33, 39.5), (64.5, 21.75), (33, 4), (1.5, 21.75). Over 64 and 40 in. Heights above the
  // drain's top turn with the base about the drain's centre at (29-3/4, 23-3/4).
  using P = job::RimPoint;
  const auto at = [](double x, double y) { return inches(7 + 0.001 * x - 0.002 * y); };
  const job::AsSet set{
      false,
      {{P::back, at(33, 39.5)}, {P::right, at(64.5, 21.75)}, {P::front, at(33, 4)}, {P::left, at(1.5, 21.75)}},
      {}};
  const facts::AsSet found = measure_as_set(model(), set);
  EXPECT_NEAR(found.gx, 0.001, 1e-9);
  EXPECT_NEAR(found.gy, -0.002, 1e-9);
  EXPECT_NEAR(found.over_length_mm / in, 0.064, 1e-6);
  EXPECT_NEAR(found.over_width_mm / in, -0.08, 1e-6);
  EXPECT_NEAR(found.twist_mm, 0, 1e-6);
  const double low = 0.001 * 33 - 0.002 * 39.5;
  const std::tuple<const char*, double, double> points[] = {
      {"back", 33, 39.5}, {"right", 64.5, 21.75}, {"front", 33, 4}, {"left", 1.5, 21.75}};
  for (std::size_t i = 0; i < 4; ++i) {
    const auto& [name, x, y] = points[i];
    EXPECT_EQ(found.points[i].name, name);
    EXPECT_NEAR(found.points[i].x_mm / in, x, 1e-6) << name;
    EXPECT_NEAR(found.points[i].y_mm / in, y, 1e-6) << name;
    EXPECT_NEAR(found.points[i].off_mm / in, 0.001 * x - 0.002 * y - low, 1e-6) << name;
    EXPECT_NEAR(found.points[i].plane_mm / in, 0.001 * x - 0.002 * y - low, 1e-6) << name;
  }
  const auto above = [](double x, double y, double z) { return z - 1.5 + 0.001 * (x - 29.75) - 0.002 * (y - 23.75); };
  EXPECT_NEAR(*found.threshold_least_mm / in, above(1.5, 4, 4), 1e-3);
  EXPECT_NEAR(*found.threshold_greatest_mm / in, above(64.5, 0, 4 + 4. / 48), 1e-3);
  EXPECT_NEAR(*found.upstand_least_mm / in, above(1, 40, 5.5), 1e-3);
  for (const facts::AsSetFall& f : found.falls) {
    const double rise = 32.75 / 48;  // as designed: right over its run of 32.75, left 26.25, back 13.75, front 17.75
    if (f.facet == "right") {
      EXPECT_NEAR(f.fall, std::hypot(1 / 48. + 0.001, 0.002), 1e-6);
    }
    if (f.facet == "left") {
      EXPECT_NEAR(f.fall, std::hypot(rise / 26.25 - 0.001, 0.002), 1e-6);
    }
    if (f.facet == "back") {
      EXPECT_NEAR(f.fall, std::hypot(rise / 13.75 - 0.002, 0.001), 1e-5);
    }
    if (f.facet == "front") {
      EXPECT_NEAR(f.fall, std::hypot(rise / 17.75 + 0.002, 0.001), 1e-5);
    }
    if (f.surface == facts::Surface::threshold) {
      EXPECT_NEAR(f.inward, 1 / 48. + 0.002, 1e-4);
    }
  }
}

TEST(SkewRoom, AReadingOffThePlaneIsTwist) {
  // Source: closed form: of four corners, one 4 high spoils the plane by 1 at each; the plane rises by 2 over each
  // side.
  using P = job::RimPoint;
  const auto mm = [](double v) { return Length::mm(v); };
  const job::AsSet set{
      true, {{P::back_left, mm(50)}, {P::back_right, mm(46)}, {P::front_right, mm(50)}, {P::front_left, mm(50)}}, {}};
  const facts::AsSet found = measure_as_set(model(), set);
  EXPECT_NEAR(found.twist_mm, 1, 1e-9);
  EXPECT_NEAR(found.gx * 63 * in, 2, 1e-9);
  EXPECT_NEAR(found.gy * 35.5 * in, 2, 1e-9);
  EXPECT_NEAR(found.points[1].off_mm, 4, 1e-9);
  EXPECT_NEAR(found.points[1].plane_mm, 4, 1e-9);
  EXPECT_NEAR(found.points[0].plane_mm, 2, 1e-9);
}

}  // namespace
}  // namespace fallwright::measure
