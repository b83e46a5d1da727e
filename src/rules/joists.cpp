#include "rules/joists.hpp"

#include <algorithm>

namespace fallwright::rules {

JoistCuts joist_cuts(double depth_mm) {
  constexpr double edges_mm = 2 * 2 * 25.4;
  return {std::max(0.0, std::min(depth_mm / 3, depth_mm - edges_mm)), depth_mm / 6, depth_mm / 4};
}

}  // namespace fallwright::rules
