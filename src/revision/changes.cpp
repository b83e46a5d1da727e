#include "revision/changes.hpp"

#include <algorithm>

#include "rules/check.hpp"
#include "rules/words.hpp"
#include "units/fall.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::revision {
namespace {

using rules::Outcome;
using rules::Result;

constexpr const char* nothing = "left out";

bool is_metric(const State& state) {
  return state.job.unit == job::UnitSystem::metric;
}

std::string text_of(const Size& size, bool metric) {
  switch (size.quantity) {
    case Quantity::length:
      return units::to_text(units::Length::mm(size.value), metric);
    case Quantity::volume:
      return metric ? units::decimals(size.value / 1e6, 1) + " L"
                    : units::decimals(size.value / units::mm3_per_ft3, 2) + " ft3";
    case Quantity::fall:
      break;
  }
  const units::Fall fall = units::Fall::ratio(size.value);
  return metric ? units::to_percent(fall) : units::to_inches_per_foot(fall);
}

std::vector<Changed> of_keys(const State& was, const State& now) {
  std::vector<Changed> changed;
  const auto in = [](const State& state, const std::string& key) {
    return std::find_if(state.keys.begin(), state.keys.end(), [&](const auto& written) { return written.key == key; });
  };
  for (const job::WrittenKey& key : now.keys) {
    const auto before = in(was, key.key);
    if (before == was.keys.end())
      changed.push_back({key.key, nothing, key.value});
    else if (!job::say_the_same(*before, was.job.unit, key, now.job.unit))
      changed.push_back({key.key, before->value, key.value});
  }
  for (const job::WrittenKey& key : was.keys)
    if (in(now, key.key) == now.keys.end()) changed.push_back({key.key, key.value, nothing});
  return changed;
}

/// Both in the newer job's unit.
std::vector<Changed> of_sizes(const State& was, const State& now) {
  std::vector<Changed> changed;
  const bool metric = is_metric(now);
  const auto in = [](const State& state, const std::string& name) {
    return std::find_if(state.sizes.begin(), state.sizes.end(), [&](const Size& size) { return size.name == name; });
  };
  for (const Size& size : now.sizes) {
    const auto before = in(was, size.name);
    const std::string text = text_of(size, metric),
                      old = before == was.sizes.end() ? nothing : text_of(*before, metric);
    if (text != old) changed.push_back({size.name, old, text});
  }
  for (const Size& size : was.sizes)
    if (in(now, size.name) == now.sizes.end()) changed.push_back({size.name, text_of(size, metric), nothing});
  return changed;
}

/// What is bought of each thing; sticks of each length for themselves.
/// "sticks of 10 ft" and "stick of 10 ft" are one; so are bags and a bag, boxes and a box.
std::string of_one(const std::string& unit) {
  const std::size_t end = std::min(unit.find(' '), unit.size());
  std::string word = unit.substr(0, end);
  if (word.size() > 3 && word.compare(word.size() - 3, 3, "xes") == 0)
    word.resize(word.size() - 2);
  else if (!word.empty() && word.back() == 's')
    word.pop_back();
  return word + unit.substr(end);
}

std::vector<Changed> of_orders(const State& was, const State& now) {
  std::vector<Changed> changed;
  const auto in = [](const State& state, const takeoff::Row& like) {
    const auto it = std::find_if(state.rows.begin(), state.rows.end(), [&](const takeoff::Row& row) {
      return row.for_sale && row.item == like.item && of_one(row.buy_unit) == of_one(like.buy_unit);
    });
    return it == state.rows.end() ? std::string{nothing} : takeoff::bought(*it);
  };
  for (const takeoff::Row& row : now.rows)
    if (const std::string old = in(was, row); row.for_sale && old != takeoff::bought(row))
      changed.push_back({row.item, old, takeoff::bought(row)});
  for (const takeoff::Row& row : was.rows)
    if (row.for_sale && in(now, row) == nothing) changed.push_back({row.item, takeoff::bought(row), nothing});
  return changed;
}

std::string with_number(const Result& r, const job::Job& job) {
  return r.measured ? std::string{told(r.outcome)} + ", " + rules::measured_text(r, job) : told(r.outcome);
}

bool to_mend(const Result& result) {
  return result.outcome == Outcome::fail || result.outcome == Outcome::caution;
}

bool differs(const Result& was, const job::Job& before, const Result& now, const job::Job& after) {
  if (was.outcome != now.outcome) return true;
  return to_mend(now) && rules::measured_text(was, before) != rules::measured_text(now, after);
}

Verdict verdict(const Result& was, const job::Job& before, const Result& now, const job::Job& after) {
  Verdict v{now.outcome, now.title, "", with_number(was, before), ""};
  if (now.measured) v.found = rules::measured_text(now, after) + ", limit " + rules::limit_text(now, after);
  if (to_mend(now) || now.outcome != was.outcome) v.advice = now.advice;
  return v;
}

}  // namespace

const char* told(Outcome outcome) {
  switch (outcome) {
    case Outcome::pass:
      return "pass";
    case Outcome::fail:
      return "FAIL";
    case Outcome::caution:
      return "CAUTION";
    case Outcome::not_checked:
      return "not checked";
    case Outcome::not_applicable:
      break;
  }
  return "n/a";
}

std::string counts(const std::vector<Result>& results) {
  const auto of = [&](Outcome outcome) { return std::to_string(rules::count(results, outcome)); };
  return of(Outcome::fail) + " fail, " + of(Outcome::caution) + " ask for caution, " + of(Outcome::not_checked) +
         " are not checked, " + of(Outcome::pass) + " pass";
}

std::vector<Verdict> verdicts(const State& was, const State& now) {
  std::vector<Verdict> all;
  for (const Result& result : rules::worst_first(now.results)) {
    const auto before =
        std::find_if(was.results.begin(), was.results.end(), [&](const Result& r) { return r.id == result.id; });
    if (before != was.results.end() && differs(*before, was.job, result, now.job))
      all.push_back(verdict(*before, was.job, result, now.job));
  }
  return all;
}

Changes changes(const State& was, const State& now) {
  const std::string file = was.job.file.substr(was.job.file.rfind('/') + 1);
  return {file,
          of_keys(was, now),
          of_sizes(was, now),
          of_orders(was, now),
          verdicts(was, now),
          pieces_of(was.cuts, now.cuts, now.job.cuts.kerf.in_mm(), is_metric(now))};
}

}  // namespace fallwright::revision
