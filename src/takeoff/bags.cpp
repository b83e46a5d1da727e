#include "takeoff/bags.hpp"

namespace fallwright::takeoff {

std::optional<double> bags_of_mortar(const std::vector<Row>& rows) {
  for (const char* item : {"mortar, bags", "cement"})
    for (const Row& row : rows)
      if (row.item == item && row.pack > 0) return (row.quantity + row.doubt) * (1 + row.waste) / row.pack;
  return std::nullopt;
}

}  // namespace fallwright::takeoff
