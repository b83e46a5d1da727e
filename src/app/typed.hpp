/// Values typed on the command line.
#pragma once

#include <string>

#include "job/as_set.hpp"
#include "job/job.hpp"

namespace fallwright::app {

/// A length in mm; bare numbers are in the job's unit. `name` is told in the fault. @throws diag::JobFaults.
double length_of(const std::string& name, const std::string& text, job::UnitSystem unit);

/// "back-left=1/8 in": a place on the rim and what the rule shows there. @throws diag::JobFaults.
job::RimReading rim_reading(const std::string& text, job::UnitSystem unit);

}  // namespace fallwright::app
