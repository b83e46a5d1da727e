/// The walls' faces toward the room as straight lines in plan: of the studs, or of what is built up on them. Inside
/// `measure` only.
#pragma once

#include <vector>

#include "parts/model.hpp"

namespace fallwright::measure {

class Framing;

/// What lies in front of it: all points with nx x + ny y >= reach_mm.
struct WallFace {
  job::Side side;
  double nx = 0, ny = 0;  ///< into the room, along the sole plate's square
  double reach_mm = 0;
  /// x of a side wall's face at some y, y of the back wall's at some x.
  double at(double along) const {
    return side == job::Side::back ? (reach_mm - nx * along) / ny : (reach_mm - ny * along) / nx;
  }
};

/// The walls along the base, each where it comes in farthest between two heights, with `build_up_mm` on its studs.
std::vector<WallFace> wall_faces(const parts::Model& model, const Framing& framing, double low_mm, double high_mm,
                                 double build_up_mm);
/// The same along another plan than the base's.
std::vector<WallFace> wall_faces_along(const survey::Rect& plan, const parts::Model& model, const Framing& framing,
                                       double low_mm, double high_mm, double build_up_mm);

}  // namespace fallwright::measure
