#include "takeoff/pool.hpp"

#include <algorithm>
#include <cmath>

#include "takeoff/need.hpp"
#include "takeoff/packs.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::takeoff {
namespace {

/// Planned for all rooms anew.
bool is_sticks(const Row& row) {
  return row.blanks == Blanks::sticks || row.blanks == Blanks::boards || row.blanks == Blanks::strips;
}

/// A pack that differs is another product; what one room is only told of is no part of what another buys.
bool alike(const Row& a, const Row& b) {
  return a.item == b.item && a.product == b.product && a.for_sale == b.for_sale && a.unit == b.unit &&
         a.buy_unit == b.buy_unit && a.hold.has_value() == b.hold.has_value() &&
         std::abs(a.pack - b.pack) <= units::tolerance::ratio * std::max(1.0, a.pack);
}

/// A row with packs of its own: which rows share packs is another matter for all rooms than for each.
Row by_itself(Row row) {
  if (row.out_of.empty()) return row;
  row.out_of.clear();
  row.for_sale = true;
  row.buy = 0, row.buy_unit = row.pack_name;  // the room buys it with another
  return row;
}

void share_packs_of(std::vector<Pooled>& pooled) {
  std::vector<Row> rows;
  for (const Pooled& p : pooled) rows.push_back(p.row);
  share_packs(rows);
  for (std::size_t i = 0; i < rows.size(); ++i) pooled[i].row = std::move(rows[i]);
  for (Pooled& p : pooled)  // what rooms alone would buy of it is had from the packs of another row as well
    if (!p.row.out_of.empty()) {
      const auto first = std::find_if(pooled.begin(), pooled.end(), [&](const Pooled& other) {
        return other.row.for_sale && other.row.item == p.row.out_of && other.row.product == p.row.product;
      });
      first->apart += p.apart;
    }
}

}  // namespace

std::vector<Pooled> pool(const std::vector<const std::vector<Row>*>& lists) {
  std::vector<Pooled> pooled;
  std::vector<double> gross;  // in `unit`, with each room's own waste
  for (const std::vector<Row>* list : lists)
    for (const Row& own : *list) {
      if (is_sticks(own)) continue;
      const Row row = by_itself(own);
      auto at = std::find_if(pooled.begin(), pooled.end(), [&](const Pooled& p) { return alike(p.row, row); });
      if (at == pooled.end()) {
        at = pooled.insert(pooled.end(), {row, 0, 0});
        at->row.quantity = at->row.buy = at->row.doubt = 0;
        gross.push_back(0);
      }
      at->row.quantity += row.quantity;
      at->row.buy += row.buy;
      at->apart += row.buy;
      ++at->rooms;
      at->row.doubt += row.doubt;
      if (!at->row.price) at->row.price = row.price, at->row.supplier = row.supplier;
      gross[static_cast<std::size_t>(at - pooled.begin())] += (row.quantity + row.doubt) * (1 + row.waste);
    }
  for (std::size_t i = 0; i < pooled.size(); ++i) {
    Row& row = pooled[i].row;
    row.basis = std::to_string(pooled[i].rooms) + (pooled[i].rooms == 1 ? " room" : " rooms");
    if (!row.product.empty()) row.basis += ", " + row.product;
    if (row.by_room) row.basis += ", each room's own in whole ones";
    row.but_packs = row.basis;
    if (row.pack <= 0 || row.by_room) continue;
    const double exact = gross[i] / row.pack;
    row.buy = std::ceil(exact - units::tolerance::ratio);
    if (row.hold) continue;  // no amount of it is told
    row.basis += ", " + units::decimals(exact, 2) + " " + row.buy_unit + careful(exact, row);
  }
  share_packs_of(pooled);
  return pooled;
}

}  // namespace fallwright::takeoff
