#include <algorithm>
#include <cmath>
#include <queue>

#include <CGAL/Boolean_set_operations_2.h>
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Polygon_set_2.h>

#include "properties/meshes.hpp"

namespace fallwright::properties {
namespace {

using Kernel = CGAL::Exact_predicates_exact_constructions_kernel;
using Set = CGAL::Polygon_set_2<Kernel>;
using Polygon = CGAL::Polygon_2<Kernel>;
using Region = CGAL::Polygon_with_holes_2<Kernel>;

Set united(const Mesh& mesh) {
  std::vector<Polygon> plans;
  for (const Triangle& t : mesh) {
    Polygon plan;
    for (const Corner& p : t) plan.push_back({p.x, p.y});
    if (plan.is_empty() || !plan.is_simple()) continue;
    if (plan.is_clockwise_oriented()) plan.reverse_orientation();
    plans.push_back(plan);
  }
  Set set;
  set.join(plans.begin(), plans.end());
  return set;
}

std::vector<Region> regions_of(const Set& set) {
  std::vector<Region> regions;
  set.polygons_with_holes(std::back_inserter(regions));
  return regions;
}

struct Edge {
  double ax, ay, bx, by;
};

void add_edges(const Polygon& polygon, std::vector<Edge>& edges) {
  for (auto e = polygon.edges_begin(); e != polygon.edges_end(); ++e)
    edges.push_back({CGAL::to_double(e->source().x()), CGAL::to_double(e->source().y()),
                     CGAL::to_double(e->target().x()), CGAL::to_double(e->target().y())});
}

/// Distance to the nearest edge; below zero outside.
double depth_in(const std::vector<Edge>& edges, double x, double y) {
  double nearest = 1e9;
  bool inside = false;
  for (const Edge& e : edges) {
    const double dx = e.bx - e.ax, dy = e.by - e.ay;
    const double t = std::clamp(((x - e.ax) * dx + (y - e.ay) * dy) / (dx * dx + dy * dy), 0., 1.);
    nearest = std::min(nearest, std::hypot(x - e.ax - t * dx, y - e.ay - t * dy));
    if ((e.ay > y) != (e.by > y) && x < e.ax + (y - e.ay) / dy * dx) inside = !inside;
  }
  return inside ? nearest : -nearest;
}

/// A square of places, of which none is deeper inside than `best`.
struct Cell {
  double best, x, y, half;
  bool operator<(const Cell& other) const { return best < other.best; }
};

double largest_circle(const std::vector<Edge>& edges) {
  constexpr double fine_mm = 0.02;
  if (edges.empty()) return 0;
  double x0 = 1e9, x1 = -1e9, y0 = 1e9, y1 = -1e9, deepest = 0;
  for (const Edge& e : edges)
    x0 = std::min(x0, e.ax), x1 = std::max(x1, e.ax), y0 = std::min(y0, e.ay), y1 = std::max(y1, e.ay);
  std::priority_queue<Cell> cells;
  const auto add = [&](double x, double y, double half) {
    const double depth = depth_in(edges, x, y);
    deepest = std::max(deepest, depth);
    cells.push({depth + half * std::sqrt(2.), x, y, half});
  };
  add((x0 + x1) / 2, (y0 + y1) / 2, std::max(x1 - x0, y1 - y0) / 2);
  while (!cells.empty() && cells.top().best > deepest + fine_mm) {
    const Cell c = cells.top();
    cells.pop();
    for (const double sx : {-0.5, 0.5})
      for (const double sy : {-0.5, 0.5}) add(c.x + sx * c.half, c.y + sy * c.half, c.half / 2);
  }
  return 2 * deepest;
}

}  // namespace

FreePlan free_plan(const Mesh& floor, const Mesh& over) {
  FreePlan plan;
  Set free;
  for (const Region& region : regions_of(united(floor))) {
    plan.filled_mm2 += CGAL::to_double(region.outer_boundary().area());
    free.join(region.outer_boundary());
  }
  free.difference(united(over));
  std::vector<Edge> edges;
  for (const Region& region : regions_of(free)) {
    plan.area_mm2 += CGAL::to_double(region.outer_boundary().area());
    add_edges(region.outer_boundary(), edges);
    for (auto hole = region.holes_begin(); hole != region.holes_end(); ++hole) {
      plan.area_mm2 += CGAL::to_double(hole->area());  // holes run the other way
      add_edges(*hole, edges);
    }
  }
  plan.circle_mm = largest_circle(edges);
  return plan;
}

}  // namespace fallwright::properties
