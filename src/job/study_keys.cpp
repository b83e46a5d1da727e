#include "job/study_keys.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "job/keys.hpp"
#include "job/range.hpp"
#include "job/value.hpp"
#include "units/quantity.hpp"
#include "units/words.hpp"

namespace fallwright::job {
namespace {

constexpr double most_values = 10'000;  ///< of one key

std::string plain(double number) {
  return units::short_decimals(number, 9);
}

std::string unquoted(const std::string& text) {
  return text.size() >= 2 && text.front() == '"' && text.back() == '"' ? text.substr(1, text.size() - 2) : text;
}

/// A number of a key as the job file has it.
std::string number_written(Kind kind, double number, UnitSystem unit) {
  const bool metric = unit == UnitSystem::metric;
  switch (measure_of(kind)) {
    case Measure::length:
      return written(Length::mm(number), unit);
    case Measure::fall: {
      std::string why;
      const Fall fall = Fall::ratio(number);
      const std::string usual = metric ? units::to_percent(fall) : units::to_inches_per_foot(fall);
      const auto back = number_of(kind, usual, unit, why);
      if (back && std::abs(*back - number) < 1e-12) return "\"" + usual + "\"";
      return metric ? "\"" + plain(number * 100) + " %\"" : "\"" + plain(number * 12) + " in/ft\"";
    }
    case Measure::share:
      return "\"" + plain(number * 100) + " %\"";
    default:
      return plain(number);
  }
}

std::string toml_of(const toml::node& node) {
  std::ostringstream out;
  node.visit([&](const auto& value) { out << value; });
  return out.str();
}

bool can_step(Kind kind) {
  const Measure measure = measure_of(kind);
  return measure != Measure::word && measure != Measure::other;
}

}  // namespace

Measure measure_of(Kind kind) {
  switch (kind) {
    case Kind::integer:
      return Measure::count;
    case Kind::length:
    case Kind::reading:
      return Measure::length;
    case Kind::fall:
      return Measure::fall;
    case Kind::share:
      return Measure::share;
    case Kind::volume:
    case Kind::area:
    case Kind::density:
    case Kind::mass:
    case Kind::stress:
      return Measure::other;
    default:
      return Measure::word;
  }
}

std::optional<Worth> worth_of(const toml::node& node, const Key& key, UnitSystem unit, std::string& why) {
  const auto value = read_value(node, key, unit, why);
  if (!value) return std::nullopt;
  const std::string text = toml_of(node);
  const auto word = node.value_exact<std::string>();
  Worth worth{word ? *word : text, text, std::nullopt};
  if (measure_of(key.kind) != Measure::word) worth.number = value->number;
  return worth;
}

std::vector<Worth> worths_in_range(const toml::node& from, const toml::node& to, const toml::node& step, const Key& key,
                                   UnitSystem unit, RangeFault& fault) {
  const auto none = [&](const toml::node& at, const std::string& why) {
    fault = {&at, why};
    return std::vector<Worth>{};
  };
  if (!can_step(key.kind))
    return none(from, "its values make no range; list them, like values = [" + key.usual(unit) + "]");
  Key apart = key;  // a step may be less than the key itself may be
  apart.least = apart.greatest = 0;
  std::string told;
  const auto low = read_value(from, key, unit, told);
  if (!low) return none(from, "from: " + told);
  const auto high = read_value(to, key, unit, told);
  if (!high) return none(to, "to: " + told);
  const auto by = read_value(step, apart, unit, told);
  if (!by) return none(step, "step: " + told);
  const auto text = [&](double number) { return unquoted(number_written(key.kind, number, unit)); };
  if (by->number <= 0) return none(step, "step: found " + text(by->number) + "; it must be above zero");
  const double span = (high->number - low->number) / by->number, steps = std::round(span);
  if (span < 0)
    return none(to,
                "from " + text(low->number) + " to " + text(high->number) + " is no range; give the least value first");
  if (steps >= most_values)
    return none(step, "makes " + units::grouped(static_cast<std::size_t>(std::min(steps, 1e15)) + 1) +
                          " values; allowed are " + units::grouped(static_cast<std::size_t>(most_values)));
  constexpr double same = 1e-6;  // of a step: two units' last digits differ by less
  if (std::abs(span - steps) > same) {
    const double below = low->number + std::floor(span) * by->number;
    const auto as_there = [](const toml::node& node) {
      return node.value_exact<std::string>().value_or(toml_of(node));
    };
    const bool percent = as_there(step).ends_with("%");
    const auto near = [&](double number) {
      return unquoted(number_written(key.kind, number, percent ? UnitSystem::metric : unit));
    };
    return none(to, "to: " + as_there(to) + " is no whole number of steps of " + as_there(step) + " from " +
                        as_there(from) + "; the nearest are " + near(below) + " and " + near(below + by->number));
  }
  std::vector<Worth> all;
  for (double i = 0; i <= steps; ++i) {
    const double number = i == steps ? high->number : low->number + i * by->number;
    const std::string toml = number_written(key.kind, number, unit);
    all.push_back({unquoted(toml), toml, number});
  }
  return all;
}

const std::vector<Key>& study_keys() {
  static const std::vector<Key> all{
      {"study.job",
       Kind::text,
       required,
       "\"my-bath.toml\"",
       "\"my-bath.toml\"",
       0,
       0,
       "the job file, beside the study's or by a path from there",
       no_choices,
       {}},
      {"study.name",
       Kind::text,
       optional,
       "\"where the drain may stand\"",
       "\"where the drain may stand\"",
       0,
       0,
       "what the study is called on its sheet",
       no_choices,
       {}},
      {"study.vary",
       Kind::choice,
       usual,
       "\"keys\"",
       "\"keys\"",
       0,
       0,
       "keys: those listed as [[key]]; readings: every reading of the survey, drawn within its own tolerance",
       {"keys", "readings"},
       {}},
      {"study.way",
       Kind::choice,
       usual,
       "\"all\"",
       "\"all\"",
       0,
       0,
       "all: every combination of the keys' values; samples: so many drawn from them; readings are always samples",
       {"all", "samples"},
       {}},
      {"study.samples", Kind::integer, usual, "1000", "1000", 1, most_variants, "how many are drawn", no_choices, {}},
      {"study.seed",
       Kind::integer,
       usual,
       "1",
       "1",
       0,
       2147483647,
       "of what is drawn: equal seeds draw alike",
       no_choices,
       {}},
      {"study.aim",
       Kind::choice,
       usual,
       "\"greatest-least-margin\"",
       "\"greatest-least-margin\"",
       0,
       0,
       "what makes one variant that passes better than another: the margin of the check with the least to spare, bags "
       "of mortar, sticks, or what all of its buy list costs",
       {"greatest-least-margin", "fewest-bags", "least-sticks", "lowest-price"},
       {}},
      {"key.path",
       Kind::text,
       required,
       "\"drain.from_left\"",
       "\"drain.from_left\"",
       0,
       0,
       "a key of the job file, with its section",
       no_choices,
       {}},
      {"key.entry",
       Kind::integer,
       optional,
       "1",
       "1",
       1,
       10000,
       "which entry, counted from 1, of a section that stands several times",
       no_choices,
       {}},
  };
  return all;
}

}  // namespace fallwright::job
