#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include <BRepMesh_IncrementalMesh.hxx>
#include <BRep_Tool.hxx>
#include <Geom_CylindricalSurface.hxx>
#include <Poly_Triangulation.hxx>
#include <TopLoc_Location.hxx>
#include <gp_Cylinder.hxx>

#include "brep/skin.hpp"
#include "points/points.hpp"
#include "units/tolerance.hpp"

namespace fallwright::brep {
namespace {

/// Drops the axis that a face looks along most: its corners keep the two others to the last digit.
class Shadow {
 public:
  explicit Shadow(const gp_Dir& normal) {
    const double x = std::abs(normal.X()), y = std::abs(normal.Y()), z = std::abs(normal.Z());
    const int axis = z >= x && z >= y ? 3 : x >= y ? 1 : 2;
    u_ = axis % 3 + 1, v_ = u_ % 3 + 1;
    if (normal.Coord(axis) < 0) std::swap(u_, v_);
  }
  points::Point2 operator()(const gp_Pnt& p) const { return {p.Coord(u_), p.Coord(v_)}; }

 private:
  int u_ = 1, v_ = 2;
};

/// A point as the plane sees it, and where it is.
struct Seen {
  points::Point2 at;
  const gp_Pnt* point;
};
using SeenRing = std::vector<Seen>;

/// Whether it turns left at every corner, by more than rounding can make of a straight one.
bool is_convex(const SeenRing& ring) {
  constexpr double straight = 1e-6;  // mm2
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const auto &a = ring[i].at, &b = ring[(i + 1) % ring.size()].at, &c = ring[(i + 2) % ring.size()].at;
    if ((b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x) < straight) return false;
  }
  return true;
}

std::vector<Facet3> fan(const SeenRing& ring) {
  std::vector<Facet3> triangles;
  for (std::size_t i = 1; i + 1 < ring.size(); ++i)
    triangles.push_back({*ring[0].point, *ring[i].point, *ring[i + 1].point});
  return triangles;
}

/// Nothing where rings cross, as seen in a plane.
std::optional<std::vector<Facet3>> triangles_within(const std::vector<SeenRing>& rings) {
  if (rings.size() == 1 && rings.front().size() < 5 && is_convex(rings.front())) return fan(rings.front());
  std::vector<points::Point2> places;
  std::vector<const gp_Pnt*> corners;
  std::vector<std::pair<std::size_t, std::size_t>> sides;
  for (const SeenRing& ring : rings) {
    const std::size_t first = places.size();
    for (std::size_t i = 0; i < ring.size(); ++i) {
      places.push_back(ring[i].at);
      corners.push_back(ring[i].point);
      sides.emplace_back(first + i, first + (i + 1) % ring.size());
    }
  }
  const auto within = points::triangulate_within(places, sides);
  if (!within) return std::nullopt;
  std::vector<Facet3> triangles;
  for (const auto& [a, b, c] : *within) triangles.push_back({*corners[a], *corners[b], *corners[c]});
  return triangles;
}

/// A patch of a cylinder rolled out, and drawn long along its turn, so that triangles stretch along its rulings and
/// none of them cuts the corner over several chords.
std::vector<SeenRing> rolled_out(const Round& round, const gp_Cylinder& cylinder) {
  constexpr double stretched = 1e4;
  const gp_Ax3& axes = cylinder.Position();
  // Left-handed axes turn the other way round, and so does the surface's own normal.
  const bool forward = round.face.Orientation() != TopAbs_REVERSED;
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
      seen.push_back({{(forward ? stretched : -stretched) * angle(p) * cylinder.Radius(), along}, &p});
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

std::vector<Facet3> worked_out(const Flat& flat) {
  const Shadow shadow{flat.normal};
  std::vector<SeenRing> rings;
  for (const Ring& ring : flat.rings) {
    SeenRing& seen = rings.emplace_back();
    for (const gp_Pnt& p : ring) seen.push_back({shadow(p), &p});
  }
  if (auto triangles = triangles_within(rings)) return std::move(*triangles);
  return by_kernel(flat.face);
}

std::vector<Facet3> worked_out(const Round& round) {
  const auto cylinder = Handle(Geom_CylindricalSurface)::DownCast(BRep_Tool::Surface(round.face));
  if (!cylinder.IsNull() && round.rings.size() == 1)
    if (auto triangles = triangles_within(rolled_out(round, cylinder->Cylinder()))) return std::move(*triangles);
  return by_kernel(round.face);
}

template <class Face>
const std::vector<Facet3>& known(const Face& face) {
  std::call_once(face.triangles->once, [&] { face.triangles->all = worked_out(face); });
  return face.triangles->all;
}

}  // namespace

const std::vector<Facet3>& triangles_of(const Flat& flat) {
  return known(flat);
}

const std::vector<Facet3>& triangles_of(const Round& round) {
  return known(round);
}

}  // namespace fallwright::brep
