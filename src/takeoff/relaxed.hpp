/// Cutting with parts of sticks allowed: how that is done best, and what it shows of whole ones. Inside `takeoff` only.
#pragma once

#include "takeoff/pattern.hpp"

namespace fallwright::takeoff {

/// Worths in whole numbers, to a unit of cost.
inline constexpr std::int64_t worth_scale = 1 << 16;

/// What the linear program found. Worths and bound are true whatever its rounding: no pattern is worth more than its
/// stick but by what the bound allows for.
struct Relaxed {
  std::vector<Pattern> patterns;
  std::vector<double> times;        ///< how often it would cut each
  std::vector<std::int64_t> worth;  ///< of a piece of each size, in units of 1 / worth_scale
  std::int64_t all_worth = 0;       ///< of all pieces together
  std::int64_t bound = 0;           ///< no choice of whole sticks costs less
};

/// Patterns are made as the linear program asks for them (column generation); `seeds` are some that are likely to be
/// wanted, and spare it rounds. Within a SolverSession. @pre costs are set.
Relaxed relax(const CutProblem& problem, const std::vector<Pattern>& seeds = {});

/// What was found with its bound made sharp: weighed against length a stick counts for so little, and length is sold in
/// such large steps, that the bound falls short. Of lengths alone the least total is the next that sticks can make up.
Relaxed sharpened(const CutProblem& problem, Relaxed relaxed);

/// Without the pieces that there are no more of, on the shortest stick.
Pattern limited(const CutProblem& problem, Pattern pattern);

}  // namespace fallwright::takeoff
