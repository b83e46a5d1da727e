#include <algorithm>
#include <cmath>
#include <limits>

#include <BRep_Tool.hxx>
#include <Geom_CylindricalSurface.hxx>
#include <gp_Cylinder.hxx>

#include "brep/properties.hpp"
#include "measure/detail.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using Box = std::array<double, 6>;

struct Span {
  double least = std::numeric_limits<double>::max(), greatest = -least;
  bool any = false;
  void add(double v) { least = std::min(least, v), greatest = std::max(greatest, v), any = true; }
};

Span heights_of(const parts::Solid& solid, const std::string& surface) {
  Span span;
  for (const parts::Facet& facet : solid.facets)
    if (facet.surface == surface)
      for (const gp_Pnt& p : corners(facet.face)) span.add(p.Z());
  return span;
}

/// Corners of the floor away from the drain: where it meets upstands and threshold.
Span rim_of(const parts::Solid& base, const Box& drain) {
  Span span;
  for (const parts::Facet& facet : base.facets) {
    if (facet.surface != "base-floor") continue;
    for (const gp_Pnt& p : corners(facet.face))
      if (p.X() < drain[0] - 1 || p.X() > drain[3] + 1 || p.Y() < drain[1] - 1 || p.Y() > drain[4] + 1) span.add(p.Z());
  }
  return span;
}

/// Level faces of the base that look up and carry no water, above its rim: the tops of its upstands.
Span upstands_of(const parts::Solid& base, double rim) {
  Span span;
  for (const TopoDS_Face& face : faces_of(base.shape)) {
    const auto normal = outward(face);
    if (!normal || normal->Z() < 1 - units::tolerance::ratio) continue;
    const bool carries =
        std::any_of(base.facets.begin(), base.facets.end(), [&](const parts::Facet& f) { return f.face.IsSame(face); });
    const double z = corners(face).front().Z();
    if (!carries && z > rim) span.add(z);
  }
  return span;
}

/// Inside face of a wall: the framing's nearest plane toward the alcove.
std::optional<double> inside_face(const facts::Facts& facts, const std::string& wall, int index, bool greatest) {
  std::optional<double> face;
  for (const facts::Part& part : facts.parts) {
    if (part.role != "wall" || part.id.rfind(wall + "/", 0) != 0) continue;
    const double at = part.bbox_mm[static_cast<std::size_t>(index)];
    face = !face ? at : greatest ? std::max(*face, at) : std::min(*face, at);
  }
  return face;
}

double size_of(const facts::Facts& facts, const std::string& role, int axis) {
  Span span;
  for (const facts::Part& part : facts.parts)
    if (part.role == role)
      span.add(part.bbox_mm[static_cast<std::size_t>(axis)]),
          span.add(part.bbox_mm[static_cast<std::size_t>(axis) + 3]);
  return span.greatest - span.least;
}

void measure_openings(const parts::Model& model, facts::Facts& facts) {
  const auto add = [&](const char* axis, int index, double opening, bool with_bench) {
    facts::Opening o{axis, opening, size_of(facts, "base", index), {}, 0};
    if (with_bench) o.bench_mm = size_of(facts, "bench-frame", index);
    o.left_over_mm = o.alcove_mm - o.base_mm - o.bench_mm.value_or(0);
    facts.openings.push_back(std::move(o));
  };
  const job::Job& job = model.job;
  const bool back_bench = job.bench && job.bench->place == job::BenchPlace::back;
  const double left = inside_face(facts, "wall-left", 3, true).value_or(0);
  const double right = inside_face(facts, "wall-right", 0, false).value_or(job.alcove.width.in_mm());
  add("width", 0, right - left, job.bench && !back_bench);
  add("depth", 1, inside_face(facts, "wall-back", 1, false).value_or(job.alcove.depth.in_mm()), back_bench);
}

/// Axis and radius of the widest upright cylinder among a solid's faces.
std::optional<gp_Cylinder> widest_cylinder(const TopoDS_Shape& solid, bool below_only, double below) {
  std::optional<gp_Cylinder> widest;
  for (const TopoDS_Face& face : faces_of(solid)) {
    const auto cylinder = Handle(Geom_CylindricalSurface)::DownCast(BRep_Tool::Surface(face));
    if (cylinder.IsNull() || (below_only && brep::box_of(face)[2] > below)) continue;
    if (!widest || cylinder->Radius() > widest->Radius()) widest = cylinder->Cylinder();
  }
  return widest;
}

}  // namespace

void measure_heights(const parts::Model& model, facts::Facts& facts) {
  const parts::Solid& base = *model.first(parts::Role::base);
  const Box drain = brep::box_of(model.first(parts::Role::drain)->shape);
  facts::Heights& h = facts.heights;
  h.drain_top_mm = drain[5];
  h.rib_plane_mm = brep::box_of(base.shape)[2];
  const Span rim = rim_of(base, drain);
  h.rim_least_mm = rim.least;
  h.rim_greatest_mm = rim.greatest;
  if (const Span top = heights_of(base, "threshold"); top.any)
    h.threshold_least_mm = top.least, h.threshold_greatest_mm = top.greatest;
  if (const Span top = upstands_of(base, rim.greatest); top.any) h.upstand_top_mm = top.least;
  if (const parts::Solid* block = model.first(parts::Role::seat_block)) {
    const Span seat = heights_of(*block, "seat");
    h.seat_front_mm = seat.least, h.seat_back_mm = seat.greatest;
  }
  measure_openings(model, facts);
}

facts::DrainFit measure_drain(const parts::Model& model) {
  const parts::Solid &drain = *model.first(parts::Role::drain), &subfloor = *model.first(parts::Role::subfloor);
  const double floor_top = brep::box_of(subfloor.shape)[5];
  const auto body = widest_cylinder(drain.shape, true, floor_top), bore = widest_cylinder(subfloor.shape, false, 0);
  facts::DrainFit fit;
  if (!body || !bore) return fit;
  const gp_Pnt at = bore->Location(), centre = body->Location();
  fit.body_to_bore_mm = bore->Radius() - body->Radius() - std::hypot(at.X() - centre.X(), at.Y() - centre.Y());
  for (const parts::Solid& joist : model.solids) {
    if (joist.role != parts::Role::joist) continue;
    const Box b = brep::box_of(joist.shape);
    // Distance of the bore's centre to the joist in plan; negative inside it, by the way out.
    const double dx = std::max(b[0] - at.X(), at.X() - b[3]), dy = std::max(b[1] - at.Y(), at.Y() - b[4]);
    const double away = dx <= 0 && dy <= 0 ? std::max(dx, dy) : std::hypot(std::max(dx, 0.0), std::max(dy, 0.0));
    const double gap = away - bore->Radius();
    if (fit.bore_to_joist_mm && gap >= *fit.bore_to_joist_mm) continue;
    fit.bore_to_joist_mm = gap;
    fit.nearest_joist = joist.id;
  }
  return fit;
}

}  // namespace fallwright::measure
