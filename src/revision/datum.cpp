#include "revision/datum.hpp"

#include <algorithm>
#include <cmath>

#include "rules/book.hpp"
#include "units/length.hpp"
#include "units/words.hpp"

namespace fallwright::revision {
namespace {

/// What the job file tells from the datum: read in the room, or chosen and then marked there.
constexpr const char* from_datum[] = {
    "trap.hub",         "trap.weir",         "drain.riser",     "as_set.line",  "floor.joists.hole.height",
    "base.screed.line", "base.lowered_from", "bed.gauge_depth", "bench.height", "walls.blocking",
    "fixture.height",   "alcove.height"};

/// "fixture[2].height" is one of "fixture.height".
std::string without_numbers(const std::string& key) {
  std::string plain;
  bool within = false;
  for (const char c : key) {
    if (c == '[') within = true;
    if (!within) plain += c;
    if (c == ']') within = false;
  }
  return plain;
}

/// How much higher above its datum each spot lies in the newer state that both read at one place.
std::vector<double> rises(const State& was, const State& now) {
  std::vector<double> all;
  for (const facts::Point& spot : now.spots)
    for (const facts::Point& before : was.spots)
      if (std::abs(spot[0] - before[0]) < 1 && std::abs(spot[1] - before[1]) < 1) {
        all.push_back(spot[2] - before[2]);
        break;
      }
  return all;
}

}  // namespace

std::optional<DatumMoved> datum_moved(const State& was, const State& now) {
  constexpr double seen_mm = 0.4;  // 1/64 in: less no rule shows
  std::vector<double> all = rises(was, now);
  if (all.size() < 3) return std::nullopt;
  std::sort(all.begin(), all.end());
  const double middle = all[all.size() / 2];
  const double mark = std::max(units::tape_mark_mm(now.job.is_metric()), units::tape_mark_mm(was.job.is_metric())) / 2;
  const auto alike = std::count_if(all.begin(), all.end(), [&](double rise) { return std::abs(rise - middle) < mark; });
  if (std::abs(middle) < seen_mm - 1e-6 || 2 * static_cast<std::size_t>(alike) <= all.size()) return std::nullopt;
  DatumMoved moved{middle, {}};
  for (const job::WrittenKey& key : now.keys) {
    const std::string plain = without_numbers(key.key);
    const auto before =
        std::find_if(was.keys.begin(), was.keys.end(), [&](const auto& written) { return written.key == key.key; });
    if (before != was.keys.end() && job::say_the_same(*before, was.job.unit, key, now.job.unit) &&
        std::find(std::begin(from_datum), std::end(from_datum), plain) != std::end(from_datum))
      moved.told.push_back(key.key);
  }
  return moved;
}

std::string words_of(const DatumMoved& moved, const State& now) {
  const std::string by = rules::text_of(std::abs(moved.lower_mm), rules::Unit::mm, now.job);
  const std::string lower = moved.lower_mm > 0 ? "lower" : "higher", higher = moved.lower_mm > 0 ? "higher" : "lower";
  std::string words = "the datum lies " + by + " " + lower +
                      " than before: the floor's highest spot under the base is another, or lies otherwise. What "
                      "stands in the room, and every mark on its walls, lies " +
                      by + " " + higher + " above it than it did";
  if (moved.told.empty()) return words;
  return words + ". Read again from it, or give " + by + " " + higher + ": " + units::joined(moved.told);
}

}  // namespace fallwright::revision
