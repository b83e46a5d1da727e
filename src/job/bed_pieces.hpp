/// The bed of a base that is built on site, in pieces over which its top and the floor below are one plane each.
#pragma once

#include <vector>

#include "job/layout.hpp"

namespace fallwright::job {

struct BedPiece {
  survey::Polygon plan;
  HeightPlane top;       ///< of what lies on the bed, less its thickness: the bed's own top
  std::size_t cell = 0;  ///< of the floor
};

/// The pieces over a floor's cells, as laid out; the hole round the drain is not taken out of them.
std::vector<BedPiece> bed_pieces(const Job& job, const Layout& layout, const std::vector<survey::Polygon>& cells);

/// Where a floor may be highest over a convex piece of its plan once the drain's hole is bored: corners outside that,
/// and where one lies within it, the bore's edge, by chords. A hump that is bored away is no place to measure from.
std::vector<survey::Point> places_outside_bore(const survey::Polygon& plan, const Job& job, const Layout& layout);

/// The hole round the drain, where no mortar lies, as a polygon whose corners are on its edge.
survey::Polygon hole_in_bed(const Job& job, const Layout& layout);
/// Where the bed may be thinnest over a piece of its plan: at corners outside the hole, and on the hole's edge.
std::vector<survey::Point> places_outside_hole(const survey::Polygon& plan, const Job& job, const Layout& layout);

}  // namespace fallwright::job
