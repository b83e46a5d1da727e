#include "takeoff/need.hpp"

#include <algorithm>
#include <cmath>

#include "job/prices.hpp"
#include "takeoff/packs.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::takeoff {
namespace {

using units::decimals;

/// But for rounding: a weight comes from a volume and a density.
bool is_whole(double value) {
  return std::abs(value - std::round(value)) <= units::tolerance::ratio * std::max(1.0, value);
}

std::string counted(double value, const std::string& unit) {
  return decimals(value, is_whole(value) ? 0 : 2) + " " +
         (is_whole(value) && std::round(value) == 1 ? job::one_of(unit) : unit);
}

/// What was typed in the trade's unit is whole there but for rounding.
std::string counted_as(double pack) {
  return decimals(pack, is_whole(pack) ? 0 : pack < 10 ? 2 : 1);
}

}  // namespace

std::string pack_text(const Row& row) {
  const bool ounces = row.unit == "in3";  // cartridges are sold by the fluid ounce
  return counted_as(ounces ? row.pack * 128 / 231 : row.pack) + " " + (ounces ? "fl oz" : row.unit);
}

std::string careful(double exact, const Row& row) {
  const double used_of_last = exact - (row.buy - 1);
  if (row.buy > 1 && used_of_last < 0.1)
    return "; careful: the last of the " + row.buy_unit + " is for " + decimals(used_of_last * 100, 0) + " % of one";
  if (row.by_pieces) return "";
  if (used_of_last > 0.995) return "; careful: nothing is left over";
  if (used_of_last > 0.9) return "; careful: only " + decimals((1 - used_of_last) * 100, 0) + " % of one is left over";
  return "";
}

std::string bought(const Row& row) {
  return counted(row.buy, row.buy_unit);
}

std::string needed(const Row& row) {
  return counted(row.quantity, row.unit);
}

Row to_row(const Need& need) {
  const double gross = (need.net + need.doubt) * (1 + need.waste);
  Row row{need.item, need.net,   need.unit, gross,          need.unit,
          need.from, need.waste, need.pack, need.pack_name, need.doubt};
  row.by_pieces = need.by_pieces;
  if (need.waste > 0) row.basis += "; with " + decimals(need.waste * 100, 0) + " % waste";
  row.but_packs = row.basis;
  if (need.pack > 0) tell_packs(row, gross);
  return row;
}

void tell_packs(Row& row, double gross) {
  const double exact = gross / row.pack;
  row.buy = std::ceil(exact - units::tolerance::ratio);
  row.buy_unit = row.pack_name;
  const bool sized = row.buy_unit.find_first_of("0123456789") != std::string::npos;  // "sheets 4 x 8 ft"
  row.basis += "; " + decimals(exact, 2) + " " + row.buy_unit + (sized ? "" : " of " + pack_text(row)) +
               (row.unit == "in3" ? " (" + counted_as(row.pack) + " in3)" : "") + careful(exact, row);
}

}  // namespace fallwright::takeoff
