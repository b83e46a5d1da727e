/// The record of what was built, in report.json. Inside `report` only.
#pragma once

#include "report/json_words.hpp"
#include "report/report.hpp"

namespace fallwright::report {

/// As docs/report-json.md has it; null where nothing was recorded.
Json as_built_json(const Report& report);

}  // namespace fallwright::report
