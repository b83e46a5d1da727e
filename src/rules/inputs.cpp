#include "rules/inputs.hpp"

#include <algorithm>
#include <optional>
#include <stdexcept>

#include "facts/furring.hpp"
#include "job/pipe.hpp"
#include "job/studs.hpp"
#include "rules/base_kind.hpp"
#include "rules/book.hpp"
#include "rules/joists.hpp"
#include "rules/loads.hpp"
#include "rules/spot.hpp"
#include "rules/words.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

using facts::Facts, facts::Role;
using job::Job;
using State = std::optional<Standing>;

std::string walls_text(const std::vector<std::string>& walls) {
  return units::listed(walls, ", ") + " wall" + (walls.size() > 1 ? "s" : "");
}

bool slab(const Job& job) {
  return job.floor.kind == job::FloorKind::slab;
}

std::vector<std::string> unread_studs(const Job& job) {
  std::vector<std::string> walls;
  for (const job::Side side : job.alcove.walls)
    if (are_studs_assumed(job, side)) walls.push_back(name_of(side));
  return walls;
}

Standing given(const Job& job, const char* key) {
  return job.is_default(key) ? Standing::assumed : Standing::as_designed;
}

/// What stands in the job file of joists that are there already was read on them.
Standing of_joists(const Job& job, const char* key) {
  return job.is_default(key) ? Standing::assumed : Standing::read;
}

/// What a tape says of a base that is there; of one from a file the file says it.
Standing of_bought(const Job& job, const std::vector<const char*>& keys) {
  const bool all = std::none_of(keys.begin(), keys.end(), [&](const char* key) { return job.is_default(key); });
  return all ? Standing::read : Standing::assumed;
}

Standing read_or(bool known, Standing otherwise) {
  return known ? Standing::read : otherwise;
}

/// A solid, as far as the model has one.
State of_role(const Facts& facts, Role role, Standing state) {
  const bool there =
      std::any_of(facts.parts.begin(), facts.parts.end(), [&](const auto& p) { return p.which.is(role); });
  return there ? State{state} : std::nullopt;
}

Standing levels(const Facts& facts) {
  return read_or(facts.room.floor.known && facts.room.floor.unread.empty(), Standing::missing);
}

std::string read_levels(const Job& job, const Facts& facts) {
  const auto& unread = facts.room.floor.unread;
  if (!facts.room.floor.known || unread.empty())
    return "take spot levels of the subfloor under the base, at its corners and middle at least (survey.floor)";
  std::vector<std::string> places;
  for (const facts::NamedPlace& p : unread)
    places.push_back("its " + p.name + " corner (" + place_of(p.at_mm, facts.room.faces, job) + ")");
  return "the spot levels do not span the base: take some near " + units::listed(places) + " as well (survey.floor)";
}

/// Two walls that meet are held against a square; two that face each other are parallel where both ends are as wide.
std::string read_two_walls(const Job& job) {
  if (job.alcove.is_passage() && job.survey.square)
    return "the walls are not parallel: measure four sides and both diagonals, from end to end of both (survey.plan), "
           "in place of survey.square";
  if (job.alcove.is_passage())
    return "measure between the left and right walls at the floor, at the back and at the front, and say whether both "
           "widths are one (survey.square)";
  if (!job.survey.square)
    return "hold a framing square to the corner, and say whether it lies without a gap (survey.square)";
  return "the corner is out of square, and a room of two walls is modelled square: measure from the base's edge to "
         "each stud once it stands there";
}

std::string read_plan(const Job& job, const Facts& facts) {
  if (!told_by_figure(job)) return read_two_walls(job);
  const auto& left = facts.room.closure.missing;
  return "measure the alcove at the floor: " +
         (left.size() == 6 ? "its four sides and both diagonals" : units::listed(left, ", ")) + " (survey.plan)";
}

std::string read_plumb(const Job&, const Facts& facts) {
  return "plumb the " + walls_text(job::names_of(facts.room.not_plumbed)) + " (survey.plumb)";
}

/// What one key tells, and whether it is in the job file.
struct Told {
  bool known = false;
  const char *words, *key;
};

/// Asks for what is missing, and for that alone: keys of one section, the first with its name.
std::string still_to_say(const std::string& before, const std::string& section, const std::vector<Told>& all) {
  std::vector<std::string> words, keys;
  for (const Told& one : all)
    if (!one.known) words.emplace_back(one.words), keys.push_back((keys.empty() ? section : "") + one.key);
  return before + units::listed(words) + " (" + units::listed(keys, ", ") + ")";
}

bool has_steel_frame(const Job& job) {
  return job.bench && job.bench->frame.kind == job::FrameKind::steel;
}

/// What holds one joint of the bench: its keys tell which fasteners, how long and how many; where some are known the
/// others are asked for in words. All begin alike, so that several are told in one line (`by_stops`).
std::string fasteners_to_say(const std::string& place, const std::vector<Told>& all) {
  const bool none = std::none_of(all.begin(), all.end(), [](const Told& t) { return t.known; });
  const std::string before = "say what fasteners hold the bench: " + place;
  if (!none) return still_to_say(before + ", ", "bench.frame.", all);
  std::vector<std::string> keys;
  for (const Told& one : all) keys.push_back((keys.empty() ? "bench.frame." : "") + std::string{one.key});
  return before + " (" + units::listed(keys, ", ") + ")";
}

std::string cleat_to_say(const Job& job) {
  const job::BenchFrame& f = job.bench->frame;
  return fasteners_to_say(has_steel_frame(job) ? "wall track to studs" : "wall cleat to studs",
                          {{f.fastener.has_value(), "which they are", "fastener"},
                           {f.fastener_length.has_value(), "how long they are", "fastener_length"},
                           {f.fasteners_at_stud.has_value(), "how many go into each stud", "fasteners_at_stud"}});
}

/// A tapping screw through track and joist has a length that decides nothing.
std::string joists_to_say(const Job& job) {
  const job::BenchFrame& f = job.bench->frame;
  const bool steel = has_steel_frame(job);
  std::vector<Told> all{{f.joist_fastener.has_value(), "which they are", "joist_fastener"},
                        {f.fasteners_at_joist.has_value(), "how many there are", "fasteners_at_joist"}};
  if (!steel)
    all.insert(all.begin() + 1, {f.joist_fastener_length.has_value(), "how long they are", "joist_fastener_length"});
  return fasteners_to_say(steel ? "joists to wall track" : "joists to cleat", all);
}

std::string rail_to_say(const Job& job) {
  const job::BenchFrame& f = job.bench->frame;
  return fasteners_to_say("front rail to joists",
                          {{f.rail_fastener.has_value(), "which they are", "rail_fastener"},
                           {f.rail_fastener_length.has_value(), "how long they are", "rail_fastener_length"},
                           {f.fasteners_at_rail.has_value(), "how many there are", "fasteners_at_rail"}});
}

/// How far apart they are the job file knows, or takes as usual.
std::string deck_to_say(const Job& job) {
  const job::BenchFrame& f = job.bench->frame;
  return fasteners_to_say("deck to rail and joists",
                          {{f.deck_fastener.has_value(), "which they are", "deck_fastener"},
                           {f.deck_fastener_length.has_value(), "how long they are", "deck_fastener_length"}});
}

Standing upright(const Job& job, const Facts& facts) {
  return read_or(facts.room.not_plumbed.empty(), job.walls.existing ? Standing::assumed : Standing::as_designed);
}

State plan(const Job& job, const Facts& facts) {
  if (told_by_figure(job)) return read_or(facts.room.closure.solved, Standing::missing);
  if (job.alcove.walls.size() < 2) return std::nullopt;
  return read_or(job.survey.square.value_or(false), Standing::missing);
}

/// One input: how far it is known, and what to read where it is not.
struct Row {
  Input input;
  const char* name;
  State (*state)(const Job&, const Facts&);
  std::string (*read)(const Job&, const Facts&);
};

using J = const Job&;
using F = const Facts&;

// A row's state and its words, as functions of the job `j` and the facts `f`.
#define STATE(expression) [](J j, F f) -> State { return (void)j, (void)f, expression; }
#define READ(text) [](J, F) -> std::string { return text; }

/// In the order one walks the room with tape and level.
const std::vector<Row>& readings() {
  static const std::vector<Row> rows{
      {Input::sizes, "the alcove's width and depth", STATE(read_or(f.room.closure.solved, Standing::as_designed)),
       READ("measure the alcove (survey.plan)")},
      {Input::plan, "sides and diagonals of the alcove", STATE(plan(j, f)), read_plan},
      {Input::outline, "sides and diagonals of the alcove", STATE(outline_known(j, f)), read_plan},
      {Input::plumb, "leans of the walls", STATE(read_or(f.room.not_plumbed.empty(), Standing::missing)), read_plumb},
      {Input::upright, "leans of the walls", STATE(upright(j, f)), read_plumb},
      {Input::leans, "leans of the walls", STATE(upright(j, f)), read_plumb},
      {Input::base_leans, "leans of the walls", STATE(j.base.is_site_built() ? State{upright(j, f)} : std::nullopt),
       read_plumb},
      {Input::widths, "widths at heights", STATE(read_or(!f.room.widths.empty(), Standing::missing)),
       READ("measure the width at the height the base is let down from (survey.width)")},
      {Input::narrow_places, "widths at heights", STATE(f.room.widths.empty() ? std::nullopt : State{Standing::read}),
       READ("")},
      {Input::levels, "spot levels of the subfloor", STATE(levels(f)), read_levels},
      {Input::floor_shape, "spot levels of the subfloor",
       STATE(levels(f) == Standing::read ? Standing::read : Standing::assumed), read_levels},
      {Input::studs, "places of the studs",
       STATE(!j.walls.existing         ? Standing::as_designed
             : unread_studs(j).empty() ? Standing::read
                                       : Standing::assumed),
       [](J j, F) { return studs_to_find(walls_text(unread_studs(j)), "which nobody read"); }},
      {Input::joists, "places of the floor joists",
       STATE(slab(j) ? std::nullopt : State{read_or(j.floor.joist_first.has_value(), Standing::missing)}),
       [](J j, F) { return unknown_joists(j); }},
      {Input::joist_run, "which way the floor joists run",
       STATE(slab(j) ? std::nullopt : State{of_joists(j, "floor.joists.direction")}),
       [](J j, F) {
         return j.floor.joist_first ? "find which way the floor joists run (floor.joists.direction)"
                                    : unknown_joists(j);
       }},
      {Input::joist_stock, "size of the floor joists",
       STATE(slab(j) ? std::nullopt : State{of_joists(j, "floor.joists.stock")}),
       [](J j, F) {
         return j.floor.joist_first ? "measure how thick and how deep the floor joists are (floor.joists.stock)"
                                    : unknown_joists(j);
       }},
      {Input::joist_spacing, "spacing of the floor joists",
       STATE(slab(j) ? std::nullopt : State{of_joists(j, "floor.joists.spacing")}),
       [](J j, F) {
         return j.floor.joist_first ? "measure the spacing of the floor joists (floor.joists.spacing)"
                                    : unknown_joists(j);
       }},
      {Input::joist_span, "span of the floor joists",
       STATE(slab(j) ? std::nullopt : State{read_or(j.floor.joist_span.has_value(), Standing::missing)}),
       [](J j, F) { return unknown_joists(j); }},
      {Input::joist_species, "species and grade of the floor joists",
       STATE(slab(j) ? std::nullopt : State{read_or(!j.floor.joist_species.empty(), Standing::missing)}),
       [](J j, F) { return unknown_joists(j); }},
      {Input::deck, "thickness of the floor's deck", STATE(slab(j) ? std::nullopt : State{given(j, "floor.deck")}),
       READ("measure the thickness of the floor's deck, at the bore or a register (floor.deck)")},
      {Input::finish_outside, "finished floor outside",
       STATE(read_or(f.heights.outside.has_value(), Standing::missing)),
       READ("measure the bath's finished floor in front of the entry (floor.finish_outside)")},
      {Input::floor_before, "the free floor in front of the entry",
       STATE(read_or(j.floor.clear_along && j.floor.clear_before, Standing::missing)),
       [](J j, F) {
         return still_to_say(
             "measure the free floor in front of the entry: ", "",
             {{j.floor.clear_along.has_value(), "along it from the wall with the controls", "floor.clear_along"},
              {j.floor.clear_before.has_value(), "out from it", "floor.clear_before"}});
       }},
      {Input::board, "thickness of the wall board", STATE(read_or(j.survey.board_mm.has_value(), Standing::assumed)),
       READ("say how thick the wall board is (survey.board)")},
      {Input::wall_build_up, "the walls' build-up",
       STATE(j.alcove.walls.empty() ? std::nullopt : State{read_or(is_build_up_known(f), Standing::assumed)}),
       [](J, F f) { return build_up_to_read(f); }},
      {Input::waterproof_top, "height of the walls' waterproofing", STATE(given(j, "tile.height")),
       READ(job::tile_to_say)},
      {Input::drain_body, "the drain's body", STATE(given(j, "drain.body")),
       READ("measure the outside of the drain's body below the base (drain.body)")},
      {Input::drain_depth, "how deep the drain's body hangs", STATE(given(j, "drain.body_depth")),
       READ("measure how far the drain's body reaches below its top (drain.body_depth)")},
      {Input::drain_outlet, "the drain's outlet", STATE(given(j, "drain.outlet")),
       READ("measure the inside of the drain's outlet (drain.outlet)")},
      {Input::hole, "the hole in the floor about the waste",
       STATE(f.bought && f.bought->waste_aside_mm ? State{given(j, "drain.bore")} : std::nullopt),
       READ("measure the hole in the floor about the waste (drain.bore)")},
      {Input::waste, "place of the room's waste",
       STATE(!f.bought                                             ? std::nullopt
             : f.bought->waste_aside_mm || f.bought->waste_back_mm ? State{Standing::read}
             : j.walls.existing                                    ? State{Standing::missing}
                                                                   : std::nullopt),
       READ("measure where the room's waste stands: its centre from the left or right and from the back, or the entry "
            "(drain.waste_from_left or drain.waste_from_right, drain.waste_from_back or drain.waste_from_front)")},
      {Input::ribs, "ribs under the base",
       STATE(!f.bought ? std::nullopt : State{read_or(f.bought->ribs_known, Standing::missing)}),
       READ("turn the base over and measure its ribs: how many, how thick, how deep (base.ribs)")},
      {Input::opening, "the opening for the drain",
       STATE(!f.bought ? std::nullopt : State{of_bought(j, {"drain.opening", "drain.size"})}),
       READ("measure the opening for the drain: round or square, and how wide (drain.opening, drain.size)")},
      {Input::upstand_sides, "the sides that turn up",
       STATE(!f.bought ? std::nullopt : State{of_bought(j, {"base.upstands.sides"})}),
       READ("say which sides of the base turn up (base.upstands.sides)")},
      {Input::threshold_fall, "how the threshold's top falls",
       STATE(!f.bought ? std::nullopt : State{of_bought(j, {"base.threshold.fall"})}),
       READ("lay the base level and read how its threshold's top falls: up on a level's low end, over its width "
            "(base.threshold.fall)")},
      {Input::rim, "the rim as it lies in the bed", STATE(f.room.as_set.read ? State{Standing::read} : std::nullopt),
       READ("")},
      {Input::liner, "the liner", STATE(j.liner && !is_bonded(j) ? State{Standing::read} : std::nullopt), READ("")},
      {Input::liner_fall, "the liner", STATE(j.liner && !f.site_built ? State{Standing::read} : std::nullopt),
       READ("")},
      {Input::membrane_top, "height of the walls' waterproofing",
       STATE(is_bonded(j) ? State{given(j, "tile.height")} : std::nullopt), READ(job::tile_to_say)},
      {Input::trap, "the trap and its arm", STATE(read_or(j.trap.has_value(), Standing::missing)),
       [](J j, F) {
         return "find how the drain's pipe runs: the arm's length, fall and size" +
                std::string{slab(j) ? "" : ", holes and notches in joists"} + " ([trap])";
       }},
      {Input::pipe, "the trap arm's pipe",
       STATE(!j.trap            ? std::nullopt
             : j.trap->pipe     ? State{Standing::read}
             : job::arm_pipe(j) ? State{Standing::as_designed}
                                : State{Standing::assumed}),
       READ("say which pipe the trap arm is (trap.pipe)")},
      {Input::weir, "height of the trap's weir",
       STATE(!j.trap ? std::nullopt : State{read_or(j.trap->weir.has_value(), Standing::missing)}),
       READ("measure how deep the arm's lowest inside lies where it leaves the trap (trap.weir)")},
      {Input::route, "the trap arm's way", STATE(!j.trap || slab(j) ? std::nullopt : State{route_known(j, f)}),
       [](J j, F f) { return read_route(j, f); }},
      {Input::bearing, "where the floor joists' span begins",
       STATE(slab(j) || !j.trap || !j.trap->notch  // a notch alone asks for it
                 ? std::nullopt
                 : State{read_or(j.floor.joist_bearing && j.floor.joist_span, Standing::missing)}),
       [](J j, F) {
         return still_to_say(
             "find ", "",
             {{j.floor.joist_bearing.has_value(), "where the floor joists bear", "floor.joists.bearing"},
              {j.floor.joist_span.has_value(), "how far they span", "floor.joists.span"}});
       }},
      {Input::flow, "water of the shower's heads", STATE(read_or(j.drain.flow_mm3.has_value(), Standing::missing)),
       READ("say what all heads of the shower give in a minute (drain.flow)")},
      {Input::glass, "panes at the entry", STATE(j.glass ? State{Standing::read} : std::nullopt), READ("")},
      {Input::door, "the door's clear opening",
       STATE(!j.door ? std::nullopt
                     : State{read_or(j.door->clear || j.door->kind == job::DoorKind::curtain, Standing::missing)}),
       READ("measure what stays free at the entry when its door stands open, between frame, leaf and handle "
            "(door.clear)")},
      {Input::door_kind, "how the door opens",
       STATE(!j.door ? std::nullopt : State{read_or(j.door->kind.has_value(), Standing::missing)}),
       READ("say how the door opens (door.kind)")},
      {Input::bench_species, "species of the bench's timber", STATE(bench_species_known(j)),
       READ("say which timber the bench is framed of, by its stamp (bench.frame.species)")},
      {Input::cleat_held, "what holds the bench at the wall",
       STATE(!j.bench || !f.cleat ? std::nullopt
                                  : State{read_or(j.bench->frame.fastener && j.bench->frame.fastener_length &&
                                                      j.bench->frame.fasteners_at_stud,
                                                  Standing::missing)}),
       [](J j, F) { return cleat_to_say(j); }},
      {Input::joists_held, "what holds the bench's joists",
       STATE(!j.bench || !f.cleat ? std::nullopt
                                  : State{read_or(j.bench->frame.joist_fastener && j.bench->frame.fasteners_at_joist &&
                                                      (j.bench->frame.kind == job::FrameKind::steel ||
                                                       j.bench->frame.joist_fastener_length),
                                                  Standing::missing)}),
       [](J j, F) { return joists_to_say(j); }},
      {Input::rail_held, "what holds the bench's front rail",
       STATE(!j.bench || !f.rail ? std::nullopt
                                 : State{read_or(j.bench->frame.rail_fastener && j.bench->frame.rail_fastener_length &&
                                                     j.bench->frame.fasteners_at_rail,
                                                 Standing::missing)}),
       [](J j, F) { return rail_to_say(j); }},
      {Input::deck_held, "what holds the bench's deck",
       STATE(!j.bench || !f.rail ? std::nullopt
                                 : State{read_or(j.bench->frame.deck_fastener && j.bench->frame.deck_fastener_length,
                                                 Standing::assumed)}),
       [](J j, F) { return deck_to_say(j); }},
      {Input::edge_strength, "strength of the seat block's edge",
       STATE(!j.bench || !f.seat_edge
                 ? std::nullopt
                 : State{read_or(j.bench->nose_carries_kg || j.bench->strength_mpa, Standing::missing)}),
       READ("ask the seat block's maker what may stand on its edge (bench.nose_carries), or how strong the block is in "
            "bending (bench.strength)")},
      {Input::bends, "bends of the trap arm",
       STATE(!j.trap ? std::nullopt : State{read_or(j.trap->to || !j.trap->bends.empty(), Standing::missing)}),
       READ("say to which side of the alcove the trap arm runs (trap.to), and give each of its bends (trap.bend)")},
      {Input::fixtures, "what is screwed to the walls",
       STATE(j.fixtures.empty() ? std::nullopt : State{Standing::as_designed}), READ("")},
      {Input::mix, "the site mix", STATE(j.buy.mix.any() ? State{Standing::as_designed} : std::nullopt), READ("")},
  };
  return rows;
}

const std::vector<Row>& solids() {
  static const std::vector<Row> rows{
      {Input::base, "base", STATE(of_role(f, Role::base, Standing::as_designed)), READ("")},
      {Input::bed, "bed", STATE(of_role(f, Role::bed, Standing::as_designed)), READ("")},
      {Input::pre_slope, "bed", STATE(f.site_built ? of_role(f, Role::bed, Standing::as_designed) : std::nullopt),
       READ("")},
      {Input::bed_as_spread, "bed as spread", STATE(of_role(f, Role::bed_spread, Standing::as_designed)), READ("")},
      {Input::subfloor, "subfloor",
       STATE(of_role(f, Role::subfloor, levels(f) == Standing::read ? Standing::read : Standing::as_designed)),
       READ("")},
      {Input::joist_solids, "joists", STATE(of_role(f, Role::joist, Standing::read)), READ("")},
      {Input::walls, "walls", STATE(of_role(f, Role::wall, read_or(f.room.closure.solved, Standing::as_designed))),
       READ("")},
      {Input::bench_frame, "bench frame", STATE(of_role(f, Role::bench_frame, Standing::as_designed)), READ("")},
      {Input::seat_block, "seat block", STATE(of_role(f, Role::seat_block, Standing::as_designed)), READ("")},
      {Input::every_solid, "every solid", STATE(f.parts.empty() ? std::nullopt : State{Standing::as_designed}),
       READ("")},
      {Input::drain, "drain", STATE(of_role(f, Role::drain, Standing::as_designed)), READ("")},
  };
  return rows;
}

#undef STATE
#undef READ

const Row& row_of(Input input) {
  for (const auto* rows : {&readings(), &solids()})
    for (const Row& row : *rows)
      if (row.input == input) return row;
  throw std::logic_error{"an input without a row"};
}

/// Of the solid that an input is; none: of all of them, or of what is none.
std::optional<Role> role_of(Input input) {
  switch (input) {
    case Input::base:
      return Role::base;
    case Input::bed:
    case Input::pre_slope:
      return Role::bed;
    case Input::bed_as_spread:
      return Role::bed_spread;
    case Input::subfloor:
      return Role::subfloor;
    case Input::joist_solids:
      return Role::joist;
    case Input::walls:
      return Role::wall;
    case Input::bench_frame:
      return Role::bench_frame;
    case Input::seat_block:
      return Role::seat_block;
    case Input::drain:
      return Role::drain;
    default:
      return std::nullopt;
  }
}

}  // namespace

std::string studs_to_find(const std::string& walls, const std::string& more) {
  return "find the studs and give their centres (survey.studs): of the " + walls + ", " + more;
}

const char* name_of(Input input) {
  return row_of(input).name;
}

bool is_solid(Input input) {
  return std::any_of(solids().begin(), solids().end(), [&](const Row& row) { return row.input == input; });
}

Stop stop_of(std::size_t turn) {
  if (turn >= readings().size()) return Stop::alone;
  switch (readings()[turn].input) {
    case Input::studs:
      return Stop::studs;
    case Input::board:
    case Input::wall_build_up:
    case Input::waterproof_top:
      return Stop::finish;
    case Input::drain_body:
    case Input::drain_depth:
    case Input::drain_outlet:
    case Input::hole:
    case Input::flow:
      return Stop::drain;
    case Input::trap:
    case Input::pipe:
    case Input::weir:
    case Input::route:
    case Input::bends:
      return Stop::trap;
    case Input::bench_species:
    case Input::cleat_held:
    case Input::joists_held:
    case Input::rail_held:
    case Input::deck_held:
    case Input::edge_strength:
      return Stop::bench_frame;
    default:
      return Stop::alone;
  }
}

std::vector<Support> supports_of(const std::vector<Input>& inputs, const Job& job, const Facts& facts) {
  std::vector<Support> supports;
  for (const Input input : inputs) {
    const Row& row = row_of(input);
    const State state = row.state(job, facts);
    if (!state) continue;
    const bool known = *state == Standing::read || *state == Standing::as_designed;
    const bool solid = is_solid(input);
    const std::size_t turn = solid ? no_turn : static_cast<std::size_t>(&row - readings().data());
    supports.push_back({row.name, solid, *state, known ? "" : row.read(job, facts), turn, role_of(input)});
  }
  return supports;
}

}  // namespace fallwright::rules
