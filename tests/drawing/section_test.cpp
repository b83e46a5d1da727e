// Sections of flat faces against the kernel's own.
#include <cmath>

#include <gtest/gtest.h>
#include <BRepAdaptor_Curve.hxx>
#include <BRepAlgoAPI_Section.hxx>
#include <GCPnts_AbscissaPoint.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <gp_Pln.hxx>

#include "drawing/projection.hpp"
#include "job/read.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/random_room.hpp"
#include "support/skew_room.hpp"

namespace fallwright::drawing {
namespace {

double length_by_kernel(const TopoDS_Shape& shape, const gp_Pln& plane) {
  BRepAlgoAPI_Section cut{shape, plane, false};
  cut.Build();
  double length = 0;
  for (TopExp_Explorer edge{cut.Shape(), TopAbs_EDGE}; edge.More(); edge.Next())
    length += GCPnts_AbscissaPoint::Length(BRepAdaptor_Curve{TopoDS::Edge(edge.Current())});
  return length;
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
    for (const double share : {0.2871, 0.6133})
      for (const bool across : {true, false}) {
        const double at = share * (across ? job.alcove.width : job.alcove.depth).in_mm();
        const gp_Pln plane = across ? gp_Pln{gp_Pnt{at, 0, 0}, gp::DX()} : gp_Pln{gp_Pnt{0, at, 0}, gp::DY()};
        const View view = across ? View{gp::DX(), gp::DY()} : View{gp_Dir{0, -1, 0}, gp::DX()};
        for (const parts::Solid& solid : model->solids) {
          const double kernels = length_by_kernel(solid.shape, plane);
          EXPECT_NEAR(length_of(section({solid.shape}, plane, view)), kernels, 1e-6 * std::max(1.0, kernels))
              << job.name << " " << solid.id << " at " << at;
          compared += kernels > 0;
        }
      }
  }
  EXPECT_GT(compared, 50);
}

}  // namespace
}  // namespace fallwright::drawing
