/// Several rooms told as one order: one saw list, packs shared, and where it is tightest.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "report/report.hpp"
#include "report/room.hpp"
#include "takeoff/kits.hpp"
#include "takeoff/pool.hpp"

namespace fallwright::report {

/// For one check the room that has the least to spare: a broken one whose limit leaves no room to tell of comes first.
struct Tightest {
  std::size_t room = 0;  ///< number
  Judged result;
};

/// Rooms and kits by number. The unit is the first room's; `cuts` has all lengths on offer and the widest saw cut of
/// the rooms in that unit.
struct Together {
  bool metric = false;
  job::Cuts cuts;
  std::vector<Room> rooms;
  std::vector<takeoff::Pooled> packs;  ///< sticks last, by stock and length
  std::vector<takeoff::SawRow> pieces;
  std::vector<takeoff::StockPlan> plan;
  double bought_apart_mm = 0;  ///< what sticks would come to if every room bought its own
  bool priced = false;         ///< some room has prices of its user's own
  std::string currency;
  takeoff::Cost cost;                ///< of what is bought together
  std::optional<double> cost_apart;  ///< if every room bought its own
  std::vector<takeoff::Kit> kits;
  std::vector<Tightest> tightest;
  std::vector<File> files;  ///< those written beside summary.json; none before they are
};

/// @pre at least one room is in the order.
Together together(std::vector<Room> rooms);

/// Everything for a person to read.
std::string together_text(const Together& all);

/// RFC 4180, one table each: rooms, what to buy, pieces with their owners, sticks, tightest checks.
std::string rooms_csv(const Together& all);
std::string packs_csv(const Together& all);
std::string pieces_csv(const Together& all);
std::string sticks_csv(const Together& all);
std::string tightest_csv(const Together& all);

/// The same as one JSON object; described in docs/report-json.md.
std::string to_json(const Together& all);

/// "1-3, 7, 9, 10". @pre ascending.
std::string numbers_text(const std::vector<std::size_t>& numbers);

/// Whose a piece is: "A of 1-3, 7; B of 4".
std::string owners_text(const std::vector<takeoff::Owner>& owners);

}  // namespace fallwright::report
