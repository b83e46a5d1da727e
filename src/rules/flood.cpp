#include "rules/flood.hpp"

#include <algorithm>

#include "job/rough_threshold.hpp"
#include "rules/rule_book.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

constexpr const char* finish_unread =
    "how far the rough threshold lies below the finished one nobody said (base.threshold.finish)";

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

namespace {

/// Water in the finished base up to a height above the drain, between two that were measured on the straight line.
facts::Dip water_up_to(const facts::Flood& flood, double above_drain_mm) {
  std::vector<facts::Dip> known{{0, 0, flood.dips.front().surface_mm2}};
  known.insert(known.end(), flood.dips.begin(), flood.dips.end());
  for (const facts::Dip& dip : flood.dammed)
    if (dip.above_drain_mm > known.back().above_drain_mm + units::tolerance::length_mm) known.push_back(dip);
  for (std::size_t i = 1; i < known.size(); ++i) {
    const facts::Dip &low = known[i - 1], &high = known[i];
    if (above_drain_mm > high.above_drain_mm + units::tolerance::length_mm && i + 1 < known.size()) continue;
    const double part = (above_drain_mm - low.above_drain_mm) / (high.above_drain_mm - low.above_drain_mm);
    return {above_drain_mm, std::max(0.0, low.volume_mm3 + part * (high.volume_mm3 - low.volume_mm3)),
            low.surface_mm2 + part * (high.surface_mm2 - low.surface_mm2)};
  }
  return known.back();
}

/// The water over a waterproofing that lies everywhere as far below the finished floor as what covers it is thick: as
/// deep as over that floor, at a level so much higher.
FloodTable on_waterproofing(const job::Job& job, const facts::Facts& facts, const std::vector<Result>& results) {
  const facts::SiteBuilt& site = *facts.site_built;
  const double flange = site.flange_top_mm, cover = site.cover_least_mm,
               shift = cover - (facts.heights.drain_top_mm - flange);
  const auto laid = job::laid_on_threshold_mm(job.base, cover);
  FloodTable table;
  table.on_flange = true;
  std::optional<double> spill;
  for (const facts::Edge& edge : facts.edges) {
    if (edge.lapped) continue;
    const bool threshold = edge.turned == facts::Turned::threshold;
    const double top = edge.top_mm - (threshold ? laid.value_or(0) : cover);
    if (!spill || top < *spill) spill = top, table.rough = threshold && laid;
    if (threshold && !laid) table.unknown = finish_unread;
  }
  const auto add = [&](double above_flange) {
    facts::Dip dip = water_up_to(facts.flood, above_flange + shift);
    dip.above_drain_mm = above_flange;
    return dip;
  };
  const double end = std::max(0.0, spill.value_or(facts.heights.rim_least_mm - cover) - flange),
               step = job.unit == job::UnitSystem::metric ? 5 : 25.4 / 4;
  for (double h = step; h < end - job.mark_mm() / 2; h += step)
    table.dips.push_back(add(h));  // a row each that reads apart
  table.dips.push_back(add(end));
  const auto asked = flood_asked_mm(job, facts, results);
  if (asked && !to_rough_threshold(job, facts) && *asked - shift > end + units::tolerance::length_mm)
    table.levels.push_back({"behind a dam", add(*asked - shift)});
  return table;
}

}  // namespace

FloodTable flood_table(const job::Job& job, const facts::Facts& facts, const std::vector<Result>& results) {
  if (facts.flood.dips.empty()) return {};
  if (facts.site_built) return on_waterproofing(job, facts, results);
  return {false, facts.flood.dips, flood_levels(job, facts, results), false, unknown_flood_level(job, facts)};
}

std::string unknown_flood_level(const job::Job& job, const facts::Facts& facts) {
  if (!to_rough_threshold(job, facts) || facts.flood.rough) return "";
  return finish_unread;
}

}  // namespace fallwright::rules
