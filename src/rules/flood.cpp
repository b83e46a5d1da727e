#include "rules/flood.hpp"

#include <algorithm>

#include "job/rough_threshold.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/rule_book.hpp"
#include "rules/words.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

constexpr const char* finish_unread =
    "how far the rough threshold lies below the finished one nobody said (base.threshold.finish)";

bool to_rough_threshold(const job::Job& job, const facts::Facts& facts) {
  return flood_test_of(job.book).to_threshold && facts.heights.threshold_least_mm;
}

/// The depth that the book's row asks for.
std::optional<double> least_depth(const std::vector<Result>& results) {
  const Result* row = find(results, "flood.depth");
  return row ? row->limit.least : std::nullopt;
}

/// What is laid on the threshold after the test, where somebody said. A base that comes in one piece is taken to be
/// its own threshold where nobody did.
std::optional<double> laid_later(const job::Job& job, const facts::Facts& facts) {
  if (facts.site_built) return job::laid_on_threshold_mm(job.base, facts.site_built->cover_least_mm);
  return job.base.threshold.finish ? job.base.threshold.finish->in_mm() : 0;
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

std::string flood_words(const job::Job& job, const std::vector<Result>& results) {
  const FloodTest& test = flood_test_of(job.book);
  const auto row = std::find_if(results.begin(), results.end(), [](const Result& r) { return r.id == "flood.depth"; });
  if (row == results.end() || !row->limit.least) return test.words;
  const BookRow* of_book = row_under(job.book, row->id).row;
  if (of_book && of_book->limit.least == row->limit.least) {
    // A book's inches as the tape has them, no less; the millimetres it adds are rounded, and may be.
    const std::string begins = "at least ", ends = " of water", depth = text_at_least(*row->limit.least, job);
    const std::size_t end = test.words.find(ends);
    if (!job.is_metric() || test.words.rfind(begins, 0) != 0 || end == std::string::npos) return test.words;
    return begins + depth + test.words.substr(end);
  }
  return "at least " + text_at_least(*row->limit.least, job) + " of water at the threshold, against a temporary dam " +
         "where that is lower (" + source_text(row->limit) + "), for " + std::to_string(test.minutes) +
         " minutes as the book has it";
}

FloodBrim flood_brim(const job::Job& job, const facts::Facts& facts) {
  FloodBrim brim;
  brim.on_flange = facts.site_built.has_value();
  const double drain = facts.heights.drain_top_mm, cover = brim.on_flange ? facts.site_built->cover_least_mm : 0;
  brim.from_mm = brim.on_flange ? facts.site_built->flange_top_mm : drain;
  brim.floor_mm = drain + floor_at_entry_mm(facts) - cover;
  brim.top_mm = facts.heights.rim_least_mm - cover;
  const auto laid = laid_later(job, facts);
  const auto top = [&](const facts::Edge& edge) {
    return edge.top_mm - (edge.turned == facts::Turned::threshold ? laid.value_or(0) : cover);
  };
  for (const facts::Edge& edge : facts.edges) {
    if (edge.lapped) continue;
    if (!brim.lowest || top(edge) < brim.top_mm) brim.lowest = &edge, brim.top_mm = top(edge);
    if (edge.turned == facts::Turned::threshold && !laid) brim.unknown = finish_unread;
  }
  // Of edges that are as low that at a wall comes first, where no dam helps, and the entry, which gets one anyway,
  // last.
  const auto turn = [](const facts::Edge& e) { return e.turned == facts::Turned::threshold ? 2 : e.open() ? 1 : 0; };
  for (const facts::Edge& edge : facts.edges) {
    if (edge.lapped || top(edge) >= brim.top_mm + units::tolerance::length_mm) continue;
    brim.over.push_back(edge.side);
    if (turn(edge) < turn(*brim.lowest)) brim.lowest = &edge;
  }
  if (!brim.on_flange && to_rough_threshold(job, facts) && !job.base.threshold.finish) brim.unknown = finish_unread;
  brim.rough = brim.lowest && brim.lowest->turned == facts::Turned::threshold && laid && (brim.on_flange || *laid > 0);
  return brim;
}

namespace {

/// Water in the finished base up to a height above the drain, between two that were measured on the straight line:
/// water grows faster the higher it stands, so that it is never told as less than it is.
facts::Dip water_up_to(const facts::Flood& flood, double above_drain_mm) {
  std::vector<facts::Dip> known{{0, 0, flood.dips.front().surface_mm2}};
  known.insert(known.end(), flood.dips.begin(), flood.dips.end());
  known.insert(known.end(), flood.dammed.begin(), flood.dammed.end());
  if (flood.rough) known.push_back(*flood.rough);
  std::stable_sort(known.begin(), known.end(),
                   [](const facts::Dip& a, const facts::Dip& b) { return a.above_drain_mm < b.above_drain_mm; });
  const auto same = [](const facts::Dip& a, const facts::Dip& b) {
    return b.above_drain_mm < a.above_drain_mm + units::tolerance::length_mm;
  };
  known.erase(std::unique(known.begin(), known.end(), same), known.end());
  for (std::size_t i = 1; i < known.size(); ++i) {
    const facts::Dip &low = known[i - 1], &high = known[i];
    if (above_drain_mm > high.above_drain_mm + units::tolerance::length_mm && i + 1 < known.size()) continue;
    const double part = (above_drain_mm - low.above_drain_mm) / (high.above_drain_mm - low.above_drain_mm);
    return {above_drain_mm, std::max(0.0, low.volume_mm3 + part * (high.volume_mm3 - low.volume_mm3)),
            low.surface_mm2 + part * (high.surface_mm2 - low.surface_mm2)};
  }
  return known.back();
}

/// How much higher than over the drain's top of the finished base a level counts on the day. Over a waterproofing that
/// lies everywhere as far below the finished floor as what covers it is thick, water is as deep as over that floor at a
/// level so much higher.
double shift_of(const FloodBrim& brim, const facts::Facts& facts) {
  return brim.on_flange ? facts.site_built->cover_least_mm - (facts.heights.drain_top_mm - brim.from_mm) : 0;
}

facts::Dip water_on_the_day(const FloodBrim& brim, const facts::Facts& facts, double above_mm) {
  facts::Dip dip = water_up_to(facts.flood, above_mm + shift_of(brim, facts));
  dip.above_drain_mm = above_mm;
  return dip;
}

/// Up to where the brim holds, a row each that reads apart.
std::vector<facts::Dip> up_to_brim(const job::Job& job, const FloodBrim& brim, const facts::Facts& facts) {
  if (!brim.on_flange && !brim.rough) return facts.flood.dips;
  std::vector<facts::Dip> dips;
  const double end = std::max(0.0, brim.top_mm - brim.from_mm), step = facts::flood_step_mm(job.is_metric());
  for (double h = step; h < end - job.mark_mm() / 2; h += step) dips.push_back(water_on_the_day(brim, facts, h));
  dips.push_back(water_on_the_day(brim, facts, end));
  return dips;
}

/// How high the water is to stand on the day, above the datum; nothing where the book does not say.
std::optional<double> asked_on_the_day(const job::Job& job, const FloodBrim& brim, const facts::Facts& facts,
                                       const std::vector<Result>& results) {
  if (const auto least = least_depth(results)) return brim.floor_mm + *least;
  if (!to_rough_threshold(job, facts)) return std::nullopt;
  return *facts.heights.threshold_least_mm - laid_later(job, facts).value_or(0);
}

}  // namespace

std::optional<double> flood_asked_mm(const job::Job& job, const facts::Facts& facts,
                                     const std::vector<Result>& results) {
  const FloodBrim brim = flood_brim(job, facts);
  const auto asked = asked_on_the_day(job, brim, facts, results);
  return asked ? std::optional{*asked - brim.from_mm} : std::nullopt;
}

FloodTable flood_table(const job::Job& job, const facts::Facts& facts, const std::vector<Result>& results) {
  if (facts.flood.dips.empty()) return {};
  const FloodBrim brim = flood_brim(job, facts);
  const bool as_finished = !brim.on_flange && !brim.rough;
  FloodTable table{brim.on_flange,
                   up_to_brim(job, brim, facts),
                   {},
                   brim.rough,
                   brim.unknown,
                   as_finished ? facts.flood.over : brim.over};
  const auto asked = asked_on_the_day(job, brim, facts, results);
  if (asked && *asked - brim.from_mm > table.dips.back().above_drain_mm + units::tolerance::length_mm)
    table.levels.push_back({"behind a dam", water_on_the_day(brim, facts, *asked - brim.from_mm)});
  if (asked && (least_depth(results) || brim.unknown.empty())) table.fill_mm = std::max(0.0, *asked - brim.from_mm);
  if (table.fill_mm) {
    const double to = units::up_to_mark(*table.fill_mm, job.mark_mm()), brim_mm = table.dips.back().above_drain_mm;
    table.to_brim = table.levels.empty() && to > brim_mm + units::tolerance::length_mm;
    table.filled = table.to_brim ? table.dips.back() : water_on_the_day(brim, facts, to);
  }
  table.holds_none = table.levels.empty() && table.dips.back().above_drain_mm < job.mark_mm();
  return table;
}

std::string brim_text(const FloodTable& table, const job::Job& job) {
  const double brim_mm = table.dips.back().above_drain_mm, mark = job.mark_mm();
  const std::string nearest = units::to_text(units::Length::mm(brim_mm), job.is_metric());
  if (!table.fill_mm || !table.levels.empty() || table.to_brim) return nearest;
  const double fill = units::up_to_mark(*table.fill_mm, mark);
  const bool apart = brim_mm > fill + units::tolerance::length_mm && brim_mm < fill + mark / 2;
  return apart ? "just over " + text_at_least(fill, job) : nearest;
}

std::string fill_words(const job::Job& job, const facts::Facts& facts, const std::vector<Result>& results) {
  const FloodTable table = flood_table(job, facts, results);
  if (table.dips.empty() || table.holds_none) return "";
  const std::string from = std::string{" above the drain's "} + (table.on_flange ? "flange" : "top");
  if (table.to_brim) return "fill to the brim, " + brim_text(table, job) + from;
  if (table.fill_mm)
    return "fill to " + text_at_least(*table.fill_mm, job) + from + (table.levels.empty() ? "" : ", behind a dam");
  if (!table.unknown.empty()) return "";
  return "fill as high as it holds, " + text_at_most(table.dips.back().above_drain_mm, job) + from;
}

std::vector<FloodLevel> flood_levels(const job::Job& job, const facts::Facts& facts,
                                     const std::vector<Result>& results) {
  const FloodTable table = flood_table(job, facts, results);
  std::vector<FloodLevel> levels;
  if (table.rough) levels.push_back({"rough threshold", table.dips.back()});
  levels.insert(levels.end(), table.levels.begin(), table.levels.end());
  const double up = table.on_flange ? facts.site_built->flange_top_mm - facts.heights.drain_top_mm : 0;
  for (FloodLevel& level : levels) level.dip.above_drain_mm += up;
  return levels;
}

}  // namespace fallwright::rules
