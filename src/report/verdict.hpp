/// A room in one sentence and a few lines: what terminal and page begin with.
#pragma once

#include <string>
#include <vector>

#include "report/report.hpp"

namespace fallwright::report {

/// The worst there is among the checks: a failure, a caution, one that waits for a reading, or a pass.
rules::Outcome worst_outcome(const Report& report);

/// "Nothing fails so far: 2 checks ask for care, 36 wait for readings of the room." One sentence, with its full stop.
std::string verdict_words(const Report& report);

/// What was built and what it takes, a line each, in the job's unit.
struct KeyLine {
  std::string label;  ///< "mortar bed"
  std::string words;
};
std::vector<KeyLine> key_lines(const Report& report);

/// What was found in the file that a base came as: its unit, which axes are up and to the back, faces; empty where there
/// is no such file.
std::string body_words(const job::Job& job);

}  // namespace fallwright::report
