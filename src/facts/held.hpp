/// What waits while a check fails or something is not known, and for which: judged by `rules`, told alike by lists,
/// sheets and pages.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "survey/readings.hpp"

namespace fallwright::facts {

/// The failing check; or what is to be read or said first: "find the studs and give their centres (survey.studs) ...".
struct Held {
  std::string check, title;
  std::string first = {};
};

/// Nothing where nothing speaks against a thing.
struct Holds {
  std::optional<Held> base;              ///< another one will be set, or it in another bed
  std::optional<Held> liner;             ///< it will be cut otherwise
  std::optional<Held> seat;              ///< another block
  std::optional<Held> pieces;            ///< other ones are cut for the bench's frame
  std::optional<Held> frame;             ///< it is built or fastened otherwise
  std::optional<Held> drain;             ///< another one in its place
  std::optional<Held> studs = {};        ///< what is cut or counted by studs that nobody read
  std::vector<survey::Side> loose = {};  ///< walls behind whose upstand no timber is known that would take a fastener
  std::optional<Held> upstand = {};      ///< no timber takes its screws: what to set first
  std::optional<Held> floor = {};        ///< joists or deck carry too little: mended before anything lies on them
  std::optional<Held> walls = {};        ///< studs that stand too far back have no wall before them yet
  std::optional<Held> tile = {};         ///< how high tile goes is not said, and studs may stand too far back for it
  std::optional<Held> board = {};        ///< the walls' board, and what goes on it, goes higher
  std::optional<Held> cleat = {}, rail = {}, joists = {};  ///< what fastens the bench's: nobody said which, or how many
};

}  // namespace fallwright::facts
