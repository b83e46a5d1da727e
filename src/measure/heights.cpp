#include <algorithm>
#include <cmath>
#include <limits>

#include <BRep_Tool.hxx>
#include <Geom_CylindricalSurface.hxx>
#include <gp_Cylinder.hxx>

#include "brep/properties.hpp"
#include "measure/alcove.hpp"
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

/// How far a wall's framing comes in, between the floor and a height, along what stands before it.
double inside_face(const Framing& framing, job::Side side, const survey::Rect& before, double high, double otherwise) {
  Box3 box;
  box.high[2] = high;
  const bool back = side == job::Side::back;
  (back ? box.low[0] : box.low[1]) = back ? before.x0 : before.y0;
  (back ? box.high[0] : box.high[1]) = back ? before.x1 : before.y1;
  const gp_Dir inward = side == job::Side::left    ? gp::DX()
                        : side == job::Side::right ? gp_Dir{-1, 0, 0}
                                                   : gp_Dir{0, -1, 0};
  const auto far = framing.reach(std::string{"wall-"} + job::name_of(side), inward, box);
  return !far ? otherwise : side == job::Side::left ? *far : -*far;
}

}  // namespace

void measure_openings(const parts::Model& model, facts::Facts& facts) {
  const job::Job& job = model.job;
  const survey::Rect base = *plan_of(model, parts::Role::base);
  const auto bench = plan_of(model, parts::Role::bench_frame);
  const auto add = [&](bool across, double opening, bool with_bench) {
    const auto size = [&](const survey::Rect& plan) { return across ? plan.width() : plan.depth(); };
    facts::Opening o{across ? "width" : "depth", opening, size(base), {}, 0};
    if (with_bench) o.bench_mm = size(*bench);
    o.left_over_mm = o.alcove_mm - o.base_mm - o.bench_mm.value_or(0);
    facts.openings.push_back(std::move(o));
  };
  const Framing framing{model};
  const double base_top = facts.heights.upstand_top_mm.value_or(facts.heights.rim_greatest_mm);
  const double bench_top = bench ? job.bench->height.in_mm() : 0;
  const auto face = [&](job::Side side, double otherwise) {
    const job::BenchPlace place = job.bench ? job.bench->place : job::BenchPlace::back;
    const bool at_bench = bench && ((side == job::Side::left && place == job::BenchPlace::left_end) ||
                                    (side == job::Side::right && place == job::BenchPlace::right_end) ||
                                    (side == job::Side::back && place == job::BenchPlace::back));
    return inside_face(framing, side, at_bench ? *bench : base, at_bench ? bench_top : base_top, otherwise);
  };
  const bool back_bench = bench && job.bench->place == job::BenchPlace::back;
  add(true, face(job::Side::right, job.alcove.width.in_mm()) - face(job::Side::left, 0), bench && !back_bench);
  add(false, face(job::Side::back, job.alcove.depth.in_mm()), back_bench);
}

std::optional<gp_Cylinder> widest_cylinder(const TopoDS_Shape& solid, double below) {
  std::optional<gp_Cylinder> widest;
  for (const TopoDS_Face& face : faces_of(solid)) {
    const auto cylinder = Handle(Geom_CylindricalSurface)::DownCast(BRep_Tool::Surface(face));
    if (cylinder.IsNull() || brep::box_of(face)[2] > below) continue;
    if (!widest || cylinder->Radius() > widest->Radius()) widest = cylinder->Cylinder();
  }
  return widest;
}

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
  if (const auto& finish = model.job.floor.finish_outside) {
    // A hand's breadth in front of base and entry, at the middle.
    constexpr double before_mm = 25;
    const auto plan = *plan_of(model, parts::Role::base);
    const Surface floor{model.first(parts::Role::subfloor)->shape, true};
    h.outside_mm = floor.carried_on((plan.x0 + plan.x1) / 2, std::min(0.0, plan.y0) - before_mm) + finish->in_mm();
  }
}

facts::DrainFit measure_drain(const parts::Model& model) {
  const parts::Solid &drain = *model.first(parts::Role::drain), &subfloor = *model.first(parts::Role::subfloor);
  const double floor_top = brep::box_of(subfloor.shape)[5];
  const auto body = widest_cylinder(drain.shape, floor_top), bore = widest_cylinder(subfloor.shape);
  facts::DrainFit fit;
  for (const TopoDS_Face& face : faces_of(drain.shape)) {
    const auto wall = Handle(Geom_CylindricalSurface)::DownCast(BRep_Tool::Surface(face));
    if (!wall.IsNull() && (!fit.outlet_mm || 2 * wall->Radius() < *fit.outlet_mm)) fit.outlet_mm = 2 * wall->Radius();
  }
  if (!body || !bore) return fit;
  const gp_Pnt at = bore->Location(), centre = body->Location();
  if (const auto hole = widest_cylinder(model.first(parts::Role::bed)->shape))
    fit.body_to_bed_mm = hole->Radius() - body->Radius() +
                         std::hypot(hole->Location().X() - centre.X(), hole->Location().Y() - centre.Y());
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
