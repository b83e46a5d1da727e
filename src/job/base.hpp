/// The sloped shower base and the drain it falls to.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "job/as_set.hpp"
#include "job/quad.hpp"
#include "survey/readings.hpp"
#include "units/fall.hpp"
#include "units/length.hpp"

namespace fallwright::job {

using survey::Side;
using units::Fall;
using units::Length;

/// The way a joist or a channel runs.
enum class Direction { along_width, along_depth };

enum class FallPattern { level_rim, equal_fall, to_line };
enum class Underside { shell, flat };

/// Ribs under a shell: a grid of `columns` x `rows` pockets between ribs of one width. No pockets: no ribs.
struct Ribs {
  int columns = 0;  ///< pockets side by side along the width
  int rows = 0;     ///< pockets one behind the other along the depth
  Length width;
  bool any() const { return columns > 0 && rows > 0; }
};

struct Threshold {
  Length width;                       ///< front to back; zero: no threshold
  Length height;                      ///< of its inner, lowest top edge above the drain's top
  Fall fall;                          ///< of its top, inward
  std::optional<Length> finish = {};  ///< of its height, what is laid on after the flood test; absent: nobody said
  std::optional<bool> bevelled = {};  ///< edges are finished with a bevel of 1:2 or flatter; absent: nobody said
};

/// Where the base stands on the alcove's width when no bench says so.
enum class Against { bench_or_middle, left, middle, right };

/// Bought: its sizes and the place of its drain are facts; made to order: they can still be changed.
enum class Made { bought, to_order };

/// How the base comes about: drawn here and made to that, delivered and measured, or built of mortar in the room.
enum class BaseKind { designed, bought, site_built };

/// What a tape says of a bought base, beside what every base has.
struct Tape {
  survey::Plan outside;                        ///< its four sides and both diagonals, where it was measured all round
  std::optional<Quad> outline;                 ///< that figure within its box from (0, 0); absent: square
  std::array<std::optional<Length>, 4> rises;  ///< of the rim above the drain's edge, by `Side`
  std::optional<Length> deepest_rib, rim_height;  ///< the latter above the surface that the base lies on
  std::optional<RimPoint> deepest_at, rim_at;     ///< absent: where the rim is highest
  bool ribs_known = true;
  std::optional<double> weight_kg;
  std::optional<Side> hand;                ///< the end at which the drain was ordered, seen from the entry
  std::optional<Length> waste_from_left;   ///< centre of the waste that is there, from the alcove's left stud face
  std::optional<Length> waste_from_right;  ///< or from its right one
  std::optional<Length> waste_from_back;   ///< the same from its back stud face
  std::optional<Length> waste_from_front;  ///< or from the entry, where no wall stands at the back
};

enum class Waterproofing { liner, bonded };

/// What is told of a base built on site, beside what every base has. The base is what lies on the waterproofing: a top
/// coat over a liner, tile over a bonded membrane; the bed is what lies below it.
struct SiteBuilt {
  Waterproofing waterproofing = Waterproofing::liner;
  std::optional<Length> cover;  ///< thickness of what lies on it; absent: by the kind of waterproofing
  Length line;                  ///< of the level line that screed marks are told from, above the datum
  Length every;                 ///< screed marks along walls are so far apart
};

struct Body;

/// A base that came as a file, as the job file names it, and axes of the file where they are not left to be found.
struct BodyFile {
  std::string name;  ///< beside the job file; empty: none
  std::string up, back;
  bool operator==(const BodyFile& other) const = default;
};

/// The sloped shower base. Length runs along the alcove's width, width along its depth.
struct Base {
  BaseKind kind = BaseKind::designed;
  Length length, width;      ///< of the box round it
  std::optional<Made> made;  ///< absent: nobody said
  Against against = Against::bench_or_middle;
  Length lowered_from;  ///< height above the datum from which it is let down between the walls
  FallPattern pattern = FallPattern::level_rim;
  Fall fall;                   ///< on the longest run (level rim), or on every facet
  std::optional<Length> rise;  ///< level rim only: rim above the drain edge, in place of `fall`
  Underside underside = Underside::shell;
  Length shell;      ///< thickness under the fall, measured plumb
  Length rib_depth;  ///< of the ribs at the drain, where they are shallowest
  Ribs ribs;
  Length upstand_thickness;    ///< zero: no upstands
  Length upstand_height;       ///< of the upstands' top above the drain's top
  std::vector<Side> upstands;  ///< sides that have one
  std::vector<Side> lapped;    ///< walled sides without one, where the wall's waterproofing laps over the base's edge
  Threshold threshold;
  std::string material;
  double density_kg_m3 = 0;          ///< of a base that was weighed its solid tells it
  Tape tape;                         ///< bought bases only
  BodyFile file;                     ///< the same
  std::shared_ptr<const Body> body;  ///< what was found in that file; none: there is no file
  SiteBuilt site;                    ///< site-built ones only
  bool is_site_built() const { return kind == BaseKind::site_built; }
  int pockets() const;       ///< between its ribs, under a shell; zero: no ribs
  double pocket_mm() const;  ///< of one across, between its ribs; zero: no ribs
};

enum class DrainKind { point, line };
enum class Opening { round, square };

/// A distance of the drain's centre from a named side of the base's footprint.
struct From {
  Side side = Side::left;
  Length distance;
};

struct Drain {
  DrainKind kind = DrainKind::point;
  Opening opening = Opening::square;
  Length size;                                           ///< diameter, side of the square, or the channel's width
  Length channel_length;                                 ///< line drains only; zero: from rim to rim
  Direction channel_direction = Direction::along_width;  ///< the way a channel runs
  /// Distances from the left or right, and from the back or front edge of the base. Along a channel from rim to rim it
  /// is that of its outlet, and none at all stands for the channel's middle.
  From across, along{Side::back, {}};
  Length recess;                        ///< depth of the ledge under the opening that carries the grate
  Length body;                          ///< outside diameter of the body that hangs below
  Length body_depth;                    ///< of the body's lowest point below the drain's top
  Length outlet;                        ///< inside diameter of the outlet
  Length bore;                          ///< diameter of the hole in the subfloor
  std::optional<double> flow_mm3 = {};  ///< what all heads give in a minute
  std::optional<Length> riser;          ///< top of the riser pipe above the datum; absent: nobody measured it
};

}  // namespace fallwright::job
