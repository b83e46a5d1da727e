#include "rules/book.hpp"

namespace fallwright::rules {
namespace {

constexpr double in = 25.4;

Finding height_least(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Heights& h = facts.heights;
  if (!h.threshold_least_mm) return {false, {}, "", "", ""};
  return {true, *h.threshold_least_mm - h.drain_top_mm, "threshold's lowest top edge above the drain's top",
          "raise the threshold to " + text_of(*limit.least, Unit::mm, job) + " at its lowest (base.threshold.height); a curbless or accessible shower answers to other rules",
          ""};
}

Finding height_greatest(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Heights& h = facts.heights;
  if (!h.threshold_greatest_mm) return {false, {}, "", "", ""};
  return {true, *h.threshold_greatest_mm - h.drain_top_mm, "threshold's highest top edge above the drain's top",
          "lower the threshold to " + text_of(*limit.greatest, Unit::mm, job) + " at its highest (base.threshold.height)", ""};
}

Finding below_upstand(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Heights& h = facts.heights;
  if (!h.threshold_greatest_mm) return {false, {}, "", "", ""};
  if (!h.upstand_top_mm)
    return {true, {}, "", "", "the base has no upstands: measure how far the waterproofing behind it rises above the threshold"};
  return {true, *h.upstand_top_mm - *h.threshold_greatest_mm, "upstands' top above the threshold's highest edge",
          "raise the upstands or lower the threshold until " + text_of(*limit.least, Unit::mm, job) + " is between them (base.upstands.height)", ""};
}

}  // namespace

std::vector<Rule> height_rules() {
  const char* irc = "IRC P2709.1 (2009, 2021)";
  return {
      {"threshold.height-least", "threshold stands above the drain", "lowest top of the threshold minus top of the drain",
       "base: corners of the threshold's top; drain: its highest point", {2 * in, {}, Unit::mm, irc, Verified::quoted},
       "threshold_height_least", "", Outcome::fail, height_least},
      {"threshold.height-greatest", "threshold is not too high", "highest top of the threshold minus top of the drain",
       "base: corners of the threshold's top; drain: its highest point", {{}, 9 * in, Unit::mm, irc, Verified::quoted}, "",
       "threshold_height_greatest", Outcome::fail, height_greatest},
      {"threshold.below-upstand", "threshold is below the upstands", "top of the upstands minus highest top of the threshold",
       "base: level tops of the upstands, corners of the threshold's top", {1 * in, {}, Unit::mm, irc, Verified::quoted},
       "threshold_below_upstand", "", Outcome::fail, below_upstand},
  };
}

}  // namespace fallwright::rules
