/// What an order of several rooms knows of one room: a value of its own, which outlives the room's report and can be
/// kept in a file.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/cuts.hpp"
#include "job/prices.hpp"
#include "report/report.hpp"
#include "rules/result.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::report {

inline constexpr const char* no_bench = "no bench";

/// A result as an order tells it.
struct Judged {
  std::string id, title;
  rules::Outcome outcome = rules::Outcome::not_checked;
  std::optional<double> margin = {};
  std::string where = {};
  std::string source = {};  ///< of its limit
};

/// Its number is its place among the rooms, from 1, whatever became of the others. All of it comes from the report, in
/// the constructor and nowhere else.
struct Room {
  Room() = default;
  Room(const Report* report);               // a report is a room
  Room(std::string name, std::string why);  ///< one that could not be built or written

  std::string name;
  std::string failure;  ///< why there is nothing of it in the order; empty otherwise
  bool metric = false;
  std::string hand;  ///< where the bench stands: "left", "right", "back", or `no_bench`
  std::string base;  ///< its sizes: rooms that take the same base are one family
  double set_mm3 = 0;
  rules::Outcome outcome = rules::Outcome::not_checked;  ///< the worst there is among its checks
  std::string verdict;                                   ///< in a sentence
  std::vector<Judged> checks;                            ///< in the order of the work on site
  Judged worst;
  std::vector<takeoff::Row> rows;     ///< what it would buy alone; without `basis`, which an order makes anew
  std::vector<takeoff::CutRow> cuts;  ///< without the ids of their parts
  std::vector<takeoff::Row> sticks;   ///< of its own cutting plan, a row for every stock and length
  double sticks_mm = 0;               ///< all sticks it would buy alone
  job::Cuts offered;
  std::optional<double> opening_mm;  ///< the place its bench frame goes into; nothing while that frame is on HOLD
  std::vector<job::Price> prices;
  bool priced = false;  ///< by a table of its user's own
  std::string currency;
  double batches = 0;          ///< of mortar, mixed in that room
  std::optional<double> cost;  ///< of what it would buy alone, as far as there are prices
};

/// A room on one line of JSON that ends with a line feed; it reads back to the last bit.
std::string kept_room(const Room& room);
/// @throws std::runtime_error for what is no such line.
Room read_room(const std::string& line);

}  // namespace fallwright::report
