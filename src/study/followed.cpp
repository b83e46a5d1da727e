#include "study/followed.hpp"

#include "diag/fault.hpp"
#include "job/change.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/check.hpp"
#include "study/study.hpp"

namespace fallwright::study {

Followed follow(const job::Job& job, const std::vector<job::Change>& changes, measure::Memory& memory) try {
  const job::Job other = job::changed(job, changes);
  const auto model = parts::build(other);
  facts::Facts facts = measure::measure(*model, memory);
  const rules::Limits limits = rules::limits_for(other);
  const double clearance = limits.at("drain.bore-clear-of-joists").least.value_or(0);
  facts.room.drain = drain_window(*model, facts.room.drain, clearance);
  return {rules::check(other, facts, limits), ""};
} catch (const diag::JobFaults& e) {
  return {{}, e.faults().front().key + ": " + e.faults().front().message};
} catch (const diag::ModelError& e) {
  return {{}, e.what()};
}

bool can_be_followed(const job::Job& job) {
  constexpr int pockets = 200;
  constexpr std::size_t readings = 60;
  return job.text && job.base.pockets() <= pockets && job.survey.spots.size() + job.survey.plumbs.size() <= readings;
}

}  // namespace fallwright::study
