/// A job from a file that was parsed already. Inside `job` only.
#pragma once

#include <functional>
#include <string>

#include <toml++/toml.h>

#include "job/body.hpp"
#include "job/job.hpp"

namespace fallwright::job {

/// Reads and validates the job in `table`; `with_readings` may move its readings when they are known and nothing has
/// been made of them yet. Leaves `text` and `sha256` empty. @throws diag::JobFaults as `read` does.
Job read_table(toml::table table, const std::string& file, const std::function<void(Job&)>& with_readings,
               const BodyOf& body_of);

}  // namespace fallwright::job
