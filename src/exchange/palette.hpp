/// One colour and one word for each role, in every format that has colours. Light to dark from what is old to what is
/// new, so that the parts tell apart in grey as well; light, since viewers with one lamp darken them. Shares of light.
/// Inside `exchange` only.
#pragma once

#include <Quantity_Color.hxx>

#include "parts/model.hpp"

namespace fallwright::exchange {

inline Quantity_Color colour_of(parts::Role role) {
  const auto rgb = [](double r, double g, double b) { return Quantity_Color{r, g, b, Quantity_TOC_RGB}; };
  switch (role) {
    case parts::Role::subfloor:
      return rgb(0.86, 0.76, 0.58);
    case parts::Role::joist:
      return rgb(0.70, 0.56, 0.37);
    case parts::Role::wall:
      return rgb(0.93, 0.84, 0.67);
    case parts::Role::bench_frame:
      return rgb(0.85, 0.64, 0.38);
    case parts::Role::seat_block:
      return rgb(0.66, 0.76, 0.81);
    case parts::Role::base:
      return rgb(0.93, 0.95, 0.96);
    case parts::Role::drain:
      return rgb(0.32, 0.35, 0.39);
    case parts::Role::bed:
      return rgb(0.60, 0.58, 0.55);
    case parts::Role::bed_spread:
      return rgb(0.74, 0.72, 0.68);
  }
  return rgb(0.5, 0.5, 0.5);
}

}  // namespace fallwright::exchange
