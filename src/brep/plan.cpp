#include "brep/plan.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "brep/arc.hpp"
#include "points/points.hpp"
#include "units/tolerance.hpp"

namespace fallwright::brep {
namespace {

using units::tolerance::weld_mm;

}  // namespace

Loop rectangle(double x0, double y0, double x1, double y1) {
  return {{{x0, y0}}, {{x1, y0}}, {{x1, y1}}, {{x0, y1}}};
}

Loop circle(PlanPoint centre, double radius) {
  return {{{centre.x + radius, centre.y}, centre}, {{centre.x - radius, centre.y}, centre}};
}

Loop reversed(const Loop& loop) {
  Loop back;
  for (std::size_t i = loop.size(); i-- > 0;) {
    const Corner& edge = loop[(i + loop.size() - 1) % loop.size()];  // the edge that led here now leads away
    back.push_back({loop[i].at, edge.centre, edge.centre && !edge.clockwise});
  }
  return back;
}

double area(const Loop& loop) {
  double twice = 0;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Corner& a = loop[i];
    const PlanPoint b = loop[(i + 1) % loop.size()].at, o = loop[0].at;
    twice += (a.at.x - o.x) * (b.y - o.y) - (b.x - o.x) * (a.at.y - o.y);
    if (!a.centre) continue;
    const double radius = std::hypot(a.at.x - a.centre->x, a.at.y - a.centre->y);
    const double turn = a.clockwise ? -sweep(b, a.at, *a.centre) : sweep(a.at, b, *a.centre);
    twice += radius * radius * (turn - std::sin(turn));
  }
  return twice / 2;
}

PlanPoint moment(const Loop& loop) {
  PlanPoint sum{0, 0};
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Corner& a = loop[i];
    const PlanPoint b = loop[(i + 1) % loop.size()].at, o = loop[0].at;
    const double piece = ((a.at.x - o.x) * (b.y - o.y) - (b.x - o.x) * (a.at.y - o.y)) / 2;
    sum.x += piece * (o.x + a.at.x + b.x) / 3, sum.y += piece * (o.y + a.at.y + b.y) / 3;
    if (!a.centre) continue;
    // A disc's segment: its area about the disc's centre, and 2/3 r3 sin3(t/2) towards the arc's middle.
    const double radius = std::hypot(a.at.x - a.centre->x, a.at.y - a.centre->y);
    const double turn = a.clockwise ? -sweep(b, a.at, *a.centre) : sweep(a.at, b, *a.centre);
    const double segment = radius * radius * (turn - std::sin(turn)) / 2,
                 away = 2. / 3 * std::pow(radius, 3) * std::pow(std::sin(turn / 2), 3),
                 towards = std::atan2(a.at.y - a.centre->y, a.at.x - a.centre->x) + turn / 2;
    sum.x += segment * a.centre->x + away * std::cos(towards);
    sum.y += segment * a.centre->y + away * std::sin(towards);
  }
  return sum;
}

Loop to_loop(const Polygon& polygon) {
  Loop loop;
  for (const PlanPoint& p : polygon) loop.push_back({p});
  return loop;
}

Polygon clip(const Polygon& polygon, double a, double b, double c) {
  const double scale = std::hypot(a, b);
  const auto side = [&](PlanPoint p) {
    const double d = (a * p.x + b * p.y + c) / scale;
    return std::abs(d) < weld_mm ? 0.0 : d;
  };
  Polygon kept;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const PlanPoint p = polygon[i], q = polygon[(i + 1) % polygon.size()];
    const double at_p = side(p), at_q = side(q);
    if (at_p >= 0) kept.push_back(p);
    if (at_p * at_q < 0) {
      const double t = at_p / (at_p - at_q);
      kept.push_back({p.x + t * (q.x - p.x), p.y + t * (q.y - p.y)});
    }
  }
  return kept.size() >= 3 && area(to_loop(kept)) > weld_mm ? kept : Polygon{};
}

bool inside(const Loop& loop, PlanPoint point) {
  // Sides cross a ray that runs to the right; an arc does so by its chord, and by what lies between the two.
  bool in = false;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Corner& a = loop[i];
    const PlanPoint p = a.at, q = loop[(i + 1) % loop.size()].at;
    if (points::crosses_ray({p.x, p.y}, {q.x, q.y}, {point.x, point.y})) in = !in;
    if (!a.centre) continue;
    const double radius = std::hypot(p.x - a.centre->x, p.y - a.centre->y);
    const double left = (q.x - p.x) * (point.y - p.y) - (q.y - p.y) * (point.x - p.x);
    const bool whole = std::hypot(q.x - p.x, q.y - p.y) < weld_mm;
    if (std::hypot(point.x - a.centre->x, point.y - a.centre->y) < radius &&
        (whole || (a.clockwise ? left > 0 : left < 0)))
      in = !in;
  }
  return in;
}

namespace {

/// Off its corners, where loops may touch.
PlanPoint on_first_edge(const Loop& loop) {
  const Corner& a = loop[0];
  const PlanPoint b = loop[1 % loop.size()].at;
  if (a.centre) return along_arc(a.at, b, *a.centre, a.clockwise, 0.5);
  return {(a.at.x + b.x) / 2, (a.at.y + b.y) / 2};
}

}  // namespace

std::vector<std::vector<Loop>> gather(std::vector<Loop> loops) {
  std::vector<std::vector<Loop>> regions;
  for (Loop& loop : loops)
    if (area(loop) > 0) regions.push_back({std::move(loop)});
  // Smallest first: a hole in an island belongs to the island, not to what lies round it.
  std::sort(regions.begin(), regions.end(), [](const auto& a, const auto& b) { return area(a[0]) < area(b[0]); });
  for (Loop& loop : loops) {
    if (loop.empty()) continue;
    const auto owner = std::find_if(regions.begin(), regions.end(), [&](const std::vector<Loop>& region) {
      return regions.size() == 1 || inside(region.front(), on_first_edge(loop));
    });
    if (owner != regions.end()) owner->push_back(std::move(loop));
  }
  return regions;
}

}  // namespace fallwright::brep
