#include "brep/plan.hpp"
#include "parts/pieces.hpp"

namespace fallwright::parts {
namespace {

using brep::Loop;
using brep::Relief;

/// Falls inward: its inner edge is the low one.
brep::Region threshold_top(const job::Job& job, const job::Layout& layout) {
  const double fall = job.base.threshold.fall.as_ratio(), inner_y = layout.floor.y0;
  const job::Rect strip{layout.floor.x0, layout.base.y0, layout.floor.x1, inner_y};
  return {{to_loop(strip)}, {layout.threshold_inner + fall * inner_y, 0, -fall}, "threshold/top"};
}

/// The level ledge under the opening that carries the drain's grate, with the hole for its body.
brep::Region ledge(const job::Job& job, const job::Layout& layout, const Loop& hole) {
  return {{opening_loop(job, layout), hole}, {layout.drain_top - job.drain.recess.in_mm()}};
}

Loop body_circle(const job::Job& job, const job::Layout& layout) {
  return brep::circle({layout.drain_x, layout.drain_y}, job.drain.body.in_mm() / 2);
}

}  // namespace

Solid make_base(const job::Job& job, const job::Layout& layout) {
  const Loop hole = brep::reversed(body_circle(job, layout));
  Relief top = floor_facets(job, layout);
  top.push_back(ledge(job, layout, hole));
  if (!job.base.threshold.width.is_zero()) top.push_back(threshold_top(job, layout));
  for (brep::Region& upstands : brep::ground({to_loop(layout.base), hole}, top, {layout.upstand_top}))
    top.push_back(std::move(upstands));
  const Relief bottom = underside(job, layout, layout.base, job.drain.body.in_mm() / 2);
  return to_solid("base", Role::base, job.base.material, job.base.density_kg_m3, brep::between(top, bottom, "base"));
}

Solid make_drain(const job::Job& job, const job::Layout& layout) {
  const Loop outer = opening_loop(job, layout), body = body_circle(job, layout);
  const Loop outlet = brep::reversed(brep::circle({layout.drain_x, layout.drain_y}, job.drain.outlet.in_mm() / 2));
  const Relief top{{{outer, outlet}, {layout.drain_top}}};
  Relief bottom{{{body, outlet}, {layout.drain_top - job.drain.body_depth.in_mm()}}};
  for (brep::Region& flange : brep::ground({outer, outlet}, bottom, {layout.drain_top - job.drain.recess.in_mm()}))
    bottom.push_back(std::move(flange));
  constexpr double plastic_kg_m3 = 1400;  // rigid PVC: from memory
  return to_solid("drain", Role::drain, "plastic", plastic_kg_m3, brep::between(top, bottom, "drain"));
}

}  // namespace fallwright::parts
