/// Where the letters of zones stand, and lines that make room for them. Inside `drawing` only.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "drawing/sheet.hpp"
#include "drawing/zones.hpp"

namespace fallwright::drawing {

/// A map as squares, each with the zone at its middle; row by row from `low`.
struct ZoneGrid {
  Point low;
  double square = 1;
  std::size_t columns = 0, rows = 0;
  std::vector<std::optional<std::size_t>> zones;
};

/// A place in a zone, and how far it is from there to the nearest other zone, or to what is written.
struct ZonePlace {
  std::size_t zone = 0;
  Point at;
  double free_mm = 0;
};

/// For each piece of a zone that hangs together the place with most room about it; of many pieces the roomiest ones.
std::vector<ZonePlace> letter_places(const ZoneGrid& grid, const std::vector<Box>& taken);

/// "A", "B" ... without I, O, P and X, which mean something else or look like it; then "AA".
std::string letters_by_turn(std::size_t turn);

/// Which shares of a line lie within boxes, sorted and apart from each other.
std::vector<std::pair<double, double>> gaps_of(Point from, Point to, const std::vector<Box>& boxes);

/// Parallel lines over a rectangle.
std::vector<Stretch> hatch_of_box(Point low, Point high, double angle_deg, double apart);

}  // namespace fallwright::drawing
