#include <algorithm>
#include <cmath>
#include <limits>

#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <gp_Ax1.hxx>
#include <gp_Trsf.hxx>

#include "brep/guard.hpp"
#include "brep/properties.hpp"
#include "job/validate.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/shapes.hpp"
#include "survey/floor.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

/// The floor's outline, from its facets and the drain that fills its opening.
survey::Rect floor_of(const parts::Model& model) {
  survey::Rect r = *plan_of(model, parts::Role::drain);
  for (const parts::Facet& facet : model.first(parts::Role::base)->facets) {
    if (facet.surface != facts::Surface::base_floor) continue;
    const auto b = brep::box_of(facet.face);
    r = {std::min(r.x0, b[0]), std::min(r.y0, b[1]), std::max(r.x1, b[3]), std::max(r.y1, b[4])};
  }
  return r;
}

/// The rim's own height: the floor's facets are the upper envelope of their planes.
double rim_at(const parts::Solid& base, survey::Point p) {
  double z = std::numeric_limits<double>::lowest();
  for (const parts::Facet& facet : base.facets) {
    const auto n = outward(facet.face);
    if (facet.surface != facts::Surface::base_floor || !n) continue;
    const gp_Pnt o = corners(facet.face).front();
    z = std::max(z, o.Z() - (n->X() * (p.x - o.X()) + n->Y() * (p.y - o.Y())) / n->Z());
  }
  return z;
}

/// The threshold's top on its outer edge; it falls inward from there as one plane.
double threshold_edge(const parts::Solid& base) {
  double z = std::numeric_limits<double>::lowest();
  for (const parts::Facet& facet : base.facets)
    if (facet.surface == facts::Surface::threshold)
      for (const gp_Pnt& corner : corners(facet.face)) z = std::max(z, corner.Z());
  return z;
}

double designed_height(const job::RimReading& reading, const parts::Model& model, survey::Point p) {
  const parts::Solid& base = *model.first(parts::Role::base);
  if (reading.on == job::ReadOn::rim) return rim_at(base, p);
  if (reading.on == job::ReadOn::threshold) return threshold_edge(base);
  facts::Facts level;
  measure_heights(model, level);
  return level.heights.upstand_top_mm.value_or(rim_at(base, p));
}

/// Carries a level plane into one that rises by gx along x and gy along y, about a level axis.
gp_Trsf tilt_of(double gx, double gy) {
  gp_Trsf tilt;
  const gp_Vec normal{-gx, -gy, 1}, axis = gp_Vec{0, 0, 1}.Crossed(normal);
  if (axis.Magnitude() > 0) tilt.SetRotation(gp_Ax1{gp::Origin(), gp_Dir{axis}}, std::atan(std::hypot(gx, gy)));
  return tilt;
}

/// What is left under the apron's foot. Less than nothing: the base stands higher than the foot.
void measure_apron(const facts::Lying& lying, const survey::HeightPlane& moved, facts::AsSet& found) {
  for (const facts::Point& end : lying.below_apron) {
    const double gap = *lying.apron_foot_mm - end[2] - moved.at(end[0], end[1]);
    found.apron_least_mm = std::min(found.apron_least_mm.value_or(gap), gap);
    found.apron_greatest_mm = std::max(found.apron_greatest_mm.value_or(gap), gap);
  }
}

gp_Pnt point_of(const facts::Point& p) {
  return {p[0], p[1], p[2]};
}

/// How high the drain came to lie, from a level line of known height. @param moved how far each place of the base lies
/// above where it was designed.
void measure_drain_height(const facts::Lying& lying, const survey::HeightPlane& moved, const gp_Trsf& tilt,
                          facts::AsSet& found) {
  const gp_Pnt top = point_of(lying.drain_top), low{top.X(), top.Y(), lying.drain_low_mm};
  found.raised_mm = moved.at(top.X(), top.Y());
  found.drain_body_mm = top.Z() + *found.raised_mm - (top.Transformed(tilt).Z() - low.Transformed(tilt).Z());
}

/// Threshold and upstands as the base lies, above the drain's top at its centre, where the tilt leaves the drain's own
/// middle.
void measure_tilted_heights(const facts::Lying& lying, const gp_Trsf& tilt, facts::AsSet& found) {
  const auto height = [&](const facts::Point& p) { return point_of(p).Transformed(tilt).Z(); };
  const double top = height(lying.drain_top);
  for (const facts::Point& corner : lying.threshold) {
    const double z = height(corner) - top;
    found.threshold_least_mm = std::min(found.threshold_least_mm.value_or(z), z);
    found.threshold_greatest_mm = std::max(found.threshold_greatest_mm.value_or(z), z);
  }
  if (found.threshold_least_mm)
    for (const facts::Point& edge : lying.open_edges)
      found.threshold_least_mm = std::min(*found.threshold_least_mm, height(edge) - top);
  for (const facts::Point& corner : lying.upstands) {
    const double z = height(corner) - top;
    found.upstand_least_mm = std::min(found.upstand_least_mm.value_or(z), z);
  }
}

facts::Point plain(const gp_Pnt& p) {
  return {p.X(), p.Y(), p.Z()};
}

/// Corners of threshold, open edges and upstands' tops, and the drain's middle.
void find_corners(const parts::Model& model, facts::Lying& lying) {
  const parts::Solid& base = *model.first(parts::Role::base);
  const auto drain = parts::box_of(*model.first(parts::Role::drain));
  lying.drain_top = {(drain[0] + drain[3]) / 2, (drain[1] + drain[4]) / 2, drain[5]};
  lying.drain_low_mm = drain[2];
  for (const parts::Facet& facet : base.facets)
    if (facet.surface == facts::Surface::threshold)
      for (const gp_Pnt& corner : corners(facet.face)) lying.threshold.push_back(plain(corner));
  for (const gp_Pnt& edge : tops_of_open_edges(model)) lying.open_edges.push_back(plain(edge));
  facts::Facts level;
  measure_heights(model, level);
  for (const gp_Pnt& corner : parts::corners_of(base))
    if (level.heights.upstand_top_mm && corner.Z() >= *level.heights.upstand_top_mm - units::tolerance::length_mm)
      lying.upstands.push_back(plain(corner));
}

/// Every place that a rule can be held to; whether this base has it is the job's to say.
std::vector<job::RimReading> all_places() {
  using P = job::RimPoint;
  std::vector<job::RimReading> all;
  for (const job::ReadOn on : {job::ReadOn::rim, job::ReadOn::upstands})
    for (const P point : job::all_rim_points) all.push_back({point, {}, on});
  for (const P point : {P::front_left, P::front, P::front_right}) all.push_back({point, {}, job::ReadOn::threshold});
  return all;
}

}  // namespace

std::vector<facts::Facet> tilted_falls(const parts::Model& model, double gx, double gy) {
  return brep::guarded("base", [&] {
    const TopLoc_Location place{tilt_of(gx, gy)};
    parts::Solid solid = *model.first(parts::Role::base);
    solid.shape = TopoDS::Solid(solid.shape.Moved(place));
    for (parts::Facet& facet : solid.facets) facet.face = TopoDS::Face(facet.face.Moved(place));
    return facets_of(solid);
  });
}

facts::Lying measure_lying(const parts::Model& model) {
  return brep::guarded("base", [&] {
    facts::Lying lying;
    const survey::Rect floor = floor_of(model), all = *plan_of(model, parts::Role::base);
    lying.length_mm = all.width(), lying.width_mm = all.depth();
    for (const job::RimReading& place : all_places()) {
      if (!job::can_be_read(place, model.job.base)) continue;
      const survey::Point p = job::place_of(place, floor, all);
      lying.places.push_back({job::name_of(place), p.x, p.y, designed_height(place, model, p)});
    }
    find_corners(model, lying);
    for (const gp_Pnt& p : edge_below_apron(model)) lying.below_apron.push_back(plain(p));
    if (!lying.below_apron.empty()) lying.apron_foot_mm = parts::box_of(*model.first(parts::Role::seat_block))[2];
    lying.beds = thinnest_beds(model);
    return lying;
  });
}

facts::AsSet measure_as_set(const parts::Model& model, const job::AsSet& set) {
  return set.readings.empty() ? facts::AsSet{} : measure_as_set(model, measure_lying(model), set);
}

facts::AsSet measure_as_set(const parts::Model& model, const facts::Lying& lying, const job::AsSet& set) {
  facts::AsSet found;
  if (set.readings.empty()) return found;
  const survey::Rect floor = floor_of(model), all = *plan_of(model, parts::Role::base);
  std::vector<survey::Spot> spots;
  for (const job::RimReading& r : set.readings) {
    const survey::Point p = job::place_of(r, floor, all);
    spots.push_back({p.x, p.y,
                     set.line.value_or(units::Length{}).in_mm() + (set.down ? -1 : 1) * r.value.in_mm() -
                         designed_height(r, model, p)});
  }
  const survey::HeightPlane plane = survey::best_plane(spots);
  double lowest = std::numeric_limits<double>::max(), plane_lowest = lowest;
  for (const survey::Spot& s : spots) {
    lowest = std::min(lowest, s.z), plane_lowest = std::min(plane_lowest, plane.at(s.x, s.y));
    found.twist_mm = std::max(found.twist_mm, std::abs(s.z - plane.at(s.x, s.y)));
  }
  for (std::size_t i = 0; i < spots.size(); ++i)
    found.points.push_back({job::name_of(set.readings[i]), spots[i].x, spots[i].y, spots[i].z - lowest,
                            plane.at(spots[i].x, spots[i].y) - plane_lowest});
  found.read = true;
  found.gx = plane.gx, found.gy = plane.gy;
  found.over_length_mm = plane.gx * all.width(), found.over_width_mm = plane.gy * all.depth();
  for (const facts::Facet& f : tilted_falls(model, plane.gx, plane.gy))
    found.falls.push_back({f.surface, f.facet, f.fall, f.fall * f.flow[1]});
  const gp_Trsf tilt = tilt_of(plane.gx, plane.gy);
  measure_tilted_heights(lying, tilt, found);
  if (!set.line) return found;
  measure_drain_height(lying, plane, tilt, found);
  measure_apron(lying, plane, found);
  found.beds = lying.beds;
  return found;
}

}  // namespace fallwright::measure
