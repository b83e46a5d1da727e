#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <queue>
#include <set>

#include <BRep_Tool.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Iterator.hxx>
#include <TopoDS_Vertex.hxx>

#include "brep/properties.hpp"
#include "measure/detail.hpp"
#include "measure/shapes.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using Box = std::array<double, 6>;

/// The faces on either side of the edges of a solid's facets; of no others, since a base has thousands below them.
class Beside {
 public:
  explicit Beside(const parts::Solid& solid) {
    for (const parts::Facet& facet : solid.facets) TopExp::MapShapes(facet.face, TopAbs_EDGE, edges_);
    faces_.resize(static_cast<std::size_t>(edges_.Extent()) + 1);
    for (TopExp_Explorer face{solid.shape, TopAbs_FACE}; face.More(); face.Next())
      for (TopoDS_Iterator wire{face.Current()}; wire.More(); wire.Next())
        for (TopoDS_Iterator edge{wire.Value()}; edge.More(); edge.Next())
          if (const int i = edges_.FindIndex(edge.Value())) faces_[i].push_back(TopoDS::Face(face.Current()));
  }
  const std::vector<TopoDS_Face>& of(const TopoDS_Edge& edge) const { return faces_[edges_.FindIndex(edge)]; }

 private:
  TopTools_IndexedMapOfShape edges_;
  std::vector<std::vector<TopoDS_Face>> faces_;  ///< by the edge's number
};

/// The water on one surface: the surface as a graph of corners and edges. On planar facets the lowest way for water
/// from corner to corner never needs to leave the edges, so a corner's water stands at the least of the highest points
/// over all ways to an outlet.
class Water {
 public:
  Water(const parts::Solid& solid, const Beside& beside, facts::Surface surface, const Box& target)
      : surface_{surface}, target_{target}, beside_{beside} {
    for (const parts::Facet& facet : solid.facets)
      if (facet.surface == surface) facets_.push_back(facet);
    for (const parts::Facet& facet : facets_) add(facet);
  }

  facts::Drainage drain() {
    flood();
    facts::Drainage found{surface_, true, 0, {}, {}};
    for (int v = 1; v <= vertices_.Extent(); ++v) {
      const gp_Pnt p = point(v);
      const double depth = std::min(level_[v], 1e9) - p.Z();
      if (depth <= units::tolerance::length_mm || depth <= found.pond_mm) continue;
      found.drains = false;
      found.pond_mm = level_[v] < 1e9 ? depth : rim_ - p.Z();
      found.pond_at_mm = to_point(p);
    }
    for (const parts::Facet& facet : facets_)
      if (stuck(facet)) found.stuck.push_back(facet.facet);
    return found;
  }

 private:
  gp_Pnt point(int v) const { return BRep_Tool::Pnt(TopoDS::Vertex(vertices_(v))); }

  void add(const parts::Facet& facet) {
    for (TopExp_Explorer it{facet.face, TopAbs_EDGE}; it.More(); it.Next()) {
      const TopoDS_Edge edge = TopoDS::Edge(it.Current());
      const int a = vertices_.Add(TopExp::FirstVertex(edge)), b = vertices_.Add(TopExp::LastVertex(edge));
      neighbours_[a].insert(b);
      neighbours_[b].insert(a);
      rim_ = std::max({rim_, point(a).Z(), point(b).Z()});
      if (is_outlet(edge, facet)) outlets_.insert({a, b});
    }
  }

  /// An edge from which water drops into the target: the face beyond it goes down, and its other side lies over the
  /// target's plan.
  bool is_outlet(const TopoDS_Edge& edge, const parts::Facet& facet) const {
    for (const TopoDS_Face& face : beside_.of(edge)) {
      if (face.IsSame(facet.face)) continue;
      const Box box = brep::box_of(face);
      const gp_Pnt p = BRep_Tool::Pnt(TopExp::FirstVertex(edge)), q = BRep_Tool::Pnt(TopExp::LastVertex(edge));
      const bool goes_down = box[2] < std::min(p.Z(), q.Z()) - units::tolerance::length_mm;
      if (!goes_down || std::any_of(facets_.begin(), facets_.end(), [&](const auto& f) { return f.face.IsSame(face); }))
        continue;
      // A step beyond the edge, away from the facet.
      const gp_Pnt middle{(p.XYZ() + q.XYZ()) / 2};
      gp_XYZ away = middle.XYZ() - inside_of(facet.face).XYZ();
      away.SetZ(0);
      const gp_XYZ probe = middle.XYZ() + away.Normalized();
      if (probe.X() > target_[0] && probe.X() < target_[3] && probe.Y() > target_[1] && probe.Y() < target_[4])
        return true;
    }
    return false;
  }

  static gp_Pnt inside_of(const TopoDS_Face& face) {
    gp_XYZ sum;
    const std::vector<gp_Pnt> points = corners(face);
    for (const gp_Pnt& p : points) sum += p.XYZ();
    return gp_Pnt{sum / static_cast<double>(points.size())};
  }

  /// Spreads from the outlets, always on from the lowest water.
  void flood() {
    level_.assign(static_cast<std::size_t>(vertices_.Extent()) + 1, std::numeric_limits<double>::max());
    using Item = std::pair<double, int>;
    std::priority_queue<Item, std::vector<Item>, std::greater<>> next;
    for (const int v : outlets_) next.emplace(level_[v] = point(v).Z(), v);
    while (!next.empty()) {
      const auto [z, v] = next.top();
      next.pop();
      if (z > level_[v]) continue;
      for (const int n : neighbours_[v])
        if (const double over = std::max(z, point(n).Z()); over < level_[n]) next.emplace(level_[n] = over, n);
    }
  }

  /// A facet is stuck when water stands on its lowest corner.
  bool stuck(const parts::Facet& facet) const {
    TopTools_IndexedMapOfShape own;
    TopExp::MapShapes(facet.face, TopAbs_VERTEX, own);
    int lowest = 0;
    for (int i = 1; i <= own.Extent(); ++i)
      if (const int v = vertices_.FindIndex(own(i)); lowest == 0 || point(v).Z() < point(lowest).Z()) lowest = v;
    return level_[lowest] - point(lowest).Z() > units::tolerance::length_mm;
  }

  facts::Surface surface_;
  Box target_;
  std::vector<parts::Facet> facets_;
  const Beside& beside_;
  TopTools_IndexedMapOfShape vertices_;
  std::map<int, std::set<int>> neighbours_;
  std::set<int> outlets_;
  std::vector<double> level_;
  double rim_ = -std::numeric_limits<double>::max();
};

}  // namespace

std::vector<facts::Drainage> measure_drainage(const parts::Model& model) {
  const parts::Solid &base = *model.first(parts::Role::base), &drain = *model.first(parts::Role::drain);
  const Box base_box = parts::box_of(base), drain_box = parts::box_of(drain);
  const auto has = [](const parts::Solid& solid, facts::Surface surface) {
    return std::any_of(solid.facets.begin(), solid.facets.end(), [&](const auto& f) { return f.surface == surface; });
  };
  const Beside beside{base};
  std::vector<facts::Drainage> found{Water{base, beside, facts::Surface::base_floor, drain_box}.drain()};
  if (has(base, facts::Surface::threshold))
    found.push_back(Water{base, beside, facts::Surface::threshold, base_box}.drain());
  if (const parts::Solid* seat = model.first(parts::Role::seat_block))
    found.push_back(Water{*seat, Beside{*seat}, facts::Surface::seat, base_box}.drain());
  return found;
}

}  // namespace fallwright::measure
