// Heights over plan, read off a solid's faces.
#include <BRepPrimAPI_MakeBox.hxx>
#include <gp_Pnt.hxx>
#include <gtest/gtest.h>

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

}  // namespace
}  // namespace fallwright::measure
