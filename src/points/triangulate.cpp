#include <algorithm>
#include <numeric>
#include <tuple>

#include <CGAL/Constrained_Delaunay_triangulation_2.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Triangulation_face_base_with_info_2.h>
#include <CGAL/Triangulation_vertex_base_with_info_2.h>

#include "points/points.hpp"

namespace fallwright::points {
namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Vertex = CGAL::Triangulation_vertex_base_with_info_2<std::size_t, Kernel>;  // number of its point
using Face = CGAL::Triangulation_face_base_with_info_2<std::size_t, Kernel,       // number of its triangle
                                                       CGAL::Constrained_triangulation_face_base_2<Kernel>>;
using Mesh = CGAL::Constrained_Delaunay_triangulation_2<Kernel, CGAL::Triangulation_data_structure_2<Vertex, Face>,
                                                        CGAL::No_constraint_intersection_requiring_constructions_tag>;

/// For each point the number of the first one in its place.
std::vector<std::size_t> first_in_place(const std::vector<Point2>& points) {
  std::vector<std::size_t> order(points.size()), first(points.size());
  std::iota(order.begin(), order.end(), 0);
  const auto key = [&](std::size_t i) { return std::tuple{points[i].x, points[i].y, i}; };
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return key(a) < key(b); });
  for (std::size_t k = 0; k < order.size(); ++k) {
    const Point2& at = points[order[k]];
    const bool again = k > 0 && points[order[k - 1]].x == at.x && points[order[k - 1]].y == at.y;
    first[order[k]] = again ? first[order[k - 1]] : order[k];
  }
  return first;
}

Mesh mesh_of(const std::vector<Point2>& points, const std::vector<std::pair<std::size_t, std::size_t>>& sides) {
  const std::vector<std::size_t> first = first_in_place(points);
  std::vector<std::pair<Kernel::Point_2, std::size_t>> distinct;
  for (std::size_t i = 0; i < points.size(); ++i)
    if (first[i] == i) distinct.emplace_back(Kernel::Point_2{points[i].x, points[i].y}, i);
  Mesh mesh;
  mesh.insert(distinct.begin(), distinct.end());
  std::vector<Mesh::Vertex_handle> vertices(points.size());
  for (const auto vertex : mesh.finite_vertex_handles()) vertices[vertex->info()] = vertex;
  for (const auto& [a, b] : sides) mesh.insert_constraint(vertices[first[a]], vertices[first[b]]);
  return mesh;
}

Triangle triangle_of(const Mesh& mesh, const Mesh::Face_handle& face) {
  Triangle triangle;
  for (int i = 0; i < 3; ++i) {
    const auto k = static_cast<std::size_t>(i);
    const auto next = face->neighbor(i);
    triangle.corners[k] = face->vertex(i)->info();
    triangle.is_fixed[k] = face->is_constrained(i);
    if (mesh.is_infinite(next)) continue;
    triangle.beyond[k] = next->info();
    const auto& far = next->vertex(next->index(face))->point();
    triangle.on_circle[k] = mesh.side_of_oriented_circle(face, far, false) == CGAL::ON_ORIENTED_BOUNDARY;
  }
  return triangle;
}

std::vector<std::size_t> outline_of(const Mesh& mesh) {
  std::vector<std::size_t> outline;
  auto at = mesh.incident_vertices(mesh.infinite_vertex());
  const auto first = at;
  do outline.push_back(at->info());
  while (++at != first);
  std::reverse(outline.begin(), outline.end());
  std::rotate(outline.begin(), std::min_element(outline.begin(), outline.end()), outline.end());
  return outline;
}

}  // namespace

std::optional<Triangulation> triangulate(const std::vector<Point2>& points,
                                         const std::vector<std::pair<std::size_t, std::size_t>>& sides) try {
  Mesh mesh = mesh_of(points, sides);
  Triangulation found;
  if (mesh.dimension() < 2) return found;
  std::size_t count = 0;
  for (const auto face : mesh.finite_face_handles()) face->info() = count++;
  for (const auto face : mesh.finite_face_handles()) found.triangles.push_back(triangle_of(mesh, face));
  found.outline = outline_of(mesh);
  return found;
} catch (const Mesh::Intersection_of_constraints_exception&) {
  return std::nullopt;
}

std::optional<std::vector<std::array<std::size_t, 3>>> triangulate_within(
    const std::vector<Point2>& points, const std::vector<std::pair<std::size_t, std::size_t>>& sides) try {
  Mesh mesh = mesh_of(points, sides);
  std::vector<std::array<std::size_t, 3>> found;
  if (mesh.dimension() < 2) return found;
  constexpr std::size_t outside = 0, inside = 1, unknown = 2;
  for (const auto face : mesh.all_face_handles()) face->info() = unknown;
  std::vector<Mesh::Face_handle> here{mesh.infinite_face()};
  here.back()->info() = outside;
  while (!here.empty()) {
    const auto face = here.back();
    here.pop_back();
    for (int i = 0; i < 3; ++i) {
      const auto next = face->neighbor(i);
      if (next->info() != unknown) continue;
      next->info() = (face->info() == inside) != face->is_constrained(i) ? inside : outside;
      here.push_back(next);
    }
  }
  for (const auto face : mesh.finite_face_handles())
    if (face->info() == inside)
      found.push_back({face->vertex(0)->info(), face->vertex(1)->info(), face->vertex(2)->info()});
  return found;
} catch (const Mesh::Intersection_of_constraints_exception&) {
  return std::nullopt;
}

}  // namespace fallwright::points
