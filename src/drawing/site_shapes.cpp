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

/// A sheet over a seat: up the bench's front from `low`, over the seat as it slopes, and up the wall behind it and
/// those at its ends to `top`.
std::vector<TopoDS_Shape> over_seat(const Subject& s, job::Side nearest, double low, double top) {
  const auto& seat = part(s.facts, Role::seat_block).bbox_mm;
  const job::Side place = s.job().bench->place;
  const double front_z = s.facts.heights.seat_front_mm.value_or(top) + off_mm,
               back_z = s.facts.heights.seat_back_mm.value_or(top) + off_mm;
  const bool back = place == job::Side::back, left = place == job::Side::left;
  // Two lines along the bench, and the way from one of its ends to the other, left to right as one faces its wall.
  const double front = back   ? seat[1] - off_mm
                       : left ? seat[3] + off_mm
                              : seat[0] - off_mm,
               behind = back   ? seat[4] - off_mm
                        : left ? seat[0] + off_mm
                               : seat[3] - off_mm,
               ends[] = {back   ? seat[0]
                         : left ? seat[1]
                                : seat[4],
                         back   ? seat[3]
                         : left ? seat[4]
                                : seat[1]};
  const auto at = [&](double across, double along, double z) {
    return back ? gp_Pnt{along, across, z} : gp_Pnt{across, along, z};
  };
  const job::Side end_walls[] = {back || !left ? (back ? job::Side::left : job::Side::back) : job::Side::front,
                                 back   ? job::Side::right
                                 : left ? job::Side::back
                                        : job::Side::front};
  std::vector<TopoDS_Shape> shapes;
  const auto add = [&](const std::vector<gp_Pnt>& corners) {
    BRepBuilderAPI_MakePolygon wire;
    for (const gp_Pnt& corner : corners) wire.Add(corner);
    wire.Close();
    shapes.push_back(BRepBuilderAPI_MakeFace{wire.Wire()}.Face());
  };
  add({at(front, ends[0], low), at(front, ends[1], low), at(front, ends[1], front_z), at(front, ends[0], front_z)});
  add({at(front, ends[0], front_z), at(front, ends[1], front_z), at(behind, ends[1], back_z),
       at(behind, ends[0], back_z)});
  const auto has_wall = [&](job::Side side) {
    return side != nearest && side != job::Side::front && s.job().alcove.has_wall(side);
  };
  if (has_wall(place))
    add({at(behind, ends[0], back_z), at(behind, ends[1], back_z), at(behind, ends[1], top), at(behind, ends[0], top)});
  for (const int end : {0, 1})
    if (const double along = ends[end] + (ends[end] < ends[1 - end] ? off_mm : -off_mm); has_wall(end_walls[end]))
      add({at(front, along, front_z), at(behind, along, back_z), at(behind, along, top), at(front, along, top)});
  return shapes;
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
    if (m.runs == facts::Runs::form) top = std::max(top, m.bed_mm);
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
  const auto seat_top = takeoff::liner_over_seat_mm(s.job(), s.facts);
  std::vector<TopoDS_Shape> shapes;
  if (seat_top) shapes = over_seat(s, nearest, low, *seat_top);
  for (const job::Side side : {job::Side::back, job::Side::left, job::Side::right}) {
    const bool at_bench = s.job().bench && s.job().bench->place == side;
    if (side != nearest && (at_bench ? !seat_top : s.job().alcove.has_wall(side)))
      shapes.push_back(along(base, side, off_mm, low, top));
  }
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
    if (side == nearest || high <= low + off_mm) continue;
    // Over a bench it hangs on the wall behind that, its foot on the seat.
    const bool behind = s.job().bench && s.job().bench->place == side;
    shapes.push_back(behind ? along(part(s.facts, Role::seat_block).bbox_mm, side, 2 * off_mm,
                                    s.facts.heights.seat_back_mm.value_or(low) + off_mm, high)
                            : along(base, side, 2 * off_mm, low, high));
  }
  return shapes;
}

std::vector<TopoDS_Shape> behind_boards(const Subject& s, job::Side nearest) {
  constexpr double far = 1e4;  // past any room
  const auto& base = part(s.facts, Role::base).bbox_mm;
  const double x0 = base[0] + 2 * off_mm, x1 = base[3] - 2 * off_mm, y1 = base[4] - 2 * off_mm;
  std::vector<TopoDS_Shape> boxes;
  for (const job::Side side : {job::Side::back, job::Side::left, job::Side::right}) {
    const bool bench = s.job().bench && s.job().bench->place == side;
    if (side == nearest || bench || !s.job().alcove.has_wall(side)) continue;
    const gp_Pnt low{side == job::Side::right ? x1 : -far, side == job::Side::back ? y1 : -far, -far},
        high{side == job::Side::left ? x0 : far, far, far};
    boxes.push_back(BRepPrimAPI_MakeBox{low, high});
  }
  return boxes;
}

}  // namespace fallwright::drawing
