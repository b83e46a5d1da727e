#include "takeoff/need.hpp"

#include <algorithm>
#include <cmath>

#include "job/prices.hpp"
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

}  // namespace

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
  const int places = row.pack < 10 && row.pack != std::floor(row.pack) ? 2 : row.pack < 100 ? 1 : 0;
  row.basis += "; at " + decimals(row.pack, row.pack == std::floor(row.pack) ? 0 : places) + " " + row.unit + ": " +
               decimals(exact, 3) + careful(exact, row);
}

}  // namespace fallwright::takeoff
