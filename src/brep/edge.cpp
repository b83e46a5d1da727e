#include "brep/edge.hpp"

#include <limits>

#include <BRep_ListIteratorOfListOfCurveRepresentation.hxx>
#include <BRep_TEdge.hxx>
#include <BRep_TVertex.hxx>
#include <Geom_Line.hxx>
#include <TopAbs.hxx>
#include <TopLoc_Location.hxx>

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

bool is_straight(const TopoDS_Edge& edge) {
  const auto& curves = static_cast<const BRep_TEdge*>(edge.TShape().get())->Curves();
  for (BRep_ListIteratorOfListOfCurveRepresentation it{curves}; it.More(); it.Next())
    if (it.Value()->IsCurve3D())
      return it.Value()->Curve3D().IsNull() || it.Value()->Curve3D()->IsKind(STANDARD_TYPE(Geom_Line));
  return true;
}

}  // namespace fallwright::brep
