/// From facts to results.
#pragma once

#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/change.hpp"
#include "job/job.hpp"
#include "rules/limits.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

/// Runs every check that has a limit.
std::vector<Result> check(const job::Job& job, const facts::Facts& facts, const Limits& limits);
/// The same, under the limits that hold for the job.
std::vector<Result> check(const job::Job& job, const facts::Facts& facts);

/// The results of a job as its rule book would have them.
struct UnderBook {
  std::string book;
  std::vector<Result> results;
};
/// The same facts under every rule book there is.
std::vector<UnderBook> check_under_all_books(const job::Job& job, const facts::Facts& facts);

/// Failed first, then cautions, then what was not checked, then passes by their margin, smallest first.
std::vector<Result> worst_first(std::vector<Result> results);

/// The result of the check of that id; none: no such check was run. What it points to lives as long as `results`.
const Result* find(const std::vector<Result>& results, const std::string& id);
const Result* find(std::vector<Result>&& results, const std::string& id) = delete;

/// How many there are of an outcome: the one count that terminal, files and sheets print.
std::size_t count(const std::vector<Result>& results, Outcome outcome);
bool any_failed(const std::vector<Result>& results);

/// Lines of the job file as what they come to, in words, each with its key: "a base 55-5/8\" long (base.length)"; a
/// line for which there are no words as it stands, one that is left out not at all.
std::string said(const std::vector<job::Change>& changes, const job::Job& job);

/// Whether a value keeps a limit, up to the rounding of double precision; falls are compared as exact ratios.
bool keeps(double value, const Limit& limit);

}  // namespace fallwright::rules
