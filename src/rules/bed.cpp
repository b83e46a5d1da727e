#include "rules/book.hpp"

namespace fallwright::rules {
namespace {

constexpr double in = 25.4;

/// The limit is what the job asks for: the bed may not come out thinner anywhere.
Finding least(const job::Job& job, const facts::Facts& facts, const Limit&) {
  return {true, facts.bed.least_under_ribs_mm - job.bed.least.in_mm(),
          "thinnest under the base is " + text_of(facts.bed.least_under_ribs_mm, Unit::mm, job) + ", asked for is " +
              text_of(job.bed.least.in_mm(), Unit::mm, job),
          "raise bed.least, or grind the floor's high spot", ""};
}

Finding greatest(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  return {true, facts.bed.greatest_mm, "thickest at " + place_of(facts.bed.greatest_at_mm, job),
          "above " + text_of(*limit.greatest, Unit::mm, job) + " mortar is placed in two lifts, or the floor is raised first", ""};
}

/// Squeeze-out below zero, or open space under the base, means voids that no one sees again.
Finding fills(const job::Job& job, const facts::Facts& facts, const Limit&) {
  const facts::Bed& bed = facts.bed;
  const double surplus = bed.void_mm3 > 1 ? -bed.void_mm3 : bed.squeeze_out_mm3;
  const std::string place = "spread " + text_of(bed.spread_mm3, Unit::mm3, job) + ", needed under the base " + text_of(bed.set_mm3, Unit::mm3, job);
  return {true, surplus, place,
          "voids of " + text_of(-surplus, Unit::mm3, job) + " would stay under the base: spread it higher (leave bed.gauge_depth out to have it found)", ""};
}

}  // namespace

std::vector<Rule> bed_rules() {
  return {
      {"bed.least", "bed is nowhere thinner than asked", "least plumb thickness where base and bed touch, minus bed.least", "bed, base: faces they share; bed: underside",
       {0.0, {}, Unit::mm, "bed.least in the job file", Verified::user}, "", "", Outcome::fail, least},
      {"bed.greatest", "bed can be placed in one lift", "greatest plumb thickness of the bed", "bed: corners of its top over its underside",
       {{}, 2 * in, Unit::mm, "1-1/2 to 2 in a lift", Verified::common_practice}, "", "bed_greatest", Outcome::caution, greatest},
      {"bed.fills-shell", "mortar fills the base from below", "volume as spread minus volume as set; open space between base and bed", "bed, bed as spread, base",
       {0.0, {}, Unit::mm3, "no voids under a base", Verified::common_practice}, "", "", Outcome::fail, fills},
  };
}

}  // namespace fallwright::rules
