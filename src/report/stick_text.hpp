/// The cutting plan in lines. Inside `report` only.
#pragma once

#include <string>
#include <vector>

#include "takeoff/cutting.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::report {

/// For each stock what is bought of it and how good that is, then its sticks, those that are cut alike in one line.
std::string stick_lines(const std::vector<takeoff::StockPlan>& plans, bool metric);

/// "; fitted to the floor ...", or nothing.
std::string and_fitted(const takeoff::CutRow& cut, bool metric);

/// "; HOLD: hangs on the bench, ...", or nothing.
std::string and_held(const takeoff::CutRow& cut);

/// "buy 4 bags" in a column; "HOLD" of what waits; without "buy" what is told alone.
std::string buy_cell(const takeoff::Row& row);

/// "A 34-3/4\"", "3 x B 14\"": equal neighbours as one, from left to right.
std::string pieces_text(const std::vector<takeoff::StickPiece>& pieces, bool metric);

}  // namespace fallwright::report
