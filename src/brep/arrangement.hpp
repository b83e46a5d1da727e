/// Reliefs as half-edges over welded plan points: what lies next to what.
#pragma once

#include <cstdint>
#include <optional>
#include <unordered_map>
#include <vector>

#include <boost/container/small_vector.hpp>

#include "brep/relief.hpp"

namespace fallwright::brep {

/// Plan points, equal ones (within the weld tolerance) under one number.
class PlanPoints {
 public:
  int add(PlanPoint p);
  PlanPoint operator[](int i) const { return points_[static_cast<std::size_t>(i)]; }
  int size() const { return static_cast<int>(points_.size()); }

 private:
  std::vector<PlanPoint> points_;
  std::unordered_map<std::int64_t, boost::container::small_vector<int, 4>> cells_;
};

/// One directed edge of a loop; its region lies to the left.
struct HalfEdge {
  int from = 0, to = 0;
  std::optional<PlanPoint> centre = {};
  bool clockwise = false;
};

/// Tells edges apart by ends and curve: two half circles share their ends and are not the same edge.
struct EdgeKey {
  int from, to;
  int bend;  ///< 0 straight, 1 counter-clockwise, -1 clockwise
  bool operator==(const EdgeKey&) const = default;
};
inline EdgeKey key_of(const HalfEdge& e) {
  return {e.from, e.to, e.centre ? (e.clockwise ? -1 : 1) : 0};
}
inline EdgeKey twin_of(const HalfEdge& e) {
  return {e.to, e.from, e.centre ? (e.clockwise ? 1 : -1) : 0};
}

using EdgeLoop = std::vector<HalfEdge>;

/// A relief's loops over shared points: `regions[r][l]` is loop l of region r.
struct Arrangement {
  std::vector<std::vector<EdgeLoop>> regions;
};

/// Whose edge it is: half-edges by the point that they leave, of which there are a few to each.
class Owners {
 public:
  /// @pre no edge leaves a point beyond `points`.
  Owners(const Arrangement& arrangement, int points);
  /// @return the first region that has this edge.
  std::optional<std::size_t> find(const EdgeKey& key) const;
  bool contains(const EdgeKey& key) const { return find(key).has_value(); }

 private:
  struct Leaving {
    int to, bend;
    std::size_t region;
  };
  std::vector<std::size_t> begins_;  ///< of each point's, in `leaving_`
  std::vector<Leaving> leaving_;
};

Arrangement arrange(const Relief& relief, PlanPoints& points);
EdgeLoop to_edges(const Loop& loop, PlanPoints& points);
Loop to_loop(const EdgeLoop& edges, const PlanPoints& points);

/// Finds points near an edge without looking at all of them.
class PointIndex {
 public:
  PointIndex(const PlanPoints& points, std::vector<int> members);
  /// Members strictly inside the edge, in its direction.
  std::vector<int> on(const HalfEdge& edge) const;

 private:
  void on_cell(const std::vector<int>& cell, const HalfEdge& edge, std::vector<std::pair<double, int>>& found) const;
  const PlanPoints& points_;
  double x0_ = 0, y0_ = 0, cell_ = 1;
  int columns_ = 1, rows_ = 1;
  std::vector<std::vector<int>> cells_;
};

/// Splits the edges of `loop` at the points of `index` that lie on them.
EdgeLoop split(const EdgeLoop& loop, const PointIndex& index);

/// Splits every edge of every loop at the arrangement's own points, so that neighbours share whole edges.
void node(Arrangement& arrangement, const PlanPoints& points);

}  // namespace fallwright::brep
