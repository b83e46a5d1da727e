/// Quantities to buy and pieces to cut, from what was measured on the solids.
#pragma once

#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"

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

/// Equal pieces under one mark. Lengths as they are cut: to 1/16 in, or to 1 mm.
struct CutRow {
  std::string mark;
  std::vector<std::string> part_ids;
  std::string stock;
  double length_mm = 0;  ///< long point to long point
  double short_mm = 0;   ///< short point to short point, to the same marks
  double width_mm = 0, thickness_mm = 0;
  int count = 0;
  std::string ends;  ///< "square", or the angles from square
  bool sheet = false, steel = false;
};

/// "4 bags", "1 box", "15.32 ft2"; and the net quantity likewise.
std::string bought(const Row& row);
std::string needed(const Row& row);

struct StockPlan;

/// `plan` is the cutting plan of the job's own cut list (takeoff/cutting.hpp).
std::vector<Row> take_off(const job::Job& job, const facts::Facts& facts, const std::vector<StockPlan>& plan);

/// Longest first for each stock; marks A, B, C ... in that order.
std::vector<CutRow> cut_list(const facts::Facts& facts, bool metric);

}  // namespace fallwright::takeoff
