#include <algorithm>
#include <cmath>

#include "job/rough_threshold.hpp"
#include "takeoff/item.hpp"
#include "takeoff/need.hpp"

namespace fallwright::takeoff {

std::optional<Threshold> threshold_of(const job::Job& job, const facts::Facts& facts) {
  const auto top = std::find_if(facts.facets.begin(), facts.facets.end(),
                                [](const facts::Facet& f) { return f.surface == facts::Surface::threshold; });
  if (!facts.site_built || top == facts.facets.end()) return std::nullopt;
  Threshold found;
  // A level top has no way that it runs along: then it is as wide as it was asked for.
  found.width_mm = top->run_mm > 0 ? top->run_mm : job.base.threshold.width.in_mm();
  found.length_mm = top->area_mm2 / std::hypot(1, top->fall) / found.width_mm;
  found.inner_mm = facts.heights.threshold_least_mm.value_or(top->low_mm[2]);
  found.outer_mm = facts.heights.threshold_greatest_mm.value_or(top->high_mm[2]);
  if (top->flow[1] < 0) std::swap(found.inner_mm, found.outer_mm);
  found.laid_on_mm = job::laid_on_threshold_mm(job.base, facts.site_built->cover_least_mm);
  return found;
}

std::vector<Row> site_built_rows(const job::Job& job, const facts::Facts& facts) {
  std::vector<Row> rows;
  if (!facts.site_built) return rows;
  const facts::SiteBuilt& site = *facts.site_built;
  const Units u = units_of(job);
  const double area = u.area(site.bed_top_mm2), forms = u.length(site.forms_mm);
  if (job.base.site.waterproofing == job::Waterproofing::liner) {
    rows.push_back(
        to_row({name_of(Item::liner), area, u.area_unit(), job.buy.membrane.waste, 0, "",
                "solid of the bed, its sloped top; what turns up walls and over the threshold comes on top"}));
    rows.push_back(
        to_row({"reinforcement", area, u.area_unit(), job.bed.waste, 0, "",
                "in the middle of the top coat, which does not bond to the liner: welded wire or lath; common "
                "practice, no source"}));
  }
  // Over a liner its mortar is in the top coat.
  if (const auto threshold = threshold_of(job, facts);
      threshold && job.base.site.waterproofing == job::Waterproofing::bonded) {
    Row row{"threshold, rough",
            u.length(threshold->length_mm),
            u.length_unit(),
            u.length(threshold->length_mm),
            u.length_unit(),
            "on the set bed; of what it is built the job does not say: as local practice builds it; not on this list"};
    row.for_sale = false;
    rows.push_back(row);
  }
  if (forms > 0)
    rows.push_back({"edge forms", forms, u.length_unit(), forms, u.length_unit(),
                    std::string{"sides of the base that neither wall nor bench bounds: ripped to the screed marks"} +
                        (threshold_of(job, facts) ? "; one of them before the bed under the threshold" : "")});
  return rows;
}

}  // namespace fallwright::takeoff
