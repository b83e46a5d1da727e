/// What is bought beside timber: the user's products, packs and habits. Every default stands in schema_buy.cpp.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "job/prices.hpp"
#include "survey/surface.hpp"
#include "units/length.hpp"

namespace fallwright::job {

using units::Length;

/// Mortar mixed on site, in parts by loose volume, and what it is mixed with.
struct Mix {
  std::vector<double> parts;  ///< cement, lime, sand; empty: it is not mixed on site
  std::string type;           ///< "M", "S", "N", "O" of ASTM C270; empty: none claimed
  double cement_bag_kg = 0, lime_bag_kg = 0;
  double sand_kg_m3 = 0;              ///< dry sand in what is measured as loose sand
  std::optional<double> sand_bag_kg;  ///< absent: sold loose, by volume
  bool any() const { return !parts.empty(); }
  double cement() const { return parts[0]; }
  double lime() const { return parts[1]; }
  double sand() const { return parts[2]; }
};

using survey::Tiled;

struct Tile {
  std::vector<Tiled> surfaces;
  std::vector<Tiled> own;  ///< those that take a tile of their own; the others share one
  Length height;           ///< of the walls' tile above the drain's top
  double waste = 0;
  std::optional<double> box_mm2;
  bool covers(Tiled what) const { return std::find(surfaces.begin(), surfaces.end(), what) != surfaces.end(); }
  bool has_own(Tiled what) const { return std::find(own.begin(), own.end(), what) != own.end(); }
};

/// How tile is bonded: the notches of the trowel.
struct Bond {
  bool vee = false;  ///< notches are triangles that touch; else rectangles with teeth between
  Length width, depth, tooth;
  std::optional<double> bag_yield_mm3;
  double waste = 0;
};

struct Membrane {
  Length lap;
  std::optional<double> roll_mm2;
  double waste = 0;
};

struct Felt {
  std::optional<double> roll_mm2;
  double waste = 0;
};

enum class Bead { square, fillet, round };

struct Sealant {
  Bead shape = Bead::square;
  Length width, depth;
  double cartridge_mm3 = 0, waste = 0;
};

struct Adhesive {
  Length bead, spacing;
  double cartridge_mm3 = 0, waste = 0;
};

struct Flashing {
  std::optional<Length> length;  ///< of one piece as sold
  Length lap;
};

struct Fasteners {
  int per_end = 0;  ///< in each end of each stick
  Length deck_edge, deck_field, upstand;
  int box = 0;
};

struct Buy {
  Mix mix;
  double batch_mm3 = 0;                                       ///< mortar that is mixed at once
  int batch_minutes = 0;                                      ///< to mix that and bring it in place
  std::optional<double> water_least_mm3, water_greatest_mm3;  ///< for one bag, as printed on it
  Tile tile;
  Bond bond;
  Membrane membrane;
  Felt felt;
  Sealant sealant;
  Adhesive adhesive;
  Flashing flashing;
  Fasteners fasteners;
  PriceList prices;
  std::string currency;  ///< of these prices, as the user writes it; may be empty
  std::vector<std::string> leave_out;
  bool wants(const std::string& kind) const;
};

}  // namespace fallwright::job
