/// Where a base in its wet bed is pressed to lie level, and by how much, round after round. Inside `rules` only.
#pragma once

#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"

namespace fallwright::rules {

struct Presses {
  std::vector<double> down_mm;  ///< for each place that was read
  /// Treated so five times over, and read to the marks of the rule each time, it reads level at last.
  bool end = true;
  bool any() const;
};

/// To the nearest mark at every place, so that the rim is level with its lowest point; where that would go to and fro
/// by a mark, at the one place that ends it, by a mark or half of one.
Presses presses_of(const job::Job& job, const facts::AsSet& set);

}  // namespace fallwright::rules
