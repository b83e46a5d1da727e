/// Inches and feet in millimetres, square and cubic ones in theirs, pounds in kilograms: most published figures are told in
/// them.

#pragma once

#include "units/length.hpp"

namespace fallwright {

constexpr double in = 25.4, in2 = in * in, in3 = in2 * in, in4 = in2 * in2;
constexpr double ft = 12 * in, ft2 = ft * ft, ft3 = ft2 * ft;
constexpr double lb = 0.45359237;

constexpr units::Length inches(double count) {
  return units::Length::inches(count);
}

}  // namespace fallwright
