// Triangles against what a ring encloses, seen from above.
#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include <gtest/gtest.h>
#include <gp.hxx>

#include "brep/skin.hpp"
#include "measure/fence.hpp"
#include "measure/sides.hpp"

namespace fallwright::measure {
namespace {

using Lie = Fence::Lie;

/// A ring round a middle whose corners lie now near, now far; on whole numbers, so that corners and sides of triangles
/// often lie on it.
brep::Ring starry(std::mt19937& draw, bool convex) {
  const int corners = std::uniform_int_distribution{3, 9}(draw);
  brep::Ring ring;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * M_PI * (i + 0.1) / corners;
    const double far = convex ? 20 : std::uniform_int_distribution{6, 20}(draw);
    ring.emplace_back(std::round(far * std::cos(angle)), std::round(far * std::sin(angle)), 0);
  }
  if (draw() % 2) std::reverse(ring.begin(), ring.end());
  return ring;
}

Triangle drawn_triangle(std::mt19937& draw, const brep::Ring& ring) {
  std::array<gp_Pnt, 3> corner;
  std::uniform_int_distribution place{-22, 22};
  do
    for (gp_Pnt& p : corner)
      p = draw() % 3 ? gp_Pnt(place(draw), place(draw), 0) : ring[draw() % ring.size()];  // one of its own corners
  while (std::abs(twice_plan_mm2(to_triangle(corner))) < 1);
  return to_triangle(corner);
}

/// What they share, from the ring cut into triangles.
double shared_mm2(const brep::Ring& ring, const Triangle& t) {
  double sum = 0;
  const brep::Flat flat{{}, gp::DZ(), {ring}, {}, {}};
  for (const brep::Facet3& facet : brep::triangles_of(flat)) sum += integrate(common(to_triangle(facet), t)).area;
  return sum;
}

TEST(Fence, TellsOfTrianglesWhatTheAreaSharedWithThemTells) {
  // Source: property: what lies within a ring shares all of its area with it, what lies apart nothing, what lies across
  // some.
  std::mt19937 draw{7};
  int met[3] = {};
  for (int i = 0; i < 3000; ++i) {
    const brep::Ring ring = starry(draw, i % 3 == 0);
    const Fence fence{ring};
    for (int k = 0; k < 5; ++k) {
      const Triangle t = drawn_triangle(draw, ring);
      const double own = twice_plan_mm2(t) / 2, shared = shared_mm2(ring, t);
      const Lie lie = fence.of(t);
      ++met[static_cast<int>(lie)];
      const bool all = shared > own - 1e-6, nothing = shared < 1e-6;
      EXPECT_EQ(lie, all ? Lie::within : nothing ? Lie::apart : Lie::across) << i << " " << shared << " of " << own;
      if (!fence.is_convex()) continue;
      Patch patch;
      for (const gp_Pnt& p : t.corner) patch.push_back({p.X(), p.Y(), p.X() - 2 * p.Y()});
      const Integral kept = integrate(fence.within(patch));
      EXPECT_NEAR(kept.area, shared, 1e-6) << i;
    }
  }
  for (const int count : met) EXPECT_GT(count, 300);
}

TEST(Fence, HoldsTheRingsThatLieWithinIt) {
  // Source: closed form: a regular ring of 24 corners; the same corners, turned round or begun elsewhere, and the ring
  // of every other corner lie within it, one a hair larger does not.
  const auto regular = [](double radius, int corners) {
    brep::Ring ring;
    for (int i = 0; i < corners; ++i)
      ring.emplace_back(radius * std::cos(2 * M_PI * i / corners), radius * std::sin(2 * M_PI * i / corners), 0);
    return ring;
  };
  const brep::Ring ring = regular(50, 24);
  const Fence fence{ring};
  brep::Ring turned{ring.rbegin(), ring.rend()};
  std::rotate(turned.begin(), turned.begin() + 5, turned.end());
  EXPECT_TRUE(fence.holds(ring));
  EXPECT_TRUE(fence.holds(turned));
  EXPECT_TRUE(fence.holds(regular(50, 12)));
  EXPECT_TRUE(fence.holds(regular(49, 24)));
  EXPECT_FALSE(fence.holds(regular(50.01, 24)));
  turned[7] = gp_Pnt{0, 51, 0};
  EXPECT_FALSE(fence.holds(turned));
}

}  // namespace
}  // namespace fallwright::measure
