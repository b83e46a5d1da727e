/// Which of several things that are alike is told. Inside `rules` only.
#pragma once

#include <string>

#include "facts/facts.hpp"
#include "job/job.hpp"

namespace fallwright::rules {

/// The hand that is told first where something is alike on both: `measure` lists a left and a right facet of the floor
/// in that order, so that a room and its mirror image tell the same. Where the floor has neither, the hand that the
/// drain lies nearer to; where it lies in the middle, the left.
job::Side told_hand(const facts::Facts& facts);

/// Of walls that are alike the first of these is told: the back, the wall on that hand, the other.
int turn_of(job::Side wall, job::Side hand);

}  // namespace fallwright::rules
