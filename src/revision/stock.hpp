/// What pieces that are cut anew take from stock. Inside `revision` only.
#pragma once

#include <vector>

#include "revision/changes.hpp"
#include "revision/state.hpp"

namespace fallwright::revision {

/// A state's pieces, those on HOLD too whose stock is: none of it was bought.
std::vector<takeoff::CutRow> pieces_held_with_stock(const State& state);

/// Adds to what is bought the sticks and sheets that new pieces take, in a cutting plan of their own: what became of
/// the older one's offcuts nobody knows. The rest of a sheet that was begun is there.
void add_stock(const State& was, const State& now, const Pieces& pieces, Purchases& found);

}  // namespace fallwright::revision
