/// Solids as an eye far off sees them: which parts of their edges nothing before them hides. Inside `drawing` only.
#pragma once

#include <array>
#include <cstddef>
#include <deque>
#include <map>
#include <utility>
#include <vector>

#include <TopoDS_Shape.hxx>
#include <gp_Pnt.hxx>
#include <gp_XYZ.hxx>

#include "brep/skin.hpp"
#include "drawing/projection.hpp"

namespace fallwright::parts {
struct Model;
struct Solid;
}  // namespace fallwright::parts

namespace fallwright::drawing {

/// Edges against faces, each a polygon of the solids' own corners; nothing is rounded, so planes that meet at a degree
/// or two keep the edge between them. Curved edges and faces come as chords, no farther off than `tolerance::mesh_mm`.
class Scene {
 public:
  /// Solids of a model, or moved copies of them, are looked at by the skins that they have already.
  explicit Scene(const View& view, const parts::Model* model = nullptr);

  /// Arcs of a shape that are seen square on are told as arcs. To be called before it is added.
  void keep_arcs(const TopoDS_Shape& shape);

  /// One more group: it hides what stands behind it, and is hidden by what stands before it.
  void add(const std::vector<TopoDS_Shape>& group);

  /// Visible edges of each group, in the order in which they were added.
  std::vector<Projection> seen() const;

  /// Visible edges of all, and those that something hides.
  Projection with_hidden() const;

 private:
  using Interval = std::pair<double, double>;
  using Box = std::array<double, 4>;  // xmin ymin xmax ymax
  /// What surface an edge was met on: a plane by its normal, a standing cylinder by axis, radius and whether it is
  /// turned to the eye there; what has no kind is in line with nothing.
  struct Lies {
    int kind = 0;
    gp_XYZ as = {};
    bool in_line(const Lies& other) const;
  };
  struct Circle {
    gp_XYZ centre;
    double radius;
  };
  struct Facet {
    std::vector<std::vector<Point>> rings;
    gp_XYZ normal;
    double offset;  // of its plane along the normal
    Box box = {1e300, 1e300, -1e300, -1e300};
    double nearest = -1e300;  // how far its nearest corner lies toward the eye
  };
  struct Edge {
    std::size_t group;
    gp_XYZ from, to;
    Point a, b;  // as the eye sees its ends
    Box box;
    double farthest;
    std::vector<Interval> left;  // in shares of its length
    const Circle* chord_of = nullptr;
  };

  brep::Skin skin_of(const TopoDS_Shape& shape) const;
  Point at(const gp_XYZ& p) const { return {p.Dot(right_), p.Dot(up_)}; }
  void add_face(const gp_XYZ& normal, const std::vector<brep::Ring>& rings);
  void add_round(const brep::Round& round, std::size_t first, std::vector<Lies>& on);
  void add_edge(const gp_Pnt& from, const gp_Pnt& to);
  const Circle* circle_through(const gp_XYZ& from, const gp_XYZ& to) const;
  void show(const Edge& edge, const Interval& share, LineKind kind, Projection& out) const;
  void keep_once(std::size_t first, const std::vector<Lies>& on);
  static double area_of(const Facet& facet);  // of its box, as the eye sees it
  static bool is_within(const Facet& facet, Point p);
  void find_stops(const Edge& edge, const Facet& facet, double from, double to);
  static bool passes(const Edge& edge, const Facet& facet);
  static void take(const Interval& share, double shortest, std::vector<Interval>& left);
  void hide(Edge& edge, const Facet& facet);
  struct Fields;
  Fields fields_from(std::size_t facet) const;
  void hide(Edge& edge, const Fields& fields);

  gp_XYZ right_, up_, toward_;
  std::map<const void*, const parts::Solid*> known_;  // by what the kernel shares between a shape and its copies
  std::size_t groups_ = 0;
  std::vector<Facet> facets_;
  std::vector<Edge> edges_;
  std::deque<Circle> circles_;  // that are seen as such; edges point to them
  std::vector<double> stops_;   // of the edge and the face that are looked at
};

}  // namespace fallwright::drawing
