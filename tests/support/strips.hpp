/// Facts told by hand, with the strips that their gaps want.
#pragma once

#include <algorithm>

#include "facts/facts.hpp"
#include "units/length.hpp"

namespace fallwright::sample {

inline facts::Facts with_strips(facts::Facts facts, bool metric) {
  for (facts::StudGap& gap : facts.room.studs)
    if (!gap.stands_alone())
      gap.strips =
          facts::strips_for(gap.at_floor_mm, gap.at_top_mm,
                            std::max({gap.at_floor_mm, gap.at_upstand_mm, gap.at_top_mm}), units::tape_mark_mm(metric));
  return facts;
}

}  // namespace fallwright::sample
