/// How long the solid stage takes: building base and bed, their volumes and the falls of their facets, directly and by
/// general Booleans; and one job looked at whole, with no other like it that was looked at before.
#include <benchmark/benchmark.h>
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <TopTools_ListOfShape.hxx>

#include "brep/plan.hpp"
#include "brep/properties.hpp"
#include "job/layout.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "parts/pieces.hpp"
#include "rules/check.hpp"
#include "study/study.hpp"
#include "support/sample.hpp"

namespace {

using namespace fallwright;

job::Job with_ribs(int columns, int rows) {
  job::Job j = sample::alcove();
  j.base.ribs = {columns, rows, job::Length::mm(6)};
  return j;
}

/// The whole of it: every solid of the alcove, looked at once (faces, corners, boxes), all volumes and masses, all
/// falls.
void direct(benchmark::State& state) {
  const job::Job j = with_ribs(static_cast<int>(state.range(0)), static_cast<int>(state.range(1)));
  for (auto _ : state) {
    const auto model = parts::build(j);
    benchmark::DoNotOptimize(measure::measure_solids(*model));
  }
}

/// The same in a room as surveyed: leaning studs, thirteen spot levels, a frame level on an unlevel floor.
void surveyed(benchmark::State& state) {
  const job::Job j = sample::surveyed(with_ribs(static_cast<int>(state.range(0)), static_cast<int>(state.range(1))));
  for (auto _ : state) {
    const auto model = parts::build(j);
    benchmark::DoNotOptimize(measure::measure_solids(*model));
  }
}

/// A straight prism over a region, from its plane up or down to a level.
TopoDS_Shape prism(const brep::Region& region, double to, bool up) {
  const brep::Relief level{{region.loops, {to}}}, own{{region.loops, region.plane}};
  return (up ? brep::between(level, own, "tool") : brep::between(own, level, "tool")).solid;
}

/// The same base and bed, carved: a block less a tool for every facet, the threshold, the ledge and every pocket; the
/// bed a block less the base.
void by_booleans(benchmark::State& state) {
  const job::Job j = with_ribs(static_cast<int>(state.range(0)), static_cast<int>(state.range(1)));
  const job::Layout at = job::lay_out(j);
  for (auto _ : state) {
    TopTools_ListOfShape tools, block;
    for (const brep::Region& facet : parts::floor_facets(j, at)) tools.Append(prism(facet, at.upstand_top + 1, true));
    const job::Rect strip{at.floor.x0, at.base.y0 - 1, at.floor.x1, at.floor.y0};
    const double fall = j.base.threshold.fall.as_ratio();
    tools.Append(prism({{parts::to_loop(strip)}, {at.threshold_inner + fall * at.floor.y0, 0, -fall}},
                       at.upstand_top + 1, true));
    tools.Append(
        prism({{parts::opening_loop(j, at)}, {at.drain_top - j.drain.recess.in_mm()}}, at.upstand_top + 1, true));
    tools.Append(
        BRepPrimAPI_MakeCylinder(gp_Ax2{{at.drain_x, at.drain_y, 0}, gp::DZ()}, j.drain.body.in_mm() / 2, 200));
    for (const brep::Region& pocket : parts::underside(j, at, at.base_outline.polygon(), j.drain.body.in_mm() / 2))
      if (pocket.plane.z0 != at.rib_plane) tools.Append(prism(pocket, at.rib_plane - 1, false));
    block.Append(BRepPrimAPI_MakeBox(gp_Pnt{at.base.x0, at.base.y0, at.rib_plane},
                                     gp_Pnt{at.base.x1, at.base.y1, at.upstand_top}));
    BRepAlgoAPI_Cut carve;
    carve.SetArguments(block);
    carve.SetTools(tools);
    carve.Build();
    const TopoDS_Shape base = carve.Shape();
    const TopoDS_Shape slab =
        BRepPrimAPI_MakeBox(gp_Pnt{at.bed.x0, at.bed.y0, 0}, gp_Pnt{at.bed.x1, at.bed.y1, at.drain_top});
    const TopoDS_Shape bored =
        BRepAlgoAPI_Cut(slab, BRepPrimAPI_MakeCylinder(gp_Ax2{{at.drain_x, at.drain_y, -1}, gp::DZ()},
                                                       parts::bed_hole_radius_mm(j, at), 300));
    const TopoDS_Shape bed = BRepAlgoAPI_Cut(bored, base);
    benchmark::DoNotOptimize(brep::volume_mm3(base) + brep::volume_mm3(bed));
  }
}

/// A level room with all its checks, from the job's values to the results.
void job_alone(benchmark::State& state) {
  const job::Job j = sample::alcove();
  for (auto _ : state) {
    const auto model = parts::build(j);
    const rules::Limits limits = rules::limits_for(j);
    benchmark::DoNotOptimize(rules::check(j, study::with_studies(*model, measure::measure(*model), limits), limits));
  }
}

// First, in memory that nothing else was taken from before: as a program that was just started does it.
BENCHMARK(direct)->Args({10, 20})->Args({40, 80})->Repetitions(3)->Unit(benchmark::kMillisecond);
BENCHMARK(job_alone)->Repetitions(3)->Unit(benchmark::kMillisecond);
BENCHMARK(surveyed)->Args({10, 20})->Repetitions(3)->Unit(benchmark::kMillisecond);
BENCHMARK(by_booleans)->Args({10, 20})->Iterations(1)->Unit(benchmark::kMillisecond);

}  // namespace
