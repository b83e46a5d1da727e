/// The sticks of least total length that hold all pieces, the fewest of that length, and how short they could be at
/// best. Inside `takeoff` only.
#pragma once

#include "takeoff/pattern.hpp"

namespace fallwright::takeoff {

/// Patterns, one for each stick, that hold every piece exactly once.
struct LeastStock {
  std::vector<Pattern> sticks;
  std::int64_t least_length =
      0;                ///< in steps: shown that no choice is shorter, in whole numbers or by a finished search
  bool fewest = false;  ///< this is as short as that, and shown that no choice so short has fewer sticks
};

/// A linear program over patterns made as they are needed (column generation) gives the bound. Whole numbers come from
/// rounding it down and searching what is left; where that costs more than the bound, all patterns that a cheaper
/// choice could hold are listed, if they are not too many, and searched to the end. The bound does not hang on floating
/// point: what the linear program says pieces are worth is rounded to whole numbers and tried against every pattern.
/// What was solved before in this process is not solved again.
LeastStock least_stock(const CutProblem& problem);
/// The same worked out anew.
LeastStock solved(const CutProblem& problem);

/// The bound alone, without a search.
std::int64_t least_length(const CutProblem& problem);

}  // namespace fallwright::takeoff
