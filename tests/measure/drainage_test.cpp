#include <algorithm>

#include <gtest/gtest.h>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <gp_Trsf.hxx>

#include "measure/detail.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/sample.hpp"

namespace fallwright::measure {
namespace {

facts::Drainage drainage(const job::Job& job, facts::Surface surface) {
  const facts::Facts facts = measure_solids(*parts::build(job));
  const auto it =
      std::find_if(facts.drainage.begin(), facts.drainage.end(), [&](const auto& d) { return d.surface == surface; });
  EXPECT_NE(it, facts.drainage.end());
  return it == facts.drainage.end() ? facts::Drainage{} : *it;
}

TEST(Drainage, EveryFacetOfTheSampleReachesTheDrain) {
  // Source: by construction, all three surfaces fall to their outlet.
  for (const facts::Surface surface : {facts::Surface::base_floor, facts::Surface::seat, facts::Surface::threshold}) {
    const facts::Drainage d = drainage(sample::alcove(), surface);
    EXPECT_TRUE(d.drains) << name_of(surface);
    EXPECT_DOUBLE_EQ(d.pond_mm, 0) << name_of(surface);
    EXPECT_TRUE(d.stuck.empty()) << name_of(surface);
  }
}

TEST(Drainage, ASeatThatFallsBackHoldsWaterAgainstItsUpstand) {
  // Source: closed form: depth at the wall is the fall times the seat's depth inside its upstand: 15 in - 1/2 at 1:48.
  job::Job j = sample::alcove();
  j.bench->seat_fall = job::Fall::one_in(-48);
  const facts::Drainage d = drainage(j, facts::Surface::seat);
  EXPECT_FALSE(d.drains);
  EXPECT_NEAR(d.pond_mm, 14.5 / 48 * 25.4, 1e-6);
  EXPECT_EQ(d.stuck, std::vector<std::string>{"top"});
}

TEST(Drainage, ASurfaceWithNoOutletIsFullToItsHighestCorner) {
  // Source: closed form: a seat before which no base lies loses nothing: what its plane rises over its depth of 15 in
  // less the upstand's 1/2, at 1:48, stands at its front.
  parts::Model model = *parts::build(sample::alcove());
  gp_Trsf away;
  away.SetTranslation({0, 5000, 0});
  const TopLoc_Location there{away};
  for (parts::Solid& solid : model.solids)
    if (solid.role == parts::Role::base) {
      solid.shape = TopoDS::Solid(solid.shape.Moved(there)), solid.skin.reset();
      for (parts::Facet& facet : solid.facets) facet.face = TopoDS::Face(facet.face.Moved(there));
    }
  for (const facts::Drainage& d : measure_drainage(model))
    if (d.surface == facts::Surface::seat) {
      EXPECT_FALSE(d.drains);
      EXPECT_NEAR(d.pond_mm, 14.5 / 48 * 25.4, 1e-6);
    }
}

TEST(Drainage, AThresholdThatFallsOutwardDoesNotDrainInward) {
  // Source: closed form: 4 in at 1:48.
  job::Job j = sample::alcove();
  j.base.threshold.fall = job::Fall::one_in(-48);
  const facts::Drainage d = drainage(j, facts::Surface::threshold);
  EXPECT_FALSE(d.drains);
  EXPECT_NEAR(d.pond_mm, 4. / 48 * 25.4, 1e-6);
}

TEST(Drainage, RoundOpeningsAndChannelsDrainToo) {
  // Source: by construction.
  job::Job j = sample::alcove();
  j.drain.opening = job::Opening::round;
  EXPECT_TRUE(drainage(j, facts::Surface::base_floor).drains);
  j.base.pattern = job::FallPattern::equal_fall;
  EXPECT_TRUE(drainage(j, facts::Surface::base_floor).drains);
  j = sample::alcove();
  j.drain.kind = job::DrainKind::line;
  j.drain.along = {job::Side::back, job::Length::inches(4)};
  EXPECT_TRUE(drainage(j, facts::Surface::base_floor).drains);
}

}  // namespace
}  // namespace fallwright::measure
