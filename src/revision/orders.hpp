/// What is bought at two times. Inside `revision` only.
#pragma once

#include <vector>

#include "revision/changes.hpp"
#include "revision/state.hpp"

namespace fallwright::revision {

/// What is bought of each thing; sticks of each length for themselves.
std::vector<Changed> of_orders(const State& was, const State& now);

/// What is bought beyond the older order and what of that is over, article by article, in whole packs; of stock that
/// pieces are cut from by what becomes of the pieces.
Purchases purchases_of(const State& was, const State& now, const Pieces& pieces);

}  // namespace fallwright::revision
