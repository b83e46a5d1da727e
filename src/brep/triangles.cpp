#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

#include <CGAL/Constrained_Delaunay_triangulation_2.h>  // before the kernel, which makes a macro of a word it uses
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Triangulation_face_base_with_info_2.h>
#include <CGAL/Triangulation_vertex_base_with_info_2.h>

#include <BRepMesh_IncrementalMesh.hxx>
#include <BRep_Tool.hxx>
#include <Geom_CylindricalSurface.hxx>
#include <Poly_Triangulation.hxx>
#include <TopLoc_Location.hxx>
#include <gp_Cylinder.hxx>

#include "brep/skin.hpp"
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

/// A point as the plane sees it, and where it is.
struct Seen {
  Kernel::Point_2 at;
  const gp_Pnt* point;
};
using SeenRing = std::vector<Seen>;

/// Whether it turns left at every corner, by more than rounding can make of a straight one.
bool is_convex(const SeenRing& ring) {
  constexpr double straight = 1e-6;  // mm2
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const auto &a = ring[i].at, &b = ring[(i + 1) % ring.size()].at, &c = ring[(i + 2) % ring.size()].at;
    if ((b.x() - a.x()) * (c.y() - b.y()) - (b.y() - a.y()) * (c.x() - b.x()) < straight) return false;
  }
  return true;
}

std::vector<Facet3> fan(const SeenRing& ring) {
  std::vector<Facet3> triangles;
  for (std::size_t i = 1; i + 1 < ring.size(); ++i)
    triangles.push_back({*ring[0].point, *ring[i].point, *ring[i + 1].point});
  return triangles;
}

Mesh mesh_of(const std::vector<SeenRing>& rings) {
  std::vector<std::pair<Kernel::Point_2, const gp_Pnt*>> points;
  for (const SeenRing& ring : rings)
    for (const Seen& seen : ring) points.emplace_back(seen.at, seen.point);
  Mesh mesh;
  mesh.insert(points.begin(), points.end());
  std::map<Kernel::Point_2, Mesh::Vertex_handle> known;
  for (const auto vertex : mesh.finite_vertex_handles()) known.emplace(vertex->point(), vertex);
  for (const SeenRing& ring : rings)
    for (std::size_t i = 0; i < ring.size(); ++i)
      mesh.insert_constraint(known.at(ring[i].at), known.at(ring[(i + 1) % ring.size()].at));
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

/// Nothing where rings cross, as seen in a plane.
std::optional<std::vector<Facet3>> triangles_within(const std::vector<SeenRing>& rings) try {
  if (rings.size() == 1 && rings.front().size() < 5 && is_convex(rings.front())) return fan(rings.front());
  Mesh mesh = mesh_of(rings);
  number(mesh);
  std::vector<Facet3> triangles;
  for (const auto face : mesh.finite_face_handles())
    if (face->info() == 1)
      triangles.push_back({*face->vertex(0)->info(), *face->vertex(1)->info(), *face->vertex(2)->info()});
  return triangles;
} catch (const Mesh::Intersection_of_constraints_exception&) {
  return std::nullopt;
}

/// A patch of a cylinder rolled out, and drawn long along its turn, so that triangles stretch along its rulings and
/// none of them cuts the corner over several chords.
std::vector<SeenRing> rolled_out(const Round& round, const gp_Cylinder& cylinder) {
  constexpr double stretched = 1e4;
  const gp_Ax3& axes = cylinder.Position();
  const bool outward = (round.face.Orientation() != TopAbs_REVERSED) == axes.Direct();
  double turned = 0;
  const auto angle = [&](const gp_Pnt& p) {
    const gp_Vec off{axes.Location(), p};
    const double at = std::atan2(off.Dot(gp_Vec{axes.YDirection()}), off.Dot(gp_Vec{axes.XDirection()}));
    return turned += std::remainder(at - turned, 2 * M_PI);  // goes on from the point before
  };
  std::vector<SeenRing> rings;
  for (const Ring& ring : round.rings) {
    SeenRing& seen = rings.emplace_back();
    for (const gp_Pnt& p : ring) {
      const double along = gp_Vec{axes.Location(), p}.Dot(gp_Vec{axes.Direction()});
      seen.push_back({{(outward ? stretched : -stretched) * angle(p) * cylinder.Radius(), along}, &p});
    }
  }
  return rings;
}

std::vector<Facet3> by_kernel(const TopoDS_Face& face) {
  BRepMesh_IncrementalMesh{face, units::tolerance::mesh_mm, false, units::tolerance::mesh_angle_rad, false};
  TopLoc_Location place;
  const Handle(Poly_Triangulation) mesh = BRep_Tool::Triangulation(face, place);
  std::vector<Facet3> triangles;
  for (int i = 1; !mesh.IsNull() && i <= mesh->NbTriangles(); ++i) {
    int n[3];
    mesh->Triangle(i).Get(n[0], n[1], n[2]);
    if (face.Orientation() == TopAbs_REVERSED) std::swap(n[1], n[2]);
    Facet3& corner = triangles.emplace_back();
    for (std::size_t k = 0; k < 3; ++k) corner[k] = mesh->Node(n[k]).Transformed(place.Transformation());
  }
  return triangles;
}

}  // namespace

std::vector<Facet3> triangles_of(const Flat& flat) {
  const Shadow shadow{flat.normal};
  std::vector<SeenRing> rings;
  for (const Ring& ring : flat.rings) {
    SeenRing& seen = rings.emplace_back();
    for (const gp_Pnt& p : ring) seen.push_back({shadow(p), &p});
  }
  if (auto triangles = triangles_within(rings)) return std::move(*triangles);
  return by_kernel(flat.face);
}

std::vector<Facet3> triangles_of(const Round& round) {
  const auto cylinder = Handle(Geom_CylindricalSurface)::DownCast(BRep_Tool::Surface(round.face));
  if (!cylinder.IsNull() && round.rings.size() == 1)
    if (auto triangles = triangles_within(rolled_out(round, cylinder->Cylinder()))) return std::move(*triangles);
  return by_kernel(round.face);
}

}  // namespace fallwright::brep
