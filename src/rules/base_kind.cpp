#include "rules/base_kind.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "rules/as_set.hpp"
#include "rules/book.hpp"
#include "rules/bought.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"
#include "rules/spot.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

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

/// "3/8\" to the right and 1/4\" to the back"; by as much as nobody sees, nothing.
std::string way_of(double aside_mm, double back_mm, const job::Job& job) {
  const double seen_mm = job.mark_mm() / 2;
  std::vector<std::string> ways;
  const auto add = [&](double mm, const char* low, const char* high) {
    if (std::abs(mm) >= seen_mm)
      ways.push_back(text_of(std::abs(mm), Unit::mm, job) + " to the " + (mm < 0 ? low : high));
  };
  add(aside_mm, "left", "right");
  add(back_mm, "front", "back");
  return units::listed(ways);
}

/// A wall, and of two the one that the drain is told from.
job::Side waste_is_read_from(const job::Job& job) {
  const bool left = job.alcove.has_wall(job::Side::left), right = job.alcove.has_wall(job::Side::right);
  if (left != right) return left ? job::Side::left : job::Side::right;
  return job.drain.across.side;
}

/// What a tape is hooked on there.
std::string face_on(job::Side side, const job::Job& job) {
  const std::string hand = job::name_of(side);
  if (job.alcove.has_wall(side) || !job.alcove.has_wall(job::Side::back)) return "stud face on the " + hand;
  return "end of the back wall on the " + hand;
}

/// Both ways to bring drain and waste together: the waste goes all the way, or the base goes as far as the room lets it
/// and the waste the rest. `waste`: to the right and to the back of the drain.
Finding drain_to_waste(Finding finding, const std::array<double, 2>& waste, double allowed_mm, const job::Job& job,
                       const facts::Facts& facts) {
  const auto& [aside, back] = waste;
  finding.advice = "have the waste moved " + way_of(-aside, -back, job) + " before the base goes down";
  const double play = std::copysign(play_mm(job, facts, aside > 0), aside);
  const auto reaches = [&, back = back](double left_aside) { return std::hypot(left_aside, back) <= allowed_mm; };
  if (std::abs(play) < job.mark_mm() / 2 || std::abs(aside) < job.mark_mm() / 2) return finding;
  const std::string way = aside < 0 ? "left" : "right";
  if (reaches(aside - play)) {  // tight to the wall it comes down on the waste
    finding.advice += ", or set the whole base " + way_of(play, 0, job) + ", tight to the wall (base.against)";
    return mended_by(std::move(finding), {{"base.against", "\"" + way + "\""}});
  }
  const double shift = std::copysign(std::min(std::abs(play), std::abs(aside)), aside), rest = aside - shift;
  finding.advice += ", or set the whole base " + text_at_most_on_tape(std::abs(shift), job) + " to the " + way +
                    (reaches(rest) ? ", as the room lets it"
                                   : ", as far as the room lets it, tight to the wall (base.against = \"" + way +
                                         "\"), and have the waste moved " + way_of(-rest, -back, job));
  return finding;
}

/// The pipe in the floor does not move with the base: the drain has to come down on it.
Finding over_waste(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!facts.bought) return not_applicable(not_bought);
  const facts::Bought& b = *facts.bought;
  if (!b.waste_aside_mm && !b.waste_back_mm)
    return job.walls.existing ? unread()
                              : not_applicable("no waste is told of that stands there already: it is bored for");
  const double aside = b.waste_aside_mm ? *b.waste_aside_mm - b.drain_aside_mm : 0, back = b.waste_back_mm.value_or(0),
               off = std::hypot(aside, back);
  const bool near = off <= *limit.greatest + units::tolerance::length_mm;
  if (near && !b.waste_back_mm)
    return missing(std::string{"measure how far the centre of the room's waste stands from the "} +
                   (job.alcove.has_wall(job::Side::back) ? "back stud face (drain.waste_from_back)"
                                                         : "entry (drain.waste_from_front): no wall stands at the "
                                                           "back"));
  if (near && !b.waste_aside_mm) {
    const job::Side side = waste_is_read_from(job);
    return missing("measure how far the centre of the room's waste stands from the " + face_on(side, job) +
                   " (drain.waste_from_" + job::name_of(side) + ")");
  }
  const std::string way = way_of(aside, back, job);
  const bool other_hand = b.waste_aside_mm && std::abs(b.drain_aside_mm) >= no_hand_mm &&
                          std::abs(*b.waste_aside_mm) >= no_hand_mm &&
                          end_of(*b.waste_aside_mm) != end_of(b.drain_aside_mm);
  const auto& from_right = job.base.tape.waste_from_right;
  const job::Side hand = from_right ? job::Side::right : job::Side::left;
  const bool off_end = b.waste_aside_mm && !job.alcove.has_wall(hand);
  Finding finding =
      found(off,
            "the room's waste stands " + (way.empty() ? "under the drain's centre" : way + " of the drain's centre") +
                (off_end ? ", as read from the " + face_on(hand, job) : ""),
            "this base is of the other hand: set nothing, send it back");
  return other_hand ? finding : drain_to_waste(std::move(finding), {aside, back}, *limit.greatest, job, facts);
}

/// A weight that no material explains is a weight, or a thickness, misread.
Finding weight(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (!facts.bought) return not_applicable(not_bought);
  if (!facts.bought->density_kg_m3) return missing("weigh the base, or read its weight on the box (base.weight)");
  if (!facts.bought->ribs_known) return unread();
  const double density = *facts.bought->density_kg_m3;
  constexpr double water_kg_m3 = 1000;
  const bool metric = job.is_metric();
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
  if (is_as_set(id) || id == "levelling.window")
    return "the base is built on site: it is screeded to its marks, not levelled in one piece";
  if (id == "room.stud-gap" && job.bench) return "";  // studs behind that are to be brought out to it
  if (among({"room.drop-in", "room.goes-in", "room.stud-gap", "opening.width", "opening.depth"}))
    return "the base is built on site: it fills the room, and nothing is let down between the walls";
  if (among({"floor.rock", "floor.hump", "bed.bearing", "bed.round-drain", "bed.fills-shell", "bed.squeeze-out"}))
    return "the base is built on site: nothing stiff is pressed into its bed";
  if (among({"upstand.every-wall", "threshold.below-upstand"}))
    return std::string{"the base is built on site: its waterproofing turns up the walls, told "} +
           (job.base.site.waterproofing == job::Waterproofing::liner ? "in [liner]" : "by tile.height");
  return "";
}

std::optional<Standing> outline_known(const job::Job& job, const facts::Facts& facts) {
  if (!job.base.is_site_built()) return std::nullopt;
  if (job.alcove.walls.size() < 2) return std::nullopt;
  const bool figure = told_by_figure(job), askew = !job.survey.square.value_or(true);
  if (figure ? facts.room.closure.solved : job.survey.square.value_or(false)) return Standing::read;
  const bool looked_at = figure && job.survey.plan.any();
  return askew || looked_at || job.walls.existing ? std::optional{Standing::assumed} : std::nullopt;
}

bool is_bonded(const job::Job& job) {
  return job.base.is_site_built() && job.base.site.waterproofing == job::Waterproofing::bonded;
}

std::vector<Rule> base_kind_rules() {
  return {
      {"base.hand",
       "bought base is of the hand that is wanted",
       "signs against it: the end that was ordered, and the end at which the room's waste stands",
       "drain: wall of its body; base: extents; walls",
       {"sign against it", "signs against it"},
       "",
       "",
       hand,
       {Input::base, Input::drain}},
      {"base.over-waste",
       "bought base's drain stands over the room's waste",
       "from the drain's centre to that of the waste as it was read, level",
       "drain: wall of its body; walls: their feet",
       Unit::mm,
       "",
       "",
       over_waste,
       {Input::waste, Input::base, Input::drain, Input::walls}},
      {"base.weight",
       "bought base weighs what it may",
       "weight over the solid's volume, against as much water",
       "base: volume; its weight as read",
       Unit::share,
       "",
       "",
       weight,
       {Input::ribs, Input::base}},
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
