/// The command line: what was asked, in which order it is done, and how it ended.
#pragma once

#include <string>
#include <vector>

namespace fallwright::app {

/// How the program ends.
enum ExitCode {
  all_pass = 0,       ///< done; every check that could be made passes
  check_failed = 1,   ///< done, files are written; a check fails
  bad_input = 2,      ///< the job file or the command line is wrong; nothing is written
  machine_failed = 3  ///< disk, permission, or the geometry kernel
};

/// The same for people; with what a signal makes of it.
struct Ending {
  std::string code, words;
};
const std::vector<Ending>& endings();

int run(int argc, const char* const* argv);

}  // namespace fallwright::app
