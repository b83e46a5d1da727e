#include "rules/joists.hpp"

#include <algorithm>
#include <cmath>

namespace fallwright::rules {

JoistCuts joist_cuts(double depth_mm) {
  constexpr double edges_mm = 2 * 2 * 25.4;
  return {std::max(0.0, std::min(depth_mm / 3, depth_mm - edges_mm)), depth_mm / 6, depth_mm / 4};
}

double HoleGap::further_mm(double wanted_mm) const {
  const double apart = wanted_mm + (crossing->hole_mm + diameter_mm) / 2;
  return std::sqrt(std::max(0.0, apart * apart - up_mm * up_mm)) - along_mm;
}

std::vector<HoleGap> hole_gaps(const facts::PipeRun& pipe) {
  std::vector<HoleGap> gaps;
  const auto add = [&](const facts::JoistCrossing& c, double along, double centre, double diameter, bool own) {
    const double away = std::abs(along - c.along_mm), up = centre - *c.centre_mm;
    gaps.push_back({&c, std::hypot(away, up) - (c.hole_mm + diameter) / 2, away, up, diameter, own});
  };
  for (const facts::JoistCrossing& c : pipe.crossings) {
    if (!c.modelled || !c.centre_mm || c.hole_mm <= 0) continue;
    for (const facts::JoistHole& hole : pipe.holes)
      if (hole.joist == c.joist) add(c, hole.along_mm, hole.centre_mm, hole.diameter_mm, false);
    for (const facts::JoistCrossing& other : pipe.crossings)
      if (&other > &c && other.modelled && other.joist == c.joist && other.centre_mm)
        add(c, other.along_mm, *other.centre_mm, other.hole_mm, true);
  }
  return gaps;
}

}  // namespace fallwright::rules
