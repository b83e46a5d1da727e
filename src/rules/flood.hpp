/// How high the flood test's water is to stand, and what it then comes to.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

/// A height that is asked for, with the water up to there.
struct FloodLevel {
  std::string what;  ///< "rough threshold", "behind a dam"
  facts::Dip dip;
};

/// The floor where water stands against the threshold, or against the dam at an open edge, above the drain's top.
double floor_at_entry_mm(const facts::Facts& facts);

/// How high above the drain the water must stand; nothing where the book does not say.
std::optional<double> flood_asked_mm(const job::Job& job, const facts::Facts& facts,
                                     const std::vector<Result>& results);

/// Beside the water up to where it spills: up to the rough threshold where the book asks for that, and behind a dam
/// where it asks for more than the base holds by itself.
std::vector<FloodLevel> flood_levels(const job::Job& job, const facts::Facts& facts,
                                     const std::vector<Result>& results);

/// What the book asks for is a height that nobody can tell from the job file; empty: none is.
std::string unknown_flood_level(const job::Job& job, const facts::Facts& facts);

}  // namespace fallwright::rules
