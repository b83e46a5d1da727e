#include "rules/judgement.hpp"

#include "rules/rejected.hpp"

namespace fallwright::rules {

Judgement judgement_of(const job::Job& job, const facts::Facts& facts, const Limits& limits,
                       std::vector<Result> results) {
  AsSetVerdict as_set = judge_as_set(job, facts, results);
  Levelling base = base_levelling(facts, limits);
  PipeTable pipe = pipe_table(job, facts, limits, results);
  std::vector<BuiltRow> as_built = as_built_rows(job, facts, results, base);
  facts::Holds holds = holds_of(results, facts);
  add_unread(holds, job, facts, results);
  return {std::move(results),
          std::move(base),
          seat_levelling(job, facts, limits),
          floor_load(job, facts),
          seat_load(job, facts),
          std::move(pipe),
          std::move(as_set),
          std::move(as_built),
          std::move(holds),
          screed_of(job, facts, limits)};
}

}  // namespace fallwright::rules
