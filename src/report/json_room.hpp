/// The part of report.json that tells of the room. Inside `report` only.
#pragma once

#include "report/json_words.hpp"
#include "report/report.hpp"

namespace fallwright::report {

Json room_json(const Report& report);

}  // namespace fallwright::report
