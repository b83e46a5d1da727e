/// What two reliefs are as a base: opening, floor, rim, upstands, threshold, pockets. Inside `intake` only.
#pragma once

#include <optional>

#include "brep/relief.hpp"
#include "job/body.hpp"

namespace fallwright::intake {

/// The two reliefs of a solid, right way up; its front may still lie on any side.
struct Standing {
  brep::Relief top, underside;
};

/// Moves both so that the plan's box begins at (0, 0) and the lowest point lies at 0.
void set_down(Standing& body);

/// Turns both by so many quarters, seen from above counter-clockwise.
void turn(Standing& body, int quarters);

/// Turns both by any angle likewise, in radians.
void turn_by(Standing& body, double angle);

/// How far a base's back edge is turned from the room's width, counter-clockwise, in radians.
double askew(const job::Body& body);

/// The side that three others differ from: with a lower top, or with none.
std::optional<job::Side> front_of(const job::Body& body);

/// Everything that a tape would read, but for what the file says of itself.
/// @pre set down. @throws job::NoBody in words for what is no base.
job::Body recognise(const Standing& body);

}  // namespace fallwright::intake
