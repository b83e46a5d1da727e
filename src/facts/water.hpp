/// What holds water back, and what is held: edges of the base, the seat's skirt, the flood test.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/room.hpp"
#include "units/length.hpp"

namespace fallwright::facts {

/// What turns up at the edge of the base; rim: nothing, the floor runs out to it.
enum class Turned { rim, upstand, threshold };
inline const char* name_of(Turned turned) {
  return turned == Turned::upstand ? "upstand" : turned == Turned::threshold ? "threshold" : "rim";
}

/// Heights above the datum of what need not be level.
struct Levels {
  double least_mm = 0, greatest_mm = 0;
};

/// One side of the base: what stands behind it, what turns up there, and the height at which water goes over it.
struct Edge {
  Side side = Side::back;
  Behind behind = Behind::nothing;
  Turned turned = Turned::rim;
  double top_mm = 0, top_greatest_mm = 0;  ///< of its top above the datum, lowest and highest
  bool lapped = false;                     ///< the wall's waterproofing laps over it, as the job file says
  double length_mm = 0;                    ///< of the side in plan, along itself
  std::optional<Levels> outside = {};      ///< the bath's finished floor before it, of an open one
  bool open() const { return behind == Behind::nothing; }
  bool raised() const { return turned != Turned::rim; }
};

/// What keeps water out of the bench frame: the seat block's apron before it, and its upstands along walls.
struct SeatSkirt {
  double apron_mm = 0;           ///< how far it reaches down before the frame; none: no apron
  std::vector<Side> bare_walls;  ///< walls the seat meets without an upstand
  /// Plumb, along the apron: from the top of the base's edge up to the apron's foot; less than none where the edge
  /// stands higher. Absent: no apron, or no edge below it.
  std::optional<double> gap_least_mm = {}, gap_greatest_mm = {};
  Point least_at_mm = {}, greatest_at_mm = {};
};

/// Water standing in the base: up to a height above the drain's top.
struct Dip {
  double above_drain_mm = 0, volume_mm3 = 0, surface_mm2 = 0;
};

/// How much higher the water stands from row to row: 1/4 in, or 5 mm.
constexpr double flood_step_mm(bool metric) {
  return metric ? 5 : units::inch_mm / 4;
}

/// The flood test, drain plugged: water by height in steps up to the lowest edge of the base, where it spills.
struct Flood {
  double plan_mm2 = 0;     ///< of the floor inside upstands and threshold
  std::vector<Side> over;  ///< the sides where it does
  std::vector<Dip> dips;
  std::optional<Dip> rough = {};  ///< up to the rough threshold, where the job file says what is laid on that later
  std::vector<Dip> dammed = {};   ///< higher yet, behind a dam where it spills: from the last of `dips` on
};

}  // namespace fallwright::facts
