#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "brep/plan.hpp"
#include "brep/properties.hpp"
#include "measure/detail.hpp"
#include "measure/foremost.hpp"
#include "measure/least_width.hpp"
#include "measure/rim.hpp"
#include "measure/shapes.hpp"
#include "measure/wall_faces.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using brep::PlanPoint;
using brep::Polygon;

constexpr double reach_mm = 1778;  ///< 70 in: the height up to which the free floor must stay free (UPC text)

/// A face's outer loop in plan.
Polygon plan_of(const brep::Flat& flat) {
  Polygon polygon;
  for (const gp_Pnt& p : flat.rings[brep::outer_ring(flat)]) polygon.push_back({p.X(), p.Y()});
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
std::vector<survey::Point> floor_corners(const parts::Solid& base, const parts::Solid& drain) {
  const auto box = parts::box_of(drain);
  std::vector<survey::Point> points{{box[0], box[1]}, {box[3], box[1]}, {box[3], box[4]}, {box[0], box[4]}};
  if (const survey::Polygon own = Rim{drain}.corners(); own.size() > 3) points = own;  // it need not be square
  for (const parts::Facet& facet : base.facets)
    if (facet.surface == facts::Surface::base_floor)
      for (const gp_Pnt& p : corners(facet.face)) points.push_back({p.X(), p.Y()});
  return points;
}

/// Plans of the solids that stand or hang over the floor within reach: seen from below, by their faces that look down.
std::vector<Polygon> obstacles(const parts::Model& model, double from_z) {
  std::vector<Polygon> found;
  for (const parts::Solid& solid : model.solids) {
    if (solid.role != parts::Role::seat_block && solid.role != parts::Role::bench_frame) continue;
    const auto skin = parts::skin_of(solid);
    for (const brep::Flat& flat : skin->flats)
      if (flat.normal.Z() <= -0.1 && flat.box[2] < from_z + reach_mm) found.push_back(plan_of(flat));
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
void inscribe(const std::vector<Segment>& bounds, const std::function<bool(PlanPoint)>& free, const Foremost& foremost,
              facts::Finished& clear) {
  constexpr double same_mm = units::tolerance::length_mm;
  std::optional<gp_Pnt> told;
  for (std::size_t i = 0; i < bounds.size(); ++i)
    for (std::size_t j = i + 1; j < bounds.size(); ++j)
      for (std::size_t k = j + 1; k < bounds.size(); ++k) {
        const auto centre = centre_of(bounds[i], bounds[j], bounds[k]);
        if (!centre || !free(*centre)) continue;
        double radius = std::numeric_limits<double>::max();
        for (const Segment& s : bounds) radius = std::min(radius, distance(*centre, s));
        const gp_Pnt at{centre->x, centre->y, 0};
        if (2 * radius < clear.circle_mm - same_mm) continue;
        const bool alike = told && 2 * radius <= clear.circle_mm + same_mm;
        clear.circle_mm = std::max(clear.circle_mm, 2 * radius);
        if (!alike || foremost.before(at, *told)) told = at;
      }
  if (told) clear.circle_at_mm = to_point(*told);
}

bool is_inside(const Polygon& convex, PlanPoint p) {
  for (std::size_t i = 0; i < convex.size(); ++i)
    if (const PlanPoint& a = convex[i], &b = convex[(i + 1) % convex.size()];
        (b.x - a.x) * (p.y - a.y) < (b.y - a.y) * (p.x - a.x))
      return false;
  return !convex.empty();
}

struct Extent {
  double x0, y0, x1, y1;
  explicit Extent(const Polygon& polygon) : x0{polygon[0].x}, y0{polygon[0].y}, x1{x0}, y1{y0} {
    for (const PlanPoint& p : polygon)
      x0 = std::min(x0, p.x), x1 = std::max(x1, p.x), y0 = std::min(y0, p.y), y1 = std::max(y1, p.y);
  }
};

survey::Polygon in_plan(const Polygon& polygon) {
  survey::Polygon points;
  for (const PlanPoint& p : polygon) points.push_back({p.x, p.y});
  return points;
}

/// A wall's finished face bounds the floor in its side's place where it comes in farther.
std::vector<SideLine> with_walls(std::vector<SideLine> sides, const std::vector<WallFace>& walls) {
  for (const WallFace& wall : walls) {
    const double length = std::hypot(wall.nx, wall.ny);
    sides.push_back({wall.side, wall.nx / length, wall.ny / length, wall.reach_mm / length});
  }
  return sides;
}

/// Whether something on a floor stands on a side of it; it need not stand square to that.
bool stands_on(const Polygon& part, const Polygon& floor, const std::vector<SideLine>& sides, job::Side side) {
  constexpr double same_mm = 0.01;
  const auto on = [&](const SideLine& line, const Polygon& of) {
    return std::any_of(of.begin(), of.end(), [&](const PlanPoint& p) { return line.inside({p.x, p.y}) < same_mm; });
  };
  return std::any_of(sides.begin(), sides.end(),
                     [&](const SideLine& line) { return line.side == side && on(line, floor) && on(line, part); });
}

/// The least between opposite sides of a floor; an obstacle from one side to the other takes its width off the side
/// that it is nearer to.
double least_width(Polygon floor, std::vector<SideLine> sides, const std::vector<Polygon>& taken) {
  using job::Side;
  const auto shorten = [&](Side low, Side high, double from, double to, double first, double last) {
    const bool near_low = from + to < first + last;
    const double sign = near_low ? 1 : -1, at = near_low ? to : -from;
    const bool sideways = low == Side::left;
    sides.push_back({near_low ? low : high, sideways ? sign : 0, sideways ? 0 : sign, at});
    floor = brep::clip(floor, sides.back().nx, sides.back().ny, -at);
  };
  for (const Polygon& obstacle : taken) {
    const Polygon part = common(obstacle, floor);
    if (part.empty()) continue;
    const Extent t{part}, all{floor};
    const auto across = [&](Side a, Side b) {
      return stands_on(part, floor, sides, a) && stands_on(part, floor, sides, b);
    };
    const bool deep = across(Side::front, Side::back), wide = across(Side::left, Side::right);
    if (deep) shorten(Side::left, Side::right, t.x0, t.x1, all.x0, all.x1);
    if (wide && !floor.empty()) shorten(Side::front, Side::back, t.y0, t.y1, all.y0, all.y1);
    if (floor.empty()) return 0;
  }
  const Least least = least_between(in_plan(floor), sides);
  return std::min(least.across_mm, least.deep_mm);
}

/// What obstacles leave of a convex floor between its sides.
facts::Finished free_of(const Polygon& floor, const std::vector<SideLine>& sides, const std::vector<Polygon>& obstacles,
                        const Foremost& foremost) {
  facts::Finished clear;
  if (floor.empty()) return clear;
  clear.area_mm2 = brep::area(brep::to_loop(floor));
  std::vector<Segment> bounds = edges(floor, false);
  std::vector<Polygon> taken;
  for (const Polygon& obstacle : obstacles) {
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
      foremost, clear);
  clear.least_width_mm = least_width(floor, sides, obstacles);
  return clear;
}

SideLine front_of(const survey::Polygon& plan) {
  const std::vector<SideLine> sides = side_lines(plan);
  return *std::find_if(sides.begin(), sides.end(), [](const SideLine& s) { return s.side == job::Side::front; });
}

/// A floor whose front edge lies along the threshold, out to the middle of that; nothing where there is none. `rim` is
/// the base's own plan, whose front may be askew to the other sides.
Polygon to_centreline(const Polygon& floor, const survey::Polygon& rim, const job::Threshold& threshold) {
  if (floor.empty() || threshold.width.is_zero()) return {};
  const SideLine inner = front_of(in_plan(floor)), outer = front_of(rim);
  std::vector<survey::Point> points = in_plan(floor);
  for (const survey::Point& p : in_plan(floor))
    if (inner.inside(p) < units::tolerance::length_mm) {
      const double half = outer.inside(p) / 2;
      points.push_back({p.x - half * outer.nx, p.y - half * outer.ny});
    }
  Polygon wider;
  for (const survey::Point& p : hull(points)) wider.push_back({p.x, p.y});
  return wider;
}

bool seat_at(const job::Job& job, job::Side side) {
  return job.bench && job.bench->place == side;
}

/// Middle of one pair of sides, then across the other pair there.
facts::Compartment compartment_of(const job::Job& job, const Extent& floor, const std::vector<WallFace>& walls) {
  using job::Side;
  const auto bound = [&](Side side, double along) {
    const double edge = side == Side::left ? floor.x0 : side == Side::right ? floor.x1 : floor.y1;
    const auto wall = std::find_if(walls.begin(), walls.end(), [&](const WallFace& w) { return w.side == side; });
    if (wall == walls.end()) return edge;
    if (seat_at(job, side)) return wall->at(along);
    return side == Side::left ? std::max(edge, wall->at(along)) : std::min(edge, wall->at(along));
  };
  const double y = (floor.y0 + floor.y1) / 2, x = (bound(Side::left, y) + bound(Side::right, y)) / 2;
  const double depth = bound(Side::back, x) - floor.y0, middle = floor.y0 + depth / 2;
  return {bound(Side::right, middle) - bound(Side::left, middle), depth, {}};
}

}  // namespace

facts::Clear measure_clear(const parts::Model& model, const Framing& furred) {
  const parts::Solid &base = *model.first(parts::Role::base), &drain = *model.first(parts::Role::drain);
  const double top = parts::box_of(drain)[5];
  Polygon floor;
  for (const survey::Point& p : hull(floor_corners(base, drain))) floor.push_back({p.x, p.y});
  const std::vector<SideLine> sides = side_lines(in_plan(floor));
  std::vector<Polygon> over;
  for (const Polygon& obstacle : obstacles(model, top))
    if (const Polygon part = common(obstacle, floor); !part.empty()) over.push_back(part);
  const auto& build_up = model.job.survey.finish_mm;
  const auto walls = wall_faces(model, furred, top, top + reach_mm, build_up.value_or(0));

  facts::Clear clear;
  const Foremost foremost{model};
  const facts::Finished framed = free_of(floor, sides, over, foremost);
  clear.area_mm2 = framed.area_mm2;
  clear.circle_mm = framed.circle_mm;
  clear.circle_at_mm = {framed.circle_at_mm[0], framed.circle_at_mm[1], top};
  clear.least_width_mm = framed.least_width_mm;
  const survey::Polygon whole = Rim{base}.corners();
  const Least overall = least_between(whole, side_lines(whole));
  clear.receptor_mm = {overall.across_mm, overall.deep_mm};
  clear.compartment = compartment_of(model.job, Extent{floor}, walls);
  Polygon wider = to_centreline(floor, whole, model.job.base.threshold);
  const auto up_to_the_middle = [&] {
    if (wider.empty()) return;
    std::vector<Polygon> there;
    for (const Polygon& obstacle : obstacles(model, top))
      if (const Polygon part = common(obstacle, wider); !part.empty()) there.push_back(part);
    clear.to_centreline = free_of(wider, side_lines(in_plan(wider)), there, foremost);
    clear.to_centreline->circle_at_mm[2] = top;
  };
  if (!build_up) return up_to_the_middle(), clear;
  Polygon left = floor;
  for (const WallFace& wall : walls)
    for (Polygon* each : {&left, &wider}) *each = brep::clip(*each, wall.nx, wall.ny, -wall.reach_mm);
  clear.finished = free_of(left, with_walls(sides, walls), over, foremost);
  clear.finished->circle_at_mm[2] = top;
  up_to_the_middle();
  return clear;
}

}  // namespace fallwright::measure
