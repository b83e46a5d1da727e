#include "takeoff/item.hpp"
#include "takeoff/need.hpp"

namespace fallwright::takeoff {

std::vector<Row> site_built_rows(const job::Job& job, const facts::Facts& facts) {
  std::vector<Row> rows;
  if (!facts.site_built) return rows;
  const facts::SiteBuilt& site = *facts.site_built;
  const Units u = units_of(job);
  const double area = u.area(site.bed_top_mm2), forms = u.length(site.forms_mm);
  if (job.base.site.waterproofing == job::Waterproofing::liner) {
    rows.push_back(to_row({name_of(Item::liner), area, u.area_unit(), job.buy.membrane.waste, 0, "",
                           "solid 'bed', its sloped top; what turns up walls and over the threshold comes on top"}));
    rows.push_back(
        to_row({"reinforcement", area, u.area_unit(), job.bed.waste, 0, "",
                "in the middle of the top coat, which does not bond to the liner: welded wire or lath; common "
                "practice, no source"}));
  }
  if (forms > 0)
    rows.push_back({"edge forms", forms, u.length_unit(), forms, u.length_unit(),
                    "sides of the base that neither wall nor bench nor threshold bounds: ripped to the screed marks"});
  return rows;
}

}  // namespace fallwright::takeoff
