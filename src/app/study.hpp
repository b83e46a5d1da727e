/// The command `study`: many variants of one job, whole or in shares.
#pragma once

#include <string>

#include "app/replace.hpp"

namespace fallwright::app {

struct StudyOptions {
  std::string file, out = "out";
  std::string part;      ///< "3/8"; empty: all of it
  unsigned threads = 0;  ///< 0: as many as there are cores
  bool merge = false, quiet = false, json = false;
};

/// @return the exit code: a study tells, and a check that fails in it is no failure of its own.
/// @throws diag::JobFaults, diag::MachineError.
int run_study(const StudyOptions& options, const Say& say);

}  // namespace fallwright::app
