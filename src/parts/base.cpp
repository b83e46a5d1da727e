#include <array>

#include "brep/plan.hpp"
#include "brep/properties.hpp"
#include "parts/pieces.hpp"

namespace fallwright::parts {
namespace {

using brep::Loop;
using brep::Relief;

/// The rim on a side, moved in by what stands on the base's edge there: the apron of a bench where nothing turns up.
job::Quad beside_apron(const job::Job& job, const job::Layout& layout) {
  std::array<double, 4> in{};
  if (job.bench && job.base.is_site_built())
    in[static_cast<std::size_t>(job.bench->place)] = job.bench->apron_thickness.in_mm();
  return layout.floor_outline.inset(in);
}

/// Falls inward: its inner edge is the low one. Upstands, and an apron, run on beside it.
brep::Region threshold_top(const job::Job& job, const job::Layout& layout) {
  using job::Side;
  const double fall = job.base.threshold.fall.as_ratio();
  const job::Quad floor = beside_apron(job, layout);
  const auto outer = [&](Side side) {  // where the side's rim would come to the front edge
    const job::Quad& base = layout.base_outline;
    return job::crossing(floor.outward(side), floor.reach(side), base.outward(Side::front), base.reach(Side::front));
  };
  const survey::Point out = floor.outward(Side::front);
  const auto& [inner_left, inner_right, back_right, back_left] = floor.corners();
  return {{to_loop(survey::Polygon{outer(Side::left), outer(Side::right), inner_right, inner_left})},
          {layout.threshold_inner - fall * floor.reach(Side::front), fall * out.x, fall * out.y},
          "threshold/top"};
}

/// The level ledge under the opening that carries the drain's grate, with the hole for its body.
brep::Region ledge(const job::Job& job, const job::Layout& layout, const Loop& hole) {
  return {{opening_loop(job, layout), hole}, {layout.drain_top - job.drain.recess.in_mm()}};
}

Loop body_circle(const job::Job& job, const job::Layout& layout) {
  return brep::circle({layout.drain_x, layout.drain_y}, job.drain.body.in_mm() / 2);
}

brep::Slab slab_of_base(const job::Job& job, const job::Layout& layout) {
  if (job.base.body) return slab_of_body(job, layout);
  const Loop hole = brep::reversed(body_circle(job, layout));
  Relief top = floor_facets(job, layout);
  top.push_back(ledge(job, layout, hole));
  if (!job.base.threshold.width.is_zero()) top.push_back(threshold_top(job, layout));
  for (brep::Region& upstands : brep::ground({to_loop(layout.base_outline.polygon()), hole}, top, {layout.upstand_top}))
    top.push_back(std::move(upstands));
  const Relief bottom = underside(job, layout, layout.base_outline.polygon(), job.drain.body.in_mm() / 2);
  return brep::between(top, bottom, "base");
}

}  // namespace

Solid make_base(const job::Job& job, const job::Layout& layout) {
  const brep::Slab slab = slab_of_base(job, layout);
  const auto weight_kg = job.base.tape.weight_kg;
  const double density = weight_kg ? *weight_kg / (brep::volume_mm3(slab.solid) * 1e-9) : job.base.density_kg_m3;
  return to_solid({{Role::base}}, job.base.material, density, slab);
}

Solid make_drain(const job::Job& job, const job::Layout& layout) {
  const Loop outer = opening_loop(job, layout), body = body_circle(job, layout);
  const Loop outlet = brep::reversed(brep::circle({layout.drain_x, layout.drain_y}, job.drain.outlet.in_mm() / 2));
  const Relief top{{{outer, outlet}, {layout.drain_top}}};
  Relief bottom{{{body, outlet}, {layout.drain_top - job.drain.body_depth.in_mm()}}};
  for (brep::Region& flange : brep::ground({outer, outlet}, bottom, {layout.drain_top - job.drain.recess.in_mm()}))
    bottom.push_back(std::move(flange));
  constexpr double plastic_kg_m3 = 1400;  // rigid PVC: from memory
  return to_solid({{Role::drain}}, "plastic", plastic_kg_m3, brep::between(top, bottom, "drain"));
}

}  // namespace fallwright::parts
