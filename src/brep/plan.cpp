#include "brep/plan.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "brep/arc.hpp"
#include "units/tolerance.hpp"

namespace fallwright::brep {
namespace {

constexpr double weld = units::tolerance::weld_mm;

/// Where the segment from `a` to `b` crosses the circle: parameters strictly between its ends, in order.
std::vector<double> crossings(PlanPoint a, PlanPoint b, PlanPoint centre, double radius) {
  const double dx = b.x - a.x, dy = b.y - a.y, fx = a.x - centre.x, fy = a.y - centre.y;
  const double length2 = dx * dx + dy * dy, half_b = (fx * dx + fy * dy) / length2;
  const double root = half_b * half_b - (fx * fx + fy * fy - radius * radius) / length2;
  std::vector<double> found;
  const double off = std::abs(fx * dy - fy * dx) / std::sqrt(length2);
  if (root <= 0 || off >= radius - weld) return found;  // a line that touches the circle does not cross it
  const double edge = weld / std::sqrt(length2);
  for (const double t : {-half_b - std::sqrt(root), -half_b + std::sqrt(root)})
    if (t > edge && t < 1 - edge) found.push_back(t);
  return found;
}

bool in_disc(PlanPoint p, PlanPoint centre, double radius) {
  return std::hypot(p.x - centre.x, p.y - centre.y) < radius;
}

/// Pieces of a loop outside the disc, as open chains of points; a whole loop outside comes back as `uncut`.
struct Pieces {
  std::vector<std::vector<PlanPoint>> chains;
  std::vector<Loop> uncut;
};

void cut(const Loop& loop, PlanPoint centre, double radius, Pieces& out) {
  std::vector<PlanPoint> points;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const PlanPoint a = loop[i].at, b = loop[(i + 1) % loop.size()].at;
    points.push_back(a);
    for (const double t : crossings(a, b, centre, radius))
      points.push_back({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
  }
  const std::size_t n = points.size();
  const auto kept = [&](std::size_t i) {
    const PlanPoint a = points[i % n], b = points[(i + 1) % n];
    return !in_disc({(a.x + b.x) / 2, (a.y + b.y) / 2}, centre, radius);
  };
  std::size_t start = 0;
  while (start < n && kept(start)) ++start;
  if (start == n) return out.uncut.push_back(loop);
  for (std::size_t step = 1; step <= n; ++step) {
    const std::size_t i = start + step;
    if (!kept(i)) continue;
    if (!kept(i - 1)) out.chains.push_back({points[i % n]});
    out.chains.back().push_back(points[(i + 1) % n]);
  }
}

/// Ties chains to loops along the disc: from a chain's end, clockwise on the circle to the nearest chain's start.
std::vector<Loop> tie_round(const std::vector<std::vector<PlanPoint>>& chains, PlanPoint centre) {
  const auto next_of = [&](std::size_t i) {
    std::size_t best = i;
    double least = std::numeric_limits<double>::max();
    for (std::size_t j = 0; j < chains.size(); ++j) {
      const double turn = sweep(chains[j].front(), chains[i].back(), centre);
      if (turn < least) least = turn, best = j;
    }
    return best;
  };
  std::vector<Loop> loops;
  std::vector<bool> used(chains.size(), false);
  for (std::size_t first = 0; first < chains.size(); ++first) {
    if (used[first]) continue;
    Loop loop;
    std::size_t i = first;
    do {
      used[i] = true;
      for (const PlanPoint& p : chains[i]) loop.push_back({p});
      loop.back().centre = centre;
      loop.back().clockwise = true;
      i = next_of(i);
    } while (i != first && !used[i]);
    loops.push_back(std::move(loop));
  }
  return loops;
}

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

Loop to_loop(const Polygon& polygon) {
  Loop loop;
  for (const PlanPoint& p : polygon) loop.push_back({p});
  return loop;
}

Polygon clip(const Polygon& polygon, double a, double b, double c) {
  const double scale = std::hypot(a, b);
  const auto side = [&](PlanPoint p) {
    const double d = (a * p.x + b * p.y + c) / scale;
    return std::abs(d) < weld ? 0.0 : d;
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
  return kept.size() >= 3 && area(to_loop(kept)) > weld ? kept : Polygon{};
}

std::vector<std::vector<Loop>> outside_disc(const std::vector<Loop>& loops, PlanPoint centre, double radius) {
  Pieces pieces;
  for (const Loop& loop : loops) cut(loop, centre, radius, pieces);
  std::vector<Loop> left = pieces.uncut;
  if (pieces.chains.empty()) {
    // Nothing crosses the circle: the disc lies wholly in, wholly out, or over everything.
    bool within = !loops.empty();
    for (const Loop& loop : loops) within = within && inside(loop, centre) == (area(loop) > 0);
    if (within && !left.empty()) left.push_back(reversed(circle(centre, radius)));
  }
  for (Loop& loop : tie_round(pieces.chains, centre)) left.push_back(std::move(loop));
  return gather(std::move(left));
}

bool inside(const Loop& loop, PlanPoint point) {
  // Winding by angle; arcs are followed in steps fine enough that no test point of ours lies between chord and arc.
  double turn = 0;
  const auto add = [&](PlanPoint a, PlanPoint b) {
    const double ax = a.x - point.x, ay = a.y - point.y, bx = b.x - point.x, by = b.y - point.y;
    turn += std::atan2(ax * by - ay * bx, ax * bx + ay * by);
  };
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Corner& a = loop[i];
    const PlanPoint b = loop[(i + 1) % loop.size()].at;
    if (!a.centre) {
      add(a.at, b);
      continue;
    }
    constexpr int steps = 64;
    PlanPoint last = a.at;
    for (int k = 1; k <= steps; ++k) {
      const PlanPoint p = along_arc(a.at, b, *a.centre, a.clockwise, double(k) / steps);
      add(last, p);
      last = p;
    }
  }
  return std::abs(turn) > std::numbers::pi;
}

std::vector<std::vector<Loop>> gather(std::vector<Loop> loops) {
  std::vector<std::vector<Loop>> regions;
  for (Loop& loop : loops)
    if (area(loop) > 0) regions.push_back({std::move(loop)});
  // Smallest first: a hole in an island belongs to the island, not to what lies round it.
  std::sort(regions.begin(), regions.end(), [](const auto& a, const auto& b) { return area(a[0]) < area(b[0]); });
  for (Loop& loop : loops) {
    if (loop.empty()) continue;
    const auto owner = std::find_if(regions.begin(), regions.end(), [&](const std::vector<Loop>& region) {
      return regions.size() == 1 || inside(region.front(), loop.front().at);
    });
    if (owner != regions.end()) owner->push_back(std::move(loop));
  }
  return regions;
}

}  // namespace fallwright::brep
