/// The room as it was measured, and what that means for the base in it. Lengths in millimetres.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "facts/furring.hpp"
#include "facts/set_out.hpp"
#include "survey/readings.hpp"
#include "survey/stud_faces.hpp"
#include "survey/surface.hpp"

namespace fallwright::facts {

using survey::Side, survey::Surface;
using Point = std::array<double, 3>;

/// One tape reading against the figure that fits all of them best.
struct Tape {
  std::string name;
  double reading_mm = 0, solved_mm = 0, tolerance_mm = 0;
  std::optional<double> if_others_hold_mm;
};

/// Whether four sides and two diagonals close.
struct Closure {
  bool solved = false, spare = false;  ///< the figure is known; one more was read than it needs
  std::vector<Tape> readings;
  double worst_mm = 0, allowed_mm = 0;  ///< the residual farthest out of its tolerance, and that tolerance
  std::string suspect;                  ///< the reading that explains it, where one clearly does
  std::vector<std::string> missing;
};

/// A width that was read against that between the solids at the same place.
struct WidthRead {
  double height_mm = 0, reading_mm = 0, solids_mm = 0, tolerance_mm = 0;
  double from_back_mm = 0;
};

/// A place with its name: "front left".
struct NamedPlace {
  std::string name;
  Point at_mm{};
};

/// The subfloor's top. Humps and hollows against the plane that fits the corners under the base best.
struct FloorShape {
  bool known = false;                             ///< from readings; otherwise nothing is known of it
  double along_width_mm = 0, along_depth_mm = 0;  ///< greatest difference along a line across the room
  std::optional<double> read_mm = {};             ///< of both the part that lies between spots; absent: none were read
  double hump_mm = 0, hollow_mm = 0;
  Point hump_at_mm{}, hollow_at_mm{};
  double twist_mm = 0;  ///< of the four corners under the base: back left - back right + front right - front left
  double rock_mm = 0;   ///< the base put down dry: greatest gap under a corner
  std::string rock_at;  ///< "front left" ...
  std::vector<NamedPlace> unread = {};  ///< corners of the base too far outside the spots that were read
  /// The highest spot of the floor that is left under the base, from which heights are told; nothing where no spots
  /// were read, and where it is as high all over.
  std::optional<Point> datum_at_mm = {};
  std::vector<Point> spots = {};  ///< as a tape finds them, from the left face and the entry, and above the datum
};

/// What stands behind an edge of the base; nothing: it is open, as the entry is.
enum class Behind { nothing, wall, bench };
inline const char* name_of(Behind behind) {
  return behind == Behind::wall ? "wall" : behind == Behind::bench ? "bench" : "";
}

/// A stud's gap at a corner of the base.
struct CornerGap {
  Side end = Side::back, hand = Side::left;  ///< the corner: back or front, left or right
  Side wall = Side::back;                    ///< the one that it is told against
  std::string name() const { return std::string{survey::name_of(end)} + " " + survey::name_of(hand); }
  double at_floor_mm = 0, at_upstand_mm = 0;
};

/// How the base gets between the walls, or the seat block over the base to its place.
struct DropIn {
  bool between_walls = false;                        ///< otherwise nothing is in its way
  double length_mm = 0, height_mm = 0;               ///< of the base, or of the block
  std::vector<std::pair<double, double>> widths_mm;  ///< height above the datum, free width there
  double least_mm = 0, least_at_mm = 0;              ///< free width less length, and the height of it
  double carried_mm = 0;                   ///< of the block: so high above the datum its foot is held on its way
  double tip_deg = 0, tip_clear_mm = 0;    ///< tipped about its short axis: the angle, and what is left as it levels
  std::optional<WidthRead> narrower = {};  ///< a width as read that counts, being less than between the solids
};

/// Where the drain may stand: along one axis joists leave these stretches for the bore's centre, along the other the
/// floor leaves one.
struct DrainWindow {
  bool joists_known = false;
  bool along_width = true;                         ///< the stretches run along x (joists along the depth)
  std::vector<std::pair<double, double>> free_mm;  ///< bore clear of joists, with no clearance yet
  std::pair<double, double> other_mm{};
  Point now_mm{}, nearest_mm{};  ///< nearest: with the clearance asked
  double left_face_mm = 0;       ///< x of the left stud face at the bore's depth, where a tape is hooked
  bool any = false;              ///< some place is allowed
  double moved_mm = 0;
  double least_fall = 0, greatest_fall = 0;  ///< of the floor with the drain at the nearest place; zero: see next
  std::string falls_unknown = {};            ///< why these falls are not known
  double joist_depth_mm = 0, hole_mm = 0, notch_mm = 0, end_notch_mm = 0;  ///< what the code lets a joist lose
};

/// Bed depths to spread to at a named point: A1 is back left; letters run to the right, numbers to the front.
struct Gauge {
  std::string name;
  double x_mm = 0, y_mm = 0;
  double floor_mm = 0;   ///< height of the subfloor
  double set_mm = 0;     ///< from there up to the rib plane
  double spread_mm = 0;  ///< from there up to the level line it is spread to
  bool clear = false;    ///< in the drain's hole: nothing is spread here
};

/// The base as it lies in the wet bed, by readings on its rim.
struct AsSetPoint {
  std::string name;
  double x_mm = 0, y_mm = 0;
  double off_mm = 0;    ///< reading less the rim's own shape, above the lowest such
  double plane_mm = 0;  ///< the plane that fits best, above its own lowest point
};
struct AsSetFall {
  Surface surface = Surface::base_floor;
  std::string facet;
  double fall = 0;
  double inward = 0;  ///< the part of it that runs away from the entry
};
struct AsSet {
  bool read = false;
  std::vector<AsSetPoint> points;
  double gx = 0, gy = 0;                         ///< the plane's slopes along x and y
  double twist_mm = 0;                           ///< greatest distance of a reading from the plane
  double over_length_mm = 0, over_width_mm = 0;  ///< out of level, positive: right or back is high
  std::vector<AsSetFall> falls;                  ///< from the tilted solids
  /// Of the tilted solids, above the drain's top at its centre; with other open edges, the lowest counts.
  std::optional<double> threshold_least_mm, threshold_greatest_mm, upstand_least_mm;
  /// Where the level line's height is known: how far the drain's top lies above where it was designed, the lowest point
  /// of its body above the datum, and what is left between the base's top and the apron's foot, least and greatest.
  std::optional<double> raised_mm = {}, drain_body_mm = {}, apron_least_mm = {}, apron_greatest_mm = {};
  std::vector<BedDepth> beds = {};  ///< where the bed may be thinnest under a base that lies so, as designed
};

/// What a number is that has bounds.
enum class Bounded { length, volume, fall };
inline const char* unit_of(Bounded bounded) {
  return bounded == Bounded::length ? "mm" : bounded == Bounded::volume ? "mm3" : "ratio";
}

/// Between which bounds a number stays when every reading is within its tolerance, and which reading matters most.
struct Worst {
  std::string what;
  double nominal = 0, least = 0, greatest = 0;
  std::string reading;
  double by_reading = 0;  ///< what that reading alone can change
  Bounded is = Bounded::length;
  std::string unknown = {};  ///< why no bounds are known; least and greatest then say nothing
};

/// What worst cases are called that others look for.
inline constexpr const char* worst_mortar = "mortar in the bed as set";

struct Room {
  survey::StudFaces faces = {};  ///< as they stand: where tapes are hooked
  Closure closure;
  /// By how much the right wall ends farther back than the left one; absent where one of them was not read.
  std::optional<double> ends_apart_mm = {};
  std::vector<WidthRead> widths;
  std::vector<Side> not_plumbed;  ///< walls without a reading of plumb
  FloorShape floor;
  std::vector<StudGap> studs;
  std::vector<CornerGap> corners;
  std::vector<BlockStrip> block_strips = {};
  std::vector<Kink> kinks = {};  ///< of each wall with strips
  std::vector<Fold> folds = {};  ///< of each wall the one that turns most
  DropIn drop_in;
  /// Of the seat block of a bench at the back, between what stands when it comes in; nothing of any other.
  std::optional<DropIn> seat_in = {};
  DrainWindow drain;
  std::vector<Rung> chain;  ///< over the drain's centre
  std::vector<Gauge> gauges;
  std::vector<Mark> set_out;
  AsSet as_set;
  std::vector<Worst> worst;
};

}  // namespace fallwright::facts
