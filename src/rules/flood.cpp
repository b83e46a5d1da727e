#include "rules/flood.hpp"

#include <algorithm>

#include "rules/rule_book.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

bool to_rough_threshold(const job::Job& job, const facts::Facts& facts) {
  return flood_test_of(job.book).to_threshold && facts.heights.threshold_least_mm;
}

/// Between two heights that were measured, on the straight line: water grows faster the higher it stands, so that it is
/// never told as less than it is.
std::optional<facts::Dip> behind_a_dam(const facts::Flood& flood, double above_drain_mm) {
  for (std::size_t i = 1; i < flood.dammed.size(); ++i) {
    const facts::Dip &low = flood.dammed[i - 1], &high = flood.dammed[i];
    if (above_drain_mm > high.above_drain_mm + units::tolerance::length_mm) continue;
    const double part = (above_drain_mm - low.above_drain_mm) / (high.above_drain_mm - low.above_drain_mm);
    return facts::Dip{above_drain_mm, low.volume_mm3 + part * (high.volume_mm3 - low.volume_mm3),
                      low.surface_mm2 + part * (high.surface_mm2 - low.surface_mm2)};
  }
  return std::nullopt;
}

}  // namespace

double floor_at_entry_mm(const facts::Facts& facts) {
  const facts::Heights& h = facts.heights;
  if (h.floor_at_threshold_mm) return *h.floor_at_threshold_mm - h.drain_top_mm;
  std::optional<double> at;  // of several open edges the highest, where the water is least deep
  for (const facts::Edge& edge : facts.edges)
    if (edge.open() && !edge.raised()) at = std::max(at.value_or(edge.top_mm), edge.top_mm);
  return at.value_or(h.rim_greatest_mm) - h.drain_top_mm;
}

std::optional<double> flood_asked_mm(const job::Job& job, const facts::Facts& facts,
                                     const std::vector<Result>& results) {
  const auto row = std::find_if(results.begin(), results.end(), [](const Result& r) { return r.id == "flood.depth"; });
  if (row != results.end() && row->limit.least) return floor_at_entry_mm(facts) + *row->limit.least;
  if (!to_rough_threshold(job, facts)) return std::nullopt;
  if (facts.flood.rough) return facts.flood.rough->above_drain_mm;
  return *facts.heights.threshold_least_mm - facts.heights.drain_top_mm;
}

std::vector<FloodLevel> flood_levels(const job::Job& job, const facts::Facts& facts,
                                     const std::vector<Result>& results) {
  std::vector<FloodLevel> levels;
  if (facts.flood.dips.empty()) return levels;
  if (to_rough_threshold(job, facts) && facts.flood.rough) levels.push_back({"rough threshold", *facts.flood.rough});
  const auto asked = flood_asked_mm(job, facts, results);
  if (!asked || *asked <= facts.flood.dips.back().above_drain_mm + units::tolerance::length_mm) return levels;
  if (const auto dip = behind_a_dam(facts.flood, *asked)) levels.push_back({"behind a dam", *dip});
  return levels;
}

std::string unknown_flood_level(const job::Job& job, const facts::Facts& facts) {
  if (!to_rough_threshold(job, facts) || facts.flood.rough) return "";
  return "how far the rough threshold lies below the finished one nobody said (base.threshold.finish)";
}

}  // namespace fallwright::rules
