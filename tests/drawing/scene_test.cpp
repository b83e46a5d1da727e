// Hidden edges: worked out by hand, and held against the kernel's own hiding of meshes in rooms that nobody listed.
#include <gtest/gtest.h>

#include <cmath>

#include <BRepAdaptor_Curve.hxx>
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepAlgoAPI_Fuse.hxx>
#include <BRepLib.hxx>
#include <BRepMesh_IncrementalMesh.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRep_Tool.hxx>
#include <HLRAlgo_Projector.hxx>
#include <HLRBRep_Algo.hxx>
#include <HLRBRep_HLRToShape.hxx>
#include <HLRBRep_PolyAlgo.hxx>
#include <HLRBRep_PolyHLRToShape.hxx>
#include <ShapeUpgrade_UnifySameDomain.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <gp_Ax2.hxx>
#include <gp_Circ.hxx>

#include "brep/skin.hpp"
#include "drawing/scene.hpp"
#include "job/read.hpp"
#include "outside/drawn.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/random_room.hpp"
#include "support/skew_room.hpp"

namespace fallwright::drawing {
namespace {

const View from_front{gp_Dir{0, -1, 0}, gp::DX()};

double length_seen(const Projection& seen, LineKind kind = LineKind::outline) {
  double length = 0;
  for (const Line& line : seen.lines)
    if (line.kind == kind) length += std::hypot(line.to.x - line.from.x, line.to.y - line.from.y);
  return length;
}

TopoDS_Shape block(double x0, double y0, double z0, double x1, double y1, double z1) {
  return BRepPrimAPI_MakeBox{gp_Pnt{x0, y0, z0}, gp_Pnt{x1, y1, z1}};
}

TEST(Scene, ABlockHidesWhatStandsBehindIt) {
  // Source: closed form: what is seen of edges past a block in front of them.
  Scene scene{from_front};
  scene.add({block(50, 20, 10, 200, 30, 100)});
  EXPECT_NEAR(length_seen(scene.seen()[0]), 2 * (150 + 90), 1e-9);
  scene.add({block(0, 0, 0, 100, 10, 50)});
  EXPECT_NEAR(length_seen(scene.seen()[0]), 2 * (150 + 90) - 50 - 40, 1e-9);  // of its foot and of its left side
  EXPECT_NEAR(length_seen(scene.seen()[1]), 2 * (100 + 50), 1e-9);
  EXPECT_NEAR(length_seen(scene.with_hidden(), LineKind::hidden), 50 + 40, 1e-9);
}

TEST(Scene, WhatIsSeenThroughAHoleEndsAtItsRim) {
  // A floor with a square hole, on it nothing, below it a board that runs under the hole alone in view.
  const View from_above{gp::DZ(), gp::DX()};
  Scene scene{from_above};
  scene.add({block(-40, 45, 0, 140, 55, 10)});
  for (const TopoDS_Shape& strip : {block(0, 0, 20, 100, 30, 30), block(0, 70, 20, 100, 100, 30),
                                    block(0, 30, 20, 30, 70, 30), block(70, 30, 20, 100, 70, 30)})
    scene.add({strip});
  // Two long sides: 40 mm at each end beside the floor, 40 mm in the hole; and both its ends.
  EXPECT_NEAR(length_seen(scene.seen()[0]), 2 * (40 + 40 + 40) + 2 * 10, 1e-9);
}

TEST(Scene, SolidsThatTouchKeepTheEdgeBetweenThem) {
  // Source: closed form: each shows the outline of its own front.
  Scene scene{from_front};
  scene.add({block(0, 0, 0, 300, 90, 40)});       // a plate
  scene.add({block(100, 0, 40, 140, 90, 1000)});  // a stud on it, flush in front
  EXPECT_NEAR(length_seen(scene.seen()[0]), 2 * (300 + 40), 1e-9);
  EXPECT_NEAR(length_seen(scene.seen()[1]), 2 * (40 + 960), 1e-9);
}

TEST(Scene, ARoundPostShowsItsTopAndWhereItTurnsAway) {
  // Seen from 45 degrees above: two sides of its height by cos 45, the upper rim whole (an ellipse of half axes r and
  // r sin 45), the lower one by half. Source: Ramanujan's second formula for the length round an ellipse, from memory.
  const double r = 50, high = 200, tilt = std::sqrt(0.5);
  Scene scene{{gp_Dir{0, -1, 1}, gp::DX()}};
  scene.add({BRepPrimAPI_MakeCylinder{gp_Ax2{gp::Origin(), gp::DZ()}, r, high}.Shape()});
  const double a = r, b = r * tilt, h = (a - b) * (a - b) / ((a + b) * (a + b));
  const double round = M_PI * (a + b) * (1 + 3 * h / (10 + std::sqrt(4 - 3 * h)));
  EXPECT_NEAR(length_seen(scene.seen()[0]), 1.5 * round + 2 * high * tilt, 0.3);
}

/// A plate 100 square and 10 thick with a hole of 60 through its middle.
TopoDS_Shape bored_plate() {
  return BRepAlgoAPI_Cut{block(-50, -50, 0, 50, 50, 10), BRepPrimAPI_MakeCylinder{30, 10}.Shape()}.Shape();
}

TEST(Arcs, AHoleSeenSquareOnIsOneCircleAndHalfOfItWhereABoardLiesOverIt) {
  // Source: closed form: the hole's two rims are one circle; a board over the half with y below zero hides that half.
  const View from_above{gp::DZ(), gp::DX()};
  const Projection bare = project({bored_plate()}, from_above, true);
  ASSERT_EQ(bare.arcs.size(), 1u);
  EXPECT_NEAR(bare.arcs[0].radius, 30, 1e-9);
  EXPECT_EQ(bare.arcs[0].to_deg - bare.arcs[0].from_deg, 360);
  EXPECT_EQ(bare.lines.size(), 4u);
  const Projection covered = project({bored_plate(), block(-60, -60, 10, 60, 0, 20)}, from_above, true);
  ASSERT_EQ(covered.arcs.size(), 2u);
  for (const Arc& arc : covered.arcs) {
    const double middle = std::remainder((arc.from_deg + arc.to_deg) / 2, 360);
    EXPECT_NEAR(middle, arc.kind == LineKind::outline ? 90 : -90, 1e-6);
    EXPECT_NEAR(arc.to_deg - arc.from_deg, 180, 1e-6);
  }
  EXPECT_NE(covered.arcs[0].kind, covered.arcs[1].kind);
}

TEST(Arcs, SeenFromTheSideAreLines) {
  // Source: closed form: of the plate on edge its outline is seen, and of the hole, hidden, where it turns away.
  const Projection side = project({bored_plate()}, from_front, true);
  EXPECT_TRUE(side.arcs.empty());
  EXPECT_NEAR(length_seen(side), 2 * (100 + 10), 1e-9);
  EXPECT_NEAR(length_seen(side, LineKind::hidden), 2 * 10, 1e-9);
}

/// The kernel's exact hidden lines: an algorithm of its own, which keeps arcs.
Projection by_exact_kernel(std::vector<TopoDS_Shape> shapes, const View& view) {
  Handle(HLRBRep_Algo) algorithm = new HLRBRep_Algo;
  for (TopoDS_Shape& shape : shapes) {
    ShapeUpgrade_UnifySameDomain one{shape, false, true, false};
    one.Build();
    algorithm->Add(one.Shape());
  }
  algorithm->Projector(HLRAlgo_Projector{gp_Ax2{gp::Origin(), view.toward, view.right}});
  algorithm->Update();
  algorithm->Hide();
  HLRBRep_HLRToShape lines{algorithm};
  Projection seen;
  for (TopoDS_Shape part : {lines.VCompound(), lines.OutLineVCompound()}) {
    if (part.IsNull()) continue;
    BRepLib::BuildCurves3d(part);
    for (TopExp_Explorer it{part, TopAbs_EDGE}; it.More(); it.Next()) {
      const BRepAdaptor_Curve curve{TopoDS::Edge(it.Current())};
      const double first = curve.FirstParameter(), last = curve.LastParameter(), turn = (last - first) * 180 / M_PI;
      const gp_Pnt a = curve.Value(first), b = curve.Value(last);
      if (curve.GetType() == GeomAbs_Circle) {
        const gp_Pnt c = curve.Circle().Location(), at = curve.Circle().Axis().Direction().Z() > 0 ? a : b;
        const double from = std::atan2(at.Y() - c.Y(), at.X() - c.X()) * 180 / M_PI;
        seen.arcs.push_back({{c.X(), c.Y()}, curve.Circle().Radius(), from, from + turn, LineKind::outline});
      } else {
        seen.lines.push_back({{a.X(), a.Y()}, {b.X(), b.Y()}, LineKind::outline});
      }
    }
  }
  return {tidy(seen.lines), tidy(seen.arcs)};
}

TEST(Arcs, OfSteelAndRoundDrainsAreWhatTheKernelSees) {
  // Source: the kernel's exact hidden lines, of members of bent steel from three sides and of a drain from above.
  int rounds = 0;
  for (const char* name : {"tannery-lane-5c", "chandlers-row-9"}) {
    const auto model = parts::build(demo(name));
    std::vector<TopoDS_Shape> shapes;
    for (const parts::Solid& solid : model->solids)
      if (solid.role == parts::Role::bench_frame || solid.role == parts::Role::drain) shapes.push_back(solid.shape);
    for (const View& view : {View{gp::DZ(), gp::DX()}, from_front, View{gp::DX(), gp::DY()}}) {
      const Projection own = project(shapes, view, false), kernels = by_exact_kernel(shapes, view);
      const auto length_of_arcs = [](const Projection& seen) {
        double length = 0;
        for (const Arc& arc : seen.arcs) length += arc.radius * (arc.to_deg - arc.from_deg) * M_PI / 180;
        return length;
      };
      EXPECT_NEAR(length_seen(own), length_seen(kernels), 2e-3 * length_seen(kernels)) << name;
      EXPECT_NEAR(length_of_arcs(own), length_of_arcs(kernels), 0.5) << name;
      rounds += !own.arcs.empty();
    }
  }
  EXPECT_GE(rounds, 3);
}

std::vector<double> lengths_by_kernel(std::vector<TopoDS_Shape> shapes, const View& view) {
  Handle(HLRBRep_PolyAlgo) algorithm = new HLRBRep_PolyAlgo;
  for (TopoDS_Shape& shape : shapes) {
    // What lies in one plane is one face, as nobody sees where a solid was put together.
    ShapeUpgrade_UnifySameDomain one{shape, false, true, false};
    one.Build();
    shape = one.Shape();
    BRepMesh_IncrementalMesh{shape, 0.05};
    algorithm->Load(shape);
  }
  algorithm->Projector(HLRAlgo_Projector{gp_Ax2{gp::Origin(), view.toward, view.right}});
  algorithm->Update();
  HLRBRep_PolyHLRToShape to_shape;
  to_shape.Update(algorithm);
  std::vector<double> lengths;
  for (const TopoDS_Shape& shape : shapes) {
    std::vector<Line> lines;
    for (const TopoDS_Shape& part : {to_shape.VCompound(shape), to_shape.OutLineVCompound(shape)}) {
      if (part.IsNull()) continue;
      for (TopExp_Explorer it{part, TopAbs_EDGE}; it.More(); it.Next()) {
        TopoDS_Vertex from, to;
        TopExp::Vertices(TopoDS::Edge(it.Current()), from, to);
        const gp_Pnt a = BRep_Tool::Pnt(from), b = BRep_Tool::Pnt(to);
        lines.push_back({{a.X(), a.Y()}, {b.X(), b.Y()}, LineKind::outline});
      }
    }
    lengths.push_back(length_seen({tidy(lines), {}}));
  }
  return lengths;
}

TEST(Scene, NoEdgeIsSeenWhereASolidWasPutTogether) {
  // Source: closed form: two blocks of 30, 20 and 10 fused end to end show the six faces of one of 60; a block of 20
  // high at the end of one of 10 shows the step between them, and nothing where their fronts meet.
  const auto fused = [](double high) {
    const TopoDS_Shape a = BRepPrimAPI_MakeBox{30, 20, 10}.Shape(),
                       b = BRepPrimAPI_MakeBox{gp_Pnt{30, 0, 0}, 30, 20, high}.Shape();
    return BRepAlgoAPI_Fuse{a, b}.Shape();
  };
  for (const auto& [high, length] : {std::pair{10.0, 2 * (60.0 + 10)}, {20.0, 2 * (60.0 + 20)}}) {
    Scene scene{from_front};
    scene.add({fused(high)});
    EXPECT_NEAR(length_seen(scene.seen().front()), length, 1e-6) << high;
  }
}

TEST(Scene, OfWholeRoomsIsWhatTheKernelSeesOfTheirMeshes) {
  // Source: the kernel's hidden lines of triangulated solids, an algorithm of its own.
  std::vector<job::Job> jobs{sample::skew_room()};
  for (const unsigned seed : {3u, 14u}) jobs.push_back(job::read(sample::random_room(seed), "random.toml"));
  for (const job::Job& job : jobs)
    for (const View& view :
         {View{gp_Dir{0.55, -1, 0.75}, gp_Dir{1, 0.55, 0}}, View{gp_Dir{-0.31, -1, -0.42}, gp_Dir{1, -0.31, 0}}}) {
      const auto model = parts::build(job);
      std::vector<TopoDS_Shape> shapes;
      Scene scene{view};
      for (const parts::Solid& solid : model->solids) {
        shapes.push_back(solid.shape);
        scene.add({solid.shape});
      }
      const std::vector<double> kernels = lengths_by_kernel(shapes, view);
      const std::vector<Projection> seen = scene.seen();
      for (std::size_t i = 0; i < shapes.size(); ++i) {
        // Of a round edge in a gap the kernel's mesh hides stretches behind its own triangles: of one 12 mm long half,
        // which the kernel's exact algorithm sees whole.
        const double on_arcs = brep::skin_of(shapes[i]).rounds.empty() ? 0 : 1;
        EXPECT_NEAR(length_seen(seen[i]), kernels[i], 5 + on_arcs + 2e-3 * kernels[i])
            << job.name << " " << model->solids[i].id;
      }
    }
}

}  // namespace
}  // namespace fallwright::drawing
