#include "takeoff/packs.hpp"

#include <algorithm>

#include "takeoff/need.hpp"
#include "units/words.hpp"

namespace fallwright::takeoff {
namespace {

bool has_packs(const Row& row) {
  return row.for_sale && !row.by_room && !row.product.empty() && row.pack > 0;
}

/// Packs of one job come of one value: they are alike to the last bit or not at all.
bool out_of_one_pack(const Row& a, const Row& b) {
  return a.product == b.product && a.pack == b.pack && a.pack_name == b.pack_name && a.unit == b.unit &&
         a.hold.has_value() == b.hold.has_value();
}

double gross(const Row& row) {
  return (row.quantity + row.doubt) * (1 + row.waste);
}

}  // namespace

void share_packs(std::vector<Row>& rows) {
  for (auto first = rows.begin(); first != rows.end(); ++first) {
    if (!has_packs(*first)) continue;
    double sum = gross(*first);
    std::vector<std::string> others;
    for (auto row = first + 1; row != rows.end(); ++row) {
      if (!has_packs(*row) || !out_of_one_pack(*first, *row)) continue;
      sum += gross(*row);
      others.push_back(needed(*row) + " of '" + row->item + "'");
      row->out_of = first->item;
      row->for_sale = false;
      row->buy = row->quantity, row->buy_unit = row->unit;
      row->price.reset(), row->supplier.clear(), row->other_packs.clear();
      row->basis = row->but_packs + "; out of the " + first->pack_name + " of '" + first->item + "'";
    }
    if (others.empty()) continue;
    first->basis = first->but_packs + "; with " + units::listed(others, ", ");
    tell_packs(*first, sum);
  }
}

std::vector<std::string> sharers_of(const Row& row, const std::vector<Row>& rows) {
  std::vector<std::string> items;
  for (const Row& other : rows)
    if (!other.out_of.empty() && other.out_of == row.item && other.product == row.product) items.push_back(other.item);
  return items;
}

}  // namespace fallwright::takeoff
