#include "parts/stick.hpp"

#include <cmath>

#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <gp_Ax3.hxx>
#include <gp_Trsf.hxx>

#include "brep/plan.hpp"

namespace fallwright::parts {
namespace {

using brep::Corner;
using brep::Loop;
using brep::PlanPoint;

/// Thickens an open path of corners at right angles into a bent sheet: out along its outer side, back along the inner,
/// every bend with the sheet's inside radius. `path` runs along the outer faces, material to its left.
Loop bent_sheet(const std::vector<PlanPoint>& path, double thickness, double radius) {
  Loop outer, inner;
  const std::size_t n = path.size();
  for (std::size_t i = 0; i < n; ++i) {
    const auto unit = [&](std::size_t from) {
      const double dx = path[from + 1].x - path[from].x, dy = path[from + 1].y - path[from].y, l = std::hypot(dx, dy);
      return PlanPoint{dx / l, dy / l};
    };
    if (i == 0 || i + 1 == n) {
      const PlanPoint d = unit(i == 0 ? 0 : n - 2);
      outer.push_back({path[i]});
      inner.push_back({{path[i].x - d.y * thickness, path[i].y + d.x * thickness}});
      continue;
    }
    const PlanPoint in = unit(i - 1), out = unit(i);
    const double around = radius + thickness;
    const PlanPoint centre{path[i].x - (in.x - out.x) * around, path[i].y - (in.y - out.y) * around};
    const auto at = [&](PlanPoint d, double r) { return PlanPoint{centre.x + d.y * r, centre.y - d.x * r}; };
    outer.push_back({at(in, around), centre, false});
    outer.push_back({at(out, around)});
    inner.push_back({at(in, radius), centre, false});
    inner.push_back({at(out, radius)});
  }
  const Loop back = brep::reversed(inner);
  // `reversed` closes a loop; of its edges only those between the inner corners are wanted, the ends are square.
  Loop sheet = outer;
  for (std::size_t i = 0; i < back.size(); ++i) sheet.push_back(back[i]);
  return sheet;
}

Solid as_solid(const PartId& part, const job::Stock& stock, const TopoDS_Solid& shape, const gp_Dir& axis) {
  Solid solid{part, material_of(stock), density_of(stock), shape};
  solid.cut = Cut{stock.name, stock.is_steel(), false, axis, stock.is_steel() ? 0 : stock.thickness.in_mm()};
  return solid;
}

}  // namespace

Loop section(const job::Stock& stock) {
  const double t = stock.thickness.in_mm(), depth = stock.depth.in_mm(), flange = stock.flange.in_mm();
  if (!stock.is_steel()) return brep::rectangle(0, 0, t, depth);
  if (stock.kind == job::StockKind::steel_track) {
    const double outside = outside_depth_mm(stock);
    return bent_sheet({{flange, outside}, {0, outside}, {0, 0}, {flange, 0}}, t, stock.radius.in_mm());
  }
  const double lip = stock.lip.in_mm();
  return bent_sheet({{flange, depth - lip}, {flange, depth}, {0, depth}, {0, 0}, {flange, 0}, {flange, lip}}, t,
                    stock.radius.in_mm());
}

double outside_depth_mm(const job::Stock& stock) {
  const double sheets = stock.kind == job::StockKind::steel_track ? 2 * stock.thickness.in_mm() : 0;
  return stock.depth.in_mm() + sheets;
}

Solid Sticks::make(const PartId& part, const job::Stock& stock, double length_mm, const Lie& lie) {
  TopoDS_Solid& prototype = prototypes_[{part.family.role, stock.name, length_mm}];
  if (prototype.IsNull()) {
    const Loop loop = section(stock);
    prototype = brep::between({{{loop}, {length_mm}}}, {{{loop}, {0}}}, text_of(part)).solid;
  }
  gp_Trsf place;
  place.SetTransformation(gp_Ax3{lie.corner, lie.length, lie.a}, gp_Ax3{});
  return as_solid(part, stock, TopoDS::Solid(prototype.Located(TopLoc_Location{place})), lie.length);
}

Solid make_post(const PartId& part, const job::Stock& stock, const PlanPoint& corner, const gp_Dir& a,
                const brep::Plane& bottom, const brep::Plane& top) {
  Loop loop = section(stock);
  const auto place = [&](PlanPoint p) {  // a, and b = up x a
    return PlanPoint{corner.x + p.x * a.X() - p.y * a.Y(), corner.y + p.x * a.Y() + p.y * a.X()};
  };
  for (Corner& c : loop) {
    c.at = place(c.at);
    if (c.centre) c.centre = place(*c.centre);
  }
  return as_solid(part, stock, brep::between({{{loop}, top}}, {{{loop}, bottom}}, text_of(part)).solid, gp::DZ());
}

Solid make_leaning_post(const PartId& part, const job::Stock& stock, const Lie& lie, const brep::Plane& bottom,
                        const brep::Plane& top) {
  gp_Trsf place, back;
  place.SetTransformation(gp_Ax3{lie.corner, lie.length, lie.a}, gp_Ax3{});
  back = place.Inverted();
  // In the stick's own frame it stands upright, and the planes tilt instead.
  const auto own = [&](const brep::Plane& p) {
    const gp_Dir normal = gp_Dir{-p.gx, -p.gy, 1}.Transformed(back);
    return brep::plane_at(gp_Pnt{0, 0, p.z0}.Transformed(back), normal);
  };
  const Loop loop = section(stock);
  Solid solid = as_solid(part, stock, brep::between({{{loop}, own(top)}}, {{{loop}, own(bottom)}}, text_of(part)).solid,
                         gp::DZ());
  solid.shape = TopoDS::Solid(solid.shape.Located(TopLoc_Location{place}));
  solid.cut->axis = lie.length;
  return solid;
}

Solid make_board(const PartId& part, const job::Stock& stock, const brep::Relief& bottom, const brep::Relief& top,
                 const gp_Dir& axis) {
  return as_solid(part, stock, brep::between(top, bottom, text_of(part)).solid, axis);
}

const char* material_of(const job::Stock& stock) {
  return stock.is_steel() ? "steel" : "timber";
}

/// Kiln-dried softwood framing about 450 kg/m3: common practice, no source. Steel 7850 kg/m3: from memory.
double density_of(const job::Stock& stock) {
  return stock.is_steel() ? 7850 : 450;
}

}  // namespace fallwright::parts
