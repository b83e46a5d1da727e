#include "rules/book.hpp"
#include "rules/remedy.hpp"
#include "rules/words.hpp"

namespace fallwright::rules {
namespace {

/// Codes do not agree from where a wall's height is measured: each check has one datum.
Finding top_above(const job::Job& job, const facts::Facts& facts, const Limit& limit, double datum_mm,
                  const char* datum) {
  if (job.alcove.walls.empty()) return not_applicable("no wall stands round the base");
  const double height = facts.finish.top_mm - datum_mm;
  const double now = job.buy.tile.height.in_mm(), to = up_to_mark(now + *limit.least - height, job);
  Finding finding = found(height, std::string{"top of tile and waterproofing above "} + datum,
                          "carry tile and waterproofing " + text_at_least(*limit.least - height, job) +
                              " higher up the walls, to " + text_of(to, Unit::mm, job) +
                              " above the drain's top (tile.height, now " + text_or_less(now, Unit::mm, job) + ")");
  finding.may_hold = job.is_default("tile.height");
  return mended_by(std::move(finding), {set_length("tile.height", to, job)});
}

Finding above_floor(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  return top_above(job, facts, limit, facts.heights.rim_greatest_mm, "the shower's floor where that is highest");
}

Finding above_drain(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  return top_above(job, facts, limit, facts.heights.drain_top_mm, "the drain's top");
}

Finding above_room(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!facts.heights.outside) return unread();
  return top_above(job, facts, limit, facts.heights.outside->greatest_mm,
                   "the bath's finished floor in front of the entry");
}

}  // namespace

std::vector<Rule> finish_rules() {
  return {
      {"wall.above-floor",
       "walls are waterproof high enough above the shower's floor",
       "top of tile and waterproofing minus the highest edge of the shower's floor",
       "job file: tile.height; base: corners of the floor",
       Unit::mm,
       "",
       "",
       above_floor,
       {Input::waterproof_top, Input::base}},
      {"wall.above-drain",
       "walls are waterproof high enough above the drain",
       "top of tile and waterproofing minus top of the drain",
       "job file: tile.height; drain: its highest point",
       Unit::mm,
       "",
       "",
       above_drain,
       {Input::waterproof_top, Input::drain}},
      {"wall.above-room",
       "walls are waterproof high enough above the bath floor",
       "top of tile and waterproofing minus the bath's finished floor in front of the entry",
       "job file: tile.height; subfloor in front of the entry, with what is laid on it",
       Unit::mm,
       "",
       "",
       above_room,
       {Input::waterproof_top, Input::finish_outside, Input::floor_shape, Input::subfloor}},
  };
}

}  // namespace fallwright::rules
