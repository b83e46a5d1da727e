// Solids as plain numbers.
#include <gtest/gtest.h>

#include <BRepAlgoAPI_Cut.hxx>
#include <BRepBndLib.hxx>
#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepBuilderAPI_Transform.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <BRepPrimAPI_MakeSphere.hxx>
#include <Bnd_Box.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Wire.hxx>
#include <gp_Circ.hxx>
#include <gp_Pln.hxx>
#include <gp_Trsf.hxx>

#include "brep/skin.hpp"

namespace fallwright::brep {
namespace {

const gp_Ax2 upright{gp_Pnt{50, 40, 0}, gp::DZ()};

/// A slab of 100 x 80 x 30 with a bore of 40 through its middle, made in three ways whose surfaces turn differently.
std::vector<TopoDS_Shape> bored_slabs() {
  const TopoDS_Shape cut =
      BRepAlgoAPI_Cut{BRepPrimAPI_MakeBox{100., 80., 30.}.Shape(), BRepPrimAPI_MakeCylinder{upright, 20, 30}.Shape()};
  const TopoDS_Wire rim = BRepBuilderAPI_MakeWire{BRepBuilderAPI_MakeEdge{gp_Circ{upright, 20}}};
  const TopoDS_Face face = BRepBuilderAPI_MakeFace{gp_Pln{gp::Origin(), gp::DZ()}, 0, 100, 0, 80};
  const TopoDS_Face holed = BRepBuilderAPI_MakeFace{face, TopoDS::Wire(rim.Reversed())};
  gp_Trsf mirrored;
  mirrored.SetMirror(gp_Ax2{gp_Pnt{50, 0, 0}, gp::DX()});
  return {cut, BRepPrimAPI_MakePrism{holed, gp_Vec{0, 0, 30}}.Shape(),
          BRepBuilderAPI_Transform{cut, mirrored, true}.Shape()};
}

TEST(Skin, TrianglesOfABoreLookIntoItHoweverItWasMade) {
  // Source: closed form: the volume that triangles enclose, by the divergence theorem, is that of the slab less the
  // bore; chords take no more than a thousandth from a full circle.
  for (const TopoDS_Shape& slab : bored_slabs()) {
    double six_volumes = 0;
    const auto add = [&](const std::vector<Facet3>& triangles) {
      for (const auto& [a, b, c] : triangles) six_volumes += a.XYZ().Dot(b.XYZ().Crossed(c.XYZ()));
    };
    const Skin skin = skin_of(slab);
    for (const Flat& flat : skin.flats) add(triangles_of(flat));
    for (const Round& round : skin.rounds) add(triangles_of(round));
    const double bore = M_PI * 20 * 20 * 30;
    EXPECT_NEAR(six_volumes / 6, 100 * 80 * 30 - bore, 1e-3 * bore);
  }
}

TEST(Skin, PiecesOfAnArcHoldItAndEndWhereItsChordsDo) {
  // Source: closed form: every point of a circle lies a radius from its centre.
  const Skin skin = skin_of(bored_slabs().front());
  int pieces = 0;
  for (const Flat& flat : skin.flats)
    for (const Curve& curve : flat.curves) {
      EXPECT_NEAR(std::abs(curve.across.Z()), 1, 1e-12);
      for (const Piece& piece : curve.pieces) {
        ++pieces;
        for (const gp_Pnt& p : {piece.from, piece.to}) EXPECT_NEAR(std::hypot(p.X() - 50, p.Y() - 40), 20, 1e-9);
        const double mx = (piece.from.X() + piece.to.X()) / 2 - 50, my = (piece.from.Y() + piece.to.Y()) / 2 - 40;
        const double x = 50 + 20 * mx / std::hypot(mx, my), y = 40 + 20 * my / std::hypot(mx, my);
        EXPECT_TRUE(x >= piece.box[0] - 1e-9 && x <= piece.box[3] + 1e-9 && y >= piece.box[1] - 1e-9 &&
                    y <= piece.box[4] + 1e-9)
            << x << " " << y;
      }
    }
  EXPECT_GE(pieces, 2 * 90) << "a hundred in a full turn, above and below";
}

TEST(Skin, OfWhatIsDrawnElsewhereIsThatOfTheShapeThere) {
  // Source: closed form, to the last bit: the kernel moves corners and normals by the same sums.
  const TopoDS_Shape block = BRepAlgoAPI_Cut{BRepPrimAPI_MakeBox{38., 89., 1000.}.Shape(),
                                             BRepPrimAPI_MakeBox{gp_Pnt{10, -1, 200}, 20., 91., 30.}.Shape()}
                                 .Shape();
  gp_Trsf turn, move, mirror;
  turn.SetRotation(gp_Ax1{{0, 0, 0}, {1, 2, 3}}, 0.7);
  move.SetTranslation({1000.1, -2000.3, 500.7});
  mirror.SetMirror(gp_Ax2{{1, 2, 3}, gp::DX()});
  const TopoDS_Shape drawn = TopExp_Explorer{block, TopAbs_SOLID}.Current().Located({});
  for (const TopLoc_Location& place : {TopLoc_Location{move}, TopLoc_Location{move * turn}}) {
    const Skin there = skin_of(drawn.Located(place));
    const auto own = moved(skin_of(drawn), place);
    ASSERT_TRUE(own);
    EXPECT_TRUE(own->closed && there.closed);
    EXPECT_EQ(own->box, there.box);
    EXPECT_EQ(own->extent.box, there.extent.box);
    ASSERT_EQ(own->flats.size(), there.flats.size());
    const auto is_same = [](const gp_Pnt& a, const gp_Pnt& b) { return a.IsEqual(b, 0); };
    for (std::size_t i = 0; i < there.flats.size(); ++i) {
      EXPECT_TRUE(own->flats[i].face.IsEqual(there.flats[i].face));
      EXPECT_TRUE(own->flats[i].normal.IsEqual(there.flats[i].normal, 0));
      EXPECT_EQ(own->flats[i].box, there.flats[i].box);
      ASSERT_EQ(own->flats[i].rings.size(), there.flats[i].rings.size());
      for (std::size_t k = 0; k < there.flats[i].rings.size(); ++k)
        EXPECT_TRUE(std::equal(own->flats[i].rings[k].begin(), own->flats[i].rings[k].end(),
                               there.flats[i].rings[k].begin(), there.flats[i].rings[k].end(), is_same));
    }
    EXPECT_TRUE(std::equal(own->extent.corners.begin(), own->extent.corners.end(), there.extent.corners.begin(),
                           there.extent.corners.end(), is_same));
  }
  EXPECT_FALSE(moved(skin_of(drawn), TopLoc_Location{mirror}));
  EXPECT_FALSE(moved(skin_of(bored_slabs().front()), TopLoc_Location{move}));
}

TEST(Extent, OfRoundSolidsIsTheKernelsBoxAndHasEachCornerOnce) {
  // Source: the kernel's own search for the box; by hand: a slab has eight corners, and each rim of its bore begins at
  // one more. A post lying down, a quarter of it and a ball reach past all their corners.
  const gp_Ax2 lying{gp_Pnt{5, 6, 7}, gp_Dir{1, 0.3, 0}};
  std::vector<TopoDS_Shape> shapes = bored_slabs();
  for (const TopoDS_Shape& slab : shapes) EXPECT_EQ(extent_of(slab).corners.size(), 10u);
  shapes.push_back(BRepPrimAPI_MakeCylinder{lying, 20, 30}.Shape());
  shapes.push_back(BRepPrimAPI_MakeCylinder{lying, 20, 30, 1.2}.Shape());
  shapes.push_back(BRepPrimAPI_MakeSphere{gp_Pnt{1, 2, 3}, 10}.Shape());
  for (const TopoDS_Shape& shape : shapes) {
    Bnd_Box kernels;
    BRepBndLib::AddOptimal(shape, kernels, false, false);
    const Box box = extent_of(shape).box;
    for (int i = 0; i < 3; ++i) {
      EXPECT_NEAR(box[i], kernels.CornerMin().Coord(i + 1), 1e-5) << i;
      EXPECT_NEAR(box[i + 3], kernels.CornerMax().Coord(i + 1), 1e-5) << i;
    }
  }
  EXPECT_EQ(extent_of({}).box, Box{});
}

}  // namespace
}  // namespace fallwright::brep
