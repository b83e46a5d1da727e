/// The cutting plan in lines. Inside `report` only.
#pragma once

#include <string>
#include <vector>

#include "takeoff/cutting.hpp"

namespace fallwright::report {

/// For each stock what is bought of it and how good that is, then its sticks, those that are cut alike in one line.
std::string stick_lines(const std::vector<takeoff::StockPlan>& plans, bool metric);

}  // namespace fallwright::report
