#include <map>

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Surface_mesh.h>
#include <CGAL/convex_hull_3.h>

#include "points/points.hpp"

namespace fallwright::points {

std::vector<std::array<std::size_t, 3>> hull(const std::vector<Point3>& points) {
  using Point = CGAL::Exact_predicates_inexact_constructions_kernel::Point_3;
  std::vector<Point> all;
  std::map<Point, std::size_t> first;
  for (const Point3& p : points) {
    all.emplace_back(p.x, p.y, p.z);
    first.emplace(all.back(), all.size() - 1);
  }
  CGAL::Surface_mesh<Point> body;
  CGAL::convex_hull_3(all.begin(), all.end(), body);
  std::vector<std::array<std::size_t, 3>> triangles;
  for (const auto face : body.faces()) {
    std::array<std::size_t, 3>& corners = triangles.emplace_back();
    std::size_t k = 0;
    for (const auto vertex : body.vertices_around_face(body.halfedge(face)))
      corners.at(k++) = first.at(body.point(vertex));
  }
  return triangles;
}

}  // namespace fallwright::points
