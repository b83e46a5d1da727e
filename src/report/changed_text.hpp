/// What came of a change to a job, in as few lines as it takes.
#pragma once

#include <string>

#include "report/report.hpp"

namespace fallwright::report {

/// A line for each check that now comes out otherwise, or fails or asks for caution by another number, worst first;
/// then the counts. "nothing changed" where there is none.
std::string changed_text(const Report& before, const Report& after);

}  // namespace fallwright::report
