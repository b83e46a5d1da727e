#include "drawing/site_shapes.hpp"

#include <algorithm>
#include <array>

#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakePolygon.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Face.hxx>
#include <gp_Pnt.hxx>
#include <gp_Vec.hxx>

#include "takeoff/takeoff.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

/// So far before what it lies on a sheet is drawn: it has no thickness.
constexpr double off_mm = 3;

/// What stands upright over a line, from one height to another; it faces what lies right of the line, from above.
TopoDS_Shape upright(const gp_Pnt& from, const gp_Pnt& to, double high) {
  return BRepPrimAPI_MakePrism{BRepBuilderAPI_MakeEdge{from, to}.Edge(), gp_Vec{0, 0, high - from.Z()}};
}

/// Over the floor's edge along a side, `off` within it.
TopoDS_Shape along(const std::array<double, 6>& base, job::Side side, double off, double low, double high) {
  const double x0 = base[0] + off, x1 = base[3] - off, y1 = base[4] - off;
  if (side == job::Side::back) return upright({x1, y1, low}, {x0, y1, low}, high);
  const gp_Pnt front{side == job::Side::left ? x0 : x1, base[1] + off, low}, back{front.X(), y1, low};
  return side == job::Side::left ? upright(back, front, high) : upright(front, back, high);
}

}  // namespace

TopoDS_Shape rough_threshold_of(const Subject& s) {
  const auto threshold = takeoff::threshold_of(s.job(), s.facts);
  const auto &base = part(s.facts, facts::Role::base).bbox_mm, &bed = part(s.facts, facts::Role::bed).bbox_mm;
  const double laid = threshold->laid_on_mm.value_or(0), front = base[1] + laid,
               inner = base[1] + threshold->width_mm - laid, foot = bed[2];
  const gp_Pnt corners[]{{base[0], front, foot},
                         {base[0], inner, foot},
                         {base[0], inner, threshold->inner_mm - laid},
                         {base[0], front, threshold->outer_mm - laid}};
  BRepBuilderAPI_MakePolygon side;
  for (const gp_Pnt& corner : corners) side.Add(corner);
  side.Close();
  return BRepPrimAPI_MakePrism{BRepBuilderAPI_MakeFace{side.Wire()}.Face(), gp_Vec{base[3] - base[0], 0, 0}};
}

TopoDS_Shape form_of(const Subject& s) {
  constexpr double thick_mm = 19;  // a board; how thick does not matter
  const auto &base = part(s.facts, Role::base).bbox_mm, &bed = part(s.facts, Role::bed).bbox_mm;
  double top = bed[2] + 1;
  for (const facts::ScreedMark& m : s.facts.site_built->marks)
    if (m.line == "form at the entry") top = std::max(top, m.bed_mm);
  return BRepPrimAPI_MakeBox{gp_Pnt{base[0], base[1] - thick_mm, bed[2]}, gp_Pnt{base[3], base[1] - 0.5, top}};
}

double liner_floor_mm(const Subject& s) {
  return part(s.facts, Role::bed).bbox_mm[5] + off_mm;
}

std::vector<TopoDS_Shape> liner_turned_up(const Subject& s, job::Side nearest) {
  constexpr double unsaid_mm = 75;  // over the top coat, as in the section
  const auto& base = part(s.facts, Role::base).bbox_mm;
  const double low = liner_floor_mm(s),
               top = takeoff::liner_top_mm(s.job(), s.facts).value_or(s.facts.heights.rim_greatest_mm + unsaid_mm);
  std::vector<TopoDS_Shape> shapes;
  for (const job::Side side : {job::Side::back, job::Side::left, job::Side::right})
    if (side != nearest && (s.job().alcove.has_wall(side) || (s.job().bench && s.job().bench->place == side)))
      shapes.push_back(along(base, side, off_mm, low, top));
  const auto threshold = takeoff::threshold_of(s.job(), s.facts);
  if (!threshold) return shapes;
  const double inner = base[1] + threshold->width_mm, outer = base[1];
  BRepBuilderAPI_MakePolygon over;
  for (const gp_Pnt& corner : {gp_Pnt{base[0], inner, low}, gp_Pnt{base[0], inner, threshold->inner_mm + off_mm},
                               gp_Pnt{base[0], outer, threshold->outer_mm + off_mm}, gp_Pnt{base[0], outer, low}})
    over.Add(corner);
  shapes.push_back(BRepPrimAPI_MakePrism{over.Wire(), gp_Vec{base[3] - base[0], 0, 0}});
  return shapes;
}

std::vector<TopoDS_Shape> boards_of(const Subject& s, job::Side nearest) {
  const auto& base = part(s.facts, Role::base).bbox_mm;
  const bool liner = over_liner(s);
  const double low = (liner ? s.facts.heights.rim_greatest_mm : part(s.facts, Role::bed).bbox_mm[5]) + off_mm;
  std::vector<TopoDS_Shape> shapes;
  for (const job::Side side : {job::Side::back, job::Side::left, job::Side::right}) {
    double high = low;
    for (const parts::Solid& solid : s.model.solids)
      if (solid.part.family == facts::Family{Role::wall, side})
        high = std::max(high, part(s.facts, solid.id).bbox_mm[5]);
    if (side != nearest && high > low + off_mm) shapes.push_back(along(base, side, 2 * off_mm, low, high));
  }
  return shapes;
}

}  // namespace fallwright::drawing
