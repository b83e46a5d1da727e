#include <algorithm>
#include <cmath>
#include <limits>

#include <BRep_Tool.hxx>
#include <Geom_CylindricalSurface.hxx>
#include <gp_Cylinder.hxx>

#include "brep/properties.hpp"
#include "facts/furring.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/rim.hpp"
#include "measure/shapes.hpp"
#include "measure/wall_faces.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using Box = std::array<double, 6>;

struct Span {
  double least = std::numeric_limits<double>::max(), greatest = -least;
  bool any = false;
  void add(double v) { least = std::min(least, v), greatest = std::max(greatest, v), any = true; }
};

Span heights_of(const parts::Solid& solid, facts::Surface surface) {
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
    if (facet.surface != facts::Surface::base_floor) continue;
    for (const gp_Pnt& p : corners(facet.face))
      if (p.X() < drain[0] - 1 || p.X() > drain[3] + 1 || p.Y() < drain[1] - 1 || p.Y() > drain[4] + 1) span.add(p.Z());
  }
  return span;
}

/// The floor's lowest corner along the threshold's inner edge, which need not be square to the room; nothing where a
/// channel takes all of that.
std::optional<double> floor_at_threshold(const parts::Solid& base) {
  constexpr double near_mm = 0.1;
  std::vector<survey::Point> outline;
  for (const parts::Facet& facet : base.facets)
    if (facet.surface == facts::Surface::threshold)
      for (const gp_Pnt& p : corners(facet.face)) outline.push_back({p.X(), p.Y()});
  if (outline.empty()) return std::nullopt;
  const Rim threshold{outline};
  Span floor;
  for (const parts::Facet& facet : base.facets)
    if (facet.surface == facts::Surface::base_floor)
      for (const gp_Pnt& p : corners(facet.face))
        if (threshold.on(p, job::Side::back, near_mm)) floor.add(p.Z());
  return floor.any ? std::optional{floor.least} : std::nullopt;
}

/// Level faces of the base that look up and carry no water, above its rim: the tops of its upstands.
Span upstands_of(const parts::Solid& base, double rim) {
  Span span;
  const auto skin = parts::skin_of(base);
  for (const brep::Flat& flat : skin->flats) {
    if (flat.normal.Z() < 1 - units::tolerance::ratio) continue;
    const bool carries = std::any_of(base.facets.begin(), base.facets.end(),
                                     [&](const parts::Facet& f) { return f.face.IsSame(flat.face); });
    const double z = flat.rings.front().front().Z();
    if (!carries && z > rim + units::tolerance::length_mm) span.add(z);
  }
  return span;
}

/// What stands before a side's wall, and up to which height: the bench on its own side, else the base.
struct Before {
  survey::Rect plan;
  double high;
};

Before before_wall(const parts::Model& model, const facts::Heights& heights, job::Side side) {
  const auto bench = plan_of(model, parts::Role::bench_frame);
  if (bench && side == model.job.bench->place) return {*bench, model.job.bench->height.in_mm()};
  return {*plan_of(model, parts::Role::base), heights.upstand_top_mm.value_or(heights.rim_greatest_mm)};
}

/// A wall's framing between the floor and a height, along what stands before it.
std::vector<gp_Pnt> points_of_wall(const Framing& framing, job::Side side, const Before& before, double beyond) {
  Box3 box;
  box.high[2] = before.high;
  const bool back = side == job::Side::back;
  (back ? box.low[0] : box.low[1]) = (back ? before.plan.x0 : before.plan.y0) - beyond;
  (back ? box.high[0] : box.high[1]) = (back ? before.plan.x1 : before.plan.y1) + beyond;
  return points_within(framing.of({parts::Role::wall, side}), box);
}

/// How far a wall comes in; `otherwise` where there is none.
double inside_face(const parts::Model& model, const Framing& framing, const facts::Heights& heights, job::Side side,
                   double otherwise) {
  const auto points = points_of_wall(framing, side, before_wall(model, heights, side), 0);
  if (points.empty()) return otherwise;
  double face = side == job::Side::left ? std::numeric_limits<double>::lowest() : std::numeric_limits<double>::max();
  for (const gp_Pnt& p : points)
    face = side == job::Side::left    ? std::max(face, p.X())
           : side == job::Side::right ? std::min(face, p.X())
                                      : std::min(face, p.Y());
  return face;
}

/// Of what an opening leaves over: before the base at the entry, or between it and a side without a wall.
double where_no_wall_stands(const job::Job& job, const survey::Rect& base, bool across) {
  if (!across) return base.y0;
  double open = 0;
  if (!job.alcove.has_wall(job::Side::left)) open += base.x0;
  if (!job.alcove.has_wall(job::Side::right)) open += job.alcove.width.in_mm() - base.x1;
  return open;
}

}  // namespace

void measure_openings(const parts::Model& model, const Framing& framing, facts::Facts& facts) {
  const job::Job& job = model.job;
  const survey::Rect base = *plan_of(model, parts::Role::base);
  const auto bench = plan_of(model, parts::Role::bench_frame);
  const auto add = [&](bool across, double opening, bool with_bench) {
    const auto size = [&](const survey::Rect& plan) { return across ? plan.width() : plan.depth(); };
    facts::Opening o{across ? facts::Axis::width : facts::Axis::depth, opening, size(base), {}};
    if (with_bench) o.bench_mm = size(*bench);
    o.left_over_mm = o.alcove_mm - o.base_mm - o.bench_mm.value_or(0);
    o.open_mm = std::clamp(where_no_wall_stands(job, base, across), 0.0, std::max(0.0, o.left_over_mm));
    facts.openings.push_back(std::move(o));
  };
  const auto face = [&](job::Side side, double otherwise) {
    return inside_face(model, framing, facts.heights, side, otherwise);
  };
  const bool back_bench = bench && job.bench->place == job::Side::back;
  add(true, face(job::Side::right, job.alcove.width.in_mm()) - face(job::Side::left, 0), bench && !back_bench);
  add(false, face(job::Side::back, job.alcove.depth.in_mm()), back_bench);
}

Faces faces_of_opening(const parts::Model& model, const facts::Heights& heights, double beyond_mm) {
  const Framing framing{model};
  Faces faces;
  for (const auto& [side, found] : {std::pair{job::Side::left, &faces.left}, {job::Side::right, &faces.right}})
    for (const gp_Pnt& p : points_of_wall(framing, side, before_wall(model, heights, side), beyond_mm))
      found->push_back({p.X(), p.Y(), p.Z(), false});
  return faces;
}

std::optional<gp_Cylinder> widest_cylinder(const parts::Solid& solid, double below) {
  std::optional<gp_Cylinder> widest;
  const auto skin = parts::skin_of(solid);
  for (const brep::Round& round : skin->rounds) {
    const auto cylinder = Handle(Geom_CylindricalSurface)::DownCast(BRep_Tool::Surface(round.face));
    if (cylinder.IsNull() || round.box[2] > below) continue;
    if (!widest || cylinder->Radius() > widest->Radius()) widest = cylinder->Cylinder();
  }
  return widest;
}

void measure_heights(const parts::Model& model, facts::Facts& facts) {
  const parts::Solid& base = *model.first(parts::Role::base);
  const Box drain = parts::box_of(*model.first(parts::Role::drain));
  facts::Heights& h = facts.heights;
  h.drain_top_mm = drain[5];
  h.rib_plane_mm = parts::box_of(base)[2];
  const Span rim = rim_of(base, drain);
  h.rim_least_mm = rim.least;
  h.rim_greatest_mm = rim.greatest;
  if (const Span top = heights_of(base, facts::Surface::threshold); top.any)
    h.threshold_least_mm = top.least, h.threshold_greatest_mm = top.greatest;
  h.floor_at_threshold_mm = floor_at_threshold(base);
  if (const Span top = upstands_of(base, rim.greatest); top.any) h.upstand_top_mm = top.least;
  if (const parts::Solid* block = model.first(parts::Role::seat_block)) {
    const Span seat = heights_of(*block, facts::Surface::seat);
    h.seat_front_mm = seat.least, h.seat_back_mm = seat.greatest;
  }
  h.outside = bath_floor_before(model, job::Side::front);
}

facts::Levels subfloor_before(const parts::Model& model, job::Side side) {
  constexpr double before_mm = 25;
  const auto plan = *plan_of(model, parts::Role::base);
  const Surface floor{*model.first(parts::Role::subfloor), true};
  const bool along_x = side == job::Side::front || side == job::Side::back;
  const double line = side == job::Side::front  ? std::min(0.0, plan.y0) - before_mm
                      : side == job::Side::back ? plan.y1 + before_mm
                      : side == job::Side::left ? plan.x0 - before_mm
                                                : plan.x1 + before_mm;
  const auto [least, greatest] =
      floor.range_along(along_x, line, along_x ? plan.x0 : plan.y0, along_x ? plan.x1 : plan.y1);
  return {least, greatest};
}

std::optional<facts::Levels> bath_floor_before(const parts::Model& model, job::Side side) {
  const auto& finish = model.job.floor.finish_outside;
  if (!finish) return std::nullopt;
  const auto [least, greatest] = subfloor_before(model, side);
  return facts::Levels{least + finish->in_mm(), greatest + finish->in_mm()};
}

namespace {

/// So high over the drain the walls are looked at: a forearm, with which its grate is lifted out.
constexpr double over_drain_mm = 300;

/// How far a convex plan reaches along a way.
double farthest(const survey::Polygon& plan, const WallFace& out) {
  double most = std::numeric_limits<double>::lowest();
  for (const survey::Point& p : plan) most = std::max(most, -out.nx * p.x - out.ny * p.y);
  return most;
}

/// The drain's opening, toward a wall: its top face, whose round edge has no corners.
double opening_toward(const parts::Solid& drain, double top, const WallFace& wall) {
  double most = std::numeric_limits<double>::lowest();
  for (const TopoDS_Face& face : faces_of(drain.shape)) {
    const Box b = brep::box_of(face);
    if (b[2] < top - units::tolerance::length_mm) continue;
    std::vector<survey::Point> points;
    for (const gp_Pnt& p : corners(face)) points.push_back({p.X(), p.Y()});
    const survey::Polygon plan = hull(points);
    const double round = (b[3] - b[0] - wall.nx * (b[0] + b[3]) - wall.ny * (b[1] + b[4])) / 2;
    most = std::max(most, plan.size() > 3 ? farthest(plan, wall) : round);
  }
  return most;
}

std::vector<facts::BeforeFinish> before_finish(const parts::Model& model, const Framing& furred,
                                               const facts::Facts& facts) {
  using job::Side;
  const parts::Solid &drain = *model.first(parts::Role::drain), &base = *model.first(parts::Role::base);
  const job::Drain& told = model.job.drain;
  const double top = facts.heights.drain_top_mm, build_up = model.job.survey.finish_mm.value_or(0);
  const bool from_rim_to_rim = told.kind == job::DrainKind::line && told.channel_length.is_zero(),
             along_width = told.channel_direction == job::Direction::along_width;
  std::vector<facts::BeforeFinish> found;
  for (const WallFace& wall : wall_faces(model, furred, top, top + over_drain_mm, build_up)) {
    double reach = wall.reach_mm;
    // What is framed before studs that stand too far back comes to stand at the base's edge.
    if (facts::wall_waits(facts.room.studs, wall.side))
      reach = std::max(reach, build_up - farthest(Rim{base}.corners(), wall));
    const double along = std::abs(wall.side == Side::back ? wall.ny : wall.nx);
    found.push_back({wall.side, (-opening_toward(drain, top, wall) - reach) / along,
                     from_rim_to_rim && along_width == (wall.side != Side::back)});
  }
  return found;
}

}  // namespace

facts::DrainFit measure_drain(const parts::Model& model, const Framing& furred, const facts::Facts& facts) {
  const parts::Solid &drain = *model.first(parts::Role::drain), &subfloor = *model.first(parts::Role::subfloor);
  // The body is what hangs lowest, in the bore or, below a thick bed, still above the floor.
  const double lowest = parts::box_of(drain)[2] + units::tolerance::length_mm;
  const auto body = widest_cylinder(drain, lowest), bore = widest_cylinder(subfloor);
  facts::DrainFit fit;
  fit.before_finish = before_finish(model, furred, facts);
  for (const TopoDS_Face& face : faces_of(drain.shape)) {
    const auto wall = Handle(Geom_CylindricalSurface)::DownCast(BRep_Tool::Surface(face));
    if (!wall.IsNull() && (!fit.outlet_mm || 2 * wall->Radius() < *fit.outlet_mm)) fit.outlet_mm = 2 * wall->Radius();
  }
  if (!body || !bore) return fit;
  const gp_Pnt at = bore->Location(), centre = body->Location();
  if (const auto hole = widest_cylinder(*model.first(parts::Role::bed)))
    fit.body_to_bed_mm = hole->Radius() - body->Radius() +
                         std::hypot(hole->Location().X() - centre.X(), hole->Location().Y() - centre.Y());
  fit.body_to_bore_mm = bore->Radius() - body->Radius() - std::hypot(at.X() - centre.X(), at.Y() - centre.Y());
  for (const parts::Solid& joist : model.solids) {
    if (joist.role != parts::Role::joist) continue;
    const Box b = parts::box_of(joist);
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
