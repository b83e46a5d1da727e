#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include <BRep_Tool.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Vertex.hxx>

#include "brep/properties.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/rim.hpp"
#include "measure/shapes.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using job::Side;
using survey::Rect;

/// What of one kind of top lies along a side: how long it is, and its corners there.
struct Stretch {
  facts::Turned turned;
  double length = 0;
  std::vector<gp_Pnt> tops = {};
};

/// Two ends of each edge of a face that runs along a side.
std::vector<gp_Pnt> ends_on(const TopoDS_Face& face, const Rim& rim, Side side) {
  std::vector<gp_Pnt> ends;
  const auto on = [&](const gp_Pnt& p) { return rim.on(p, side, units::tolerance::length_mm); };
  for (TopExp_Explorer edge{face, TopAbs_EDGE}; edge.More(); edge.Next()) {
    const gp_Pnt a = BRep_Tool::Pnt(TopExp::FirstVertex(TopoDS::Edge(edge.Current()))),
                 b = BRep_Tool::Pnt(TopExp::LastVertex(TopoDS::Edge(edge.Current())));
    if (on(a) && on(b)) ends.insert(ends.end(), {a, b});
  }
  return ends;
}

/// What turns up along most of a side. A threshold is as low as its lowest edge, wherever that lies.
Stretch along(const parts::Solid& base, const Rim& rim, Side side) {
  std::array<Stretch, 3> found{Stretch{facts::Turned::rim}, Stretch{facts::Turned::threshold},
                               Stretch{facts::Turned::upstand}};
  const auto skin = parts::skin_of(base);
  for (const brep::Flat& flat : skin->flats) {
    if (flat.normal.Z() <= units::tolerance::ratio) continue;
    const TopoDS_Face& face = flat.face;
    const auto ends = ends_on(face, rim, side);
    if (ends.empty()) continue;
    const auto facet = std::find_if(base.facets.begin(), base.facets.end(),
                                    [&](const parts::Facet& f) { return f.face.IsSame(face); });
    const bool threshold = facet != base.facets.end() && facet->surface == facts::Surface::threshold;
    Stretch& stretch = found[facet == base.facets.end() ? 2 : threshold ? 1 : 0];
    for (std::size_t i = 0; i < ends.size(); i += 2) stretch.length += ends[i].Distance(ends[i + 1]);
    for (const gp_Pnt& p : threshold ? corners(face) : ends) stretch.tops.push_back(p);
  }
  return *std::max_element(found.begin(), found.end(),
                           [](const Stretch& a, const Stretch& b) { return a.length < b.length; });
}

facts::Behind behind(const job::Job& job, Side side) {
  if (side == bench_side(job)) return facts::Behind::bench;
  return job.alcove.has_wall(side) ? facts::Behind::wall : facts::Behind::nothing;
}

bool among(const std::vector<Side>& sides, Side side) {
  return std::find(sides.begin(), sides.end(), side) != sides.end();
}

/// How far a seat block reaches down before its frame: its apron.
double apron_mm(const parts::Model& model, const parts::Solid& block) {
  double frame_top = std::numeric_limits<double>::lowest();
  for (const parts::Solid& solid : model.solids)
    if (solid.role == parts::Role::bench_frame) frame_top = std::max(frame_top, parts::box_of(solid)[5]);
  return std::max(0.0, frame_top - parts::box_of(block)[2]);
}

}  // namespace

std::optional<Side> bench_side(const job::Job& job) {
  return job.bench ? std::optional{job.bench->place} : std::nullopt;
}

std::vector<facts::Edge> measure_edges(const parts::Model& model) {
  std::vector<facts::Edge> edges;
  const parts::Solid& base = *model.first(parts::Role::base);
  const Rim rim{base};
  for (const Side side : job::all_sides) {
    const Stretch found = along(base, rim, side);
    if (found.tops.empty()) continue;
    const auto lower = [](const gp_Pnt& a, const gp_Pnt& b) { return a.Z() < b.Z(); };
    const auto [low, high] = std::minmax_element(found.tops.begin(), found.tops.end(), lower);
    edges.push_back({side, behind(model.job, side), found.turned, low->Z(), high->Z(),
                     among(model.job.base.lapped, side), rim.length(side)});
    if (edges.back().open()) edges.back().outside = bath_floor_before(model, side);
  }
  return edges;
}

std::vector<gp_Pnt> tops_of_open_edges(const parts::Model& model) {
  std::vector<gp_Pnt> tops;
  const parts::Solid& base = *model.first(parts::Role::base);
  const Rim rim{base};
  for (const Side side : job::all_sides)
    if (behind(model.job, side) == facts::Behind::nothing)
      for (const gp_Pnt& p : along(base, rim, side).tops) tops.push_back(p);
  return tops;
}

std::vector<gp_Pnt> edge_below_apron(const parts::Model& model) {
  std::vector<gp_Pnt> edge;
  const auto side = bench_side(model.job);
  const parts::Solid* block = model.first(parts::Role::seat_block);
  if (!side || !block || apron_mm(model, *block) <= 0) return edge;
  const auto seat = parts::box_of(*block);
  const parts::Solid& base = *model.first(parts::Role::base);
  const std::vector<gp_Pnt> tops = along(base, Rim{base}, *side).tops;  // two by two
  const int axis = *side == Side::back ? 1 : 2;  // the way that the apron runs, as the kernel counts
  const double from = seat[axis - 1], to = seat[axis + 2];
  for (std::size_t i = 0; i + 1 < tops.size(); i += 2) {
    const gp_Pnt &a = tops[i], &b = tops[i + 1];
    const double at_a = a.Coord(axis), at_b = b.Coord(axis);
    const double low = std::max(from, std::min(at_a, at_b)), high = std::min(to, std::max(at_a, at_b));
    if (high - low <= units::tolerance::length_mm) continue;
    for (const double at : {low, high}) edge.emplace_back(a.XYZ() + (at - at_a) / (at_b - at_a) * (b.XYZ() - a.XYZ()));
  }
  return edge;
}

std::optional<facts::SeatSkirt> measure_skirt(const parts::Model& model) {
  const parts::Solid* block = model.first(parts::Role::seat_block);
  const auto own = bench_side(model.job);
  if (!block || !own) return std::nullopt;
  const auto all = parts::box_of(*block);
  std::optional<std::array<double, 6>> seat;
  for (const parts::Facet& facet : block->facets)
    if (facet.surface == facts::Surface::seat) seat = brep::box_of(facet.face);
  if (!seat) return std::nullopt;
  facts::SeatSkirt skirt;
  skirt.apron_mm = apron_mm(model, *block);
  for (const gp_Pnt& p : edge_below_apron(model)) {
    const double gap = all[2] - p.Z();
    if (!skirt.gap_least_mm || gap < *skirt.gap_least_mm) skirt.gap_least_mm = gap, skirt.least_at_mm = to_point(p);
    if (!skirt.gap_greatest_mm || gap > *skirt.gap_greatest_mm)
      skirt.gap_greatest_mm = gap, skirt.greatest_at_mm = to_point(p);
  }
  const bool higher = all[5] - (*seat)[5] > units::tolerance::length_mm;
  const Rect outer{all[0], all[1], all[3], all[4]}, inner{(*seat)[0], (*seat)[1], (*seat)[3], (*seat)[4]};
  for (const Side side : model.job.alcove.walls) {
    const bool end = *own == Side::back ? side != Side::front : side == Side::back || side == *own;
    const double inset = side == Side::back   ? outer.y1 - inner.y1
                         : side == Side::left ? inner.x0 - outer.x0
                                              : outer.x1 - inner.x1;
    if (end && !(higher && inset > units::tolerance::length_mm)) skirt.bare_walls.push_back(side);
  }
  return skirt;
}

}  // namespace fallwright::measure
