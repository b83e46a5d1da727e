#include "rules/rejected.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "rules/check.hpp"
#include "rules/inputs.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

/// Checks of the base's own shape and heights, of the bed that it lies in, and of the floor that this is measured from:
/// while one of them fails it is another base that will be set, or this one at another height. Not of it are checks
/// that are mended round it: studs are furred, walls waterproofed higher, joists and decks strengthened from below; low
/// places of a floor are filled up to its highest, which all heights are told from.
constexpr std::array of_its_shape{
    "survey.closes", "survey.widths-agree", "floor.hump",  // the room it is made for, and what heights are told from
    "floor.fall-least", "floor.fall-greatest", "floor.drains", "threshold.falls-inward", "threshold.drains",
    "base.hand", "base.over-waste", "threshold.height-least", "threshold.height-greatest", "threshold.below-upstand",
    "threshold.step-inside", "threshold.step-outside", "threshold.above-outside", "threshold.bevel", "entry.step",
    "upstand.every-wall", "clear.area", "clear.width", "clear.circle", "access.inside-width", "access.inside-depth",
    "access.opening", "access.face",
    "drain.clear-of-finish",  // walls stand farther apart, or the bench takes less: another base between them
    "base.cover",             // under a thicker one the bed is another
    "bed.thickness", "bed.least", "bed.bearing", "bed.round-drain", "bed.fills-shell", "liner.fall",
    // A model that is not sound, or in which two things share a place, has no number to work to.
    "solids.valid", "fit.no-clash"};
/// Of the drain itself.
constexpr std::array of_the_drain{"drain.outlet", "drain.in-bore"};
/// Of how wide its bore is, wherever it goes.
constexpr std::array of_the_bore{"drain.in-bore"};
/// Of how high a liner turns up, and how wide it is cut by that.
constexpr std::array of_the_liner{"liner.above-threshold", "liner.above-seat"};
/// Of the seat block alone, whose foot is level on the same frame.
constexpr std::array of_the_block{"seat.fall-least", "seat.fall-greatest", "seat.drains", "seat.keeps-frame-dry",
                                  "seat.rear-gap",   "seat.side-gap",      "seat.goes-in"};
/// Checks of a bench's seat and of what carries it: while one of them fails other pieces are cut.
constexpr std::array of_the_seat{"seat.height", "seat.depth", "seat.reach", "load.seat-nose", "access.opening"};
constexpr std::array of_the_frame{"load.seat-strength", "load.seat-deflection"};
/// Checks of what holds those: the same pieces, fastened otherwise.
constexpr std::array of_its_joints{"load.seat-cleat", "load.seat-push", "load.seat-rail"};
/// Of what carries all of it: mended from below, or with another deck, before anything is laid on it.
constexpr std::array of_the_floor{"load.joists-strength", "load.joists-deflection", "load.deck", "floor.deck-span"};
/// Of the wall board: what it hides, and how high it goes.
constexpr std::array of_the_board{"blocking.behind",  "fixture.above-water", "fixture.clear-of-bench", "fixture.clear",
                                  "wall.above-floor", "wall.above-drain",    "wall.above-room"};
constexpr std::array of_how_high_it_goes{"wall.above-floor", "wall.above-drain", "wall.above-room"};

/// The first that fails of such checks, as they are told.
template <std::size_t n>
const Result* failing(const std::vector<Result>& results, const std::array<const char*, n>& ids) {
  const auto fails = std::find_if(results.begin(), results.end(), [&](const Result& r) {
    return r.outcome == Outcome::fail && std::find(ids.begin(), ids.end(), std::string_view{r.id}) != ids.end();
  });
  return fails == results.end() ? nullptr : &*fails;
}

std::optional<facts::Held> held_by(const Result* fails) {
  if (!fails) return std::nullopt;
  return facts::Held{fails->id, fails->title};
}

}  // namespace

const Result* shut_base(const std::vector<Result>& results, const facts::Facts& facts) {
  if (facts.site_built) return nullptr;
  const Result* found = nullptr;
  for (const Result& r : results) {
    if (r.outcome != Outcome::fail || !r.measured) continue;
    if (r.id == "room.goes-in" || r.id == "room.drop-in") return &r;
    // An alcove that leaves too much fails too.
    if (!found && (r.id == "opening.width" || r.id == "opening.depth") && *r.measured < 0) found = &r;
  }
  return found;
}

bool cuts_a_joist(const Result& unsettled) {
  return unsettled.id == "drain.bore-clear-of-joists";
}

bool moves_the_drain(const Remedy& remedy) {
  return std::any_of(remedy.changes.begin(), remedy.changes.end(),
                     [](const job::Change& change) { return change.key.starts_with("drain.from_"); });
}

bool moves_the_drain(const Result& r) {
  return std::any_of(r.remedies.begin(), r.remedies.end(),
                     [](const Remedy& remedy) { return moves_the_drain(remedy); });
}

const Result* unsettled_drain(const std::vector<Result>& results, const facts::Facts& facts) {
  const Result* found = nullptr;
  for (const Result& r : results) {
    if (r.outcome != Outcome::fail) continue;
    if (cuts_a_joist(r)) return &r;
    if (!found && (r.other_drain || moves_the_drain(r))) found = &r;
  }
  if (found) return found;
  const auto& bought = facts.bought;  // where a waste stands the drain has its place by that
  return bought && (bought->waste_aside_mm || bought->waste_back_mm) ? nullptr : shut_base(results, facts);
}

const Result* rejected_base(const std::vector<Result>& results, const facts::Facts& facts) {
  if (const Result* shut = shut_base(results, facts)) return shut;
  if (const Result* unsettled = unsettled_drain(results, facts)) return unsettled;
  return failing(results, of_its_shape);
}

const Result* rejected_drain(const std::vector<Result>& results) {
  return failing(results, of_the_drain);
}

const Result* rejected_bore(const std::vector<Result>& results) {
  return failing(results, of_the_bore);
}

const Result* rejected_liner(const std::vector<Result>& results) {
  return failing(results, of_the_liner);
}

const Result* rejected_seat(const std::vector<Result>& results) {
  const Result* seat = failing(results, of_the_seat);
  return seat ? seat : failing(results, of_the_block);
}

const Result* rejected_pieces(const std::vector<Result>& results) {
  const Result* seat = failing(results, of_the_seat);
  return seat ? seat : failing(results, of_the_frame);
}

const Result* rejected_frame(const std::vector<Result>& results) {
  const Result* pieces = rejected_pieces(results);
  return pieces ? pieces : failing(results, of_its_joints);
}

const Result* rejected_board(const std::vector<Result>& results) {
  return failing(results, of_the_board);
}

bool goes_too_low(const Result& board) {
  return board.id.starts_with("wall.");
}

const Result* rejected_plate(const std::vector<Result>& results, const facts::Backing& plate) {
  const auto breaks = [&](const Result& r) {
    if (r.id == "blocking.behind")
      return !plate.stud_can && plate.share - plate.assumed < r.limit.least.value_or(1) - units::tolerance::ratio;
    if (r.id == "fixture.above-water")
      return plate.above_water_mm < r.limit.least.value_or(0) - units::tolerance::length_mm;
    if (r.id == "fixture.clear")
      return std::any_of(plate.beside.begin(), plate.beside.end(), [&](const facts::PlateBeside& b) {
        return b.gap_mm < r.limit.least.value_or(0) - units::tolerance::length_mm;
      });
    return r.id == "fixture.clear-of-bench" && plate.behind_bench > r.limit.greatest.value_or(0);
  };
  const auto fails = std::find_if(results.begin(), results.end(),
                                  [&](const Result& r) { return r.outcome == Outcome::fail && breaks(r); });
  return fails == results.end() ? nullptr : &*fails;
}

const Result* rejected_hold(const std::vector<Result>& results, const facts::Hold& hold) {
  const Result* held = find(results, "upstand.held");
  const bool breaks =
      held && !hold.assumed && hold.sure_apart_mm > held->limit.greatest.value_or(0) + units::tolerance::length_mm;
  return breaks && held->outcome == Outcome::fail ? held : nullptr;
}

facts::Holds holds_of(const std::vector<Result>& results, const facts::Facts& facts) {
  facts::Holds holds{held_by(rejected_base(results, facts)), held_by(rejected_liner(results)),
                     held_by(rejected_seat(results)),        held_by(rejected_pieces(results)),
                     held_by(rejected_frame(results)),       held_by(rejected_drain(results))};
  holds.floor = held_by(failing(results, of_the_floor));
  holds.board = held_by(failing(results, of_how_high_it_goes));
  const auto comes_first = [&](facts::WallFirst what) {
    const std::array walls{survey::Side::left, survey::Side::back, survey::Side::right};
    return std::any_of(walls.begin(), walls.end(),
                       [&](survey::Side side) { return facts::first_at(facts.room.studs, side) == what; });
  };
  const Result* gap = find(results, "room.stud-gap");
  if (comes_first(facts::WallFirst::frame) || comes_first(facts::WallFirst::plumb)) holds.walls = held_by(gap);
  if (comes_first(facts::WallFirst::say_tile)) holds.tile = held_by(gap);
  return holds;
}

namespace {

/// What is to be read or said of one input; nothing where that is known, or not of this job.
std::optional<facts::Held> unread(Input input, const job::Job& job, const facts::Facts& facts) {
  for (const Support& support : supports_of({input}, job, facts))
    if (!support.read.empty()) return facts::Held{"", "", support.read};
  return std::nullopt;
}

}  // namespace

void add_unread(facts::Holds& holds, const job::Job& job, const facts::Facts& facts,
                const std::vector<Result>& results) {
  holds.studs = unread(Input::studs, job, facts);
  holds.cleat = unread(Input::cleat_held, job, facts);
  holds.rail = unread(Input::rail_held, job, facts);
  holds.joists = unread(Input::joists_held, job, facts);
  const Result* held = find(results, "upstand.held");
  if (!held || !held->limit.greatest) return;
  for (const facts::Hold& hold : facts.holds) {
    if (const Result* fails = rejected_hold(results, hold)) holds.upstand = facts::Held{"", "", fails->advice};
    if ((hold.assumed && hold.sure_apart_mm > *held->limit.greatest + units::tolerance::length_mm) ||
        (hold.behind == facts::Behind::wall && facts::wall_waits(facts.room.studs, hold.side)))
      holds.loose.push_back(hold.side);
  }
}

}  // namespace fallwright::rules
