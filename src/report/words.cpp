#include "report/report.hpp"
#include "rules/book.hpp"

namespace fallwright::report {

std::string version() { return FALLWRIGHT_VERSION; }

std::string measured_text(const rules::Result& result, const job::Job& job) {
  return result.measured ? rules::text_of(*result.measured, result.limit.unit, job) : "-";
}

std::string limit_text(const rules::Result& result, const job::Job& job) {
  const rules::Limit& limit = result.limit;
  const auto text = [&](double v) { return rules::text_of(v, limit.unit, job); };
  if (limit.least && limit.greatest) return text(*limit.least) + " to " + text(*limit.greatest);
  if (limit.least) return "at least " + text(*limit.least);
  if (limit.greatest && *limit.greatest == 0) return "none";
  return limit.greatest ? "at most " + text(*limit.greatest) : "-";
}

}  // namespace fallwright::report
