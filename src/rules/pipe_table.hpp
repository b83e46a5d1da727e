/// What the plumber marks and cuts below the floor, in words: printed on screen and on the drain's sheet alike.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/limits.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

using PipeCells = std::array<std::string, 7>;

struct PipeTable {
  bool known = true;               ///< a length or a place of it; not only what to say before there is one
  bool notched = false;            ///< the arm lies in notches: nothing is bored
  std::vector<std::string> lines;  ///< riser, the arm's way, what is not known
  PipeCells head{"joist at", "from weir", "hole's centre", "left above", "left below", "hole", "hole at most"};
  std::vector<PipeCells> rows;  ///< a joist each, in the order the arm meets them
  bool any() const { return !lines.empty() || !rows.empty(); }
};

/// Nothing where the job has no trap. What a failing one of `results` rejects is no number to work to: "VOID: at least
/// 2\"".
PipeTable pipe_table(const job::Job& job, const facts::Facts& facts, const Limits& limits,
                     const std::vector<Result>& results);

}  // namespace fallwright::rules
