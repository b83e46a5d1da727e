/// What strips of furring are ripped from: all thicknesses side by side out of the same boards.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "takeoff/cutting.hpp"

namespace fallwright::takeoff {

/// "2x4, for furring": boards of that stock on every list.
std::string boards_named(const std::string& stock);

/// The boards of one stock that strips are ripped from, whatever their thicknesses, which lie across its width with a
/// saw cut beside every one of them. Strips of one thickness lie end to end where a board is long enough. Each board is
/// of the shortest length that holds its longest strip, of those preferred if one does. A count that such boards give,
/// which may not be the least: `least_mm` is what no way to rip goes below, by the longest strip and by area.
/// @pre every strip has its board.
StockPlan plan_boards(const std::vector<CutRow>& strips, const job::Cuts& how, bool metric);

/// What a row of furring says for which no board is known.
inline constexpr std::string_view rip_from_wider = "; not sold so thin: rip from wider stock";

/// "1x4": the board of which a strip is a length, as it is sold, by its row's name; empty where none is so thick and
/// wide. Dry boards by PS 20, from memory.
std::string board_as_sold(std::string_view furring);

/// "6 strips ripped side by side, a saw cut of 1/8\" beside each".
std::string side_by_side(std::size_t strips, double kerf_mm, bool metric);

}  // namespace fallwright::takeoff
