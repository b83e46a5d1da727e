#include <algorithm>
#include <cmath>

#include "brep/plan.hpp"
#include "parts/pieces.hpp"
#include "parts/touching.hpp"

namespace fallwright::parts {
namespace {

using brep::Loop;
using brep::Polygon;
using brep::Region;
using brep::Relief;

bool is_round(const job::Job& job) {
  return job.drain.kind == job::DrainKind::point && job.drain.opening == job::Opening::round;
}

/// The part of `polygon` where facet `own` is the floor: where its plane is the highest of all.
Polygon where_highest(Polygon polygon, const job::Layout& layout, std::size_t own) {
  const job::HeightPlane& mine = layout.facets[own].plane;
  for (std::size_t i = 0; i < layout.facets.size() && !polygon.empty(); ++i) {
    if (i == own) continue;
    const job::HeightPlane& other = layout.facets[i].plane;
    polygon = brep::clip(polygon, mine.gx - other.gx, mine.gy - other.gy, mine.z0 - other.z0);
  }
  return polygon;
}

/// What two convex polygons have in common.
Polygon common(Polygon polygon, const Polygon& window) {
  for (std::size_t i = 0; i < window.size() && !polygon.empty(); ++i) {
    const brep::PlanPoint &p = window[i], &q = window[(i + 1) % window.size()];
    polygon = brep::clip(polygon, p.y - q.y, q.x - p.x, p.x * q.y - q.x * p.y);
  }
  return polygon;
}

/// The same of an upright rectangle, exactly along its sides.
Polygon common(Polygon polygon, const job::Rect& r) {
  const double inward[][3] = {{1, 0, -r.x0}, {-1, 0, r.x1}, {0, 1, -r.y0}, {0, -1, r.y1}};
  for (const auto& [a, b, c] : inward)
    if (!polygon.empty()) polygon = brep::clip(polygon, a, b, c);
  return polygon;
}

/// What is left of a convex polygon without a convex part of it.
std::vector<std::vector<Loop>> without(const Polygon& polygon, const Polygon& part) {
  if (part.empty()) return {{brep::to_loop(polygon)}};
  std::vector<std::vector<Loop>> pieces;
  for (Region& left : brep::ground({brep::to_loop(polygon)}, {{{brep::to_loop(part)}, {}}}, {}))
    pieces.push_back(std::move(left.loops));
  return pieces;
}

/// The part of `polygon` outside an opening that is not round. On a square floor it is where the facet's plane is above
/// the opening's level edge; on any other the opening's edges are none of the facet's level lines.
std::vector<std::vector<Loop>> outside_opening(const Polygon& polygon, const job::Layout& layout, std::size_t own) {
  if (!layout.is_square()) return without(polygon, common(polygon, to_brep(layout.opening_outline)));
  const job::HeightPlane& p = layout.facets[own].plane;
  const Polygon left = brep::clip(polygon, p.gx, p.gy, p.z0 - layout.drain_edge);
  if (left.empty()) return {};
  return {{brep::to_loop(left)}};
}

Polygon outline_of(const job::Rect& r) {
  return {{r.x0, r.y0}, {r.x1, r.y0}, {r.x1, r.y1}, {r.x0, r.y1}};
}

/// The pockets between the ribs, or the one hollow of a shell without ribs, before anything is taken from them.
std::vector<Polygon> hollows(const job::Job& job, const job::Layout& layout) {
  const job::Rect& base = layout.base;
  const job::Ribs& ribs = job.base.ribs;
  if (!ribs.any()) return {to_brep(layout.base_outline.polygon())};
  const double rib = ribs.width.in_mm();
  const double pitch_x = (base.width() - rib) / ribs.columns, pitch_y = (base.depth() - rib) / ribs.rows;
  std::vector<Polygon> pockets;
  for (int row = 0; row < ribs.rows; ++row)
    for (int column = 0; column < ribs.columns; ++column) {
      const double x = base.x0 + rib + column * pitch_x, y = base.y0 + rib + row * pitch_y;
      Polygon& pocket = pockets.emplace_back(outline_of({x, y, x + pitch_x - rib, y + pitch_y - rib}));
      for (brep::PlanPoint& p : pocket) {
        const survey::Point drawn = layout.base_outline.drawn({p.x, p.y});
        p = {drawn.x, drawn.y};
      }
    }
  return pockets;
}

/// What stays solid round the drain: with ribs a ring of them that holds the opening and keeps mortar out of the bore.
struct Collar {
  std::optional<job::Rect> square;
  double disc_radius = 0;
};

/// Whether a ring round the drain stays solid: that of the ribs, seen or not.
bool has_ring(const job::Job& job) {
  return job.base.ribs.any() || !job.base.tape.ribs_known;
}

/// @post base and bed have the same one: it hangs on the job alone, not on how much of it either of them covers.
Collar collar_of(const job::Job& job, const job::Layout& layout, double hole_radius) {
  const double shell = job.base.shell.in_mm();
  Collar collar;
  collar.disc_radius = hole_radius;
  if (!is_round(job)) collar.square = has_ring(job) ? layout.opening.grown(shell) : layout.opening;
  if (!has_ring(job)) return collar;
  collar.disc_radius = bed_hole_radius_mm(job, layout);
  if (is_round(job)) collar.disc_radius = std::max(collar.disc_radius, job.drain.size.in_mm() / 2 + shell);
  std::vector<double> touching;
  const brep::PlanPoint drain{layout.drain_x, layout.drain_y};
  add_touching(to_brep(layout.bed_outline.polygon()), drain, touching);
  for (const Polygon& hollow : hollows(job, layout)) add_touching(hollow, drain, touching);
  if (collar.square) touching.push_back(std::hypot(collar.square->width(), collar.square->depth()) / 2);
  collar.disc_radius = clear_of(collar.disc_radius, std::move(touching));
  if (!collar.square) return collar;
  for (const double half : {collar.square->width() / 2, collar.square->depth() / 2})
    if (std::abs(half - collar.disc_radius) < hair_mm)
      collar.square = collar.square->grown(collar.disc_radius + hair_mm - half);
  return collar;
}

std::vector<std::vector<Loop>> outside_collar(const Polygon& polygon, const Collar& collar, const job::Layout& layout) {
  std::vector<std::vector<Loop>> pieces{{brep::to_loop(polygon)}};
  if (collar.square) pieces = without(polygon, common(polygon, *collar.square));
  if (collar.disc_radius <= 0) return pieces;
  std::vector<std::vector<Loop>> round;
  for (const auto& piece : pieces)
    for (auto& left : brep::outside_disc(piece, {layout.drain_x, layout.drain_y}, collar.disc_radius))
      round.push_back(std::move(left));
  return round;
}

/// A rectangle along the axes, by its corners from the front left one.
bool is_upright(const Polygon& p) {
  return p.size() == 4 && p[0].y == p[1].y && p[1].x == p[2].x && p[2].y == p[3].y && p[3].x == p[0].x;
}

/// The part of a hollow in a window; of upright rectangles exactly, so that where they end is one place to all.
Polygon in_window(const Polygon& hollow, const Polygon& window) {
  if (!is_upright(hollow) || !is_upright(window)) return common(hollow, window);
  const job::Rect r{std::max(hollow[0].x, window[0].x), std::max(hollow[0].y, window[0].y),
                    std::min(hollow[2].x, window[2].x), std::min(hollow[2].y, window[2].y)};
  return r.width() > 0 && r.depth() > 0 ? outline_of(r) : Polygon{};
}

Relief pockets(const job::Job& job, const job::Layout& layout, const Polygon& window, double hole_radius) {
  Relief relief;
  const Collar collar = collar_of(job, layout, hole_radius);
  for (const Polygon& hollow : hollows(job, layout)) {
    const Polygon within = in_window(hollow, window);
    if (within.empty()) continue;
    for (std::size_t i = 0; i < layout.facets.size(); ++i) {
      const Polygon polygon = where_highest(within, layout, i);
      if (polygon.empty()) continue;
      const brep::Plane plane = to_plane(layout.facets[i].plane.raised(-job.base.shell.in_mm()));
      for (auto& loops : outside_collar(polygon, collar, layout)) relief.push_back({std::move(loops), plane});
    }
  }
  return relief;
}

}  // namespace

/// Where nothing stays solid round an opening that is not round, the bed's hole may touch the opening's own sides and
/// corners; under a base from a file whatever its underside holds there.
double bed_hole_radius_mm(const job::Job& job, const job::Layout& layout) {
  const double radius = job.drain.bore.in_mm() / 2 + job.bed.collar.in_mm();
  std::vector<double> touching, own;
  add_floor(layout, layout.bed_outline.polygon(), touching);
  if (job.base.body) {
    std::vector<double> of_body;
    for (const Region& region : underside_of_body(job, layout))
      add_touching(region.loops, {layout.drain_x, layout.drain_y}, of_body, own);
    touching.insert(touching.end(), of_body.begin(), of_body.end());
  } else if (!is_round(job) && !has_ring(job)) {
    const job::Drain& drain = job.drain;
    const bool channel = drain.kind == job::DrainKind::line && !drain.channel_length.is_zero();
    const double across = drain.size.in_mm() / 2, along = channel ? drain.channel_length.in_mm() / 2 : across;
    touching.insert(touching.end(), {across, along, std::hypot(across, along)});
  }
  return clear_of(radius, std::move(touching), own);
}

brep::Loop opening_loop(const job::Job& job, const job::Layout& layout) {
  if (is_round(job)) return brep::circle({layout.drain_x, layout.drain_y}, job.drain.size.in_mm() / 2);
  return to_loop(layout.opening_outline);
}

Relief floor_facets(const job::Job& job, const job::Layout& layout) {
  Relief relief;
  for (std::size_t i = 0; i < layout.facets.size(); ++i) {
    const job::FacetPlane& facet = layout.facets[i];
    const Polygon polygon = where_highest(to_brep(layout.floor_outline.polygon()), layout, i);
    if (polygon.empty()) continue;
    const auto add = [&](std::vector<Loop> loops) {
      relief.push_back({std::move(loops), to_plane(facet.plane), "base-floor/" + facet.name});
    };
    if (is_round(job)) {
      for (auto& loops :
           brep::outside_disc({brep::to_loop(polygon)}, {layout.drain_x, layout.drain_y}, job.drain.size.in_mm() / 2))
        add(std::move(loops));
    } else {
      for (auto& loops : outside_opening(polygon, layout, i)) add(std::move(loops));
    }
  }
  return relief;
}

Relief underside(const job::Job& job, const job::Layout& layout, const survey::Polygon& window, double hole_radius) {
  std::vector<Loop> outline{to_loop(window)};
  const brep::PlanPoint drain{layout.drain_x, layout.drain_y};
  if (hole_radius > 0) outline.push_back(brep::reversed(brep::circle(drain, hole_radius)));
  Relief relief;
  if (job.base.body)
    relief = hollows_of_body(job, layout, window, hole_radius);
  else if (job.base.underside == job::Underside::shell)
    relief = pockets(job, layout, to_brep(window), hole_radius);
  for (Region& rest : brep::ground(outline, relief, {layout.rib_plane})) relief.push_back(std::move(rest));
  return relief;
}

}  // namespace fallwright::parts
