/// Which studs somebody read, and what to say first where tile decides how far they are furred.
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

inline constexpr const char* tile_to_say = "say how high tile and waterproofing go on the walls (tile.height)";

}  // namespace fallwright::job
