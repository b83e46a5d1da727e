#include "brep/properties.hpp"

#include <cmath>
#include <utility>

#include <BRepAdaptor_Curve.hxx>
#include <BRepAdaptor_Surface.hxx>
#include <BRepGProp.hxx>
#include <BRepGProp_Domain.hxx>
#include <BRepGProp_Face.hxx>
#include <BRepGProp_Vinert.hxx>
#include <BRep_Tool.hxx>
#include <GProp_GProps.hxx>
#include <Geom_Plane.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Vertex.hxx>
#include <gp_Cylinder.hxx>
#include <math.hxx>
#include <math_Vector.hxx>

#include "brep/edge.hpp"
#include "brep/skin.hpp"

namespace fallwright::brep {
namespace {

/// Sums over faces: area, and the volume of the cone from each face to `apex` with its first moment about it.
struct Sums {
  gp_Pnt apex;
  double area = 0, volume = 0;
  gp_XYZ moment;
};

/// One step along a face's edge spans a triangle with a corner of the face, and a tetrahedron with the apex.
void add_step(Sums& sums, gp_XYZ& twice_area, const gp_XYZ& corner, const gp_XYZ& middle, const gp_XYZ& step) {
  const gp_XYZ twice = (middle - corner).Crossed(step);
  const double volume = corner.Dot(twice) / 6;
  twice_area += twice;
  sums.volume += volume;
  sums.moment += (corner + 2 * middle) / 4 * volume;
}

/// Walks a curved edge in its own sense, in Gauss steps: with 15 of them a half circle comes out to the last digits.
/// `step` takes a place, from the apex, and the way from there.
template <class Step>
void walk_curve(const Sums& sums, const BRepAdaptor_Curve& curve, TopAbs_Orientation orientation, const Step& step) {
  constexpr int steps = 15;
  static const auto gauss = [] {
    std::pair<math_Vector, math_Vector> g{{1, steps}, {1, steps}};
    math::GaussPoints(steps, g.first);
    math::GaussWeights(steps, g.second);
    return g;
  }();
  const double half = (curve.LastParameter() - curve.FirstParameter()) / 2, middle = curve.FirstParameter() + half;
  const double sense = orientation == TopAbs_REVERSED ? -1 : 1;
  for (int i = 1; i <= steps; ++i) {
    gp_Pnt p;
    gp_Vec tangent;
    curve.D1(middle + half * gauss.first(i), p, tangent);
    step(p.XYZ() - sums.apex.XYZ(), tangent.XYZ() * (sense * half * gauss.second(i)));
  }
}

/// A plane's edges alone tell its area, and with the apex its volume; holes come out right by their sense. Exact for
/// straight edges, and far faster than integrating over a face with hundreds of holes.
void add_planar(Sums& sums, const TopoDS_Face& face) {
  gp_XYZ corner, twice_area;
  bool first = true;
  each_edge(face, [&](const TopoDS_Edge& edge) {
    const Ends ends = ends_of(edge);
    const gp_XYZ p = ends.at.XYZ() - sums.apex.XYZ();
    if (first) corner = p, first = false;
    if (is_straight(edge)) {
      const gp_XYZ q = ends.until.XYZ() - sums.apex.XYZ();
      add_step(sums, twice_area, corner, (p + q) / 2, q - p);
    } else {
      walk_curve(sums, BRepAdaptor_Curve{edge}, edge.Orientation(),
                 [&](const gp_XYZ& middle, const gp_XYZ& step) { add_step(sums, twice_area, corner, middle, step); });
    }
  });
  sums.area += twice_area.Modulus() / 2;
}

/// The same of a face whose rings are known and have no curve.
void add_straight(Sums& sums, const Flat& flat) {
  gp_XYZ twice_area;
  const gp_XYZ corner = flat.rings.front().front().XYZ() - sums.apex.XYZ();
  for (const Ring& ring : flat.rings)
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const gp_XYZ p = ring[i].XYZ() - sums.apex.XYZ(), q = ring[(i + 1) % ring.size()].XYZ() - sums.apex.XYZ();
      add_step(sums, twice_area, corner, (p + q) / 2, q - p);
    }
  sums.area += twice_area.Modulus() / 2;
}

void add_curved(Sums& sums, const TopoDS_Face& face) {
  GProp_GProps surface;
  BRepGProp::SurfaceProperties(face, surface);
  sums.area += surface.Mass();
  BRepGProp_Face area{face};
  BRepGProp_Domain domain{face};
  const BRepGProp_Vinert cone{area, domain, sums.apex};
  sums.volume += cone.Mass();
  sums.moment += (cone.CentreOfMass().XYZ() - sums.apex.XYZ()) * cone.Mass();
}

/// A cylinder's edges tell its area and, with the apex, its volume, as those of a plane do: over the height of a point
/// on the axis the integrals are closed, and along an edge they are walked by the angle. The kernel's own integrals
/// over such a face take a hundred times as long.
class Cylinder {
 public:
  Cylinder(Sums& sums, const gp_Cylinder& cylinder)
      : sums_{sums},
        origin_{cylinder.Location().XYZ() - sums.apex.XYZ()},
        axis_{cylinder.Axis().Direction().XYZ()},
        radius_{cylinder.Radius()} {}

  /// Along the axis the angle stands still: such an edge adds nothing.
  void add(const BRepAdaptor_Curve& edge, TopAbs_Orientation orientation) {
    if (edge.GetType() == GeomAbs_Line) return;
    walk_curve(sums_, edge, orientation, [&](const gp_XYZ& p, const gp_XYZ& step) {
      const gp_XYZ from = p - origin_;
      const double z = from.Dot(axis_);
      const gp_XYZ out = (from - axis_ * z) / radius_;
      // Seen from outside the face lies to the left of its edge: what lies below an edge that runs to the right is not
      // its.
      const double plan = -axis_.Dot(out.Crossed(step)), reach = origin_.Dot(out) + radius_;
      area_ += plan * z;
      volume_ += plan * z * reach / 3;
      moment_ += ((origin_ + out * radius_) * z + axis_ * (z * z / 2)) * (plan * reach / 4);
    });
  }

  void sum_up() {
    sums_.area += std::abs(area_);
    sums_.volume += volume_;
    sums_.moment += moment_;
  }

 private:
  Sums& sums_;
  gp_XYZ origin_, axis_;
  double radius_, area_ = 0, volume_ = 0;
  gp_XYZ moment_;
};

/// @return whether the face is a cylinder between lines, circles and ellipses; else nothing was added.
bool add_cylinder(Sums& sums, const TopoDS_Face& face) {
  const BRepAdaptor_Surface surface{face, false};
  if (surface.GetType() != GeomAbs_Cylinder) return false;
  Cylinder cylinder{sums, surface.Cylinder()};
  for (TopExp_Explorer it{face, TopAbs_EDGE}; it.More(); it.Next()) {
    const TopoDS_Edge& edge = TopoDS::Edge(it.Current());
    const BRepAdaptor_Curve curve{edge};
    if (curve.GetType() != GeomAbs_Line && curve.GetType() != GeomAbs_Circle && curve.GetType() != GeomAbs_Ellipse)
      return false;
    cylinder.add(curve, edge.Orientation());
  }
  cylinder.sum_up();
  return true;
}

void add(Sums& sums, const Flat& flat) {
  if (flat.straight() && !flat.rings.empty())
    add_straight(sums, flat);
  else
    add_planar(sums, flat.face);
}

Sums sum_up(const Skin& skin) {
  Sums sums;
  if (!skin.extent.corners.empty()) sums.apex = skin.extent.corners.front();
  for (const Flat& flat : skin.flats) add(sums, flat);
  for (const Round& round : skin.rounds)
    if (!add_cylinder(sums, round.face)) add_curved(sums, round.face);
  return sums;
}

Sums sum_up(const TopoDS_Shape& shape) {
  Sums sums;
  if (TopExp_Explorer vertex{shape, TopAbs_VERTEX}; vertex.More())
    sums.apex = BRep_Tool::Pnt(TopoDS::Vertex(vertex.Current()));
  for (TopExp_Explorer it{shape, TopAbs_FACE}; it.More(); it.Next()) {
    const TopoDS_Face& face = TopoDS::Face(it.Current());
    TopLoc_Location place;
    if (BRep_Tool::Surface(face, place)->IsKind(STANDARD_TYPE(Geom_Plane)))
      add_planar(sums, face);
    else if (!add_cylinder(sums, face))
      add_curved(sums, face);
  }
  return sums;
}

}  // namespace

namespace {

Properties properties_of(const Sums& sums) {
  const gp_XYZ middle = sums.volume != 0 ? sums.moment / sums.volume : gp_XYZ{};
  return {sums.volume, sums.area, gp_Pnt{sums.apex.XYZ() + middle}};
}

}  // namespace

Properties properties(const TopoDS_Shape& shape) {
  return properties_of(sum_up(shape));
}

Properties properties(const Skin& skin) {
  return properties_of(sum_up(skin));
}

double volume_mm3(const TopoDS_Shape& shape) {
  return sum_up(shape).volume;
}

double area_mm2(const TopoDS_Shape& shape) {
  return sum_up(shape).area;
}

double area_mm2(const Flat& flat) {
  Sums sums;
  add(sums, flat);
  return sums.area;
}

PlaneProperties plane_properties(const Flat& flat) {
  const gp_XYZ origin = flat.rings.front().front().XYZ();
  double area = 0;
  gp_XYZ moment;
  gp_Mat second;  // of the places themselves: over a triangle a twelfth of its area times corners and their sum
  second.SetDiagonal(0, 0, 0);
  const auto square = [](const gp_XYZ& p) { return gp_Mat{p * p.X(), p * p.Y(), p * p.Z()}; };
  for (const Ring& ring : flat.rings)
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const gp_XYZ p = ring[i].XYZ() - origin, q = ring[(i + 1) % ring.size()].XYZ() - origin;
      const double a = p.Crossed(q).Dot(flat.normal.XYZ()) / 2;
      area += a;
      moment += (p + q) * (a / 3);
      second += (square(p) + square(q) + square(p + q)) * (a / 12);
    }
  const gp_XYZ middle = moment / area;
  second -= square(middle) * area;
  gp_Mat inertia;
  const double all = second(1, 1) + second(2, 2) + second(3, 3);
  inertia.SetDiagonal(all, all, all);
  return {area, gp_Pnt{origin + middle}, inertia - second};
}

std::array<double, 6> box_of(const TopoDS_Shape& shape) {
  return extent_of(shape).box;
}

}  // namespace fallwright::brep
