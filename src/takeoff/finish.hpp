/// Geometry of beads and notches, and which edges are flashed.
#pragma once

#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"

namespace fallwright::takeoff {

/// Cross-section of a joint, mm2: width x depth, half of it as a fillet, a circle of that width as a round bead.
double section_of(const job::Sealant& sealant);

/// Mean depth of mortar that a notched trowel leaves, mm: width x depth over width and tooth for rectangles, half the
/// depth for triangles that touch.
double depth_of(const job::Bond& bond);

/// Top edges that are flashed: of the base those of sides that turn up. The end of a neighbour's upstand lies on a side
/// that does not, and is none.
std::vector<facts::Flashing> flashings_of(const job::Job& job, const facts::Facts& facts);
/// Where two of them meet.
int flashing_corners(const job::Job& job, const facts::Facts& facts);

}  // namespace fallwright::takeoff
