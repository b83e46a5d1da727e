/// What a check rests on: readings and solids, and how far each of them is known in a job. One table; a check lists its
/// inputs in its own row.
#pragma once

#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

enum class Input {
  // readings
  sizes,          ///< the alcove's width and depth
  plan,           ///< sides and diagonals: the corners' angles
  outline,        ///< the same where a base built on site fills the room, and some were read or are known to be askew
  plumb,          ///< leans of all walls
  upright,        ///< the same where walls may be as designed, or taken as plumb
  leans,          ///< likewise, of what is no length between walls that a tape reads
  base_leans,     ///< likewise, where the base is built on site, to the walls as they lean
  widths,         ///< at some height, against walls as plumbed
  narrow_places,  ///< the same, where any was read
  levels,         ///< spot levels that span the base's footprint
  floor_shape,    ///< the same where a floor that nobody read is taken as level
  studs,          ///< where the studs stand
  joists,         ///< where the joists lie
  joist_run,      ///< which way they do
  joist_stock,    ///< their width and depth
  joist_spacing,
  joist_span,
  joist_species,
  deck,  ///< its thickness
  finish_outside,
  floor_before,    ///< free floor in front of the entry
  board,           ///< its thickness
  wall_build_up,   ///< from stud face to finished face
  waterproof_top,  ///< of the walls
  drain_body,
  drain_depth,  ///< of the body's lowest point
  drain_outlet,
  hole,            ///< in the floor about a waste that stands: its width
  waste,           ///< that stands in the room already, against a bought base
  ribs,            ///< of a bought base's underside
  opening,         ///< for the drain in a bought base
  upstand_sides,   ///< of a bought base: which turn up
  threshold_fall,  ///< of a bought base's threshold
  rim,             ///< as it lies in the wet bed
  liner,
  liner_fall,    ///< where the job file tells of it
  membrane_top,  ///< of a bonded one, on the walls
  trap,
  pipe,           ///< the trap arm's size
  weir,           ///< its height
  route,          ///< the side that the arm runs to
  bearing,        ///< where the joists' span begins
  flow,           ///< of the shower's heads
  glass,          ///< panes at the entry
  door,           ///< what it leaves free
  door_kind,      ///< how it opens
  bench_species,  ///< of its timber, and grade
  cleat_held,     ///< what holds the bench's wall cleat, or wall track
  joists_held,    ///< what holds its joists to that
  rail_held,      ///< what holds its front rail to those
  deck_held,      ///< what holds its deck down to rail and joists
  edge_strength,  ///< the seat block's, where it reaches past its deck
  bends,          ///< of the trap arm
  fixtures,
  mix,
  // solids
  base,
  bed,
  pre_slope,  ///< the bed again, where a liner lies on it
  bed_as_spread,
  subfloor,
  joist_solids,
  walls,
  bench_frame,
  seat_block,
  drain,
  every_solid,
};

/// "spot levels of the subfloor", "base".
const char* name_of(Input input);
bool is_solid(Input input);

/// "find the studs and give their centres (survey.studs): of the back wall, which nobody read": all begin alike, so
/// that several are told in one line.
std::string studs_to_find(const std::string& walls, const std::string& more);

/// Where one stands to read it: what is read at one such place can be told in one line. `alone`: with nothing else.
enum class Stop { alone, studs, finish, drain, trap, bench_frame };
Stop stop_of(std::size_t turn);  ///< of a reading's turn, as supports and readings carry it

/// How far each input is known. One that the job does not have (joists of a slab, a bench that is not there) is left
/// out.
std::vector<Support> supports_of(const std::vector<Input>& inputs, const job::Job& job, const facts::Facts& facts);

}  // namespace fallwright::rules
