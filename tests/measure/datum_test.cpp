// Where heights are told from, and where the bed under a base that lies somehow is thinnest.
#include <cmath>

#include <gtest/gtest.h>

#include "job/layout.hpp"
#include "measure/measure.hpp"
#include "measure/once.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::measure {
namespace {

TEST(AsSet, FindsWhereTheBedIsThinnestHoweverTheBaseLies) {
  // Source: a fine grid over the layout's own planes: of a base tilted any way no place of it has less under it than
  // the least of those that are told, and some come near; over a hump on either hand.
  for (const double part : {0.3, 0.7}) {
    job::Job j = sample::bare(inches(60), inches(34), inches(30), inches(17));
    j.base.underside = job::Underside::flat;
    const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm();
    j.survey.level_tolerance_mm = 0.8;
    j.survey.spots = {{0, d, 0}, {w, d, 1}, {w, 0, 2}, {0, 0, 0}, {w * part, d * 0.6, 9}};
    const facts::Lying lying = measure_lying(*parts::build(j));
    const job::Layout at = job::lay_out(j);
    ASSERT_FALSE(lying.beds.empty());
    EXPECT_LT(lying.beds.size(), 20u) << "corners of the lower hull alone";
    const double hole = (j.drain.bore / 2 + j.bed.collar).in_mm();
    for (const auto& [gx, gy] : {std::pair{0., 0.}, {0.004, 0.}, {-0.01, 0.003}, {0.02, -0.05}, {-0.03, 0.02}}) {
      double told = 1e9, least = 1e9;
      for (const facts::BedDepth& bed : lying.beds) told = std::min(told, bed.mm + gx * bed.x_mm + gy * bed.y_mm);
      for (double x = at.bed.x0; x <= at.bed.x1; x += 3)
        for (double y = at.bed.y0; y <= at.bed.y1; y += 3)
          if (std::hypot(x - at.drain_x, y - at.drain_y) >= hole)
            least = std::min(least, at.rib_plane - at.subfloor.at(x, y) + gx * x + gy * y);
      EXPECT_LE(told, least + 1e-6) << gx << ' ' << gy;
      EXPECT_NEAR(told, least, 0.4) << gx << ' ' << gy;
    }
  }
}

TEST(FloorShape, TheDatumIsNoSpotThatIsBoredAway) {
  // Source: closed form: level corners and a spot 6 mm high in the drain's middle, 254 mm from the nearest wall: the
  // floor falls from it to each wall evenly, and what the bore leaves is highest on its edge toward a far corner. What
  // is left is nowhere above the datum, and touches it there; on either hand.
  for (const double from_left : {10., 50.}) {
    job::Job j = sample::bare(inches(60), inches(34), inches(from_left), inches(17));
    const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm(), x = from_left * in, y = 17 * in;
    j.survey.level_tolerance_mm = 0.8;
    j.survey.spots = {{0, d, 0}, {w, d, 0}, {w, 0, 0}, {0, 0, 0}, {x, y, 6}};
    const facts::Facts facts = measured(j);
    const double bore = j.drain.bore.in_mm() / 2, far = std::max(x, w - x), corner = std::hypot(far, d / 2);
    for (const facts::Part& part : facts.parts) {
      if (!part.which.is(facts::Role::subfloor)) continue;
      EXPECT_NEAR(part.bbox_mm[5], 0, 0.01);
    }
    // Toward that corner 6 mm are lost over its distance.
    EXPECT_NEAR(facts.room.floor.spots.front()[2], -6 * (1 - bore / corner), 0.01);
    ASSERT_TRUE(facts.room.floor.datum_at_mm);
    const facts::Point at = *facts.room.floor.datum_at_mm;
    EXPECT_NEAR(std::hypot(at[0] - x, at[1] - y), bore, 0.1);
    EXPECT_EQ(at[0] > x, from_left < 30) << "toward the far side";
    EXPECT_EQ(facts.room.floor.spots.size(), 4u) << "none where nothing is left";
  }
}

}  // namespace
}  // namespace fallwright::measure
