/// Packs that several rows of the buy list are had from.
#pragma once

#include <string>
#include <vector>

#include "takeoff/takeoff.hpp"

namespace fallwright::takeoff {

/// Rows of one product in like packs are bought as one: the first of them counts packs for all, the others come out of
/// those. What is held and what is not are bought at two times, so they stay apart. @pre holds have been set
void share_packs(std::vector<Row>& rows);

/// What one pack of it holds, as it is sold: "0.45 ft3", "10.1 fl oz", "100 pieces".
std::string pack_text(const Row& row);

/// The items that come out of a row's packs beside its own.
std::vector<std::string> sharers_of(const Row& row, const std::vector<Row>& rows);

}  // namespace fallwright::takeoff
