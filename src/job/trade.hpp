/// What other trades add to a room: liner, pipe, fixtures, and the rule book they answer to.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "survey/readings.hpp"
#include "units/fall.hpp"
#include "units/length.hpp"

namespace fallwright::job {

using survey::Side;
using units::Fall;
using units::Length;

/// Limits the user overrides; absent means the rule's own. Keys are the rule ids with '-' as in `rules`.
struct Limit {
  std::string key;     ///< as in schema and `rules`, for example "floor-fall-least"
  double value = 0;    ///< SI: mm, mm2, ratio
  std::string source;  ///< where it comes from, in the user's words; may be empty
};

/// What was read of a waterproof liner; a preformed base has none.
struct Liner {
  std::optional<Length> above_threshold, above_seat;
  std::optional<Fall> fall;  ///< of what it lies on
};

/// A level bend of the trap arm.
struct Bend {
  double degrees = 90;          ///< by how much it turns
  std::optional<Length> after;  ///< along the arm, from the weir
  std::optional<Side> to;       ///< the side of the alcove that the arm runs to from there, square to it
};

/// The drain's pipe below the floor, as far as it is known. Heights above the datum, as a rule negative.
struct Trap {
  std::optional<Length> arm;  ///< from weir to vent
  std::optional<Fall> fall;
  std::optional<Length> hole, notch;                     ///< that it takes from a joist
  std::optional<Length> pipe = {};                       ///< its nominal size, one of those in pipe.hpp
  std::optional<Length> outside = {};                    ///< of the pipe, as measured
  std::optional<Length> hub = {};                        ///< height of the stop in the trap's hub, where the riser ends
  std::optional<Length> weir = {};                       ///< height of the arm's lowest inside where it leaves the trap
  std::optional<Length> from_left = {}, from_back = {};  ///< hub's centre, from the alcove's stud faces
  std::optional<Side> to = {};                           ///< the side of the alcove that the arm runs to, square to it
  std::optional<bool> vented = {};                       ///< a vent is connected at the arm's end
  std::vector<Bend> bends = {};                          ///< in the order that the water meets them
  std::optional<bool> cleanout = {};                     ///< one serves its bends
};

/// Panes that stand on or beside the base.
struct Glass {
  std::optional<Length> thickness, height, width;  ///< width: of all panes along the entry
  std::optional<bool> marked;                      ///< each bears a mark of safety glazing
};

enum class DoorKind { swings_out, swings_in, swings_both, slides, curtain };

/// What closes the entry.
struct Door {
  std::optional<DoorKind> kind;  ///< absent: nobody said
  std::optional<Length> clear;   ///< that is left free between its frame and its leaf when it stands open
};

/// What is screwed to a wall and needs timber behind it. Its plate is centred on `along` and `height`.
enum class FixtureKind { other, grab_bar, controls };
struct Fixture {
  std::string name;
  Side wall = Side::back;
  Length along;  ///< from the left corner (back wall) or the back corner (side walls)
  Length height, width, tall;
  FixtureKind kind = FixtureKind::other;
  std::optional<double> carries_kg = {};  ///< with its fastening, as its maker says
};

/// A rule book of the user's own, whose rows replace those of the job's book. The program reads its file.
struct BookOverride {
  std::string file, text;
  unsigned line = 0, column = 0;  ///< where the job file names it
};

}  // namespace fallwright::job
