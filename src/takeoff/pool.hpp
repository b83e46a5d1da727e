/// Several rooms' buy lists as one: what one room leaves of a pack another begins with.
#pragma once

#include <vector>

#include "takeoff/takeoff.hpp"

namespace fallwright::takeoff {

/// A row over all rooms, and how many packs the rooms would buy each on its own.
struct Pooled {
  Row row;
  int rooms = 0;
  double apart = 0;
};

/// Rows of one item and product in one unit and pack are added before packs are counted, in the order they first occur;
/// those that wait for themselves, by what the first of them waits for. Sticks are left out: they take one cutting plan
/// over all rooms.
std::vector<Pooled> pool(const std::vector<const std::vector<Row>*>& lists);

}  // namespace fallwright::takeoff
