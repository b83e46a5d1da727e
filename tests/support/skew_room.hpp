/// A room with nothing alike: width, depth, left, right, lean and fall of the floor all differ. In inches: the right wall
/// runs from (80, 40) to (82, 0), the left one leans in by 0.01, the back one away by 0.005; the bench stands at the
/// right, 15 deep; the base is 64 x 40, tight to bench and back, so from x = 1 to 65; the floor falls 0.01 to the right
/// and to the back, from the base's front left corner. Boards are 1/2 thick, finished walls stand 1-1/4 before studs.
#pragma once

#include "support/sample.hpp"

namespace fallwright::sample {

job::Job skew_room();
/// The same where a steeper floor is allowed, so that its drain stays where it is.
job::Job settled_skew_room();

}  // namespace fallwright::sample
