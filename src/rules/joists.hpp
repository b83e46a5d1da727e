/// What the code lets a joist lose.
#pragma once

#include <vector>

#include "facts/pipe.hpp"

namespace fallwright::rules {

struct JoistCuts {
  double hole_mm = 0;       ///< greatest diameter
  double notch_mm = 0;      ///< greatest depth, outside the middle third
  double end_notch_mm = 0;  ///< greatest depth at the ends
};

/// A bore up to a third of the depth and two inches from either edge, a notch up to a sixth, at the ends up to a
/// quarter: IRC R502.8.1, quoted. Where the third and the edges differ both hold.
JoistCuts joist_cuts(double depth_mm);

/// What stays of a joist between the arm's hole and another one through it.
struct HoleGap {
  const facts::JoistCrossing* crossing = nullptr;
  double wood_mm = 0;       ///< negative: they cut into each other
  double along_mm = 0;      ///< from middle to middle along the joist
  double up_mm = 0;         ///< and by how much the other lies higher
  double diameter_mm = 0;   ///< of the other
  bool of_the_arm = false;  ///< the other is the arm's own: it meets that joist twice
  /// How much farther apart along the joist they want to be for so much wood between.
  double further_mm(double wanted_mm) const;
};
/// Of all joists that were described, where the arm's height and hole are known.
std::vector<HoleGap> hole_gaps(const facts::PipeRun& pipe);

}  // namespace fallwright::rules
