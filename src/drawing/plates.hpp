/// Names of what is screwed on a wall, beside its plate. Inside `drawing` only.
#pragma once

#include <string>

#include "drawing/page.hpp"
#include "drawing/pen.hpp"

namespace fallwright::drawing {

/// `name` and how far `along` the wall a plate is, over it or under it in its bay, level or else upright. Where the bay
/// takes both neither way it is `along` alone: the ladder of heights has the name at the plate's own. Beside it with a
/// line where that has no room either.
void name_plate(Pen& pen, const Frame& plate, const Frame& bay, const std::string& name, const std::string& along);

}  // namespace fallwright::drawing
