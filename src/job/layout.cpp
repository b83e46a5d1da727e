#include "job/layout.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "job/bed_pieces.hpp"
#include "job/body.hpp"
#include "job/pitch.hpp"

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

/// The bench's frame: tight to its own wall where that reaches farthest in, and no longer than the narrowest place
/// before it, to the nose of its seat: seat, apron and frame are one length.
Rect bench_plan(const Job& job, const survey::Room& room) {
  const Bench& bench = *job.bench;
  const double depth = bench.depth.in_mm(), nose = depth + (bench.apron_thickness + bench.overhang).in_mm();
  const double high = top_of_bench(job), width = room.width, back = room.depth;
  const double stud = job.walls.stock.thickness.in_mm();
  const auto reach = [&](Side side, double from, double to) { return room.innermost(side, from, to, 0, high, stud); };
  switch (bench.place) {
    case Side::left: {
      const double x = reach(Side::left, 0, back);
      return {x, 0, x + depth, reach(Side::back, x, x + nose)};
    }
    case Side::right: {
      const double x = reach(Side::right, 0, back);
      return {x - depth, 0, x, reach(Side::back, x - nose, x)};
    }
    default:  // at the back
      break;
  }
  const double y = reach(Side::back, 0, width);
  return {reach(Side::left, y - nose, y), y - depth, reach(Side::right, y - nose, y), y};
}

/// A base that is brought stands tight to the bench and to the back; without a bench at its end, to the side the job
/// names, or what is left over is shared left and right: beside the base itself, since a wall that is out of square
/// stands elsewhere beside a bench behind it. How far back it goes and how far over rest on each other only where back
/// and side are both out of square, each time by a share of a share: a few rounds settle it.
Quad base_brought(const Job& job, const Layout& layout) {
  const survey::Room& room = layout.room;
  const double length = job.base.length.in_mm(), width = job.base.width.in_mm(), high = top_of_base(job);
  const double stud = job.walls.stock.thickness.in_mm();
  const auto has_bench = [&](Side side) { return job.bench && job.bench->place == side; };
  const auto over = [&](double y1) {
    if (has_bench(Side::left)) return layout.bench.x1;
    if (has_bench(Side::right)) return layout.bench.x0 - length;
    const double left = room.innermost(Side::left, y1 - width, y1, 0, high, stud);
    const double right = room.innermost(Side::right, y1 - width, y1, 0, high, stud);
    if (job.base.against == Against::left) return left;
    if (job.base.against == Against::right) return right - length;
    return (left + right - length) / 2;
  };
  const auto back = [&](double x0) {
    return has_bench(Side::back) ? layout.bench.y0 : room.innermost(Side::back, x0, x0 + length, 0, high, stud);
  };
  constexpr int rounds = 4;
  double x0 = over(room.depth), y1 = back(x0);
  for (int i = 0; i < rounds; ++i) x0 = over(y1), y1 = back(x0);
  if (job.base.tape.outline) return job.base.tape.outline->moved(x0, y1 - width);
  return Quad{Rect{x0, y1 - width, x0 + length, y1}};
}

/// How far a wall's studs come in, at most, past the line of its foot.
double leans_in(const survey::Wall& wall, double high) {
  const survey::Point n = wall.inward(), foot = wall.start();
  double most = 0;
  for (const double along : wall.places()) {
    const survey::Point p = wall.at(along, high);
    most = std::max(most, (p.x - foot.x) * n.x + (p.y - foot.y) * n.y);
  }
  return most;
}

/// A base built on site fills the room from wall to wall, between its studs, and from the bench to the line of the
/// entry; where a wall is missing it ends where the room was designed to.
Quad base_in_room(const Job& job, const Layout& layout) {
  const survey::Room& room = layout.room;
  const double high = top_of_base(job) + 100;
  Quad feet{Rect{0, 0, room.width, room.depth}};
  std::array<double, 4> in{};
  const survey::Wall *back = room.wall(Side::back), *left = room.wall(Side::left), *right = room.wall(Side::right);
  if (back || (left && right))
    feet = {left ? left->end() : survey::Point{0, 0}, right ? right->end() : survey::Point{room.width, 0},
            back ? back->end() : right->start(), back ? back->start() : left->start()};
  for (const survey::Wall& wall : room.walls) in[static_cast<std::size_t>(wall.side())] = leans_in(wall, high);
  Quad base = feet.inset(in);
  if (!job.bench) return base;
  const Rect& bench = layout.bench;
  const auto& [front_left, front_right, back_right, back_left] = base.corners();
  const auto along_x = [](const survey::Point& a, const survey::Point& b, double x) {
    return survey::Point{x, a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x)};
  };
  const auto along_y = [](const survey::Point& a, const survey::Point& b, double y) {
    return survey::Point{a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y), y};
  };
  switch (job.bench->place) {
    case Side::left:
      return {along_x(front_left, front_right, bench.x1), front_right, back_right,
              along_x(back_left, back_right, bench.x1)};
    case Side::right:
      return {front_left, along_x(front_left, front_right, bench.x0), along_x(back_left, back_right, bench.x0),
              back_left};
    default:  // at the back
      return {front_left, front_right, along_y(front_right, back_right, bench.y0),
              along_y(front_left, back_left, bench.y0)};
  }
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

/// The tape is hooked on the left stud face beside each spot.
std::vector<survey::Spot> placed_spots(const Job& job, const survey::StudFaces& faces) {
  std::vector<survey::Spot> spots = job.survey.spots;
  for (survey::Spot& spot : spots) spot.x = faces.placed({spot.x, spot.y}).x;
  return spots;
}

survey::Floor floor_of(const Job& job, const std::vector<survey::Spot>& spots, const Rect& extent) {
  if (survey::span_a_plane(spots)) return survey::floor_through(spots, extent);
  return survey::plane_floor(
      {0, -(job.floor.drop_along_width / job.alcove.width), -(job.floor.drop_along_depth / job.alcove.depth)}, extent);
}

Quad inside_upstands(const Job& job, const Quad& base) {
  const double edge = job.base.upstand_thickness.in_mm(), threshold = job.base.threshold.width.in_mm();
  const auto inset = [&](Side side) { return contains(job.base.upstands, side) ? edge : 0.0; };
  return base.inset(
      {inset(Side::back), threshold > 0 ? threshold : inset(Side::front), inset(Side::left), inset(Side::right)});
}

/// Along framing the bed is held back; on open sides it runs past the base.
Quad bed_footprint(const Job& job, const Quad& base) {
  const auto framed = [&](Side side) { return (job.bench && job.bench->place == side) || job.alcove.has_wall(side); };
  const auto inset = [&](Side side) { return framed(side) ? job.bed.holdback.in_mm() : -job.bed.overrun.in_mm(); };
  return base.inset({inset(Side::back), inset(Side::front), inset(Side::left), inset(Side::right)});
}

/// A channel from rim to rim: as much of its strip as lies on the floor.
survey::Polygon strip_on_floor(const Rect& strip, const Layout& layout, bool along_width) {
  const Rect& floor = layout.floor;
  const Rect whole =
      along_width ? Rect{floor.x0, strip.y0, floor.x1, strip.y1} : Rect{strip.x0, floor.y0, strip.x1, floor.y1};
  return survey::common(survey::to_polygon(whole), layout.floor_outline.polygon());
}

void place_drain(const Job& job, Layout& layout) {
  const Drain& drain = job.drain;
  const double across = drain.across.distance.in_mm(), along = drain.along.distance.in_mm();
  const survey::Point centre =
      layout.base_outline.within(drain.across.side == Side::right ? Side::right : Side::left, across,
                                 drain.along.side == Side::front ? Side::front : Side::back, along);
  layout.drain_x = centre.x, layout.drain_y = centre.y;
  double half_x = drain.size.in_mm() / 2, half_y = half_x, x = layout.drain_x, y = layout.drain_y;
  const bool along_width = drain.channel_direction == Direction::along_width;
  const bool rim_to_rim = drain.kind == DrainKind::line && drain.channel_length.is_zero();
  if (drain.kind == DrainKind::line) {
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
  layout.opening_outline = survey::to_polygon(layout.opening);
  if (rim_to_rim && !layout.is_square()) layout.opening_outline = strip_on_floor(layout.opening, layout, along_width);
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

/// A base that came as a file lies as its box does; its heights are its own, over the rib plane.
void lay_body(const Job& job, Layout& layout) {
  const Body& body = *job.base.body;
  layout.body_x = layout.base.x0, layout.body_y = layout.base.y0, layout.body_z = job.bed.least.in_mm();
  layout.floor_outline = body.floor.moved(layout.body_x, layout.body_y);
  layout.floor = layout.floor_outline.box();
  layout.drain_x = body.hole.x + layout.body_x, layout.drain_y = body.hole.y + layout.body_y;
  const Rect& o = body.opening_box;
  layout.opening = {o.x0 + layout.body_x, o.y0 + layout.body_y, o.x1 + layout.body_x, o.y1 + layout.body_y};
  layout.opening_outline = survey::to_polygon(layout.opening);
  layout.rib_plane = layout.body_z;
  layout.drain_edge = layout.drain_top = layout.body_z + body.drain_top;
  const auto height = [&](Side side) { return body.top_mm[static_cast<std::size_t>(side)]; };
  layout.upstand_top = layout.drain_top + job.base.upstand_height.in_mm();
  if (job.bench && contains(job.base.upstands, job.bench->place))  // what its apron stands on
    layout.upstand_top = layout.body_z + height(job.bench->place);
  layout.threshold_inner = layout.body_z + body.threshold_inner;
  layout.threshold_outer = layout.body_z + body.threshold_outer;
  layout.rim_of_body = layout.body_z + body.rim;
  for (const Body::Region& region : body.top) {
    if (!region.name.starts_with("base-floor/")) continue;
    const HeightPlane& p = region.plane;
    layout.facets.push_back({region.name.substr(region.name.find('/') + 1),
                             {p.z0 + layout.body_z - p.gx * layout.body_x - p.gy * layout.body_y, p.gx, p.gy}});
  }
}

/// Of a base that is not there yet, heights follow from its falls and thicknesses.
void stack_base(const Job& job, Layout& layout) {
  pitch_floor(job, layout);
  layout.drain_edge = job.base.is_site_built()
                          ? edge_over_least_bed(job, layout)
                          : job.bed.least.in_mm() + job.base.rib_depth.in_mm() + job.base.shell.in_mm();
  for (FacetPlane& facet : layout.facets) facet.plane = facet.plane.raised(layout.drain_edge);
  layout.rib_plane = job.base.is_site_built()
                         ? layout.drain_edge + level_in_opening(job, layout) - job.base.shell.in_mm()
                         : job.bed.least.in_mm();
  layout.drain_top = opening_edge_low(job, layout);
  // Built on site nothing turns up; the bench's apron stands at the rim's height beside the threshold.
  layout.upstand_top =
      job.base.is_site_built() ? layout.rim_greatest() : layout.drain_top + job.base.upstand_height.in_mm();
  layout.threshold_inner = layout.drain_top + job.base.threshold.height.in_mm();
  layout.threshold_outer =
      layout.threshold_inner + job.base.threshold.width.in_mm() * job.base.threshold.fall.as_ratio();
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
  if (rim_of_body) return *rim_of_body;
  double high = -std::numeric_limits<double>::max();
  for (const survey::Point& p : floor_outline.corners()) high = std::max(high, floor_at(p.x, p.y));
  return high;
}

Layout lay_out(const Job& job) {
  Layout layout;
  layout.room = survey::make_room(job.survey, job.alcove.width.in_mm(), job.alcove.depth.in_mm(), job.alcove.walls);
  layout.extent = floor_extent(job, layout.room);
  layout.spots = placed_spots(job, layout.room.faces());
  if (job.bench) layout.bench = bench_plan(job, layout.room);
  layout.base_outline = job.base.is_site_built() ? base_in_room(job, layout) : base_brought(job, layout);
  layout.floor_outline = inside_upstands(job, layout.base_outline);
  layout.bed_outline = bed_footprint(job, layout.base_outline);
  layout.base = layout.base_outline.box();
  layout.floor = layout.floor_outline.box();
  layout.bed = layout.bed_outline.box();
  place_drain(job, layout);
  const survey::Floor measured = floor_of(job, layout.spots, layout.extent);
  double datum = -std::numeric_limits<double>::max();
  for (const survey::Cell& cell : measured.cells())
    for (const survey::Point& p :
         places_outside_bore(survey::common(cell.plan, layout.base_outline.polygon()), job, layout))
      datum = std::max(datum, cell.plane.at(p.x, p.y));
  layout.subfloor = measured.raised(-datum);

  job.base.body ? lay_body(job, layout) : stack_base(job, layout);
  if (job.bench) stack_bench(job, layout);
  return layout;
}

}  // namespace fallwright::job
