/// What furring strips make good.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
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

/// Nor is anything put before a stud that wants less than that, whatever tape it is read by: the board's own screws
/// draw it there. Common practice, no source.
inline constexpr double least_furred_mm = 2;
/// As thin as a strip for such a gap is cut, 1/16 in or 2 mm.
inline double thinnest_strip_mm(double mark_mm) {
  return std::max(mark_mm, 1.5875);
}

/// As thick as furring for a gap is cut: down to a mark of the tape, so that it never stands before the edge it brings
/// a stud to, where what goes down would not. Two walls that are alike are so to a thousandth only.
inline double furring_mm(double gap_mm, double mark_mm) {
  return units::down_to_mark(gap_mm + units::tolerance::on_mark_mm, mark_mm);
}

/// When a strip goes in: with the framing; once the base is down beside it, which it would shut out, and before its
/// mortar sets; once the seat block is set, over which it stands; or any time after base and seat block, which come in
/// past it.
enum class Turn { framing, base, seat, after };

/// What is cut out of a strip's edge where something that stands in its place laps it by a part of its width.
struct Notch {
  bool at_low_edge = false;  ///< that toward the left (of the back wall) or the front (of a side wall)
  double wide_mm = 0;
  double from = 0, to = 1;  ///< shares of the stud's length
};

/// A strip of furring on its stud: how thick it is cut at either end, and between which shares of the stud's length,
/// from its foot. Where the stud itself comes to stand before the line its strip has ended, and where a bench's frame
/// or seat block stands in its place there is none.
struct Strip {
  double foot_mm = 0, head_mm = 0, from = 0, to = 1;
  Turn turn = Turn::framing;
  bool below_seat = false;  ///< it ends where the seat block begins
  bool parted = false;      ///< it is one of two pieces: as high as the base stands, and on from there
  std::optional<Notch> notch = {};
  bool tapers() const { return foot_mm != head_mm; }
  bool is_whole() const { return from <= 0 && to >= 1; }
};

/// The strip that closes gaps at a stud's foot and head; the widest of them, wherever it is, says whether there is one.
inline std::vector<Strip> strips_for(double foot_mm, double head_mm, double widest_mm, double mark_mm) {
  if (widest_mm < mark_mm - units::tolerance::length_mm || widest_mm > most_furring_mm + units::tolerance::length_mm)
    return {};
  const auto cut = [&](double mm) { return furring_mm(std::max(0.0, mm), mark_mm); };
  // Ends that differ by less than half a mark are cut alike: nobody tapers a strip by that, and rounding alone would.
  const bool alike = std::abs(foot_mm - head_mm) < mark_mm / 2;
  if (alike) foot_mm = head_mm = std::min(foot_mm, head_mm);
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
  std::vector<Strip> strips = {};   ///< that bring it out, lowest first
  double floor_mm = 0, top_mm = 0;  ///< the heights of the gaps at floor and top, between which its line is straight
  bool tile_unsaid = false;         ///< it is beyond furring above that bound alone, and nobody said how high tile goes
  /// Nothing is to lie flat before it over that: its gap at the top is told there, and its strip ends.
  bool ends_at_tile(double head_mm) const {
    return top_mm > floor_mm && top_mm < head_mm - units::tolerance::length_mm;
  }
  bool stands_alone() const { return before == Before::nothing; }
  double widest_mm() const { return stands_alone() ? 0 : std::max({at_floor_mm, at_upstand_mm, at_top_mm}); }
  /// Furring does not reach so far: a wall is framed before it.
  bool is_beyond_furring() const { return widest_mm() > most_furring_mm + units::tolerance::length_mm; }
  double at(double z) const {
    return top_mm > floor_mm ? at_floor_mm + (at_top_mm - at_floor_mm) * (z - floor_mm) / (top_mm - floor_mm)
                             : at_floor_mm;
  }
};

/// How far those studs of a wall that stand farther back than furring reaches stand back where that is least, over
/// their length; nothing where none does.
inline std::optional<double> least_back_mm(const std::vector<StudGap>& studs, survey::Side wall) {
  std::optional<double> least;
  for (const StudGap& stud : studs)
    if (stud.wall == wall && stud.is_beyond_furring())
      least = std::min({least.value_or(most_furring_mm), stud.at_floor_mm, stud.at_upstand_mm, stud.at_top_mm});
  return least;
}

/// The thinnest wall that is framed, of studs laid flat, is as thick as furring reaches.
inline bool has_room_for_wall(double least_back_mm) {
  return least_back_mm >= most_furring_mm - units::tolerance::length_mm;
}

/// What comes first at a wall before anything is set against it, as studs of it stand farther back than furring
/// reaches: how high tile goes is said, which may end below there; a wall is framed before them; or, where none has
/// room, they are plumbed or sistered. Where its boards will lie hangs on that.
enum class WallFirst { nothing, say_tile, frame, plumb };

inline WallFirst first_at(const std::vector<StudGap>& studs, survey::Side wall) {
  const std::optional<double> least = least_back_mm(studs, wall);
  if (!least) return WallFirst::nothing;
  const bool tile_settles = std::none_of(studs.begin(), studs.end(), [&](const StudGap& stud) {
    return stud.wall == wall && stud.is_beyond_furring() && !stud.tile_unsaid;
  });
  return tile_settles ? WallFirst::say_tile : has_room_for_wall(*least) ? WallFirst::frame : WallFirst::plumb;
}

/// Whether a wall waits for that.
inline bool wall_waits(const std::vector<StudGap>& studs, survey::Side wall) {
  return first_at(studs, wall) != WallFirst::nothing;
}

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

/// Where a wall's board folds up the wall: where a strip that brings a leaning stud plumb has ended, it goes on with
/// the stud's own lean.
struct Fold {
  survey::Side wall = survey::Side::back;
  double turn = 0;  ///< ratio: from the line below to that above
  double above_datum_mm = 0;
};

}  // namespace fallwright::facts
