#include "rules/judgement.hpp"

namespace fallwright::rules {

Judgement judgement_of(const job::Job& job, const facts::Facts& facts, const Limits& limits,
                       std::vector<Result> results) {
  AsSetVerdict as_set = judge_as_set(job, facts, results);
  return {std::move(results),     base_levelling(facts, limits), seat_levelling(job, facts, limits),
          floor_load(job, facts), seat_load(job, facts),         pipe_table(job, facts, limits),
          std::move(as_set)};
}

}  // namespace fallwright::rules
