/// What came of a change to a job, in as few lines as it takes.
#pragma once

#include <string>

#include "report/report.hpp"
#include "revision/changes.hpp"

namespace fallwright::report {

/// What two reports are compared by.
revision::State state_of(const Report& report);

/// A line for each check that now comes out otherwise, or fails or asks for caution by another number, worst first;
/// then the counts. "nothing changed" where there is none.
std::string verdicts_text(const revision::State& before, const revision::State& after);

/// All that changed: keys, sizes, checks, what is bought, and which pieces that were cut still serve.
std::string changes_text(const revision::State& before, const revision::State& after);

/// The same as JSON; described in docs/report-json.md.
std::string changes_json(const revision::State& before, const revision::State& after);

}  // namespace fallwright::report
