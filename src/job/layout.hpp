/// Where everything stands: positions and heights that follow from the job, in millimetres. Validation refuses what
/// cannot stand; `parts` builds its solids from the same values. Nothing in a report comes from here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.hpp"
#include "survey/room.hpp"

namespace fallwright::job {

using survey::HeightPlane;
using survey::Rect;

/// One facet of the base's floor before it is trimmed. The floor is the upper envelope of these planes.
struct FacetPlane {
  std::string name;  ///< the side it rises to: "back", "front", "left", "right"
  HeightPlane plane;
};

struct Layout {
  // the room
  survey::Room room;                ///< where the stud faces are
  Rect extent;                      ///< the plan over which the floor is modelled
  std::vector<survey::Spot> spots;  ///< spot levels where they were read, in the axes of the room
  survey::Floor subfloor;           ///< its top; zero at the highest spot under the base that no bore takes
  // plan
  Quad base_outline;                ///< the base's footprint
  Quad floor_outline;               ///< inside upstands and threshold
  Quad bed_outline;                 ///< footprint of the bed, less holdback and with overrun
  Rect base, floor, bed;            ///< the boxes round these
  Rect opening;                     ///< of the drain; the square about it when round
  survey::Polygon opening_outline;  ///< where it is not round; a channel from rim to rim ends at a slanting rim
  double drain_x = 0, drain_y = 0;  ///< of body and bore: a channel's outlet may stand apart from its middle
  // heights
  double rib_plane = 0;  ///< tips of the ribs, top of the bed
  double drain_edge =
      0;  ///< where the floor's planes start: the level edge of a square opening, the apex of a round one
  double drain_top = 0;  ///< top of the grate: the lowest point of the opening's edge
  double upstand_top = 0;
  double threshold_inner = 0, threshold_outer = 0;
  std::vector<FacetPlane> facets;
  double floor_at(double x, double y) const;  ///< height of the floor's envelope
  double body_x = 0, body_y = 0, body_z = 0;  ///< how far a base that came as a file is moved from its own axes
  std::optional<double> rim_of_body;          ///< the highest point of its floor
  /// Whether all facets run along the axes: the floor is square.
  bool is_square() const { return floor_outline.is_square(); }
  /// Highest point of the floor's outline: at one of its corners, as the envelope of planes is convex; of a base that
  /// came as a file as found.
  double rim_greatest() const;
  // the bench: its frame's plan, as wide as its depth and as long as the narrowest room for it
  Rect bench;
  double bench_length = 0;
  double seat_front = 0, deck_top = 0, joist_top = 0, plate_top = 0;
};

/// How high the bench can meet a wall, rather above than below. @pre there is a bench.
double top_of_bench(const Job& job);

/// @pre every value of `job` is within its own range (the reader sees to that); nothing else need fit.
Layout lay_out(const Job& job);

}  // namespace fallwright::job
