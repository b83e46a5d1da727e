#include "report/changed_text.hpp"

#include <algorithm>

#include "report/columns.hpp"
#include "rules/check.hpp"
#include "rules/words.hpp"

namespace fallwright::report {
namespace {

using rules::Outcome;
using rules::Result;

constexpr std::size_t under_title = 15;

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

std::string with_number(const Result& r, const job::Job& job) {
  return r.measured ? std::string{told(r.outcome)} + ", " + rules::measured_text(r, job) : told(r.outcome);
}

/// "FAIL         floor is not too steep: 0.891 in/ft, limit at most 1/2 in/ft; was pass, 0.477 in/ft".
std::string line(const Result& was, const job::Job& before, const Result& now, const job::Job& after) {
  std::string text = now.title;
  if (now.measured) text += ": " + rules::measured_text(now, after) + ", limit " + rules::limit_text(now, after);
  text =
      wrapped("  " + padded(told(now.outcome), 12) + " " + text + "; was " + with_number(was, before), 0, under_title);
  const bool mend = now.outcome == Outcome::fail || now.outcome == Outcome::caution;
  if (!now.advice.empty() && (mend || now.outcome != was.outcome)) text += wrapped(now.advice, under_title);
  return text;
}

bool changed(const Result& was, const job::Job& before, const Result& now, const job::Job& after) {
  if (was.outcome != now.outcome) return true;
  const bool open = now.outcome == Outcome::fail || now.outcome == Outcome::caution;
  return open && rules::measured_text(was, before) != rules::measured_text(now, after);
}

std::string counts(const Report& report) {
  const auto of = [&](Outcome outcome) { return std::to_string(rules::count(report.judgement.results, outcome)); };
  return of(Outcome::fail) + " fail, " + of(Outcome::caution) + " ask for caution, " + of(Outcome::not_checked) +
         " are not checked, " + of(Outcome::pass) + " pass";
}

}  // namespace

std::string changed_text(const Report& before, const Report& after) {
  std::string text;
  for (const Result& now : rules::worst_first(after.judgement.results)) {
    const auto& all = before.judgement.results;
    const auto was = std::find_if(all.begin(), all.end(), [&](const Result& r) { return r.id == now.id; });
    if (was != all.end() && changed(*was, before.job, now, after.job)) text += line(*was, before.job, now, after.job);
  }
  return (text.empty() ? "  nothing changed" : text + "  now") + ": " + counts(after) + "\n";
}

}  // namespace fallwright::report
