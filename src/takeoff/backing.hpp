/// What a bench's frame holds for the waterproofing of a base beside it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "takeoff/cuts.hpp"

namespace fallwright::takeoff {

/// Boards in the open bays between a bench frame's front studs, flush with its front, for what is bonded up the frame
/// over the base's edge: flashing, or a strip of membrane.
struct Backing {
  std::vector<double> bays_mm;   ///< clear between studs, in their order
  std::optional<double> top_mm;  ///< a lap over the base's edge, below the top plate; of one built on site by its maker
  const char* carries = "";      ///< "flashing"
  double foot_mm = 0;            ///< of the studs, where they stand lowest
};
/// Those of one width, with a mark of their own behind those of the `cuts`: none of them is cut from a stick or sheet.
struct BackingBoards {
  std::string mark;
  double width_mm = 0;  ///< to a whole mark of the tape
  int count = 0;
};
std::vector<BackingBoards> boards_of(const job::Job& job, const Backing& backing, const std::vector<CutRow>& cuts);
/// Nothing where there is no bench, no open bay, or nothing of the base that is bonded to the frame.
std::optional<Backing> backing_at_bench(const job::Job& job, const facts::Facts& facts);
/// "3 boards, 10-3/16\" wide".
std::string backing_words(const job::Job& job, const Backing& backing);
/// "10-3/16\" wide, 5-3/4\" high"; where it is not known how high they go: "as high as the membrane goes".
std::string backing_size(const job::Job& job, const Backing& backing);

}  // namespace fallwright::takeoff
