#include "rules/words.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <optional>

#include "diag/fault.hpp"
#include "facts/furring.hpp"
#include "job/pipe.hpp"
#include "job/studs.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/inputs.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"
#include "rules/slack.hpp"
#include "units/fall.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

constexpr const char* none_allowed = "none allowed";
constexpr const char* no_span_allowed = "no span allowed";  // of a deck that no span is right for

/// A length between two marks of the tape, further from both than anybody cuts or bores.
bool is_between_marks(double value, Unit unit, const job::Job& job) {
  constexpr double readable = 0.1;  // mm: finer than anybody cuts or bores
  const bool metric = job.is_metric();
  const units::Length length = units::Length::mm(value);
  const bool rounded = text_of(value, unit, job) == units::to_text(length, metric);
  const bool off = std::abs(units::round_to_tape(length, metric).in_mm() - value) > readable;
  return unit == Unit::mm && rounded && off;
}

/// A bound or a value as it is told of the check of that id: a count with what is counted.
std::string with_noun(std::string number, double value, Unit unit, const std::string& id) {
  if (unit != Unit::count) return number;
  const Noun noun = noun_of(id);
  return number + " " + (value == 1 ? noun.one : noun.many);
}

constexpr double in_tenths = 20;  ///< mm: on longer ones nobody reads them

/// A greatest length (a sixth of a joist's depth) must not read as the mark above it, a least (a pipe's outside) not as
/// the one below.
std::string greatest_text(double value, Unit unit, const job::Job& job) {
  if (unit == Unit::mm && value >= in_tenths && is_between_marks(value, unit, job))
    return text_of(units::down_to_mark(value, job.mark_mm()), unit, job);
  return is_between_marks(value, unit, job) ? text_at_most(value, job) : text_of(value, unit, job);
}
std::string least_text(double value, Unit unit, const job::Job& job) {
  if (unit == Unit::mm && job.is_metric() && value < in_tenths && is_between_marks(value, unit, job))
    return text_at_most(units::up_to_mark(value, units::rule_mark_mm(true)), job);
  return is_between_marks(value, unit, job) ? text_at_least(value, job) : text_of(value, unit, job);
}

/// The way in which a value would be worse: from a least limit down, from a greatest up; of a band the nearer one's.
enum class Toward { less, more };
std::optional<Toward> worse_way(double value, const Limit& limit) {
  if (!limit.least && !limit.greatest) return std::nullopt;
  if (!limit.greatest) return Toward::less;
  if (!limit.least) return Toward::more;
  return value - *limit.least < *limit.greatest - value ? Toward::less : Toward::more;
}

/// The next multiple of a step; the nearest where that is the value itself, but for rounding (`same`).
double to_step(double value, double step, Toward toward, double same) {
  const double count = value / step, nearest = std::round(count);
  if (std::abs(nearest * step - value) <= same) return nearest * step;
  return (toward == Toward::less ? std::floor(count) : std::ceil(count)) * step;
}

/// A length on the tape's marks; a small one on those of a good rule, and what is less than one of them as such.
std::string length_no_better(double mm, Toward toward, const job::Job& job) {
  constexpr double small = 4.7;  // mm
  const bool metric = job.is_metric();
  const double on_tape = to_step(mm, units::tape_mark_mm(metric), toward, units::tolerance::on_mark_mm);
  const bool exact = std::abs(on_tape - mm) <= units::tolerance::on_mark_mm;
  if (exact || std::abs(mm) >= small) return units::to_text(units::Length::mm(on_tape), metric);
  const double mark = metric ? 0.1 : units::inch_mm / 32;  // no tape has 64ths
  const double fine = to_step(mm, mark, toward, on_rule_mark_mm);
  const bool whole = std::abs(mm) >= mark - on_rule_mark_mm || fine == 0;
  return whole ? text_at_most(fine, job) : (mm < 0 ? "just under " : "under ") + text_at_most(mm < 0 ? 0 : mark, job);
}

/// A fall in both its forms: as "1:48.7" it is less by a longer run. What is a fraction of an inch stays one.
std::string fall_no_better(double ratio, Toward worse, const job::Job& job) {
  if (std::abs(ratio) < units::tolerance::ratio) return text_of(ratio, Unit::ratio, job);
  const bool metric = job.is_metric();
  const auto text = [&](double r) {
    return metric ? units::to_percent(units::Fall::ratio(r)) : units::to_inches_per_foot(units::Fall::ratio(r));
  };
  const std::string nearest = text(ratio);
  const bool fraction = !metric && nearest.find('.') == std::string::npos;
  const double same_run = slack(Unit::ratio) / (ratio * ratio);
  const double run = to_step(1 / ratio, 0.1, worse == Toward::less ? Toward::more : Toward::less, same_run);
  const bool whole = std::abs(run - std::round(run)) < units::tolerance::length_mm;
  return (fraction ? nearest : text(to_step(ratio, metric ? 1e-4 : 1. / 12000, worse, slack(Unit::ratio)))) +
         " (1:" + units::decimals(std::abs(run), whole ? 0 : 1) + ")";
}

/// How finely a value is printed.
double step_of(double value, Unit unit, bool metric) {
  const double litre = 1e6, inch3 = units::inch_mm * units::inch_mm * units::inch_mm;
  switch (unit) {
    case Unit::share:
      return 0.01;
    case Unit::mm2:
      return metric ? 1000 : units::mm2_per_in2;
    case Unit::mm3:
      if (metric) return std::abs(value) < 0.1 * litre ? 100 : 0.1 * litre;
      return std::abs(value) < 0.01 * units::mm3_per_ft3 ? 0.1 * inch3 : 0.01 * units::mm3_per_ft3;
    default:
      return 1;
  }
}

/// As a person reads it, rounded so that it reads no better than it is.
std::string no_better(double value, Unit unit, Toward worse, const job::Job& job) {
  if (!std::isfinite(value)) return text_of(value, unit, job);
  switch (unit) {
    case Unit::mm:
      return length_no_better(value, worse, job);
    case Unit::ratio:
      return fall_no_better(value, worse, job);
    case Unit::span:
      if (value <= 0) return text_of(value, unit, job);
      return "span / " + units::decimals(to_step(1 / value, 1, worse == Toward::more ? Toward::less : Toward::more,
                                                 slack(unit) / (value * value)),
                                         0);
    default:
      return text_of(to_step(value, step_of(value, unit, job.is_metric()), worse, slack(unit)), unit, job);
  }
}

double length_of(const std::string& printed) {
  std::string why;
  const std::size_t number = printed.find_first_of("-0123456789");  // behind "under"
  const auto read = units::parse_length(std::string_view{printed}.substr(number), units::LengthUnit::inch, why);
  diag::ensure(read.has_value(), "a printed length reads back");
  return read->in_mm();
}

/// How finely a length and its limit are told: on the tape's marks, or as finely as a rule shows them.
enum class Fineness { tape, rule };

std::string least_text(double value, Unit unit, const job::Job& job, Fineness fine) {
  if (fine == Fineness::tape || !is_between_marks(value, unit, job)) return least_text(value, unit, job);
  return text_at_most(units::up_to_mark(value, units::rule_mark_mm(job.is_metric())), job);
}
std::string greatest_text(double value, Unit unit, const job::Job& job, Fineness fine) {
  if (fine == Fineness::tape || !is_between_marks(value, unit, job)) return greatest_text(value, unit, job);
  return text_at_most(value, job);
}
std::string measured_no_better(double value, Unit unit, Toward worse, const job::Job& job, Fineness fine) {
  if (fine == Fineness::tape) return no_better(value, unit, worse, job);
  return text_at_most(to_step(value, units::rule_mark_mm(job.is_metric()), worse, on_rule_mark_mm), job);
}

/// The limit that a length keeps although both, each rounded as it must be, read as if it did not; as it is told.
std::optional<std::string> reads_as_broken(double value, const Limit& limit, const job::Job& job, Fineness fine) {
  if (limit.unit != Unit::mm || !std::isfinite(value) || !keeps(value, limit)) return std::nullopt;
  const auto told = [&](Toward worse) { return length_of(measured_no_better(value, Unit::mm, worse, job, fine)); };
  constexpr double same = 1e-3;  // mm
  if (limit.least)
    if (const std::string least = least_text(*limit.least, Unit::mm, job, fine);
        told(Toward::less) < length_of(least) - same)
      return least;
  if (limit.greatest)
    if (const std::string greatest = greatest_text(*limit.greatest, Unit::mm, job, fine);
        told(Toward::more) > length_of(greatest) + same)
      return greatest;
  return std::nullopt;
}

/// Both are told finely where a limit that is kept would read as broken on the tape's marks.
Fineness fineness_of(const Result& result, const job::Job& job) {
  const bool fine = result.measured && reads_as_broken(*result.measured, result.limit, job, Fineness::tape);
  return fine ? Fineness::rule : Fineness::tape;
}

/// "by its pipe: 1-1/4 in at most 60", 2 in at most 96"".
std::string by_pipe_text(const Limit& limit, const std::string& id, const job::Job& job) {
  std::string text;
  for (const ByPipe& row : limit.by_pipe) {
    const job::Pipe* pipe = job::pipe_of(units::Length::mm(row.nominal_mm));
    text += (text.empty() ? "by its pipe: " : ", ") + std::string{pipe ? pipe->name : ""};
    if (row.least)
      text += " at least " + with_noun(least_text(*row.least, limit.unit, job), *row.least, limit.unit, id);
    if (row.greatest)
      text += " at most " + with_noun(greatest_text(*row.greatest, limit.unit, job), *row.greatest, limit.unit, id);
  }
  return text;
}

/// The fall that a printed one reads as: "0.251 in/ft (1:47.8)".
double fall_of(const std::string& printed) {
  std::string why;
  const auto read = units::parse_fall(printed.substr(0, printed.find(" (")), why);
  diag::ensure(read.has_value(), "a printed fall reads back");
  return read->as_ratio();
}

/// A limit that a reading decides, while nobody has read it: what it goes by.
std::string unread_limit_text(const std::string& id) {
  static const std::map<std::string, const char*> by{{"drain.outlet", "by the flow of all heads"},
                                                     {"joist.hole", "by the joist's depth"},
                                                     {"joist.hole-for-pipe", "at least the pipe's outside"},
                                                     {"joist.notch", "by the joist's depth"},
                                                     {"joist.notch-length", "by the joist's depth"},
                                                     {"joist.notch-place", "by the joist's span"},
                                                     {"trap.arm", "by its pipe and fall"},
                                                     {"trap.arm-least", "by its pipe's diameter"},
                                                     {"trap.drop", "by its pipe's diameter"},
                                                     {"trap.fall", "by its pipe"},
                                                     {"trap.size", "at least the drain's outlet"}};
  const auto known = by.find(id);
  return known == by.end() ? "as the job file asks" : known->second;
}

}  // namespace

bool fails_without_number(const Result& result) {
  return !result.measured && (result.outcome == Outcome::fail || result.outcome == Outcome::caution);
}

/// A value that breaks its limit behind the last digit a person reads would look as if it kept it.
std::string measured_text(const Result& result, const job::Job& job) {
  if (!result.measured) return fails_without_number(result) ? "holds nothing" : "-";
  const Limit& limit = result.limit;
  const double value = *result.measured;
  if (limit.unit == Unit::count) return with_noun(text_of(value, limit.unit, job), value, limit.unit, result.id);
  const std::string nearest = text_of(value, limit.unit, job);
  // What is inside a limit by what a tape tells, and outside it by the number.
  const std::string by_tape =
      result.outcome == Outcome::pass && !keeps(value, limit) ? ", at its limit as far as the tape tells" : "";
  if (!keeps(value, limit)) {
    const std::string under = by_tape.empty() ? "just under " : "", over = by_tape.empty() ? "just over " : "";
    if (limit.least && value < *limit.least && nearest == least_text(*limit.least, limit.unit, job))
      return under + nearest + by_tape;
    if (limit.greatest && value > *limit.greatest && nearest == greatest_text(*limit.greatest, limit.unit, job))
      return over + nearest + by_tape;
  }
  const Fineness fine = fineness_of(result, job);
  if (const auto kept = reads_as_broken(value, limit, job, fine)) return "just at " + *kept;
  const std::optional<Toward> worse = worse_way(value, limit);
  return (worse ? measured_no_better(value, limit.unit, *worse, job, fine) : nearest) + by_tape;
}

std::string text_or_less(double value, Unit unit, const job::Job& job) {
  return no_better(value, unit, Toward::less, job);
}
std::string text_or_more(double value, Unit unit, const job::Job& job) {
  return no_better(value, unit, Toward::more, job);
}

std::string or_beyond(const std::string& length, const std::string& side) {
  return length.starts_with('-') ? length.substr(1) + " " + side : length;
}

std::string shared_text(double mm3, const job::Job& job) {
  constexpr double cm3 = 1000, in3 = units::inch_mm * units::inch_mm * units::inch_mm;
  const double value = mm3 / (job.is_metric() ? cm3 : in3);
  if (value <= 0 || value >= 1) return text_or_more(mm3, Unit::mm3, job);
  const int digits = 1 - static_cast<int>(std::floor(std::log10(value)));
  const double step = std::pow(10, -digits);
  return units::decimals(to_step(value, step, Toward::more, step * 1e-6), digits) + (job.is_metric() ? " cm3" : " in3");
}

std::string text_as_checked(double mm, const char* id, const std::vector<Result>& results, const job::Job& job) {
  for (const Result& r : results) {
    if (r.id != id) continue;
    const bool measured = r.measured && std::abs(*r.measured - mm) <= units::tolerance::length_mm;
    if (!measured && (!r.limit.greatest || keeps(mm, r.limit))) continue;
    Result told = r;
    told.measured = mm;
    return measured_text(told, job);
  }
  return text_or_more(mm, Unit::mm, job);
}

std::string bump_text(double mm, const job::Job& job) {
  constexpr double shown_mm = 0.4;
  return mm < shown_mm ? "none" : text_or_more(mm, Unit::mm, job);
}

std::string thinnest_text(const facts::Bed& bed, const job::Job& job) {
  const double half_mark = units::tape_mark_mm(job.is_metric()) / 2;
  const bool same = bed.contact_mm2 > 0 && bed.least_under_ribs_mm - bed.least_mm < half_mark;
  return text_or_less(same ? bed.least_under_ribs_mm : bed.least_mm, Unit::mm, job);
}

std::string text_at_least(double mm, const job::Job& job) {
  return text_of(units::up_to_mark(mm, job.mark_mm()), Unit::mm, job);
}

std::string width_text(const facts::WidthRead& read, const job::Job& job) {
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  return len(read.reading_mm) + " was read at a height of " + len(read.height_mm) + ", give or take " +
         len(read.tolerance_mm) + ", where the walls as plumbed leave " + len(read.solids_mm);
}

std::string at_flange_text(const facts::SiteBuilt& site, const job::Job& job) {
  return units::to_text(units::Length::mm(site.at_flange_mm), job.is_metric());  // laid to, and judged by none
}
std::string cover_text(const facts::SiteBuilt& site, const job::Job& job) {
  return text_or_less(site.cover_least_mm, Unit::mm, job);
}

std::string tipped_words(double degrees) {
  constexpr double same = 1e-6;  // a room and its mirror image differ by less
  const int whole = static_cast<int>(std::ceil(degrees - same));
  return "tipped in by " + std::to_string(whole) + (whole == 1 ? " degree" : " degrees");
}

std::string falls_allowed(double least, double greatest, const job::Job& job) {
  const std::string low = text_or_more(least, Unit::ratio, job), high = text_or_less(greatest, Unit::ratio, job);
  // Where nothing that is printed lies in a narrow band, its least is told to the last digit.
  if (greatest - least <= units::tolerance::ratio || fall_of(low) > fall_of(high) + units::tolerance::ratio)
    return fall_in_full(least, job);
  return low == high ? low : "between " + low + " and " + high;
}

std::string falls_found(double least, double greatest, const job::Job& job) {
  const std::string low = text_or_less(least, Unit::ratio, job);
  if (greatest - least <= units::tolerance::ratio) return low;
  return low + " to " + text_or_more(greatest, Unit::ratio, job);
}

std::string limit_text(const Result& result, const job::Job& job) {
  const Limit& limit = result.limit;
  if (!limit.by_pipe.empty() && !limit.least && !limit.greatest) return by_pipe_text(limit, result.id, job);
  const auto told = [&](std::string text, double v) { return with_noun(std::move(text), v, limit.unit, result.id); };
  const Fineness fine = fineness_of(result, job);
  const auto least = [&](double v) { return told(least_text(v, limit.unit, job, fine), v); };
  const auto greatest = [&](double v) { return told(greatest_text(v, limit.unit, job, fine), v); };
  if (limit.least && limit.greatest)
    return least_text(*limit.least, limit.unit, job, fine) + " to " + greatest(*limit.greatest);
  if (limit.least) return "at least " + least(*limit.least);
  if (limit.greatest && *limit.greatest == 0) return result.id == "floor.deck-span" ? no_span_allowed : none_allowed;
  return limit.greatest ? "at most " + greatest(*limit.greatest) : unread_limit_text(result.id);
}

std::string and_limit(const Result& result, const job::Job& job) {
  const std::string limit = limit_text(result, job);
  return (limit == none_allowed || limit == no_span_allowed ? ", " : ", limit ") + limit;
}

std::string found_and_limit(const Result& result, const job::Job& job) {
  return measured_text(result, job) + and_limit(result, job);
}

std::string studs_at_entry(std::vector<job::Side> sides) {
  if (sides.empty()) sides = {job::Side::left, job::Side::right};
  return studs_to_find(units::listed(job::names_of(sides)) + (sides.size() > 1 ? " walls" : " wall"),
                       "up to the entry, where none was read");
}

std::string source_text(const Limit& limit) {
  const std::string verified = name_of(limit.verified);
  if (limit.each_verified) return limit.source;
  return limit.source == verified ? verified : limit.source + ", " + verified;
}

std::string framed_out(const facts::Facts& facts) {
  std::vector<std::string> walls;
  for (const job::Side side : {job::Side::left, job::Side::back, job::Side::right})
    if (facts::wall_waits(facts.room.studs, side)) walls.emplace_back(job::name_of(side));
  return walls.empty() ? "" : units::listed(walls, ", ") + (walls.size() > 1 ? " walls" : " wall");
}

std::string to_frame_out(const facts::Facts& facts) {
  if (framed_out(facts).empty()) return "";
  bool tile_unsaid = false;
  std::vector<std::string> framed, sistered;
  for (const job::Side side : {job::Side::left, job::Side::back, job::Side::right}) {
    const facts::WallFirst at = facts::first_at(facts.room.studs, side);
    if (at == facts::WallFirst::frame) framed.emplace_back(job::name_of(side));
    if (at == facts::WallFirst::plumb) sistered.emplace_back(job::name_of(side));
    if (at == facts::WallFirst::say_tile) tile_unsaid = true;
  }
  if (framed.empty() && sistered.empty()) return job::tile_to_say;
  const auto named = [](const std::vector<std::string>& all) {
    return "the " + units::listed(all, ", ") + (all.size() > 1 ? " walls" : " wall");
  };
  std::string first = framed.empty() ? "" : "frame " + named(framed) + " out first";
  if (!sistered.empty())
    first += (framed.empty() ? "" : ", and ") + ("plumb or sister the studs of " + named(sistered)) + " first";
  return (tile_unsaid ? job::tile_to_say + std::string{"; "} : "") + first +
         ", then read plumb and studs again (survey.plumb, survey.studs): studs stand farther back than furring "
         "reaches";
}

std::string bring_out(const std::string& studs, job::Side wall, const job::Job& job, const facts::Facts& facts) {
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  const std::string far = "they stand farther back than furring reaches (" + len(facts::most_furring_mm) + ")";
  const auto near = facts::least_back_mm(facts.room.studs, wall);
  if (!near || facts::has_room_for_wall(*near)) return "frame a wall before " + studs + ": " + far;
  return "plumb " + studs + ", or sister them out: " + far + ", and a wall framed before them has no room where they " +
         (*near > 0 ? "stand " + text_or_less(*near, Unit::mm, job) + " back" : "stand in");
}

bool is_build_up_known(const facts::Facts& facts) {
  return facts.clear.finished && framed_out(facts).empty();
}

std::string build_up_to_read(const facts::Facts& facts) {
  const std::string first = to_frame_out(facts), build_up = "board, bond coat and tile (survey.finish)";
  return first.empty() ? "say how far the finished walls stand before the studs: " + build_up : first;
}

}  // namespace fallwright::rules
