/// What is told of a job file. Inside the tests of `job` only.
#pragma once

#include <string>
#include <vector>

#include "diag/fault.hpp"
#include "job/read.hpp"

namespace fallwright::job {

/// A job with nothing but what is required; `more` goes behind it.
inline std::string least_job(const std::string& more = "") {
  return "[job]\nname = \"a\"\nunit = \"in\"\n"  // lines 1 to 3
         "[alcove]\nwidth = 72\ndepth = 36\n"    // 4 to 6
         "[base]\nlength = 57.5\nwidth = 36\n"   // 7 to 9
         "[drain]\nfrom_left = 28.75\nfrom_back = 16.25\n" +
         more;  // 10 to 12, then `more` from 13
}

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
