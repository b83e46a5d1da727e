/// One variant of a study, judged with what its checks need and nothing more.
#pragma once

#include <vector>

#include "facts/facts.hpp"
#include "facts/study.hpp"
#include "job/job.hpp"
#include "job/study_file.hpp"
#include "rules/result.hpp"

namespace fallwright::measure {
class Memory;
}

namespace fallwright::study {

/// What is asked of a variant beyond its checks.
struct Needs {
  bool worst_cases = false;   ///< bounds within the readings' tolerances
  bool drain_window = false;  ///< the nearest place for the drain
  bool told = false;          ///< what is told beside what checks judge by, as a report has it
};

struct Judged {
  facts::Facts facts;
  std::vector<rules::Result> results;
};

/// Builds, measures and checks a job; follows no advice. @throws diag::ModelError, diag::JobFaults as `build` and the
/// rule books do.
/// @param memory of a job like it; while it is open it takes this one in.
Judged judge(const job::Job& job, const Needs& needs, measure::Memory& memory);

/// Sets verdict, outcomes, what gives way, margin and, for the map, the margin of every check. Checks that only ask for
/// caution when they are broken make no variant fail, and none gives way by them.
void weigh(const std::vector<rules::Result>& results, bool for_map, facts::Variant& variant);

/// Of every check its margin where it is one of these, by their ids; where none is named, of those that can fail the
/// job. `no_margin` for the others.
std::vector<double> aimed_margins(const std::vector<rules::Result>& results, const std::vector<job::Asked>& ids);
inline constexpr double no_margin = 1e6;  ///< of its limit; no check has more to spare

/// The least margin of these checks, by their ids; of all that can fail the job where none is named. What "greatest
/// least margin" aims at.
std::optional<double> least_margin(const std::vector<rules::Result>& results, const std::vector<job::Asked>& ids);

}  // namespace fallwright::study
