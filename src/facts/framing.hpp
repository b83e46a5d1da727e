/// The opening that the framing leaves, and what boards, fixtures and upstands are fastened to: measured on the members
/// as they stand. Lengths in millimetres.
#pragma once

#include <array>
#include <optional>
#include <string>

#include "facts/room.hpp"

namespace fallwright::facts {

enum class Axis { width, depth };
inline const char* name_of(Axis axis) {
  return axis == Axis::width ? "width" : "depth";
}

/// What must add up along the alcove: the opening against base and bench, along one axis.
struct Opening {
  Axis axis = Axis::width;
  double alcove_mm = 0, base_mm = 0;
  std::optional<double> bench_mm;
  double left_over_mm = 0;  ///< alcove minus base minus bench
  double open_mm = 0;       ///< the part of that where no wall stands: before the entry, beside an open side
};

/// What is beside the plate of a fixture on its wall: the finished face of the wall in a corner, or another's plate.
struct PlateBeside {
  std::optional<Side> wall;  ///< absent: another plate
  std::size_t other = 0;     ///< the number of that fixture, which is less than this one's
  double gap_mm = 0;         ///< negative: it reaches into that. Off studs, or furring, where no build-up is known
  double along_mm = 0;       ///< so far along its wall, as fixtures are told, it just stands clear
  double up_mm = 0;          ///< so far up it does; zero: not by that
};

/// What lies behind the plate of a fixture.
struct Backing {
  std::string name;
  Side wall = Side::back;
  double height_mm = 0;
  double share = 0;           ///< of the plate's area, on studs, blocking and plates
  double assumed = 0;         ///< the part of that share on studs of a standing wall that nobody read, and between them
  bool stud_can = false;      ///< studs that stand elsewhere than assumed, and blocking between, may back all of it
  double above_water_mm = 0;  ///< its lower edge above the threshold's highest edge; without one, above the rim
  double behind_bench = 0;    ///< share of its plate that bench frame or seat block hides
  double clear_by_mm = 0;     ///< how much higher it clears the bench
  std::size_t number = 0;     ///< of the fixture among the job's, from zero: names may be alike
  double in_rows = 0;  ///< where nobody read its studs: the share at the heights of rows of blocking, and on plates
  std::vector<PlateBeside> beside = {};
};

/// So high over an upstand's edge the middle of its fasteners goes, half a shank and a hair: heads lap the edge and
/// hold it, and none goes through the upstand, which would let water in. Common practice, no source.
inline constexpr double screw_over_edge_mm = 3.175;
/// And so far it keeps from every edge of what it goes into, 3/8 in. Common practice, no source.
inline constexpr double screw_to_edge_mm = 9.525;

/// From one end of an upstand to the first place for a fastener; its whole length where there is none.
struct HoldEnd {
  Side at = Side::back;
  double to_first_mm = 0, sure_mm = 0;  ///< sure: as `Hold::sure_apart_mm`
};

/// What stands behind one upstand of the base, over its length: places where a fastener finds timber.
struct Hold {
  Side side = Side::back;
  Behind behind = Behind::wall;  ///< never nothing
  double length_mm = 0;
  double apart_mm = 0;             ///< greatest stretch between fasteners, or from an end of the upstand to the first
  double from_mm = 0, to_mm = 0;   ///< that stretch: from the upstand's left end, or from its back end
  Point from_at_mm{}, to_at_mm{};  ///< the same in the room
  bool assumed = false;            ///< studs of that wall stand there already and nobody read where
  double sure_apart_mm = 0;        ///< its whole length where nobody read its studs, between which blocking is set
  double screws_mm = 0;            ///< so high fasteners go in over the upstand's edge
  double thickness_mm = 0;         ///< of the upstand
  /// Where a fastener finds a stud: from and to, from the upstand's left end or from its back end, in that order.
  std::vector<std::pair<double, double>> studs_mm = {};
  std::array<HoldEnd, 2> ends{};  ///< left and right of the back's, back and front of a side's
  double end_within_mm = 0;       ///< so near to an end a fastener is asked for; 0: as near as timber takes one
};

/// The floor's deck between its joists.
struct FloorDeck {
  bool measured = false;  ///< joists are in the model
  double thickness_mm = 0;
  double apart_mm = 0;  ///< greatest distance, middle to middle, of joists that carry what lies under base and bench
  Point at_mm{};        ///< the middle of that bay
};

}  // namespace fallwright::facts
