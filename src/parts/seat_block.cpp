#include <algorithm>

#include "brep/plan.hpp"
#include "parts/pieces.hpp"
#include "units/tolerance.hpp"

namespace fallwright::parts {
namespace {

/// Upstand thickness at the bench's two ends, u = 0 and u = length: none at an open end.
std::pair<double, double> end_upstands(const job::Job& job) {
  using job::Side;
  const double t = job.bench->upstand_thickness.in_mm();
  const auto at = [&](Side side) { return job.alcove.has_wall(side) ? t : 0.0; };
  switch (job.bench->place) {
    case Side::left:
      return {at(Side::back), 0};
    case Side::right:
      return {0, at(Side::back)};
    default:  // at the back
      break;
  }
  return {at(Side::right), at(Side::left)};
}

bool turns_up(const job::Job& job, job::Side side) {
  const auto& upstands = job.base.upstands;
  return !job.base.upstand_thickness.is_zero() && std::find(upstands.begin(), upstands.end(), side) != upstands.end();
}

/// A stretch of the apron, along the bench, and how high its foot is there.
struct Foot {
  double from = 0, to = 0, height = 0;
};

/// The apron stands on the base's upstand along the bench. Where there is none it ends at the rim, and is notched over
/// what the base has at its ends: a threshold, the upstands of other sides. One built on site is built up to the apron.
std::vector<Foot> apron_feet(const job::Job& job, const job::Layout& layout) {
  using job::Side;
  const Side place = job.bench->place;
  const double length = layout.bench_length;
  if (turns_up(job, place)) return {{0, length, layout.upstand_top}};
  const double rim = layout.rim_greatest();
  if (job.base.is_site_built()) return {{0, length, rim}};
  const bool threshold = !job.base.threshold.width.is_zero();
  const auto over = [&](Side side) {  // its top there; the rim's where nothing rises
    if (side == Side::front && threshold) return std::max({rim, layout.threshold_inner, layout.threshold_outer});
    return turns_up(job, side) ? std::max(rim, layout.upstand_top) : rim;
  };
  const job::Rect &bench = layout.bench, &floor = layout.floor;
  const auto along = [&](double from, double to, Side first, Side last) {
    const double low = std::clamp(from, 0.0, length), high = std::clamp(to, low, length);
    return std::vector<Foot>{{0, low, over(first)}, {low, high, rim}, {high, length, over(last)}};
  };
  switch (place) {
    case Side::left:
      return along(bench.y1 - floor.y1, bench.y1 - floor.y0, Side::back, Side::front);
    case Side::right:
      return along(floor.y0 - bench.y0, floor.y1 - bench.y0, Side::front, Side::back);
    default:  // at the back
      break;
  }
  return along(bench.x1 - floor.x1, bench.x1 - floor.x0, Side::right, Side::left);
}

}  // namespace

/// In the bench's own frame: a seat that falls to the front, upstands on the walled sides, an apron under the nose.
Solid make_seat_block(const job::Job& job, const job::Layout& layout) {
  const job::Bench& bench = *job.bench;
  const double play = bench.place == job::Side::back ? bench.end_play.in_mm() / 2 : 0;  // at either end
  const double begin = play, length = layout.bench_length - play, frame = bench.depth.in_mm();
  const double apron = frame + bench.apron_thickness.in_mm(), nose = apron + bench.overhang.in_mm();
  const double back = bench.upstand_thickness.in_mm(), fall = bench.seat_fall.as_ratio();
  const auto [first, last] = end_upstands(job);
  const brep::Loop outline = brep::rectangle(begin, 0, length, nose);

  const brep::Plane seat{layout.seat_front + fall * nose, 0, -fall};
  brep::Relief top{{{brep::rectangle(begin + first, back, length - last, nose)}, seat, "seat/top"}};
  const double upstand_top = seat.at({0, back}) + bench.upstand_height.in_mm();
  for (brep::Region& upstands : brep::ground({outline}, top, {upstand_top})) top.push_back(std::move(upstands));

  brep::Relief bottom;
  if (!bench.apron_thickness.is_zero())
    for (Foot foot : apron_feet(job, layout))
      if (foot.from = std::max(foot.from, begin), foot.to = std::min(foot.to, length);
          foot.to - foot.from > units::tolerance::length_mm)
        bottom.push_back({{brep::rectangle(foot.from, frame, foot.to, apron)}, {foot.height}});
  for (brep::Region& rest : brep::ground({outline}, bottom, {layout.deck_top})) bottom.push_back(std::move(rest));

  Solid solid =
      to_solid({{Role::seat_block}}, bench.material, bench.density_kg_m3, brep::between(top, bottom, "seat-block"));
  move(solid, bench_to_alcove(job, layout));
  return solid;
}

}  // namespace fallwright::parts
