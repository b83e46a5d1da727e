#include <algorithm>
#include <cmath>
#include <limits>

#include "brep/arc.hpp"
#include "brep/plan.hpp"
#include "units/tolerance.hpp"

namespace fallwright::brep {
namespace {

using units::tolerance::weld_mm;

/// The edge from one corner of a loop to the next.
struct Edge {
  Corner from;
  PlanPoint to;
  PlanPoint at(double share) const {
    if (from.centre) return along_arc(from.at, to, *from.centre, from.clockwise, share);
    return {from.at.x + share * (to.x - from.at.x), from.at.y + share * (to.y - from.at.y)};
  }
};

/// The shares of an arc at which points of its circle lie on it, its ends left out.
std::vector<double> shares_of(const Edge& arc, const std::vector<PlanPoint>& points) {
  const PlanPoint& centre = *arc.from.centre;
  const double whole = arc.from.clockwise ? sweep(arc.to, arc.from.at, centre) : sweep(arc.from.at, arc.to, centre);
  const double margin = weld_mm / std::hypot(arc.from.at.x - centre.x, arc.from.at.y - centre.y);
  std::vector<double> shares;
  for (const PlanPoint& p : points) {
    const double part = arc.from.clockwise ? sweep(p, arc.from.at, centre) : sweep(arc.from.at, p, centre);
    if (part > margin && part < whole - margin) shares.push_back(part / whole);
  }
  std::sort(shares.begin(), shares.end());
  return shares;
}

/// The circle that is cut out.
struct Disc {
  PlanPoint centre;
  double radius;

  bool keeps(PlanPoint p) const { return std::hypot(p.x - centre.x, p.y - centre.y) >= radius - weld_mm; }

  /// Of loops that do not cross the circle: whether they hold all of it. Its middle tells nothing, since it may lie in
  /// a hole that the disc takes whole; nor does one point, which may lie on an arc of the circle itself.
  bool is_within(const std::vector<Loop>& loops) const {
    for (const double angle : {1., 3., 5.}) {
      const PlanPoint on{centre.x + (radius - 2 * weld_mm) * std::cos(angle),
                         centre.y + (radius - 2 * weld_mm) * std::sin(angle)};
      for (const Loop& loop : loops)
        if (inside(loop, on) != (area(loop) > 0)) return false;
    }
    return !loops.empty();
  }

  /// Where an edge crosses the circle, in order; what only touches it does not.
  std::vector<double> crossings(const Edge& edge) const {
    return edge.from.centre ? across_arc(edge) : across_segment(edge.from.at, edge.to);
  }

 private:
  std::vector<double> across_segment(PlanPoint a, PlanPoint b) const {
    const double dx = b.x - a.x, dy = b.y - a.y, fx = a.x - centre.x, fy = a.y - centre.y;
    const double length2 = dx * dx + dy * dy, half_b = (fx * dx + fy * dy) / length2;
    const double root = half_b * half_b - (fx * fx + fy * fy - radius * radius) / length2;
    std::vector<double> found;
    const double off = std::abs(fx * dy - fy * dx) / std::sqrt(length2);
    if (root <= 0 || off >= radius - weld_mm) return found;
    const double edge = weld_mm / std::sqrt(length2);
    for (const double t : {-half_b - std::sqrt(root), -half_b + std::sqrt(root)})
      if (t > edge && t < 1 - edge) found.push_back(t);
    return found;
  }

  std::vector<double> across_arc(const Edge& arc) const {
    const PlanPoint& other = *arc.from.centre;
    const double own = std::hypot(arc.from.at.x - other.x, arc.from.at.y - other.y);
    const double dx = centre.x - other.x, dy = centre.y - other.y, apart = std::hypot(dx, dy);
    if (apart <= weld_mm || apart >= own + radius - weld_mm || apart <= std::abs(own - radius) + weld_mm) return {};
    const double along = (apart * apart + own * own - radius * radius) / (2 * apart);
    const double aside = std::sqrt(std::max(0.0, own * own - along * along));
    const PlanPoint foot{other.x + dx / apart * along, other.y + dy / apart * along};
    const double nx = -dy / apart * aside, ny = dx / apart * aside;
    return shares_of(arc, {{foot.x + nx, foot.y + ny}, {foot.x - nx, foot.y - ny}});
  }
};

/// The half plane that is kept: a x + b y + c >= 0, (a, b) of length one.
struct HalfPlane {
  double a, b, c;

  double side(PlanPoint p) const { return a * p.x + b * p.y + c; }
  bool keeps(PlanPoint p) const { return side(p) > weld_mm; }  // an edge on the line is drawn anew with the cut

  std::vector<double> crossings(const Edge& edge) const {
    if (edge.from.centre) {
      const PlanPoint& o = *edge.from.centre;
      const double away = side(o), radius = std::hypot(edge.from.at.x - o.x, edge.from.at.y - o.y);
      if (std::abs(away) >= radius - weld_mm) return {};
      const double half = std::sqrt(radius * radius - away * away);
      const PlanPoint foot{o.x - a * away, o.y - b * away};
      return shares_of(edge, {{foot.x + b * half, foot.y - a * half}, {foot.x - b * half, foot.y + a * half}});
    }
    const double at_from = side(edge.from.at), at_to = side(edge.to);
    if (std::min(std::abs(at_from), std::abs(at_to)) <= weld_mm || (at_from > 0) == (at_to > 0)) return {};
    return {at_from / (at_from - at_to)};
  }
};

/// What is kept of loops: whole ones, and chains that begin and end on the cut. A chain's last corner has no edge.
struct Pieces {
  std::vector<Loop> chains, uncut;
};

template <class Cutter>
void cut(const Loop& loop, const Cutter& cutter, Pieces& out) {
  std::vector<Edge> edges;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Edge whole{loop[i], loop[(i + 1) % loop.size()].at};
    Corner from = loop[i];
    for (const double share : cutter.crossings(whole)) {
      const PlanPoint at = whole.at(share);
      edges.push_back({from, at});
      from.at = at;
    }
    edges.push_back({from, whole.to});
  }
  const std::size_t n = edges.size();
  const auto kept = [&](std::size_t i) { return cutter.keeps(edges[i % n].at(0.5)); };
  std::size_t start = 0;
  while (start < n && kept(start)) ++start;
  if (start == n) return out.uncut.push_back(loop);
  for (std::size_t step = 1; step <= n; ++step) {
    const std::size_t i = start + step;
    if (!kept(i)) continue;
    if (!kept(i - 1))
      out.chains.push_back({edges[i % n].from});
    else
      out.chains.back().back() = edges[i % n].from;
    out.chains.back().push_back({edges[i % n].to});
  }
}

/// Ties chains to loops along the cut: from a chain's end to the start that `way` says is nearest, by `last`, the edge
/// that leads there.
template <class Way>
std::vector<Loop> tie(const std::vector<Loop>& chains, const Way& way, const Corner& last) {
  const auto next_of = [&](std::size_t i) {
    std::size_t best = i;
    double least = std::numeric_limits<double>::max();
    for (std::size_t j = 0; j < chains.size(); ++j) {
      const double turn = way(chains[i].back().at, chains[j].front().at);
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
      loop.insert(loop.end(), chains[i].begin(), chains[i].end());
      loop.back().centre = last.centre;
      loop.back().clockwise = last.clockwise;
      i = next_of(i);
    } while (i != first && !used[i]);
    loops.push_back(std::move(loop));
  }
  return loops;
}

}  // namespace

std::vector<std::vector<Loop>> outside_disc(const std::vector<Loop>& loops, PlanPoint centre, double radius) {
  const Disc disc{centre, radius};
  Pieces pieces;
  for (const Loop& loop : loops) cut(loop, disc, pieces);
  std::vector<Loop> left = pieces.uncut;
  if (pieces.chains.empty()) {
    // Nothing crosses the circle: the disc lies wholly in, wholly out, or over everything.
    const bool within = disc.is_within(loops);
    if (within && !left.empty()) left.push_back(reversed(circle(centre, radius)));
  }
  const auto clockwise = [&](PlanPoint end, PlanPoint start) { return sweep(start, end, centre); };
  for (Loop& loop : tie(pieces.chains, clockwise, {{}, centre, true})) left.push_back(std::move(loop));
  return gather(std::move(left));
}

std::vector<std::vector<Loop>> clip(const std::vector<Loop>& loops, double a, double b, double c) {
  const double scale = std::hypot(a, b);
  const HalfPlane half{a / scale, b / scale, c / scale};
  Pieces pieces;
  for (const Loop& loop : loops) cut(loop, half, pieces);
  std::vector<Loop> left = std::move(pieces.uncut);
  const auto along = [&](PlanPoint end, PlanPoint start) {  // what is kept lies to the left
    const double way = (start.x - end.x) * half.b - (start.y - end.y) * half.a;
    return way >= -weld_mm ? way : std::numeric_limits<double>::max();
  };
  for (Loop& loop : tie(pieces.chains, along, {}))
    if (std::abs(area(loop)) > weld_mm) left.push_back(std::move(loop));
  return gather(std::move(left));
}

}  // namespace fallwright::brep
