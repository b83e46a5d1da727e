/// What is bought and cut, as a room's report and an order for several rooms both tell it. Inside `report` only.
#pragma once

#include <vector>

#include "report/json_words.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::report {

Json row_json(const takeoff::Row& row);
Json cut_json(const takeoff::CutRow& cut);
Json stock_json(const takeoff::StockPlan& plan);
Json sticks_json(const std::vector<takeoff::StockPlan>& plans);  ///< sticks that are cut alike, once

}  // namespace fallwright::report
