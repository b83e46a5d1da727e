/// Every filled field of every section, held against the solid it stands for: its mesh, sliced by hand.
#include <cmath>
#include <map>
#include <set>

#include <gtest/gtest.h>
#include <BRepMesh_IncrementalMesh.hxx>
#include <BRep_Tool.hxx>
#include <Poly_Triangulation.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>

#include "drawing/hatch.hpp"
#include "drawing/wall_upstand.hpp"
#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

/// Where a plane cuts a mesh, as strokes in the view's own right and up.
std::vector<Line> slice(const TopoDS_Shape& shape, const gp_Pln& plane, const View& view) {
  static std::set<const void*> meshed;  // rooms that are kept: no other solid comes to lie where one was
  if (meshed.insert(shape.TShape().get()).second) BRepMesh_IncrementalMesh{shape, 0.05, false, 0.1};
  const gp_Dir& normal = plane.Axis().Direction();
  const gp_Dir up = view.toward.Crossed(view.right);
  std::vector<Line> strokes;
  for (TopExp_Explorer it{shape, TopAbs_FACE}; it.More(); it.Next()) {
    TopLoc_Location place;
    const Handle(Poly_Triangulation) mesh = BRep_Tool::Triangulation(TopoDS::Face(it.Current()), place);
    for (int k = 1; k <= mesh->NbTriangles(); ++k) {
      int corner[3];
      mesh->Triangle(k).Get(corner[0], corner[1], corner[2]);
      std::vector<Point> ends;
      for (int i = 0; i < 3; ++i) {
        const gp_XYZ a = mesh->Node(corner[i]).Transformed(place).XYZ(),
                     b = mesh->Node(corner[(i + 1) % 3]).Transformed(place).XYZ();
        const double from = a.Dot(normal.XYZ()) - plane.Location().XYZ().Dot(normal.XYZ()),
                     to = b.Dot(normal.XYZ()) - plane.Location().XYZ().Dot(normal.XYZ());
        if ((from < 0) == (to < 0)) continue;
        const gp_XYZ p = a + (b - a) * (from / (from - to));
        ends.push_back({p.Dot(view.right.XYZ()), p.Dot(up.XYZ())});
      }
      if (ends.size() == 2) strokes.push_back({ends[0], ends[1]});
    }
  }
  return strokes;
}

/// What closed strokes enclose within a window: between neighbouring heights at which anything ends or crosses the
/// window's sides, lengths inside change evenly, so that the one half way between is their mean. Stretches shorter than
/// `least` count for nothing.
double area_inside(const std::vector<Line>& strokes, const Box& window, double least) {
  std::vector<double> heights{window.y0, window.y1};
  for (const Line& l : strokes) {
    heights.insert(heights.end(), {l.from.y, l.to.y});
    for (const double x : {window.x0, window.x1})
      if ((l.from.x - x) * (l.to.x - x) < 0)
        heights.push_back(l.from.y + (x - l.from.x) / (l.to.x - l.from.x) * (l.to.y - l.from.y));
  }
  std::sort(heights.begin(), heights.end());
  double area = 0;
  for (std::size_t i = 0; i + 1 < heights.size(); ++i) {
    const double low = std::max(heights[i], window.y0), high = std::min(heights[i + 1], window.y1);
    if (high - low < 1e-9) continue;
    const double y = (low + high) / 2;
    std::vector<double> at;
    for (const Line& l : strokes)
      if ((l.from.y < y) != (l.to.y < y))
        at.push_back(l.from.x + (y - l.from.y) / (l.to.y - l.from.y) * (l.to.x - l.from.x));
    std::sort(at.begin(), at.end());
    for (std::size_t k = 0; k + 1 < at.size(); k += 2)
      if (at[k + 1] - at[k] >= least)
        area += (high - low) * std::max(0.0, std::min(at[k + 1], window.x1) - std::max(at[k], window.x0));
  }
  return area;
}

/// With notes that stand beside the drawing, in lines.
std::string told_on_paper(const Sheet& sheet) {
  std::string all = read_through(sheet);
  for (const std::string& note : sheet.notes) all += note + " ";
  const auto both_blank = [](char a, char b) { return a == ' ' && b == ' '; };
  all.erase(std::unique(all.begin(), all.end(), both_blank), all.end());
  return all;
}

TEST(Hatches, AreAsLargeAsTheSectionsOfTheirSolids) {
  // Source: another algorithm than the section's: the solid's mesh, cut triangle by triangle, and lengths inside it
  // summed over heights, in the view's window and as much larger as the detail is.
  std::map<std::string, int> compared;
  int fields = 0;
  for (const Drawn& d : sets()) {
    const std::vector<takeoff::StockPlan> plan;
    const std::vector<takeoff::Row> rows;
    const Subject subject{{d.facts, d.cuts, plan, rows, d.judgement}, *d.model};
    std::map<std::string, Cut> cuts;
    for (const Cut& cut : {drain_cut(subject), bed_cut(subject)}) cuts.emplace(cut.letter, cut);
    if (d.model->job.bench) cuts.emplace("B", bench_cut(subject));
    for (const job::Side side : {job::Side::left, job::Side::right})
      if (const auto cut = furred_cut(subject, side)) cuts.emplace(cut->letter, *cut);
    for (const Sheet& sheet : d.sheets)
      for (const Hatch& hatch : sheet.hatches) {
        const Hatch::Source& source = hatch.source;
        if (sheet.name.rfind("cover", 0) == 0) continue;  // the legend's samples are of no solid
        ASSERT_TRUE(cuts.contains(source.section)) << d.name << " " << sheet.name << " " << source.part_id;
        const Cut& cut = cuts.at(source.section);
        const gp_Pln plane = cut.plane.Translated(gp_Vec{cut.plane.Axis().Direction().XYZ() * source.moved_mm});
        EXPECT_LE(std::abs(source.moved_mm), 20) << "what nobody sees";
        const Box& w = source.window;
        const Box window{std::max(w.x0, -1e5), std::max(w.y0, -1e5), std::min(w.x1, 1e5), std::min(w.y1, 1e5)};
        const std::vector<Line> strokes = slice(d.model->find(source.part_id)->shape, plane, cut.view);
        // A sliver of bed that nobody can lay is left out, where the sheet says so.
        const bool left_out =
            source.part_id == "bed" && told_on_paper(sheet).find("no mortar is laid") != std::string::npos;
        EXPECT_TRUE(source.blank_mm2 == 0 || (source.part_id == "base" && d.facts.site_built)) << "a rough threshold";
        const double expected =
            (area_inside(strokes, window, left_out ? 5 : 0) - source.blank_mm2) * source.times * source.times;
        EXPECT_NEAR(area_within(hatch.rings), expected, 0.002 * expected + 0.5)
            << d.name << " " << sheet.name << " " << source.part_id << " " << source.section;
        ++compared[sheet.name], ++fields;
      }
  }
  for (const char* name : {"drain", "bench-section", "bed", "drain-flange", "bench-joints", "bed-threshold"})
    EXPECT_GE(compared[name], at_least(1)) << name;
  EXPECT_GT(fields, at_least(200));
}

}  // namespace
}  // namespace fallwright::drawing
