// Heights over plan, read off a solid's faces, and outlines round points.
#include <cmath>
#include <vector>

#include <BRepPrimAPI_MakeBox.hxx>
#include <gp_Pnt.hxx>
#include <gtest/gtest.h>

#include "measure/rim.hpp"
#include "measure/surface.hpp"
#include "parts/model.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

TEST(Surface, HoldsWhatLiesAHairBesideAnyOfItsEdges) {
  // Source: closed form: a slab of 300 by 200, 40 thick. What rounding puts beside an edge stands over the slab, what
  // is a millimetre beside it does not, and goes on in its plane.
  const parts::Solid slab{{}, "slab", 0, BRepPrimAPI_MakeBox(gp_Pnt{100, 50, 10}, gp_Pnt{400, 250, 50}).Solid()};
  const Surface top{slab, true};
  const double hair = units::tolerance::length_mm / 2;
  for (const double off : {-hair, hair, 1.0, -1.0}) {
    const bool inside = off != -1;
    const std::pair<double, double> places[] = {{100 + off, 120}, {400 - off, 120}, {220, 50 + off}, {220, 250 - off}};
    for (const auto& [x, y] : places) {
      EXPECT_EQ(top.at(x, y), inside ? std::optional{50.0} : std::nullopt) << x << " " << y;
      EXPECT_EQ(top.carried_on(x, y), 50) << x << " " << y;
    }
  }
}

TEST(Hull, OfManyPointsIsThatOfItsOwnCorners) {
  // Source: closed form: a regular dodecagon, turned and stretched; points within, the nearest of them a tenth from an
  // edge, change nothing, in whatever order they come.
  for (const double turn : {0.0, 0.2, 0.7}) {
    std::vector<survey::Point> corners, all;
    for (int i = 0; i < 12; ++i) {
      const double angle = turn + i * M_PI / 6, x = 900 * std::cos(angle), y = 450 * std::sin(angle);
      corners.push_back({x, y});
      for (const double share : {0.0, 0.3, 0.9, 0.9997 * std::cos(M_PI / 12)}) all.push_back({x * share, y * share});
    }
    all.insert(all.begin() + 7, corners.begin(), corners.end());
    const survey::Polygon found = hull(all), alone = hull(corners);
    ASSERT_EQ(found.size(), 12u) << turn;
    for (std::size_t i = 0; i < 12; ++i) {
      EXPECT_EQ(found[i].x, alone[i].x) << turn;
      EXPECT_EQ(found[i].y, alone[i].y) << turn;
    }
  }
}

}  // namespace
}  // namespace fallwright::measure
