#include "brep/edge.hpp"

#include <algorithm>
#include <limits>
#include <utility>

#include <BRep_ListIteratorOfListOfCurveRepresentation.hxx>
#include <BRep_TEdge.hxx>
#include <BRep_TVertex.hxx>
#include <BRep_Tool.hxx>
#include <Geom_Line.hxx>
#include <TopAbs.hxx>
#include <TopLoc_Location.hxx>

#include "units/tolerance.hpp"

namespace fallwright::brep {
namespace {

/// Reads where a corner of an edge lies, and tells which one it is.
CornerKey read_corner(const TopoDS_Shape& vertex, const TopLoc_Location& edge, gp_Pnt& at) {
  const TopLoc_Location place = vertex.Location().IsIdentity() ? edge : edge * vertex.Location();
  at = static_cast<const BRep_TVertex*>(vertex.TShape().get())->Pnt();
  if (place.IsIdentity()) return {vertex.TShape().get()};
  at.Transform(place.Transformation());
  return {vertex.TShape().get(), place.HashCode(std::numeric_limits<int>::max())};
}

}  // namespace

CornerKey key_of(const TopoDS_Edge& edge) {
  const bool moved = !edge.Location().IsIdentity();
  return {edge.TShape().get(), moved ? edge.Location().HashCode(std::numeric_limits<int>::max()) : 0};
}

Ends ends_of(const TopoDS_Edge& edge) {
  Ends ends;
  for (TopoDS_Iterator it{edge, /*cumOri=*/false, /*cumLoc=*/false}; it.More(); it.Next()) {
    const TopoDS_Shape& vertex = it.Value();
    const TopAbs_Orientation sense = TopAbs::Compose(edge.Orientation(), vertex.Orientation());
    if (sense == TopAbs_FORWARD)
      ends.from = read_corner(vertex, edge.Location(), ends.at);
    else if (sense == TopAbs_REVERSED)
      ends.to = read_corner(vertex, edge.Location(), ends.until);
  }
  return ends;
}

namespace {

/// Where its curve begins and ends are its corners.
bool ends_at_its_corners(const TopoDS_Edge& edge, const Ends& ends) {
  TopLoc_Location place;
  double first = 0, last = 0;
  const Handle(Geom_Curve)& curve = BRep_Tool::Curve(edge, place, first, last);
  if (curve.IsNull() || !ends.from.kept || !ends.to.kept || first >= last) return false;
  gp_Pnt begin = curve->Value(first), end = curve->Value(last);
  if (!place.IsIdentity()) begin.Transform(place.Transformation()), end.Transform(place.Transformation());
  if (edge.Orientation() == TopAbs_REVERSED) std::swap(begin, end);
  const auto near = [](const CornerKey& corner) {
    return static_cast<const BRep_TVertex*>(corner.kept)->Tolerance() + units::tolerance::weld_mm;
  };
  return begin.Distance(ends.at) <= near(ends.from) && end.Distance(ends.until) <= near(ends.to);
}

}  // namespace

Runs::Run Runs::along(const TopoDS_Edge& edge) {
  const bool reversed = edge.Orientation() == TopAbs_REVERSED;
  const auto [at, first] = met_.try_emplace(key_of(edge));
  Met& met = at->second;
  if (first) {
    const TopoDS_Edge forward = TopoDS::Edge(edge.Oriented(TopAbs_FORWARD));
    met.ends = ends_of(forward), met.straight = is_straight(edge), met.degenerated = BRep_Tool::Degenerated(edge);
    if (!met.degenerated) end_at_corners_ = end_at_corners_ && ends_at_its_corners(forward, met.ends);
  }
  met.sense += reversed ? -1 : 1, ++met.times;
  const Ends& e = met.ends;
  return {reversed ? Ends{e.to, e.from, e.until, e.at} : e, met.straight, first};
}

bool Runs::are_sound() const {
  return end_at_corners_ && std::all_of(met_.begin(), met_.end(), [](const auto& edge) {
           const Met& met = edge.second;
           return met.sense == 0 && (met.times == 2 || met.degenerated);
         });
}

bool is_straight(const TopoDS_Edge& edge) {
  const auto& curves = static_cast<const BRep_TEdge*>(edge.TShape().get())->Curves();
  for (BRep_ListIteratorOfListOfCurveRepresentation it{curves}; it.More(); it.Next())
    if (it.Value()->IsCurve3D())
      return it.Value()->Curve3D().IsNull() || it.Value()->Curve3D()->IsKind(STANDARD_TYPE(Geom_Line));
  return true;
}

}  // namespace fallwright::brep
