#include "survey/floor.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>

#include <CGAL/Constrained_Delaunay_triangulation_2.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Triangulation_face_base_with_info_2.h>
#include <CGAL/Triangulation_vertex_base_with_info_2.h>
#include <Eigen/Dense>

#include "units/tolerance.hpp"

namespace fallwright::survey {
namespace {

constexpr double weld = units::tolerance::weld_mm;

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Vertex = CGAL::Triangulation_vertex_base_with_info_2<double, Kernel>;  // its height
using Face =
    CGAL::Triangulation_face_base_with_info_2<int, Kernel, CGAL::Constrained_triangulation_face_base_2<Kernel>>;
using Delaunay = CGAL::Constrained_Delaunay_triangulation_2<Kernel, CGAL::Triangulation_data_structure_2<Vertex, Face>>;

double cross(Point o, Point a, Point b) {
  return (a.x - o.x) * (b.y - o.y) - (b.x - o.x) * (a.y - o.y);
}

HeightPlane plane_of(const Spot& a, const Spot& b, const Spot& c) {
  const double d = (b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y);
  const double gx = ((b.z - a.z) * (c.y - a.y) - (c.z - a.z) * (b.y - a.y)) / d;
  const double gy = ((b.x - a.x) * (c.z - a.z) - (c.x - a.x) * (b.z - a.z)) / d;
  return {a.z - gx * a.x - gy * a.y, gx, gy};
}

Delaunay::Vertex_handle insert(Delaunay& mesh, const Spot& spot) {
  const auto vertex = mesh.insert({spot.x, spot.y});
  vertex->info() = spot.z;
  return vertex;
}

Spot spot_of(const Delaunay::Vertex_handle& v) {
  return {v->point().x(), v->point().y(), v->info()};
}

/// The spots round the outside, counter-clockwise, those on straight stretches included.
std::vector<Spot> outline_of(const Delaunay& mesh) {
  std::vector<Spot> outline;
  auto at = mesh.incident_vertices(mesh.infinite_vertex());
  const auto first = at;
  do outline.push_back(spot_of(at));
  while (++at != first);
  std::reverse(outline.begin(), outline.end());
  return outline;
}

/// The point of the outline nearest to `p`, with its height along the outline's edge.
Spot nearest_on(const std::vector<Spot>& outline, Point p) {
  Spot best;
  double least = std::numeric_limits<double>::max();
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Spot &a = outline[i], &b = outline[(i + 1) % outline.size()];
    const double dx = b.x - a.x, dy = b.y - a.y;
    const double t = std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy), 0.0, 1.0);
    const Spot s{a.x + t * dx, a.y + t * dy, a.z + t * (b.z - a.z)};
    const double away = std::hypot(p.x - s.x, p.y - s.y);
    if (away < least) least = away, best = s;
  }
  return best;
}

bool is_inside(const std::vector<Spot>& outline, Point p) {
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Spot &a = outline[i], &b = outline[(i + 1) % outline.size()];
    if (cross({a.x, a.y}, {b.x, b.y}, p) <= 0) return false;
  }
  return true;
}

/// Points on the extent's edge that carry the surface on from the outline: its corners, and straight out from every
/// outermost spot.
std::vector<Spot> frame_of(const std::vector<Spot>& outline, const HeightPlane& plane, const Rect& extent) {
  std::vector<Point> places = to_polygon(extent);
  for (const Spot& s : outline) {
    const struct {
      Point step, edge;
    } ways[] = {{{1, 0}, {extent.x1, s.y}},
                {{-1, 0}, {extent.x0, s.y}},
                {{0, 1}, {s.x, extent.y1}},
                {{0, -1}, {s.x, extent.y0}}};
    for (const auto& way : ways)
      if (!is_inside(outline, {s.x + way.step.x, s.y + way.step.y})) {
        const Spot near = nearest_on(outline, way.edge);
        if (std::hypot(near.x - s.x, near.y - s.y) < 1)
          places.push_back(way.edge);  // straight out, not past a neighbour
      }
  }
  std::vector<Spot> frame;
  for (const Point& p : places) {
    const Spot near = nearest_on(outline, p);
    frame.push_back({p.x, p.y, plane.at(p.x, p.y) + near.z - plane.at(near.x, near.y)});
  }
  return frame;
}

/// Numbers the triangles so that those on one circle, with no constraint between them, share a number.
void group(Delaunay& mesh) {
  for (const auto& face : mesh.all_face_handles()) face->info() = -1;
  int number = 0;
  for (const auto& start : mesh.finite_face_handles()) {
    if (start->info() >= 0) continue;
    std::vector<Delaunay::Face_handle> todo{start};
    start->info() = number;
    while (!todo.empty()) {
      const auto face = todo.back();
      todo.pop_back();
      for (int i = 0; i < 3; ++i) {
        const auto next = face->neighbor(i);
        if (mesh.is_infinite(next) || next->info() >= 0 || face->is_constrained(i)) continue;
        const auto& beyond = next->vertex(next->index(face))->point();
        if (mesh.side_of_oriented_circle(face, beyond, false) != CGAL::ON_ORIENTED_BOUNDARY) continue;
        next->info() = number;
        todo.push_back(next);
      }
    }
    ++number;
  }
}

/// Corners on one circle, in order round it.
using Ring = std::vector<Spot>;

std::vector<Ring> rings_of(Delaunay& mesh) {
  group(mesh);
  std::map<int, std::map<Delaunay::Vertex_handle, Spot>> members;
  for (const auto& face : mesh.finite_face_handles())
    for (int i = 0; i < 3; ++i) members[face->info()][face->vertex(i)] = spot_of(face->vertex(i));
  std::vector<Ring> rings;
  for (const auto& [number, spots] : members) {
    Ring ring;
    Point middle;
    for (const auto& [vertex, spot] : spots) ring.push_back(spot), middle.x += spot.x, middle.y += spot.y;
    middle = {middle.x / static_cast<double>(ring.size()), middle.y / static_cast<double>(ring.size())};
    std::sort(ring.begin(), ring.end(), [&](const Spot& a, const Spot& b) {
      return std::atan2(a.y - middle.y, a.x - middle.x) < std::atan2(b.y - middle.y, b.x - middle.x);
    });
    rings.push_back(std::move(ring));
  }
  // Handles sort by address; cells must come in an order of their own.
  std::sort(rings.begin(), rings.end(), [](const Ring& a, const Ring& b) {
    return std::pair{a[0].y, a[0].x} < std::pair{b[0].y, b[0].x} ||
           (a[0].y == b[0].y && a[0].x == b[0].x && std::pair{a[1].y, a[1].x} < std::pair{b[1].y, b[1].x});
  });
  return rings;
}

bool lies_on(const HeightPlane& plane, const std::vector<Spot>& spots) {
  return std::all_of(spots.begin(), spots.end(),
                     [&](const Spot& s) { return std::abs(plane.at(s.x, s.y) - s.z) < weld; });
}

void add_cells(const Ring& ring, std::vector<Cell>& cells) {
  const HeightPlane plane = plane_of(ring[0], ring[1], ring[2]);
  if (lies_on(plane, ring)) {
    Polygon polygon;
    for (const Spot& s : ring) polygon.push_back({s.x, s.y});
    cells.push_back({polygon, plane});
    return;
  }
  Spot middle;
  for (const Spot& s : ring) middle.x += s.x, middle.y += s.y, middle.z += s.z;
  const auto n = static_cast<double>(ring.size());
  middle = {middle.x / n, middle.y / n, middle.z / n};
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Spot &a = ring[i], &b = ring[(i + 1) % ring.size()];
    cells.push_back({{{a.x, a.y}, {b.x, b.y}, {middle.x, middle.y}}, plane_of(a, b, middle)});
  }
}

}  // namespace

double Floor::at(double x, double y) const {
  const Cell* best = nullptr;
  double least = std::numeric_limits<double>::max();
  for (const Cell& cell : cells_) {
    double outside = 0;
    for (std::size_t i = 0; i < cell.plan.size(); ++i) {
      const Point a = cell.plan[i], b = cell.plan[(i + 1) % cell.plan.size()];
      outside = std::max(outside, -cross(a, b, {x, y}) / std::hypot(b.x - a.x, b.y - a.y));
    }
    if (outside < least) least = outside, best = &cell;
    if (outside == 0) break;
  }
  return best ? best->plane.at(x, y) : 0;
}

std::vector<Spot> Floor::corners(const Polygon& over) const {
  std::vector<Spot> spots;
  for (const Cell& cell : cells_)
    for (const Point& p : common(cell.plan, over)) spots.push_back({p.x, p.y, cell.plane.at(p.x, p.y)});
  return spots;
}

double Floor::highest(const Rect& over) const {
  double z = std::numeric_limits<double>::lowest();
  for (const Spot& s : corners(to_polygon(over))) z = std::max(z, s.z);
  return z;
}

double Floor::lowest(const Rect& over) const {
  double z = std::numeric_limits<double>::max();
  for (const Spot& s : corners(to_polygon(over))) z = std::min(z, s.z);
  return z;
}

Floor Floor::raised(double by) const {
  std::vector<Cell> cells = cells_;
  for (Cell& cell : cells) cell.plane.z0 += by;
  return Floor{std::move(cells)};
}

Polygon to_polygon(const Rect& r) {
  return {{r.x0, r.y0}, {r.x1, r.y0}, {r.x1, r.y1}, {r.x0, r.y1}};
}

Polygon clip(const Polygon& polygon, Point a, Point b) {
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  const auto side = [&](Point p) {
    const double d = cross(a, b, p) / length;
    return std::abs(d) < weld ? 0.0 : d;
  };
  Polygon kept;
  double twice = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point p = polygon[i], q = polygon[(i + 1) % polygon.size()];
    const double at_p = side(p), at_q = side(q);
    if (at_p >= 0) kept.push_back(p);
    if (at_p * at_q >= 0) continue;
    const double t = at_p / (at_p - at_q);
    kept.push_back({p.x + t * (q.x - p.x), p.y + t * (q.y - p.y)});
  }
  for (std::size_t i = 1; i + 1 < kept.size(); ++i) twice += cross(kept[0], kept[i], kept[i + 1]);
  return twice > weld ? kept : Polygon{};
}

Polygon common(Polygon polygon, const Polygon& window) {
  for (std::size_t i = 0; i < window.size() && !polygon.empty(); ++i)
    polygon = clip(polygon, window[i], window[(i + 1) % window.size()]);
  return polygon;
}

Floor plane_floor(const HeightPlane& plane, const Rect& extent) {
  return Floor{{{to_polygon(extent), plane}}};
}

bool span_a_plane(const std::vector<Spot>& spots) {
  double widest = 0;
  for (std::size_t i = 1; i < spots.size(); ++i)
    for (std::size_t j = i + 1; j < spots.size(); ++j)
      widest = std::max(widest,
                        std::abs(cross({spots[0].x, spots[0].y}, {spots[i].x, spots[i].y}, {spots[j].x, spots[j].y})));
  return widest > 1e4;  // mm2: a hand's breadth each way
}

HeightPlane best_plane(const std::vector<Spot>& spots) {
  const auto n = static_cast<Eigen::Index>(spots.size());
  Eigen::MatrixXd a(n, 3);
  Eigen::VectorXd z(n);
  Spot o;
  for (const Spot& s : spots) o.x += s.x / static_cast<double>(n), o.y += s.y / static_cast<double>(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const Spot& s = spots[static_cast<std::size_t>(i)];
    a.row(i) << 1, s.x - o.x, s.y - o.y;
    z[i] = s.z;
  }
  const Eigen::Vector3d p = a.colPivHouseholderQr().solve(z);
  return {p[0] - p[1] * o.x - p[2] * o.y, p[1], p[2]};
}

Floor floor_through(const std::vector<Spot>& spots, const Rect& extent) {
  const HeightPlane plane = best_plane(spots);
  if (lies_on(plane, spots)) return plane_floor(plane, extent);
  Delaunay inner;
  for (const Spot& s : spots) insert(inner, s);
  const std::vector<Spot> outline = outline_of(inner);
  Delaunay mesh;
  for (const Spot& s : frame_of(outline, plane, extent)) insert(mesh, s);
  for (const Spot& s : spots) insert(mesh, s);
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Spot &a = outline[i], &b = outline[(i + 1) % outline.size()];
    mesh.insert_constraint(insert(mesh, a), insert(mesh, b));
  }
  std::vector<Cell> cells;
  for (const Ring& ring : rings_of(mesh)) add_cells(ring, cells);
  return Floor{std::move(cells)};
}

}  // namespace fallwright::survey
