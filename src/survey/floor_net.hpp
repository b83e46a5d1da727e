/// The floor through spot levels before their heights: which of them make up a plane, and what carries it on beyond
/// them. Heights of the floor are sums over the spots, each with a share that the plan alone tells.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

#include "survey/floor.hpp"

namespace fallwright::survey {

/// A point of the net: a spot, or a point beyond the outermost ones. Its height is that of the line between spots `a`
/// and `b` at `share`, and of the plane that fits all spots best, `out` from there.
struct Knot {
  Point at;
  std::size_t a = 0, b = 0;
  double share = 0;
  Point out;
};

struct FloorNet {
  /// @pre as for `floor_through`, and the spots do not lie on one plane, or shall be taken as if they did not.
  FloorNet(const std::vector<Spot>& spots, const Rect& extent);

  std::vector<Knot> knots;                      ///< the spots first, in their order
  std::vector<std::vector<std::size_t>> rings;  ///< of knots, counter-clockwise: three, or all those on one circle
};

/// A height as a sum of heights of spots, and of what the best plane through them rises per millimetre.
struct HeightShare {
  std::vector<std::pair<std::size_t, double>> by_spot;
  double by_gx = 0, by_gy = 0;
  void add(const HeightShare& other, double times);
};

/// A triangle of the floor, and how the heights of its corners hang on the spots.
struct SharedCell {
  Polygon plan;
  std::vector<HeightShare> corners;
  HeightShare at(Point p) const;
};

/// How the floor hangs on its spots.
class FloorShares {
 public:
  FloorShares(const std::vector<Spot>& spots, const Rect& extent);
  const std::vector<SharedCell>& cells() const { return cells_; }
  /// One number for each spot: how much the height rises with it.
  std::vector<double> spread(const HeightShare& share) const;

 private:
  std::vector<SharedCell> cells_;
  std::vector<double> gx_, gy_;  ///< how the best plane's slopes hang on each spot
};

}  // namespace fallwright::survey
