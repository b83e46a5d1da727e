#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "brep/arc.hpp"
#include "brep/arrangement.hpp"
#include "brep/plan.hpp"
#include "brep/relief.hpp"
#include "diag/fault.hpp"

namespace fallwright::brep {
namespace {

/// Boundary of what is left, directed with the remainder on the left: outline edges that no region runs along, and the
/// free edges of the regions turned round.
std::vector<HalfEdge> boundary(const Arrangement& outline, const Arrangement& regions, int points) {
  const Owners of_regions{regions, points}, of_outline{outline, points};
  std::vector<HalfEdge> edges;
  for (const auto& region : outline.regions)
    for (const EdgeLoop& loop : region)
      for (const HalfEdge& e : loop)
        if (!of_regions.contains(key_of(e))) edges.push_back(e);
  for (const auto& region : regions.regions)
    for (const EdgeLoop& loop : region)
      for (const HalfEdge& e : loop)
        if (!of_regions.contains(twin_of(e)) && !of_outline.contains(key_of(e)))
          edges.push_back({e.to, e.from, e.centre, e.centre && !e.clockwise});
  return edges;
}

/// Direction in which an edge leaves its first point, or in which it arrives at its last: looked at a short way along
/// it, so that an arc and the line or arc that it touches are told apart.
double heading(const HalfEdge& e, const PlanPoints& points, bool leaving) {
  const PlanPoint a = points[e.from], b = points[e.to];
  if (!e.centre) return std::atan2(b.y - a.y, b.x - a.x);
  constexpr double way_mm = 0.5;
  const double length = std::hypot(a.x - e.centre->x, a.y - e.centre->y) *
                        (e.clockwise ? sweep(b, a, *e.centre) : sweep(a, b, *e.centre));
  const double share = std::min(0.5, way_mm / length);
  const PlanPoint p = along_arc(a, b, *e.centre, e.clockwise, leaving ? share : 1 - share);
  return leaving ? std::atan2(p.y - a.y, p.x - a.x) : std::atan2(b.y - p.y, b.x - p.x);
}

using Leaving = boost::container::small_vector<std::size_t, 4>;  ///< edges that leave a point

/// Where loops touch in a point, the sharpest left turn keeps the pieces apart.
std::size_t next_edge(const std::vector<HalfEdge>& edges, const Leaving& leaving, std::size_t arriving,
                      const std::vector<bool>& used, const PlanPoints& points) {
  std::size_t best = edges.size();
  double best_turn = -10;
  const double came = heading(edges[arriving], points, false);
  for (const std::size_t i : leaving) {
    if (used[i]) continue;
    const double turn = std::remainder(heading(edges[i], points, true) - came, 2 * std::numbers::pi);
    if (turn > best_turn) best_turn = turn, best = i;
  }
  return best;
}

std::vector<Loop> chain(const std::vector<HalfEdge>& edges, const PlanPoints& points) {
  std::vector<Leaving> leaving(static_cast<std::size_t>(points.size()));
  for (std::size_t i = 0; i < edges.size(); ++i) leaving[edges[i].from].push_back(i);
  std::vector<bool> used(edges.size(), false);
  std::vector<Loop> loops;
  for (std::size_t first = 0; first < edges.size(); ++first) {
    if (used[first]) continue;
    EdgeLoop loop;
    for (std::size_t i = first; i < edges.size(); i = next_edge(edges, leaving[edges[i].to], i, used, points)) {
      used[i] = true;
      loop.push_back(edges[i]);
      if (edges[i].to == edges[first].from) break;
    }
    diag::ensure(loop.back().to == loop.front().from, "the outline of a plan does not close");
    loops.push_back(to_loop(loop, points));
  }
  return loops;
}

}  // namespace

Relief ground(const std::vector<Loop>& outline, const Relief& regions, const Plane& plane, const std::string& name) {
  PlanPoints points;
  Arrangement all = arrange(regions, points);
  all.regions.emplace_back();
  for (const Loop& loop : outline) all.regions.back().push_back(to_edges(loop, points));
  node(all, points);
  Arrangement edge;
  edge.regions.push_back(std::move(all.regions.back()));
  all.regions.pop_back();

  Relief rest;
  for (auto& loops : gather(chain(boundary(edge, all, points.size()), points)))
    rest.push_back({std::move(loops), plane, name});
  return rest;
}

}  // namespace fallwright::brep
