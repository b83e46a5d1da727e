/// A simple span under uniform loads over parts of it. Newtons and millimetres.
#pragma once

#include <vector>

namespace fallwright::rules {

/// A load along [from, to] of a span; both within it.
struct LineLoad {
  double from_mm = 0, to_mm = 0, newton_per_mm = 0;
};

/// The greatest moment, exact: where shear is zero.
double greatest_moment(const std::vector<LineLoad>& loads, double span_mm);

/// The greater reaction.
double greatest_shear(const std::vector<LineLoad>& loads, double span_mm);

/// The greatest deflection times E I. @pre no load pulls upward
double greatest_deflection(const std::vector<LineLoad>& loads, double span_mm);

}  // namespace fallwright::rules
