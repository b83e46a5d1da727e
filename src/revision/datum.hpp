/// The datum, from which all heights are told, lies on the floor's highest spot: a floor that was corrected takes it
/// along.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "revision/state.hpp"

namespace fallwright::revision {

struct DatumMoved {
  double lower_mm = 0;            ///< less than nothing: it lies higher
  std::vector<std::string> told;  ///< keys of heights from the older datum that say the same still
};

/// By the spots that both states read at one place: most of the floor is as it was, and lies as much higher above the
/// newer datum as that lies lower. Nothing where it lies where it did, or no such spots tell.
std::optional<DatumMoved> datum_moved(const State& was, const State& now);

/// "the datum lies 3/16\" lower than before: ... read again from it ...".
std::string words_of(const DatumMoved& moved, const State& now);

}  // namespace fallwright::revision
