/// Plans whose lines and arcs touch without crossing, and solids that hang together along a line.
#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "brep/plan.hpp"
#include "brep/properties.hpp"
#include "brep/relief.hpp"
#include "job/validate.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/sample.hpp"

namespace fallwright::parts {
namespace {

using job::Length;

Length in(double v) {
  return Length::inches(v);
}

/// The bore with its collar as wide as the base's square collar round the drain.
job::Job bore_touching_its_collar() {
  job::Job j = sample::alcove();
  j.drain.size = in(4);
  j.base.shell = in(0.75);
  j.bed.collar = in(0.5);
  j.drain.bore = in(4.5);
  return j;
}

TEST(TouchingPlans, BoreThatTouchesTheSquareCollarIsBuilt) {
  // Source: continuity: the volume lies between those of bores a sixty-fourth narrower and wider.
  const job::Job j = bore_touching_its_collar();
  ASSERT_TRUE(job::contradictions(j).empty());
  const auto bed_with = [&](double bore_in) {
    job::Job other = j;
    other.drain.bore = in(bore_in);
    const auto model = build(other);
    EXPECT_TRUE(brep::is_sound(model->find("bed")->shape)) << bore_in;
    EXPECT_TRUE(brep::is_sound(model->find("base")->shape)) << bore_in;
    return brep::volume_mm3(model->find("bed")->shape);
  };
  const double narrower = bed_with(4.5 - 1. / 64), touching = bed_with(4.5), wider = bed_with(4.5 + 1. / 64);
  EXPECT_LT(wider, touching);
  EXPECT_LT(touching, narrower);
  EXPECT_NEAR(touching, (narrower + wider) / 2, (narrower - wider) / 20);
}

TEST(SoundSolids, PartTwoFacesAtEveryEdge) {
  // Source: closed form: two cubes over a chequered plan share one upright edge, where four faces meet.
  const brep::Relief top{{{brep::rectangle(0, 0, 1, 1)}, {1}}, {{brep::rectangle(1, 1, 2, 2)}, {1}}};
  const brep::Relief bottom{{{brep::rectangle(0, 0, 1, 1)}, {0}}, {{brep::rectangle(1, 1, 2, 2)}, {0}}};
  const auto solid = brep::between(top, bottom, "cubes").solid;
  EXPECT_NEAR(brep::volume_mm3(solid), 2, 1e-9);
  EXPECT_FALSE(brep::is_sound(solid));
}

TEST(ShellWithoutRibs, IsRefusedWhereTheLedgeDoesNotHoldOnToIt) {
  // Source: closed form: shell less recess is what holds the ledge; with nothing left they meet in a line.
  job::Job j = sample::alcove();
  j.base.ribs = {};
  j.base.shell = j.drain.recess;
  const auto refused = job::contradictions(j);
  ASSERT_EQ(refused.size(), 1u);
  EXPECT_EQ(refused.front().key, "base.shell");
  j.base.shell = j.drain.recess + Length::mm(2);
  ASSERT_TRUE(job::contradictions(j).empty());
  EXPECT_TRUE(brep::is_sound(build(j)->find("base")->shape));
}

}  // namespace
}  // namespace fallwright::parts
