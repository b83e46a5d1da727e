/// What waits while a check fails, and for which: judged by `rules`, told alike by lists, sheets and pages.
#pragma once

#include <optional>
#include <string>

namespace fallwright::facts {

/// The failing check.
struct Held {
  std::string check, title;
};

/// Nothing where nothing speaks against a thing.
struct Holds {
  std::optional<Held> base;    ///< another one will be set, or it in another bed
  std::optional<Held> liner;   ///< it will be cut otherwise
  std::optional<Held> seat;    ///< another block
  std::optional<Held> pieces;  ///< other ones are cut for the bench's frame
  std::optional<Held> frame;   ///< it is built or fastened otherwise
  std::optional<Held> drain;   ///< another one in its place
};

}  // namespace fallwright::facts
