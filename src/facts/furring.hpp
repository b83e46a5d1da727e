/// What furring strips make good.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "survey/readings.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::facts {

/// Furring brings framing so far forward, and no farther, as a fastener's hold. Common practice, no source.
inline constexpr double most_furring_mm = 38.1;

/// Nobody rips a strip for a gap smaller than that, 1/4 in, whatever tape it is read by: it breaks or is thrown by the
/// saw. Such gaps are shimmed with tapered pairs or with strips of card in layers. Common practice, no source.
inline constexpr double least_ripped_mm = 6.35;

/// As thick as furring for a gap is cut: down to a mark of the tape, so that it never stands before the edge it brings
/// a stud to, where what goes down would not.
inline double furring_mm(double gap_mm, double mark_mm) {
  return units::down_to_mark(gap_mm, mark_mm);
}

/// When a strip goes in: with the framing; once the base is down beside it, which it would shut out; or once the seat
/// block is set, over which it stands.
enum class Turn { framing, base, seat };

/// A strip of furring on its stud: how thick it is cut at either end, and between which shares of the stud's length,
/// from its foot. Where the stud itself comes to stand before the line its strip has ended, and where a bench's frame
/// or seat block stands in its place there is none.
struct Strip {
  double foot_mm = 0, head_mm = 0, from = 0, to = 1;
  Turn turn = Turn::framing;
  bool below_seat = false;  ///< it ends where the seat block begins
  bool tapers() const { return foot_mm != head_mm; }
  bool is_whole() const { return from <= 0 && to >= 1; }
};

/// The strip that closes gaps at a stud's foot and head; the widest of them, wherever it is, says whether there is one.
inline std::vector<Strip> strips_for(double foot_mm, double head_mm, double widest_mm, double mark_mm) {
  if (widest_mm < mark_mm - units::tolerance::length_mm || widest_mm > most_furring_mm + units::tolerance::length_mm)
    return {};
  const auto cut = [&](double mm) { return furring_mm(std::max(0.0, mm), mark_mm); };
  Strip strip{cut(foot_mm), cut(head_mm)};
  if (foot_mm > 0 && head_mm < 0) strip.to = foot_mm / (foot_mm - head_mm);
  if (foot_mm < 0 && head_mm > 0) strip.from = foot_mm / (foot_mm - head_mm);
  return {strip};
}

/// What stands before a stud.
enum class Before { nothing, base, bench };
inline const char* name_of(Before before) {
  return before == Before::base ? "base" : before == Before::bench ? "bench" : "";
}

/// A stud's face against the plumb plane of what stands before it: how thick a furring brings it there. Negative: the
/// stud stands too far in.
struct StudGap {
  std::string part_id;
  survey::Side wall = survey::Side::back;
  Before before = Before::nothing;
  double running_mm = 0;  ///< its centre at the datum, from the back corner (side walls) or the left corner (back wall)
  double at_floor_mm = 0, at_upstand_mm = 0, at_top_mm = 0;
  bool assumed = false;  ///< it stands already, and nobody read where
  /// So high the line bounds it, as high as the base is let down from or the bench stands, and the gap there.
  double bound_to_mm = 0, at_bound_mm = 0;
  std::vector<Strip> strips = {};  ///< that bring it out, lowest first
  bool stands_alone() const { return before == Before::nothing; }
};

/// What brings a block of a furred wall out to its board, which runs on from strip to strip: as thick at the block's
/// end toward the left (of the back wall) or toward the back (of a side wall), and at its other end.
struct BlockStrip {
  std::string part_id;
  survey::Side wall = survey::Side::back;
  double first_mm = 0, other_mm = 0, length_mm = 0, height_mm = 0;
  double above_datum_mm = 0;  ///< the block's middle
  Turn turn = Turn::framing;
};

/// Where the boards of a furred wall turn most from one bay between studs to the next.
struct Kink {
  survey::Side wall = survey::Side::back;
  double by_mm = 0, within_mm = 0;       ///< off the straight line of the bay beside, over the bay that turns
  double at_mm = 0, above_datum_mm = 0;  ///< the stud about which it turns, as `running_mm`, and the height
  bool toward_room = false;              ///< they turn out into the room about it; else they leave a hollow at it
};

}  // namespace fallwright::facts
