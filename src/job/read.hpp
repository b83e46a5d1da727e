/// From a TOML file to a job, or to every fault in it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "job/body.hpp"
#include "job/job.hpp"

namespace fallwright::job {

/// Reads and validates the job in `text`; `file` names it in messages. Fills defaults; leaves `sha256` empty. A base
/// that comes as a file is read by `body_of`; without that it is refused.
/// @throws diag::JobFaults with every fault: syntax, unknown key, wrong type, out of range, impossible geometry.
Job read(std::string_view text, const std::string& file, const BodyOf& body_of = {});

/// The files that a job names, as it names them, whatever else is wrong with it; none of what is no TOML.
std::vector<std::string> files_named_in(std::string_view text);

/// A length typed for a key of the job file, in mm: read, and held to its range, as in the file. `name` is told in the
/// fault. @throws diag::JobFaults.
double typed_length(const std::string& key, const std::string& name, const std::string& text, UnitSystem unit);

}  // namespace fallwright::job
