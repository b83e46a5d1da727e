/// A room in one sentence and a few lines: what terminal and page begin with.
#pragma once

#include <string>
#include <vector>

#include "report/report.hpp"

namespace fallwright::report {

/// The worst there is among the checks: a failure, a caution, one that waits for a reading, or a pass.
rules::Outcome worst_outcome(const Report& report);

/// "Nothing fails so far: 2 checks ask for care, 36 wait for readings of the room." One sentence, with its full stop,
/// and one more where the record of what was built is out of its limits.
std::string verdict_words(const Report& report);

/// Rows of the record of what was built that fail their limit, or ask for care.
std::size_t count_built(const Report& report, rules::Outcome outcome);

/// "As built, 'base, left to right' fails its limit, 'flood test, 24 h later' asks for care." Nothing where all is
/// kept.
std::string record_words(const Report& report);

/// What was built and what it takes, a line each, in the job's unit.
struct KeyLine {
  std::string label;  ///< "mortar bed"
  std::string words;
  bool wraps = false;  ///< it may be as long as what has no price, or what a file tells
};
std::vector<KeyLine> key_lines(const Report& report);

/// What was found in the file that a base came as: its unit, which axes are up and to the back, faces; empty where
/// there is no such file.
std::string body_words(const job::Job& job);

}  // namespace fallwright::report
