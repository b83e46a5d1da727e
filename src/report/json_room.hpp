/// The part of report.json that tells of the room. Inside `report` only.
#pragma once

#include <nlohmann/json.hpp>

#include "report/report.hpp"

namespace fallwright::report {

nlohmann::ordered_json room_json(const Report& report);

}  // namespace fallwright::report
