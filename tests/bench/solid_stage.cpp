/// How long the solid stage takes: building base and bed, their volumes and the falls of their facets, directly and by
/// general Booleans. Prints the ratios that matter: direct against Boolean, and growth from 10 x 20 to 40 x 80 pockets.
#include <algorithm>
#include <cstdio>
#include <map>
#include <string>

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
#include "support/sample.hpp"

namespace {

using namespace fallwright;

job::Job with_ribs(int columns, int rows) {
  job::Job j = sample::alcove();
  j.base.ribs = {columns, rows, job::Length::mm(6)};
  return j;
}

/// The whole of it: every solid of the alcove, all volumes and masses, all falls.
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
    for (const brep::Region& pocket : parts::underside(j, at, at.base, j.drain.body.in_mm() / 2))
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
    const TopoDS_Shape bored = BRepAlgoAPI_Cut(
        slab,
        BRepPrimAPI_MakeCylinder(gp_Ax2{{at.drain_x, at.drain_y, -1}, gp::DZ()}, parts::bed_hole_radius_mm(j), 300));
    const TopoDS_Shape bed = BRepAlgoAPI_Cut(bored, base);
    benchmark::DoNotOptimize(brep::volume_mm3(base) + brep::volume_mm3(bed));
  }
}

BENCHMARK(direct)->Args({10, 20})->Args({40, 80})->Unit(benchmark::kMillisecond);
BENCHMARK(surveyed)->Args({10, 20})->Unit(benchmark::kMillisecond);
BENCHMARK(by_booleans)->Args({10, 20})->Iterations(1)->Unit(benchmark::kMillisecond);

/// Keeps the times by name beside printing them.
class Keeper : public benchmark::ConsoleReporter {
 public:
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& run : runs) times[run.benchmark_name()] = run.GetAdjustedRealTime();
    ConsoleReporter::ReportRuns(runs);
  }
  std::map<std::string, double> times;
};

}  // namespace

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  Keeper keeper;
  benchmark::RunSpecifiedBenchmarks(&keeper);
  const auto time = [&](const std::string& name) {
    for (const auto& [key, value] : keeper.times)
      if (key.rfind(name, 0) == 0) return value;
    return 0.0;
  };
  const double direct_small = time("direct/10/20"), direct_large = time("direct/40/80"),
               carved = time("by_booleans/10/20"), in_room = time("surveyed/10/20");
  if (direct_small <= 0 || in_room <= 0 || direct_large <= 0 || carved <= 0) return 0;  // a filter left some out
  std::printf("\n10 x 20 pockets, directly: %.1f ms (wanted: under 100)\n", direct_small);
  std::printf("by general Booleans: %.0f ms, %.0f times as long (wanted: at least 20)\n", carved,
              carved / direct_small);
  std::printf("40 x 80 pockets, directly: %.0f ms, %.1f times 10 x 20 (wanted: at most 24)\n", direct_large,
              direct_large / direct_small);
  std::printf("10 x 20 pockets in a surveyed room: %.1f ms, %.2f times as designed (wanted: at most 2)\n", in_room,
              in_room / direct_small);
  return in_room <= 2 * direct_small && direct_small < 100 && carved >= 20 * direct_small &&
                 direct_large <= 24 * direct_small
             ? 0
             : 1;
}
