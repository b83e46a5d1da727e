#include <algorithm>
#include <cmath>
#include <limits>

#include "drawing/sheets.hpp"
#include "drawing/tiles.hpp"
#include "drawing/views.hpp"
#include "drawing/warning.hpp"
#include "rules/spot.hpp"
#include "units/length.hpp"

namespace fallwright::drawing {
namespace {

constexpr double wide = 22;  ///< of a strip that goes on a stick, mm
constexpr double apart = 4;  ///< least between the words of two marks

/// A mark on a strip, so far from its end.
struct StripMark {
  double at_mm = 0;
  std::string words;
};

/// A line stands where its words say, to the mark: who lays a rule on it finds what is printed.
double as_told(double mm, bool metric) {
  return units::round_to_tape(units::Length::mm(mm), metric).in_mm();
}

/// A strip that lies on the paper with its foot at the left, its marks' words below it: turned upright they stand to
/// the right of it and can be read. `at` are sorted.
Frame add_strip(Sheet& sheet, const std::vector<StripMark>& marks) {
  Pen pen{sheet, 3};
  const double end = marks.back().at_mm + 15;
  pen.rectangle({0, 0}, {end, wide}, LineKind::outline);
  pen.note({-5, wide / 2}, "FOOT", Anchor::middle, 1, -90);  // clear of the end that it is measured from
  double place = -std::numeric_limits<double>::infinity(), longest = 0;
  for (const StripMark& mark : marks) {
    place = std::max(mark.at_mm, place + apart);
    pen.line({mark.at_mm, 0}, {mark.at_mm, wide}, LineKind::outline);
    pen.line({mark.at_mm, 0}, {place, -6}, LineKind::dimension);
    pen.note({place - 1.5, -8}, mark.words, Anchor::left, 1, -90);
    longest = std::max(longest, width_of(mark.words, 3));
    sheet.dimensions.push_back({{0, 0}, {mark.at_mm, 0}, pen.words(mark.at_mm), mark.at_mm, 0});
  }
  return {-8, -10 - longest, std::max(end, place + 4), wide + 2};
}

std::vector<Sheet> draw_strip(const Subject& subject, const std::string& name, const std::string& title,
                              std::vector<StripMark> marks, const std::string& how,
                              const std::optional<Warning>& warning = {}) {
  std::stable_sort(marks.begin(), marks.end(),
                   [](const StripMark& a, const StripMark& b) { return a.at_mm < b.at_mm; });
  Sheet sheet{name, title, subject.job().is_metric()};
  if (warning) sheet.holds.push_back(warning->line);
  const Frame whole = add_strip(sheet, marks);
  return on_tiles(std::move(sheet), whole, subject.job(), [&](bool tiled) {
    std::vector<std::string> notes{trust_the_bars, how};
    if (warning) notes.push_back("Heights of the base and its bed are left out. " + warning->why);
    if (tiled) notes.push_back(join_the_tiles);
    return notes;
  });
}

}  // namespace

std::vector<Sheet> draw_story_stick(const Subject& subject) {
  const bool metric = subject.job().is_metric();
  std::vector<StripMark> marks;
  Sheet any;
  any.metric = metric;
  const Pen pen{any, 1};  // for the job's unit alone
  for (const facts::Rung& rung : subject.facts.room.chain) {
    if (rung.above_datum_mm <= 0 || (base_is_void(subject) && is_of_base(rung))) continue;
    const Level level = level_of(pen, subject, rung);
    // What is laid to a mark of its own may lie between two of a tape.
    marks.push_back({level.z == rung.above_datum_mm ? as_told(level.z, metric) : level.z, level.words});
  }
  if (marks.empty()) return {};
  return draw_strip(subject, "story-stick", "Story stick of heights, full size", marks,
                    "For a straight stick, its foot at the end: stood on the datum (" +
                        rules::datum_words(subject.facts, subject.job()) +
                        ") each mark shows its height above the datum.",
                    base_warning(subject));
}

std::vector<Sheet> draw_gauge_strip(const Subject& subject) {
  // Screeded down from a line, and no gauge is set out for it; nor for a bed in which another base will lie.
  if (subject.facts.site_built || base_is_void(subject)) return {};
  const bool metric = subject.job().is_metric();
  std::vector<StripMark> marks;
  for (const facts::Gauge& gauge : subject.facts.room.gauges) {
    if (gauge.clear || gauge.spread_mm <= 0) continue;
    const std::string depth = number_of(gauge.spread_mm, metric);
    const auto known = std::find_if(marks.begin(), marks.end(), [&](const StripMark& mark) {
      return mark.words.compare(0, depth.size() + 2, depth + "  ") == 0;
    });
    if (known == marks.end())
      marks.push_back({as_told(gauge.spread_mm, metric), depth + "  " + gauge.name});
    else
      known->words += " " + gauge.name;
  }
  if (marks.empty()) return {};
  return draw_strip(subject, "gauge-strip", "Gauge strip of bed depths, full size", marks,
                    "Stood on the subfloor at a place of sheet {bed}, its mark lies in the spread mortar's top. "
                    "Places: A at the back "
                    "left, letters to the right, numbers to the front.");
}

}  // namespace fallwright::drawing
