/// Items of the buy list that others look for: told apart by what they are, whatever they are called.
#pragma once

#include <array>
#include <cstddef>
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
  bench_fasteners,
  furring_screws,
  shim_staples
};

/// The one place where its name stands, as it is read on the list, in price tables and in report.json.
struct NamedItem {
  Item item;
  const char* name;
};
inline constexpr std::array item_names{NamedItem{Item::mortar_bags, "mortar, bags"},
                                       NamedItem{Item::mortar_batches, "mortar, batches"},
                                       NamedItem{Item::bag_water, "water for the mortar"},
                                       NamedItem{Item::mix_water, "water for the site mix"},
                                       NamedItem{Item::cement, "cement"},
                                       NamedItem{Item::lime, "hydrated lime"},
                                       NamedItem{Item::sand_damp, "sand, damp and loose"},
                                       NamedItem{Item::sand_dry, "sand, dry and loose"},
                                       NamedItem{Item::sand_bags, "sand, in bags"},
                                       NamedItem{Item::felt, "felt under the bed"},
                                       NamedItem{Item::adhesive, "construction adhesive"},
                                       NamedItem{Item::flashing, "flashing over upstands"},
                                       NamedItem{Item::sealant, "sealant"},
                                       NamedItem{Item::waterproofing, "waterproofing"},
                                       NamedItem{Item::edge_strip, "membrane strip, lapped edge"},
                                       NamedItem{Item::backing, "backing boards, bench front"},
                                       NamedItem{Item::liner, "liner, floor"},
                                       NamedItem{Item::liner_up, "liner, turned up"},
                                       NamedItem{Item::lath, "lath over the felt"},
                                       NamedItem{Item::tile, "tile"},
                                       NamedItem{Item::deck_screws, "screws, deck"},
                                       NamedItem{Item::cleat_fasteners, "fasteners, bench at the wall"},
                                       NamedItem{Item::joist_fasteners, "fasteners, bench joists"},
                                       NamedItem{Item::rail_fasteners, "fasteners, bench rail"},
                                       NamedItem{Item::sole_fasteners, "fasteners, bench to the floor"},
                                       NamedItem{Item::upstand_fasteners, "fasteners, upstands"},
                                       NamedItem{Item::drain, "drain with its grate"},
                                       NamedItem{Item::channel_drain, "channel drain with its grate"},
                                       NamedItem{Item::base, "shower base"},
                                       NamedItem{Item::seat_block, "seat block"},
                                       NamedItem{Item::reinforcement, "reinforcement"},
                                       NamedItem{Item::weep_holes, "weep hole protection"},
                                       NamedItem{Item::rough_threshold, "threshold, rough"},
                                       NamedItem{Item::edge_forms, "edge forms"},
                                       NamedItem{Item::bond, "bonding mortar"},
                                       NamedItem{Item::framing_fasteners, "fasteners, framing"},
                                       NamedItem{Item::bench_fasteners, "fasteners, bench frame"},
                                       NamedItem{Item::furring_screws, "screws, furring"},
                                       NamedItem{Item::shim_staples, "staples, shims"}};
/// Each in its own place, and none left out.
consteval bool are_in_order() {
  for (std::size_t i = 0; i < item_names.size(); ++i)
    if (item_names[i].item != static_cast<Item>(i)) return false;
  return item_names.back().item == Item::shim_staples;
}
static_assert(are_in_order());

inline const char* name_of(Item item) {
  return item_names[static_cast<std::size_t>(item)].name;
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

/// A wall's sole or top plate: its studs' ends hold it, and at its own ends stands nothing or the next wall.
inline bool is_wall_plate(const facts::PartId& part) {
  using facts::Kind;
  return part.family.role == facts::Role::wall && (part.kind == Kind::sole_plate || part.kind == Kind::top_plate);
}

/// Members that no fasteners go into the ends of. Of the bench those that are held where they cross others or along
/// their length, and joists, which keys of their own are told of. And plates or tracks on studs: those hold them, whose
/// ends are fastened to them, and at their own ends stands no member of bench or wall.
inline bool has_own_fasteners(const facts::PartId& part) {
  using facts::Kind;
  if (is_sole(part) || is_wall_plate(part)) return true;
  for (const Kind kind :
       {Kind::wall_cleat, Kind::wall_track, Kind::front_rail, Kind::front_track, Kind::top_plate, Kind::top_track})
    if (part.is(facts::Role::bench_frame, kind)) return true;
  return is_bench_joist(part);
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
