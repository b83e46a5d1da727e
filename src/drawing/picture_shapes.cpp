#include "drawing/picture_shapes.hpp"

#include <algorithm>
#include <cmath>

#include <BRepAlgoAPI_Cut.hxx>
#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <BRep_Builder.hxx>
#include <BRep_Tool.hxx>
#include <Geom_Plane.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Compound.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Wire.hxx>
#include <gp_Ax2.hxx>
#include <gp_Circ.hxx>
#include <gp_Pln.hxx>
#include <gp_Vec.hxx>

#include "brep/properties.hpp"
#include "drawing/picture_struck.hpp"
#include "drawing/site_shapes.hpp"
#include "drawing/warning.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::drawing {

using parts::Role;

bool bench_is_right(const job::Job& job) {
  return job.bench && job.bench->place == job::Side::right;
}

bool in_nearest_wall(const parts::Solid& solid, const job::Job& job) {
  return solid.part.family == facts::Family{Role::wall, bench_is_right(job) ? job::Side::left : job::Side::right};
}

namespace {

/// Of a base what can be seen from above: its top, its upstands and its outer sides; `all_sides`: as deep as they are,
/// where it has no ribs and no shell whose inner sides would show.
TopoDS_Shape base_from_above(const parts::Solid& solid, double rim, bool all_sides) {
  BRep_Builder builder;
  TopoDS_Compound compound;
  builder.MakeCompound(compound);
  for (TopExp_Explorer it{faces_looking_up(solid.shape), TopAbs_FACE}; it.More(); it.Next())
    builder.Add(compound, it.Current());
  for (TopExp_Explorer it{solid.shape, TopAbs_FACE}; it.More(); it.Next()) {
    const auto plane = Handle(Geom_Plane)::DownCast(BRep_Tool::Surface(TopoDS::Face(it.Current())));
    if (plane.IsNull() || std::abs(plane->Pln().Axis().Direction().Z()) > 1e-3) continue;
    const auto box = brep::box_of(it.Current());  // in a room out of square its faces stand along no axis
    if (box[5] - box[2] > 1 && (all_sides || box[5] > rim + 1)) builder.Add(compound, it.Current());
  }
  return compound;
}

/// A level sheet with the bore through it, where that falls within it.
TopoDS_Face sheet_with_bore(const Subject& s, const std::array<double, 6>& box, double z) {
  const gp_Pln plane{gp_Pnt{0, 0, z}, gp::DZ()};
  const TopoDS_Face sheet = BRepBuilderAPI_MakeFace{plane, box[0], box[3], box[1], box[4]};
  const double bore = s.job().drain.bore.in_mm() / 2;
  const auto& at = s.facts.room.drain.now_mm;
  const gp_Circ rim{gp_Ax2{gp_Pnt{at[0], at[1], z}, gp::DZ()}, bore};
  const double inside = std::min({at[0] - box[0], box[3] - at[0], at[1] - box[1], box[4] - at[1]});
  if (inside > bore) {
    const TopoDS_Wire hole = BRepBuilderAPI_MakeWire{BRepBuilderAPI_MakeEdge{rim}};
    return BRepBuilderAPI_MakeFace{sheet, TopoDS::Wire(hole.Reversed())};
  }
  const TopoDS_Face hole = BRepBuilderAPI_MakeFace{plane, BRepBuilderAPI_MakeWire{BRepBuilderAPI_MakeEdge{rim}}};
  const TopoDS_Shape cut = BRepAlgoAPI_Cut{sheet, hole};
  const TopExp_Explorer left{cut, TopAbs_FACE};
  return left.More() ? TopoDS::Face(left.Current()) : sheet;
}

/// What is laid on the floor: it is cut out at the bore once somebody knows where that comes.
TopoDS_Face laid_sheet(const Subject& s, const std::array<double, 6>& box, double z) {
  if (!bore_is_void(s)) return sheet_with_bore(s, box, z);
  return BRepBuilderAPI_MakeFace{gp_Pln{gp_Pnt{0, 0, z}, gp::DZ()}, box[0], box[3], box[1], box[4]};
}

/// The slab that a solid fills, bored: a surveyed floor is made of triangles, which are no joints, and nobody sees the
/// ribs' prints in the bed.
TopoDS_Shape plain_slab(const Subject& s, const std::array<double, 6>& box) {
  return BRepPrimAPI_MakePrism{sheet_with_bore(s, box, box[2]), gp_Vec{0, 0, box[5] - box[2]}};
}

/// The floor as a slab, before its bore or with it.
TopoDS_Shape floor_of(const Subject& s, std::array<double, 6> box, bool bored) {
  const double down = box[5] - drawn_floor_mm(s);
  box[2] -= down, box[5] -= down;
  return bored ? plain_slab(s, box)
               : BRepPrimAPI_MakeBox{gp_Pnt{box[0], box[1], box[2]}, gp_Pnt{box[3], box[4], box[5]}};
}

/// The bed rises between the ribs, where nobody sees it; as a slab it would come out through the falls.
std::array<double, 6> below_base(const Subject& s, std::array<double, 6> bed) {
  const double base = part(s.facts, Role::base).bbox_mm[2];
  if (base > bed[2]) bed[5] = std::min(bed[5], base);
  return bed;
}

TopoDS_Shape felt_of(const Subject& s) {
  return laid_sheet(s, part(s.facts, facts::Role::base).bbox_mm, drawn_floor_mm(s) + 1);
}

}  // namespace

std::vector<TopoDS_Shape> shapes_for(const Subject& s, const std::string& shows, bool bored) {
  std::vector<TopoDS_Shape> shapes;
  if (shows == "felt") return {felt_of(s)};
  if (shows == "threshold") return {rough_threshold_of(s)};
  if (shows == "form") return {form_of(s)};
  const job::Side nearest = bench_is_right(s.job()) ? job::Side::left : job::Side::right;
  if (shows == "board") return boards_of(s, nearest);
  if (shows == "liner") {
    std::array<double, 6> floor = part(s.facts, facts::Role::base).bbox_mm;
    if (const auto threshold = takeoff::threshold_of(s.job(), s.facts)) floor[1] += threshold->width_mm;
    shapes = liner_turned_up(s, nearest);
    shapes.emplace_back(laid_sheet(s, floor, liner_floor_mm(s)));
    return shapes;
  }
  for (const parts::Solid& solid : s.model.solids) {
    const auto& box = part(s.facts, solid.id).bbox_mm;
    if (shows == "floor" && solid.role == Role::subfloor) shapes.push_back(floor_of(s, box, bored));
    if (shows == "bed" && solid.role == Role::bed) shapes.push_back(plain_slab(s, below_base(s, box)));
    if (shows == "base" && solid.role == Role::base)
      shapes.push_back(base_from_above(solid, s.facts.heights.rim_greatest_mm, s.facts.site_built.has_value()));
    if ((shows == "walls" && solid.role == Role::wall && !in_nearest_wall(solid, s.job())) ||
        (shows == "bench" && solid.role == Role::bench_frame) || (shows == "drain" && solid.role == Role::drain) ||
        (shows == "seat" && solid.role == Role::seat_block))
      shapes.push_back(solid.shape);
  }
  return shapes;
}

View corner_view(const job::Job& job) {
  const double side = bench_is_right(job) ? -1 : 1;
  const gp_Dir toward{0.55 * side, -1, 0.75};
  return {toward, gp_Dir{1, 0.55 * side, 0}};
}

static std::vector<TopoDS_Shape> framing(const Subject& s, bool blocking) {
  return shapes_of(s.model, [&](const parts::Solid& solid) {
    return solid.role == Role::wall && (solid.part.kind == parts::Kind::blocking) == blocking &&
           !in_nearest_wall(solid, s.job());
  });
}

std::vector<TopoDS_Shape> standing_framing(const Subject& s) {
  return s.job().walls.existing ? framing(s, false) : std::vector<TopoDS_Shape>{};
}

std::vector<TopoDS_Shape> brought_by(const Subject& s, const std::string& shows, bool bored) {
  return shows == "walls" && s.job().walls.existing ? framing(s, true) : shapes_for(s, shows, bored);
}

Projection with_standing(const Projection& before, const Projection& brought) {
  if (before.lines.empty() && before.arcs.empty()) return brought;
  Projection both = as_kind(before, LineKind::existing);
  both.lines.insert(both.lines.end(), brought.lines.begin(), brought.lines.end());
  both.arcs.insert(both.arcs.end(), brought.arcs.begin(), brought.arcs.end());
  both.lines = tidy(both.lines);  // where dots lie on a full line it is full
  return both;
}

std::vector<TopoDS_Shape> before_boards(const Subject& s, std::vector<TopoDS_Shape> shapes) {
  for (const TopoDS_Shape& behind : behind_boards(s, bench_is_right(s.job()) ? job::Side::left : job::Side::right))
    for (TopoDS_Shape& shape : shapes) shape = BRepAlgoAPI_Cut{shape, behind};
  return shapes;
}

}  // namespace fallwright::drawing
