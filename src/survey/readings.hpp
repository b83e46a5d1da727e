/// What was read in the room, as plain values in millimetres. A reading that was not taken is absent, never assumed.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace fallwright::survey {

/// The sides of the alcove as seen from the entry; the entry itself is the front.
enum class Side { back, front, left, right };
inline constexpr Side all_sides[] = {Side::back, Side::front, Side::left, Side::right};

/// What a tape was held against: the bare stud, the board on it, or the finished wall.
enum class Face { stud, board, finish };

/// One reading, or the mean of several people's, with how far it may be off.
struct Reading {
  double mm = 0;
  double tolerance_mm = 0;
  Face face = Face::stud;
  double spread_mm = 0;               ///< between the highest and the lowest, where it was taken more than once
  std::vector<double> taken_mm = {};  ///< each of those
};

/// Four sides and two diagonals at the floor. Left and right run from the entry to the back wall.
struct Plan {
  std::optional<Reading> back, front, left, right;
  std::optional<Reading> from_back_left;   ///< diagonal to the front right
  std::optional<Reading> from_back_right;  ///< diagonal to the front left
  bool any() const { return back || front || left || right || from_back_left || from_back_right; }
};

/// Between the left and right walls, at some height above the floor.
struct Width {
  double from_back_mm = 0, height_mm = 0;
  Reading width;
};

/// How far a wall leans into the room over a height; negative: away. `along_mm` is the place on the wall, from its back
/// end (left and right wall) or its left end (back wall).
struct Plumb {
  Side wall = Side::back;
  double along_mm = 0;
  Reading lean;
  double over_mm = 0;
};

/// Centres of existing studs, from one named corner of the alcove.
struct Studs {
  Side wall = Side::back;
  Side from = Side::left;  ///< left or right for the back wall, back or front for the others
  std::vector<double> centres_mm;
};

/// A height of the subfloor. `x` from the left stud face, `y` from the entry, `z` above any one level plane.
struct Spot {
  double x = 0, y = 0, z = 0;
};

struct Survey {
  double tolerance_mm = 0;          ///< of readings that name none
  double level_tolerance_mm = 0;    ///< of spot levels
  std::optional<double> board_mm;   ///< thickness of the board on the studs
  std::optional<double> finish_mm;  ///< from the stud face to the finished wall
  Plan plan;
  std::optional<bool> square;  ///< whether two walls that meet are square, or two that face each other parallel
  std::vector<Width> widths;
  std::vector<Plumb> plumbs;
  std::vector<Studs> studs;
  std::vector<Spot> spots;
  double face_mm(Face face) const;  ///< how far a face stands in front of the stud face; zero where it is not known
};

/// A point in plan.
struct Point {
  double x = 0, y = 0;
};

/// Twice the area of the triangle, positive where o, a, b turn left.
constexpr double cross(const Point& o, const Point& a, const Point& b) {
  return (a.x - o.x) * (b.y - o.y) - (b.x - o.x) * (a.y - o.y);
}

/// A rectangle in plan.
struct Rect {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  double width() const { return x1 - x0; }
  double depth() const { return y1 - y0; }
  Rect grown(double by) const { return {x0 - by, y0 - by, x1 + by, y1 + by}; }
};

/// A plane as height over plan: z = z0 + gx x + gy y.
struct HeightPlane {
  double z0 = 0, gx = 0, gy = 0;
  double at(double x, double y) const { return z0 + gx * x + gy * y; }
  HeightPlane raised(double by) const { return {z0 + by, gx, gy}; }
};

const char* name_of(Side side);  ///< "back", "front", "left", "right"

/// Their names, in their order.
std::vector<std::string> names_of(const std::vector<Side>& sides);

}  // namespace fallwright::survey
