// Sections against the kernel's own.
#include <cmath>

#include <gtest/gtest.h>
#include <BRepAdaptor_Curve.hxx>
#include <BRepAlgoAPI_Section.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <gp_Pln.hxx>

#include "brep/skin.hpp"
#include "drawing/projection.hpp"
#include "job/read.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/random_room.hpp"
#include "support/skew_room.hpp"

namespace fallwright::drawing {
namespace {

/// Of an upright plane's section: straight lines, and where the plane runs through a cylinder's seam one of them twice.
std::vector<Line> lines_by_kernel(const TopoDS_Shape& shape, const gp_Pln& plane, const View& view) {
  BRepAlgoAPI_Section cut{shape, plane, false};
  cut.Build();
  std::vector<Line> lines;
  for (TopExp_Explorer it{cut.Shape(), TopAbs_EDGE}; it.More(); it.Next()) {
    const BRepAdaptor_Curve edge{TopoDS::Edge(it.Current())};
    const auto seen = [&](const gp_Pnt& p) { return Point{p.XYZ().Dot(view.right.XYZ()), p.Z()}; };
    lines.push_back({seen(edge.Value(edge.FirstParameter())), seen(edge.Value(edge.LastParameter()))});
  }
  return tidy(lines);
}

double length_of(const Projection& seen) {
  double length = 0;
  for (const Line& line : seen.lines) length += std::hypot(line.to.x - line.from.x, line.to.y - line.from.y);
  return length;
}

TEST(Section, OfEverySolidIsTheKernels) {
  // Source: the kernel's own sections, at places that lie on no face: what is drawn of flat faces never asks it.
  std::vector<job::Job> jobs{sample::skew_room()};
  for (const unsigned seed : {3u, 14u, 21u}) jobs.push_back(job::read(sample::random_room(seed), "random.toml"));
  int compared = 0;
  for (const job::Job& job : jobs) {
    const auto model = parts::build(job);
    // Places in the room, and about the drain's middle: through it, and off it where arcs and cylinders are cut.
    const parts::Solid* drain = model->find("drain");
    ASSERT_TRUE(drain) << job.name;
    const brep::Box box = brep::skin_of(drain->shape).box;
    for (const double share : {0.2871, 0.6133, 2.0, 2.0731})
      for (const bool across : {true, false}) {
        const std::size_t axis = across ? 0 : 1;
        const double room = (across ? job.alcove.width : job.alcove.depth).in_mm();
        const double at = share < 1 ? share * room : (box[axis] + box[axis + 3]) / 2 + 100 * (share - 2);
        const gp_Pln plane = across ? gp_Pln{gp_Pnt{at, 0, 0}, gp::DX()} : gp_Pln{gp_Pnt{0, at, 0}, gp::DY()};
        const View view = across ? View{gp::DX(), gp::DY()} : View{gp_Dir{0, -1, 0}, gp::DX()};
        for (const parts::Solid& solid : model->solids) {
          const double kernels = length_of({lines_by_kernel(solid.shape, plane, view), {}});
          EXPECT_NEAR(length_of(section(solid, plane, view)), kernels, 0.02 + 1e-6 * kernels)
              << job.name << " " << solid.id << " at " << at;
          compared += kernels > 0;
        }
      }
  }
  EXPECT_GT(compared, 50);
}

}  // namespace
}  // namespace fallwright::drawing
