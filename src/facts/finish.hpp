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

/// A line along which two planes meet, or a strip runs.
struct Seam {
  std::string what;
  double length_mm = 0;
  Role of = Role::base;  ///< of an upstand's top edge: base or seat block
};

/// Where the seat block touches a kind of member of its frame: "deck", "front rail", "stud".
struct Bonded {
  std::string what;
  double area_mm2 = 0;
};

struct Finish {
  double top_mm = 0;  ///< of tile and waterproofing on the walls, above the datum
  std::vector<Covered> covered;
  std::vector<Seam> joints;     ///< that take sealant
  std::vector<Seam> flashings;  ///< top edges of upstands, along a wall or the bench
  int flashing_corners = 0;     ///< where two of them meet
  double seat_bond_mm2 = 0;     ///< where seat block and frame touch: all of `seat_bonds`
  double bed_bottom_mm2 = 0;    ///< the bed's underside, as the floor is
  std::vector<Bonded> seat_bonds = {};
};

}  // namespace fallwright::facts
