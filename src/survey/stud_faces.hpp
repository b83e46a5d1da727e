/// Where a tape is hooked in the room: the feet of the stud faces, and the one way between a place and what a tape
/// reads there. "From the left stud face" is off that wall beside the place itself, square to the entry: in a room out
/// of square every depth has another left.
#pragma once

#include "survey/readings.hpp"

namespace fallwright::survey {

/// The foot of one wall's stud faces: x of a side wall by y, y of the back wall by x.
struct FootLine {
  double at_zero = 0, slope = 0;
  double at(double along) const { return at_zero + slope * along; }
};

/// Of a side without a wall: its edge as designed.
struct StudFaces {
  FootLine left, right, back;

  /// How far a place is from a wall's stud face beside it; from the front: from the entry.
  double off(Side side, const Point& place) const {
    switch (side) {
      case Side::left:
        return place.x - left.at(place.y);
      case Side::right:
        return right.at(place.y) - place.x;
      case Side::back:
        return back.at(place.x) - place.y;
      default:
        return place.y;
    }
  }
  /// Where a side's tape reads a distance, at some place along that side: x of a side wall, y of the back one.
  double at(Side side, double off, double along) const {
    const double way = side == Side::left || side == Side::front ? off : -off;
    return (side == Side::left    ? left.at(along)
            : side == Side::right ? right.at(along)
            : side == Side::back  ? back.at(along)
                                  : 0) +
           way;
  }
  /// A place as it is told: from the left stud face, and from the entry.
  Point told(const Point& place) const { return {off(Side::left, place), place.y}; }
  /// The place of what was read so.
  Point placed(const Point& read) const { return {at(Side::left, read.x, read.y), read.y}; }
  /// The place of what was read from the left stud face and from the back one.
  Point placed_from_back(double from_left, double from_back) const {
    const double x = (left.at(back.at_zero - from_back) + from_left) / (1 - left.slope * back.slope);
    return {x, at(Side::back, from_back, x)};
  }
};

}  // namespace fallwright::survey
