#include "brep/arrangement.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "brep/arc.hpp"
#include "brep/plan.hpp"
#include "units/tolerance.hpp"

namespace fallwright::brep {
namespace {

using units::tolerance::weld_mm;
constexpr double hash_cell = 1.0;  // mm: a few points at most share one

std::int64_t cell_key(double x, double y) {
  return (static_cast<std::int64_t>(std::floor(x / hash_cell)) << 32) ^
         (static_cast<std::int64_t>(std::floor(y / hash_cell)) & 0xffffffff);
}

struct PlanBox {
  double x0, y0, x1, y1;
};

PlanBox box_round(PlanPoint a, PlanPoint b, const HalfEdge& edge) {
  if (!edge.centre) return {std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
  const double r = std::hypot(a.x - edge.centre->x, a.y - edge.centre->y);
  return {edge.centre->x - r, edge.centre->y - r, edge.centre->x + r, edge.centre->y + r};
}

/// Place of `p` along the edge as a share of it, when it lies on it and not at its ends.
std::optional<double> share_on(PlanPoint p, PlanPoint a, PlanPoint b, const HalfEdge& edge) {
  const auto near = [](PlanPoint u, PlanPoint v) {
    const double dx = std::abs(u.x - v.x), dy = std::abs(u.y - v.y);
    return std::max(dx, dy) <= weld_mm && std::hypot(dx, dy) <= weld_mm;
  };
  if (!edge.centre && (p.x < std::min(a.x, b.x) - 2 * weld_mm || p.x > std::max(a.x, b.x) + 2 * weld_mm ||
                       p.y < std::min(a.y, b.y) - 2 * weld_mm || p.y > std::max(a.y, b.y) + 2 * weld_mm))
    return std::nullopt;
  if (near(p, a) || near(p, b)) return std::nullopt;
  if (edge.centre) {
    const auto off = [&](PlanPoint q) {  // asked of many points: no library call for each
      const double dx = q.x - edge.centre->x, dy = q.y - edge.centre->y;
      return std::sqrt(dx * dx + dy * dy);
    };
    if (std::abs(off(p) - off(a)) > weld_mm) return std::nullopt;
    const double whole = edge.clockwise ? sweep(b, a, *edge.centre) : sweep(a, b, *edge.centre);
    const double part = edge.clockwise ? sweep(p, a, *edge.centre) : sweep(a, p, *edge.centre);
    if (part >= whole) return std::nullopt;
    return part / whole;
  }
  const double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
  if (std::abs((p.x - a.x) * dy - (p.y - a.y) * dx) > weld_mm * std::sqrt(square)) return std::nullopt;
  const double t = ((p.x - a.x) * dx + (p.y - a.y) * dy) / square;
  if (t <= 0 || t >= 1) return std::nullopt;
  return t;
}

}  // namespace

int PlanPoints::add(PlanPoint p) {
  std::optional<std::int64_t> before;  // most often all four corners lie in one cell
  for (const double x : {p.x - weld_mm, p.x + weld_mm})
    for (const double y : {p.y - weld_mm, p.y + weld_mm}) {
      const std::int64_t key = cell_key(x, y);
      if (key == before) continue;
      before = key;
      const auto cell = cells_.find(key);
      if (cell == cells_.end()) continue;
      for (const int i : cell->second)
        if (std::hypot(points_[i].x - p.x, points_[i].y - p.y) <= weld_mm) return i;
    }
  points_.push_back(p);
  cells_[cell_key(p.x, p.y)].push_back(size() - 1);
  return size() - 1;
}

namespace {

template <class Visit>
void each_half_edge(const Arrangement& arrangement, const Visit& visit) {
  for (std::size_t r = 0; r < arrangement.regions.size(); ++r)
    for (const EdgeLoop& loop : arrangement.regions[r])
      for (const HalfEdge& e : loop) visit(e, r);
}

}  // namespace

Owners::Owners(const Arrangement& arrangement, int points) : begins_(static_cast<std::size_t>(points) + 1, 0) {
  each_half_edge(arrangement, [&](const HalfEdge& e, std::size_t) { ++begins_[e.from + 1]; });
  std::partial_sum(begins_.begin(), begins_.end(), begins_.begin());
  leaving_.resize(begins_.back());
  std::vector<std::size_t> next(begins_.begin(), begins_.end() - 1);
  each_half_edge(arrangement, [&](const HalfEdge& e, std::size_t region) {
    leaving_[next[e.from]++] = {e.to, key_of(e).bend, region};
  });
}

std::optional<std::size_t> Owners::find(const EdgeKey& key) const {
  for (std::size_t i = begins_[key.from]; i < begins_[key.from + 1]; ++i)
    if (leaving_[i].to == key.to && leaving_[i].bend == key.bend) return leaving_[i].region;
  return std::nullopt;
}

EdgeLoop to_edges(const Loop& loop, PlanPoints& points) {
  EdgeLoop edges;
  std::vector<int> ids;
  for (const Corner& corner : loop) ids.push_back(points.add(corner.at));
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const int from = ids[i], to = ids[(i + 1) % loop.size()];
    if (from != to) edges.push_back({from, to, loop[i].centre, loop[i].clockwise});
  }
  return edges;
}

Loop to_loop(const EdgeLoop& edges, const PlanPoints& points) {
  Loop loop;
  for (const HalfEdge& e : edges) loop.push_back({points[e.from], e.centre, e.clockwise});
  return loop;
}

Arrangement arrange(const Relief& relief, PlanPoints& points) {
  Arrangement arrangement;
  for (const Region& region : relief) {
    auto& loops = arrangement.regions.emplace_back();
    for (const Loop& loop : region.loops) loops.push_back(to_edges(loop, points));
  }
  return arrangement;
}

PointIndex::PointIndex(const PlanPoints& points, std::vector<int> members) : points_{points} {
  double x1 = std::numeric_limits<double>::lowest(), y1 = x1;
  x0_ = y0_ = std::numeric_limits<double>::max();
  for (const int i : members) {
    x0_ = std::min(x0_, points[i].x), y0_ = std::min(y0_, points[i].y);
    x1 = std::max(x1, points[i].x), y1 = std::max(y1, points[i].y);
  }
  const double extent = members.empty() ? 1 : std::max({x1 - x0_, y1 - y0_, 1.0});
  cell_ = extent / std::max(1.0, std::sqrt(double(members.size())));
  columns_ = members.empty() ? 1 : int((x1 - x0_) / cell_) + 1;
  rows_ = members.empty() ? 1 : int((y1 - y0_) / cell_) + 1;
  cells_.resize(static_cast<std::size_t>(columns_) * rows_);
  for (const int i : members)
    cells_[static_cast<std::size_t>((points[i].y - y0_) / cell_) * columns_ +
           static_cast<std::size_t>((points[i].x - x0_) / cell_)]
        .push_back(i);
}

void PointIndex::on_cell(const std::vector<int>& cell, const HalfEdge& edge,
                         std::vector<std::pair<double, int>>& found) const {
  for (const int i : cell)
    if (const auto share = share_on(points_[i], points_[edge.from], points_[edge.to], edge))
      found.emplace_back(*share, i);
}

std::vector<int> PointIndex::on(const HalfEdge& edge) const {
  const PlanBox box = box_round(points_[edge.from], points_[edge.to], edge);
  const auto column = [&](double x) { return std::clamp(int((x - x0_) / cell_), 0, columns_ - 1); };
  const auto row = [&](double y) { return std::clamp(int((y - y0_) / cell_), 0, rows_ - 1); };
  const int left = column(box.x0 - weld_mm), right = column(box.x1 + weld_mm), top = row(box.y1 + weld_mm);
  std::vector<std::pair<double, int>> found;
  for (int r = row(box.y0 - weld_mm); r <= top; ++r)
    for (int c = left; c <= right; ++c) on_cell(cells_[static_cast<std::size_t>(r) * columns_ + c], edge, found);
  std::sort(found.begin(), found.end());
  std::vector<int> ids;
  ids.reserve(found.size());
  for (const auto& [share, id] : found) ids.push_back(id);
  return ids;
}

EdgeLoop split(const EdgeLoop& loop, const PointIndex& index) {
  EdgeLoop out;
  out.reserve(loop.size());
  for (const HalfEdge& edge : loop) {
    int from = edge.from;
    for (const int at : index.on(edge)) {
      out.push_back({from, at, edge.centre, edge.clockwise});
      from = at;
    }
    out.push_back({from, edge.to, edge.centre, edge.clockwise});
  }
  return out;
}

void node(Arrangement& arrangement, const PlanPoints& points) {
  std::vector<bool> seen(points.size(), false);
  std::vector<int> members;
  for (const auto& region : arrangement.regions)
    for (const EdgeLoop& loop : region)
      for (const HalfEdge& e : loop)
        if (!seen[e.from]) seen[e.from] = true, members.push_back(e.from);
  const PointIndex index{points, std::move(members)};
  for (auto& region : arrangement.regions)
    for (EdgeLoop& loop : region) loop = split(loop, index);
}

}  // namespace fallwright::brep
