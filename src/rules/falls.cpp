#include <algorithm>
#include <limits>

#include "job/body.hpp"
#include "rules/advice.hpp"
#include "rules/book.hpp"
#include "rules/bought.hpp"
#include "rules/check.hpp"
#include "rules/remedy.hpp"
#include "rules/words.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

std::vector<facts::Facet> of(const facts::Facts& facts, facts::Surface surface) {
  std::vector<facts::Facet> found;
  for (const facts::Facet& facet : facts.facets)
    if (facet.surface == surface) found.push_back(facet);
  return found;
}

std::string where_of(const facts::Facet& facet, const survey::StudFaces& faces, const job::Job& job) {
  return "facet '" + facet.facet + "', run " + text_of(facet.run_mm, Unit::mm, job) + ", from its plane; lowest at " +
         place_of(facet.low_mm, faces, job);
}

/// The first of those that fall least, or most: in a room out of square rounding alone tells like falls apart.
const facts::Facet& gentlest(const std::vector<facts::Facet>& facets) {
  double least = facets.front().fall;
  for (const facts::Facet& f : facets) least = std::min(least, f.fall);
  return *std::find_if(facets.begin(), facets.end(),
                       [&](const facts::Facet& f) { return f.fall <= least + units::tolerance::ratio; });
}
const facts::Facet& steepest(const std::vector<facts::Facet>& facets) {
  double most = facets.front().fall;
  for (const facts::Facet& f : facets) most = std::max(most, f.fall);
  return *std::find_if(facets.begin(), facets.end(),
                       [&](const facts::Facet& f) { return f.fall >= most - units::tolerance::ratio; });
}

/// Both limits of the floor's fall, for advice that keeps both.
std::string advice_for_floor(const Ground& ground) {
  const Limit least = ground.limits.at("floor.fall-least"), greatest = ground.limits.at("floor.fall-greatest");
  const auto advice = [&](const job::Job& job) {
    return floor_advice(job, least.least.value_or(0), greatest.greatest.value_or(1));
  };
  job::Job bought = ground.job;
  bought.base.made = job::Made::bought;
  return by_make(ground.job, advice(ground.job), advice(bought));
}

/// Between the corners of triangles that stand for a curved floor it may be flatter or steeper than any of them: what
/// fails fails all the same, and nothing passes.
bool is_curved(const job::Job& job) {
  return job.base.body && job.base.body->curved_floor;
}
const char* const between_triangles =
    "the base's floor is curved, and known by triangles alone: lay a short level on it where it looks flattest, and "
    "steepest, and pour water on it";

Finding floor(const Ground& ground, bool least) {
  const auto facets = of(ground.facts, facts::Surface::base_floor);
  if (facets.empty()) return cannot_tell("the floor has no facet to measure");
  const facts::Facet& facet = least ? gentlest(facets) : steepest(facets);
  const Limit limit = ground.limits.at(least ? "floor.fall-least" : "floor.fall-greatest");
  const bool holds = keeps(facet.fall, limit);
  if (holds && is_curved(ground.job)) return cannot_tell(between_triangles);
  const std::string where = where_of(facet, ground.facts.room.faces, ground.job);
  if (holds) return found(facet.fall, where, "");  // another place of the drain is looked for where one is wanted
  Finding finding = found(facet.fall, where, advice_for_floor(ground));
  if (is_bought(ground.job)) return finding;
  const double low = ground.limits.at("floor.fall-least").least.value_or(0),
               high = ground.limits.at("floor.fall-greatest").greatest.value_or(1);
  finding.other_drain =
      ground.job.base.pattern == job::FallPattern::level_rim && !floor_remedy(ground.job, low, high).possible();
  for (auto& way : floor_changes(ground.job, low, high)) finding = mended_by(std::move(finding), std::move(way));
  return finding;
}
Finding floor_least(const Ground& ground, const Limit&) {
  return floor(ground, true);
}
Finding floor_greatest(const Ground& ground, const Limit&) {
  return floor(ground, false);
}

/// The least part of the facets' falls that leads along (x, y); negative where water runs back.
double least_toward(const std::vector<facts::Facet>& facets, double x, double y) {
  double least = std::numeric_limits<double>::max();
  for (const facts::Facet& f : facets) least = std::min(least, f.fall_toward(x, y));
  return least;
}

double toward_base(const job::Bench& bench, const std::vector<facts::Facet>& facets) {
  switch (bench.place) {
    case job::Side::left:
      return least_toward(facets, 1, 0);
    case job::Side::right:
      return least_toward(facets, -1, 0);
    default:  // at the back
      return least_toward(facets, 0, -1);
  }
}

const char* const no_seat = "the job has a bench, and its seat has no facet to measure";

/// A seat that falls to a side or to the wall does not do, however much it falls.
Finding seat_least(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const auto facets = of(facts, facts::Surface::seat);
  if (!job.bench) return not_applicable("no bench");
  if (facets.empty()) return missing(no_seat);
  return mended_by(found(toward_base(*job.bench, facets), "seat, toward the base, from its plane",
                         "let the seat fall at least " + text_or_more(*limit.least, Unit::ratio, job) +
                             " toward the base (bench.seat_fall)"),
                   {set_fall("bench.seat_fall", *limit.least, job)});
}

/// Steepness counts whichever way it leads.
Finding seat_greatest(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const auto facets = of(facts, facts::Surface::seat);
  if (!job.bench) return not_applicable("no bench");
  if (facets.empty()) return missing(no_seat);
  return mended_by(found(steepest(facets).fall, "seat, along its fall, from its plane",
                         "let the seat fall at most " + text_or_less(*limit.greatest, Unit::ratio, job) +
                             " (bench.seat_fall): steeper, a person slides"),
                   {set_fall("bench.seat_fall", *limit.greatest, job)});
}

Finding threshold_inward(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const auto facets = of(facts, facts::Surface::threshold);
  if (job.base.threshold.width.is_zero()) return not_applicable("the base has no threshold");
  if (facets.empty()) return cannot_tell("the base has a threshold, and its top has no facet to measure");
  const double fall = least_toward(facets, 0, 1);
  const std::string least = text_or_more(*limit.least, Unit::ratio, job);
  if (is_bought(job))
    return found(fall, "threshold top, inward, from its plane",
                 "a bought base keeps its threshold: bond a wedge of tile on it that falls inward " + least +
                     ", or buy one that does");
  return mended_by(found(fall, "threshold top, inward, from its plane",
                         "let its top fall inward at least " + least + " (base.threshold.fall)"),
                   {set_fall("base.threshold.fall", *limit.least, job)});
}

Finding drains(const job::Job& job, const facts::Facts& facts, facts::Surface surface) {
  const auto it =
      std::find_if(facts.drainage.begin(), facts.drainage.end(), [&](const auto& d) { return d.surface == surface; });
  if (it == facts.drainage.end())
    return cannot_tell(std::string{"the way of the water over the "} + name_of(surface) + " was not traced");
  if (it->drains) return found(it->pond_mm, "traced over every facet", "");
  std::string stuck;
  for (const std::string& facet : it->stuck) stuck += (stuck.empty() ? " on facet '" : ", '") + facet + "'";
  Finding finding =
      found(it->pond_mm, "water stays" + stuck + ", deepest at " + place_of(it->pond_at_mm, facts.room.faces, job),
            "change the fall so that every corner has a way down");
  finding.broken = true;
  return finding;
}

Finding floor_drains(const job::Job& job, const facts::Facts& facts, const Limit&) {
  Finding finding = drains(job, facts, facts::Surface::base_floor);
  return is_curved(job) && !finding.broken ? cannot_tell(between_triangles) : finding;
}
Finding seat_drains(const job::Job& job, const facts::Facts& facts, const Limit&) {
  return job.bench ? drains(job, facts, facts::Surface::seat) : not_applicable("no bench");
}
Finding threshold_drains(const job::Job& job, const facts::Facts& facts, const Limit&) {
  return job.base.threshold.width.is_zero() ? not_applicable("the base has no threshold")
                                            : drains(job, facts, facts::Surface::threshold);
}

}  // namespace

std::vector<Rule> fall_rules() {
  return {
      {"floor.fall-least",
       "floor falls enough",
       "least fall of all facets of the floor",
       "base: planes of the floor's facets",
       Unit::ratio,
       "floor_fall_least",
       "",
       floor_least,
       {Input::outline, Input::base_leans, Input::opening, Input::base}},
      {"floor.fall-greatest",
       "floor is not too steep",
       "greatest fall of all facets of the floor",
       "base: planes of the floor's facets",
       Unit::ratio,
       "",
       "floor_fall_greatest",
       floor_greatest,
       {Input::outline, Input::base_leans, Input::opening, Input::base}},
      {"floor.drains",
       "all water reaches the drain",
       "depth of water that stays, traced from corner to corner over the facets",
       "base: corners and edges of the floor's facets; drain: its place",
       Unit::mm,
       "",
       "",
       floor_drains,
       {Input::outline, Input::base_leans, Input::opening, Input::base, Input::drain}},
      {"seat.fall-least",
       "seat falls toward the base",
       "fall of the seat's plane, taken toward the base",
       "seat block: plane of the seat",
       Unit::ratio,
       "seat_fall_least",
       "",
       seat_least,
       {Input::seat_block}},
      {"seat.fall-greatest",
       "seat is not too steep",
       "fall of the seat's plane",
       "seat block: plane of the seat",
       Unit::ratio,
       "",
       "seat_fall_greatest",
       seat_greatest,
       {Input::seat_block}},
      {"seat.drains",
       "no water stays on the seat",
       "depth of water that stays, traced to the front edge",
       "seat block: corners and edges of the seat",
       Unit::mm,
       "",
       "",
       seat_drains,
       {Input::seat_block}},
      {"threshold.falls-inward",
       "threshold's top falls inward",
       "fall of the threshold's top plane, taken inward",
       "base: plane of the threshold's top",
       Unit::ratio,
       "threshold_fall_least",
       "",
       threshold_inward,
       {Input::threshold_fall, Input::base}},
      {"threshold.drains",
       "no water stays on the threshold",
       "depth of water that stays, traced to the inner edge",
       "base: corners and edges of the threshold's top",
       Unit::mm,
       "",
       "",
       threshold_drains,
       {Input::threshold_fall, Input::base}},
  };
}

}  // namespace fallwright::rules
