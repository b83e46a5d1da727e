#include "measure/room_face.hpp"

#include "brep/skin.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {

std::optional<RoomFace> room_face(const parts::Solid& stick, survey::Side side) {
  const gp_Dir into = outward_of(side).Reversed();
  const auto skin = parts::skin_of(stick);
  for (const brep::Flat& flat : skin->flats) {
    if (flat.normal.Dot(into) < 0.7) continue;
    RoomFace found{flat.normal, flat.rings[brep::outer_ring(flat)], std::numeric_limits<double>::max(),
                   std::numeric_limits<double>::lowest()};
    for (const gp_Pnt& p : found.outline)
      found.from = std::min(found.from, along_wall(side, p)), found.to = std::max(found.to, along_wall(side, p));
    return found;
  }
  return std::nullopt;
}

double edge_of(const survey::Rect& r, survey::Side side) {
  return side == survey::Side::left ? r.x0 : side == survey::Side::right ? -r.x1 : -r.y1;
}

double edge_at(const survey::Polygon& outline, survey::Side side, double place) {
  const auto of = [](const survey::Point& p) { return gp_Pnt{p.x, p.y, 0}; };
  double from = std::numeric_limits<double>::max(), to = std::numeric_limits<double>::lowest();
  for (const survey::Point& p : outline)
    from = std::min(from, along_wall(side, of(p))), to = std::max(to, along_wall(side, of(p)));
  place = std::clamp(place, from, to);
  double nearest = std::numeric_limits<double>::max();
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const gp_Pnt a = of(outline[i]), b = of(outline[(i + 1) % outline.size()]);
    const double run = along_wall(side, b) - along_wall(side, a);
    if (std::abs(run) < units::tolerance::length_mm) continue;
    const double share = (place - along_wall(side, a)) / run;
    if (share < -units::tolerance::ratio || share > 1 + units::tolerance::ratio) continue;
    nearest = std::min(nearest, into_room(side, a) + (into_room(side, b) - into_room(side, a)) * share);
  }
  return nearest;
}

}  // namespace fallwright::measure
