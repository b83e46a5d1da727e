/// Points joined to triangles, in a plane and round a body. What is decided (left or right, inside or outside a circle)
/// is decided exactly, by CGAL; its headers take longer to read than those of a whole room, so they are read here
/// alone. Points of one call come in one unit; those of models are millimetres.

#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace fallwright::points {

struct Point2 {
  double x = 0, y = 0;
};

struct Point3 {
  double x = 0, y = 0, z = 0;
};

/// Whether a way between two places crosses the ray that runs from a third along x: a ring lies round that place where
/// an odd number of its sides do. Of a place on a side it may tell either.
constexpr bool crosses_ray(const Point2& from, const Point2& to, const Point2& at) {
  return (from.y > at.y) != (to.y > at.y) && at.x < from.x + (at.y - from.y) / (to.y - from.y) * (to.x - from.x);
}

/// Three corners by the numbers of their points, counter-clockwise; `beyond`, `is_fixed` and `on_circle` go by the
/// corner that lies across from the side.
struct Triangle {
  std::array<std::size_t, 3> corners{};
  std::array<std::optional<std::size_t>, 3> beyond{};  ///< the triangle over that side; nothing outside
  std::array<bool, 3> is_fixed{};                      ///< whether that side was asked for
  std::array<bool, 3> on_circle{};                     ///< whether the far corner over it lies on this one's circle
};

struct Triangulation {
  std::vector<Triangle> triangles;
  std::vector<std::size_t>
      outline;  ///< counter-clockwise from its lowest number, points on straight stretches included
};

/// Triangles over all points whose circles hold no other point that can be seen past the sides asked for (Delaunay).
/// Points in one place are one point, with the number of the first. Nothing where sides cross; no triangles where all
/// points lie on one line.
std::optional<Triangulation> triangulate(const std::vector<Point2>& points,
                                         const std::vector<std::pair<std::size_t, std::size_t>>& sides);

/// Of those the ones that lie within the sides: such as an odd number of rings of sides lies round, by the numbers of
/// their points.
std::optional<std::vector<std::array<std::size_t, 3>>> triangulate_within(
    const std::vector<Point2>& points, const std::vector<std::pair<std::size_t, std::size_t>>& sides);

/// Triangles of the convex hull, by the numbers of their points, those in one place by the first.
/// @pre the points do not lie on one plane.
std::vector<std::array<std::size_t, 3>> hull(const std::vector<Point3>& points);

}  // namespace fallwright::points
