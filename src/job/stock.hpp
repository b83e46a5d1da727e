/// Sticks as they are sold: timber by nominal size, cold-formed steel by its designator.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "units/length.hpp"

namespace fallwright::job {

enum class StockKind { timber, steel_stud, steel_track };

/// One kind of stick at the size it really has.
struct Stock {
  std::string name;  ///< as written: "2x4", "45x95 mm", "350S162-33"
  StockKind kind = StockKind::timber;
  units::Length thickness;    ///< timber: the smaller dressed side; steel: design thickness of the sheet
  units::Length depth;        ///< timber: the larger dressed side; steel: web (a track's is inside to inside)
  units::Length flange = {};  ///< steel: outside width of the flange
  units::Length lip = {};     ///< steel stud: length of the lip, outside
  units::Length radius = {};  ///< steel: inside bend radius
  bool is_steel() const { return kind != StockKind::timber; }
};

/// Reads "2x4" (dressed dry size by PS 20), "45x95 mm" (actual size) or "350S162-33" / "350T125-33".
/// @return nothing when the text is no size this trade sells; `why` then says what is allowed.
/// Sources: PS 20 dressed dry sizes; designators, thickness, radius, flange and lip tables of the steel stud makers'
/// product information for the 2009-2015 IBC.
std::optional<Stock> parse_stock(std::string_view text, std::string& why);

}  // namespace fallwright::job
