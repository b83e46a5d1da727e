/// What strips of furring are ripped from: all thicknesses side by side out of the same boards.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "job/job.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::takeoff {

struct Boards {
  int strips = 0, count = 0;
  double length_mm = 0;  ///< of each: the shortest that holds the longest strip, of those preferred if one does
};
/// Boards of the walls' stock, each as wide as its strips with a saw cut beside every one of them; which are thick
/// across the board's width. Nothing where there is no such strip, the stock is steel or thinner than a strip is wide,
/// or none on offer is long enough. Strips that wait are told apart, and no board is counted for them.
std::optional<Boards> boards_to_rip(const job::Job& job, const std::vector<CutRow>& cuts);

/// "all 6 strips side by side from 1 of 2x4, 8 ft long, a saw cut of 1/8\" beside each"; "..., 3 more wait, on HOLD"
/// where they do; empty where there are none.
std::string ripped_together(const job::Job& job, const std::vector<CutRow>& cuts);

/// What a row of furring says of its strips, and behind it the boards that they come from, in the rows that do not
/// wait.
inline constexpr std::string_view rip_from_wider = "; not sold so thin: rip from wider stock";
void tell_boards(const job::Job& job, const std::vector<CutRow>& cuts, std::vector<Row>& rows);

}  // namespace fallwright::takeoff
