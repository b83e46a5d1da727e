/// report.json as values. Inside `report` only.
#pragma once

#include "report/json_words.hpp"
#include "report/report.hpp"

namespace fallwright::report {

Json report_json(const Report& report);

}  // namespace fallwright::report
