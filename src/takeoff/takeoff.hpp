/// Quantities to buy and pieces to cut, from what was measured on the solids.
#pragma once

#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "takeoff/cutting.hpp"

namespace fallwright::takeoff {

/// One line of the buy list: net quantity from the solids, what to buy of it, and what both rest on.
struct Row {
  std::string item;
  double quantity = 0;
  std::string unit;
  double buy = 0;
  std::string buy_unit;
  std::string basis;  ///< from which solids, with what waste or pack, and a warning where one is due
  double waste = 0;   ///< share added to the net quantity
  double pack = 0;    ///< how much of `unit` is in one of what is bought; 0: bought by the unit
  std::string pack_name = {};
};

/// "4 bags", "1 box", "15.32 ft2"; and the net quantity likewise.
std::string bought(const Row& row);
std::string needed(const Row& row);

/// One row for every stock and length of stick.
std::vector<Row> stick_rows(const std::vector<StockPlan>& plans, bool metric);

/// `plan` is the cutting plan of the job's own cut list.
std::vector<Row> take_off(const job::Job& job, const facts::Facts& facts, const std::vector<StockPlan>& plan);

}  // namespace fallwright::takeoff
