#include <gtest/gtest.h>

#include <BRepAlgoAPI_Common.hxx>
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakePolygon.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepBuilderAPI_Transform.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <BRep_Builder.hxx>
#include <BRep_Tool.hxx>
#include <Geom_CylindricalSurface.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Wire.hxx>
#include <gp_Circ.hxx>
#include <gp_Pln.hxx>
#include <optional>

#include "brep/properties.hpp"
#include "units/tolerance.hpp"

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

TopoDS_Shape prism(const std::vector<std::pair<double, double>>& corners) {
  BRepBuilderAPI_MakePolygon outline;
  for (const auto& [x, y] : corners) outline.Add(gp_Pnt{x, y, 0});
  outline.Close();
  return BRepPrimAPI_MakePrism{BRepBuilderAPI_MakeFace{gp_Pln{}, outline.Wire()}.Face(), gp_Vec{0, 0, 10}};
}

TEST(Validity, OfAFaceWithFewStraightSides) {
  // Source: closed form: an outline may have dents, and not meet itself; a needle's long sides meet where it is no
  // wider than what is welded.
  constexpr double weld = units::tolerance::weld_mm;
  EXPECT_TRUE(is_sound(prism({{0, 0}, {40, 0}, {40, 30}, {0, 30}})));
  EXPECT_TRUE(is_sound(prism({{0, 0}, {30, -9}, {60, 0}, {60, 30}, {30, 39}, {0, 30}})));
  EXPECT_TRUE(is_sound(prism({{0, 0}, {40, 0}, {10, 10}, {0, 40}})));
  EXPECT_TRUE(is_sound(prism({{0, 0}, {100, 0}, {100, 3 * weld}, {0, 3 * weld}})));
  EXPECT_FALSE(is_sound(prism({{0, 0}, {100, 0}, {100, 0.6 * weld}, {0, 0.6 * weld}})));
  EXPECT_FALSE(is_sound(prism({{0, 0}, {40, 30}, {40, 0}, {0, 30}})));
  EXPECT_FALSE(is_sound(prism({{0, 100}, {59, -81}, {-95, 31}, {95, 31}, {-59, -81}})));
  EXPECT_FALSE(is_sound(prism({{0, 0}, {40, 0}, {20, 30}, {0, 1}, {41, 1}, {20, 31}})));
}

/// A block with a hole through it, one whose wall a slanting side cuts, and half of a post.
std::vector<TopoDS_Shape> with_round_walls() {
  const TopoDS_Shape block = BRepPrimAPI_MakeBox{100., 80., 30.};
  const auto post = [](double radius) {
    return BRepPrimAPI_MakeCylinder{gp_Ax2{{40, 30, -20}, gp::DZ()}, radius, 90.}.Shape();
  };
  gp_Trsf slant;
  slant.SetRotation(gp_Ax1{{0, 0, 30}, gp::DY()}, 0.05);
  const TopoDS_Shape slanted = BRepBuilderAPI_Transform{block, slant}.Shape();
  const auto only = [](const TopoDS_Shape& shape) {
    return TopoDS_Shape{TopExp_Explorer{shape, TopAbs_SOLID}.Current()};
  };
  return {only(BRepAlgoAPI_Cut{block, post(20)}.Shape()), only(BRepAlgoAPI_Cut{slanted, post(20)}.Shape()),
          only(BRepAlgoAPI_Common{BRepPrimAPI_MakeBox{100., 30., 60.}.Shape(), post(25)}.Shape())};
}

TEST(Validity, OfRoundWallsIsSeenUnrolled) {
  // Source: the kernel's own word for the solids as they are made, mirrored and turned about: holes seen from inside,
  // posts from outside, whole turns with a seam and parts of one, level edges and slanting ones.
  for (const TopoDS_Shape& solid : with_round_walls()) {
    gp_Trsf mirror, turn;
    mirror.SetMirror(gp_Ax2{gp_Pnt{7, 0, 0}, gp::DX()});
    turn.SetRotation(gp::OZ(), 2.5);
    for (const TopoDS_Shape& shape : {solid, BRepBuilderAPI_Transform{solid, mirror, true}.Shape(),
                                      BRepBuilderAPI_Transform{solid, turn, true}.Shape()}) {
      EXPECT_TRUE(is_sound_to_kernel(shape));
      EXPECT_TRUE(is_sound(shape));
      EXPECT_FALSE(is_sound(shape.Reversed())) << "inside out";
    }
  }
}

/// A ring between two circles, the inner one moved.
TopoDS_Shape ring(double outer, double inner, double moved) {
  const auto circle = [](double x, double radius) -> TopoDS_Wire {
    return BRepBuilderAPI_MakeWire{BRepBuilderAPI_MakeEdge{gp_Circ{gp_Ax2{{x, 0, 0}, gp::DZ()}, radius}}};
  };
  BRepBuilderAPI_MakeFace face{gp_Pln{}, circle(0, outer)};
  face.Add(TopoDS::Wire(circle(moved, inner).Reversed()));
  return BRepPrimAPI_MakePrism{face.Face(), gp_Vec{0, 0, 10}};
}

TEST(Validity, OfCirclesThatPassNearerThanTheirChordsTell) {
  // Source: closed form: circles cross where their centres are farther apart than their radii differ; and the kernel.
  EXPECT_TRUE(is_sound(ring(50, 49.99, 0)));
  EXPECT_TRUE(is_sound(ring(50, 49.99, 0.009)));
  for (const double moved : {0.02, 1.0}) {
    EXPECT_FALSE(is_sound_to_kernel(ring(50, 49.99, moved)));
    EXPECT_FALSE(is_sound(ring(50, 49.99, moved))) << moved;
  }
}

/// Upright, round the origin, an arc of radius 76.2 from one angle to another and straight through `corners` back.
TopoDS_Shape over_an_arc(double from, double to, const std::vector<std::pair<double, double>>& corners) {
  BRepBuilderAPI_MakeWire outline;
  outline.Add(BRepBuilderAPI_MakeEdge{gp_Circ{gp_Ax2{gp::Origin(), gp::DZ()}, 76.2}, from, to}.Edge());
  const auto at = [](double angle) { return gp_Pnt{76.2 * std::cos(angle), 76.2 * std::sin(angle), 0}; };
  gp_Pnt last = at(to);
  for (const auto& [radius, angle] : corners) {
    const gp_Pnt next{radius * std::cos(angle), radius * std::sin(angle), 0};
    outline.Add(BRepBuilderAPI_MakeEdge{last, next}.Edge());
    last = next;
  }
  outline.Add(BRepBuilderAPI_MakeEdge{last, at(from)}.Edge());
  return BRepPrimAPI_MakePrism{BRepBuilderAPI_MakeFace{gp_Pln{}, outline.Wire()}.Face(), gp_Vec{0, 0, 10}};
}

TEST(Validity, OfArcsThatEndAHairPastAChord) {
  // Source: closed form: a slice of a post does not meet itself wherever its arc begins, nor does what lies outside the
  // arc between two sides that run away from it; an outline that comes back to its own arc does, from either side of
  // it. And the kernel.
  for (int i = 0; i < 40; ++i) {
    const double from = 0.4 - 3e-4 * i, to = 1.9 + 2.7e-3 * i, middle = (from + to) / 2;
    for (const auto& corners : {std::vector<std::pair<double, double>>{{0, 0}},
                                {{20, to}, {20, from}},
                                {{150, to}, {200, middle}, {150, from}},
                                {{90, to + 0.1}, {300, middle}, {90, from - 0.1}}}) {
      const TopoDS_Shape sound = over_an_arc(from, to, corners);
      EXPECT_TRUE(is_sound(sound)) << i;
      EXPECT_TRUE(is_sound_to_kernel(sound)) << i;
    }
    for (const auto& corners : {std::vector<std::pair<double, double>>{{76.2, middle}, {0, 0}},
                                {{150, to}, {76.2, middle}, {150, from}},
                                {{150, to}, {70, middle}, {150, from}}}) {
      const TopoDS_Shape back = over_an_arc(from, to, corners);
      EXPECT_FALSE(is_sound(back)) << i;
      EXPECT_FALSE(is_sound_to_kernel(back)) << i;
    }
  }
}

TEST(Validity, OfAWallThatItsEdgesDoNotLieOn) {
  // Source: the kernel's own word; the surface of one round wall is a millimetre wider than its edges.
  for (const TopoDS_Shape& solid : with_round_walls())
    for (TopExp_Explorer it{solid, TopAbs_FACE}; it.More(); it.Next()) {
      const TopoDS_Face& face = TopoDS::Face(it.Current());
      const auto wall = Handle(Geom_CylindricalSurface)::DownCast(BRep_Tool::Surface(face));
      if (wall.IsNull()) continue;
      const Handle(Geom_CylindricalSurface) wide = new Geom_CylindricalSurface{wall->Position(), wall->Radius() + 1};
      BRep_Builder{}.UpdateFace(face, wide, TopLoc_Location{}, BRep_Tool::Tolerance(face));
      EXPECT_FALSE(is_sound_to_kernel(solid));
      EXPECT_FALSE(is_sound(solid));
      break;
    }
}

}  // namespace
}  // namespace fallwright::brep
