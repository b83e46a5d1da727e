/// The outermost line of a figure.
#pragma once

#include <vector>

#include "drawing/sheet.hpp"

namespace fallwright::drawing {

/// Walks round lines that hang together, on their outer side, counter-clockwise from the lowest corner at the left;
/// corners in line with their neighbours are left out. Lines may meet in the middle of others.
/// @return nothing where the lines do not close.
Outline boundary_of(const std::vector<Line>& lines);

/// Whether a line runs along an outline, within a hundredth of a millimetre.
bool runs_along(const Line& line, const Outline& outline);

}  // namespace fallwright::drawing
