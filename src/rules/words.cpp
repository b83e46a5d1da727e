#include "rules/words.hpp"

#include <cmath>

#include "job/pipe.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/levelling.hpp"
#include "units/length.hpp"

namespace fallwright::rules {
namespace {

/// A length between two marks of the tape, further from both than anybody cuts or bores.
bool is_between_marks(double value, Unit unit, const job::Job& job) {
  constexpr double readable = 0.1;  // mm: finer than anybody cuts or bores
  const bool metric = job.unit == job::UnitSystem::metric;
  const units::Length length = units::Length::mm(value);
  const bool rounded = text_of(value, unit, job) == units::to_text(length, metric);
  const bool off = std::abs(units::round_to_tape(length, metric).in_mm() - value) > readable;
  return unit == Unit::mm && rounded && off;
}

/// A greatest length (a sixth of a joist's depth) must not read as the mark above it, a least (a pipe's outside) not as
/// the one below.
std::string greatest_text(double value, Unit unit, const job::Job& job) {
  return is_between_marks(value, unit, job) ? text_at_most(value, job) : text_of(value, unit, job);
}
std::string least_text(double value, Unit unit, const job::Job& job) {
  return is_between_marks(value, unit, job) ? text_at_least(value, job) : text_of(value, unit, job);
}

/// "by its pipe: 1-1/4 in at most 60", 2 in at most 96"".
std::string by_pipe_text(const Limit& limit, const job::Job& job) {
  std::string text;
  for (const ByPipe& row : limit.by_pipe) {
    const job::Pipe* pipe = job::pipe_of(units::Length::mm(row.nominal_mm));
    text += (text.empty() ? "by its pipe: " : ", ") + std::string{pipe ? pipe->name : ""};
    if (row.least) text += " at least " + least_text(*row.least, limit.unit, job);
    if (row.greatest) text += " at most " + greatest_text(*row.greatest, limit.unit, job);
  }
  return text;
}

}  // namespace

/// A value that breaks its limit behind the last digit a person reads would look as if it kept it.
std::string measured_text(const Result& result, const job::Job& job) {
  if (!result.measured) return "-";
  const Limit& limit = result.limit;
  const auto text = [&](double v) { return text_of(v, limit.unit, job); };
  // What is to be left over, and is small, reads no better than it is.
  constexpr double small = 4.7;  // mm: where text_of shows finer marks than the tape's
  const bool left_over = limit.unit == Unit::mm && limit.least && *result.measured >= 0 && *result.measured < small;
  const std::string own = left_over ? text_at_most(*result.measured, job) : text(*result.measured);
  if (keeps(*result.measured, limit)) return own;
  if (limit.least && *result.measured < *limit.least && own == least_text(*limit.least, limit.unit, job))
    return "just under " + own;
  if (limit.greatest && *result.measured > *limit.greatest && own == greatest_text(*limit.greatest, limit.unit, job))
    return "just over " + own;
  return own;
}

std::string limit_text(const Result& result, const job::Job& job) {
  const Limit& limit = result.limit;
  if (!limit.by_pipe.empty() && !limit.least && !limit.greatest) return by_pipe_text(limit, job);
  const auto least = [&](double v) { return least_text(v, limit.unit, job); };
  const auto greatest = [&](double v) { return greatest_text(v, limit.unit, job); };
  if (limit.least && limit.greatest) return least(*limit.least) + " to " + greatest(*limit.greatest);
  if (limit.least) return "at least " + least(*limit.least);
  if (limit.greatest && *limit.greatest == 0) return "none";
  return limit.greatest ? "at most " + greatest(*limit.greatest) : "as the job file asks";
}

std::string source_text(const Limit& limit) {
  const std::string verified = name_of(limit.verified);
  return limit.source == verified ? verified : limit.source + ", " + verified;
}

}  // namespace fallwright::rules
