#include <algorithm>
#include <cmath>
#include <optional>

#include "brep/properties.hpp"
#include "brep/skin.hpp"
#include "measure/detail.hpp"
#include "measure/rim.hpp"
#include "measure/shapes.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using brep::Facet3;

/// The floor as triangles; the drain's opening, plugged, is what is left of its plan, level at the drain's top.
struct Basin {
  std::vector<Facet3> floor;
  double level_mm2 = 0, plan_mm2 = 0, drain_top = 0;
};

double plan_area_of(const Facet3& t) {
  return std::abs((t[1].X() - t[0].X()) * (t[2].Y() - t[0].Y()) - (t[2].X() - t[0].X()) * (t[1].Y() - t[0].Y())) / 2;
}

Basin basin_of(const parts::Model& model) {
  Basin basin;
  const survey::Polygon drain = Rim{*model.first(parts::Role::drain)}.corners();
  std::vector<survey::Point> points{drain.begin(), drain.end()};
  basin.drain_top = parts::box_of(*model.first(parts::Role::drain))[5];
  for (const parts::Facet& facet : model.first(parts::Role::base)->facets) {
    if (facet.surface != facts::Surface::base_floor) continue;
    for (const gp_Pnt& p : corners(facet.face)) points.push_back({p.X(), p.Y()});
    const brep::Flat flat = brep::flat_of(facet.face);
    for (const brep::Facet3& t : brep::triangles_of(flat)) basin.floor.push_back(t);
  }
  basin.plan_mm2 = area_of(hull(std::move(points)));
  basin.level_mm2 = basin.plan_mm2;
  for (const Facet3& t : basin.floor) basin.level_mm2 -= plan_area_of(t);
  return basin;
}

/// Water over one triangle up to a level: what of it lies below is a polygon over which depth runs evenly.
std::pair<double, double> water_over(const Facet3& t, double level) {
  std::vector<gp_Pnt> wet;
  for (std::size_t i = 0; i < 3; ++i) {
    const gp_Pnt &p = t[i], &q = t[(i + 1) % 3];
    const double at_p = level - p.Z(), at_q = level - q.Z();
    if (at_p >= 0) wet.push_back(p);
    if ((at_p < 0) != (at_q < 0)) wet.emplace_back(p.XYZ() + at_p / (at_p - at_q) * (q.XYZ() - p.XYZ()));
  }
  double volume = 0, area = 0;
  for (std::size_t i = 1; i + 1 < wet.size(); ++i) {
    const Facet3 piece{wet[0], wet[i], wet[i + 1]};
    const double a = plan_area_of(piece);
    area += a;
    volume += a * (level - (piece[0].Z() + piece[1].Z() + piece[2].Z()) / 3);
  }
  return {volume, area};
}

facts::Dip dip_at(const Basin& basin, double above_drain) {
  const double level = basin.drain_top + above_drain;
  facts::Dip dip{above_drain, basin.level_mm2 * above_drain, basin.level_mm2};
  for (const Facet3& t : basin.floor) {
    const auto [volume, area] = water_over(t, level);
    dip.volume_mm3 += volume;
    dip.surface_mm2 += area;
  }
  dip.volume_mm3 = std::max(0.0, dip.volume_mm3);  // up to an edge below the drain's top there is none
  return dip;
}

/// Where rising water leaves first. An edge over which the wall's waterproofing laps holds as high as that.
double lowest_edge(const facts::Facts& facts) {
  std::optional<double> lowest;
  for (const facts::Edge& edge : facts.edges)
    if (!edge.lapped) lowest = std::min(lowest.value_or(edge.top_mm), edge.top_mm);
  return lowest.value_or(facts.heights.rim_least_mm);
}

}  // namespace

facts::Flood measure_flood(const parts::Model& model, const facts::Facts& facts) {
  const Basin basin = basin_of(model);
  facts::Flood flood;
  flood.plan_mm2 = basin.plan_mm2;
  const double spill = lowest_edge(facts);
  for (const facts::Edge& edge : facts.edges)
    if (!edge.lapped && edge.top_mm < spill + units::tolerance::length_mm) flood.over.push_back(edge.side);
  const double top = std::max(0.0, spill - basin.drain_top);
  const double step = facts::flood_step_mm(model.job.is_metric());
  for (double h = step; h < top - units::tolerance::length_mm; h += step) flood.dips.push_back(dip_at(basin, h));
  flood.dips.push_back(dip_at(basin, top));
  constexpr int steps_behind_a_dam = 24;  // 6 in, 120 mm
  for (int i = 0; i <= steps_behind_a_dam; ++i) flood.dammed.push_back(dip_at(basin, top + i * step));
  const auto& finish = model.job.base.threshold.finish;
  if (finish && facts.heights.threshold_least_mm)
    flood.rough =
        dip_at(basin, std::max(0.0, *facts.heights.threshold_least_mm - finish->in_mm() - facts.heights.drain_top_mm));
  return flood;
}

}  // namespace fallwright::measure
