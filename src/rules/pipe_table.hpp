/// What the plumber marks and cuts below the floor, in words: printed on screen and on the drain's sheet alike.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/limits.hpp"

namespace fallwright::rules {

struct PipeTable {
  bool known = true;               ///< a length or a place of it; not only what to say before there is one
  std::vector<std::string> lines;  ///< riser, the arm's way, what is not known
  /// joist, along the arm from the weir, hole's centre from the datum, wood above it, wood below it, hole, most allowed
  std::vector<std::array<std::string, 7>> rows;
  bool any() const { return !lines.empty() || !rows.empty(); }
};
inline constexpr std::array<const char*, 7> pipe_table_head{"joist",      "from weir", "hole's centre", "left above",
                                                            "left below", "hole",      "hole at most"};

/// Nothing where the job has no trap.
PipeTable pipe_table(const job::Job& job, const facts::Facts& facts, const Limits& limits);

}  // namespace fallwright::rules
