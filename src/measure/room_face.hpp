/// A stick's face toward the room, and edges of plans as far into the room as they lie. Inside `measure` only.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <vector>

#include <gp.hxx>
#include <gp_Dir.hxx>
#include <gp_Pnt.hxx>

#include "parts/model.hpp"
#include "survey/floor.hpp"

namespace fallwright::measure {

inline gp_Dir outward_of(survey::Side side) {
  return side == survey::Side::left ? gp_Dir{-1, 0, 0} : side == survey::Side::right ? gp::DX() : gp::DY();
}

/// How far a place across a wall lies into the room.
inline double into_room(survey::Side side, const gp_Pnt& p) {
  return side == survey::Side::left ? p.X() : side == survey::Side::right ? -p.X() : -p.Y();
}
inline double along_wall(survey::Side side, const gp_Pnt& p) {
  return side == survey::Side::back ? p.X() : p.Y();
}

inline gp_Pnt in_room(survey::Side wall, double along, double in, double z) {
  using survey::Side;
  return wall == Side::back ? gp_Pnt{along, -in, z} : gp_Pnt{wall == Side::left ? in : -in, along, z};
}

/// A stick's face toward the room.
struct RoomFace {
  gp_Dir normal;
  std::vector<gp_Pnt> outline;
  double from = 0, to = 0;  ///< along the wall: y for a side wall, x for the back wall

  double middle() const { return (from + to) / 2; }
  /// Its middle at a height, between its long edges: one beside a wall that leans may lean along its own.
  double middle_at(survey::Side side, double z) const {
    double low = std::numeric_limits<double>::max(), high = std::numeric_limits<double>::lowest();
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const gp_Pnt &a = outline[i], &b = outline[(i + 1) % outline.size()];
      const double rise = b.Z() - a.Z();
      if (std::abs(rise) < a.Distance(b) / 2) continue;
      const double at = along_wall(side, a) + (along_wall(side, b) - along_wall(side, a)) * (z - a.Z()) / rise;
      low = std::min(low, at), high = std::max(high, at);
    }
    return low <= high ? (low + high) / 2 : middle();
  }
  /// How far it reaches into the room at a height: by that of its long edges which stands in farthest; past its ends
  /// they go on.
  double innermost(survey::Side side, double z) const {
    return -least_to(side, z, [](double) { return 0; });
  }
  /// How far it stays, at a height, behind an edge that lies so far into the room at a place along the wall: at that of
  /// its long edges where there is least.
  template <class Edge>
  double least_to(survey::Side side, double z, Edge edge) const {
    double least = std::numeric_limits<double>::max();
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const gp_Pnt &a = outline[i], &b = outline[(i + 1) % outline.size()];
      const double rise = b.Z() - a.Z();
      if (std::abs(rise) < a.Distance(b) / 2) continue;
      const double up = (z - a.Z()) / rise;
      least = std::min(least, edge(along_wall(side, a) + (along_wall(side, b) - along_wall(side, a)) * up) -
                                  (into_room(side, a) + (into_room(side, b) - into_room(side, a)) * up));
    }
    return least;
  }
  /// How far it reaches into the room at a place along the wall and a height, straight between its long edges.
  double into_at(survey::Side side, double place, double z) const {
    double from_at = std::numeric_limits<double>::max(), to_at = std::numeric_limits<double>::lowest(), in[2] = {0, 0};
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const gp_Pnt &a = outline[i], &b = outline[(i + 1) % outline.size()];
      const double rise = b.Z() - a.Z();
      if (std::abs(rise) < a.Distance(b) / 2) continue;
      const gp_Pnt p{a.XYZ() + (b.XYZ() - a.XYZ()) * ((z - a.Z()) / rise)};
      if (const double at = along_wall(side, p); at < from_at) from_at = at, in[0] = into_room(side, p);
      if (const double at = along_wall(side, p); at > to_at) to_at = at, in[1] = into_room(side, p);
    }
    return to_at > from_at ? in[0] + (in[1] - in[0]) * (place - from_at) / (to_at - from_at) : in[0];
  }
};

std::optional<RoomFace> room_face(const parts::Solid& stick, survey::Side side);

/// The edge of a plan toward a wall, as far into the room as it lies.
double edge_of(const survey::Rect& r, survey::Side side);

/// The edge of a convex outline toward a wall, as far into the room as it lies at a place along that wall; past its
/// ends that of its end.
double edge_at(const survey::Polygon& outline, survey::Side side, double place);

}  // namespace fallwright::measure
