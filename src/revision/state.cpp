#include "revision/state.hpp"

#include "revision/articles.hpp"
#include "revision/sizes.hpp"

namespace fallwright::revision {

State state_of(const job::Job& job, const facts::Facts& facts, const std::vector<rules::Result>& results,
               const std::vector<takeoff::CutRow>& cuts, const std::vector<takeoff::Row>& rows) {
  State state{job, job::written_keys(job), {}, results, cuts, rows, {}};
  std::vector<Told> solids;
  for (const facts::Part& part : facts.parts)
    solids.push_back(
        {name_of(part.which.family.role), part.bbox_mm, part.centroid_mm, part.volume_mm3, part.area_mm2});
  state.articles = articles_of(solids);
  state.spots = facts.room.floor.spots;
  Sizes sizes{state.sizes};
  for (const facts::Mark& mark : facts.room.set_out) sizes.mark(mark.name, mark.mm);
  for (const facts::Rung& rung : facts.room.chain) sizes.height(rung.name, rung.above_datum_mm);
  sizes.bed(facts.bed.least_mm, facts.bed.greatest_mm, facts.bed.set_mm3);
  if (const auto& site = facts.site_built) {
    for (const facts::ScreedMark& mark : site->marks) sizes.screed(mark.line, mark.bed_mm - mark.subfloor_mm);
  } else {
    for (const facts::Gauge& gauge : facts.room.gauges)
      if (!gauge.clear) sizes.gauge(gauge.name, gauge.spread_mm);
  }
  for (const facts::Facet& facet : facts.facets) sizes.fall(name_of(facet.surface), facet.facet, facet.fall);
  return state;
}

}  // namespace fallwright::revision
