/// Advice that was followed: every way to mend a failing check that the job file can hold is laid out, built, measured
/// and judged, before anybody is told of it.
#pragma once

#include <vector>

#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::measure {
class Memory;
}

namespace fallwright::study {

/// Results whose remedies know what comes of them; what a remedy costs, or why it will not do, is added to the advice.
/// A job that was made in memory, and read from no file, is left as it is; so is a room of more than 200 rib pockets or
/// 60 readings of levels and plumb.
/// @param memory of the job as it was measured, closed.
std::vector<rules::Result> with_advice_followed(const job::Job& job, std::vector<rules::Result> results,
                                                measure::Memory& memory);

}  // namespace fallwright::study
