/// The user's own prices, beside the job file or named on the command line.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"

namespace fallwright::app {

/// Reads what the job names, or `instead` where that is not empty, into the job. @throws diag::JobFaults, with the
/// place of the key or the option where the file cannot be read.
void read_prices(job::Job& job, const std::string& instead);

/// Rooms of one order give one price for one thing, in one currency. @throws diag::JobFaults with all that differ.
void must_agree_on_prices(const std::vector<job::Job>& jobs);

}  // namespace fallwright::app
