#include "survey/floor_net.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include <Eigen/Dense>

#include "points/points.hpp"
#include "units/tolerance.hpp"

namespace fallwright::survey {
namespace {

constexpr double weld = units::tolerance::weld_mm;

HeightPlane plane_of(const Spot& a, const Spot& b, const Spot& c) {
  const double d = (b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y);
  const double gx = ((b.z - a.z) * (c.y - a.y) - (c.z - a.z) * (b.y - a.y)) / d;
  const double gy = ((b.x - a.x) * (c.z - a.z) - (c.x - a.x) * (b.z - a.z)) / d;
  return {a.z - gx * a.x - gy * a.y, gx, gy};
}

std::vector<points::Point2> places_of(const std::vector<Knot>& knots) {
  std::vector<points::Point2> places;
  for (const Knot& knot : knots) places.push_back({knot.at.x, knot.at.y});
  return places;
}

/// The outline of all spots, and what lies beyond it.
class Outline {
 public:
  Outline(const std::vector<Knot>& spots, std::vector<std::size_t> outline)
      : spots_{spots}, outline_{std::move(outline)} {}

  /// A knot at `p` that carries the surface on from the point of the outline nearest to it.
  Knot beyond(Point p) const {
    Knot best;
    double least = std::numeric_limits<double>::max();
    for (std::size_t i = 0; i < outline_.size(); ++i) {
      const std::size_t ia = outline_[i], ib = outline_[(i + 1) % outline_.size()];
      const Point a = spots_[ia].at, b = spots_[ib].at;
      const double dx = b.x - a.x, dy = b.y - a.y;
      const double t = std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy), 0.0, 1.0);
      const Point near{a.x + t * dx, a.y + t * dy};
      const double away = std::hypot(p.x - near.x, p.y - near.y);
      if (away < least) least = away, best = {p, ia, ib, t, {p.x - near.x, p.y - near.y}};
    }
    return best;
  }

  bool holds(Point p) const {
    for (std::size_t i = 0; i < outline_.size(); ++i)
      if (cross(spots_[outline_[i]].at, spots_[outline_[(i + 1) % outline_.size()]].at, p) <= 0) return false;
    return true;
  }

  /// Points on the extent's edge that carry the surface on from the outline: its corners, and straight out from every
  /// outermost spot.
  std::vector<Knot> frame(const Rect& extent) const {
    std::vector<Knot> frame;
    for (const Point& corner : to_polygon(extent)) frame.push_back(beyond(corner));
    for (std::size_t corner = 0; corner < outline_.size(); ++corner) {
      const std::size_t i = outline_[corner];
      const Point s = spots_[i].at;
      const struct {
        Point step, edge;
      } ways[] = {{{1, 0}, {extent.x1, s.y}},
                  {{-1, 0}, {extent.x0, s.y}},
                  {{0, 1}, {s.x, extent.y1}},
                  {{0, -1}, {s.x, extent.y0}}};
      for (const auto& way : ways) {
        if (holds({s.x + way.step.x, s.y + way.step.y})) continue;
        if (is_drawn_in(corner) && leads_out(corner, way.step)) {
          frame.push_back({way.edge, i, i, 0, {way.edge.x - s.x, way.edge.y - s.y}});
          continue;
        }
        const Knot knot = beyond(way.edge);
        const Point near{knot.at.x - knot.out.x, knot.at.y - knot.out.y};
        if (std::hypot(near.x - s.x, near.y - s.y) < 1) frame.push_back(knot);  // straight out, not past a neighbour
      }
    }
    return frame;
  }

 private:
  Point at(std::size_t corner) const { return spots_[outline_[corner % outline_.size()]].at; }
  /// By more than rounding: readings along a wall that runs askew stand in line, on either side of it by a hair.
  bool is_drawn_in(std::size_t corner) const {
    const Point before = at(corner + outline_.size() - 1), after = at(corner + 1);
    return cross(before, at(corner), after) < -weld * std::hypot(after.x - before.x, after.y - before.y);
  }
  /// More out than along the line between its neighbours.
  bool leads_out(std::size_t corner, const Point& step) const {
    const Point before = at(corner + outline_.size() - 1), after = at(corner + 1);
    const double x = after.x - before.x, y = after.y - before.y;
    return step.x * y - step.y * x > std::abs(step.x * x + step.y * y);
  }

  const std::vector<Knot>& spots_;
  std::vector<std::size_t> outline_;
};

/// The convex outline drawn in to spots that stand all but in line with two of its corners: readings along a wall, some
/// of them an inch off it. Between the two and such a spot there would be a sliver, and over its inch all that the
/// floor falls along the wall.
std::vector<std::size_t> drawn_in(const std::vector<std::size_t>& outline, const std::vector<Knot>& spots) {
  constexpr double in_line = 1. / 12;  // of the side's length; an own choice
  std::vector<bool> on(spots.size());
  for (const std::size_t i : outline) on[i] = true;
  const auto nearest = [&](const Point& a, const Point& b) {
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    std::optional<std::size_t> found;
    double least = length * in_line;
    for (std::size_t i = 0; i < spots.size(); ++i) {
      const Point& p = spots[i].at;
      const double along = ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / length;
      const double off = cross(a, b, p) / length;
      if (!on[i] && along > 0 && along < length && off < least) least = off, found = i;
    }
    return found;
  };
  std::vector<std::size_t> drawn = outline;
  for (std::size_t i = 0; i < drawn.size();) {
    const std::optional<std::size_t> between = nearest(spots[drawn[i]].at, spots[drawn[(i + 1) % drawn.size()]].at);
    if (!between) {
      ++i;
    } else {
      on[*between] = true;
      drawn.insert(drawn.begin() + static_cast<std::ptrdiff_t>(i) + 1, *between);
    }
  }
  return drawn;
}

/// Numbers the triangles so that those on one circle, with no side between them that was asked for, share a number.
std::vector<std::size_t> grouped(const std::vector<points::Triangle>& triangles) {
  std::vector<std::optional<std::size_t>> group(triangles.size());
  for (std::size_t first = 0; first < triangles.size(); ++first) {
    if (group[first]) continue;
    std::vector<std::size_t> todo{first};
    group[first] = first;
    while (!todo.empty()) {
      const points::Triangle& triangle = triangles[todo.back()];
      todo.pop_back();
      for (std::size_t i = 0; i < 3; ++i) {
        const auto next = triangle.beyond[i];
        if (!next || !triangle.on_circle[i] || triangle.is_fixed[i] || group[*next]) continue;
        group[*next] = first;
        todo.push_back(*next);
      }
    }
  }
  std::vector<std::size_t> numbers;
  for (const auto& number : group) numbers.push_back(*number);
  return numbers;
}

/// Knots on one circle, in order round it.
using Ring = std::vector<std::size_t>;

std::vector<Ring> rings_of(const std::vector<points::Triangle>& triangles, const std::vector<Knot>& knots) {
  const std::vector<std::size_t> group = grouped(triangles);
  std::map<std::size_t, std::set<std::size_t>> members;
  for (std::size_t t = 0; t < triangles.size(); ++t)
    members[group[t]].insert(triangles[t].corners.begin(), triangles[t].corners.end());
  std::vector<Ring> rings;
  for (const auto& [number, corners] : members) {
    Ring ring{corners.begin(), corners.end()};
    Point middle;
    for (const std::size_t k : ring) middle.x += knots[k].at.x, middle.y += knots[k].at.y;
    middle = {middle.x / static_cast<double>(ring.size()), middle.y / static_cast<double>(ring.size())};
    std::sort(ring.begin(), ring.end(), [&](std::size_t a, std::size_t b) {
      const Point p = knots[a].at, q = knots[b].at;
      return std::atan2(p.y - middle.y, p.x - middle.x) < std::atan2(q.y - middle.y, q.x - middle.x);
    });
    rings.push_back(std::move(ring));
  }
  // Numbers of groups follow the triangulation's; cells come in an order of their own.
  const auto place = [&](const Ring& ring, std::size_t i) {
    return std::pair{knots[ring[i]].at.y, knots[ring[i]].at.x};
  };
  std::sort(rings.begin(), rings.end(), [&](const Ring& a, const Ring& b) {
    return std::pair{place(a, 0), place(a, 1)} < std::pair{place(b, 0), place(b, 1)};
  });
  return rings;
}

bool lies_on(const HeightPlane& plane, const std::vector<Spot>& spots) {
  return std::all_of(spots.begin(), spots.end(),
                     [&](const Spot& s) { return std::abs(plane.at(s.x, s.y) - s.z) < weld; });
}

void add_cells(const std::vector<Spot>& ring, std::vector<Cell>& cells) {
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

namespace {

/// Leaves of a convex polygon what lies to the left of the line from `a` to `b`. @param kept room to work in
void keep_left(Polygon& polygon, Point a, Point b, Polygon& kept) {
  kept.clear();
  if (polygon.empty()) return;
  const double dx = b.x - a.x, dy = b.y - a.y, length = std::sqrt(dx * dx + dy * dy);
  const auto side = [&](Point p) {
    const double d = cross(a, b, p) / length;
    return std::abs(d) < weld ? 0.0 : d;
  };
  const double at_first = side(polygon.front());
  double at_p = at_first;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const bool last = i + 1 == polygon.size();
    const Point p = polygon[i], q = polygon[last ? 0 : i + 1];
    const double at_q = last ? at_first : side(q);
    if (at_p >= 0) kept.push_back(p);
    if (at_p * at_q < 0) {
      const double t = at_p / (at_p - at_q);
      kept.push_back({p.x + t * (q.x - p.x), p.y + t * (q.y - p.y)});
    }
    at_p = at_q;
  }
  double twice = 0;
  for (std::size_t i = 1; i + 1 < kept.size(); ++i) twice += cross(kept[0], kept[i], kept[i + 1]);
  if (!(twice > weld)) kept.clear();
  polygon.swap(kept);
}

}  // namespace

Polygon clip(const Polygon& polygon, Point a, Point b) {
  Polygon left = polygon, kept;
  keep_left(left, a, b, kept);
  return left;
}

Polygon common(Polygon polygon, const Polygon& window) {
  Polygon kept;
  kept.reserve(polygon.size() + window.size());
  for (std::size_t i = 0; i < window.size() && !polygon.empty(); ++i)
    keep_left(polygon, window[i], window[(i + 1) % window.size()], kept);
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

FloorNet::FloorNet(const std::vector<Spot>& spots, const Rect& extent) {
  for (std::size_t i = 0; i < spots.size(); ++i) knots.push_back({{spots[i].x, spots[i].y}, i, i, 0, {}});
  const auto inner = points::triangulate(places_of(knots), {});
  const std::vector<std::size_t> outline = drawn_in(inner->outline, knots);
  for (const Knot& knot : Outline{knots, outline}.frame(extent)) knots.push_back(knot);
  std::vector<std::pair<std::size_t, std::size_t>> sides;
  for (std::size_t i = 0; i < outline.size(); ++i) sides.emplace_back(outline[i], outline[(i + 1) % outline.size()]);
  rings = rings_of(points::triangulate(places_of(knots), sides)->triangles, knots);
}

Floor floor_through(const std::vector<Spot>& spots, const Rect& extent) {
  const HeightPlane plane = best_plane(spots);
  if (lies_on(plane, spots)) return plane_floor(plane, extent);
  const FloorNet net{spots, extent};
  const auto spot_of = [&](std::size_t k) {
    const Knot& knot = net.knots[k];
    const double z = spots[knot.a].z + knot.share * (spots[knot.b].z - spots[knot.a].z);
    return Spot{knot.at.x, knot.at.y, z + plane.gx * knot.out.x + plane.gy * knot.out.y};
  };
  std::vector<Cell> cells;
  for (const Ring& ring : net.rings) {
    std::vector<Spot> corners;
    for (const std::size_t k : ring) corners.push_back(spot_of(k));
    add_cells(corners, cells);
  }
  return Floor{std::move(cells)};
}

}  // namespace fallwright::survey
