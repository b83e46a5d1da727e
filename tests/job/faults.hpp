/// What is told of a job file. Inside the tests of `job` only.
#pragma once

#include <string>
#include <vector>

#include "diag/fault.hpp"
#include "job/read.hpp"

namespace fallwright::job {

/// Nothing where it can be read.
inline std::vector<diag::Fault> faults_of(const std::string& text) {
  try {
    read(text, "job.toml");
  } catch (const diag::JobFaults& e) {
    return e.faults();
  }
  return {};
}

}  // namespace fallwright::job
