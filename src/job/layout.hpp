/// Where everything stands: positions and heights that follow from the job, in millimetres. Validation refuses what
/// cannot stand; `parts` builds its solids from the same values. Nothing in a report comes from here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.hpp"

namespace fallwright::job {

/// A rectangle in plan.
struct Rect {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  double width() const { return x1 - x0; }
  double depth() const { return y1 - y0; }
  Rect grown(double by) const { return {x0 - by, y0 - by, x1 + by, y1 + by}; }
};

/// A plane as height over plan: z = z0 + gx x + gy y.
struct HeightPlane {
  double z0 = 0, gx = 0, gy = 0;
  double at(double x, double y) const { return z0 + gx * x + gy * y; }
  HeightPlane raised(double by) const { return {z0 + by, gx, gy}; }
};

/// One facet of the base's floor before it is trimmed. The floor is the upper envelope of these planes.
struct FacetPlane {
  std::string name;  ///< the side it rises to: "back", "front", "left", "right"
  HeightPlane plane;
};

struct Layout {
  // plan
  Rect base;     ///< the base's footprint
  Rect floor;    ///< inside upstands and threshold
  Rect opening;  ///< of the drain; the square about it when round
  double drain_x = 0, drain_y = 0;
  Rect bed;  ///< footprint of the bed, less holdback and with overrun
  // the floor under it all
  HeightPlane subfloor;  ///< top of the subfloor; zero at its highest spot under the base
  // heights
  double rib_plane = 0;  ///< tips of the ribs, top of the bed
  double drain_edge =
      0;  ///< where the floor's planes start: the level edge of a square opening, the apex of a round one
  double drain_top = 0;  ///< top of the grate: the lowest point of the opening's edge
  double upstand_top = 0;
  double threshold_inner = 0, threshold_outer = 0;
  std::vector<FacetPlane> facets;
  double floor_at(double x, double y) const;  ///< height of the floor's envelope
  /// Highest point of the floor's outline: at one of its corners, as the envelope of planes is convex.
  double rim_greatest() const;
  // the bench, in its own frame: u along it, v from the wall to the front, z up
  double bench_length = 0;
  double seat_front = 0, deck_top = 0, joist_top = 0, plate_top = 0;
};

/// @pre every value of `job` is within its own range (the reader sees to that); nothing else need fit.
Layout lay_out(const Job& job);

}  // namespace fallwright::job
