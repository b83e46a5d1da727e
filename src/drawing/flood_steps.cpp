#include "drawing/steps.hpp"
#include "rules/flood.hpp"
#include "rules/rule_book.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

std::string weight_of(double water_mm3, bool metric) {
  const double kg = water_mm3 * 1e-6;
  return metric ? units::decimals(kg, 0) + " kg" : units::decimals(kg / units::kg_per_lb, 0) + " lb";
}

/// "each 10 mm more weighs 13 kg"; up to an upright dam, however much stands before it.
std::string behind_a_dam(const job::Job& job, const Findings& s) {
  const bool metric = job.is_metric();
  const double step_mm = metric ? 10 : units::inch_mm;
  return "each " + units::to_text(units::Length::mm(step_mm), metric) + " more weighs " +
         weight_of(s.facts.flood.plan_mm2 * step_mm, metric);
}

/// Where the book asks for more than the base holds by itself, the water that a dam adds.
std::string each_step_more(const job::Job& job, const Findings& s) {
  for (const rules::Result& r : s.judgement.results)
    if (r.id == "flood.depth" && (r.outcome == rules::Outcome::fail || r.outcome == rules::Outcome::caution))
      return "; behind a dam " + behind_a_dam(job, s);
  return "";
}

/// Where all of it runs off at once nothing can be filled and marked: a dam comes first.
std::string none_without_a_dam(const rules::FloodTable& water, const job::Job& job, const Findings& s) {
  return "it holds none by itself: first a dam along the " + units::listed(job::names_of(water.over)) +
         (water.over.size() > 1 ? " edges" : " edge") + ", how high this book does not say; " + behind_a_dam(job, s) +
         " at most";
}

/// " up to where it spills", " up to the rough threshold", " up to 2-1/2\" above the drain, behind a dam,".
std::string up_to(const rules::FloodTable& water, const job::Job& job) {
  const auto len = [&](double mm) { return units::to_text(units::Length::mm(mm), job.is_metric()); };
  const std::string from = water.on_flange ? " above the drain's flange" : " above the drain";
  if (!water.levels.empty())
    return " up to " +
           (water.fill_mm ? rules::text_at_least(*water.fill_mm, job) : len(water.levels.back().dip.above_drain_mm)) +
           from + ", behind a dam,";
  const std::string brim = rules::brim_text(water, job), height = brim + from;
  const std::string close = brim.rfind("just", 0) == 0 ? ", " + brim + "," : "";  // than it is filled to
  if (!water.on_flange) return (water.rough ? " up to the rough threshold" : " up to where it spills") + close;
  if (water.rough) return " up to the rough threshold, " + height + ",";
  if (water.unknown.empty()) return " up to where it spills, " + height + ",";
  return " up to the finished threshold, " + height +
         " (it spills lower, at the rough one's top, how much the job does not say),";
}

}  // namespace

Step flood_step(const job::Job& job, const Findings& s) {
  const rules::FloodTable water = rules::flood_table(job, s.facts, s.judgement.results);
  const bool liner = water.on_flange && job.base.site.waterproofing == job::Waterproofing::liner;
  const bool dammed = !water.levels.empty();
  const double mm3 = (!dammed        ? water.dips.back()
                      : water.filled ? *water.filled  // up to the mark that is told
                                     : water.levels.back().dip)
                         .volume_mm3;
  const char* const head = liner             ? "Flood test of the liner, before anything covers it: "
                           : water.on_flange ? "Flood test of the membrane, before anything covers it: "
                                             : "Flood test: ";
  const std::string fill = rules::fill_words(job, s.facts, s.judgement.results);
  std::string numbers = water.holds_none ? none_without_a_dam(water, job, s)
                                         : units::water_text(mm3, job.is_metric()) + up_to(water, job) + " weighs " +
                                               weight_of(mm3, job.is_metric()) + each_step_more(job, s);
  if (!fill.empty() && !dammed) numbers += "; " + fill;  // behind a dam it is told by then
  return {true, "plumber",
          head + std::string{"plug, fill, mark the level. Asked for: "} + rules::flood_words(job, s.judgement.results) +
              "; 24 hours by practice.",
          std::move(numbers), "the level drops, or it drips below"};
}

}  // namespace fallwright::drawing
