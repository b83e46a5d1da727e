#include "drawing/steps.hpp"
#include "rules/flood.hpp"
#include "rules/rule_book.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::drawing {
namespace {

std::string weight_of(double water_mm3, bool metric) {
  const double kg = water_mm3 * 1e-6;
  return metric ? units::decimals(kg, 0) + " kg" : units::decimals(kg / units::kg_per_lb, 0) + " lb";
}

/// Where the book asks for more than the base holds by itself, the water that a dam adds.
std::string each_step_more(const job::Job& job, const Findings& s) {
  const bool metric = job.is_metric();
  const double step_mm = metric ? 10 : units::inch_mm;
  for (const rules::Result& r : s.judgement.results)
    if (r.id == "flood.depth" && (r.outcome == rules::Outcome::fail || r.outcome == rules::Outcome::caution))
      return "; behind a dam each " + units::to_text(units::Length::mm(step_mm), metric) + " more weighs " +
             weight_of(s.facts.flood.plan_mm2 * step_mm, metric);
  return "";
}

/// " up to where it spills", " up to the rough threshold", " up to 2-1/2\" above the drain, behind a dam,".
std::string up_to(const rules::FloodTable& water, const job::Job& job) {
  const auto len = [&](double mm) { return units::to_text(units::Length::mm(mm), job.is_metric()); };
  const std::string from = water.on_flange ? " above the drain's flange" : " above the drain";
  if (!water.levels.empty()) return " up to " + len(water.levels.back().dip.above_drain_mm) + from + ", behind a dam,";
  if (!water.on_flange) return water.rough ? " up to the rough threshold" : " up to where it spills";
  const std::string height = len(water.dips.back().above_drain_mm) + from;
  if (water.rough) return " up to the rough threshold, " + height + ",";
  if (water.unknown.empty()) return " up to where it spills, " + height + ",";
  return " up to the finished threshold, " + height +
         " (it spills lower, at the rough one's top, how much the job does not say),";
}

}  // namespace

Step flood_step(const job::Job& job, const Findings& s) {
  const rules::FloodTable water = rules::flood_table(job, s.facts, s.judgement.results);
  const bool liner = water.on_flange && job.base.site.waterproofing == job::Waterproofing::liner;
  const double mm3 = (water.levels.empty() ? water.dips.back() : water.levels.back().dip).volume_mm3;
  const char* const head = liner             ? "Flood test of the liner, before anything covers it: "
                           : water.on_flange ? "Flood test of the membrane, before anything covers it: "
                                             : "Flood test: ";
  return {true, "plumber",
          head + std::string{"plug, fill, mark the level. Asked for: "} + rules::flood_test_of(job.book).words +
              "; 24 hours by practice.",
          units::water_text(mm3, job.is_metric()) + up_to(water, job) + " weighs " + weight_of(mm3, job.is_metric()) +
              each_step_more(job, s),
          "the level drops, or it drips below"};
}

}  // namespace fallwright::drawing
