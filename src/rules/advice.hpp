/// What to change so that the floor falls as it should.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/change.hpp"
#include "job/job.hpp"

namespace fallwright::rules {

/// Lengths that will do, from least to greatest.
struct Window {
  double least_mm = 0, greatest_mm = 0;
  bool any() const;
  bool holds(double mm) const;  ///< up to the rounding of double precision
};

/// What makes a level-rim floor keep both limits of fall.
struct FloorRemedy {
  double longest_mm = 0, shortest_mm = 0;  ///< runs from drain to rim as they are
  std::optional<double> across_mm;         ///< new distance of the drain's centre from the side `drain.across` names
  std::optional<double> along_mm;          ///< the same for `drain.along`; absent: it may stay
  std::optional<Window> rise;              ///< rims above the drain's edge that pass; absent: the job's own passes
  bool possible() const { return across_mm || along_mm || rise; }
};

/// With a level rim every facet has the same rise, so falls are as one over the runs: a rim height exists only when the
/// longest run is no more than greatest/least times the shortest. Where none does, the drain moves to the place nearest
/// to where it is, along one axis if that will do, on a mark of the tape where one lies in reach. Closed form, exact.
/// @pre the pattern is level rim. Distances are in the job file's own terms.
FloorRemedy floor_remedy(const job::Job& job, double least_fall, double greatest_fall);

/// The ways that `floor_advice` names, as lines of the job file: first the one it leads with.
std::vector<std::vector<job::Change>> floor_changes(const job::Job& job, double least_fall, double greatest_fall);

/// The remedy as a sentence in the words of the job file.
std::string floor_advice(const job::Job& job, double least_fall, double greatest_fall);

}  // namespace fallwright::rules
