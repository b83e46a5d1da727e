/// Several rooms told as one order: one saw list, packs shared, and where it is tightest.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "report/report.hpp"
#include "takeoff/kits.hpp"
#include "takeoff/pool.hpp"

namespace fallwright::report {

/// A room as it came out of its work: its report, or why there is none.
struct Room {
  Room(const Report* of) : report{of}, name{of->job.name} {}  // a report is a room
  Room(std::string of, std::string why) : name{std::move(of)}, failure{std::move(why)} {}
  const Report* report = nullptr;
  std::string name, failure;
};

/// A room in the table of rooms; its number is its place, from 1, whatever became of the others.
struct RoomLine {
  std::string name;
  std::string hand;  ///< where the bench stands: "left", "right", "back", "no bench"
  std::string base;  ///< its sizes: rooms that take the same base are one family
  double set_mm3 = 0;
  rules::Result worst;
  std::string failure;              ///< why there is nothing of it in the order; empty otherwise
  double batches = 0;               ///< of mortar, mixed in that room
  std::optional<double> cost = {};  ///< of what it would buy alone, as far as there are prices
};

/// For one check the room that has the least to spare: a broken one whose limit leaves no room to tell of comes first.
struct Tightest {
  std::size_t room = 0;  ///< number
  rules::Result result;
};

/// Rooms and kits by number. The unit is the first room's; `cuts` has all lengths on offer and the widest saw cut of
/// the rooms in that unit.
struct Together {
  bool metric = false;
  job::Cuts cuts;
  std::vector<RoomLine> rooms;
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

/// @pre at least one room has a report.
Together together(const std::vector<Room>& rooms);

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
