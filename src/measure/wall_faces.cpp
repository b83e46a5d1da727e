#include "measure/wall_faces.hpp"

#include <cmath>

#include "measure/alcove.hpp"

namespace fallwright::measure {

using job::Side;

std::vector<WallFace> wall_faces(const parts::Model& model, const Framing& framing, double low_mm, double high_mm,
                                 double build_up_mm) {
  const survey::Rect base = *plan_of(model, parts::Role::base);
  std::vector<WallFace> faces;
  for (const Side side : {Side::left, Side::right, Side::back}) {
    const bool back = side == Side::back;
    const double from = back ? base.x0 : base.y0, to = back ? base.x1 : base.y1;
    const auto first = wall_line(model, side, from), second = wall_line(model, side, to);
    if (!first || !second) continue;
    // Along the line from `from` to `to`, turned into the room: to the right of the left wall, and so on.
    const double dx = back ? to - from : *second - *first, dy = back ? *second - *first : to - from;
    const double turn = (side == Side::right ? -1 : 1) / std::hypot(dx, dy);
    WallFace face{side, dy * turn, -dx * turn, 0};
    Box3 box;
    box.low[back ? 0 : 1] = from, box.high[back ? 0 : 1] = to;
    box.low[2] = low_mm, box.high[2] = high_mm;
    const auto reach = framing.reach({parts::Role::wall, side}, gp_Dir{face.nx, face.ny, 0}, box);
    if (!reach) continue;
    face.reach_mm = *reach + build_up_mm;
    faces.push_back(face);
  }
  return faces;
}

}  // namespace fallwright::measure
