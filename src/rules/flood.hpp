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

/// The water of the test as it is filled on the day, from heights that can be read then. What is built on site is
/// tested before anything lies on its waterproofing: water stands on that, over the drain's flange, and spills over the
/// rough threshold.
struct FloodTable {
  bool on_flange = false;          ///< heights count from the drain's flange; else from its finished top
  std::vector<facts::Dip> dips;    ///< in steps, the last where it spills; `above_drain_mm` counts from there
  std::vector<FloodLevel> levels;  ///< as `flood_levels`, counted alike
  bool rough = false;              ///< the last of `dips` is the rough threshold's top
  std::string unknown = {};  ///< why it ends at the finished edge, and not where it spills then; empty: it does not
};
FloodTable flood_table(const job::Job& job, const facts::Facts& facts, const std::vector<Result>& results);

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
