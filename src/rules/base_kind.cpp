#include "rules/base_kind.hpp"

#include <algorithm>
#include <cmath>

#include "rules/book.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"
#include "units/quantity.hpp"

namespace fallwright::rules {
namespace {

const char* const not_bought = "the base is not a bought one (base.kind)";

/// A drain nearer to the middle than this serves either hand: it is as far off as a tape is read with care.
constexpr double no_hand_mm = 12.7;

const char* end_of(double aside_mm) {
  return aside_mm < 0 ? "left" : "right";
}

/// A base of the other hand is found out before it is unpacked: by the end it was ordered for, and by where the room's
/// waste stands.
Finding hand(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (!facts.bought) return not_applicable(not_bought);
  const facts::Bought& b = *facts.bought;
  if (std::abs(b.drain_aside_mm) < no_hand_mm)
    return not_applicable("the drain is in the middle: either hand is alike");
  const std::string measured = end_of(b.drain_aside_mm);
  const auto& ordered = job.base.tape.hand;
  const bool waste_tells = b.waste_aside_mm && std::abs(*b.waste_aside_mm) >= no_hand_mm;
  if (!ordered && !waste_tells)
    return missing("say at which end the drain was ordered (base.hand), or where the room's waste stands ([drain])");
  std::vector<std::string> against;
  if (ordered && job::name_of(*ordered) != measured)
    against.push_back(std::string{"it was ordered at the "} + job::name_of(*ordered));
  if (waste_tells && end_of(*b.waste_aside_mm) != measured)
    against.push_back(std::string{"the room's waste stands at the "} + end_of(*b.waste_aside_mm));
  std::string where = "drain at the " + measured + " end, " + text_of(std::abs(b.drain_aside_mm), Unit::mm, job) +
                      " from the base's middle";
  for (const std::string& each : against) where += "; " + each;
  return found(
      static_cast<double>(against.size()), where,
      "this base is of the other hand: set nothing, send it back. If it was measured upside down, its ends have "
      "changed places: measure it again as it will lie");
}

/// A weight that no material explains is a weight, or a thickness, misread.
Finding weight(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (!facts.bought) return not_applicable(not_bought);
  if (!facts.bought->density_kg_m3) return missing("weigh the base, or read its weight on the box (base.weight)");
  if (!facts.bought->ribs_known)
    return missing("turn the base over and count its ribs ([base.ribs]): without them its volume is not known");
  const double density = *facts.bought->density_kg_m3;
  constexpr double water_kg_m3 = 1000;
  const bool metric = job.unit == job::UnitSystem::metric;
  const double kg = job.base.tape.weight_kg.value_or(0);
  return found(density / water_kg_m3,
               (metric ? units::decimals(kg, 1) + " kg" : units::decimals(kg / units::kg_per_lb, 1) + " lb") +
                   " over the solid's volume, against as much water",
               density < water_kg_m3
                   ? "unless it has a core of foam: weigh it again, measure shell, ribs and upstands again"
                   : "unless it is steel or cast iron: weigh it again, measure shell and ribs again");
}

/// What lies on a liner must carry feet by itself.
Finding cover(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!facts.site_built) return not_applicable("the base is not built on site (base.kind)");
  if (job.base.site.waterproofing == job::Waterproofing::bonded)
    return not_applicable("its waterproofing is bonded: tile lies on it, and the bed below carries");
  const double thin = facts.site_built->cover_least_mm;
  return mended_by(
      found(thin, "plumb, base-floor's facets over the top coat's underside",
            "make the top coat " + text_at_least(*limit.least, job) + " thick (base.cover)"),
      {set_length("base.cover", up_to_mark(job.base.site.cover->in_mm() + *limit.least - thin, job), job)});
}

}  // namespace

std::string without_matter(const std::string& id, const job::Job& job) {
  if (!job.base.is_site_built()) return "";
  const auto among = [&](const std::vector<const char*>& ids) {
    return std::any_of(ids.begin(), ids.end(), [&](const char* each) { return id == each; });
  };
  if (id.rfind("rim.", 0) == 0 || id == "levelling.window")
    return "the base is built on site: it is screeded to its marks, not levelled in one piece";
  if (among({"room.drop-in", "room.goes-in", "room.stud-gap", "opening.width", "opening.depth", "survey.widths-agree"}))
    return "the base is built on site: it fills the room, and nothing is let down between the walls";
  if (among({"floor.rock", "floor.hump", "bed.bearing", "bed.round-drain", "bed.fills-shell", "bed.squeeze-out"}))
    return "the base is built on site: nothing stiff is pressed into its bed";
  if (among({"upstand.every-wall", "threshold.below-upstand"}))
    return "the base is built on site: its waterproofing turns up the walls, told in [liner]";
  return "";
}

std::vector<Rule> base_kind_rules() {
  return {
      {"base.hand",
       "bought base is of the hand that is wanted",
       "signs against it: the end that was ordered, and the end at which the room's waste stands",
       "drain: wall of its body; base: extents; walls",
       Unit::count,
       "",
       "",
       hand,
       {Input::base, Input::drain}},
      {"base.weight",
       "bought base weighs what it may",
       "weight over the solid's volume, against as much water",
       "base: volume; its weight as read",
       Unit::share,
       "",
       "",
       weight,
       {Input::base}},
      {"base.cover",
       "top coat is thick enough",
       "least plumb thickness of what lies on the liner",
       "base: facets of its floor, underside",
       Unit::mm,
       "",
       "",
       cover,
       {Input::base}},
  };
}

}  // namespace fallwright::rules
