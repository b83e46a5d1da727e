#include "takeoff/hold.hpp"

#include <algorithm>
#include <array>

#include "facts/assumed.hpp"
#include "takeoff/item.hpp"

namespace fallwright::takeoff {
namespace {

template <std::size_t n>
bool is_any(const Row& row, const std::array<Item, n>& items) {
  return std::any_of(items.begin(), items.end(), [&](Item item) { return is(row, item); });
}

bool has_apron(const job::Job& job) {
  return job.bench && !job.bench->apron_thickness.is_zero();
}

/// What is another, or another amount, where another base is set than the one that is measured, or in another bed.
bool hangs_on_base(const Row& row, const job::Job& job) {
  constexpr std::array by_its_size{Item::drain,
                                   Item::channel_drain,
                                   Item::mortar_bags,
                                   Item::mortar_batches,
                                   Item::bag_water,
                                   Item::mix_water,
                                   Item::cement,
                                   Item::lime,
                                   Item::sand_damp,
                                   Item::sand_dry,
                                   Item::sand_bags,
                                   Item::felt,
                                   Item::lath,
                                   Item::liner,
                                   Item::liner_up,
                                   Item::reinforcement,
                                   Item::weep_holes,
                                   Item::edge_forms,
                                   Item::rough_threshold,
                                   Item::waterproofing,
                                   Item::edge_strip,
                                   Item::upstand_fasteners,
                                   Item::flashing,
                                   Item::sealant,
                                   Item::backing,
                                   Item::bond};
  constexpr std::array under_the_seat{Item::seat_block, Item::adhesive};  // its apron stands on the base
  if (is_any(row, under_the_seat)) return has_apron(job);
  return is(row, Item::base) || row.item.starts_with("mortar, ") || tiled_surface(row) || is_any(row, by_its_size);
}

/// The liner is one piece of floor and what turns up.
bool hangs_on_liner(const Row& row) {
  return is(row, Item::liner) || is(row, Item::liner_up);
}

/// What goes on the walls' board: more of it, or to other faces, once the board goes higher or stands elsewhere.
bool hangs_on_board(const Row& row, const job::Job& job) {
  const auto on_walls = [&](const std::string& surface) {
    return surface.empty() ? !job.buy.tile.has_own(job::Tiled::walls) : surface == job::name_of(job::Tiled::walls);
  };
  const std::optional<std::string> tiled = tiled_surface(row);
  return is(row, Item::waterproofing) ||
         (job.buy.tile.covers(job::Tiled::walls) && (is(row, Item::bond) || (tiled && on_walls(*tiled))));
}

std::optional<Hold> hold_till_board_stands(const facts::Facts& facts, const facts::Holds& holds) {
  for (const facts::Covered& covered : facts.finish.covered)
    if (covered.wall)
      if (auto wall = hold_till_framed(facts.room, *covered.wall)) return wall;
  if (holds.board) return Hold{HangsOn::board, holds.board->check, holds.board->title};
  return std::nullopt;
}

bool is_of_bench(const CutRow& cut, const facts::Facts& facts) {
  return std::any_of(cut.part_ids.begin(), cut.part_ids.end(), [&](const std::string& id) {
    return std::any_of(facts.parts.begin(), facts.parts.end(), [&](const facts::Part& part) {
      return part.id == id && part.which.family.role == facts::Role::bench_frame;
    });
  });
}

Hold hold_on(HangsOn what, const facts::Held& by) {
  return {what, by.check, by.title, by.first};
}

/// What its pieces wait for is planned apart.
bool is_of_furring(const Row& row) {
  return row.blanks == Blanks::boards || row.blanks == Blanks::strips || row.blanks == Blanks::shims;
}

/// Sticks of one stock are one order, whatever else is cut from them.
template <typename Waits>
bool any_cut_of(const Row& row, const std::vector<CutRow>& cuts, Waits waits) {
  return std::any_of(cuts.begin(), cuts.end(),
                     [&](const CutRow& cut) { return !cut.sheet && cut.stock == row.item && waits(cut); });
}

/// By which check a row waits for the bench.
const std::optional<facts::Held>& bench_holds(const Row& row, const std::vector<CutRow>& cuts, const job::Job& job,
                                              const facts::Facts& facts, const facts::Holds& holds) {
  static const std::optional<facts::Held> nothing;
  constexpr std::array fastens{Item::cleat_fasteners, Item::joist_fasteners, Item::rail_fasteners,
                               Item::sole_fasteners,  Item::bench_fasteners, Item::deck_screws};
  constexpr std::array of_its_size{Item::framing_fasteners, Item::backing};
  if (is_any(row, fastens)) return holds.frame;
  if (is(row, Item::seat_block) || is(row, Item::adhesive)) return holds.seat;
  if (is(row, Item::framing_fasteners) && fastens_bench_apart(job)) return nothing;
  if (is_any(row, of_its_size) || row.blanks == Blanks::sheets) return holds.pieces;
  return any_cut_of(row, cuts, [&](const CutRow& cut) { return is_of_bench(cut, facts); }) ? holds.pieces : nothing;
}

bool is_counted_at_ends(const CutRow& cut) {
  return !cut.sheet && !cut.furring;
}

/// What is cut from stock or counted by studs that nobody read, or by fasteners that nobody named.
std::optional<Hold> hold_till_known(const Row& row, const std::vector<CutRow>& cuts, const job::Job& job,
                                    const facts::Facts& facts, const facts::Holds& holds) {
  for (const facts::Hold& upstand : facts.holds)
    if (is(row, Item::upstand_fasteners) && upstand.behind == facts::Behind::wall)
      if (auto wall = hold_till_framed(facts.room, upstand.side)) return wall;
  if (hangs_on_board(row, job)) return hold_till_board_stands(facts, holds);
  const auto block = std::find_if(cuts.begin(), cuts.end(), [](const CutRow& cut) {
    return is_counted_at_ends(cut) && cut.hold && cut.hold->on == HangsOn::studs;
  });
  if (block != cuts.end() && (is(row, Item::framing_fasteners) || block->stock == row.item)) return block->hold;
  if (holds.studs) {
    const auto waits = [](const CutRow& cut) { return cut.by_assumed_studs; };
    const bool at_cleat = job.bench && facts::are_studs_assumed(facts.room.studs, job.bench->place),
               at_ends = std::any_of(cuts.begin(), cuts.end(),
                                     [&](const CutRow&cut) { return waits(cut) && is_counted_at_ends(cut); });
    if (any_cut_of(row, cuts, waits) || (is(row, Item::upstand_fasteners) && !holds.loose.empty()) ||
        (is(row, Item::cleat_fasteners) && at_cleat) || (is(row, Item::framing_fasteners) && at_ends))
      return hold_on(HangsOn::studs, *holds.studs);
  }
  const bool screws = is(row, Item::furring_screws), staples = is(row, Item::shim_staples);
  const auto of_row = [&](const CutRow& cut) { return cut.furring && cut.is_shim() == staples; };
  const auto strip = std::find_if(cuts.begin(), cuts.end(), of_row);
  if ((screws || staples) && strip != cuts.end() &&
      std::all_of(cuts.begin(), cuts.end(), [&](const CutRow& cut) { return !of_row(cut) || cut.hold; }))
    return strip->hold;  // of what does not wait the row has the number
  if (holds.upstand && is(row, Item::upstand_fasteners)) return hold_on(HangsOn::fasteners, *holds.upstand);
  if (holds.cleat && is(row, Item::cleat_fasteners)) return hold_on(HangsOn::fasteners, *holds.cleat);
  if (holds.joists && is(row, Item::joist_fasteners)) return hold_on(HangsOn::fasteners, *holds.joists);
  if (holds.rail && is(row, Item::rail_fasteners)) return hold_on(HangsOn::fasteners, *holds.rail);
  return std::nullopt;
}

}  // namespace

void hold_back(std::vector<Row>& rows, const std::vector<CutRow>& cuts, const job::Job& job, const facts::Facts& facts,
               const facts::Holds& holds) {
  for (Row& row : rows) {
    if (is_of_furring(row)) continue;
    row.hold.reset();
    if (holds.base && hangs_on_base(row, job)) {
      row.hold = hold_on(HangsOn::base, *holds.base);
    } else if (holds.drain && (is(row, Item::drain) || is(row, Item::channel_drain))) {
      row.hold = hold_on(HangsOn::drain, *holds.drain);
    } else if (holds.liner && hangs_on_liner(row)) {
      row.hold = hold_on(HangsOn::liner, *holds.liner);
    } else if (const auto& by = bench_holds(row, cuts, job, facts, holds)) {
      row.hold = hold_on(HangsOn::bench, *by);
    } else {
      row.hold = hold_till_known(row, cuts, job, facts, holds);
    }
  }
}

std::string waits_text(const Hold& hold) {
  if (hold.check.empty()) return "first " + hold.first;
  return "hangs on the " + std::string{name_of(hold.on)} + ", which is not settled: '" + hold.title + "' fails";
}

}  // namespace fallwright::takeoff
