/// Values typed on the command line.
#pragma once

#include <string>
#include <vector>

#include "job/as_set.hpp"
#include "job/job.hpp"
#include "survey/readings.hpp"

namespace fallwright::app {

/// A point of the plan as a tape reads it: `x` from the left stud face beside it, `y` from the entry, where the floor
/// in front of it counts as less than nothing. Bare numbers are in the job's unit. @throws diag::JobFaults when it is
/// outside the room.
survey::Point point_of(const std::string& x, const std::string& y, const job::Job& job);

/// "back-left=1/8 in" and the like: places on the rim and what the rule shows there, each place once, held to the same
/// range as in the job file. @throws diag::JobFaults with all that is wrong.
std::vector<job::RimReading> rim_readings(const std::vector<std::string>& texts, job::UnitSystem unit);

}  // namespace fallwright::app
