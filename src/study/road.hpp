/// Remedies that undo each other, brought together.
#pragma once

#include <vector>

#include "job/job.hpp"
#include "rules/result.hpp"
#include "rules/road.hpp"

namespace fallwright::measure {
class Memory;
}

namespace fallwright::study {

/// Where what is advised for one check undoes, or cannot stand beside, what is advised for another: lines of the job
/// file that go together, and what they leave. Without lines where all remedies can be followed side by side, or none
/// is to be followed at all (`with_advice_followed` says which jobs).
/// @param results those of `with_advice_followed`.
/// @param known the memory of the job as it was measured, closed.
rules::Road road_of(const job::Job& job, const std::vector<rules::Result>& results, const measure::Memory& known);

}  // namespace fallwright::study
