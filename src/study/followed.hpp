/// A job with some of its lines changed, laid out, built, measured and judged anew. Inside `study` only.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::measure {
class Memory;
}

namespace fallwright::study {

/// Its results, or why there is no such job.
struct Followed {
  std::vector<rules::Result> results;
  std::string refused;
};

/// @param memory of the job as it is: what the lines leave as it was is not measured again.
/// @pre `can_be_followed`.
Followed follow(const job::Job& job, const std::vector<job::Change>& changes, measure::Memory& memory);

/// Not one that was read from no file, nor one that takes long to build: of more than 200 rib pockets or 60 readings of
/// levels and plumb.
bool can_be_followed(const job::Job& job);

inline bool broken(const rules::Result& result) {
  return result.outcome == rules::Outcome::fail || result.outcome == rules::Outcome::caution;
}

}  // namespace fallwright::study
