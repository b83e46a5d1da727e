#include <algorithm>

#include "rules/book.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"
#include "rules/rule_book.hpp"
#include "rules/spot.hpp"
#include "rules/words.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

/// The limit is what the job asks for: the bed may not come out thinner anywhere under the base.
Finding least(const Ground& ground, const Limit&) {
  const auto& [job, facts, limits, joists] = ground;
  if (facts.bed.contact_mm2 <= 0)
    return cannot_tell("base and bed share no face: look at both solids before trusting the bed");
  const double asked = least_in_force(job.bed.least.in_mm(), ground, "bed.least"), thin = facts.bed.least_under_ribs_mm;
  Finding finding = found(thin, "plumb, where base and bed touch",
                          "grind the floor's high spot down by " + text_at_least(asked - thin, job) +
                              ": a bed of bed.least lies on the highest spot that was read");
  finding.least = asked;
  return finding;
}

Finding greatest(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (facts.bed.set_mm3 <= 0) return cannot_tell("the bed has no volume: nothing to measure its thickness on");
  return found(facts.bed.greatest_mm, "thickest at " + spot_of(facts.bed.greatest_at_mm, facts.room.faces, job),
               "place what is above " + text_at_most_on_tape(*limit.greatest, job) +
                   " in two lifts, or raise the floor there by " +
                   text_at_least(facts.bed.greatest_mm - *limit.greatest, job) + " first");
}

/// Whoever set the depth it is spread to can have it found.
std::vector<job::Change> gauge_found(const job::Job& job) {
  if (!job.bed.gauge_depth) return {};
  return {{"bed.gauge_depth", ""}};
}
std::string spread(const job::Job& job, const std::string& how) {
  return "spread it " + how + (job.bed.gauge_depth ? " (leave bed.gauge_depth out to have it found)" : "");
}

/// Too little mortar spread, or open space under the base, means voids that no one sees again.
Finding fills(const job::Job& job, const facts::Facts& facts, const Limit&) {
  const facts::Bed& bed = facts.bed;
  if (bed.set_mm3 <= 0) return cannot_tell("the bed has no volume: nothing to compare");
  const bool hollow = bed.void_mm3 > units::tolerance::overlap_mm3;
  const double surplus = hollow ? std::min(-bed.void_mm3, bed.squeeze_out_mm3) : bed.squeeze_out_mm3;
  // Rounded each to its own side two that lie closer than a person reads would part: what is enough reads as enough.
  const std::string needed = text_or_more(bed.set_mm3, Unit::mm3, job);
  std::string spread_text = text_or_less(bed.spread_mm3, Unit::mm3, job);
  const bool enough = surplus > -units::tolerance::overlap_mm3;
  if (enough && spread_text == text_or_less(bed.set_mm3, Unit::mm3, job)) spread_text = needed;
  return mended_by(found(surplus, "spread " + spread_text + ", needed under the base " + needed,
                         "voids of " + text_or_more(-surplus, Unit::mm3, job) +
                             " would stay under the base: " + spread(job, "higher")),
                   gauge_found(job));
}

/// Thinner than this mortar dries out before it sets, and cracks under a heel. The limit is what trowels and grit
/// allow.
Finding thickness(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (facts.bed.contact_mm2 <= 0)
    return cannot_tell("base and bed share no face: look at both solids before trusting the bed");
  const double thin = facts.bed.least_under_ribs_mm;
  const double to = up_to_mark(job.bed.least.in_mm() + *limit.least - thin, job);
  return mended_by(
      found(thin, "plumb, where base and bed touch",
            "a bed of " + text_or_less(thin, Unit::mm, job) + " dries out before it sets and cracks: make it " +
                text_of(to, Unit::mm, job) + " at its thinnest (bed.least)"),
      {set_length("bed.least", to, job)});
}

/// What is spread beyond what stays must all come out from under the base: it is bought, mixed, and hard to press out.
Finding squeeze(const job::Job& job, const facts::Facts& facts, const Limit&) {
  const facts::Bed& bed = facts.bed;
  if (bed.set_mm3 <= 0) return cannot_tell("the bed has no volume: nothing to compare");
  return mended_by(found(std::max(0.0, bed.squeeze_out_mm3) / bed.set_mm3,
                         "spread " + text_or_more(bed.spread_mm3, Unit::mm3, job) + " to a line " +
                             text_of(bed.gauge_mm, Unit::mm, job) + " above the datum, " +
                             text_or_less(bed.set_mm3, Unit::mm3, job) + " stay",
                         text_or_more(bed.squeeze_out_mm3, Unit::mm3, job) +
                             " have to come out from under the base, and it may not go down: " + spread(job, "lower")),
                   gauge_found(job));
}

/// "along the back, left and right edges", "round the drain", "at 12" from the left stud face ...".
std::string place_of_patch(const facts::BarePatch& patch, const survey::StudFaces& faces, const job::Job& job) {
  const auto& [x0, y0, x1, y1] = patch.box_mm;
  const std::string sides = units::listed(job::names_of(patch.along));
  const std::string size = patch.along.size() < 2 ? ", " + text_of(x1 - x0, Unit::mm, job) + " by " +
                                                        text_of(y1 - y0, Unit::mm, job) + " over all"
                                                  : "";
  if (patch.round_drain) return "round the drain" + size;
  if (sides.empty()) return "at " + place_of({(x0 + x1) / 2, (y0 + y1) / 2, 0}, faces, job) + size;
  return "along the " + sides + " edge" + (patch.along.size() > 1 ? "s" : "") + size;
}

/// Where base and bed touch, against all of the base that could bear: what the bed is held back from, it does not
/// carry.
Finding bearing(const job::Job& job, const facts::Facts& facts, const Limit&) {
  const facts::Bed& bed = facts.bed;
  if (bed.underside_mm2 <= 0) return cannot_tell("the base has no underside: nothing to compare");
  std::string where = "plan where base and bed touch, of all of the base's underside that could bear";
  if (bed.bare.area_mm2 > 0)
    where += "; largest part with no mortar under it " + text_or_more(bed.bare.area_mm2, Unit::mm2, job) + ", " +
             place_of_patch(bed.bare, facts.room.faces, job);
  return found(
      bed.contact_mm2 / bed.underside_mm2, where,
      "bring mortar under the rest: hold the bed back less (bed.holdback, bed.collar), " + spread(job, "higher"));
}

/// Between two ribs the shell bends as a beam over one pocket, q l2 / 8; over the hole round the drain it hangs free,
/// q a2 / 2. Both are alike where the hole reaches half a pocket past the drain. Two inches (in the metric book 50 mm)
/// are left to any base: the room that a pipe, its coupling and a hand need.
double sensible_reach_mm(const job::Job& job) {
  const double least = is_metric_book(job.book) ? 50 : 50.8;
  return std::max(least, job.base.pocket_mm() / 2);
}

Finding round_drain(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!facts.drain.body_to_bed_mm) return cannot_tell("the drain's body or the bed's hole was not found on its solid");
  const double reach = *facts.drain.body_to_bed_mm, most = limit.greatest.value_or(sensible_reach_mm(job));
  const double bore = job.drain.bore.in_mm() - 2 * (reach - most);
  Finding finding =
      found(reach, "from the drain's body to the first mortar under the base, level, all round",
            "the base bridges a bore of " + text_of(job.drain.bore.in_mm(), Unit::mm, job) +
                (bore > job.drain.body.in_mm()
                     ? ": bore " + text_at_most_on_tape(bore, job) + " at most (drain.bore), or fill it up"
                     : ": bring the bed closer to it (bed.collar), and fill the bore up") +
                " round the pipe to that before the bed is spread");
  finding.greatest = most;
  if (bore <= job.drain.body.in_mm()) return finding;
  return mended_by(std::move(finding), {set_length("drain.bore", down_to_mark(bore, job), job)});
}

}  // namespace

std::vector<Rule> bed_rules() {
  return {
      {"bed.bearing",
       "base bears on the bed",
       "plan of their contact over all of the base's underside but what lies over the bore",
       "base, bed: faces they share; base: faces that look down; subfloor: wall of the bore",
       Unit::share,
       "",
       "",
       bearing,
       {Input::floor_shape, Input::ribs, Input::base, Input::bed, Input::subfloor}},
      {"bed.round-drain",
       "base bears close round the drain",
       "radius of the bed's hole less that of the drain's body",
       "bed: wall of its hole; drain: wall of its body",
       Unit::mm,
       "",
       "",
       round_drain,
       {Input::drain_body, Input::bed, Input::drain, Input::base}},
      {"bed.thickness",
       "bed is thick enough to hold",
       "least plumb thickness where base and bed touch",
       "bed, base: faces they share; bed: underside",
       Unit::mm,
       "bed_thickness_least",
       "",
       thickness,
       {Input::outline, Input::base_leans, Input::floor_shape, Input::ribs, Input::base, Input::bed}},
      {"bed.least",
       "bed is nowhere thinner than asked",
       "least plumb thickness where base and bed touch",
       "bed, base: faces they share; bed: underside",
       Unit::mm,
       "",
       "",
       least,
       {Input::outline, Input::base_leans, Input::floor_shape, Input::ribs, Input::base, Input::bed}},
      {"bed.greatest",
       "bed can be placed in one lift",
       "greatest plumb thickness of the bed",
       "bed: corners of its top over its underside",
       Unit::mm,
       "",
       "bed_greatest",
       greatest,
       {Input::outline, Input::base_leans, Input::floor_shape, Input::ribs, Input::bed}},
      {"bed.fills-shell",
       "mortar fills the base from below",
       "volume as spread minus volume as set; less than none where open space stays between base and bed",
       "bed, bed as spread, base",
       Unit::mm3,
       "",
       "",
       fills,
       {Input::floor_shape, Input::ribs, Input::bed, Input::bed_as_spread, Input::base}},
      {"bed.squeeze-out",
       "no more mortar is spread than is needed",
       "volume as spread less volume as set, over that",
       "bed, bed as spread",
       Unit::share,
       "",
       "bed_squeeze_out",
       squeeze,
       {Input::floor_shape, Input::ribs, Input::bed, Input::bed_as_spread}},
  };
}

}  // namespace fallwright::rules
