#include <cmath>

#include "brep/plan.hpp"
#include "brep/properties.hpp"
#include "parts/pieces.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::parts {
namespace {

brep::Relief measured_floor(const job::Job& job, const job::Layout& layout) {
  return floor_relief(layout, layout.bed_outline.polygon(), 0, bed_hole_radius_mm(job, layout));
}

Solid spread_to(const job::Job& job, const job::Layout& layout, double gauge) {
  const brep::Relief floor = measured_floor(job, layout);
  const brep::Loop hole = brep::circle({layout.drain_x, layout.drain_y}, bed_hole_radius_mm(job, layout));
  const brep::Relief top{{{to_loop(layout.bed_outline.polygon()), brep::reversed(hole)}, {gauge}}};
  return to_solid({{Role::bed_spread}}, "mortar", job.bed.density_kg_m3, brep::between(top, floor, "bed-spread"));
}

const char* material_of_bed(const job::Job& job) {
  if (!job.base.is_site_built()) return "mortar";
  return job.base.site.waterproofing == job::Waterproofing::liner ? "pre-slope" : "sloped bed";
}

}  // namespace

Solid make_bed(const job::Job& job, const job::Layout& layout) {
  const brep::Relief top = underside(job, layout, layout.bed_outline.polygon(), bed_hole_radius_mm(job, layout));
  Solid bed = to_solid({{Role::bed}}, material_of_bed(job), job.bed.density_kg_m3,
                       brep::between(top, measured_floor(job, layout), "bed"));
  bed.skin = skin_of(bed);
  bed.mass = brep::properties(*bed.skin);
  return bed;
}

Solid make_spread(const job::Job& job, const job::Layout& layout, const Solid& bed) {
  if (job.base.is_site_built()) {  // nothing is pressed into it: it is screeded as it stays
    Solid spread = bed;
    spread.call({{Role::bed_spread}});
    return spread;
  }
  if (job.bed.gauge_depth) return spread_to(job, layout, job.bed.gauge_depth->in_mm());
  // Between two level lines the volume grows by the plan's area: one trial line gives the one wanted.
  const double trial = layout.rib_plane, area = brep::area(to_loop(layout.bed_outline.polygon())) -
                                                M_PI * std::pow(bed_hole_radius_mm(job, layout), 2);
  const double missing = bed.mass->volume_mm3 - brep::volume_mm3(spread_to(job, layout, trial).shape);
  return spread_to(job, layout, units::up_to_mark(trial + missing / area, job.mark_mm()));
}

}  // namespace fallwright::parts
