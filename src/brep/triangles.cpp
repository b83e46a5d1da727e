#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include <CGAL/Constrained_Delaunay_triangulation_2.h>  // before the kernel, which makes a macro of a word it uses
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Triangulation_face_base_with_info_2.h>
#include <CGAL/Triangulation_vertex_base_with_info_2.h>

#include <BRepMesh_IncrementalMesh.hxx>
#include <BRep_Tool.hxx>
#include <Poly_Triangulation.hxx>
#include <TopLoc_Location.hxx>

#include "brep/skin.hpp"
#include "diag/fault.hpp"
#include "units/tolerance.hpp"

namespace fallwright::brep {
namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Vertex = CGAL::Triangulation_vertex_base_with_info_2<const gp_Pnt*, Kernel>;
using Face =
    CGAL::Triangulation_face_base_with_info_2<int, Kernel, CGAL::Constrained_triangulation_face_base_2<Kernel>>;
using Mesh = CGAL::Constrained_Delaunay_triangulation_2<Kernel, CGAL::Triangulation_data_structure_2<Vertex, Face>,
                                                        CGAL::No_constraint_intersection_requiring_constructions_tag>;

/// Drops the axis that a face looks along most: its corners keep the two others to the last digit.
class Shadow {
 public:
  explicit Shadow(const gp_Dir& normal) {
    const double x = std::abs(normal.X()), y = std::abs(normal.Y()), z = std::abs(normal.Z());
    const int axis = z >= x && z >= y ? 3 : x >= y ? 1 : 2;
    u_ = axis % 3 + 1, v_ = u_ % 3 + 1;
    if (normal.Coord(axis) < 0) std::swap(u_, v_);
  }
  Kernel::Point_2 operator()(const gp_Pnt& p) const { return {p.Coord(u_), p.Coord(v_)}; }

 private:
  int u_ = 1, v_ = 2;
};

bool is_convex(const Ring& ring, const Shadow& shadow) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const auto a = shadow(ring[i]), b = shadow(ring[(i + 1) % ring.size()]), c = shadow(ring[(i + 2) % ring.size()]);
    if (CGAL::right_turn(a, b, c)) return false;
  }
  return true;
}

std::vector<Facet3> fan(const Ring& ring) {
  std::vector<Facet3> triangles;
  for (std::size_t i = 1; i + 1 < ring.size(); ++i) triangles.push_back({ring[0], ring[i], ring[i + 1]});
  return triangles;
}

Mesh mesh_of(const Flat& flat, const Shadow& shadow) {
  std::vector<std::pair<Kernel::Point_2, const gp_Pnt*>> points;
  for (const Ring& ring : flat.rings)
    for (const gp_Pnt& p : ring) points.emplace_back(shadow(p), &p);
  Mesh mesh;
  mesh.insert(points.begin(), points.end());
  std::map<Kernel::Point_2, Mesh::Vertex_handle> known;
  for (const auto vertex : mesh.finite_vertex_handles()) known.emplace(vertex->point(), vertex);
  for (const Ring& ring : flat.rings)
    for (std::size_t i = 0; i < ring.size(); ++i)
      mesh.insert_constraint(known.at(shadow(ring[i])), known.at(shadow(ring[(i + 1) % ring.size()])));
  return mesh;
}

/// Numbers faces by how many rings lie round them: those with an odd number are of the face.
void number(Mesh& mesh) {
  for (const auto face : mesh.all_face_handles()) face->info() = -1;
  std::vector<Mesh::Face_handle> here{mesh.infinite_face()};
  here.front()->info() = 0;
  while (!here.empty()) {
    const auto face = here.back();
    here.pop_back();
    for (int i = 0; i < 3; ++i) {
      const auto next = face->neighbor(i);
      if (next->info() >= 0) continue;
      next->info() = mesh.is_constrained({face, i}) ? 1 - face->info() : face->info();
      here.push_back(next);
    }
  }
}

}  // namespace

std::vector<Facet3> triangles_of(const Flat& flat) {
  const Shadow shadow{flat.normal};
  if (flat.rings.size() == 1 && is_convex(flat.rings.front(), shadow)) return fan(flat.rings.front());
  std::vector<Facet3> triangles;
  try {
    Mesh mesh = mesh_of(flat, shadow);
    number(mesh);
    for (const auto face : mesh.finite_face_handles())
      if (face->info() == 1)
        triangles.push_back({*face->vertex(0)->info(), *face->vertex(1)->info(), *face->vertex(2)->info()});
  } catch (const Mesh::Intersection_of_constraints_exception&) {
    throw diag::ModelError{"face", "edges of a face cross each other"};
  }
  return triangles;
}

std::vector<Facet3> triangles_of(const Round& round) {
  BRepMesh_IncrementalMesh{round.face, units::tolerance::mesh_mm, false, units::tolerance::mesh_angle_rad, false};
  TopLoc_Location place;
  const Handle(Poly_Triangulation) mesh = BRep_Tool::Triangulation(round.face, place);
  std::vector<Facet3> triangles;
  for (int i = 1; !mesh.IsNull() && i <= mesh->NbTriangles(); ++i) {
    int n[3];
    mesh->Triangle(i).Get(n[0], n[1], n[2]);
    if (round.face.Orientation() == TopAbs_REVERSED) std::swap(n[1], n[2]);
    Facet3& corner = triangles.emplace_back();
    for (std::size_t k = 0; k < 3; ++k) corner[k] = mesh->Node(n[k]).Transformed(place.Transformation());
  }
  return triangles;
}

}  // namespace fallwright::brep
