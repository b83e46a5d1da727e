/// What readings on a base in its wet bed are judged by: the base as it would lie level, as plain numbers. With it
/// anyone can tell how the base lies who has a level and its readings, without the solids. Lengths in millimetres.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/room.hpp"

namespace fallwright::facts {

/// A place that a rule can be held to, and how high it lies as designed.
struct RimPlace {
  std::string name;  ///< "back left", "upstand back left", "threshold left"
  double x_mm = 0, y_mm = 0, designed_mm = 0;
};

/// Corners whose heights are told once the base is tilted, and what does not tilt with it.
struct Lying {
  std::vector<RimPlace> places;  ///< the rim's eight, then those of upstands and threshold
  std::vector<Point> threshold;  ///< corners of its top; none: no threshold
  std::vector<Point> open_edges;
  std::vector<Point> upstands;  ///< corners of their tops
  Point drain_top{};            ///< at the drain's middle
  double drain_low_mm = 0;      ///< lowest point of its body, there
  double length_mm = 0, width_mm = 0;
  std::vector<Point> below_apron;  ///< corners of the base's edge under the apron's foot, which stays where it is
  std::optional<double> apron_foot_mm;
  std::vector<BedDepth> beds;  ///< where the bed may be thinnest, however the base is raised and tilted
};

}  // namespace fallwright::facts
