#include <gtest/gtest.h>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakePolygon.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Wire.hxx>
#include <gp_Pln.hxx>

#include "brep/properties.hpp"

namespace fallwright::brep {
namespace {

TopoDS_Wire square(double x, double y, double side) {
  return BRepBuilderAPI_MakePolygon{{x, y, 0}, {x + side, y, 0}, {x + side, y + side, 0}, {x, y + side, 0}, true};
}

/// 15 by 15 square holes of 6 on a pitch of 10, one of them moved.
TopoDS_Face sieve(double moved_x) {
  BRepBuilderAPI_MakeFace face{gp_Pln{}, square(0, 0, 154)};
  for (int i = 0; i < 15; ++i)
    for (int k = 0; k < 15; ++k)
      face.Add(TopoDS::Wire(square(4 + 10 * i + (i == 7 && k == 7 ? moved_x : 0), 4 + 10 * k, 6).Reversed()));
  return face;
}

TEST(Validity, OfAFaceWithManyHolesIsSeenHoleByHole) {
  // Source: closed form: 225 holes apart are a face; two that overlap are none, nor is one that reaches past the edge.
  EXPECT_TRUE(is_valid_to_kernel(sieve(0)));
  EXPECT_TRUE(is_valid_to_kernel(sieve(0).Reversed()));
  EXPECT_TRUE(is_valid_to_kernel(sieve(3.9)));
  EXPECT_FALSE(is_valid_to_kernel(sieve(5)));
  EXPECT_FALSE(is_valid_to_kernel(sieve(74)));
  EXPECT_FALSE(is_valid_to_kernel(sieve(200)));
}

}  // namespace
}  // namespace fallwright::brep
