/// Solids on the room as it was measured.
#include <cmath>
#include <random>
#include <set>

#include <gtest/gtest.h>

#include "brep/properties.hpp"
#include "job/layout.hpp"
#include "job/read.hpp"
#include "job/validate.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/draws.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::parts {
namespace {

using job::Length;
using job::Side;
using survey::Spot;

/// A flat-bottomed base, so that the bed is what lies between one level plane and the floor.
job::Job flat(std::vector<Spot> spots) {
  job::Job j = sample::bare(inches(60), inches(34), inches(48), inches(17));
  j.base.underside = job::Underside::flat;
  j.bed.least = inches(0.75);
  j.survey.spots = std::move(spots);
  j.survey.level_tolerance_mm = 0.8;
  return j;
}

double bed_volume(const job::Job& j) {
  return brep::volume_mm3(build(j)->find("bed")->shape);
}

TEST(SurveyedBed, OnAPlaneFloorIsTheClosedFormula) {
  // Source: by hand: t(x, y) = 0.75 + 0.375 x / 60 + 0.25 (34 - y) / 34 over 60 x 34: 2167.5 in3; less a collar of 6 in
  // about (48, 17), where t is 1.175: 33.222: 2134.278 in3.
  std::vector<Spot> spots;
  for (const double x : {0., 60.})
    for (const double y : {0., 34.})
      spots.push_back({x * 25.4, y * 25.4, (5 - 0.375 * x / 60 - 0.25 * (34 - y) / 34) * 25.4});
  job::Job j = flat(spots);
  const double expected = 2167.5 - M_PI * 9 * 1.175;
  EXPECT_NEAR(expected, 2134.278, 1e-3);
  EXPECT_NEAR(bed_volume(j) / (expected * std::pow(25.4, 3)), 1, 1e-9);
}

TEST(SurveyedBed, OnSpotLevelsIsTheSumOverTriangles) {
  // Source: prism of a triangle, area times the mean of three depths, summed over the floor's own cells clipped to the
  // bed; the bore's hole is taken out in rings, each in equal parts.
  std::mt19937 random{41};
  std::uniform_real_distribution<double> x{0, 60 * 25.4}, y{0, 34 * 25.4}, z{-6, 6};
  for (int round = 0; round < 20; ++round) {
    std::vector<Spot> spots;
    for (int i = 0; i < 5 + round; ++i) spots.push_back({x(random), y(random), z(random)});
    const job::Job j = flat(spots);
    if (!job::contradictions(j).empty()) continue;
    const job::Layout at = job::lay_out(j);
    double expected = 0;
    for (const survey::Cell& cell : at.subfloor.cells()) {
      const survey::Polygon p = survey::common(cell.plan, survey::to_polygon(at.bed));
      for (std::size_t i = 1; i + 1 < p.size(); ++i) {
        const double twice = (p[i].x - p[0].x) * (p[i + 1].y - p[0].y) - (p[i + 1].x - p[0].x) * (p[i].y - p[0].y);
        const double mean =
            (cell.plane.at(p[0].x, p[0].y) + cell.plane.at(p[i].x, p[i].y) + cell.plane.at(p[i + 1].x, p[i + 1].y)) / 3;
        expected += twice / 2 * (at.rib_plane - mean);
      }
    }
    const double hole = (j.drain.bore / 2 + j.bed.collar).in_mm();
    constexpr int rings = 100, round_it = 300;
    for (int i = 0; i < rings; ++i)
      for (int k = 0; k < round_it; ++k) {
        const double r = hole * (i + 0.5) / rings, turn = 2 * M_PI * (k + 0.5) / round_it;
        const double part = r * hole / rings * 2 * M_PI / round_it;
        expected -=
            part * (at.rib_plane - at.subfloor.at(at.drain_x + r * std::cos(turn), at.drain_y + r * std::sin(turn)));
      }
    EXPECT_NEAR(bed_volume(j) / expected, 1, 2e-6) << round;
  }
}

TEST(SurveyedFloor, DatumIsTheHighestSpotUnderTheBase) {
  // Source: the datum's definition; the hump counts, a higher spot beside the base does not.
  job::Job j = sample::surveyed(sample::alcove());
  j.survey.spots.push_back({100, 300, 9});  // under the bench
  const auto model = build(j);
  const job::Layout at = job::lay_out(j);
  EXPECT_NEAR(at.subfloor.highest(at.base), 0, 1e-9);
  EXPECT_GT(at.subfloor.at(100, 300), 0);
  EXPECT_NEAR(brep::box_of(model->find("base")->shape)[2], j.bed.least.in_mm(), 1e-9);
}

TEST(SurveyedBase, ItsThresholdRunsBetweenItsRimsInARoomThatIsNotSquare) {
  // Source: by hand: its plan's corners are the floor's in front, and where the lines of the floor's sides meet the
  // base's front edge; its plane falls 1/4 in/ft, so that its face is sqrt(1 + 1/48^2) of that.
  const job::Job j = job::read(
      "[job]\nname = \"x\"\nunit = \"in\"\n[base]\nkind = \"site-built\"\n"
      "[base.threshold]\nwidth = 4\nheight = 3\nfall = \"1/4 in/ft\"\n[drain]\nfrom_left = 30\nfrom_back = 24\nbore "
      "= 5\n[bed]\nleast = 1\n[survey.plan]\nback = 68\nleft = 48\nright = 46\nfront = 72\n"
      "diagonal_from_back_left = 84\n",
      "x.toml");
  const job::Layout at = job::lay_out(j);
  const auto& [fl, fr, br, bl] = at.floor_outline.corners();
  const auto& [left, right, back_right, back_left] = at.base_outline.corners();
  ASSERT_GT(std::abs(left.y - right.y), 1) << "its front runs askew";
  const auto meet = [&](survey::Point a, survey::Point b) {  // of the line through a and b with the front edge
    const double ux = b.x - a.x, uy = b.y - a.y, vx = right.x - left.x, vy = right.y - left.y;
    const double t = ((left.x - a.x) * vy - (left.y - a.y) * vx) / (ux * vy - uy * vx);
    return survey::Point{a.x + t * ux, a.y + t * uy};
  };
  const survey::Point plan[] = {meet(bl, fl), meet(br, fr), fr, fl};
  double twice = 0;
  for (std::size_t i = 0; i < 4; ++i) twice += plan[i].x * plan[(i + 1) % 4].y - plan[(i + 1) % 4].x * plan[i].y;
  double area = 0;
  for (const Facet& f : build_base(j).facets)
    if (f.surface == facts::Surface::threshold) area += brep::area_mm2(f.face);
  EXPECT_NEAR(area / (twice / 2 * std::hypot(1, 1. / 48)), 1, 1e-6);
}

TEST(SurveyedBench, StandsLevelEachStudAtItsOwnLength) {
  // Source: property: one height of all stud tops, feet on a plate that touches the floor and is nowhere below it.
  const job::Job j = sample::surveyed(sample::alcove());
  const auto model = build(j);
  std::set<long> lengths;
  double top = 0;
  for (const Solid& s : model->solids) {
    if (s.id.find("bench-frame/stud") != 0) continue;
    const auto box = brep::box_of(s.shape);
    if (top == 0) top = box[5];
    EXPECT_NEAR(box[5], top, 1e-9);
    lengths.insert(std::lround((box[5] - box[2]) * 1000));
  }
  EXPECT_GT(lengths.size(), 1u) << "a floor out of level asks for studs of different length";
}

TEST(SurveyedWalls, ALeaningStudMovesByItsLean) {
  // Source: closed form: 3/16 in over 48 in, over the height between the stud's ends.
  job::Job j = sample::alcove();
  j.survey.plumbs = {{Side::right, 400, {0.1875 * 25.4, 1.6, survey::Face::stud, 0}, 48 * 25.4}};
  const auto box = brep::box_of(build(j)->find("wall-right/stud-02")->shape);
  const double rise = box[5] - box[2];
  EXPECT_NEAR(box[3] - box[0], 3.5 * 25.4 * std::cos(std::atan(0.1875 / 48)) + rise * 0.1875 / 48, 0.01);
}

TEST(SurveyedWalls, ATwistedBackWallRunsIntoNoSideWall) {
  // Source: by hand: a back wall of 72 in that leans in by 1/16 over 48 at one end and stands plumb at the other, its
  // top plate straight from 3-1/2 past one corner to 3-1/2 past the other: at the plumb end's corner, 94-1/2 up, it
  // comes in by 94.5 / 768 * 3.5 / 79 = 0.00545 in: the side wall's plate ends so far before the back wall's line, or
  // farther.
  for (const double leans_at : {2., 70.}) {
    job::Job j = sample::alcove();
    j.walls.top_plates = 1;
    for (const double at : {2., 70.})
      j.survey.plumbs.push_back(
          {Side::back, at * in, {at == leans_at ? in / 16 : 0, 1.6, survey::Face::stud, 0}, 48 * in});
    const auto model = build(j);
    const bool left = leans_at > 36;
    const auto box = brep::box_of(model->find(left ? "wall-left/top-plate" : "wall-right/top-plate")->shape);
    const double keeps = 94.5 / 768 * 3.5 / 79;
    EXPECT_NEAR(keeps, 0.00545, 1e-5);
    EXPECT_LE(box[4] / in, 36 - keeps) << (left ? "left" : "right");
    EXPECT_GE(box[4] / in, 36 - keeps - 0.1) << (left ? "left" : "right");
  }
}

TEST(SurveyedJob, MirrorsAsTheRoomDoes) {
  // Source: symmetry: a mirrored survey makes solids of the same volume.
  job::Job left = sample::surveyed(sample::alcove()), right = left;
  const double w = left.alcove.width.in_mm(), d = left.alcove.depth.in_mm();
  // The figure again with its left and right exchanged; its back wall is 2 mm longer than the rectangle.
  sample::read_plan(right, {0, d}, {w + 2, d}, {-1, 0}, {w + 6, -1});
  // A tape is hooked on the left wall beside each spot: there the room is so wide.
  const survey::StudFaces faces = job::lay_out(left).room.faces();
  for (Spot& s : right.survey.spots) s.x = faces.right.at(s.y) - faces.left.at(s.y) - s.x;
  for (survey::Plumb& p : right.survey.plumbs) {
    if (p.wall == Side::back)
      p.along_mm = w + 2 - p.along_mm;
    else
      p.wall = p.wall == Side::left ? Side::right : Side::left;
  }
  right.bench->place = job::Side::right;
  right.drain.across.side = Side::right;
  const auto a = build(left), b = build(right);
  for (const char* id : {"bed", "base", "seat-block", "bed-spread", "bench-frame/deck", "bench-frame/sole-plate"})
    EXPECT_NEAR(brep::volume_mm3(a->find(id)->shape) / brep::volume_mm3(b->find(id)->shape), 1, 1e-9) << id;
}

/// A surveyed room, mostly one that can be.
job::Job random_room(std::mt19937& random) {
  const auto number = [&](double from, double to) { return std::uniform_real_distribution<double>{from, to}(random); };
  const auto count = [&](int from, int to) { return std::uniform_int_distribution<int>{from, to}(random); };
  job::Job j = sample::alcove();
  if (count(0, 2) == 0) j.bench.reset();
  if (j.bench) j.bench->place = count(0, 1) == 0 ? Side::left : Side::right;
  const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm();
  j.base.length = Length::mm(w - (j.bench ? 370 : 0) - number(0, 20));
  j.base.width = Length::mm(d - number(0, 20));
  j.survey.tolerance_mm = 1.6;
  j.survey.level_tolerance_mm = 0.8;
  const auto off = [&] { return number(-12, 12); };
  sample::read_plan(j, {0, d}, {w + off(), d}, {off(), off()}, {w + off(), off()});
  for (int i = count(0, 5); i > 0; --i)
    j.survey.plumbs.push_back({static_cast<Side>(std::array{0, 2, 3}[static_cast<std::size_t>(count(0, 2))]),
                               number(0, 880),
                               {number(-8, 8), 1.6, survey::Face::stud, 0},
                               number(900, 2000)});
  for (int i = count(0, 14); i > 0; --i) j.survey.spots.push_back({number(0, w), number(0, d), number(-6, 6)});
  if (count(0, 1)) j.base.underside = job::Underside::flat;
  j.drain.opening = static_cast<job::Opening>(count(0, 1));
  return j;
}

class RandomRooms : public testing::TestWithParam<unsigned> {};

TEST_P(RandomRooms, AreValidSolidsOrAreRefusedInWords) {
  // Source: property test, fixed seeds: every solid closed and valid, or a contradiction with words.
  const int rooms = draws(24);
  std::mt19937 random{GetParam()};
  int built = 0;
  for (int i = 0; i < rooms; ++i) {
    const job::Job j = random_room(random);
    const auto refused = job::contradictions(j);
    for (const auto& c : refused) EXPECT_FALSE(c.message.empty() || c.key.empty());
    if (!refused.empty()) continue;
    ++built;
    std::shared_ptr<const Model> model;
    ASSERT_NO_THROW(model = build(j)) << "seed " << GetParam() << " room " << i;
    for (const Solid& s : model->solids)
      ASSERT_TRUE(brep::is_sound(s.shape)) << s.id << ", seed " << GetParam() << " room " << i;
  }
  EXPECT_GT(built, rooms / 3) << "too few of the random rooms can be built for the test to mean anything";
}

INSTANTIATE_TEST_SUITE_P(Seeds, RandomRooms, testing::Values(3u, 17u, 29u, 61u, 97u));

}  // namespace
}  // namespace fallwright::parts
