#include "job/keys.hpp"

namespace fallwright::job {
namespace {

/// Cement and sand alone are cement, no lime, sand.
std::vector<double> three_parts(const std::vector<double>& parts) {
  return parts.size() == 3 ? parts : std::vector<double>{parts[0], 0, parts[1]};
}

std::vector<Key> mortar_keys() {
  return {
      {"mix.parts", Kind::mix, optional, "\"1:5\"", "\"1:5\"", 0, 0,
       "by loose volume: cement : sand, or cement : lime : sand; 1:4 to 1:6 under a base is common practice, no source",
       no_choices, STORE(j.buy.mix.parts = three_parts(v.numbers))},
      {"mix.type",
       Kind::choice,
       optional,
       "\"S\"",
       "\"S\"",
       0,
       0,
       "ASTM C270 type it is meant to be",
       {"M", "S", "N", "O"},
       STORE(j.buy.mix.type = v.text)},
      {"mix.cement_bag", Kind::mass, usual, "\"94 lb\"", "\"25 kg\"", 5, 60, "a bag of cement", no_choices,
       STORE(j.buy.mix.cement_bag_kg = v.number)},
      {"mix.lime_bag", Kind::mass, usual, "\"50 lb\"", "\"25 kg\"", 5, 60, "a bag of hydrated lime", no_choices,
       STORE(j.buy.mix.lime_bag_kg = v.number)},
      {"mix.sand_density", Kind::density, usual, "\"80 lb/ft3\"", "\"1281 kg/m3\"", 1000, 1900,
       "dry sand in a measure of it as it is shovelled: 80 lb/ft3 damp and loose (ASTM C270, secondary), 91 to 107 dry "
       "and loose (Gillette and Hill, 1908)",
       no_choices, STORE(j.buy.mix.sand_kg_m3 = v.number)},
      {"mix.sand_bag", Kind::mass, optional, "\"50 lb\"", "\"25 kg\"", 1, 2000,
       "a bag of sand, where it is not bought loose", no_choices, STORE(j.buy.mix.sand_bag_kg = v.number)},
  };
}

/// Words that were read are among those that are allowed.
std::vector<Tiled> tiled_of(const std::vector<std::string>& words) {
  std::vector<Tiled> tiled;
  for (const std::string& word : words) tiled.push_back(survey::tiled_of(word).value());
  return tiled;
}

std::vector<Key> tile_keys() {
  return {
      {"tile.surfaces",
       Kind::words,
       usual,
       "[\"floor\", \"threshold\", \"seat\", \"apron\", \"walls\"]",
       "[\"floor\", \"threshold\", \"seat\", \"apron\", \"walls\"]",
       0,
       0,
       "what is tiled; leave out what comes finished",
       {"floor", "threshold", "seat", "apron", "walls"},
       STORE(j.buy.tile.surfaces = tiled_of(v.words))},
      {"tile.own",
       Kind::words,
       usual,
       "[]",
       "[]",
       0,
       0,
       "surfaces that take a tile of their own, in boxes of their own; the others share one",
       {"floor", "threshold", "seat", "apron", "walls"},
       STORE(j.buy.tile.own = tiled_of(v.words))},
      {"tile.height", Kind::length, usual, "\"75 in\"", "1900", 300, 4000,
       "of tile and waterproofing on the walls, above the drain's top; codes ask for 70 to 72 in (1800 mm) above drain "
       "or "
       "floor, see wall.above-floor",
       no_choices, STORE(j.buy.tile.height = v.length())},
      {"tile.waste", Kind::share, usual, "\"10 %\"", "\"10 %\"", 0, 1, "cuts and breakage; common practice, no source",
       no_choices, STORE(j.buy.tile.waste = v.number)},
      {"tile.box", Kind::area, optional, "\"10 ft2\"", "\"1 m2\"", 1e4, 1e8, "what one box covers", no_choices,
       STORE(j.buy.tile.box_mm2 = v.number)},
      {"bond.notch",
       Kind::choice,
       usual,
       "\"square\"",
       "\"square\"",
       0,
       0,
       "square: rectangles with teeth between; v: triangles that touch",
       {"square", "v"},
       STORE(j.buy.bond.vee = v.text == "v")},
      {"bond.width", Kind::length, usual, "\"1/4 in\"", "6", 1, 40, "of a notch", no_choices,
       STORE(j.buy.bond.width = v.length())},
      {"bond.depth", Kind::length, usual, "\"3/8 in\"", "10", 1, 40, "of a notch", no_choices,
       STORE(j.buy.bond.depth = v.length())},
      {"bond.tooth", Kind::length, usual, "\"1/4 in\"", "6", 1, 40, "between notches (square)", no_choices,
       STORE(j.buy.bond.tooth = v.length())},
      {"bond.bag_yield", Kind::volume, optional, "\"0.5 ft3\"", "\"14 L\"", 1e5, 1e9,
       "bonding mortar from one bag, as printed on it", no_choices, STORE(j.buy.bond.bag_yield_mm3 = v.number)},
      {"bond.waste", Kind::share, usual, "\"10 %\"", "\"10 %\"", 0, 1,
       "added to the net quantity when buying; common practice, no source", no_choices,
       STORE(j.buy.bond.waste = v.number)},
      {"membrane.lap", Kind::length, usual, "\"2 in\"", "50", 0, 300, "where sheets, corners and upstands overlap",
       no_choices, STORE(j.buy.membrane.lap = v.length())},
      {"membrane.roll", Kind::area, optional, "\"108 ft2\"", "\"10 m2\"", 1e5, 1e9, "what one roll or pail covers",
       no_choices, STORE(j.buy.membrane.roll_mm2 = v.number)},
      {"membrane.waste", Kind::share, usual, "\"10 %\"", "\"10 %\"", 0, 1,
       "added to the net quantity when buying; common practice, no source", no_choices,
       STORE(j.buy.membrane.waste = v.number)},
      {"felt.roll", Kind::area, optional, "\"216 ft2\"", "\"20 m2\"", 1e5, 1e9, "what one roll covers", no_choices,
       STORE(j.buy.felt.roll_mm2 = v.number)},
      {"felt.waste", Kind::share, usual, "\"10 %\"", "\"10 %\"", 0, 1, "laps and turn-ups; common practice, no source",
       no_choices, STORE(j.buy.felt.waste = v.number)},
  };
}

std::vector<Key> small_keys() {
  return {
      {"sealant.shape",
       Kind::choice,
       usual,
       "\"square\"",
       "\"square\"",
       0,
       0,
       "square: width by depth; fillet: a triangle of width and depth; round: a bead of that width",
       {"square", "fillet", "round"},
       STORE(j.buy.sealant.shape = v.text == "square"   ? Bead::square
                                   : v.text == "fillet" ? Bead::fillet
                                                        : Bead::round)},
      {"sealant.width", Kind::length, usual, "\"1/4 in\"", "6", 1, 40, "of the joint", no_choices,
       STORE(j.buy.sealant.width = v.length())},
      {"sealant.depth", Kind::length, usual, "\"1/4 in\"", "6", 1, 40, "of the joint", no_choices,
       STORE(j.buy.sealant.depth = v.length())},
      {"sealant.cartridge", Kind::volume, usual, "\"10.1 fl oz\"", "\"300 mL\"", 1e4, 1e7, "what one holds", no_choices,
       STORE(j.buy.sealant.cartridge_mm3 = v.number)},
      {"sealant.waste", Kind::share, usual, "\"15 %\"", "\"15 %\"", 0, 1,
       "added to the net quantity when buying; common practice, no source", no_choices,
       STORE(j.buy.sealant.waste = v.number)},
      {"adhesive.bead", Kind::length, usual, "\"3/8 in\"", "10", 1, 40, "diameter of a bead", no_choices,
       STORE(j.buy.adhesive.bead = v.length())},
      {"adhesive.spacing", Kind::length, usual, "\"4 in\"", "100", 5, 600, "between beads", no_choices,
       STORE(j.buy.adhesive.spacing = v.length())},
      {"adhesive.cartridge", Kind::volume, usual, "\"10.1 fl oz\"", "\"300 mL\"", 1e4, 1e7, "what one holds",
       no_choices, STORE(j.buy.adhesive.cartridge_mm3 = v.number)},
      {"adhesive.waste", Kind::share, usual, "\"10 %\"", "\"10 %\"", 0, 1,
       "added to the net quantity when buying; common practice, no source", no_choices,
       STORE(j.buy.adhesive.waste = v.number)},
      {"flashing.piece", Kind::length, optional, "\"10 ft\"", "3000", 200, 50000, "length of one piece or roll",
       no_choices, STORE(j.buy.flashing.length = v.length())},
      {"flashing.lap", Kind::length, usual, "\"2 in\"", "50", 0, 500, "at each corner", no_choices,
       STORE(j.buy.flashing.lap = v.length())},
      {"fasteners.per_end", Kind::integer, usual, "2", "2", 1, 8, "in each end of each stick", no_choices,
       STORE(j.buy.fasteners.per_end = static_cast<int>(v.number))},
      {"fasteners.deck_edge", Kind::length, usual, "\"6 in\"", "150", 25, 600, "apart along the deck's edges",
       no_choices, STORE(j.buy.fasteners.deck_edge = v.length())},
      {"fasteners.deck_field", Kind::length, usual, "\"12 in\"", "300", 25, 900, "apart along the joists between",
       no_choices, STORE(j.buy.fasteners.deck_field = v.length())},
      {"fasteners.upstand", Kind::length, usual, "\"16 in\"", "400", 50, 900,
       "apart along the base's upstands at most; one at each stud", no_choices,
       STORE(j.buy.fasteners.upstand = v.length())},
      {"fasteners.box", Kind::integer, usual, "100", "100", 1, 10000, "in one box", no_choices,
       STORE(j.buy.fasteners.box = static_cast<int>(v.number))},
      {"buy.batch", Kind::volume, usual, "\"0.45 ft3\"", "\"12 L\"", 1e5, 1e9,
       "mortar mixed at once, in one bucket or mixer", no_choices, STORE(j.buy.batch_mm3 = v.number)},
      {"buy.batch_minutes", Kind::integer, usual, "15", "15", 1, 240,
       "to mix one batch and bring it in place; common practice, no source", no_choices,
       STORE(j.buy.batch_minutes = static_cast<int>(v.number))},
      {"buy.water_least", Kind::volume, optional, "\"2 qt\"", "\"2 L\"", 1e4, 1e8,
       "water for one bag of mortar, as printed on it", no_choices, STORE(j.buy.water_least_mm3 = v.number)},
      {"buy.water_greatest", Kind::volume, optional, "\"2.5 qt\"", "\"2.4 L\"", 1e4, 1e8, "the same, at most",
       no_choices, STORE(j.buy.water_greatest_mm3 = v.number)},
      {"buy.prices", Kind::text, optional, "\"prices.csv\"", "\"prices.csv\"", 0, 0,
       "a table of your own prices beside this file: item, pack, price, supplier; see docs/buying.md", no_choices,
       STORE(j.buy.prices.file = v.text)},
      {"buy.currency", Kind::text, optional, "\"USD\"", "\"EUR\"", 0, 0, "of these prices, as you write it", no_choices,
       STORE(j.buy.currency = v.text)},
      {"buy.leave_out",
       Kind::words,
       usual,
       "[]",
       "[]",
       0,
       0,
       "what is not wanted on the buy list",
       {"felt", "adhesive", "sealant", "flashing", "tile", "bond", "membrane", "fasteners", "drain"},
       STORE(j.buy.leave_out = v.words)},
  };
}

}  // namespace

std::vector<Key> buy_keys() {
  std::vector<Key> all;
  for (const auto& part : {mortar_keys(), tile_keys(), small_keys()}) all.insert(all.end(), part.begin(), part.end());
  return all;
}

}  // namespace fallwright::job
