#include "takeoff/bags.hpp"

#include "takeoff/item.hpp"

namespace fallwright::takeoff {

std::optional<double> bags_of_mortar(const std::vector<Row>& rows) {
  for (const Item item : {Item::mortar_bags, Item::cement})
    for (const Row& row : rows)
      if (is(row, item) && row.pack > 0) return (row.quantity + row.doubt) * (1 + row.waste) / row.pack;
  return std::nullopt;
}

}  // namespace fallwright::takeoff
