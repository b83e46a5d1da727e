/// From facts to results.
#pragma once

#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

/// Runs every rule of the book; limits of the job file replace the book's.
std::vector<Result> check(const job::Job& job, const facts::Facts& facts);

/// Failed first, then cautions, then what was not checked, then passes by their margin, smallest first.
std::vector<Result> worst_first(std::vector<Result> results);

/// The limit of a rule as it holds for a job: the book's, or the job file's.
Limit limit_for(const std::string& id, const job::Job& job);

bool any_failed(const std::vector<Result>& results);

/// Whether a value keeps a limit, up to the rounding of double precision; falls are compared as exact ratios.
bool keeps(double value, const Limit& limit);

}  // namespace fallwright::rules
