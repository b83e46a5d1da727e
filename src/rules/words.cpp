#include "rules/words.hpp"

#include "rules/book.hpp"
#include "rules/check.hpp"

namespace fallwright::rules {

/// A value that breaks its limit behind the last digit a person reads would look as if it kept it.
std::string measured_text(const Result& result, const job::Job& job) {
  if (!result.measured) return "-";
  const Limit& limit = result.limit;
  const auto text = [&](double v) { return text_of(v, limit.unit, job); };
  const std::string own = text(*result.measured);
  if (keeps(*result.measured, limit)) return own;
  if (limit.least && *result.measured < *limit.least && own == text(*limit.least)) return "just under " + own;
  if (limit.greatest && *result.measured > *limit.greatest && own == text(*limit.greatest)) return "just over " + own;
  return own;
}

std::string limit_text(const Result& result, const job::Job& job) {
  const Limit& limit = result.limit;
  const auto text = [&](double v) { return text_of(v, limit.unit, job); };
  if (limit.least && limit.greatest) return text(*limit.least) + " to " + text(*limit.greatest);
  if (limit.least) return "at least " + text(*limit.least);
  if (limit.greatest && *limit.greatest == 0) return "none";
  return limit.greatest ? "at most " + text(*limit.greatest) : "as the job file asks";
}

std::string source_text(const Limit& limit) {
  const std::string verified = name_of(limit.verified);
  return limit.source == verified ? verified : limit.source + ", " + verified;
}

}  // namespace fallwright::rules
