#include <algorithm>
#include <map>

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

Mesh mesh_of(const std::vector<Point2>& points, const std::vector<std::pair<std::size_t, std::size_t>>& sides) {
  std::map<Kernel::Point_2, std::size_t> first;
  for (std::size_t i = 0; i < points.size(); ++i) first.emplace(Kernel::Point_2{points[i].x, points[i].y}, i);
  std::vector<std::pair<Kernel::Point_2, std::size_t>> distinct;
  for (std::size_t i = 0; i < points.size(); ++i)
    if (const Kernel::Point_2 at{points[i].x, points[i].y}; first.at(at) == i) distinct.emplace_back(at, i);
  Mesh mesh;
  mesh.insert(distinct.begin(), distinct.end());
  std::map<Kernel::Point_2, Mesh::Vertex_handle> known;
  for (const auto vertex : mesh.finite_vertex_handles()) known.emplace(vertex->point(), vertex);
  const auto vertex_of = [&](std::size_t i) { return known.at({points[i].x, points[i].y}); };
  for (const auto& [a, b] : sides) mesh.insert_constraint(vertex_of(a), vertex_of(b));
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

}  // namespace fallwright::points
