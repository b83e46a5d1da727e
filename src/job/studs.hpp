/// Which studs somebody read.
#pragma once

#include <algorithm>

#include "job/job.hpp"

namespace fallwright::job {

/// A wall that stands and whose studs nobody read is drawn with studs at its spacing: an assumption.
inline bool are_studs_assumed(const Job& job, Side wall) {
  const auto& read = job.survey.studs;
  return job.walls.existing &&
         std::none_of(read.begin(), read.end(), [&](const survey::Studs& studs) { return studs.wall == wall; });
}

}  // namespace fallwright::job
