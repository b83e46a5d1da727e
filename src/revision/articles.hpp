/// Things that are ordered in one piece, whether the one that was ordered is still the one that is drawn. Inside
/// `revision` only.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "revision/changes.hpp"
#include "revision/state.hpp"

namespace fallwright::revision {

/// A solid as a report tells it.
struct Told {
  std::string role;
  std::array<double, 6> box_mm{};
  std::array<double, 3> centroid_mm{};
  double volume_mm3 = 0, area_mm2 = 0;
};

/// Of base, seat block and drain, as far as the solids have them.
std::vector<Article> articles_of(const std::vector<Told>& solids);

/// What was ordered by the older state and is another piece in the newer one; what either does not buy is left out.
std::vector<Changed> of_articles(const State& was, const State& now);

}  // namespace fallwright::revision
