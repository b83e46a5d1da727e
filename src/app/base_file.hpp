/// The base that a job file names as a STEP file beside it.
#pragma once

#include <string>

#include "job/body.hpp"

namespace fallwright::app {

/// Reads it for a job of that path; "-" stands in the current folder. What cannot be read is the job file's fault.
job::BodyOf body_beside(const std::string& job_path);

}  // namespace fallwright::app
