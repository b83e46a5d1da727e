/// One colour and one word for each role, in every format that has colours. Light to dark from what is old to what is
/// new, so that the parts tell apart in grey as well.
#pragma once

#include <Quantity_Color.hxx>

#include "parts/model.hpp"

namespace fallwright::exchange {

inline Quantity_Color colour_of(parts::Role role) {
  const auto rgb = [](double r, double g, double b) { return Quantity_Color{r, g, b, Quantity_TOC_RGB}; };
  switch (role) {
    case parts::Role::subfloor:
      return rgb(0.80, 0.68, 0.48);
    case parts::Role::joist:
      return rgb(0.62, 0.47, 0.28);
    case parts::Role::wall:
      return rgb(0.88, 0.76, 0.55);
    case parts::Role::bench_frame:
      return rgb(0.78, 0.55, 0.30);
    case parts::Role::seat_block:
      return rgb(0.58, 0.66, 0.70);
    case parts::Role::base:
      return rgb(0.85, 0.87, 0.88);
    case parts::Role::drain:
      return rgb(0.25, 0.27, 0.30);
    case parts::Role::bed:
      return rgb(0.52, 0.50, 0.47);
    case parts::Role::bed_spread:
      return rgb(0.66, 0.64, 0.60);
  }
  return rgb(0.5, 0.5, 0.5);
}

}  // namespace fallwright::exchange
