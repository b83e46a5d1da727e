/// Items of the buy list that others look for: told apart by what they are, whatever they are called.
#pragma once

#include <optional>
#include <string>

#include "takeoff/takeoff.hpp"

namespace fallwright::takeoff {

enum class Item {
  mortar_bags,
  mortar_batches,
  bag_water,
  mix_water,
  cement,
  lime,
  sand_damp,
  sand_dry,
  sand_bags,
  felt,
  adhesive,
  flashing,
  sealant,
  waterproofing,
  edge_strip,
  backing,
  liner,
  liner_up,
  lath,
  tile,
  deck_screws,
  cleat_fasteners,
  joist_fasteners,
  rail_fasteners,
  sole_fasteners,
  upstand_fasteners,
  drain,
  channel_drain,
  base,
  seat_block,
  reinforcement,
  weep_holes,
  rough_threshold,
  edge_forms,
  bond,
  framing_fasteners,
  bench_fasteners
};

/// The one place where its name stands, as it is read on the list, in price tables and in report.json.
inline const char* name_of(Item item) {
  switch (item) {
    case Item::mortar_bags:
      return "mortar, bags";
    case Item::mortar_batches:
      return "mortar, batches";
    case Item::bag_water:
      return "water for the mortar";
    case Item::mix_water:
      return "water for the site mix";
    case Item::cement:
      return "cement";
    case Item::lime:
      return "hydrated lime";
    case Item::sand_damp:
      return "sand, damp and loose";
    case Item::sand_dry:
      return "sand, dry and loose";
    case Item::sand_bags:
      return "sand, in bags";
    case Item::felt:
      return "felt under the bed";
    case Item::adhesive:
      return "construction adhesive";
    case Item::flashing:
      return "flashing over upstands";
    case Item::sealant:
      return "sealant";
    case Item::waterproofing:
      return "waterproofing";
    case Item::edge_strip:
      return "membrane strip, lapped edge";
    case Item::backing:
      return "backing boards, bench front";
    case Item::liner:
      return "liner, floor";
    case Item::liner_up:
      return "liner, turned up";
    case Item::lath:
      return "lath over the felt";
    case Item::tile:
      return "tile";
    case Item::deck_screws:
      return "screws, deck";
    case Item::cleat_fasteners:
      return "fasteners, bench at the wall";
    case Item::joist_fasteners:
      return "fasteners, bench joists";
    case Item::rail_fasteners:
      return "fasteners, bench rail";
    case Item::sole_fasteners:
      return "fasteners, bench to the floor";
    case Item::upstand_fasteners:
      return "fasteners, upstands";
    case Item::drain:
      return "drain with its grate";
    case Item::channel_drain:
      break;
    case Item::base:
      return "shower base";
    case Item::seat_block:
      return "seat block";
    case Item::reinforcement:
      return "reinforcement";
    case Item::weep_holes:
      return "weep hole protection";
    case Item::rough_threshold:
      return "threshold, rough";
    case Item::edge_forms:
      return "edge forms";
    case Item::bond:
      return "bonding mortar";
    case Item::framing_fasteners:
      return "fasteners, framing";
    case Item::bench_fasteners:
      return "fasteners, bench frame";
  }
  return "channel drain with its grate";
}

inline bool is(const Row& row, Item item) {
  return row.item == name_of(item);
}

inline bool is_bench_joist(const facts::PartId& part) {
  return part.is(facts::Role::bench_frame, facts::Kind::joist) ||
         part.is(facts::Role::bench_frame, facts::Kind::end_cleat);
}

/// What the bench's front stands on the floor with.
inline bool is_sole(const facts::PartId& part) {
  return part.is(facts::Role::bench_frame, facts::Kind::sole_plate) ||
         part.is(facts::Role::bench_frame, facts::Kind::sole_track);
}

/// A steel bench before timber walls, or the other way round: what holds the one together does not hold the other.
inline bool fastens_bench_apart(const job::Job& job) {
  return job.bench && (job.bench->frame.kind == job::FrameKind::steel) != job.walls.stock.is_steel();
}

/// Members of the bench that have their own row: held where they cross others or along their length, or joists whose
/// fasteners are told. And its top plate or track: its studs hold it, whose upper ends are fastened to it, and at its
/// own ends stands no member of the bench.
inline bool has_own_fasteners(const facts::PartId& part, const job::Job& job) {
  using facts::Kind;
  if (is_sole(part)) return true;
  for (const Kind kind :
       {Kind::wall_cleat, Kind::wall_track, Kind::front_rail, Kind::front_track, Kind::top_plate, Kind::top_track})
    if (part.is(facts::Role::bench_frame, kind)) return true;
  return job.bench && job.bench->frame.fasteners_at_joist && is_bench_joist(part);
}

/// Tile of one surface, where not all of it comes from the same boxes: "tile, floor".
inline std::string tile_of(const std::string& surface) {
  return std::string{name_of(Item::tile)} + ", " + surface;
}
/// The surface in such a name; "" of tile for all, nothing of what is no tile.
inline std::optional<std::string> tiled_surface(const Row& row) {
  if (is(row, Item::tile)) return "";
  const std::string begins = tile_of("");
  if (!row.item.starts_with(begins)) return std::nullopt;
  return row.item.substr(begins.size());
}

}  // namespace fallwright::takeoff
