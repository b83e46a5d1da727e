/// Do the tape readings close? Four sides and two diagonals tell one more than a quadrilateral needs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "survey/readings.hpp"

namespace fallwright::survey {

/// The alcove at the floor, at the stud faces. Back left at (0, 0), the back wall along +x, the entry toward -y.
struct Quadrilateral {
  Point back_left, back_right, front_left, front_right;
};

/// One reading against the figure that fits all of them best.
struct Residual {
  std::string name;  ///< "back", "diagonal from back left" ...
  double reading_mm = 0, solved_mm = 0, tolerance_mm = 0;
  std::optional<double> if_others_hold_mm;  ///< what it would have to be; absent without a spare reading
  double off_mm() const { return reading_mm - solved_mm; }
};

struct Closure {
  Quadrilateral figure;
  bool solved = false;  ///< enough readings, and they make a figure
  bool spare = false;   ///< one reading more than needed: the figure could be checked
  std::vector<Residual> readings;
  double worst_mm = 0;               ///< greatest residual
  double worst_share = 0;            ///< greatest residual as a multiple of its reading's tolerance
  std::string suspect;               ///< the one reading that explains it, where one clearly does
  std::string impossible;            ///< why no such figure exists, as a sentence; empty when one does
  std::vector<std::string> missing;  ///< names of the readings not taken
};

/// Least squares over all readings, weighted by their tolerances (exact where there is no spare). Readings from boards
/// and finished walls are compared with the figure at that face. A reading is the suspect when leaving it out makes the
/// figure at least twice as square as leaving out any other.
Closure close(const Survey& survey);

/// The figure and how far each reading is off it, without what each would have to be and which one explains it: that
/// takes as many figures again as there are readings.
Closure figure_of(const Survey& survey);

}  // namespace fallwright::survey
