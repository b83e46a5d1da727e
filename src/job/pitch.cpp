#include "job/pitch.hpp"
#include "job/bed_pieces.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "units/tolerance.hpp"

namespace fallwright::job {
namespace {

using survey::Point;

bool is_round(const Job& job) {
  return job.drain.opening == Opening::round && job.drain.kind == DrainKind::point;
}

/// A side of the floor as the drain sees it.
struct Run {
  Side side;
  Point out;        ///< square to the rim, outward
  double edge = 0;  ///< how far the opening reaches that way, from the origin
  double run = 0;   ///< from there to the rim
};

std::vector<Run> runs_of(const Job& job, const Layout& layout) {
  const Rect& o = layout.opening;
  std::vector<Point> from{{o.x0, o.y0}, {o.x1, o.y0}, {o.x1, o.y1}, {o.x0, o.y1}};
  if (!layout.is_square()) from = layout.opening_outline;
  if (is_round(job)) from = {{layout.drain_x, layout.drain_y}};
  const bool along_width = job.drain.channel_direction == Direction::along_width;
  std::vector<Run> runs;
  for (const Side side : survey::all_sides) {
    Run run{side, layout.floor_outline.outward(side)};
    run.edge = -std::numeric_limits<double>::max();
    for (const Point& p : from) run.edge = std::max(run.edge, run.out.x * p.x + run.out.y * p.y);
    run.run = layout.floor_outline.reach(side) - run.edge;
    const bool crosses_line = along_width == (side == Side::back || side == Side::front);
    if (run.run <= units::tolerance::weld_mm || (job.base.pattern == FallPattern::to_line && !crosses_line)) continue;
    runs.push_back(run);
  }
  return runs;
}

/// How much the lowest point of a circle of radius one about the apex lies above it, where planes of such gradients
/// rise from it all round: it lies on the gentlest hip, or on a facet gentler than both its hips.
double least_rise(std::vector<Point> gradients) {
  if (gradients.size() < 4) return 0;
  std::sort(gradients.begin(), gradients.end(),
            [](const Point& a, const Point& b) { return std::atan2(a.y, a.x) < std::atan2(b.y, b.x); });
  double low = std::numeric_limits<double>::max();
  for (std::size_t i = 0; i < gradients.size(); ++i) {
    const Point &a = gradients[i], &b = gradients[(i + 1) % gradients.size()];
    const double dx = b.x - a.x, dy = b.y - a.y, along = -(a.x * dx + a.y * dy) / (dx * dx + dy * dy);
    low = std::min(low, along <= 0   ? std::hypot(a.x, a.y)
                        : along >= 1 ? std::hypot(b.x, b.y)
                                     : std::abs(a.x * b.y - a.y * b.x) / std::hypot(dx, dy));
  }
  return low;
}

double least_rise(const std::vector<Run>& runs, const std::vector<double>& rises) {
  std::vector<Point> gradients;
  for (std::size_t i = 0; i < runs.size(); ++i)
    gradients.push_back({runs[i].out.x * rises[i] / runs[i].run, runs[i].out.y * rises[i] / runs[i].run});
  return least_rise(std::move(gradients));
}

/// How far each side's rim lies above the point that its plane starts from: of a round opening above its centre, where
/// the job tells it above the lowest point of the edge.
std::vector<double> rises_of(const Job& job, const std::vector<Run>& runs) {
  double longest = 0;
  for (const Run& run : runs) longest = std::max(longest, run.run);
  const double radius = is_round(job) ? job.drain.size.in_mm() / 2 : 0;
  std::vector<double> rises(runs.size(), job.base.fall.as_ratio() * longest);
  if (job.base.rise) {
    const double left = std::max(0.1, 1 - radius * least_rise(runs, std::vector<double>(runs.size(), 1)));
    std::fill(rises.begin(), rises.end(), job.base.rise->in_mm() / left);
  }
  const auto& read = job.base.tape.rises;
  const auto told = [&](std::size_t i) { return read[static_cast<std::size_t>(runs[i].side)]; };
  double low = 0;
  constexpr int rounds = 60;  // each leaves a share of at most radius over run of what the last was off
  for (int round = 0; round < rounds; ++round) {
    bool any = false;
    for (std::size_t i = 0; i < runs.size(); ++i)
      if (const auto rise = told(i)) rises[i] = rise->in_mm() + low, any = true;
    if (!any || radius <= 0) break;
    low = radius * least_rise(runs, rises);
  }
  return rises;
}

/// Least height of the floor along a line: on planes it lies at an end or where two of them meet.
double least_along(const Layout& layout, const Point& a, const Point& b) {
  double low = std::min(layout.floor_at(a.x, a.y), layout.floor_at(b.x, b.y));
  for (const FacetPlane& f : layout.facets)
    for (const FacetPlane& g : layout.facets) {
      const double at_a = f.plane.at(a.x, a.y) - g.plane.at(a.x, a.y),
                   at_b = f.plane.at(b.x, b.y) - g.plane.at(b.x, b.y);
      if (at_a * at_b >= 0) continue;
      const double t = at_a / (at_a - at_b);
      low = std::min(low, layout.floor_at(a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)));
    }
  return low;
}

/// The part of a convex polygon where plane `own` is not below `other`.
survey::Polygon where_above(const survey::Polygon& polygon, const HeightPlane& own, const HeightPlane& other) {
  const double a = own.gx - other.gx, b = own.gy - other.gy, c = own.z0 - other.z0, length2 = a * a + b * b;
  if (length2 == 0) return c >= 0 ? polygon : survey::Polygon{};
  const Point on{-c * a / length2, -c * b / length2};
  const double step = 1 / std::sqrt(length2);
  return survey::clip(polygon, on, {on.x + b * step, on.y - a * step});
}

/// What of a convex polygon lies outside another, in convex pieces.
std::vector<survey::Polygon> outside(survey::Polygon polygon, const survey::Polygon& taken) {
  std::vector<survey::Polygon> pieces;
  for (std::size_t i = 0; i < taken.size() && !polygon.empty(); ++i) {
    const Point &a = taken[i], &b = taken[(i + 1) % taken.size()];
    if (survey::Polygon beyond = survey::clip(polygon, b, a); !beyond.empty()) pieces.push_back(std::move(beyond));
    polygon = survey::clip(polygon, a, b);
  }
  return pieces;
}

}  // namespace

void pitch_floor(const Job& job, Layout& layout) {
  const std::vector<Run> runs = runs_of(job, layout);
  const std::vector<double> rises = rises_of(job, runs);
  const double fall = job.base.fall.as_ratio();
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const Run& run = runs[i];
    const bool read = job.base.tape.rises[static_cast<std::size_t>(run.side)].has_value();  // a tape knows better
    const double slope = job.base.pattern == FallPattern::level_rim || read ? rises[i] / run.run : fall;
    layout.facets.push_back({name_of(run.side), {-slope * run.edge, slope * run.out.x, slope * run.out.y}});
  }
}

double opening_edge_low(const Job& job, const Layout& layout) {
  if (is_round(job)) {
    std::vector<Point> gradients;
    for (const FacetPlane& f : layout.facets) gradients.push_back({f.plane.gx, f.plane.gy});
    return layout.drain_edge + least_rise(std::move(gradients)) * job.drain.size.in_mm() / 2;
  }
  if (layout.is_square()) return layout.drain_edge;
  double low = layout.drain_edge;
  const survey::Polygon& edge = layout.opening_outline;
  for (std::size_t i = 0; i < edge.size(); ++i)
    low = std::min(low, least_along(layout, edge[i], edge[(i + 1) % edge.size()]));
  return low;
}

double level_in_opening(const Job& job, const Layout& layout) {
  if (is_round(job)) return 0;
  // On a floor that is not square the planes come to the opening at slightly different heights: what is level lies a
  // hair below all of them, so that a step of some height stands all round.
  constexpr double hair_mm = 0.05;
  return layout.is_square() ? 0 : opening_edge_low(job, layout) - layout.drain_edge - hair_mm;
}

namespace {

/// What lies under the floor is level in all of the opening, and as the facets elsewhere.
std::vector<BedPiece> pieces_of(const Job& job, const Layout& layout, const std::vector<survey::Polygon>& cells,
                                double level) {
  std::vector<BedPiece> pieces;
  const bool round = is_round(job);
  const survey::Polygon opening = survey::to_polygon(layout.opening);
  const auto add = [&](survey::Polygon plan, const HeightPlane& top, std::size_t cell) {
    if (!plan.empty()) pieces.push_back({std::move(plan), top, cell});
  };
  for (std::size_t cell = 0; cell < cells.size(); ++cell) {
    const survey::Polygon under = survey::common(cells[cell], layout.bed_outline.polygon());
    if (under.empty()) continue;
    if (!round) add(survey::common(under, opening), {level, 0, 0}, cell);
    for (const survey::Polygon& piece : round ? std::vector<survey::Polygon>{under} : outside(under, opening))
      for (const FacetPlane& own : layout.facets) {
        survey::Polygon polygon = piece;
        for (const FacetPlane& other : layout.facets)
          if (&other != &own && !polygon.empty()) polygon = where_above(polygon, own.plane, other.plane);
        add(std::move(polygon), own.plane, cell);
      }
  }
  return pieces;
}

}  // namespace

std::vector<BedPiece> bed_pieces(const Job& job, const Layout& layout, const std::vector<survey::Polygon>& cells) {
  const double shell = job.base.shell.in_mm();
  auto pieces = pieces_of(job, layout, cells, layout.rib_plane + shell);
  for (BedPiece& piece : pieces) piece.top = piece.top.raised(-shell);
  return pieces;
}

namespace {

double hole_radius(const Job& job) {
  return (job.drain.bore / 2 + job.bed.collar).in_mm();
}

/// Whether a point lies in a convex polygon, on its edge as well.
bool lies_in(const Point& p, const survey::Polygon& polygon) {
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point &a = polygon[i], &b = polygon[(i + 1) % polygon.size()];
    if ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) < -units::tolerance::weld_mm) return false;
  }
  return true;
}

/// Where a side of a polygon crosses a circle about the drain.
void add_crossings(const Point& a, const Point& b, double radius, const Layout& layout, std::vector<Point>& places) {
  const double dx = b.x - a.x, dy = b.y - a.y, px = a.x - layout.drain_x, py = a.y - layout.drain_y,
               length2 = dx * dx + dy * dy;
  if (length2 == 0) return;
  const double middle = -(px * dx + py * dy) / length2,
               under = middle * middle - (px * px + py * py - radius * radius) / length2;
  if (under <= 0) return;
  for (const double way : {-1.0, 1.0})
    if (const double t = middle + way * std::sqrt(under); t >= 0 && t <= 1)
      places.push_back({a.x + t * dx, a.y + t * dy});
}

}  // namespace

survey::Polygon hole_in_bed(const Job& job, const Layout& layout) {
  constexpr int chords = 96;
  const double radius = hole_radius(job);
  survey::Polygon hole;
  for (int i = 0; i < chords; ++i)
    hole.push_back({layout.drain_x + radius * std::cos(2 * M_PI * i / chords),
                    layout.drain_y + radius * std::sin(2 * M_PI * i / chords)});
  return hole;
}

std::vector<Point> places_outside_bore(const survey::Polygon& plan, const Job& job, const Layout& layout) {
  constexpr int chords = 96;
  const double radius = job.drain.bore.in_mm() / 2;
  std::vector<Point> places;
  for (std::size_t i = 0; i < plan.size(); ++i)
    if (std::hypot(plan[i].x - layout.drain_x, plan[i].y - layout.drain_y) >= radius) places.push_back(plan[i]);
  if (places.size() == plan.size()) return places;  // no place on the bore's edge is higher than the highest of these
  for (std::size_t i = 0; i < plan.size(); ++i)
    add_crossings(plan[i], plan[(i + 1) % plan.size()], radius, layout, places);
  for (int i = 0; i < chords; ++i) {
    const Point p{layout.drain_x + radius * std::cos(2 * M_PI * i / chords),
                  layout.drain_y + radius * std::sin(2 * M_PI * i / chords)};
    if (lies_in(p, plan)) places.push_back(p);
  }
  return places;
}

std::vector<Point> places_outside_hole(const survey::Polygon& plan, const Job& job, const Layout& layout) {
  const double radius = hole_radius(job);
  std::vector<Point> places;
  for (std::size_t i = 0; i < plan.size(); ++i) {
    if (std::hypot(plan[i].x - layout.drain_x, plan[i].y - layout.drain_y) >= radius) places.push_back(plan[i]);
    add_crossings(plan[i], plan[(i + 1) % plan.size()], radius, layout, places);
  }
  for (const Point& p : hole_in_bed(job, layout))
    if (lies_in(p, plan)) places.push_back(p);
  return places;
}

double edge_over_least_bed(const Job& job, const Layout& layout) {
  std::vector<survey::Polygon> cells;
  for (const survey::Cell& cell : layout.subfloor.cells()) cells.push_back(cell.plan);
  const double radius = hole_radius(job);
  double most = -std::numeric_limits<double>::max();
  for (const BedPiece& piece : pieces_of(job, layout, cells, level_in_opening(job, layout))) {
    const HeightPlane& floor = layout.subfloor.cells()[piece.cell].plane;
    std::vector<Point> places = places_outside_hole(piece.plan, job, layout);
    // Along the hole's edge the floor comes nearest to the bed's top the way it rises against that.
    const double gx = floor.gx - piece.top.gx, gy = floor.gy - piece.top.gy, steep = std::hypot(gx, gy);
    if (steep > 0) {
      const Point nearest{layout.drain_x + radius * gx / steep, layout.drain_y + radius * gy / steep};
      if (lies_in(nearest, piece.plan)) places.push_back(nearest);
    }
    for (const Point& p : places) most = std::max(most, floor.at(p.x, p.y) - piece.top.at(p.x, p.y));
  }
  return most + (job.bed.least + job.base.shell).in_mm();
}

}  // namespace fallwright::job
