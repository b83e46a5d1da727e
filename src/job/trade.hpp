/// What other trades add to a room: liner, pipe, fixtures, and the rule book they answer to.
#pragma once

#include <optional>
#include <string>

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

/// The drain's pipe below the floor, as far as it is known.
struct Trap {
  std::optional<Length> arm;  ///< from weir to vent
  std::optional<Fall> fall;
  std::optional<Length> hole, notch;  ///< that it takes from a joist
  std::optional<Length> pipe = {};    ///< its nominal size, one of those in pipe.hpp
};

/// What is screwed to a wall and needs timber behind it. Its plate is centred on `along` and `height`.
struct Fixture {
  std::string name;
  Side wall = Side::back;
  Length along;  ///< from the left corner (back wall) or the back corner (side walls)
  Length height, width, tall;
};

/// A rule book of the user's own, whose rows replace those of the job's book. The program reads its file.
struct BookOverride {
  std::string file, text;
  unsigned line = 0, column = 0;  ///< where the job file names it
};

}  // namespace fallwright::job
