/// What is laid on, bonded to and sealed along the solids. Lengths in millimetres, areas in square millimetres.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/part_id.hpp"
#include "survey/surface.hpp"

namespace fallwright::facts {

using survey::Tiled;

/// True, sloped area of one thing that may be tiled; of the walls of one of them.
struct Covered {
  Tiled surface = Tiled::floor;
  std::optional<survey::Side> wall = {};
  double area_mm2 = 0;
};

/// Two surfaces that meet along a line, which takes sealant.
enum class Joint {
  floor_to_walls,
  floor_to_apron,
  floor_to_threshold,
  apron_to_walls,
  threshold_to_walls,
  seat_to_walls,
  wall_corners,
  floor_to_drain,
};
inline const char* name_of(Joint joint) {
  switch (joint) {
    case Joint::floor_to_walls:
      return "floor to walls";
    case Joint::floor_to_apron:
      return "floor to apron";
    case Joint::floor_to_threshold:
      return "floor to threshold";
    case Joint::apron_to_walls:
      return "apron to walls";
    case Joint::threshold_to_walls:
      return "threshold to walls";
    case Joint::seat_to_walls:
      return "seat to walls";
    case Joint::wall_corners:
      return "wall corners";
    case Joint::floor_to_drain:
      return "floor to drain";
  }
  return "";
}

struct Seam {
  Joint joint = Joint::floor_to_walls;
  double length_mm = 0;
};

/// The top edge of an upstand of base or seat block, along a wall or the bench.
struct Flashing {
  Role of = Role::base;
  survey::Side side = survey::Side::back;
  double length_mm = 0;
  std::string name() const { return std::string{of == Role::base ? "base" : "seat"} + ", " + survey::name_of(side); }
};

/// Where the seat block touches a kind of member of its frame: "deck", "front rail", "stud".
struct Bonded {
  std::string what;
  double area_mm2 = 0;
};

struct Finish {
  double top_mm = 0;  ///< of tile and waterproofing on the walls, above the datum
  std::vector<Covered> covered;
  std::vector<Seam> joints;
  std::vector<Flashing> flashings;
  int flashing_corners = 0;   ///< where two of them meet
  double seat_bond_mm2 = 0;   ///< where seat block and frame touch: all of `seat_bonds`
  double bed_bottom_mm2 = 0;  ///< the bed's underside, as the floor is
  std::vector<Bonded> seat_bonds = {};
};

}  // namespace fallwright::facts
