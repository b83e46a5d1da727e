/// The subfloor's top as it was measured: planes that meet along their edges, over the whole plan.
#pragma once

#include <vector>

#include "survey/readings.hpp"

namespace fallwright::survey {

using Polygon = std::vector<Point>;  ///< convex, counter-clockwise

/// One plane of the floor and the plan it lies over.
struct Cell {
  Polygon plan;
  HeightPlane plane;
};

class Floor {
 public:
  Floor() = default;
  explicit Floor(std::vector<Cell> cells) : cells_{std::move(cells)} {}

  const std::vector<Cell>& cells() const { return cells_; }
  bool is_plane() const { return cells_.size() == 1; }
  /// Height at a point; outside the plan that of the nearest cell, carried on.
  double at(double x, double y) const;
  double highest(const Rect& over) const;
  double lowest(const Rect& over) const;
  Floor raised(double by) const;
  /// Corners of the surface over a convex part of the plan: its own and those where the outline cuts it.
  std::vector<Spot> corners(const Polygon& over) const;

 private:
  std::vector<Cell> cells_;
};

Polygon to_polygon(const Rect& r);

/// The part of a convex polygon to the left of the line from `a` to `b`.
Polygon clip(const Polygon& polygon, Point a, Point b);
/// The part of a convex polygon inside another.
Polygon common(Polygon polygon, const Polygon& window);

/// One plane over `extent`.
Floor plane_floor(const HeightPlane& plane, const Rect& extent);

/// Through every spot exactly: Delaunay triangles between them; where more than three spots lie on one circle, as on a
/// grid, no choice of diagonals is better than another and the cell is divided from its middle at their mean height.
/// Past the outermost spots the surface goes on as the plane that fits all spots best, less what the nearest spot is
/// off it, so that a plane floor stays one plane.
/// @pre three spots that do not lie in a line, no two in one place, all within `extent`.
Floor floor_through(const std::vector<Spot>& spots, const Rect& extent);

/// Whether some three of the spots span a triangle.
bool span_a_plane(const std::vector<Spot>& spots);

/// The plane that fits spots best (least squares of heights). @pre `span_a_plane`.
HeightPlane best_plane(const std::vector<Spot>& spots);

}  // namespace fallwright::survey
