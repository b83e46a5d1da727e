#include <algorithm>

#include "brep/plan.hpp"
#include "parts/pieces.hpp"

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

/// The apron stands on the base's upstand along the bench, or ends at the rim where there is none.
double apron_foot(const job::Job& job, const job::Layout& layout) {
  using job::Side;
  const Side side = job.bench->place;
  const auto& upstands = job.base.upstands;
  const bool stands =
      !job.base.upstand_thickness.is_zero() && std::find(upstands.begin(), upstands.end(), side) != upstands.end();
  return stands ? layout.upstand_top : layout.rim_greatest();
}

}  // namespace

/// In the bench's own frame: a seat that falls to the front, upstands on the walled sides, an apron under the nose.
Solid make_seat_block(const job::Job& job, const job::Layout& layout) {
  const job::Bench& bench = *job.bench;
  const double length = layout.bench_length, frame = bench.depth.in_mm();
  const double apron = frame + bench.apron_thickness.in_mm(), nose = apron + bench.overhang.in_mm();
  const double back = bench.upstand_thickness.in_mm(), fall = bench.seat_fall.as_ratio();
  const auto [first, last] = end_upstands(job);
  const brep::Loop outline = brep::rectangle(0, 0, length, nose);

  const brep::Plane seat{layout.seat_front + fall * nose, 0, -fall};
  brep::Relief top{{{brep::rectangle(first, back, length - last, nose)}, seat, "seat/top"}};
  const double upstand_top = seat.at({0, back}) + bench.upstand_height.in_mm();
  for (brep::Region& upstands : brep::ground({outline}, top, {upstand_top})) top.push_back(std::move(upstands));

  brep::Relief bottom;
  if (!bench.apron_thickness.is_zero())
    bottom.push_back({{brep::rectangle(0, frame, length, apron)}, {apron_foot(job, layout)}});
  for (brep::Region& rest : brep::ground({outline}, bottom, {layout.deck_top})) bottom.push_back(std::move(rest));

  Solid solid =
      to_solid({{Role::seat_block}}, bench.material, bench.density_kg_m3, brep::between(top, bottom, "seat-block"));
  move(solid, bench_to_alcove(job, layout));
  return solid;
}

}  // namespace fallwright::parts
