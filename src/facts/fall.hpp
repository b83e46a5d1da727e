/// Planes that carry water, and where two of them meet. Lengths in millimetres, falls as ratios.
#pragma once

#include <string>

#include "facts/room.hpp"

namespace fallwright::facts {

/// One plane of a sloped surface, from its face. Fall as a ratio (rise over run), never rounded.
struct Facet {
  Surface surface = Surface::base_floor;
  std::string facet;    ///< "back", "left", "top" ...
  double area_mm2 = 0;  ///< true, sloped area
  double fall = 0;
  double azimuth_deg = 0;  ///< of the way water runs, clockwise from the direction to the back wall, from above
  double run_mm = 0;       ///< horizontal extent of the facet along its fall
  Point low_mm{}, high_mm{};
  Point flow{};  ///< unit vector of the way water runs, horizontal (z = 0)
  /// What of the fall leads along a level unit vector; negative where water runs back.
  double fall_toward(double x, double y) const { return fall * (flow[0] * x + flow[1] * y); }
};

/// The line where two facets meet: its own fall is always less than theirs, so it is labelled apart.
struct Crease {
  Surface surface = Surface::base_floor;
  std::string facet_a, facet_b;
  bool valley = true;  ///< water runs to it; otherwise a ridge (hip)
  double fall = 0, length_mm = 0;
  Point low_mm{}, high_mm{};
};

}  // namespace fallwright::facts
