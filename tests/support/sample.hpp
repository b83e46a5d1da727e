/// Jobs for tests of solids, as plain values: the reader is tested on its own.
#pragma once

#include "job/job.hpp"

namespace fallwright::sample {

/// A 72 x 36 in alcove: 14-1/2 in bench at the left end, 57-1/2 in base, square 4 in drain, level rim, 8 x 6 pockets.
/// What its checks ask for beside the survey, trap and fixtures is in it: water of one head, nails of the wall cleat.
job::Job alcove();

/// 2 in of pipe along its bay to a vent at the back, all of it read.
job::Trap trap();

/// The same with a bare base: no upstands, threshold, ribs or bench, so that closed formulas hold over its footprint.
/// `length` x `width`; the drain at (`x`, `y`) from the left and the front edge.
job::Job bare(job::Length length, job::Length width, job::Length x, job::Length y);

/// Of a bare base with a round opening: the rim above the opening's edge where it stands so high above its centre.
job::Length above_edge(const job::Job& job, job::Length above_centre);

/// `job` in a room as surveyed: out of square and out of plumb by a little, a floor on a grid with a hump.
job::Job surveyed(job::Job job);

/// The alcove's plan readings for four corners at the floor, exact; y is zero at the entry.
void read_plan(job::Job& job, survey::Point back_left, survey::Point back_right, survey::Point front_left,
               survey::Point front_right);

job::Stock two_by(double width_in);  ///< dressed 2x stock of a dressed width: 3.5 for a 2x4

}  // namespace fallwright::sample
