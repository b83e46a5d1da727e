#include <algorithm>
#include <cmath>
#include <optional>

#include "rules/as_set.hpp"
#include "rules/book.hpp"
#include "rules/bought.hpp"
#include "rules/levelling.hpp"
#include "rules/outside.hpp"
#include "rules/remedy.hpp"
#include "rules/words.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

/// The code's clauses on a threshold hold where there is one (2021 wording); a curbless floor answers to other rules.
/// An upstand across the entry is one in all but name.
bool none(const job::Job& job) {
  const auto& sides = job.base.upstands;
  const bool upstand =
      !job.base.upstand_thickness.is_zero() && std::find(sides.begin(), sides.end(), job::Side::front) != sides.end();
  return job.base.threshold.width.is_zero() && !upstand;
}

/// The threshold's top, or that of an upstand across the entry.
std::optional<double> entry_top(const job::Job& job, const facts::Facts& facts, bool lowest) {
  const facts::Heights& h = facts.heights;
  if (!job.base.threshold.width.is_zero()) return lowest ? h.threshold_least_mm : h.threshold_greatest_mm;
  for (const facts::Edge& edge : facts.edges)
    if (edge.side == job::Side::front) return lowest ? edge.top_mm : edge.top_greatest_mm;
  return std::nullopt;
}

const char* const rolled_in =
    "the base has no threshold: its floor is rolled into, holds water by its fall alone, and its step is judged";

/// The lowest edge over which water leaves the base: the threshold's, or that of another open side.
struct Spill {
  double top_mm = 0;
  const facts::Edge* beside = nullptr;  ///< an open side lower than the threshold; else nothing
  std::string words() const {
    if (!beside) return "threshold's lowest top edge";
    return std::string{"lowest top of the "} + job::name_of(beside->side) + " edge, which is open (" +
           (beside->raised() ? std::string{"an "} + name_of(beside->turned)
                             : std::string{"the floor's rim, nothing turns up"}) +
           "),";
  }
};

std::optional<Spill> spill_of(const job::Job& job, const facts::Facts& facts) {
  const auto entry = entry_top(job, facts, true);
  if (!entry) return std::nullopt;
  Spill spill{*entry, nullptr};
  for (const facts::Edge& edge : facts.edges)
    if (edge.open() && edge.side != job::Side::front && edge.top_mm < spill.top_mm) spill = {edge.top_mm, &edge};
  return spill;
}

/// A way to raise an edge, in words and as lines of the job file.
struct Raise {
  std::string words;
  std::vector<job::Change> lines;
};

/// A threshold raised to `to_mm` above the drain by `by_mm` takes the upstands with it where they come too near.
Raise raise_threshold(const Ground& ground, double by_mm) {
  const job::Job& job = ground.job;
  const facts::Heights& h = ground.facts.heights;
  const bool threshold = !job.base.threshold.width.is_zero();
  if (!threshold) {  // an upstand across the entry
    const double to = up_to_mark(job.base.upstand_height.in_mm() + by_mm, job);
    return {"raise the upstands to " + text_of(to, Unit::mm, job) + " above the drain (base.upstands.height)",
            {set_length("base.upstands.height", to, job)}};
  }
  const double to = up_to_mark(job.base.threshold.height.in_mm() + by_mm, job);
  Raise raise{"raise the threshold to " + text_of(to, Unit::mm, job) + " above the drain (base.threshold.height)",
              {set_length("base.threshold.height", to, job)}};
  const auto between = ground.limits.at("threshold.below-upstand").least;
  if (!between || !h.upstand_top_mm || !h.threshold_greatest_mm) return raise;
  const double lacks =
      *between - (*h.upstand_top_mm - *h.threshold_greatest_mm - (to - job.base.threshold.height.in_mm()));
  if (lacks <= units::tolerance::length_mm) return raise;
  const double upstands = up_to_mark(job.base.upstand_height.in_mm() + lacks, job);
  raise.words += " and the upstands to " + text_of(upstands, Unit::mm, job) + " (base.upstands.height)";
  raise.lines.push_back(set_length("base.upstands.height", upstands, job));
  return raise;
}

/// What lowers what stands across the entry by so much.
Raise lower_entry(const job::Job& job, double by_mm) {
  const bool threshold = !job.base.threshold.width.is_zero();
  const double now = (threshold ? job.base.threshold.height : job.base.upstand_height).in_mm();
  const double to = down_to_mark(now - by_mm, job);
  const std::string key = threshold ? "base.threshold.height" : "base.upstands.height";
  const std::string what = threshold ? "lower the threshold to " : "lower the upstands to ";
  if (to <= 0) return {"no threshold is that low: leave it out (base.threshold.width = 0)", {}};
  return {what + text_of(to, Unit::mm, job) + " above the drain at its inner edge (" + key + ")",
          {set_length(key, to, job)}};
}

/// What raises the lowest edge by so much.
Raise raise(const Ground& ground, const Spill& spill, double by_mm) {
  const job::Job& job = ground.job;
  if (!spill.beside) return raise_threshold(ground, by_mm);
  if (spill.beside->raised()) {
    const double to = up_to_mark(job.base.upstand_height.in_mm() + by_mm, job);
    return {"raise the upstands to " + text_of(to, Unit::mm, job) + " above the drain (base.upstands.height)",
            {set_length("base.upstands.height", to, job)}};
  }
  if (job.base.is_site_built()) {  // nothing of it turns up but along walls
    std::vector<job::Side> walls = job.alcove.walls;
    walls.push_back(spill.beside->side);
    return {std::string{"close the "} + job::name_of(spill.beside->side) +
                " side with a wall, up which its waterproofing is turned (alcove.walls)",
            {{"alcove.walls", job::written(walls)}}};
  }
  std::vector<job::Side> sides = job.base.upstands;
  sides.push_back(spill.beside->side);
  const std::string words = std::string{"turn the "} + job::name_of(spill.beside->side) +
                            " edge up (base.upstands.sides), or close that side with a wall";
  if (job.base.upstand_thickness.is_zero()) return {words, {}};
  return {words, {{"base.upstands.sides", job::written(sides)}}};
}

const char* const no_top = "the base has a threshold, and its top was not found: measure its height above the drain";

Finding height_least(const Ground& ground, const Limit& limit) {
  const job::Job& job = ground.job;
  const facts::Facts& facts = ground.facts;
  const facts::Heights& h = facts.heights;
  if (none(job)) return not_applicable(rolled_in);
  const auto spill = spill_of(job, facts);
  if (!spill) return missing(no_top);
  const double height = spill->top_mm - h.drain_top_mm;
  const std::string where = spill->words() + " above the drain's top";
  if (is_bought(job))
    return found(height, where,
                 spill->beside
                     ? std::string{"a bought base keeps its edges: close its "} + job::name_of(spill->beside->side) +
                           " side with a wall, or buy one that turns up there"
                     : "a bought base keeps its threshold: buy one whose threshold stands " +
                           text_at_least(*limit.least, job) + " above its drain at least");
  const Raise up = raise(ground, *spill, *limit.least - height);
  return mended_by(found(height, where, up.words), up.lines);
}

Finding height_greatest(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Heights& h = facts.heights;
  if (none(job)) return not_applicable(rolled_in);
  const auto top = entry_top(job, facts, false);
  if (!top) return missing(no_top);
  const double height = *top - h.drain_top_mm;
  if (is_bought(job))
    return found(height, "threshold's highest top edge above the drain's top",
                 "a bought base keeps its threshold: buy one whose threshold stands " +
                     text_at_most(*limit.greatest, job) + " above its drain at most");
  const Raise down = lower_entry(job, height - *limit.greatest);
  return mended_by(found(height, "threshold's highest top edge above the drain's top", down.words), down.lines);
}

Finding below_upstand(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Heights& h = facts.heights;
  if (none(job)) return not_applicable(rolled_in);
  const auto top = entry_top(job, facts, false);
  if (!top) return missing(no_top);
  if (!h.upstand_top_mm)
    return missing("the base has no upstands: measure how far the waterproofing behind it rises above the threshold");
  const double between = *h.upstand_top_mm - *top;
  const char* const where = "upstands' top above the threshold's highest edge";
  if (is_bought(job))
    return found(between, where,
                 "a bought base keeps its upstands: carry the waterproofing behind the board up by " +
                     text_at_least(*limit.least - between, job) + " more, or buy another base");
  if (job.base.threshold.width.is_zero())
    return found(between, where, "give the base a threshold in place of the upstand across its entry");
  const double upstands = up_to_mark(job.base.upstand_height.in_mm() + *limit.least - between, job);
  const Raise down = lower_entry(job, *limit.least - between);
  return mended_by(mended_by(found(between, where,
                                   "raise the upstands to " + text_of(upstands, Unit::mm, job) +
                                       " above the drain (base.upstands.height), or " + down.words),
                             {set_length("base.upstands.height", upstands, job)}),
                   down.lines);
}

constexpr const char* as_it_lies = ", as the base lies now";

/// Whether the base was read in its bed, and how high it came to lie: what stands in front of it is then met as it is.
bool lies_as_read(const facts::Facts& facts) {
  return facts.room.as_set.read && facts.room.as_set.raised_mm.has_value();
}

/// A height told above the drain's top, above the datum as the base lies. @pre lies_as_read
double as_read(const facts::Facts& facts, double above_drain_mm) {
  return facts.heights.drain_top_mm + *facts.room.as_set.raised_mm + above_drain_mm;
}

/// How far the ends of a side came to lie above where they were designed, least and greatest. @pre lies_as_read
std::pair<double, double> moved(const facts::Facts& facts, job::Side side) {
  const auto base = std::find_if(facts.parts.begin(), facts.parts.end(),
                                 [](const facts::Part& part) { return part.which.is(facts::Role::base); });
  if (base == facts.parts.end()) return {*facts.room.as_set.raised_mm, *facts.room.as_set.raised_mm};
  const auto& box = base->bbox_mm;
  const bool across = side == job::Side::front || side == job::Side::back;
  const double x = side == job::Side::right ? box[3] : box[0], y = side == job::Side::back ? box[4] : box[1];
  const double one = raised_at(facts, x, y), other = across ? raised_at(facts, box[3], y) : raised_at(facts, x, box[4]);
  return {std::min(one, other), std::max(one, other)};
}

/// What is left to do of a base that lies in its bed already: by so much.
std::string bedded_again(const std::string& by, bool higher) {
  return std::string{"lift it while the mortar is wet and bed it again "} + by + (higher ? " higher" : " lower") +
         ", or " + (higher ? "lower" : "raise") + " the bath's floor in front of the entry by as much";
}

/// A person or a chair crosses the threshold from the floor beside it, not from the drain.
Finding step_inside(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Heights& h = facts.heights;
  if (none(job)) return not_applicable(rolled_in);
  if (!h.threshold_greatest_mm) return missing(no_top);
  const double step = *h.threshold_greatest_mm - h.floor_at_threshold_mm.value_or(h.drain_top_mm);
  const char* const where = "threshold's highest top edge above the shower's floor beside it";
  const double excess = step - *limit.greatest;
  if (is_bought(job))
    return found(step, where, "buy a base whose threshold is " + text_at_least(excess, job) + " lower");
  const Raise down = lower_entry(job, excess);
  return mended_by(found(step, where, down.words), down.lines);
}

Finding step_outside(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Heights& h = facts.heights;
  if (none(job)) return not_applicable(rolled_in);
  if (!h.threshold_least_mm || !h.threshold_greatest_mm) return missing(no_top);
  if (!h.outside) return unread();
  const facts::AsSet& set = facts.room.as_set;
  const bool now = lies_as_read(facts) && set.threshold_least_mm && set.threshold_greatest_mm;
  const double highest = now ? as_read(facts, *set.threshold_greatest_mm) : *h.threshold_greatest_mm;
  const double lowest = now ? as_read(facts, *set.threshold_least_mm) : *h.threshold_least_mm;
  const double up = highest - h.outside->least_mm, down = h.outside->greatest_mm - lowest;
  if (now)
    return found(
        std::max(up, down),
        std::string{down > up ? "bath's finished floor above the threshold's lowest top edge"
                              : "threshold's highest top edge above the bath's finished floor in front of it"} +
            as_it_lies,
        bedded_again(text_at_least(std::max(up, down) - *limit.greatest, job), down > up));
  if (down > up)
    return found(down, "bath's finished floor above the threshold's lowest top edge",
                 "raise base and threshold, or lower the bath's floor in front of the entry, by " +
                     text_at_least(down - *limit.greatest, job));
  const std::string lacks = text_at_least(up - *limit.greatest, job);
  return found(up, "threshold's highest top edge above the bath's finished floor in front of it",
               "raise the bath's floor in front of the entry by " + lacks + ", or set base and bed " + lacks +
                   " deeper in the floor: a threshold lower by as much would let the water out");
}

/// Water that rises in the shower leaves over the threshold's lowest edge. Where the bath's floor lies above that edge
/// it stands there, against the joint of two floors, before the threshold has held anything back.
Finding above_outside(const Ground& ground, const Limit& limit) {
  const job::Job& job = ground.job;
  const facts::Facts& facts = ground.facts;
  const facts::Heights& h = facts.heights;
  if (none(job)) return not_applicable(rolled_in);
  const auto spill = spill_of(job, facts);
  if (!spill) return missing(no_top);
  if (!h.outside) return unread();
  const bool now = lies_as_read(facts) && facts.room.as_set.threshold_least_mm;
  const double height = (now ? as_read(facts, *facts.room.as_set.threshold_least_mm) : spill->top_mm) -
                        (spill->beside ? spill->beside->outside : h.outside).value_or(*h.outside).greatest_mm;
  const std::string lacks = text_at_least(*limit.least - height, job),
                    where = spill->words() + " above the bath's finished floor in front of it";
  if (now) return found(height, where + as_it_lies, bedded_again(lacks, true));
  const double bed = up_to_mark(job.bed.least.in_mm() + *limit.least - height, job);
  if (is_bought(job))
    return mended_by(
        found(height, where,
              "lower the bath's floor in front of the entry by " + lacks + ", thicken the bed to " +
                  text_of(bed, Unit::mm, job) + " (bed.least), or " +
                  (spill->beside ? std::string{"close the "} + job::name_of(spill->beside->side) + " side with a wall"
                                 : "buy a base with a higher threshold")),
        {set_length("bed.least", bed, job)});
  const Raise up = raise(ground, *spill, *limit.least - height);
  return mended_by(found(height, where, up.words + ", or lower the bath's floor in front of the entry by " + lacks),
                   up.lines);
}

/// What a height is to be raised to, so that edges from `low` to `high` off it keep a step both ways: the next mark;
/// where that would break the step at the lowest of them, what a good rule shows, or half way.
double raised_to(double now, double low, double high, double step, const job::Job& job) {
  const double most = now + low + step, least = now + high - step;
  if (const double mark = up_to_mark(least, job); mark <= most) return mark;
  const double fine = units::down_to_mark(most, units::rule_mark_mm(job.is_metric()));
  return fine >= least ? fine : (least + most) / 2;
}

/// A floor that is rolled or walked into without a threshold meets the bath's floor at its open edges. The step between
/// them trips, whichever is the higher.
Finding step(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!none(job)) return not_applicable("the entry has a threshold: its height is judged");
  const facts::Edge* worst = nullptr;
  double up = 0, lowest = 0, highest = 0;
  for (const facts::Edge& edge : facts.edges) {
    if (!edge.open() || edge.raised() || !facts.heights.outside) continue;
    const auto [least, most] = lies_as_read(facts) ? moved(facts, edge.side) : std::pair{0., 0.};
    const facts::Levels outside = edge.outside.value_or(*facts.heights.outside);
    for (const double by :
         {edge.top_mm + least - outside.greatest_mm, edge.top_greatest_mm + most - outside.least_mm}) {
      lowest = worst ? std::min(lowest, by) : by, highest = worst ? std::max(highest, by) : by;
      if (!worst || std::abs(by) > std::abs(up)) up = by, worst = &edge;
    }
  }
  if (facts.edges.empty()) return cannot_tell("the base's edges were not found on its solid");
  if (!facts.heights.outside) return unread();
  if (!worst) return not_applicable("no open edge of the base is without an upstand");
  const std::string where = std::string{job::name_of(worst->side)} + " edge of the base " +
                            (up < 0 ? "below" : "above") + " the bath's finished floor outside" +
                            (lies_as_read(facts) ? as_it_lies : "");
  if (lies_as_read(facts))
    return found(std::abs(up), where, bedded_again(text_at_least(std::abs(up) - *limit.greatest, job), up < 0));
  if (highest - lowest > 2 * *limit.greatest + units::tolerance::length_mm)
    return found(std::abs(up), where,
                 "its open edges differ by " + text_or_more(highest - lowest, Unit::mm, job) +
                     " in height against the bath's floor before them, and no one finish meets them all: ramp the "
                     "bath's floor up to each, or take a base with "
                     "a level rim or a threshold");
  const double now = (up < 0 ? job.bed.least : job.floor.finish_outside.value_or(job::Length{})).in_mm();
  const double to = raised_to(now, up < 0 ? -highest : lowest, std::abs(up), *limit.greatest, job);
  const std::string lacks = text_or_more(to - now, Unit::mm, job), full = length_in_full(to, job);
  if (up < 0)
    return mended_by(found(std::abs(up), where,
                           "raise the base by " + lacks + ", on a bed of " + full +
                               " (bed.least), or lower the bath's floor in front of it"),
                     {set_length("bed.least", to, job)});
  return mended_by(found(std::abs(up), where,
                         "raise the bath's floor in front of the entry by " + lacks + ", to " + full +
                             " (floor.finish_outside), or sink the base as much: recess the subfloor under it"),
                   {set_length("floor.finish_outside", to, job)});
}

}  // namespace

facts::Facts lying_at(const facts::Facts& facts, double raised_mm, double gx, double gy) {
  facts::Facts then = facts;
  facts::AsSet& set = then.room.as_set;
  set.raised_mm = raised_mm, set.gx = gx, set.gy = gy;
  const facts::Heights& h = facts.heights;
  const auto [least, most] = moved(then, job::Side::front);
  if (set.threshold_greatest_mm && h.threshold_greatest_mm)
    set.threshold_greatest_mm = *h.threshold_greatest_mm - h.drain_top_mm + most - raised_mm;
  if (!set.threshold_least_mm || !h.threshold_least_mm) return then;
  set.threshold_least_mm = *h.threshold_least_mm - h.drain_top_mm + least - raised_mm;
  for (const facts::Edge& edge : facts.edges)
    if (edge.open() && edge.side != job::Side::front)
      set.threshold_least_mm =
          std::min(*set.threshold_least_mm, edge.top_mm - h.drain_top_mm + moved(then, edge.side).first - raised_mm);
  return then;
}

std::optional<double> measured_outside(const std::string& id, const job::Job& job, const facts::Facts& facts,
                                       const Limit& limit) {
  if (!lies_as_read(facts)) return std::nullopt;
  if (id == "entry.step") return step(job, facts, limit).measured;
  if (!facts.room.as_set.threshold_least_mm) return std::nullopt;
  if (id == "threshold.step-outside") return step_outside(job, facts, limit).measured;
  const Limits unused{{}};  // what lies in its bed already is raised by no line of the job file
  return above_outside({job, facts, unused}, limit).measured;
}

std::vector<Rule> height_rules() {
  return {
      {"threshold.height-least",
       "threshold stands above the drain",
       "lowest top of threshold and other open edges minus top of the drain",
       "base: corners of the threshold's top and of open edges; drain: its highest point",
       Unit::mm,
       "threshold_height_least",
       "",
       height_least,
       {Input::base, Input::drain}},
      {"threshold.height-greatest",
       "threshold is not too high",
       "highest top of the threshold minus top of the drain",
       "base: corners of the threshold's top; drain: its highest point",
       Unit::mm,
       "",
       "threshold_height_greatest",
       height_greatest,
       {Input::base, Input::drain}},
      {"threshold.below-upstand",
       "threshold is below the upstands",
       "top of the upstands minus highest top of the threshold",
       "base: level tops of the upstands, corners of the threshold's top",
       Unit::mm,
       "threshold_below_upstand",
       "",
       below_upstand,
       {Input::base}},
      {"threshold.step-inside",
       "step from the shower's floor is low enough",
       "highest top of the threshold minus the lowest floor along its inner edge",
       "base: corners of the threshold's top and of the floor",
       Unit::mm,
       "",
       "",
       step_inside,
       {Input::base}},
      {"threshold.step-outside",
       "step from the bath floor is low enough",
       "highest top of the threshold minus the bath's finished floor in front of the entry, or that floor minus the "
       "threshold's lowest top",
       "base: corners of the threshold's top; subfloor in front of the entry, with what is laid on it",
       Unit::mm,
       "",
       "",
       step_outside,
       {Input::finish_outside, Input::floor_shape, Input::base, Input::subfloor}},
      {"threshold.above-outside",
       "threshold stands above the bath floor",
       "lowest top of threshold and other open edges minus the bath's finished floor in front of the entry",
       "base: corners of the threshold's top and of open edges; subfloor in front of the entry, with what is laid on "
       "it",
       Unit::mm,
       "",
       "",
       above_outside,
       {Input::finish_outside, Input::floor_shape, Input::base, Input::subfloor}},
      {"entry.step",
       "no step trips at an open edge",
       "height between the base's open edges and the bath's finished floor, where there is no threshold",
       "base: corners of its floor along open sides; subfloor in front of the entry, with what is laid on it",
       Unit::mm,
       "",
       "entry_step_greatest",
       step,
       {Input::finish_outside, Input::floor_shape, Input::base, Input::subfloor}},
  };
}

}  // namespace fallwright::rules
