#include "study/variant.hpp"

#include <algorithm>
#include <limits>

#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/check.hpp"
#include "study/study.hpp"

namespace fallwright::study {
namespace {

using rules::Outcome;
using rules::Result;

char letter_of(Outcome outcome) {
  switch (outcome) {
    case Outcome::pass:
      return facts::passed;
    case Outcome::fail:
      return facts::failed;
    case Outcome::caution:
      return facts::cautioned;
    case Outcome::not_checked:
      return facts::left_open;
    case Outcome::not_applicable:
      break;
  }
  return facts::not_asked;
}

/// Whether a check was settled, and would fail the job where it is broken.
bool counts(const Result& r) {
  return (r.outcome == Outcome::pass && r.limit.when_broken == Outcome::fail) || r.outcome == Outcome::fail;
}

bool is_aimed_at(const Result& r, const std::vector<job::Asked>& ids) {
  if (ids.empty()) return counts(r);
  return std::any_of(ids.begin(), ids.end(), [&](const job::Asked& a) { return a.path == r.id; });
}

/// What fails without a margin is broken past all measure.
double room(const Result& r) {
  return r.margin ? *r.margin : r.outcome == Outcome::fail ? std::numeric_limits<double>::lowest() : 1;
}

}  // namespace

Judged judge(const job::Job& job, const Needs& needs, measure::Memory& memory) {
  const auto model = parts::build(job);
  facts::Facts facts = measure::measure(*model, memory, needs.told ? measure::Scope::all : measure::Scope::judged);
  const rules::Limits limits = rules::limits_for(job);
  if (needs.worst_cases)
    facts = with_studies(*model, std::move(facts), limits);
  else if (needs.drain_window)
    facts.room.drain = drain_window(*model, facts.room.drain, limits);
  auto results = rules::check(job, facts, limits);
  return {std::move(facts), std::move(results)};
}

void weigh(const std::vector<Result>& results, bool for_map, facts::Variant& variant) {
  const Result* first = nullptr;
  constexpr double most = 1e6;  // of its limit
  double worst = 0;             // what fails without a margin is worse still
  const auto before = [](const Result& a, const Result& b) {
    if ((a.outcome == Outcome::fail) != (b.outcome == Outcome::fail)) return a.outcome == Outcome::fail;
    return room(a) < room(b);
  };
  for (const Result& r : results) {
    variant.outcomes += letter_of(r.outcome);
    if (counts(r) && (r.margin || r.outcome == Outcome::fail) && (!first || before(r, *first))) first = &r;
    if (for_map) variant.margins.push_back(counts(r) ? std::min(room(r), most) : 1);
    if (counts(r) && r.margin) worst = std::max(std::min(worst, *r.margin), -most);
  }
  for (double& margin : variant.margins) margin = std::max(margin, worst - 1);
  variant.verdict = rules::any_failed(results) ? facts::Verdict::fails : facts::Verdict::passes;
  if (!first) return;
  variant.gives_way = static_cast<std::size_t>(first - results.data());
  variant.margin = first->margin;
}

std::vector<double> aimed_margins(const std::vector<Result>& results, const std::vector<job::Asked>& ids) {
  std::vector<double> margins;
  for (const Result& r : results)
    margins.push_back(r.margin && is_aimed_at(r, ids) ? std::clamp(*r.margin, -no_margin, no_margin) : no_margin);
  return margins;
}

std::optional<double> least_margin(const std::vector<Result>& results, const std::vector<job::Asked>& ids) {
  std::optional<double> least;
  for (const Result& r : results)
    if (r.margin && is_aimed_at(r, ids)) least = std::min(*r.margin, least.value_or(*r.margin));
  return least;
}

}  // namespace fallwright::study
