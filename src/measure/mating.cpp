#include <algorithm>
#include <array>
#include <cmath>

#include <BRepMesh_IncrementalMesh.hxx>
#include <BRep_Tool.hxx>
#include <Poly_Triangulation.hxx>
#include <TopLoc_Location.hxx>

#include "measure/detail.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

struct Triangle {
  std::array<gp_Pnt, 3> corner;  ///< counter-clockwise from above
  double x0, y0, x1, y1;
};

Triangle to_triangle(std::array<gp_Pnt, 3> corner) {
  const auto& [a, b, c] = corner;
  if ((b.X() - a.X()) * (c.Y() - a.Y()) < (c.X() - a.X()) * (b.Y() - a.Y())) std::swap(corner[1], corner[2]);
  return {corner, std::min({a.X(), b.X(), c.X()}), std::min({a.Y(), b.Y(), c.Y()}), std::max({a.X(), b.X(), c.X()}),
          std::max({a.Y(), b.Y(), c.Y()})};
}

/// Triangles of the planar faces that look up (or down). Planar faces with straight edges mesh exactly; an arc's chord
/// error touches only the plan of such a face, never its height.
std::vector<Triangle> looking(const TopoDS_Shape& shape, bool up) {
  BRepMesh_IncrementalMesh{shape, units::tolerance::mesh_mm, false, units::tolerance::mesh_angle_rad, false};
  std::vector<Triangle> triangles;
  for (const TopoDS_Face& face : faces_of(shape)) {
    const auto normal = outward(face);
    if (!normal || (up ? normal->Z() <= 0.1 : normal->Z() >= -0.1)) continue;
    TopLoc_Location place;
    const Handle(Poly_Triangulation) mesh = BRep_Tool::Triangulation(face, place);
    if (mesh.IsNull()) continue;
    for (int i = 1; i <= mesh->NbTriangles(); ++i) {
      int n[3];
      mesh->Triangle(i).Get(n[0], n[1], n[2]);
      std::array<gp_Pnt, 3> corner;
      for (std::size_t k = 0; k < 3; ++k) corner[k] = mesh->Node(n[k]).Transformed(place.Transformation());
      triangles.push_back(to_triangle(corner));
    }
  }
  return triangles;
}

/// Twice the triangle's plan.
double turn(const Triangle& t) {
  const auto& [a, b, c] = t.corner;
  return (b.X() - a.X()) * (c.Y() - a.Y()) - (c.X() - a.X()) * (b.Y() - a.Y());
}

/// Height of a triangle's plane over a point.
double height(const Triangle& t, double x, double y) {
  const gp_Vec u{t.corner[0], t.corner[1]}, v{t.corner[0], t.corner[2]};
  const gp_Vec n = u.Crossed(v);
  return t.corner[0].Z() - ((x - t.corner[0].X()) * n.X() + (y - t.corner[0].Y()) * n.Y()) / n.Z();
}

/// A corner of the common polygon, with the open height between the two planes there.
struct Spot {
  double x, y, open;
};
using Polygon = std::vector<Spot>;

template <class Side>
Polygon keep(const Polygon& polygon, const Side& side) {
  Polygon kept;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Spot &p = polygon[i], &q = polygon[(i + 1) % polygon.size()];
    const double at_p = side(p), at_q = side(q);
    if (at_p >= 0) kept.push_back(p);
    if ((at_p < 0) == (at_q < 0)) continue;
    const double t = at_p / (at_p - at_q);
    kept.push_back({p.x + t * (q.x - p.x), p.y + t * (q.y - p.y), p.open + t * (q.open - p.open)});
  }
  return kept;
}

/// Area of a polygon and the integral of its open height.
std::pair<double, double> integrate(const Polygon& p) {
  double area = 0, volume = 0;
  for (std::size_t i = 1; i + 1 < p.size(); ++i) {
    const double a = ((p[i].x - p[0].x) * (p[i + 1].y - p[0].y) - (p[i + 1].x - p[0].x) * (p[i].y - p[0].y)) / 2;
    area += a;
    volume += a * (p[0].open + p[i].open + p[i + 1].open) / 3;
  }
  return {area, volume};
}

double longest(const Polygon& polygon) {
  double length = 0;
  for (const Spot& p : polygon) length = std::max(length, std::hypot(p.x - polygon[0].x, p.y - polygon[0].y));
  return length;
}

Polygon common(const Triangle& upper, const Triangle& lower) {
  Polygon polygon;
  for (const gp_Pnt& p : upper.corner) polygon.push_back({p.X(), p.Y(), p.Z() - height(lower, p.X(), p.Y())});
  for (int i = 0; i < 3 && !polygon.empty(); ++i) {
    const gp_Pnt &a = lower.corner[i], &b = lower.corner[(i + 1) % 3];
    polygon =
        keep(polygon, [&](const Spot& s) { return (b.X() - a.X()) * (s.y - a.Y()) - (s.x - a.X()) * (b.Y() - a.Y()); });
  }
  return polygon;
}

void add(Mating& mating, const Triangle& upper, const Triangle& lower) {
  const Polygon polygon = common(upper, lower);
  if (polygon.size() < 3) return;
  constexpr double same = units::tolerance::length_mm;
  if (std::all_of(polygon.begin(), polygon.end(), [](const Spot& s) { return std::abs(s.open) <= same; })) {
    const double area = integrate(polygon).first;
    mating.contact_mm2 += area;
    if (area <= same) return;
    auto& contact = mating.contact.emplace_back();
    for (const Spot& s : polygon) contact.emplace_back(s.x, s.y, height(lower, s.x, s.y));
    return;
  }
  // Where an arc bounds two faces, each is meshed with its own chords: slivers thinner than the chord height are no
  // open space and no overlap.
  const double area = integrate(polygon).first;
  if (area <= units::tolerance::mesh_mm * longest(polygon)) return;
  mating.void_mm3 += integrate(keep(polygon, [](const Spot& s) { return s.open; })).second;
  mating.overlap_mm3 -= integrate(keep(polygon, [](const Spot& s) { return -s.open; })).second;
}

/// Columns of triangles over the plan, so that only near ones are compared.
class Columns {
 public:
  explicit Columns(const std::vector<Triangle>& triangles) : triangles_{triangles} {
    if (triangles.empty()) return;
    double x1 = triangles[0].x1, y1 = triangles[0].y1;
    x0_ = triangles[0].x0, y0_ = triangles[0].y0;
    for (const Triangle& t : triangles) {
      x0_ = std::min(x0_, t.x0), y0_ = std::min(y0_, t.y0);
      x1 = std::max(x1, t.x1), y1 = std::max(y1, t.y1);
    }
    count_ = std::max(1, static_cast<int>(std::sqrt(double(triangles.size()))));
    dx_ = (x1 - x0_) / count_, dy_ = (y1 - y0_) / count_;
    cells_.resize(static_cast<std::size_t>(count_) * count_);
    for (std::size_t i = 0; i < triangles.size(); ++i)
      each(triangles[i], [&](int, int, std::vector<std::size_t>& cell) { cell.push_back(i); });
  }

  /// Calls `meet` once for every triangle whose box meets that of `t`: in the first cell that both share.
  template <class Meet>
  void near(const Triangle& t, const Meet& meet) {
    each(t, [&](int c, int r, const std::vector<std::size_t>& cell) {
      for (const std::size_t i : cell) {
        const Triangle& o = triangles_[i];
        if (o.x1 < t.x0 || o.x0 > t.x1 || o.y1 < t.y0 || o.y0 > t.y1) continue;
        if (column(std::max(o.x0, t.x0)) == c && row(std::max(o.y0, t.y0)) == r) meet(o);
      }
    });
  }

 private:
  int column(double x) const { return std::clamp(static_cast<int>((x - x0_) / dx_), 0, count_ - 1); }
  int row(double y) const { return std::clamp(static_cast<int>((y - y0_) / dy_), 0, count_ - 1); }
  template <class Visit>
  void each(const Triangle& t, const Visit& visit) {
    if (cells_.empty()) return;
    for (int r = row(t.y0); r <= row(t.y1); ++r)
      for (int c = column(t.x0); c <= column(t.x1); ++c) visit(c, r, cells_[static_cast<std::size_t>(r) * count_ + c]);
  }

  const std::vector<Triangle>& triangles_;
  double x0_ = 0, y0_ = 0, dx_ = 1, dy_ = 1;
  int count_ = 1;
  std::vector<std::vector<std::size_t>> cells_;
};

}  // namespace

Mating mate(const TopoDS_Shape& upper, const TopoDS_Shape& lower) {
  const std::vector<Triangle> under = looking(upper, false), over = looking(lower, true);
  Columns columns{over};
  Mating mating;
  for (const Triangle& t : under) columns.near(t, [&](const Triangle& o) { add(mating, t, o); });
  return mating;
}

std::vector<Depth> depths(const TopoDS_Shape& solid) {
  std::vector<Plate> tops;
  for (const Triangle& t : looking(solid, true)) tops.push_back({t.corner.begin(), t.corner.end()});
  return depths(tops, solid);
}

std::vector<Depth> depths(const std::vector<Plate>& tops, const TopoDS_Shape& solid) {
  const std::vector<Triangle> below = looking(solid, false);
  Columns columns{below};
  std::vector<Depth> found;
  for (const Plate& top : tops)
    for (std::size_t i = 1; i + 1 < top.size(); ++i) {
      const Triangle t = to_triangle({top[0], top[i], top[i + 1]});
      if (std::abs(turn(t)) <= units::tolerance::length_mm) continue;
      columns.near(t, [&](const Triangle& o) {
        const Polygon polygon = common(t, o);
        if (polygon.size() < 3 || integrate(polygon).first <= units::tolerance::length_mm) return;
        for (const Spot& s : polygon) found.push_back({{s.x, s.y, height(t, s.x, s.y)}, s.open});
      });
    }
  return found;
}

}  // namespace fallwright::measure
