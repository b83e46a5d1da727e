#include "rules/remedy.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "rules/check.hpp"
#include "rules/levelling.hpp"
#include "units/fall.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {

double up_to_mark(double mm, const job::Job& job) {
  return units::up_to_mark(mm, job.mark_mm());
}

double down_to_mark(double mm, const job::Job& job) {
  return units::down_to_mark(mm, job.mark_mm());
}

std::string text_at_most_on_tape(double mm, const job::Job& job) {
  return text_of(down_to_mark(mm, job), Unit::mm, job);
}

double moved_to_mark(double now_mm, double by_mm, const job::Job& job) {
  return by_mm > 0 ? up_to_mark(now_mm + by_mm, job) : down_to_mark(now_mm + by_mm, job);
}

job::Change set_length(const std::string& key, double mm, const job::Job& job, std::size_t entry) {
  return {key, job::written(job::Length::mm(mm), job.unit), entry};
}

std::string length_in_full(double mm, const job::Job& job) {
  const double mark = job.mark_mm(), fine = units::rule_mark_mm(job.is_metric());
  const auto is_on = [&](double step) {
    return std::abs(std::round(mm / step) * step - mm) <= units::tolerance::length_mm;
  };
  if (is_on(mark)) return text_of(mm, Unit::mm, job);
  if (is_on(fine)) return text_at_most(std::round(mm / fine) * fine, job);
  const std::string quoted = job::written(job::Length::mm(mm), job::UnitSystem::metric);
  return quoted.substr(1, quoted.size() - 2);
}

std::string fall_in_full(double ratio, const job::Job& job) {
  const std::string printed = text_of(ratio, Unit::ratio, job);
  const std::size_t run = printed.find(" (");
  const std::string value = printed.substr(0, run);
  const auto reads_back = [&](const std::string& text) {
    std::string why;
    const auto read = units::parse_fall(text, why);
    return read && std::abs(read->as_ratio() - ratio) <= units::tolerance::ratio;
  };
  if (reads_back(value)) return printed;
  const std::string one_in = units::to_one_in(units::Fall::ratio(ratio));
  if (reads_back(one_in)) return one_in + " (" + value + ")";
  return units::decimals(ratio * 100, 9) + " %" + (run == std::string::npos ? "" : printed.substr(run));
}

job::Change set_fall(const std::string& key, double ratio, const job::Job& job) {
  const std::string text = fall_in_full(ratio, job);
  return {key, "\"" + text.substr(0, text.find(" (")) + "\"", 0};
}

namespace {

/// What stands before and behind the value of a key in a sentence.
struct KeyWords {
  const char *key, *before, *after;
};
constexpr std::array key_words{
    KeyWords{"drain.from_left", "a drain ", " from the base's left edge"},
    KeyWords{"drain.from_right", "a drain ", " from the base's right edge"},
    KeyWords{"drain.from_back", "a drain ", " from the base's back edge"},
    KeyWords{"drain.from_front", "a drain ", " from the base's front edge"},
    KeyWords{"drain.bore", "a bore of ", ""},
    KeyWords{"drain.outlet", "an outlet of ", ""},
    KeyWords{"base.length", "a base ", " long"},
    KeyWords{"base.width", "a base ", " wide"},
    KeyWords{"base.fall", "a floor that falls ", ""},
    KeyWords{"base.rise", "a rim ", " above the drain's edge"},
    KeyWords{"base.lowered_from", "a base lowered from ", ""},
    KeyWords{"base.threshold.height", "a threshold ", " above the drain"},
    KeyWords{"base.threshold.fall", "a threshold's top that falls ", ""},
    KeyWords{"base.upstands.height", "upstands ", " above the drain"},
    KeyWords{"bed.least", "a bed ", " thick at least"},
    KeyWords{"bed.gauge_depth", "mortar gauged ", " deep"},
    KeyWords{"bench.depth", "a bench ", " deep"},
    KeyWords{"bench.height", "a seat ", " high"},
    KeyWords{"bench.seat_fall", "a seat that falls ", ""},
    KeyWords{"bench.overhang", "a seat that reaches over by ", ""},
    KeyWords{"bench.frame.spacing", "a frame's members ", " apart"},
    KeyWords{"tile.height", "tile ", " high"},
    KeyWords{"trap.arm", "a trap arm ", " long"},
    KeyWords{"trap.fall", "a trap arm that falls ", ""},
    KeyWords{"trap.pipe", "a trap arm in ", " pipe"},
    KeyWords{"trap.hole", "holes of ", " for the trap arm"},
    KeyWords{"trap.notch", "notches ", " deep for the trap arm"},
    KeyWords{"trap.weir", "a trap whose weir lies at ", ""},
    KeyWords{"trap.hub", "a hub whose stop lies at ", ""},
};

/// As a person reads it: a length or a fall as they are printed elsewhere. Nothing for what is neither.
std::string read_value(const std::string& value, const job::Job& job) {
  if (value.size() < 2 || value.front() != '"' || value.back() != '"') return "";
  const std::string text = value.substr(1, value.size() - 2);
  std::string why;
  const auto bare = job.is_metric() ? units::LengthUnit::mm : units::LengthUnit::inch;
  if (const auto length = units::parse_length(text, bare, why)) {
    const std::string full = length_in_full(length->in_mm(), job);
    return full.find('.') == std::string::npos ? full : text_of(length->in_mm(), Unit::mm, job);
  }
  if (const auto fall = units::parse_fall(text, why)) return text_of(fall->as_ratio(), Unit::ratio, job);
  return "";
}

}  // namespace

std::string said(const std::vector<job::Change>& changes, const job::Job& job) {
  std::string text;
  for (const job::Change& change : changes) {
    if (change.value.empty()) continue;
    const auto words =
        std::find_if(key_words.begin(), key_words.end(), [&](const KeyWords& each) { return each.key == change.key; });
    const std::string value = words == key_words.end() ? "" : read_value(change.value, job);
    text +=
        (text.empty() ? "" : ", ") + (value.empty() ? "the line " + job::text_of(change)
                                                    : words->before + value + words->after + " (" + change.key + ")");
  }
  return text.empty() && !changes.empty() ? "the line " + changes.front().key + " taken out" : text;
}

Finding mended_by(Finding finding, std::vector<job::Change> changes, std::string instead) {
  if (!changes.empty()) finding.remedies.push_back({std::move(changes), {}, {}, true, std::move(instead)});
  return finding;
}

}  // namespace fallwright::rules
