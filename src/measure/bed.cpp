#include <algorithm>
#include <cmath>
#include <limits>

#include "measure/alcove.hpp"
#include "measure/detail.hpp"

namespace fallwright::measure {

void measure_bed(const parts::Model& model, const Sides& sides, const Mating& mating, facts::Facts& facts) {
  const parts::Solid& bed = *model.first(parts::Role::bed);
  facts::Bed& found = facts.bed;
  found.least_mm = found.least_under_ribs_mm = std::numeric_limits<double>::max();
  for (const Depth& d : depths(sides)) {
    if (d.mm < found.least_mm) found.least_mm = d.mm, found.least_at_mm = to_point(d.top);
    if (d.mm > found.greatest_mm) found.greatest_mm = d.mm, found.greatest_at_mm = to_point(d.top);
  }
  for (const Depth& d : depths(mating.contact, sides))
    found.least_under_ribs_mm = std::min(found.least_under_ribs_mm, d.mm);
  found.contact_mm2 = mating.contact_mm2;
  const auto under = *plan_of(model, parts::Role::bed), over = *plan_of(model, parts::Role::base);
  const auto hole = widest_cylinder(bed.shape);
  found.plan_mm2 = (std::min(under.x1, over.x1) - std::max(under.x0, over.x0)) *
                       (std::min(under.y1, over.y1) - std::max(under.y0, over.y0)) -
                   (hole ? M_PI * hole->Radius() * hole->Radius() : 0);
  found.void_mm3 = mating.void_mm3;
  measure_bearing(model, mating, found);
  for (const facts::Part& part : facts.parts) {
    if (part.id == bed.id) found.set_mm3 = part.volume_mm3;
    if (part.before) found.spread_mm3 = part.volume_mm3, found.gauge_mm = part.bbox_mm[5];
  }
  found.squeeze_out_mm3 = found.spread_mm3 - found.set_mm3;
}

}  // namespace fallwright::measure
