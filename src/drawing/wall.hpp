/// What is known of a wall's studs beside its elevation. Inside `drawing` only.
#pragma once

#include "drawing/projection.hpp"
#include "drawing/steps.hpp"
#include "drawing/views.hpp"

namespace fallwright::drawing {

/// Where the plan has a stud as well, from the corner where a tape is hooked: a wall out of square shows its sides, and
/// its middle in the elevation is another.
double running_of(const Subject& subject, const parts::Solid& stud);

/// The corner where a tape is hooked for its stud centres: "back left corner"; the wall's end where no other meets it.
std::string corner_words(const Subject& subject, job::Side wall);

/// What is to be heeded on a wall where a liner stands before the studs.
std::string words_of_liner(const Subject& subject, const Pen& pen);

/// Whether a block's length and the centres of the studs beside it, as both are printed, come out more than half a mark
/// apart.
bool bays_read_apart(const Subject& subject, const facts::Family& wall, const View& view);

}  // namespace fallwright::drawing
