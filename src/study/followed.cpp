#include "study/followed.hpp"

#include "diag/fault.hpp"
#include "job/change.hpp"
#include "study/variant.hpp"

namespace fallwright::study {

Followed follow(const job::Job& job, const std::vector<job::Change>& changes, measure::Memory& memory) try {
  return {judge(job::changed(job, changes), {.drain_window = true}, memory).results, ""};
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
