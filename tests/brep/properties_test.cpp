/// Volume, area and middle of solids with round faces.
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepBuilderAPI_Transform.hxx>
#include <BRepGProp.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <GProp_GProps.hxx>
#include <gp_Trsf.hxx>

#include "brep/properties.hpp"
#include "brep/skin.hpp"

namespace fallwright::brep {
namespace {

using std::numbers::pi;

constexpr double r = 40, high = 100;

TopoDS_Shape cylinder(double angle = 2 * pi) {
  return BRepPrimAPI_MakeCylinder{r, high, angle}.Shape();
}

/// Cut slantwise: over the axis it is `high` / 2 high, and it rises `high` / 400 for each millimetre of x.
TopoDS_Shape slanted() {
  gp_Trsf tilt;
  tilt.SetRotation(gp_Ax1{{0, 0, high / 2}, {0, -1, 0}}, std::atan(high / 400));
  const TopoDS_Shape above = BRepPrimAPI_MakeBox{gp_Pnt{-500, -500, high / 2}, 1000, 1000, 1000}.Shape();
  return BRepAlgoAPI_Cut{cylinder(), BRepBuilderAPI_Transform{above, tilt}.Shape()}.Shape();
}

/// Lying anyhow, far from the origin; `mirrored` as well.
TopoDS_Shape elsewhere(const TopoDS_Shape& shape, bool mirrored) {
  gp_Trsf turn, move, mirror;
  turn.SetRotation(gp_Ax1{{0, 0, 0}, {1, 2, 3}}, 0.7);
  move.SetTranslation({1000, -2000, 500});
  mirror.SetMirror(gp_Ax2{{10, 20, 30}, {1, 0, 1}});
  return BRepBuilderAPI_Transform{shape, mirrored ? mirror * move * turn : move * turn}.Shape();
}

void expect_like_the_kernel(const TopoDS_Shape& shape, double within) {
  const Properties own = properties(shape);
  GProp_GProps solid, skin;
  BRepGProp::VolumeProperties(shape, solid, 1e-10);
  BRepGProp::SurfaceProperties(shape, skin, 1e-10);
  EXPECT_NEAR(own.volume_mm3 / solid.Mass(), 1, within);
  EXPECT_NEAR(own.area_mm2 / skin.Mass(), 1, within);
  EXPECT_LT(own.centroid.Distance(solid.CentreOfMass()), 100 * within);
}

TEST(Properties, OfACylinderAndAPieceOfOne) {
  // Source: closed form: pi r2 h and 2 pi r h; of a third of it a third, and two plane sides; its middle stands
  // 2 r sin(a) / (3 a) off the axis, a being half the angle.
  const Properties whole = properties(cylinder()), third = properties(cylinder(2 * pi / 3));
  EXPECT_NEAR(whole.volume_mm3 / (pi * r * r * high), 1, 1e-12);
  EXPECT_NEAR(whole.area_mm2 / (2 * pi * r * (r + high)), 1, 1e-12);
  EXPECT_LT(whole.centroid.Distance({0, 0, high / 2}), 1e-9);
  EXPECT_NEAR(third.volume_mm3 / (pi * r * r * high / 3), 1, 1e-12);
  EXPECT_NEAR(third.area_mm2 / (2 * pi * r * (r + high) / 3 + 2 * r * high), 1, 1e-12);
  const double off = 2 * r * std::sin(pi / 3) / pi;
  EXPECT_LT(third.centroid.Distance({off * std::cos(pi / 3), off * std::sin(pi / 3), high / 2}), 1e-9);
}

TEST(Properties, OfACylinderCutSlantwise) {
  // Source: closed form: it is as large as one of its height over the axis, round it as well; the slant is an ellipse
  // of pi r2 sqrt(1 + s2); its middle stands s r2 / (4 h) aside and at h / 2 + s2 r2 / (8 h), h over the axis, s the
  // slope.
  const Properties slant = properties(slanted());
  const double h = high / 2, s = high / 400;
  EXPECT_NEAR(slant.volume_mm3 / (pi * r * r * h), 1, 1e-12);
  EXPECT_NEAR(slant.area_mm2 / (2 * pi * r * h + pi * r * r * (1 + std::sqrt(1 + s * s))), 1, 1e-12);
  EXPECT_LT(slant.centroid.Distance({s * r * r / (4 * h), 0, h / 2 + s * s * r * r / (8 * h)}), 1e-9);
}

TEST(Properties, OfRoundSolidsAreTheKernelsWhereverTheyLie) {
  // Source: the kernel's own integrals, of bodies and bores, and of their mirror images.
  const TopoDS_Shape bored =
      BRepAlgoAPI_Cut{BRepPrimAPI_MakeBox{gp_Pnt{-70, -60, -10}, 140., 120., 90.}.Shape(), slanted()}.Shape();
  for (const TopoDS_Shape& shape : {cylinder(2), slanted(), bored})
    for (const bool mirrored : {false, true}) expect_like_the_kernel(elsewhere(shape, mirrored), 1e-8);
}

TEST(Properties, OfASkinAreThoseOfItsShape) {
  // Source: the sums over the shape's own faces, checked above.
  const TopoDS_Shape bored =
      BRepAlgoAPI_Cut{BRepPrimAPI_MakeBox{gp_Pnt{-70, -60, -10}, 140., 120., 90.}.Shape(), slanted()}.Shape();
  for (const TopoDS_Shape& shape : {slanted(), bored})
    for (const bool mirrored : {false, true}) {
      const TopoDS_Shape there = elsewhere(shape, mirrored);
      const Properties whole = properties(there), own = properties(skin_of(there));
      EXPECT_NEAR(own.volume_mm3 / whole.volume_mm3, 1, 1e-12);
      EXPECT_NEAR(own.area_mm2 / whole.area_mm2, 1, 1e-12);
      EXPECT_LT(own.centroid.Distance(whole.centroid), 1e-9);
    }
}

TEST(PlaneProperties, AreTheHandbooks) {
  // Source: closed form: b h3 / 12 and h b3 / 12 about a rectangle's middle, together about the axis across it; and the
  // kernel's own integrals over a face with a square hole.
  const TopoDS_Shape block = BRepPrimAPI_MakeBox{gp_Pnt{5, 7, 0}, 38., 89., 1000.}.Shape();
  const TopoDS_Shape tube =
      BRepAlgoAPI_Cut{block, BRepPrimAPI_MakeBox{gp_Pnt{10, 20, -1}, 20., 30., 1002.}.Shape()}.Shape();
  for (const Flat& flat : skin_of(block).flats) {
    if (flat.normal.Z() < 0.9) continue;
    const PlaneProperties end = plane_properties(flat);
    EXPECT_NEAR(end.area_mm2, 38 * 89, 1e-9);
    EXPECT_LT(end.centroid.Distance({24, 51.5, 1000}), 1e-9);
    EXPECT_NEAR(end.inertia_mm4(1, 1), 38 * std::pow(89, 3) / 12, 1e-6);
    EXPECT_NEAR(end.inertia_mm4(2, 2), 89 * std::pow(38, 3) / 12, 1e-6);
    EXPECT_NEAR(end.inertia_mm4(3, 3), 38 * 89 * (38. * 38 + 89 * 89) / 12, 1e-6);
  }
  for (const Flat& flat : skin_of(elsewhere(tube, true)).flats) {
    GProp_GProps kernel;
    BRepGProp::SurfaceProperties(flat.face, kernel, 1e-12);
    const PlaneProperties own = plane_properties(flat);
    EXPECT_NEAR(own.area_mm2 / kernel.Mass(), 1, 1e-9);
    EXPECT_LT(own.centroid.Distance(kernel.CentreOfMass()), 1e-7);
    const double size = kernel.MatrixOfInertia().Diagonal().Modulus();
    for (int i = 1; i <= 3; ++i)
      for (int k = 1; k <= 3; ++k)
        EXPECT_NEAR(own.inertia_mm4(i, k), kernel.MatrixOfInertia()(i, k), 1e-9 * size) << i << k;
  }
}

TEST(Properties, OfACylinderThatAnotherCrosses) {
  // Source: as above; what bounds it is no conic, and left to the kernel at its usual order.
  const gp_Ax2 across{{-200, 5, 40}, gp::DX()};
  const TopoDS_Shape crossed =
      BRepAlgoAPI_Cut{cylinder(), BRepPrimAPI_MakeCylinder{across, r / 2, 400}.Shape()}.Shape();
  for (const bool mirrored : {false, true}) expect_like_the_kernel(elsewhere(crossed, mirrored), 1e-5);
}

}  // namespace
}  // namespace fallwright::brep
