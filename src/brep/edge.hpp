/// What is read of edges again and again, as the kernel keeps it: every distance is measured on it, and handles that
/// are only looked at would cost more than all else. Inside `brep` only.
#pragma once

#include <cstddef>
#include <functional>
#include <memory_resource>
#include <unordered_map>

#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Iterator.hxx>
#include <TopoDS_Shape.hxx>
#include <TopoDS_TShape.hxx>
#include <gp_Pnt.hxx>

namespace fallwright::brep {

/// Which corner it is: the kernel may keep one for several places, as of a thing that was drawn along a way.
struct CornerKey {
  const TopoDS_TShape* kept = nullptr;
  int place = 0;
  bool operator==(const CornerKey&) const = default;
};
struct CornerKeyHash {
  std::size_t operator()(const CornerKey& key) const {
    return std::hash<const void*>{}(key.kept) ^ static_cast<std::size_t>(key.place);
  }
};

/// An edge is told as a corner is.
CornerKey key_of(const TopoDS_Edge& edge);

/// Where an edge begins and ends in its own sense. Two edges hang together where they have a corner in common.
struct Ends {
  CornerKey from, to;
  gp_Pnt at, until;
};
Ends ends_of(const TopoDS_Edge& edge);

/// A line, or an edge that has no length.
bool is_straight(const TopoDS_Edge& edge);

/// The edges of a solid, each read once, and how they are run along, over all of its faces.
class Runs {
 public:
  struct Run {
    Ends ends;  ///< in the sense in which it is run along here
    bool straight;
    bool first;  ///< it was not met before
  };
  Run along(const TopoDS_Edge& edge);

  /// Two faces at every edge, run along once in each sense, so that its shells close; and edges that end at their
  /// corners. (Parts of a solid that hang together along an edge alone have four faces there.)
  bool are_sound() const;

 private:
  struct Met {
    Ends ends;  ///< as the kernel keeps it, run along forward
    bool straight, degenerated;
    int sense = 0, times = 0;
  };
  std::pmr::monotonic_buffer_resource pool_;
  std::pmr::unordered_map<CornerKey, Met, CornerKeyHash> met_{&pool_};
  bool end_at_corners_ = true;
};

/// Every edge of a face, wire by wire.
template <class Visit>
void each_edge(const TopoDS_Shape& face, const Visit& visit) {
  for (TopoDS_Iterator wire{face}; wire.More(); wire.Next())
    for (TopoDS_Iterator edge{wire.Value()}; edge.More(); edge.Next())
      if (edge.Value().ShapeType() == TopAbs_EDGE) visit(TopoDS::Edge(edge.Value()));
}

}  // namespace fallwright::brep
