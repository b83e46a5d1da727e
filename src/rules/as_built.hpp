/// What was built, as the job file records it, beside what was designed and what is allowed.
#pragma once

#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/levelling.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

/// One line of the record, in the job's unit. `outcome` is not_applicable where nothing is asked of it.
struct BuiltRow {
  std::string what, designed, limit, built;
  Outcome outcome = Outcome::not_applicable;
};

/// Levels as set (of the base as read in the wet bed), falls as a level showed them, the flood test with its times.
/// Limits are those that the checks held; a flood that was read lower, or higher than its lowest, by anything that a
/// rule shows asks for care (common practice, no source), and one that was filled lower than the book asks, or read
/// sooner, passes nothing. Empty where nothing was recorded.
std::vector<BuiltRow> as_built_rows(const job::Job& job, const facts::Facts& facts, const std::vector<Result>& results,
                                    const Levelling& base);

}  // namespace fallwright::rules
