/// What is still to be read in the room, and what each reading settles: the other side of the checks that are open.
#pragma once

#include <string>
#include <vector>

#include "rules/result.hpp"

namespace fallwright::rules {

/// A reading that open checks wait for. A check that waits for several is settled by the last of them on the walk, and
/// stands in that one's list only: the list may be empty.
struct ReadNext {
  std::string what;  ///< in words, with its key in the job file
  std::vector<const Result*> settles;
  std::size_t turn = 0;  ///< its place among all readings
};

/// Every reading that an open check waits for, once, in the order one walks the room with tape and level. Points into
/// `results`. Checks that are open for want of something else than a reading are left out.
std::vector<ReadNext> read_next(const std::vector<Result>& results);

/// The same in fewer lines: what is read at one place (the walls' finish, the drain, the trap and its arm, the bench's frame) is one
/// reading, at the turn of its first. Settles as many checks as before.
std::vector<ReadNext> by_stops(const std::vector<ReadNext>& list);

/// Whether a check is open, and no reading will settle it: `advice` then says what will.
bool waits_for_no_reading(const Result& result);

}  // namespace fallwright::rules
