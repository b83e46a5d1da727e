/// A check that goes on while someone works on the job file.
#pragma once

#include <string>

namespace fallwright::app {

/// Prints what `check` prints, then after each save what has changed in the verdict; a file with faults is told and
/// waited for. Ends by a signal, or once nobody can read it any more. `prices` as in `load`. @throws as `load` and
/// `work_out` do, before the first verdict only; std::system_error where no file can be watched.
void watch(const std::string& job_file, const std::string& prices);

}  // namespace fallwright::app
