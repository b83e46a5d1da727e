#include <algorithm>
#include <cmath>
#include <limits>

#include <BRepTools.hxx>
#include <BRepTools_WireExplorer.hxx>
#include <BRep_Tool.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Vertex.hxx>
#include <TopoDS_Wire.hxx>

#include "brep/plan.hpp"
#include "brep/properties.hpp"
#include "measure/detail.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using brep::PlanPoint;
using brep::Polygon;

constexpr double reach_mm = 1778;  ///< 70 in: the height up to which the free floor must stay free (UPC text)

/// A face's outer loop in plan; what stands over the floor has straight edges.
Polygon plan_of(const TopoDS_Face& face) {
  Polygon polygon;
  for (BRepTools_WireExplorer edge{BRepTools::OuterWire(face), face}; edge.More(); edge.Next()) {
    const gp_Pnt p = BRep_Tool::Pnt(edge.CurrentVertex());
    polygon.push_back({p.X(), p.Y()});
  }
  if (!polygon.empty() && brep::area(brep::to_loop(polygon)) < 0) std::reverse(polygon.begin(), polygon.end());
  return polygon;
}

struct Segment {
  PlanPoint a, b;  ///< free floor to the left
};

double distance(PlanPoint p, const Segment& s) {
  const double dx = s.b.x - s.a.x, dy = s.b.y - s.a.y;
  const double t = std::clamp(((p.x - s.a.x) * dx + (p.y - s.a.y) * dy) / (dx * dx + dy * dy), 0.0, 1.0);
  return std::hypot(p.x - s.a.x - t * dx, p.y - s.a.y - t * dy);
}

/// Corners of all that a person stands on: the floor's facets, and the drain that fills its opening even where that
/// reaches the rim.
std::vector<PlanPoint> floor_corners(const parts::Solid& base, const std::array<double, 6>& drain) {
  std::vector<PlanPoint> points{{drain[0], drain[1]}, {drain[3], drain[1]}, {drain[3], drain[4]}, {drain[0], drain[4]}};
  for (const parts::Facet& facet : base.facets)
    if (facet.surface == "base-floor")
      for (const gp_Pnt& p : corners(facet.face)) points.push_back({p.X(), p.Y()});
  return points;
}

double cross(PlanPoint o, PlanPoint a, PlanPoint b) {
  return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
}

/// Corners that rounding alone has made: on a straight side, or one beside another.
Polygon without_straight_corners(Polygon polygon) {
  for (std::size_t i = 0; i < polygon.size() && polygon.size() > 3;) {
    const PlanPoint before = polygon[(i + polygon.size() - 1) % polygon.size()];
    const PlanPoint after = polygon[(i + 1) % polygon.size()];
    const double span = std::hypot(after.x - before.x, after.y - before.y);
    const bool twin = std::hypot(polygon[i].x - before.x, polygon[i].y - before.y) <= units::tolerance::length_mm;
    if (twin || cross(before, polygon[i], after) <= units::tolerance::length_mm * span)
      polygon.erase(polygon.begin() + static_cast<std::ptrdiff_t>(i));
    else
      ++i;
  }
  return polygon;
}

/// Convex hull: the floor of a base is convex. Signs of the cross product are taken as they are: with a tolerance a
/// true corner would be lost where points on an upright side stand in no order.
Polygon hull(std::vector<PlanPoint> points) {
  std::sort(points.begin(), points.end(), [](PlanPoint a, PlanPoint b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
  Polygon polygon;
  const auto half = [&](auto begin, auto end) {
    const std::size_t start = polygon.size();
    for (auto it = begin; it != end; ++it) {
      while (polygon.size() >= start + 2 && cross(polygon[polygon.size() - 2], polygon.back(), *it) <= 0)
        polygon.pop_back();
      polygon.push_back(*it);
    }
    polygon.pop_back();
  };
  half(points.begin(), points.end());
  half(points.rbegin(), points.rend());
  return without_straight_corners(polygon);
}

/// Plans of the solids that stand or hang over the floor within reach: seen from below, by their faces that look down.
std::vector<Polygon> obstacles(const parts::Model& model, double from_z) {
  std::vector<Polygon> found;
  for (const parts::Solid& solid : model.solids) {
    if (solid.role != parts::Role::seat_block && solid.role != parts::Role::bench_frame) continue;
    for (const TopoDS_Face& face : faces_of(solid.shape)) {
      const auto normal = outward(face);
      if (!normal || normal->Z() > -0.1) continue;
      const auto box = brep::box_of(face);
      if (box[2] < from_z + reach_mm) found.push_back(plan_of(face));
    }
  }
  return found;
}

Polygon common(Polygon subject, const Polygon& window) {
  for (std::size_t i = 0; i < window.size() && !subject.empty(); ++i) {
    const PlanPoint a = window[i], b = window[(i + 1) % window.size()];
    subject = brep::clip(subject, a.y - b.y, b.x - a.x, a.x * b.y - b.x * a.y);
  }
  return subject;
}

std::vector<Segment> edges(const Polygon& polygon, bool inside_out) {
  std::vector<Segment> segments;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const PlanPoint a = polygon[i], b = polygon[(i + 1) % polygon.size()];
    segments.push_back(inside_out ? Segment{b, a} : Segment{a, b});
  }
  return segments;
}

/// The point at equal distance to the lines of three segments, on the free side of each.
std::optional<PlanPoint> centre_of(const Segment& p, const Segment& q, const Segment& r) {
  double m[3][4];
  int row = 0;
  for (const Segment* s : {&p, &q, &r}) {
    const double dx = s->b.x - s->a.x, dy = s->b.y - s->a.y, length = std::hypot(dx, dy);
    m[row][0] = -dy / length, m[row][1] = dx / length, m[row][2] = -1;  // signed distance minus radius = 0
    m[row][3] = (m[row][0] * s->a.x + m[row][1] * s->a.y);
    ++row;
  }
  const auto minor = [&](int i, int j, int a, int b) { return m[i][a] * m[j][b] - m[j][a] * m[i][b]; };
  const auto determinant = [&](int a, int b, int c) {
    return m[0][a] * minor(1, 2, b, c) - m[1][a] * minor(0, 2, b, c) + m[2][a] * minor(0, 1, b, c);
  };
  const double d = determinant(0, 1, 2);
  if (std::abs(d) < units::tolerance::ratio) return std::nullopt;
  return PlanPoint{determinant(3, 1, 2) / d, determinant(0, 3, 2) / d};
}

/// The largest circle touches three edges (or two parallel ones, and then a third somewhere along them), so looking at
/// all triples finds it exactly for a free floor without inward corners, and never overstates it otherwise.
void inscribe(const std::vector<Segment>& bounds, const std::function<bool(PlanPoint)>& free, facts::Clear& clear) {
  for (std::size_t i = 0; i < bounds.size(); ++i)
    for (std::size_t j = i + 1; j < bounds.size(); ++j)
      for (std::size_t k = j + 1; k < bounds.size(); ++k) {
        const auto centre = centre_of(bounds[i], bounds[j], bounds[k]);
        if (!centre || !free(*centre)) continue;
        double radius = std::numeric_limits<double>::max();
        for (const Segment& s : bounds) radius = std::min(radius, distance(*centre, s));
        if (2 * radius <= clear.circle_mm) continue;
        clear.circle_mm = 2 * radius;
        clear.circle_at_mm = {centre->x, centre->y, 0};
      }
}

bool is_inside(const Polygon& convex, PlanPoint p) {
  for (std::size_t i = 0; i < convex.size(); ++i)
    if (cross(convex[i], convex[(i + 1) % convex.size()], p) < 0) return false;
  return !convex.empty();
}

}  // namespace

facts::Clear measure_clear(const parts::Model& model) {
  const parts::Solid &base = *model.first(parts::Role::base), &drain = *model.first(parts::Role::drain);
  const auto drain_box = brep::box_of(drain.shape);
  const Polygon floor = hull(floor_corners(base, drain_box));
  facts::Clear clear;
  clear.area_mm2 = brep::area(brep::to_loop(floor));
  std::vector<Segment> bounds = edges(floor, false);
  std::vector<Polygon> taken;
  for (const Polygon& obstacle : obstacles(model, drain_box[5])) {
    const Polygon part = common(obstacle, floor);
    if (part.empty()) continue;
    clear.area_mm2 -= brep::area(brep::to_loop(part));
    for (const Segment& s : edges(part, true)) bounds.push_back(s);
    taken.push_back(part);
  }
  inscribe(
      bounds,
      [&](PlanPoint p) {
        return is_inside(floor, p) &&
               std::none_of(taken.begin(), taken.end(), [&](const Polygon& t) { return is_inside(t, p); });
      },
      clear);
  clear.circle_at_mm[2] = drain_box[5];
  double x0 = floor[0].x, x1 = x0, y0 = floor[0].y, y1 = y0;
  for (const PlanPoint& p : floor)
    x0 = std::min(x0, p.x), x1 = std::max(x1, p.x), y0 = std::min(y0, p.y), y1 = std::max(y1, p.y);
  for (const Polygon& t : taken) {
    // An obstacle along a whole side takes its width off that side.
    double tx0 = t[0].x, tx1 = tx0, ty0 = t[0].y, ty1 = ty0;
    for (const PlanPoint& p : t)
      tx0 = std::min(tx0, p.x), tx1 = std::max(tx1, p.x), ty0 = std::min(ty0, p.y), ty1 = std::max(ty1, p.y);
    constexpr double same = 0.01;
    if (ty0 <= y0 + same && ty1 >= y1 - same) (tx0 <= x0 + same ? x0 : x1) = tx0 <= x0 + same ? tx1 : tx0;
    if (tx0 <= x0 + same && tx1 >= x1 - same) (ty0 <= y0 + same ? y0 : y1) = ty0 <= y0 + same ? ty1 : ty0;
  }
  clear.least_width_mm = std::min(x1 - x0, y1 - y0);
  return clear;
}

}  // namespace fallwright::measure
