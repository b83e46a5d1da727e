/// Everything that is judged of a job, once: report, sheets and quantities print it and compute nothing of it again.
#pragma once

#include <optional>
#include <vector>

#include "facts/held.hpp"
#include "rules/as_built.hpp"
#include "rules/as_set.hpp"
#include "rules/levelling.hpp"
#include "rules/loads.hpp"
#include "rules/pipe_table.hpp"
#include "rules/result.hpp"
#include "rules/screed.hpp"

namespace fallwright::rules {

struct Judgement {
  std::vector<Result> results;  ///< in the order of the work on site
  Levelling base_levelling, seat_levelling;
  std::optional<FloorLoad> floor_load;  ///< as `floor_load` has it
  std::optional<SeatLoad> seat_load;
  PipeTable pipe;                     ///< nothing where the job has no trap
  AsSetVerdict as_set;                ///< says nothing where the base was not read in the bed
  std::vector<BuiltRow> as_built;     ///< nothing where nobody recorded what was built
  facts::Holds holds = {};            ///< what waits while a check fails
  std::optional<Screed> screed = {};  ///< of a base built on site
};

/// @param results those of `check`, as they are told.
Judgement judgement_of(const job::Job& job, const facts::Facts& facts, const Limits& limits,
                       std::vector<Result> results);

}  // namespace fallwright::rules
