/// What is read of edges again and again, as the kernel keeps it: every distance is measured on it, and handles that
/// are only looked at would cost more than all else. Inside `brep` only.
#pragma once

#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Iterator.hxx>
#include <TopoDS_Shape.hxx>
#include <TopoDS_TShape.hxx>
#include <gp_Pnt.hxx>

namespace fallwright::brep {

/// Where an edge begins and ends in its own sense. Two edges hang together where they have a corner in common.
struct Ends {
  const TopoDS_TShape *from = nullptr, *to = nullptr;
  gp_Pnt at, until;
};
Ends ends_of(const TopoDS_Edge& edge);

/// A line, or an edge that has no length.
bool is_straight(const TopoDS_Edge& edge);

/// Every edge of a face, wire by wire.
template <class Visit>
void each_edge(const TopoDS_Shape& face, const Visit& visit) {
  for (TopoDS_Iterator wire{face}; wire.More(); wire.Next())
    for (TopoDS_Iterator edge{wire.Value()}; edge.More(); edge.Next())
      if (edge.Value().ShapeType() == TopAbs_EDGE) visit(TopoDS::Edge(edge.Value()));
}

}  // namespace fallwright::brep
