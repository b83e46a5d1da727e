#include <cmath>
#include <numbers>
#include <random>
#include <set>

#include <gtest/gtest.h>

#include "brep/properties.hpp"
#include "job/layout.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::parts {
namespace {

using job::Fall;
using job::Length;

double cubic_inches(const TopoDS_Shape& shape) {
  return brep::volume_mm3(shape) / std::pow(25.4, 3);
}
double volume(const Model& model, const char* id) {
  return brep::volume_mm3(model.find(id)->shape);
}

TEST(Model, EverySolidIsClosedValidAndOutward) {
  // Source: the kernel's own analyser (BRepCheck) as an independent reader of what was built directly.
  for (const auto opening : {job::Opening::round, job::Opening::square})
    for (const auto pattern : {job::FallPattern::level_rim, job::FallPattern::equal_fall})
      for (const auto underside : {job::Underside::shell, job::Underside::flat}) {
        job::Job j = sample::alcove();
        j.drain.opening = opening;
        j.base.pattern = pattern;
        j.base.underside = underside;
        const auto model = build(j);
        for (const Solid& solid : model->solids) EXPECT_TRUE(brep::is_sound(solid.shape)) << solid.id;
      }
}

TEST(Model, IdsAreUniqueAndStable) {
  // Source: the ids are part of the file contract: other programs find parts by them.
  std::set<std::string> ids;
  const auto model = build(sample::alcove());
  for (const Solid& solid : model->solids) EXPECT_TRUE(ids.insert(solid.id).second) << solid.id;
  for (const char* id :
       {"subfloor", "joists/joist-01", "wall-back/stud-01", "wall-left/sole-plate", "bench-frame/stud-03",
        "bench-frame/end-cleat-01", "bench-frame/deck", "bed-spread", "bed", "base", "drain", "seat-block"})
    EXPECT_TRUE(ids.contains(id)) << id;
}

TEST(Model, EqualMembersShareOneShape) {
  // Source: common practice, no source: a block of equal studs is one product and its instances.
  const auto model = build(sample::alcove());
  EXPECT_TRUE(model->find("wall-back/stud-02")->shape.IsPartner(model->find("wall-right/stud-03")->shape));
  EXPECT_TRUE(model->find("joists/joist-01")->shape.IsPartner(model->find("joists/joist-04")->shape));
}

TEST(Bed, VolumeToAPointDoesNotDependOnTheDrainsPlace) {
  // Source: closed form A (t0 + 2 r / 3): a level rim over a point is a pyramid upside down, whatever its apex.
  // 36 x 36, t0 1.25, r 0.375: 1944 in3. The hole for the bore is taken off by a numeric integral of the same surface.
  for (const auto& [x, y] : {std::pair{18., 18.}, {12., 20.}, {25., 9.}}) {
    job::Job j = sample::bare(inches(36), inches(36), inches(x), inches(y));
    j.base.rise = sample::above_edge(j, inches(0.375));
    j.bed.least = inches(1.25);
    const job::Layout layout = job::lay_out(j);
    const double radius = (2.5 + 0.5) * 25.4;
    double hole = 0;
    constexpr int steps = 4000;
    for (int i = 0; i < steps; ++i) {
      // Over a circle about the apex the height is linear in the radius: integrate 2/3 r h(angle) over the angle.
      const double angle = (i + 0.5) * 2 * std::numbers::pi / steps;
      const double rise =
          layout.floor_at(layout.drain_x + radius * std::cos(angle), layout.drain_y + radius * std::sin(angle)) -
          layout.drain_edge;
      hole += (1.25 * 25.4 / 2 + rise / 3) * radius * radius * 2 * std::numbers::pi / steps;
    }
    EXPECT_NEAR((volume(*build(j), "bed") + hole) / std::pow(25.4, 3), 1944, 1944e-6) << x << " " << y;
  }
}

TEST(Bed, VolumeToALineIsAreaTimesMeanThickness) {
  // Source: closed form A (t0 + r / 2): 36 x 60 falling along the 60 at 1/4 in/ft, t0 1.25, r 1.25: 4050 in3.
  job::Job j = sample::bare(inches(60 + 4), inches(36), inches(2), inches(18));
  j.base.pattern = job::FallPattern::to_line;
  j.drain.kind = job::DrainKind::line;
  j.drain.opening = job::Opening::square;
  j.drain.channel_direction = job::Direction::along_depth;
  j.bed.least = inches(1.25);
  j.drain.bore = inches(3);
  j.drain.body = inches(2);
  j.bed.collar = inches(0.25);
  // The channel takes the first 4 in, level; the bore's hole of 1-3/4 in lies under it.
  const double strip = 4 * 36 * 1.25, hole = M_PI * 1.75 * 1.75 * 1.25;
  EXPECT_NEAR(cubic_inches(build(j)->find("bed")->shape) + hole - strip, 4050, 1e-6);
}

TEST(Bed, UnderAnUnlevelFloorIsThePrismTimesItsMean) {
  // Source: closed form, plane over rectangle: 60 x 34, least 3/4, floor falls 3/8 across and 1/4 back to front:
  // 2167.5 in3 gross; a 3 in circle kept clear where the bed is 1.175 thick takes 33.222: 2134.278 in3 net.
  job::Job j = sample::bare(inches(60), inches(34), inches(48), inches(17));
  j.base.underside = job::Underside::flat;
  j.bed.least = inches(0.75);
  j.floor.drop_along_width = inches(0.375);
  j.floor.drop_along_depth = inches(-0.25);
  EXPECT_NEAR(cubic_inches(build(j)->find("bed")->shape), 2134.278, 0.002);
}

TEST(Bed, MetricUnderAnUnlevelFloor) {
  // Source: closed form: 1500 x 900, least 20, floor falls 12 and 6: mean 29: 39.15 L, 78.3 kg at 2000 kg/m3; less the
  // bore's circle of 76.2 mm radius where the bed is 20 + 12 x 1200/1500 + 6/2 = 32.6 thick.
  job::Job j = sample::bare(Length::mm(1500), Length::mm(900), Length::mm(1200), Length::mm(450));
  j.base.underside = job::Underside::flat;
  j.bed.least = Length::mm(20);
  j.bed.density_kg_m3 = 2000;
  j.floor.drop_along_width = Length::mm(12);
  j.floor.drop_along_depth = Length::mm(6);
  const double hole = std::numbers::pi * 76.2 * 76.2 * 32.6;
  EXPECT_NEAR((volume(*build(j), "bed") + hole) * 1e-6, 39.15, 1e-6);
}

TEST(Base, EqualFallVolumeAboveTheDrainPlane) {
  // Source: closed form for z = p (max(|dx|, |dy|) - 2) over 60 x 34 about (48, 17), p = 1/48, opening 4 x 4:
  // 849.590 in3 (worked by hand from the integral). The flat-bottomed base holds it above its 1 in thick plate.
  job::Job j = sample::bare(inches(60), inches(34), inches(48), inches(17));
  j.drain.opening = job::Opening::square;
  j.base.pattern = job::FallPattern::equal_fall;
  j.base.underside = job::Underside::flat;
  j.drain.recess = inches(0.25);
  const double plate = 60 * 34 * 1 - 16 * 0.25 - std::numbers::pi * 1.625 * 1.625 * 0.75;
  EXPECT_NEAR(cubic_inches(build(j)->find("base")->shape) - plate, 849.590, 0.001);
}

TEST(Bed, FillsWhatTheBaseLeaves) {
  // Source: conservation: flat base and shell base of one outline differ by the pockets, and so do their beds.
  job::Job shell = sample::alcove(), flat = shell;
  flat.base.underside = job::Underside::flat;
  const auto s = build(shell), f = build(flat);
  EXPECT_NEAR(volume(*f, "base") - volume(*s, "base"), volume(*s, "bed") - volume(*f, "bed"), 1e-3);
}

TEST(Bed, AutomaticGaugeLeavesNoVoidAndHardlyAnySurplus) {
  // Source: common practice, no source: spread to the next mark on the tape, so the surplus is under a mark's worth.
  const auto model = build(sample::alcove());
  const double surplus = volume(*model, "bed-spread") - volume(*model, "bed");
  EXPECT_GE(surplus, 0);
  EXPECT_LT(surplus, 57.5 * 36 * 25.4 * 25.4 * 25.4 / 16);
}

TEST(BenchFrame, MembersAreCutToDressedSizes) {
  // Source: PS 20 dressed sizes; stack by hand: 18 - 1-1/4 - 3/4 - 3-1/2 = 12-1/2 plate top, less two 1-1/2 plates:
  // studs 9-1/2 (with nominal 2 in plates and a 4 in joist they would come out 8 in and the seat 1-1/2 in low).
  const auto model = build(sample::alcove());
  EXPECT_NEAR(cubic_inches(model->find("bench-frame/stud-02")->shape), 9.5 * 1.5 * 3.5, 1e-9);
  EXPECT_NEAR(cubic_inches(model->find("bench-frame/sole-plate")->shape), 36 * 1.5 * 3.5, 1e-9);
  EXPECT_NEAR(cubic_inches(model->find("bench-frame/joist-01")->shape), 13 * 1.5 * 3.5, 1e-9);
  EXPECT_NEAR(cubic_inches(model->find("bench-frame/deck")->shape), 36 * 14.5 * 0.75, 1e-9);
}

TEST(BenchFrame, SteelSectionHasTheAreaOfItsBentSheet) {
  // Source: closed form: middle-line length of a lipped channel with bends times thickness; 350S162-33.
  job::Job j = sample::alcove();
  j.bench->frame.kind = job::FrameKind::steel;
  auto& s = j.bench->frame.stock;
  s = {"350S162-33",  job::StockKind::steel_stud, inches(0.0346), inches(3.5), inches(1.625), inches(0.5),
       inches(0.0764)};
  j.bench->frame.track = {
      "350T125-33", job::StockKind::steel_track, inches(0.0346), inches(3.5), inches(1.25), inches(0), inches(0.0764)};
  const auto model = build(j);
  const double t = 0.0346, r = 0.0764, bend = std::numbers::pi / 2 * (r + t / 2), corner = r + t;
  const double web = 3.5 - 2 * corner, flange = 1.625 - 2 * corner, lip = 0.5 - corner;
  const double area = t * (web + 2 * flange + 2 * lip + 4 * bend);
  // Stud between tracks: each track's sheet, and its end clear of the bend by the radius.
  const double plate_top = 18 - 1.25 - 0.75 - (3.5 + 2 * t), length = plate_top - 2 * t - 2 * r;
  EXPECT_NEAR(cubic_inches(model->find("bench-frame/stud-02")->shape), area * length, 1e-6);
  for (const Solid& solid : model->solids) EXPECT_TRUE(brep::is_sound(solid.shape)) << solid.id;
}

TEST(Symmetry, MirroredJobMirrorsTheSolids) {
  // Source: symmetry: bench and drain swapped left for right; volumes stay, centroids mirror about the alcove's middle.
  job::Job left = sample::alcove(), right = left;
  right.bench->place = job::Side::right;
  right.drain.across.side = job::Side::right;
  const auto a = build(left), b = build(right);
  const double width = left.alcove.width.in_mm();
  for (const char* id : {"base", "bed", "bed-spread", "drain", "seat-block", "bench-frame/sole-plate"}) {
    const brep::Properties p = brep::properties(a->find(id)->shape), q = brep::properties(b->find(id)->shape);
    EXPECT_NEAR(p.volume_mm3 / q.volume_mm3, 1, 1e-9) << id;
    EXPECT_NEAR(p.centroid.X(), width - q.centroid.X(), 1e-6) << id;
    EXPECT_NEAR(p.centroid.Y(), q.centroid.Y(), 1e-6) << id;
  }
}

/// Middle of all solids of a family.
gp_Pnt middle_of(const Model& model, const std::string& family) {
  gp_XYZ sum;
  double volume_mm3 = 0;
  for (const Solid& solid : model.solids) {
    if (solid.id.rfind(family + "/", 0) != 0) continue;
    const brep::Properties p = brep::properties(solid.shape);
    sum += p.centroid.XYZ() * p.volume_mm3, volume_mm3 += p.volume_mm3;
  }
  return sum / volume_mm3;
}

TEST(Symmetry, WhatTheTapeLeavesOfALengthIsMissingAlikeOnEitherHand) {
  // Source: symmetry, in an alcove whose sizes are no marks of the tape: whatever is cut short of it is short at the
  // image of the same place.
  job::Job left = sample::alcove();
  left.cuts.to_tape = true;
  left.alcove.width = left.alcove.width + inches(0.03);
  left.alcove.depth = left.alcove.depth + inches(0.03);
  left.walls.spacing = left.alcove.width / 5.;
  for (const auto& [here, there] : {std::pair{job::Side::left, job::Side::right}, {job::Side::back, job::Side::back}}) {
    job::Job right = left;
    left.bench->place = here, right.bench->place = there;
    if (here == job::Side::back) left.base.width = right.base.width = inches(21);
    const auto a = build(left), b = build(right);
    for (const auto& [family, image] : {std::pair{"bench-frame", "bench-frame"},
                                        {"wall-left", "wall-right"},
                                        {"wall-right", "wall-left"},
                                        {"wall-back", "wall-back"}}) {
      const gp_Pnt p = middle_of(*a, family), q = middle_of(*b, image);
      EXPECT_NEAR(p.X(), left.alcove.width.in_mm() - q.X(), 1e-6) << family;
      EXPECT_NEAR(p.Y(), q.Y(), 1e-6) << family;
    }
  }
}

TEST(Symmetry, QuarterTurnKeepsTheBasesVolume) {
  // Source: symmetry: a bare base turned by a quarter has length and width, and the drain's two distances, swapped.
  job::Job a = sample::bare(inches(60), inches(34), inches(40), inches(15)),
           b = sample::bare(inches(34), inches(60), inches(15), inches(40));
  EXPECT_NEAR(volume(*build(a), "base") / volume(*build(b), "base"), 1, 1e-9);
  EXPECT_NEAR(volume(*build(a), "bed") / volume(*build(b), "bed"), 1, 1e-9);
}

TEST(Monotonicity, ADeeperBedHoldsMore) {
  // Source: common sense, and A x dt as closed form.
  job::Job j = sample::alcove();
  const double before = volume(*build(j), "bed");
  j.bed.least = inches(0.75);
  const double hole = std::numbers::pi * 3 * 3, plan = (57.5 - 1) * (36 - 0.5 + 0.5) - hole;
  EXPECT_NEAR((volume(*build(j), "bed") - before) / std::pow(25.4, 3), plan * 0.25, 1e-4);
}

}  // namespace
}  // namespace fallwright::parts
