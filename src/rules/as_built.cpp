#include "rules/as_built.hpp"

#include <algorithm>
#include <cmath>

#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/flood.hpp"
#include "rules/pressing.hpp"
#include "rules/rule_book.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

/// What no rule shows as a change: half of a tenth of a millimetre. Over a base 1/64 in of water is a glass of it.
constexpr double seen_mm = 0.05;

class Record {
 public:
  Record(const job::Job& job, const facts::Facts& facts, const std::vector<Result>& results, const Levelling& base)
      : job_{job}, facts_{facts}, results_{results}, base_{base} {}

  std::vector<BuiltRow> rows() {
    levels();
    for (const job::BuiltFall& fall : job_.as_built.falls) add(fall);
    flood();
    dated();
    return std::move(rows_);
  }

 private:
  std::string text(double mm) const { return units::to_text(units::Length::mm(mm), job_.is_metric()); }

  /// A level of the water as it was read: to what a good rule shows, as text_at_most has it.
  std::string as_read(double mm) const { return text_at_most(mm, job_); }
  /// What it rose or fell by, to the same, rounded up.
  std::string at_least(double mm) const {
    const double step = job_.is_metric() ? 0.1 : units::inch_mm / 64;
    return text_at_most(std::ceil(mm / step - units::tolerance::length_mm) * step, job_);
  }

  void levels() {
    const facts::AsSet& set = facts_.room.as_set;
    if (!set.read) return;
    const auto x = [](const facts::AsSetPoint& p) { return p.x_mm; };
    const auto y = [](const facts::AsSetPoint& p) { return p.y_mm; };
    add("base, left to right", set.gx, span_of(set.points, x), job::Side::left, job::Side::right);
    add("base, front to back", set.gy, span_of(set.points, y), job::Side::front, job::Side::back);
    both_ways();
    for (const facts::AsSetPoint& point : set.points)
      rows_.push_back({"level at the " + point.name, "level", "",
                       text_or_more(point.off_mm, Unit::mm, job_) + " above the lowest"});
  }

  /// Two tilts, each of them within what is allowed of it alone, lower one corner together: what the checks of the base
  /// as it lies found is told, and neither way passes by itself where one of those fails.
  void both_ways() {
    BuiltRow &across = rows_[0], &along = rows_[1];
    if (across.built == level_ || along.built == level_) return;
    if (across.outcome == Outcome::fail || along.outcome == Outcome::fail) return;  // too much by itself
    BuiltRow row{"base, both ways together", level_, "", ""};
    const Result* worst = nullptr;
    for (const char* id : {"rim.fall-least", "rim.fall-greatest", "rim.threshold-least", "rim.threshold-greatest",
                           "rim.threshold-inward", "rim.below-upstand"})
      if (const Result* check = result(id); check && (!worst || gravity(*check) > gravity(*worst))) worst = check;
    if (!worst) return;
    row.outcome = worst->outcome;
    const bool kept = worst->outcome == Outcome::pass;
    row.limit = kept ? "what the base is held to as it lies" : limit_text(*worst, job_);
    row.built = kept ? "within it" : worst->title + ": " + measured_text(*worst, job_);
    for (BuiltRow* way : {&across, &along})
      if (way->outcome == Outcome::pass) {
        way->limit += ", alone";
        if (row.outcome != Outcome::pass) way->outcome = Outcome::not_applicable;
      }
    rows_.push_back(row);
  }
  static int gravity(const Result& check) {
    return check.outcome == Outcome::fail          ? 3
           : check.outcome == Outcome::caution     ? 2
           : check.outcome == Outcome::not_checked ? 1
                                                   : 0;
  }

  /// How far the readings lie apart along an axis.
  template <class Along>
  static double span_of(const std::vector<facts::AsSetPoint>& points, Along along) {
    const auto [low, high] = std::minmax_element(points.begin(), points.end(),
                                                 [&](const auto& a, const auto& b) { return along(a) < along(b); });
    return low == points.end() ? 0 : along(*high) - along(*low);
  }

  /// What was read between places that lie `apart_mm` from each other, and what is allowed between the same. `slope`
  /// positive: the second side is high.
  void add(const std::string& what, double slope, double apart_mm, job::Side first, job::Side second) {
    const double over_mm = slope * apart_mm;
    const auto way_of = [&](job::Side low) {
      return std::find_if(base_.ways.begin(), base_.ways.end(), [&](const Way& way) { return way.low == low; });
    };
    const job::Side low = over_mm > 0 ? first : second;
    BuiltRow row{what, level_, "",
                 std::abs(over_mm) < 0.05
                     ? level_
                     : job::name_of(low) + (" low by " + text_or_more(std::abs(over_mm), Unit::mm, job_))};
    const auto by_first = way_of(first), by_second = way_of(second);
    if (by_first != base_.ways.end() && by_second != base_.ways.end()) {
      const auto allowed = [&](const Way& way) { return way.allowed_mm / way.over_mm * apart_mm; };
      row.limit = std::string{job::name_of(first)} + " low by " + text_at_most(allowed(*by_first), job_) +
                  " at most, " + job::name_of(second) + " by " + text_at_most(allowed(*by_second), job_) + " over " +
                  text(apart_mm);
      // As the checks of the base as set have it: what the rule cannot tell from level asks for care.
      row.outcome = std::abs(over_mm) <= allowed(*way_of(low)) + units::tolerance::length_mm ? Outcome::pass
                    : reads_level(job_, facts_.room.as_set)                                  ? Outcome::caution
                                                                                             : Outcome::fail;
    }
    rows_.push_back(row);
  }

  const Result* result(const std::string& id) const {
    const Result* r = find(results_, id);
    return r && r->outcome != Outcome::not_applicable ? r : nullptr;
  }

  void add(const job::BuiltFall& built) {
    const std::string facet = built.facet ? job::name_of(*built.facet) : "top";
    const auto designed = std::find_if(facts_.facets.begin(), facts_.facets.end(), [&](const facts::Facet& f) {
      return f.surface == built.surface && f.facet == facet;
    });
    BuiltRow row{"fall of the " + std::string{name_of(built.surface)} + (built.facet ? ", " + facet : ""),
                 "none of its planes", "", text_of(built.fall.as_ratio(), Unit::ratio, job_)};
    if (designed == facts_.facets.end()) return rows_.push_back(row);  // nothing that it could be held to
    row.designed = text_of(designed->fall, Unit::ratio, job_);
    const std::string subject = built.surface == facts::Surface::base_floor ? "floor.fall" : "seat.fall";
    for (const std::string& id : built.surface == facts::Surface::threshold
                                     ? std::vector<std::string>{"threshold.falls-inward"}
                                     : std::vector<std::string>{subject + "-least", subject + "-greatest"}) {
      const Result* check = result(id);
      if (!check || (!check->limit.least && !check->limit.greatest)) continue;
      row.limit += (row.limit.empty() ? "" : ", ") + limit_text(*check, job_);
      if (!keeps(built.fall.as_ratio(), check->limit))
        row.outcome = check->limit.when_broken;
      else if (row.outcome == Outcome::not_applicable)
        row.outcome = Outcome::pass;
    }
    rows_.push_back(row);
  }

  /// Why water as high as it was filled tests nothing, in few words and with what to do; empty: it does.
  struct NoTest {
    std::string why, advice;
  };
  /// How high the lowest edge that turns up holds water: a dam stands at the entry, and not along these.
  std::optional<double> lowest_upstand_mm(const FloodBrim& brim) const {
    std::optional<double> lowest;
    for (const facts::Edge& edge : facts_.edges)
      if (!edge.lapped && edge.turned == facts::Turned::upstand)
        lowest = std::min(edge.top_mm - brim.from_mm, lowest.value_or(edge.top_mm - brim.from_mm));
    return lowest;
  }

  static std::string from(const FloodBrim& brim) {
    return brim.on_flange ? " above the drain's flange" : " above the drain";
  }

  NoTest no_test(double filled_mm, const std::optional<double>& asked_mm, const FloodBrim& brim) const {
    const double half_mark = job_.mark_mm() / 2;
    if (asked_mm && filled_mm < *asked_mm - units::tolerance::length_mm)
      return {"filled too low", "too low, fill to " + text_at_least(*asked_mm, job_) + from(brim)};
    if (filled_mm < half_mark) return {"without water", "no water stood there: fill it"};
    if (!brim.lowest) return {};
    const double holds = brim.top_mm - brim.from_mm;
    const std::optional<double> upstands = lowest_upstand_mm(brim);
    const double dam = job_.as_built.dam.value_or(units::Length{}).in_mm();
    if (filled_mm <= std::max(holds, std::min(dam, upstands.value_or(dam))) + half_mark) return {};
    if (upstands && dam > *upstands)
      return {"filled higher than it holds", "higher than the upstands, " + as_read(std::max(0.0, *upstands)) +
                                                 ", whatever dam stood at the entry: read it again, or let it down"};
    return {"filled higher than it holds", "higher than the base holds, " + as_read(std::max(0.0, holds)) +
                                               (job_.as_built.dam ? ", and than its dam" : "") +
                                               ": read it again, or say what dam held it (as_built.dam)"};
  }

  /// A test counts that was filled as high, and stood as long, as the book asks; all that stood in between is told.
  void flood() {
    const std::vector<job::FloodReading>& read = job_.as_built.flood;
    if (read.empty()) return;
    const FloodTest& asked = flood_test_of(job_.book);
    const std::optional<double> level = flood_asked_mm(job_, facts_, results_);
    const double filled = read.front().level.in_mm();
    const FloodBrim brim = flood_brim(job_, facts_);
    const NoTest none = no_test(filled, level, brim);
    const bool low = !none.why.empty();
    BuiltRow fill{"flood test, filled " + read.front().at, "", flood_words(job_, results_),
                  as_read(filled) + from(brim)};
    if (level)
      fill.built +=
          ", " + text_at_most(std::max(0.0, filled + brim.from_mm - brim.floor_mm), job_) + " at the threshold";
    if (low) fill.built += ": " + none.advice;
    if (read.size() == 1) fill.built += "; read it again after " + time_text(asked.minutes) + " at least";
    fill.outcome = low ? Outcome::caution : read.size() == 1 ? Outcome::not_checked : Outcome::not_applicable;
    rows_.push_back(fill);
    double lowest = filled;  // no water rises by itself: what stands above it was filled up, or misread
    for (std::size_t i = 1; i < read.size(); ++i) {
      const long minutes = *job::minutes_of(read[i].at) - *job::minutes_of(read.front().at);
      const bool last = i + 1 == read.size(), soon = minutes < asked.minutes;
      const double fell = (read.front().level - read[i].level).in_mm(), rose = read[i].level.in_mm() - lowest;
      BuiltRow row{"flood test, " + time_text(minutes) + " later", "no change", "none falls",
                   as_read(read[i].level.in_mm())};
      lowest = std::min(lowest, read[i].level.in_mm());
      if (std::max(std::abs(fell), rose) >= seen_mm) {
        if (fell >= seen_mm) row.built += ", fell " + at_least(fell) + (rose < seen_mm ? ": read it again" : "");
        if (rose >= seen_mm)
          row.built += ", rose " + at_least(rose) + ": read it again; where it was filled up, the test begins anew";
        row.outcome = Outcome::caution;
      } else {
        row.built += ", stands" +
                     (low    ? ", " + none.why
                      : soon ? std::string{" so far"}
                             : std::string{}) +
                     (soon && last ? ": let it stand " + time_text(asked.minutes) + " at least" : "");
        row.outcome = !low && !soon ? Outcome::pass : last ? Outcome::not_checked : Outcome::not_applicable;
      }
      rows_.push_back(row);
    }
  }

  /// A record that is dated before a reading that stands in it: one of the two days is off.
  void dated() {
    if (job_.as_built.date.empty() || job_.as_built.flood.empty()) return;
    const std::string &day = job_.as_built.date, &last = job_.as_built.flood.back().at;
    if (day >= last.substr(0, day.size())) return;  // both as year, month and day
    rows_.push_back({"date of the record", "", "no day before its last reading",
                     day + ", and the flood test was read at " + last + ": give the day of the last reading " +
                         "(as_built.date), or read again when that was (as_built.flood.at)",
                     Outcome::caution});
  }

  /// "15 min", "24 h", "1 h 30 min".
  static std::string time_text(long minutes) {
    const long hours = minutes / 60, rest = minutes % 60;
    const std::string words = hours > 0 ? std::to_string(hours) + " h" : "";
    return rest == 0 && hours > 0 ? words : words + (words.empty() ? "" : " ") + std::to_string(rest) + " min";
  }

  const std::string level_ = "level";
  const job::Job& job_;
  const facts::Facts& facts_;
  const std::vector<Result>& results_;
  const Levelling& base_;
  std::vector<BuiltRow> rows_;
};

}  // namespace

std::vector<BuiltRow> as_built_rows(const job::Job& job, const facts::Facts& facts, const std::vector<Result>& results,
                                    const Levelling& base) {
  return Record{job, facts, results, base}.rows();
}

}  // namespace fallwright::rules
