/// Vertices, edges and faces over plan points, each made once and shared. Inside `brep` only.
#pragma once

#include <vector>

#include <BRep_Builder.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Shell.hxx>
#include <TopoDS_Vertex.hxx>
#include <TopoDS_Wire.hxx>

#include "brep/arrangement.hpp"

namespace fallwright::brep {

/// A corner in space: a plan point and one of the heights that occur over it.
struct Level {
  int point = 0;
  int level = 0;  ///< index into the point's heights, lowest first
};

class ShellBuilder {
 public:
  explicit ShellBuilder(const PlanPoints& points);

  /// First pass: tells that some face has a corner at this height over this point.
  void note(int point, double z);
  /// Between the passes: sorts the heights and makes near ones one.
  void settle();
  Level level_of(int point, double z) const;
  double height(Level at) const { return heights_[at.point][at.level]; }

  /// A face over `loops` in `plane`; its normal points up, or down where `down` is set.
  TopoDS_Face add_region(const std::vector<EdgeLoop>& loops, const Plane& plane, bool down);
  /// The upright face over a plan edge between two planes, outward to the edge's right.
  void add_wall(const HalfEdge& edge, const Plane& low, const Plane& high);

  TopoDS_Shell shell() const { return shell_; }

 private:
  TopoDS_Vertex vertex(Level at);
  /// The one between two vertices, the earlier first; null where nobody made it yet.
  TopoDS_Edge& between(int a, int b, int bend);
  TopoDS_Edge upright(int point, int lower_level);
  TopoDS_Edge rail(const HalfEdge& edge, const Plane& plane);
  TopoDS_Edge straight(Level from, Level to);
  TopoDS_Edge arc(const HalfEdge& canonical, const Plane& plane, Level from, Level to);
  void add_uprights(TopoDS_Wire& wire, int point, double z_from, double z_to);
  void add_flat_wall(const HalfEdge& edge, const TopoDS_Wire& wire);
  void add_round_wall(const HalfEdge& edge, const TopoDS_Wire& wire, const Plane& low, const Plane& high);

  const PlanPoints& points_;
  std::vector<std::vector<double>> heights_;
  std::vector<int> first_vertex_;  ///< of each point in `vertices_`
  std::vector<TopoDS_Vertex> vertices_;
  struct Made {
    int to, bend;
    TopoDS_Edge edge;
  };
  std::vector<boost::container::small_vector<Made, 4>> edges_;  ///< of each vertex to those after it
  BRep_Builder builder_;
  TopoDS_Shell shell_;
};

}  // namespace fallwright::brep
