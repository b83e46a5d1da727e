/// What is told of a base by how it came about: delivered and measured, or built on site. Lengths in millimetres.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace fallwright::facts {

/// A base that was bought, as its tape readings make it.
struct Bought {
  double drain_aside_mm = 0;             ///< drain's centre right of the base's middle
  std::optional<double> waste_aside_mm;  ///< the room's waste right of the middle of the base as it stands
  std::optional<double> density_kg_m3;   ///< weight over its solid's volume; absent: it was not weighed
  std::optional<double> waste_back_mm;   ///< the room's waste behind the drain's centre: nearer to the back wall
  double out_of_square_mm = 0;           ///< between its diagonals, on the solid
  double bed_least_mm3 = 0;              ///< of the bed as set, were its underside solid between the ribs
  double bed_greatest_mm3 = 0;           ///< the same without any rib; both only where the ribs are not known
  bool ribs_known = true;
};

/// Where a line of marks runs: along the base's rim, out from the drain, or on the form that the bed is struck off at.
enum class Runs { rim, from_drain, form };

/// A mark to screed to: heights above the datum over one place.
struct ScreedMark {
  std::string line;     ///< "back wall", "ray to the back left corner"
  double along_mm = 0;  ///< from the line's start: a wall's left or back end, the drain
  std::array<double, 2> at_mm{};
  double subfloor_mm = 0, bed_mm = 0, top_mm = 0;  ///< the bed's top, and that of what lies on the waterproofing
  bool corner = false;
  Runs runs = Runs::rim;
};

/// A base built on site.
struct SiteBuilt {
  std::vector<ScreedMark> marks;
  double at_flange_mm = 0;    ///< least plumb thickness of the bed round the drain's body
  double flange_top_mm = 0;   ///< the bed's top there, above the datum
  double cover_least_mm = 0;  ///< least plumb thickness of what lies on the waterproofing
  double forms_mm = 0;        ///< length of edges that no wall and no bench bounds
  double bed_fall_least = 0;  ///< of the bed's sloped top
  double bed_top_mm2 = 0;     ///< true area of it
  /// The lowest that its top meets walls and bench, and that it meets the threshold's foot: nothing where none stands.
  std::optional<double> low_at_walls_mm = {}, low_at_threshold_mm = {};
};

}  // namespace fallwright::facts
