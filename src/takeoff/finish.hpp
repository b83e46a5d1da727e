/// Geometry of beads and notches.
#pragma once

#include "job/buy.hpp"

namespace fallwright::takeoff {

/// Cross-section of a joint, mm2: width x depth, half of it as a fillet, a circle of that width as a round bead.
double section_of(const job::Sealant& sealant);

/// Mean depth of mortar that a notched trowel leaves, mm: width x depth over width and tooth for rectangles, half the
/// depth for triangles that touch.
double depth_of(const job::Bond& bond);

}  // namespace fallwright::takeoff
