#include "drawing/scene.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <tuple>

#include <boost/geometry.hpp>
#include <boost/geometry/index/rtree.hpp>
#include <boost/iterator/function_output_iterator.hpp>

#include <BRepAdaptor_Curve.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <gp_Circ.hxx>

#include "parts/model.hpp"
#include "points/points.hpp"
#include "units/tolerance.hpp"

namespace fallwright::drawing {
namespace {

constexpr double near = 10 * units::tolerance::length_mm;  ///< solids that touch do not hide each other's edges

double cross(Point a, Point b, Point c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/// Whether a point lies on a side.
bool is_on(Point p, Point a, Point b) {
  const double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
  const double t = square > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / square, 0.0, 1.0) : 0;
  const double x = p.x - a.x - t * dx, y = p.y - a.y - t * dy;
  return x * x + y * y < near * near;
}

namespace index = boost::geometry::index;
using Corner = boost::geometry::model::point<double, 3, boost::geometry::cs::cartesian>;
using Field = boost::geometry::model::box<Corner>;

/// From `from` to `to` toward the eye.
Field field_of(const std::array<double, 4>& box, double from, double to) {
  return {Corner{box[0], box[1], from}, Corner{box[2], box[3], to}};
}

}  // namespace

/// Where faces are seen and how far they reach toward the eye, with their numbers.
struct Scene::Fields {
  index::rtree<std::pair<Field, std::size_t>, index::rstar<16>> tree;
};

Scene::Scene(const View& view, const parts::Model* model) : toward_{view.toward.XYZ()} {
  if (model)
    for (const parts::Solid& solid : model->solids)
      if (solid.skin) known_.emplace(solid.shape.TShape().get(), &solid);
  right_ = (view.right.XYZ() - toward_ * view.right.XYZ().Dot(toward_)).Normalized();
  up_ = toward_.Crossed(right_);
}

brep::Skin Scene::skin_of(const TopoDS_Shape& shape) const {
  if (const auto known = known_.find(shape.TShape().get()); known != known_.end()) {
    const parts::Solid& solid = *known->second;
    if (solid.shape.IsSame(shape)) return *solid.skin;
    const TopLoc_Location way = shape.Location() * solid.shape.Location().Inverted();
    if (auto skin = brep::moved(*solid.skin, way)) return *std::move(skin);
  }
  return brep::skin_of(shape);
}

void Scene::add(const std::vector<TopoDS_Shape>& group) {
  const std::size_t old_facets = facets_.size(), old_edges = edges_.size();
  for (const TopoDS_Shape& shape : group) {
    const brep::Skin skin = skin_of(shape);
    const std::size_t first = edges_.size();
    std::vector<Lies> on;
    for (const brep::Flat& flat : skin.flats) {
      add_face(flat.normal.XYZ(), flat.rings);
      on.resize(edges_.size() - first, {1, flat.normal.XYZ()});
    }
    for (const brep::Round& round : skin.rounds) add_round(round, first, on);
    keep_once(first, on);
  }
  ++groups_;
  // The larger first: of what they hide whole no other face is asked.
  std::stable_sort(facets_.begin() + old_facets, facets_.end(),
                   [](const Facet& a, const Facet& b) { return area_of(a) > area_of(b); });
  const Fields fresh = fields_from(old_facets), all = fields_from(0);
  for (std::size_t e = 0; e < edges_.size(); ++e) hide(edges_[e], e < old_edges ? fresh : all);
}

Scene::Fields Scene::fields_from(std::size_t facet) const {
  std::vector<std::pair<Field, std::size_t>> fields;
  for (; facet < facets_.size(); ++facet) {
    const Facet& f = facets_[facet];
    fields.emplace_back(field_of(f.box, f.nearest, f.nearest), facet);
  }
  return {{fields.begin(), fields.end()}};
}

/// In the order of the faces: what one leaves of an edge hangs on what others left.
void Scene::hide(Edge& edge, const Fields& fields) {
  std::vector<std::size_t> before;
  const auto note = [&](const auto& field) { before.push_back(field.second); };
  fields.tree.query(index::intersects(field_of(edge.box, edge.farthest + near, 1e300)),
                    boost::make_function_output_iterator(note));
  std::sort(before.begin(), before.end());
  for (auto facet = before.begin(); facet != before.end() && !edge.left.empty(); ++facet) hide(edge, facets_[*facet]);
}

double Scene::area_of(const Facet& facet) {
  return (facet.box[2] - facet.box[0]) * (facet.box[3] - facet.box[1]);
}

bool Scene::Lies::in_line(const Lies& other) const {
  return kind != 0 && kind == other.kind && (as - other.as).Modulus() < units::tolerance::ratio;
}

/// Two faces of a solid share an edge, and its very points. Where they lie in one plane, or on one cylinder, it is
/// none: nobody sees where a solid was put together.
void Scene::keep_once(std::size_t first, const std::vector<Lies>& on) {
  std::map<std::array<double, 6>, std::size_t> known;  // which edge it was met as
  std::vector<bool> drop(edges_.size() - first, false);
  for (std::size_t i = 0; i < drop.size(); ++i) {
    const Edge& e = edges_[first + i];
    const std::array<double, 3> a{e.from.X(), e.from.Y(), e.from.Z()}, b{e.to.X(), e.to.Y(), e.to.Z()};
    const auto& [low, high] = std::minmax(a, b);
    const auto [met, is_new] = known.insert({{low[0], low[1], low[2], high[0], high[1], high[2]}, i});
    if (is_new) continue;
    drop[i] = true;
    if (on[i].in_line(on[met->second])) drop[met->second] = true;
  }
  std::size_t kept = first;
  for (std::size_t i = 0; i < drop.size(); ++i)
    if (!drop[i]) edges_[kept++] = edges_[first + i];
  edges_.resize(kept);
}

void Scene::add_face(const gp_XYZ& normal, const std::vector<brep::Ring>& rings) {
  for (const brep::Ring& ring : rings)
    for (std::size_t i = 0; i < ring.size(); ++i) add_edge(ring[i], ring[(i + 1) % ring.size()]);
  if (normal.Dot(toward_) < units::tolerance::ratio) return;  // its solid's other faces hide what is behind it
  Facet facet{{}, normal, normal.Dot(rings.front().front().XYZ())};
  for (const brep::Ring& ring : rings) {
    std::vector<Point>& seen = facet.rings.emplace_back();
    for (const gp_Pnt& corner : ring) {
      const Point p = seen.emplace_back(at(corner.XYZ()));
      facet.box = {std::min(facet.box[0], p.x), std::min(facet.box[1], p.y), std::max(facet.box[2], p.x),
                   std::max(facet.box[3], p.y)};
      facet.nearest = std::max(facet.nearest, corner.XYZ().Dot(toward_));
    }
  }
  facets_.push_back(std::move(facet));
}

/// Its triangles hide; of their sides those are edges that end it and those where it turns away from the eye.
void Scene::add_round(const brep::Round& round, std::size_t first, std::vector<Lies>& on) {
  using Place = std::tuple<long, long, long>;
  const auto place = [](const gp_Pnt& p) {
    return Place{std::lround(p.X() / near), std::lround(p.Y() / near), std::lround(p.Z() / near)};
  };
  struct Side {
    gp_Pnt from, to;
    int faces = 0, toward = 0;
  };
  std::map<std::pair<Place, Place>, Side> sides;
  for (const brep::Facet3& triangle : brep::triangles_of(round)) {
    const auto& [a, b, c] = triangle;
    const gp_XYZ normal = (b.XYZ() - a.XYZ()).Crossed(c.XYZ() - a.XYZ());
    if (normal.Modulus() < near * near) continue;
    const bool is_toward = normal.Normalized().Dot(toward_) > units::tolerance::ratio;
    for (std::size_t i = 0; i < 3; ++i) {
      const gp_Pnt &from = triangle[i], &to = triangle[(i + 1) % 3];
      Side& side = sides[std::minmax(place(from), place(to))];
      if (side.faces++ == 0) side.from = from, side.to = to;
      side.toward += is_toward;
    }
    if (is_toward) {
      const std::size_t before = edges_.size();
      add_face(normal.Normalized(), {{a, b, c}});
      edges_.resize(before);
    }
  }
  for (const auto& [places, side] : sides)
    if (side.faces == 1 || side.toward == 1) {
      add_edge(side.from, side.to);
      const bool ends = side.faces == 1 && round.about;
      on.resize(edges_.size() - first,
                ends ? Lies{2 + side.toward, {round.about->x, round.about->y, round.about->radius}} : Lies{});
    }
}

void Scene::keep_arcs(const TopoDS_Shape& shape) {
  for (TopExp_Explorer it{shape, TopAbs_EDGE}; it.More(); it.Next()) {
    const BRepAdaptor_Curve curve{TopoDS::Edge(it.Current())};
    if (curve.GetType() != GeomAbs_Circle) continue;
    const gp_Circ circle = curve.Circle();
    if (std::abs(circle.Axis().Direction().XYZ().Dot(toward_)) < 1 - units::tolerance::ratio) continue;
    circles_.push_back({circle.Location().XYZ(), circle.Radius()});
  }
}

/// The circle of which an edge is a chord, as those are that stand for its arcs.
const Scene::Circle* Scene::circle_through(const gp_XYZ& from, const gp_XYZ& to) const {
  for (const Circle& circle : circles_) {
    const gp_XYZ a = from - circle.centre, b = to - circle.centre, middle = (a + b) / 2;
    const auto is_on_it = [&](const gp_XYZ& p) {
      return std::abs(p.Dot(toward_)) < near && std::abs(p.Modulus() - circle.radius) < near;
    };
    if (is_on_it(a) && is_on_it(b) && circle.radius - middle.Modulus() < 2 * units::tolerance::mesh_mm) return &circle;
  }
  return nullptr;
}

void Scene::add_edge(const gp_Pnt& from, const gp_Pnt& to) {
  const Point a = at(from.XYZ()), b = at(to.XYZ());
  if (std::hypot(b.x - a.x, b.y - a.y) < near) return;
  edges_.push_back({groups_,
                    from.XYZ(),
                    to.XYZ(),
                    a,
                    b,
                    {std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)},
                    std::min(from.XYZ().Dot(toward_), to.XYZ().Dot(toward_)),
                    {{0, 1}},
                    circle_through(from.XYZ(), to.XYZ())});
}

/// Not on its outline: what ends there is seen.
bool Scene::is_within(const Facet& facet, Point p) {
  bool inside = false;
  for (const std::vector<Point>& ring : facet.rings)
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
      if (is_on(p, a, b)) return false;
      if (points::crosses_ray({a.x, a.y}, {b.x, b.y}, {p.x, p.y})) inside = !inside;
    }
  return inside;
}

/// Where an edge may come out from behind a face or go behind it: at the face's outline and at its plane, from which
/// its ends lie `from` and `to` away.
void Scene::find_stops(const Edge& edge, const Facet& facet, double from, double to) {
  stops_.assign({0, 1});
  if ((from < -near) != (to < -near)) stops_.push_back((from + near) / (from - to));
  const double dx = edge.b.x - edge.a.x, dy = edge.b.y - edge.a.y, length = std::hypot(dx, dy);
  const auto along = [&](Point p) { return ((p.x - edge.a.x) * dx + (p.y - edge.a.y) * dy) / (length * length); };
  for (const std::vector<Point>& ring : facet.rings)
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point &p = ring[i], &q = ring[(i + 1) % ring.size()];
      const double of_p = cross(edge.a, edge.b, p) / length, of_q = cross(edge.a, edge.b, q) / length;
      if (std::abs(of_p) < near) stops_.push_back(along(p));
      if ((of_p > 0) == (of_q > 0)) continue;
      const double share = of_p / (of_p - of_q);
      stops_.push_back(along({p.x + (q.x - p.x) * share, p.y + (q.y - p.y) * share}));
    }
  std::sort(stops_.begin(), stops_.end());
}

/// Whether a face lies to one side of an edge, however far that is carried on.
bool Scene::passes(const Edge& edge, const Facet& facet) {
  bool left = false, right = false;
  for (const std::vector<Point>& ring : facet.rings)
    for (const Point& p : ring) (cross(edge.a, edge.b, p) > 0 ? left : right) = true;
  return !left || !right;
}

/// Takes a share out of what is left of an edge, and with it what would be shorter than can be seen.
void Scene::take(const Interval& share, double shortest, std::vector<Interval>& left) {
  std::vector<Interval> rest;
  for (const auto& [from, to] : left) {
    if (share.first > from + shortest) rest.emplace_back(from, std::min(to, share.first));
    if (to > share.second + shortest) rest.emplace_back(std::max(from, share.second), to);
  }
  left = std::move(rest);
}

void Scene::hide(Edge& edge, const Facet& facet) {
  const double from = edge.from.Dot(facet.normal) - facet.offset, to = edge.to.Dot(facet.normal) - facet.offset;
  if ((from > -near && to > -near) || passes(edge, facet)) return;
  find_stops(edge, facet, from, to);
  const double shortest = near / std::hypot(edge.b.x - edge.a.x, edge.b.y - edge.a.y);
  for (std::size_t i = 0; i + 1 < stops_.size(); ++i) {
    const Interval share{std::max(stops_[i], 0.0), std::min(stops_[i + 1], 1.0)};
    const double middle = (share.first + share.second) / 2;
    const auto is_seen = [&](const Interval& part) {
      return std::min(part.second, share.second) - std::max(part.first, share.first) >= shortest;
    };
    if (from + (to - from) * middle > -near || std::none_of(edge.left.begin(), edge.left.end(), is_seen)) continue;
    if (is_within(facet, {edge.a.x + (edge.b.x - edge.a.x) * middle, edge.a.y + (edge.b.y - edge.a.y) * middle}))
      take(share, shortest, edge.left);
  }
}

/// A share of an edge as a line, or as the arc over it.
void Scene::show(const Edge& edge, const Interval& share, LineKind kind, Projection& out) const {
  const auto along = [&](double t) {
    return Point{edge.a.x + (edge.b.x - edge.a.x) * t, edge.a.y + (edge.b.y - edge.a.y) * t};
  };
  const Point from = along(share.first), to = along(share.second);
  if (!edge.chord_of) return out.lines.push_back({from, to, kind});
  const Point centre = at(edge.chord_of->centre);
  const auto degrees_at = [&](Point p) { return std::atan2(p.y - centre.y, p.x - centre.x) * 180 / M_PI; };
  const bool leftward = cross(centre, edge.a, edge.b) > 0;
  const double begin = degrees_at(leftward ? from : to), turn = degrees_at(leftward ? to : from) - begin;
  out.arcs.push_back({centre, edge.chord_of->radius, begin, begin + (turn < 0 ? turn + 360 : turn), kind});
}

std::vector<Projection> Scene::seen() const {
  std::vector<Projection> seen(groups_);
  for (const Edge& edge : edges_)
    for (const Interval& share : edge.left) show(edge, share, LineKind::outline, seen[edge.group]);
  for (Projection& one : seen) one.lines = tidy(one.lines), one.arcs = tidy(one.arcs);
  return seen;
}

Projection Scene::with_hidden() const {
  Projection all;
  for (const Projection& one : seen()) {
    all.lines.insert(all.lines.end(), one.lines.begin(), one.lines.end());
    all.arcs.insert(all.arcs.end(), one.arcs.begin(), one.arcs.end());
  }
  for (const Edge& edge : edges_) show(edge, {0, 1}, LineKind::hidden, all);
  all.lines = tidy(all.lines), all.arcs = tidy(all.arcs);
  return all;
}

}  // namespace fallwright::drawing
