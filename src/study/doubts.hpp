/// Readings that may be off by their tolerance, and what-ifs that the kernel may refuse. Inside `study` only.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "brep/guard.hpp"
#include "diag/fault.hpp"
#include "job/job.hpp"

namespace fallwright::study {

/// One reading, and how to move it within a job.
struct Doubt {
  std::string name;
  double tolerance_mm;
  std::function<void(job::Job&, double)> move;
};

std::vector<Doubt> doubts_of_plan_and_plumb(const job::Job& job);
/// Widths that were read at a height.
std::vector<Doubt> doubts_of_widths(const job::Job& job);
std::vector<Doubt> doubts_of_floor(const job::Job& job);

/// Does `work`, which builds another `part` than the job's own. @return why it could not be done, empty when it was: a
/// what-if that the kernel refuses costs its own answer, never the job.
template <class Work>
std::string refusal_of(const std::string& part, const Work& work) {
  try {
    brep::guarded(part, work);
    return {};
  } catch (const diag::ModelError& refused) {
    return refused.what();
  }
}

}  // namespace fallwright::study
