/// From a TOML file to a job, or to every fault in it.
#pragma once

#include <string>
#include <string_view>

#include "job/job.hpp"

namespace fallwright::job {

/// Reads and validates the job in `text`; `file` names it in messages. Fills defaults; leaves `sha256` empty.
/// @throws diag::JobFaults with every fault: syntax, unknown key, wrong type, out of range, impossible geometry.
Job read(std::string_view text, const std::string& file);

/// The whole of a file. @throws diag::MachineError when it cannot be read.
std::string slurp(const std::string& path);

}  // namespace fallwright::job
