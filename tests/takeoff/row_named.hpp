// A row of a buy list by its name.
#pragma once

#include <string>
#include <vector>

#include "takeoff/takeoff.hpp"

namespace fallwright {

inline const takeoff::Row* row_named(const std::vector<takeoff::Row>& rows, const std::string& item) {
  for (const takeoff::Row& row : rows)
    if (row.item == item) return &row;
  return nullptr;
}

}  // namespace fallwright
