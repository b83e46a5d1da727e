#include "revision/changes.hpp"

#include <algorithm>
#include <cmath>

#include "revision/articles.hpp"
#include "revision/datum.hpp"
#include "revision/orders.hpp"
#include "revision/stock.hpp"
#include "rules/check.hpp"
#include "rules/standing.hpp"
#include "rules/words.hpp"
#include "units/fall.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::revision {
namespace {

using rules::Outcome;
using rules::Result;

bool is_metric(const State& state) {
  return state.job.is_metric();
}

/// @param of the state that it is of: its checks tell a fall that they found
std::string text_of(const Size& size, const State& of, const job::Job& job) {
  const bool metric = job.is_metric();
  switch (size.quantity) {
    case Quantity::least:
      return rules::text_or_less(size.value, rules::Unit::mm, job);
    case Quantity::greatest:
      return rules::text_or_more(size.value, rules::Unit::mm, job);
    case Quantity::length:
      return units::to_text(units::Length::mm(size.value), metric);
    case Quantity::volume:
      return metric ? units::decimals(size.value / 1e6, 1) + " L"
                    : units::decimals(size.value / units::mm3_per_ft3, 2) + " ft3";
    case Quantity::fall:
      break;
  }
  const std::string fall = rules::as_checked(size.value, rules::Unit::ratio, of.results, job)
                               .value_or(units::to_text(units::Fall::ratio(size.value), metric));
  return fall.substr(0, fall.find(" (1:"));
}

std::vector<job::WrittenKey>::const_iterator written(const State& state, const std::string& key) {
  return std::find_if(state.keys.begin(), state.keys.end(), [&](const auto& written) { return written.key == key; });
}

std::vector<Changed> of_keys(const State& was, const State& now) {
  std::vector<Changed> changed;
  for (const job::WrittenKey& key : now.keys) {
    const auto before = written(was, key.key);
    if (before == was.keys.end())
      changed.push_back({key.key, nothing, key.value});
    else if (!job::say_the_same(*before, was.job.unit, key, now.job.unit))
      changed.push_back({key.key, before->value, key.value});
  }
  for (const job::WrittenKey& key : was.keys)
    if (written(now, key.key) == now.keys.end()) changed.push_back({key.key, key.value, nothing});
  return changed;
}

/// Whether a size reads the same; lengths of jobs in different units may have been rounded to different tapes.
bool reads_as(const Size& was, const State& before, const Size& now, const State& after) {
  const bool is_length = now.quantity != Quantity::volume && now.quantity != Quantity::fall;
  const bool tapes_differ = is_metric(before) != is_metric(after);
  if (tapes_differ && is_length && std::abs(was.value - now.value) < one_length_mm()) return true;
  if (now.quantity == Quantity::fall && std::abs(was.value - now.value) <= units::tolerance::ratio) return true;
  return text_of(was, before, after.job) == text_of(now, after, after.job);
}

/// Both in the newer job's unit.
std::vector<Changed> of_sizes(const State& was, const State& now) {
  std::vector<Changed> changed;
  const auto in = [](const State& state, const std::string& name) {
    return std::find_if(state.sizes.begin(), state.sizes.end(), [&](const Size& size) { return size.name == name; });
  };
  for (const Size& size : now.sizes) {
    const auto before = in(was, size.name);
    if (before == was.sizes.end())
      changed.push_back({size.name, nothing, text_of(size, now, now.job)});
    else if (!reads_as(*before, was, size, now))
      changed.push_back({size.name, text_of(*before, was, now.job), text_of(size, now, now.job)});
  }
  for (const Size& size : was.sizes)
    if (in(now, size.name) == now.sizes.end()) changed.push_back({size.name, text_of(size, was, now.job), nothing});
  return changed;
}

std::string with_number(const Result& r, const job::Job& job) {
  return r.measured ? std::string{told(r.outcome)} + ", " + rules::measured_text(r, job) : told(r.outcome);
}

bool to_mend(const Result& result) {
  return result.outcome == Outcome::fail || result.outcome == Outcome::caution;
}

/// By what they read in one unit.
bool differs(const Result& was, const Result& now, const job::Job& after) {
  if (was.outcome != now.outcome) return true;
  return to_mend(now) && rules::measured_text(was, after) != rules::measured_text(now, after);
}

Verdict verdict(const Result& was, const job::Job& before, const Result& now, const job::Job& after) {
  Verdict v{now.outcome, now.title, "", with_number(was, before), ""};
  // A verdict may be another because its limit is.
  if (was.measured && now.measured && rules::limit_text(was, after) != rules::limit_text(now, after))
    v.was = told(was.outcome) + (", " + rules::found_and_limit(was, before));
  if (now.measured) v.found = rules::found_and_limit(now, after);
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

std::string counts(const State& state) {
  const auto of = [&](Outcome outcome) { return std::to_string(rules::count(state.results, outcome)); };
  const auto built = std::count_if(state.built.begin(), state.built.end(),
                                   [](const rules::BuiltRow& row) { return row.outcome == Outcome::fail; });
  return of(Outcome::fail) + " fail, " + of(Outcome::caution) + " ask for caution, " + of(Outcome::not_checked) +
         " are not checked, " + of(Outcome::pass) + " pass" +
         (built > 0 ? "; of the record " + std::to_string(built) + (built == 1 ? " row fails" : " rows fail") : "");
}

/// Rows of the record that are new and are to be mended, or come out otherwise.
static std::vector<Verdict> of_record(const State& was, const State& now) {
  std::vector<Verdict> all;
  for (const rules::BuiltRow& row : now.built) {
    const auto before = std::find_if(was.built.begin(), was.built.end(),
                                     [&](const rules::BuiltRow& older) { return older.what == row.what; });
    const bool is_new = before == was.built.end();
    const bool mend = row.outcome == Outcome::fail || row.outcome == Outcome::caution;
    if (is_new ? !mend : before->outcome == row.outcome && (!mend || before->built == row.built)) continue;
    all.push_back({row.outcome, "as built, " + row.what, row.built + (row.limit.empty() ? "" : ", limit " + row.limit),
                   is_new ? "not recorded" : std::string{told(before->outcome)} + ", " + before->built, ""});
  }
  return all;
}

std::vector<Verdict> verdicts(const State& was, const State& now) {
  std::vector<Verdict> all = of_record(was, now);
  for (const Result& result : rules::worst_first(now.results)) {
    const Result* before = rules::find(was.results, result.id);
    if (before && differs(*before, result, now.job)) all.push_back(verdict(*before, was.job, result, now.job));
  }
  return all;
}

bool of_one_room(const State& was, const State& now) {
  if (was.job.name == now.job.name) return true;
  int alike = 0, others = 0;
  for (const char* size : {"alcove.width", "alcove.depth", "survey.plan.back", "survey.plan.front", "survey.plan.left",
                           "survey.plan.right"}) {
    const auto before = written(was, size), after = written(now, size);
    if (before == was.keys.end() || after == now.keys.end()) continue;
    (job::say_the_same(*before, was.job.unit, *after, now.job.unit) ? alike : others) += 1;
  }
  return alike > others;
}

/// Of the newer pieces that serve what they wait for is told by their own list, whatever became of their stock.
static Pieces of_pieces(const State& was, const State& now) {
  Pieces pieces = pieces_of(pieces_held_with_stock(was), pieces_held_with_stock(now), now.job.cuts.kerf.in_mm(),
                            {is_metric(was), is_metric(now)});
  for (PieceUse& use : pieces.uses)
    for (const takeoff::CutRow& row : now.cuts)
      if (row.mark == use.mark) use.hold = row.hold;
  return pieces;
}

Changes changes(const State& was, const State& now) {
  const std::string file = was.job.file.substr(was.job.file.rfind('/') + 1);
  std::vector<Changed> to_buy = of_articles(was, now);
  for (Changed& order : of_orders(was, now)) to_buy.push_back(std::move(order));
  Pieces pieces = of_pieces(was, now);
  Purchases purchases = purchases_of(was, now, pieces);
  const auto datum = datum_moved(was, now);
  return {file,
          datum ? words_of(*datum, now) : "",
          of_keys(was, now),
          of_sizes(was, now),
          std::move(to_buy),
          std::move(purchases),
          verdicts(was, now),
          std::move(pieces)};
}

}  // namespace fallwright::revision
