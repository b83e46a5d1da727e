#include <algorithm>

#include "rules/book.hpp"
#include "rules/levelling.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

/// The limit is what the job asks for: the bed may not come out thinner anywhere under the base.
Finding least(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (facts.bed.contact_mm2 <= 0)
    return cannot_tell("base and bed share no face: look at both solids before trusting the bed");
  const double asked = job.bed.least.in_mm(), thin = facts.bed.least_under_ribs_mm;
  Finding finding =
      found(thin, "plumb, where base and bed touch",
            "raise bed.least by " + text_at_least(asked - thin, job) + ", or grind the floor's high spot");
  finding.least = asked;
  return finding;
}

Finding greatest(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (facts.bed.set_mm3 <= 0) return cannot_tell("the bed has no volume: nothing to measure its thickness on");
  return found(facts.bed.greatest_mm, "thickest at " + place_of(facts.bed.greatest_at_mm, job),
               "place what is above " + text_at_most(*limit.greatest, job) +
                   " in two lifts, or raise the floor there by " +
                   text_at_least(facts.bed.greatest_mm - *limit.greatest, job) + " first");
}

/// Too little mortar spread, or open space under the base, means voids that no one sees again.
Finding fills(const job::Job& job, const facts::Facts& facts, const Limit&) {
  const facts::Bed& bed = facts.bed;
  if (bed.set_mm3 <= 0) return cannot_tell("the bed has no volume: nothing to compare");
  const bool hollow = bed.void_mm3 > units::tolerance::overlap_mm3;
  const double surplus = hollow ? std::min(-bed.void_mm3, bed.squeeze_out_mm3) : bed.squeeze_out_mm3;
  return found(surplus,
               "spread " + text_of(bed.spread_mm3, Unit::mm3, job) + ", needed under the base " +
                   text_of(bed.set_mm3, Unit::mm3, job),
               "voids of " + text_of(-surplus, Unit::mm3, job) +
                   " would stay under the base: spread it higher (leave bed.gauge_depth out to have it found)");
}

/// Where base and bed touch, against the bed's own plan: mortar that bears nothing holds nothing.
Finding bearing(const job::Job&, const facts::Facts& facts, const Limit&) {
  const facts::Bed& bed = facts.bed;
  if (bed.plan_mm2 <= 0) return cannot_tell("the bed has no plan: nothing to compare");
  return found(bed.contact_mm2 / bed.plan_mm2, "plan where base and bed touch, of the bed's plan under the base",
               "find the voids: more mortar (leave bed.gauge_depth out), or fewer places where the bed is held back");
}

}  // namespace

std::vector<Rule> bed_rules() {
  return {
      {"bed.bearing",
       "base bears on the bed",
       "plan of their contact over the bed's plan under the base",
       "base, bed: faces they share",
       Unit::share,
       "",
       "",
       bearing,
       {Input::floor_shape, Input::base, Input::bed}},
      {"bed.least",
       "bed is nowhere thinner than asked",
       "least plumb thickness where base and bed touch",
       "bed, base: faces they share; bed: underside",
       Unit::mm,
       "",
       "",
       least,
       {Input::floor_shape, Input::base, Input::bed}},
      {"bed.greatest",
       "bed can be placed in one lift",
       "greatest plumb thickness of the bed",
       "bed: corners of its top over its underside",
       Unit::mm,
       "",
       "bed_greatest",
       greatest,
       {Input::floor_shape, Input::bed}},
      {"bed.fills-shell",
       "mortar fills the base from below",
       "volume as spread minus volume as set; less than none where open space stays between base and bed",
       "bed, bed as spread, base",
       Unit::mm3,
       "",
       "",
       fills,
       {Input::floor_shape, Input::bed, Input::bed_as_spread, Input::base}},
  };
}

}  // namespace fallwright::rules
