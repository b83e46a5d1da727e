/// How pieces are cut from what is sold.
#pragma once

#include <vector>

#include "units/length.hpp"

namespace fallwright::job {

struct Cuts {
  std::vector<units::Length> sticks;  ///< lengths on offer
  units::Length kerf;                 ///< what a saw cut takes
  /// Pieces are cut to the mark of the tape at or below their length, and built so.
  bool to_tape = false;
  units::Length trim = {};                    ///< cut off each end of a stick before it is used, the saw's cut with it
  std::vector<units::Length> preferred = {};  ///< of those on offer: the others only where a piece fits none of these
};

}  // namespace fallwright::job
