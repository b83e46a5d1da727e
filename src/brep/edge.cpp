#include "brep/edge.hpp"

#include <BRep_ListIteratorOfListOfCurveRepresentation.hxx>
#include <BRep_TEdge.hxx>
#include <BRep_TVertex.hxx>
#include <Geom_Line.hxx>
#include <TopAbs.hxx>
#include <TopLoc_Location.hxx>

namespace fallwright::brep {
namespace {

gp_Pnt point_of(const TopoDS_Shape& vertex, const TopLoc_Location& edge) {
  const gp_Pnt& kept = static_cast<const BRep_TVertex*>(vertex.TShape().get())->Pnt();
  const TopLoc_Location place = vertex.Location().IsIdentity() ? edge : edge * vertex.Location();
  return place.IsIdentity() ? kept : kept.Transformed(place.Transformation());
}

}  // namespace

Ends ends_of(const TopoDS_Edge& edge) {
  Ends ends;
  for (TopoDS_Iterator it{edge, /*cumOri=*/false, /*cumLoc=*/false}; it.More(); it.Next()) {
    const TopoDS_Shape& vertex = it.Value();
    const TopAbs_Orientation sense = TopAbs::Compose(edge.Orientation(), vertex.Orientation());
    if (sense == TopAbs_FORWARD)
      ends.from = vertex.TShape().get(), ends.at = point_of(vertex, edge.Location());
    else if (sense == TopAbs_REVERSED)
      ends.to = vertex.TShape().get(), ends.until = point_of(vertex, edge.Location());
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
