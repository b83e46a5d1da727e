/// The alcove as it stands: where every stud face is, at any place along a wall and at any height.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "survey/closure.hpp"
#include "survey/floor.hpp"
#include "survey/readings.hpp"
#include "survey/stud_faces.hpp"

namespace fallwright::survey {

/// One wall's stud faces. `along` runs from its back end (left and right wall) or its left end (back wall).
class Wall {
 public:
  Wall() = default;
  Wall(Side side, Point start, Point end, const std::vector<Plumb>& plumbs);

  Side side() const { return side_; }
  Point start() const { return start_; }
  Point end() const { return end_; }
  double length() const { return length_; }
  Point direction() const { return direction_; }  ///< from start to end, a unit vector
  Point inward() const;                           ///< square to it, into the room
  bool plumb_known() const { return !leans_.empty(); }
  /// Horizontal travel into the room for each unit of height; between readings in proportion, past them as the last.
  /// Zero where nothing is known.
  double lean(double along) const;
  /// The stud face at a place and a height above the datum.
  Point at(double along, double height) const;
  /// The same where a stud leans there by `rate`, as that of its middle.
  Point at_lean(double along, double height, double rate) const;
  /// Among them the least and the greatest lean of a stretch.
  std::vector<double> leans_within(double from, double to) const;
  /// Places where the lean is known, and both ends.
  std::vector<double> places() const;

 private:
  struct Lean {
    double along, rate;
  };
  Side side_ = Side::back;
  Point start_, end_, direction_;
  double length_ = 0;
  std::vector<Lean> leans_;
};

struct Room {
  double width = 0, depth = 0;  ///< of the rectangle that the axes belong to: as designed, or the least that was read
  bool square_known = false;    ///< the corners' angles follow from readings
  bool levels_known = false;    ///< the floor's heights were read
  Closure closure;
  std::vector<Wall> walls;   ///< of the sides that are walls
  std::vector<Studs> studs;  ///< existing ones
  const Wall* wall(Side side) const;
  StudFaces faces() const;  ///< at the floor
  /// How far a wall reaches into the room at most, along the axis it stands across, over a stretch of the other axis
  /// and of height: greatest x of the left wall, least x of the right one, least y of the back one. Without a wall
  /// there, the side of the rectangle. A stud leans all over its thickness as its middle does: where the lean changes
  /// along the wall, one that stands half beside the stretch comes in by the lean beside it.
  /// @param stud thickness of the studs along the wall, mm; zero for the wall's face alone
  double innermost(Side side, double from, double to, double low, double high, double stud = 0) const;
};

/// The room in the alcove's axes: the back wall's foot along y = depth, its left end at x = 0. `walls` as built or as
/// designed. Missing sizes follow from the readings.
/// @pre where the plan was read, all three walls stand, or the left and the right one.
Room make_room(const Survey& survey, std::optional<double> width, std::optional<double> depth,
               const std::vector<Side>& walls);

}  // namespace fallwright::survey
