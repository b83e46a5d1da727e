/// What is bought and cut, as a room's report and an order for several rooms both tell it. Inside `report` only.
#pragma once

#include <vector>

#include "report/json_words.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::report {

Json row_json(const takeoff::Row& row);
/// What a list comes to, in docs/report-json.md.
Json cost_json(const takeoff::Cost& c, const std::string& currency);
Json hold_json(const takeoff::Hold& hold);
Json cut_json(const takeoff::CutRow& cut);
Json stock_json(const takeoff::StockPlan& plan);
Json sticks_json(const std::vector<takeoff::StockPlan>& plans);  ///< sticks that are cut alike, once

}  // namespace fallwright::report
