/// What the code lets a joist lose.
#pragma once

namespace fallwright::rules {

struct JoistCuts {
  double hole_mm = 0;       ///< greatest diameter
  double notch_mm = 0;      ///< greatest depth, outside the middle third
  double end_notch_mm = 0;  ///< greatest depth at the ends
};

/// A bore up to a third of the depth and two inches from either edge, a notch up to a sixth, at the ends up to a
/// quarter: IRC R502.8.1, quoted. Where the third and the edges differ both hold.
JoistCuts joist_cuts(double depth_mm);

}  // namespace fallwright::rules
