#include "rules/book.hpp"
#include "rules/bought.hpp"
#include "rules/levelling.hpp"

namespace fallwright::rules {
namespace {

/// The code's clauses on a threshold hold where there is one (2021 wording); a curbless floor answers to other rules.
bool none(const job::Job& job) {
  return job.base.threshold.width.is_zero();
}

const char* const no_top = "the base has a threshold, and its top was not found: measure its height above the drain";

Finding height_least(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Heights& h = facts.heights;
  if (none(job)) return not_applicable("the base has no threshold");
  if (!h.threshold_least_mm) return missing(no_top);
  const double height = *h.threshold_least_mm - h.drain_top_mm;
  if (is_bought(job))
    return found(height, "threshold's lowest top edge above the drain's top",
                 "a bought base keeps its threshold: buy one whose threshold stands " +
                     text_at_least(*limit.least, job) + " above its drain at least");
  return found(height, "threshold's lowest top edge above the drain's top",
               "raise the threshold by " + text_at_least(*limit.least - height, job) + ", to " +
                   text_at_least(*limit.least, job) + " at its lowest (base.threshold.height)");
}

Finding height_greatest(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Heights& h = facts.heights;
  if (none(job)) return not_applicable("the base has no threshold");
  if (!h.threshold_greatest_mm) return missing(no_top);
  const double height = *h.threshold_greatest_mm - h.drain_top_mm;
  if (is_bought(job))
    return found(height, "threshold's highest top edge above the drain's top",
                 "a bought base keeps its threshold: buy one whose threshold stands " +
                     text_at_most(*limit.greatest, job) + " above its drain at most");
  return found(height, "threshold's highest top edge above the drain's top",
               "lower the threshold by " + text_at_least(height - *limit.greatest, job) + ", to " +
                   text_at_most(*limit.greatest, job) + " at its highest (base.threshold.height)");
}

Finding below_upstand(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Heights& h = facts.heights;
  if (none(job)) return not_applicable("the base has no threshold");
  if (!h.threshold_greatest_mm) return missing(no_top);
  if (!h.upstand_top_mm)
    return missing("the base has no upstands: measure how far the waterproofing behind it rises above the threshold");
  const double between = *h.upstand_top_mm - *h.threshold_greatest_mm;
  return found(between, "upstands' top above the threshold's highest edge",
               is_bought(job) ? "a bought base keeps its upstands: carry the waterproofing behind the board up by " +
                                    text_at_least(*limit.least - between, job) + " more, or buy another base"
                              : "raise the upstands (base.upstands.height) or lower the threshold by " +
                                    text_at_least(*limit.least - between, job));
}

std::string lower_by(const job::Job& job, double mm) {
  return is_bought(job) ? "buy a base whose threshold is " + text_at_least(mm, job) + " lower"
                        : "lower the threshold by " + text_at_least(mm, job) + " (base.threshold.height)";
}

/// A person or a chair crosses the threshold from the floor beside it, not from the drain.
Finding step_inside(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Heights& h = facts.heights;
  if (none(job)) return not_applicable("the base has no threshold");
  if (!h.threshold_greatest_mm) return missing(no_top);
  const double step = *h.threshold_greatest_mm - h.floor_at_threshold_mm.value_or(h.drain_top_mm);
  return found(step, "threshold's highest top edge above the shower's floor beside it",
               lower_by(job, step - *limit.greatest));
}

Finding step_outside(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Heights& h = facts.heights;
  if (none(job)) return not_applicable("the base has no threshold");
  if (!h.threshold_least_mm || !h.threshold_greatest_mm) return missing(no_top);
  if (!h.outside_mm) return unread();
  const double up = *h.threshold_greatest_mm - *h.outside_mm, down = *h.outside_mm - *h.threshold_least_mm;
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
Finding above_outside(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Heights& h = facts.heights;
  if (none(job)) return not_applicable("the base has no threshold");
  if (!h.threshold_least_mm) return missing(no_top);
  if (!h.outside_mm) return unread();
  const double height = *h.threshold_least_mm - *h.outside_mm;
  const std::string lacks = text_at_least(*limit.least - height, job);
  return found(
      height, "threshold's lowest top edge above the bath's finished floor in front of it",
      is_bought(job)
          ? "lower the bath's floor in front of the entry by " + lacks +
                ", thicken the bed (bed.least) by as much, or buy a base with a higher threshold"
          : "raise the threshold by " + lacks +
                " (base.threshold.height), and the upstands where they come too near it (base.upstands.height), or "
                "lower the bath's floor in front of the entry by as much");
}

}  // namespace

std::vector<Rule> height_rules() {
  return {
      {"threshold.height-least",
       "threshold stands above the drain",
       "lowest top of the threshold minus top of the drain",
       "base: corners of the threshold's top; drain: its highest point",
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
       "lowest top of the threshold minus the bath's finished floor in front of the entry",
       "base: corners of the threshold's top; subfloor in front of the entry, with what is laid on it",
       Unit::mm,
       "",
       "",
       above_outside,
       {Input::finish_outside, Input::floor_shape, Input::base, Input::subfloor}},
  };
}

}  // namespace fallwright::rules
