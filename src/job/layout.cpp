#include "job/layout.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fallwright::job {
namespace {

bool contains(const std::vector<Side>& sides, Side side) {
  return std::find(sides.begin(), sides.end(), side) != sides.end();
}

/// Heights between which walls and bench or base can meet, roughly above rather than below.
double top_of_base(const Job& job) {
  const Base& b = job.base;
  return (job.bed.least + b.rib_depth + b.shell + std::max(b.upstand_height, b.threshold.height)).in_mm();
}

/// The bench's frame: tight to its own wall where that reaches farthest in, and no longer than the narrowest place.
Rect bench_plan(const Job& job, const survey::Room& room) {
  const double depth = job.bench->depth.in_mm(), high = top_of_bench(job), width = room.width, back = room.depth;
  const auto reach = [&](Side side, double from, double to) { return room.innermost(side, from, to, 0, high); };
  switch (job.bench->place) {
    case Side::left: {
      const double x = reach(Side::left, 0, back);
      return {x, 0, x + depth, reach(Side::back, x, x + depth)};
    }
    case Side::right: {
      const double x = reach(Side::right, 0, back);
      return {x - depth, 0, x, reach(Side::back, x - depth, x)};
    }
    default:  // at the back
      break;
  }
  const double y = reach(Side::back, 0, width);
  return {reach(Side::left, y - depth, y), y - depth, reach(Side::right, y - depth, y), y};
}

/// The base stands tight to the bench and to the back; without a bench, to the side the job names, or what is left over
/// is shared left and right.
Rect base_footprint(const Job& job, const Layout& layout) {
  const survey::Room& room = layout.room;
  const double length = job.base.length.in_mm(), width = job.base.width.in_mm(), high = top_of_base(job);
  const bool left_bench = job.bench && job.bench->place == Side::left;
  const bool right_bench = job.bench && job.bench->place == Side::right;
  const bool back_bench = job.bench && job.bench->place == Side::back;
  const double left = room.innermost(Side::left, 0, room.depth, 0, high);
  const double right = room.innermost(Side::right, 0, room.depth, 0, high);
  double x0 = (left + right - length) / 2;
  if (job.base.against == Against::left) x0 = left;
  if (job.base.against == Against::right) x0 = right - length;
  if (left_bench) x0 = layout.bench.x1;
  if (right_bench) x0 = layout.bench.x0 - length;
  const double y1 = back_bench ? layout.bench.y0 : room.innermost(Side::back, x0, x0 + length, 0, high);
  return {x0, y1 - width, x0 + length, y1};
}

/// The floor runs under the walls and on past the entry, and past a side without a wall as well.
Rect floor_extent(const Job& job, const survey::Room& room) {
  const double wall = job.walls.stock.depth.in_mm(), beyond = job.floor.beyond_entry.in_mm();
  const auto reach = [&](Side side) { return job.alcove.has_wall(side) ? wall : beyond; };
  Rect inside{0, 0, room.width, room.depth};
  for (const survey::Wall& w : room.walls)
    for (const survey::Point& p : {w.start(), w.end()}) {
      inside.x0 = std::min(inside.x0, p.x), inside.x1 = std::max(inside.x1, p.x);
      inside.y0 = std::min(inside.y0, p.y), inside.y1 = std::max(inside.y1, p.y);
    }
  return {inside.x0 - reach(Side::left), inside.y0 - beyond, inside.x1 + reach(Side::right),
          inside.y1 + reach(Side::back)};
}

survey::Floor floor_of(const Job& job, const Rect& extent) {
  if (survey::span_a_plane(job.survey.spots)) return survey::floor_through(job.survey.spots, extent);
  return survey::plane_floor(
      {0, -(job.floor.drop_along_width / job.alcove.width), -(job.floor.drop_along_depth / job.alcove.depth)}, extent);
}

Rect inside_upstands(const Job& job, const Rect& base) {
  const double edge = job.base.upstand_thickness.in_mm();
  const auto inset = [&](Side side) { return contains(job.base.upstands, side) ? edge : 0.0; };
  const double threshold = job.base.threshold.width.in_mm();
  return {base.x0 + inset(Side::left), base.y0 + (threshold > 0 ? threshold : inset(Side::front)),
          base.x1 - inset(Side::right), base.y1 - inset(Side::back)};
}

/// Along framing the bed is held back; on open sides it runs past the base.
Rect bed_footprint(const Job& job, const Rect& base) {
  const auto framed = [&](Side side) { return (job.bench && job.bench->place == side) || job.alcove.has_wall(side); };
  const auto inset = [&](Side side) { return framed(side) ? job.bed.holdback.in_mm() : -job.bed.overrun.in_mm(); };
  return {base.x0 + inset(Side::left), base.y0 + inset(Side::front), base.x1 - inset(Side::right),
          base.y1 - inset(Side::back)};
}

void place_drain(const Job& job, Layout& layout) {
  const Drain& drain = job.drain;
  const Rect& base = layout.base;
  const double across = drain.across.distance.in_mm(), along = drain.along.distance.in_mm();
  layout.drain_x = drain.across.side == Side::right ? base.x1 - across : base.x0 + across;
  layout.drain_y = drain.along.side == Side::front ? base.y0 + along : base.y1 - along;
  double half_x = drain.size.in_mm() / 2, half_y = half_x, x = layout.drain_x, y = layout.drain_y;
  if (drain.kind == DrainKind::line) {
    const bool along_width = drain.channel_direction == Direction::along_width;
    const bool rim_to_rim = drain.channel_length.is_zero();
    const Rect& floor = layout.floor;
    double& half = along_width ? half_x : half_y;
    half = (rim_to_rim ? (along_width ? floor.width() : floor.depth()) : drain.channel_length.in_mm()) / 2;
    if (rim_to_rim) {
      double& outlet = along_width ? layout.drain_x : layout.drain_y;
      double& middle = along_width ? x : y;
      middle = along_width ? (floor.x0 + floor.x1) / 2 : (floor.y0 + floor.y1) / 2;
      if ((along_width ? drain.across : drain.along).distance.is_zero()) outlet = middle;
    }
  }
  layout.opening = {x - half_x, y - half_y, x + half_x, y + half_y};
}

/// A round opening's edge is lowest on the hip to the floor's farthest corner, where it has risen by R / D of the whole
/// rise from the centre, D being that corner's distance: what is left is the rise from the edge, as a share of it all.
double rise_from_edge(const Job& job, double farthest_corner) {
  return std::max(0.1, 1 - job.drain.size.in_mm() / 2 / farthest_corner);
}

/// The planes rise from the opening's level edges, or from the centre of a round opening. A side whose edge already
/// lies at the rim has no run and no facet.
void pitch_floor(const Job& job, Layout& layout) {
  const bool round = job.drain.opening == Opening::round && job.drain.kind == DrainKind::point;
  const Rect& floor = layout.floor;
  const Rect from = round ? Rect{layout.drain_x, layout.drain_y, layout.drain_x, layout.drain_y} : layout.opening;
  struct Run {
    const char* name;
    double run, nx, ny, edge;
  };
  const Run runs[] = {{"back", floor.y1 - from.y1, 0, 1, from.y1},
                      {"front", from.y0 - floor.y0, 0, -1, -from.y0},
                      {"left", from.x0 - floor.x0, -1, 0, -from.x0},
                      {"right", floor.x1 - from.x1, 1, 0, from.x1}};
  const bool along_width = job.drain.channel_direction == Direction::along_width;
  const double fall = job.base.fall.as_ratio();
  double longest = 0;
  for (const Run& run : runs) longest = std::max(longest, run.run);
  const double farthest = std::hypot(std::max(runs[0].run, runs[1].run), std::max(runs[2].run, runs[3].run));
  const double rise =
      job.base.rise ? job.base.rise->in_mm() / (round ? rise_from_edge(job, farthest) : 1) : fall * longest;
  for (const Run& run : runs) {
    const bool crosses_line = along_width ? run.ny != 0 : run.nx != 0;
    if (run.run <= 0 || (job.base.pattern == FallPattern::to_line && !crosses_line)) continue;
    const double slope = job.base.pattern == FallPattern::level_rim ? rise / run.run : fall;
    layout.facets.push_back({run.name, {layout.drain_edge - slope * run.edge, slope * run.nx, slope * run.ny}});
  }
}

/// The lowest point of the opening's edge: level for a square; for a circle it lies on a hip, at R a b / sqrt(a2 + b2)
/// above the apex where facets of fall a and b meet, and at the apex's height where two opposite facets meet.
double opening_edge_low(const Job& job, const Layout& layout) {
  if (job.drain.opening == Opening::square || job.drain.kind == DrainKind::line) return layout.drain_edge;
  if (layout.facets.size() < 4) return layout.drain_edge;
  double low = std::numeric_limits<double>::max();
  for (const FacetPlane& a : layout.facets)
    for (const FacetPlane& b : layout.facets)
      if (a.plane.gx != 0 && b.plane.gy != 0)
        low = std::min(low, std::abs(a.plane.gx * b.plane.gy) / std::hypot(a.plane.gx, b.plane.gy));
  return layout.drain_edge + low * job.drain.size.in_mm() / 2;
}

void stack_bench(const Job& job, Layout& layout) {
  const Bench& bench = *job.bench;
  layout.bench_length = bench.place == Side::back ? layout.bench.width() : layout.bench.depth();
  layout.seat_front = bench.height.in_mm();
  layout.deck_top = layout.seat_front - bench.seat_thickness.in_mm();
  layout.joist_top = layout.deck_top - bench.frame.deck.in_mm();
  double joist = bench.frame.stock.depth.in_mm();
  if (bench.frame.kind == FrameKind::steel) joist += 2 * bench.frame.track.thickness.in_mm();
  layout.plate_top = layout.joist_top - joist;
}

}  // namespace

double top_of_bench(const Job& job) {
  const Bench& b = *job.bench;
  return (b.height + b.upstand_height).in_mm() + std::abs(b.seat_fall.as_ratio()) * b.depth.in_mm();
}

double Layout::floor_at(double x, double y) const {
  double height = -std::numeric_limits<double>::max();
  for (const FacetPlane& facet : facets) height = std::max(height, facet.plane.at(x, y));
  return height;
}

double Layout::rim_greatest() const {
  return std::max({floor_at(floor.x0, floor.y0), floor_at(floor.x1, floor.y0), floor_at(floor.x1, floor.y1),
                   floor_at(floor.x0, floor.y1)});
}

Layout lay_out(const Job& job) {
  Layout layout;
  layout.room = survey::make_room(job.survey, job.alcove.width.in_mm(), job.alcove.depth.in_mm(), job.alcove.walls);
  layout.extent = floor_extent(job, layout.room);
  if (job.bench) layout.bench = bench_plan(job, layout.room);
  layout.base = base_footprint(job, layout);
  layout.floor = inside_upstands(job, layout.base);
  layout.bed = bed_footprint(job, layout.base);
  place_drain(job, layout);
  const survey::Floor measured = floor_of(job, layout.extent);
  layout.subfloor = measured.raised(-measured.highest(layout.base));

  layout.rib_plane = job.bed.least.in_mm();
  layout.drain_edge = layout.rib_plane + job.base.rib_depth.in_mm() + job.base.shell.in_mm();
  pitch_floor(job, layout);
  layout.drain_top = opening_edge_low(job, layout);
  layout.upstand_top = layout.drain_top + job.base.upstand_height.in_mm();
  layout.threshold_inner = layout.drain_top + job.base.threshold.height.in_mm();
  layout.threshold_outer =
      layout.threshold_inner + job.base.threshold.width.in_mm() * job.base.threshold.fall.as_ratio();
  if (job.bench) stack_bench(job, layout);
  return layout;
}

}  // namespace fallwright::job
