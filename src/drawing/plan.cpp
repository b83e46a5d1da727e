#include <algorithm>
#include <cmath>

#include <BRep_Builder.hxx>
#include <BRep_Tool.hxx>
#include <Geom_Plane.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Compound.hxx>
#include <gp_Pln.hxx>

#include "drawing/views.hpp"
#include "units/fall.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

/// From above a ribbed base shows its top alone; leaving its underside out spares the view hundreds of hidden faces.
TopoDS_Compound top_faces(const TopoDS_Shape& solid) {
  BRep_Builder builder;
  TopoDS_Compound compound;
  builder.MakeCompound(compound);
  for (TopExp_Explorer it{solid, TopAbs_FACE}; it.More(); it.Next()) {
    const auto plane = Handle(Geom_Plane)::DownCast(BRep_Tool::Surface(TopoDS::Face(it.Current())));
    if (plane.IsNull()) continue;
    const double up = plane->Pln().Axis().Direction().Z() * (it.Current().Orientation() == TopAbs_REVERSED ? -1 : 1);
    if (up > 0.5) builder.Add(compound, it.Current());
  }
  return compound;
}

bool stands_in_plan(const parts::Solid& solid) {
  if (solid.role == Role::seat_block || solid.role == Role::drain) return true;
  const bool high = solid.id.find("top-plate") != std::string::npos || solid.id.find("blocking") != std::string::npos;
  return solid.role == Role::wall && !high;
}

const facts::Part& part(const facts::Facts& facts, const std::string& id) {
  return *std::find_if(facts.parts.begin(), facts.parts.end(), [&](const facts::Part& p) { return p.id == id; });
}

/// An arrow along the fall in the middle of a facet, no longer than its run allows, with the fall beside it.
void add_fall(Pen& pen, const facts::Facet& facet, bool metric) {
  const double t = pen.text_mm(), length = std::min(6 * t, 0.6 * facet.run_mm);
  if (length < t) return;  // a strip too narrow for an arrow and a number; it is in the report
  const double mx = (facet.low_mm[0] + facet.high_mm[0]) / 2, my = (facet.low_mm[1] + facet.high_mm[1]) / 2;
  const double fx = facet.flow[0] * length / 2, fy = facet.flow[1] * length / 2;
  pen.arrow({mx - fx, my - fy}, {mx + fx, my + fy});
  const std::string words = units::to_text(units::Fall::ratio(facet.fall), metric);
  if (std::abs(facet.flow[1]) > 0.5)
    pen.note({mx + 0.8 * t, my - 0.4 * t}, words, Anchor::left, 0.8);
  else
    // On a short run the label makes way for the drain: it stands a little up the fall.
    pen.note({mx - (facet.run_mm < 14 * t ? facet.flow[0] * t : 0), my + 0.6 * t}, words, Anchor::middle, 0.8);
}

/// Facet arrows start from the facets' middles, which the corners average well enough for a label.
facts::Facet centred(facts::Facet facet, const std::vector<Point>& corners) {
  Point sum;
  for (const Point& p : corners) sum.x += p.x, sum.y += p.y;
  const double n = static_cast<double>(corners.size());
  facet.low_mm = facet.high_mm = {sum.x / n, sum.y / n, 0};
  return facet;
}

std::vector<Point> corners_of(const TopoDS_Shape& face) {
  std::vector<Point> points;
  for (TopExp_Explorer it{face, TopAbs_VERTEX}; it.More(); it.Next()) {
    const gp_Pnt p = BRep_Tool::Pnt(TopoDS::Vertex(it.Current()));
    points.push_back({p.X(), p.Y()});
  }
  return points;
}

void add_falls(Pen& pen, const parts::Model& model, const facts::Facts& facts, bool metric) {
  std::size_t i = 0;
  for (const parts::Solid& solid : model.solids)
    for (const parts::Facet& facet : solid.facets)
      add_fall(pen, centred(facts.facets[i++], corners_of(facet.face)), metric);
}

void add_dimensions(Pen& pen, const parts::Model& model, const facts::Facts& facts) {
  const auto& base = part(facts, "base").bbox_mm;
  const auto& drain = part(facts, "drain").bbox_mm;
  const double width = model.job.alcove.width.in_mm(), depth = model.job.alcove.depth.in_mm();
  const double wall = model.job.walls.stock.depth.in_mm(), t = pen.text_mm();
  const double dx = (drain[0] + drain[3]) / 2, dy = (drain[1] + drain[4]) / 2;
  const double front = std::min(0.0, base[1]);
  pen.across({0, front}, {dx, front}, front - 3 * t);
  pen.across({dx, front}, {width, front}, front - 3 * t);
  double row = front - 6 * t;
  if (base[0] > 1 && base[0] < width - 1) pen.across({0, front}, {base[0], front}, row);
  pen.across({base[0], front}, {base[3], front}, row);
  if (base[3] < width - 1) pen.across({base[3], front}, {width, front}, row);
  pen.across({0, front}, {width, front}, row - 3 * t);
  const double side = -wall - 3 * t;
  pen.upright({-wall, 0}, {-wall, dy}, side);
  pen.upright({-wall, dy}, {-wall, depth}, side);
  pen.upright({-wall, 0}, {-wall, depth}, side - 8 * t);
  const double half = 4 * t;
  pen.line({dx - half, dy}, {dx + half, dy}, LineKind::centre);
  pen.line({dx, dy - half}, {dx, dy + half}, LineKind::centre);
}

}  // namespace

Sheet draw_plan(const parts::Model& model, const facts::Facts& facts) {
  Sheet sheet{"plan", "Set-out plan", model.job.unit == job::UnitSystem::metric, {}, {}, {}, {}};
  Pen pen{sheet, model.job.alcove.width.in_mm() / 75};
  std::vector<TopoDS_Shape> shapes = shapes_of(model, stands_in_plan);
  shapes.push_back(top_faces(model.first(Role::base)->shape));
  pen.add(project(shapes, {gp::DZ(), gp::DX()}, false));
  const double dx = (part(facts, "drain").bbox_mm[0] + part(facts, "drain").bbox_mm[3]) / 2;
  const double dy = (part(facts, "drain").bbox_mm[1] + part(facts, "drain").bbox_mm[4]) / 2;
  sheet.arcs.push_back({{dx, dy}, model.job.drain.bore.in_mm() / 2, 0, 360, LineKind::hidden});
  add_falls(pen, model, facts, sheet.metric);
  add_dimensions(pen, model, facts);
  add_title(sheet, pen, model.job,
            {"Seen from above, entry at the bottom. Lengths from stud faces; the dashed circle is the bore in the "
             "subfloor."});
  return sheet;
}

}  // namespace fallwright::drawing
