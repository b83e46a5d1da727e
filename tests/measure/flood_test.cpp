/// Water in the base.
#include <cmath>

#include <gtest/gtest.h>
#include <BRepAlgoAPI_Common.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>

#include "brep/properties.hpp"
#include "job/layout.hpp"
#include "measure/measure.hpp"
#include "measure/once.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::measure {
namespace {

using job::Length;

/// A floor of 60 x 34 behind a 4 in threshold, level rim 1 in above a 4 x 4 drain in its middle.
job::Job basin(double threshold_in) {
  job::Job j = sample::bare(inches(60), inches(38), inches(30), inches(21));
  j.drain.opening = job::Opening::square;
  j.base.rise = inches(1);
  j.base.threshold = {inches(4), inches(threshold_in), {}};
  return j;
}

TEST(Flood, ALevelRimFullIsAFrustumAndABoxAbove) {
  // Source: by hand: below the rim the cavity over 60 x 34 with a 4 x 4 level middle is a pyramid frustum for each pair
  // of runs; with H 1: 748 in3 (prismoidal rule: 2040 at the top, 16 at the bottom, 32 x 19 half way up: (2040 + 4 x
  // 608 + 16) / 6 = 748); 1 in above the rim 2788 in3, 12.069 gal, 100.7 lb, 7.11 psf; 2 in above it 4828 in3, 20.90
  // gal.
  for (const auto& [threshold, volume] : {std::pair{2., 2788.}, {3., 4828.}}) {
    const facts::Flood flood = measure(*parts::build(basin(threshold))).flood;
    EXPECT_NEAR(flood.dips.back().above_drain_mm, threshold * 25.4, 1e-6);
    EXPECT_NEAR(flood.dips.back().volume_mm3 / in3, volume, 1e-6);
    EXPECT_NEAR(flood.plan_mm2 / 645.16, 2040, 1e-6);
  }
}

TEST(Flood, IsTheBoxLessTheSolids) {
  // Source: the kernel's Booleans: a box over the floor up to the level, less base and drain and the plugged outlet.
  for (const bool round : {false, true}) {
    job::Job j = sample::alcove();
    j.base.underside = job::Underside::flat;  // a shell has hollows above the drain's top that no water reaches
    if (round) j.drain.opening = job::Opening::round;
    const auto model = parts::build(j);
    const facts::Facts facts = measure(*model);
    const job::Layout at = job::lay_out(j);
    const facts::Dip& full = facts.flood.dips.back();
    const double level = facts.heights.drain_top_mm + full.above_drain_mm, low = facts.heights.drain_top_mm;
    const TopoDS_Shape box =
        BRepPrimAPI_MakeBox(gp_Pnt{at.floor.x0, at.floor.y0, low}, gp_Pnt{at.floor.x1, at.floor.y1, level});
    double water = brep::volume_mm3(box);
    for (const char* id : {"base", "drain"}) {
      const TopoDS_Shape shared = BRepAlgoAPI_Common(box, model->find(id)->shape);
      if (!shared.IsNull()) water -= brep::volume_mm3(shared);
    }
    EXPECT_NEAR(full.volume_mm3 / water, 1, 1e-4) << round << " " << water << " " << full.volume_mm3;
  }
}

TEST(Flood, GrowsByItsSurface) {
  // Source: property: between two dips the water grows by no less than the lower surface and no more than the upper.
  const facts::Flood flood = sample::alcove_facts().flood;
  ASSERT_GT(flood.dips.size(), 5u);
  for (std::size_t i = 1; i < flood.dips.size(); ++i) {
    const facts::Dip &a = flood.dips[i - 1], &b = flood.dips[i];
    const double rise = b.above_drain_mm - a.above_drain_mm;
    EXPECT_GE(b.volume_mm3 - a.volume_mm3, a.surface_mm2 * rise - 1e-6);
    EXPECT_LE(b.volume_mm3 - a.volume_mm3, b.surface_mm2 * rise + 1e-6);
  }
}

TEST(Flood, OverADishedFloorWithARoundDrain) {
  // Source: closed form: 36 x 36 in, the floor s max(|x|, |y|) about the drain's centre with s = 0.375 / 18, e = s 2 /
  // sqrt 2 of it below the opening's edge where that is lowest; no water stands in the plugged opening's circle below
  // that. Of the floor's 12 s on the mean the circle of 2 takes 8 x 8 / 3 x sin 45.
  job::Job j = sample::bare(inches(36), inches(40), inches(18), inches(22));
  j.base.rise = inches(0.375 * (1 - 2 / std::hypot(18, 18)));  // above the edge, where that is lowest
  j.base.threshold = {inches(4), inches(2.375), {}};
  const facts::Flood flood = measure(*parts::build(j)).flood;
  const double s = 0.375 / 18, e = s * std::sqrt(2), full = 36 * 36, hole = 4 * M_PI;
  const double expected = full * 2.375 - s * (12 * full - 64. / 3 * std::sqrt(0.5)) + e * (full - hole);
  EXPECT_NEAR(flood.dips.back().above_drain_mm, 2.375 * 25.4, 1e-6);
  EXPECT_NEAR(flood.dips.back().volume_mm3 / in3 / expected, 1, 1e-5);
  EXPECT_NEAR(flood.dips.back().surface_mm2 / 645.16, full, 1e-3);
}

TEST(Flood, MetricHeightsStepByFiveMillimetres) {
  // Source: by hand: up to 50.8 mm: 5, 10 ... 50, and the whole; in inches every quarter, 2 in the eighth.
  job::Job j = basin(2);
  EXPECT_EQ(measure(*parts::build(j)).flood.dips.size(), 8u);
  j.unit = job::UnitSystem::metric;
  const facts::Flood flood = measure(*parts::build(j)).flood;
  ASSERT_EQ(flood.dips.size(), 11u);
  EXPECT_NEAR(flood.dips[0].above_drain_mm, 5, 1e-9);
  EXPECT_NEAR(flood.dips[9].above_drain_mm, 50, 1e-9);
  EXPECT_NEAR(flood.dips[10].above_drain_mm, 50.8, 1e-9);
  EXPECT_EQ(flood.over, std::vector{job::Side::front});
}

TEST(Flood, GoesUpToTheRoughThresholdWhereThatIsKnown) {
  // Source: by hand, the frustum and box above: 5/8 in under a threshold of 3 in, 748 + 1.375 x 2040 = 3553 in3; as the
  // solid is where nothing more is laid on; nobody's word is no height.
  job::Job job = basin(3);
  EXPECT_FALSE(measure(*parts::build(job)).flood.rough);
  job.base.threshold.finish = inches(0.625);
  const facts::Flood flood = measure(*parts::build(job)).flood;
  ASSERT_TRUE(flood.rough);
  EXPECT_NEAR(flood.rough->above_drain_mm, 2.375 * 25.4, 1e-6);
  EXPECT_NEAR(flood.rough->volume_mm3 / in3, 3553, 1e-6);
  job.base.threshold.finish = Length{};
  EXPECT_NEAR(measure(*parts::build(job)).flood.rough->volume_mm3 / in3, 4828, 1e-6);
}

TEST(Flood, BehindADamGoesOnAboveTheEdge) {
  // Source: by hand, as above: 748 + 8 x 2040 = 17068 in3 at 9 in; the first is the water up to the edge.
  const facts::Flood flood = measure(*parts::build(basin(3))).flood;
  ASSERT_EQ(flood.dammed.size(), 25u);
  EXPECT_DOUBLE_EQ(flood.dammed.front().volume_mm3, flood.dips.back().volume_mm3);
  EXPECT_NEAR(flood.dammed.back().above_drain_mm, 9 * 25.4, 1e-6);
  EXPECT_NEAR(flood.dammed.back().volume_mm3 / in3, 17068, 1e-6);
}

}  // namespace
}  // namespace fallwright::measure
