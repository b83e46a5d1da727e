/// What to change so that the floor falls as it should.
#pragma once

#include <string>

#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

/// A sentence naming the remedy and the value that would pass, in the words of the job file.
///
/// With a level rim every facet has the same rise, so falls are as one over the runs: a rim height exists only when the
/// longest run is no more than greatest/least times the shortest. Where it is not, the drain has to move: to the place
/// nearest to where it is now, along one axis if that will do.
std::string floor_advice(const job::Job& job, double least_fall, double greatest_fall);

}  // namespace fallwright::rules
