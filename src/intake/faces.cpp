#include "intake/faces.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include <BRepAdaptor_Curve.hxx>
#include <BRepAdaptor_Surface.hxx>
#include <BRepMesh_IncrementalMesh.hxx>
#include <BRepTools_WireExplorer.hxx>
#include <BRep_Builder.hxx>
#include <BRep_Tool.hxx>
#include <NCollection_DataMap.hxx>
#include <Poly_PolygonOnTriangulation.hxx>
#include <Poly_Triangulation.hxx>
#include <ShapeBuild_ReShape.hxx>
#include <ShapeFix_Face.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_MapOfShape.hxx>
#include <TopTools_ShapeMapHasher.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Compound.hxx>
#include <gp_Circ.hxx>
#include <gp_Cylinder.hxx>
#include <gp_Elips.hxx>
#include <gp_Pln.hxx>
#include <gp_Trsf.hxx>

#include "brep/plan.hpp"
#include "brep/properties.hpp"
#include "intake/intake.hpp"
#include "units/tolerance.hpp"

namespace fallwright::intake {
namespace {

using brep::Corner;
using brep::Loop;
using brep::PlanPoint;

/// A face whose normal rises or falls by less than this is upright: over a metre of height it then leans by less than
/// two corners are taken for one.
constexpr double upright = 1e-9;

PlanPoint plan_of(const gp_Pnt& p) {
  return {p.X(), p.Y()};
}

bool is_plane(const TopoDS_Face& face) {
  return BRepAdaptor_Surface{face, false}.GetType() == GeomAbs_Plane;
}

/// Whether all normals of a surface lie level, over all of it: no file need say which part of it a face is. Of surfaces
/// that are no planes, cylinders, extrusions or splines nothing is said; a mesh tells.
bool is_upright(const TopoDS_Face& face) {
  const BRepAdaptor_Surface surface{face, false};
  const auto stands = [](const gp_Dir& axis) { return 1 - std::abs(axis.Z()) < upright; };
  switch (surface.GetType()) {
    case GeomAbs_Plane:
      return std::abs(surface.Plane().Axis().Direction().Z()) < upright;
    case GeomAbs_Cylinder:
      return stands(surface.Cylinder().Axis().Direction());
    case GeomAbs_SurfaceOfExtrusion:
      return stands(surface.Direction());
    case GeomAbs_BSplineSurface:
    case GeomAbs_BezierSurface:
      break;
    default:
      return false;
  }
  constexpr int steps = 4;
  for (int i = 0; i <= steps; ++i)
    for (int k = 0; k <= steps; ++k) {
      gp_Pnt p;
      gp_Vec du, dv;
      const auto at = [&](double from, double to, int n) { return from + (to - from) * n / steps; };
      surface.D1(at(surface.FirstUParameter(), surface.LastUParameter(), i),
                 at(surface.FirstVParameter(), surface.LastVParameter(), k), p, du, dv);
      const gp_Vec normal = du.Crossed(dv);
      if (normal.Magnitude() > 0 && std::abs(normal.Z()) / normal.Magnitude() > upright) return false;
    }
  return true;
}

/// The plan circle that a curve runs on.
struct PlanCircle {
  PlanPoint centre;
  double radius = 0;
  PlanPoint on(const gp_Pnt& p) const {
    const double away = std::hypot(p.X() - centre.x, p.Y() - centre.y);
    return {centre.x + (p.X() - centre.x) * radius / away, centre.y + (p.Y() - centre.y) * radius / away};
  }
  bool holds(const BRepAdaptor_Curve& curve) const {
    const double first = curve.FirstParameter(), last = curve.LastParameter();
    for (int i = 0; i <= 8; ++i) {
      const PlanPoint p = plan_of(curve.Value(first + (last - first) * i / 8));
      if (std::abs(std::hypot(p.x - centre.x, p.y - centre.y) - radius) > 10 * units::tolerance::length_mm)
        return false;
    }
    return true;
  }
};

std::optional<PlanCircle> plan_circle_of(const BRepAdaptor_Curve& curve) {
  PlanCircle circle;
  if (curve.GetType() == GeomAbs_Circle)
    circle.centre = plan_of(curve.Circle().Location());
  else if (curve.GetType() == GeomAbs_Ellipse)
    circle.centre = plan_of(curve.Ellipse().Location());
  else
    return std::nullopt;
  const PlanPoint p = plan_of(curve.Value(curve.FirstParameter()));
  circle.radius = std::hypot(p.x - circle.centre.x, p.y - circle.centre.y);
  return circle.holds(curve) ? std::optional{circle} : std::nullopt;
}

/// The faces of one solid, taken one after the other.
class Faces {
 public:
  explicit Faces(const TopoDS_Shape& solid) : solid_{solid} {
    for (TopExp_Explorer face{solid_, TopAbs_FACE}; face.More(); face.Next())
      if (const TopoDS_Face& each = TopoDS::Face(face.Current()); !is_plane(each) && !is_upright(each))
        curved_.push_back(each);
    if (!curved_.empty()) mesh();
    for (TopExp_Explorer face{solid_, TopAbs_FACE}; face.More(); face.Next())
      note_circles(TopoDS::Face(face.Current()));
  }

  Reliefs reliefs() {
    for (TopExp_Explorer face{solid_, TopAbs_FACE}; face.More(); face.Next()) {
      const TopoDS_Face& each = TopoDS::Face(face.Current());
      if (is_upright(each)) continue;
      is_plane(each) ? add_plane(each) : add_mesh(each);
    }
    return std::move(found_);
  }

 private:
  /// Every curve that bounds a meshed face is that mesh's line to its neighbours too.
  void mesh() {
    lay_curves();
    for (const TopoDS_Face& face : curved_)
      for (TopExp_Explorer edge{face, TopAbs_EDGE}; edge.More(); edge.Next()) meshed_.Add(edge.Current());
    BRepMesh_IncrementalMesh{solid_, job::Body::sag_mm, false, 0.5, false};
  }

  /// Few files say where a curve runs on a round face, or where such a face is cut open. The mesh wants both; no point
  /// moves.
  void lay_curves() {
    const Handle(ShapeBuild_ReShape) laid = new ShapeBuild_ReShape;
    for (const TopoDS_Face& face : curved_) {
      const Handle(ShapeFix_Face) fix = new ShapeFix_Face{face};
      fix->SetContext(laid);
      fix->Perform();
    }
    solid_ = laid->Apply(solid_);
    for (TopoDS_Face& face : curved_) face = TopoDS::Face(laid->Apply(face));
  }

  /// What bounds a cylinder that stands is an arc in plan, whatever curve it is in space.
  void note_circles(const TopoDS_Face& face) {
    const BRepAdaptor_Surface surface{face, false};
    if (surface.GetType() != GeomAbs_Cylinder || !is_upright(face)) return;
    const PlanCircle circle{plan_of(surface.Cylinder().Location()), surface.Cylinder().Radius()};
    for (TopExp_Explorer edge{face, TopAbs_EDGE}; edge.More(); edge.Next()) {
      const BRepAdaptor_Curve curve{TopoDS::Edge(edge.Current())};
      if (curve.GetType() != GeomAbs_Line && circle.holds(curve)) circles_.Bind(edge.Current(), circle);
    }
  }

  std::optional<PlanCircle> circle_about(const TopoDS_Edge& edge, const BRepAdaptor_Curve& curve) const {
    if (const PlanCircle* known = circles_.Seek(edge)) return *known;
    return meshed_.Contains(edge) ? std::nullopt : plan_circle_of(curve);
  }

  void add(brep::Region region, bool up) {
    for (std::size_t i = 0; i < region.loops.size(); ++i)
      if ((brep::area(region.loops[i]) > 0) != (i == 0)) region.loops[i] = brep::reversed(region.loops[i]);
    (up ? found_.top : found_.underside).push_back(std::move(region));
  }

  void add_plane(const TopoDS_Face& face) {
    const gp_Pln plane = BRepAdaptor_Surface{face, false}.Plane();
    double a = 0, b = 0, c = 0, d = 0;
    plane.Coefficients(a, b, c, d);
    const bool rises = (plane.Axis().Direction().Z() > 0) == plane.Direct();  // what is mirrored may be left-handed
    const bool up = rises == (face.Orientation() != TopAbs_REVERSED);
    brep::Region region{{}, {-d / c, -a / c, -b / c}};
    for (TopExp_Explorer wire{face, TopAbs_WIRE}; wire.More(); wire.Next())
      if (Loop loop = loop_of(TopoDS::Wire(wire.Current()), face); loop.size() > 1)
        region.loops.push_back(std::move(loop));
    if (region.loops.empty()) return;
    const auto larger = [](const Loop& p, const Loop& q) { return std::abs(brep::area(p)) > std::abs(brep::area(q)); };
    std::sort(region.loops.begin(), region.loops.end(), larger);
    add(std::move(region), up);
  }

  Loop loop_of(const TopoDS_Wire& wire, const TopoDS_Face& face) const {
    Loop loop;
    for (BRepTools_WireExplorer at{wire, face}; at.More(); at.Next()) {
      const TopoDS_Edge& edge = at.Current();
      if (BRep_Tool::Degenerated(edge)) continue;
      const bool forward = at.Orientation() != TopAbs_REVERSED;
      const BRepAdaptor_Curve curve{edge};
      const double first = curve.FirstParameter(), last = curve.LastParameter();
      const PlanPoint from = plan_of(curve.Value(forward ? first : last));
      if (curve.GetType() == GeomAbs_Line) {
        loop.push_back({from});
        continue;
      }
      if (const auto circle = circle_about(edge, curve)) {
        add_arc(curve, forward, *circle, loop);
        continue;
      }
      loop.push_back({from});
      std::vector<PlanPoint> inner = inner_points(edge);
      if (!forward) std::reverse(inner.begin(), inner.end());
      for (const PlanPoint& p : inner) loop.push_back({p});
    }
    return loop;
  }

  /// A full circle in two parts, so that it has two corners.
  static void add_arc(const BRepAdaptor_Curve& curve, bool forward, const PlanCircle& circle, Loop& loop) {
    const double first = curve.FirstParameter(), last = curve.LastParameter();
    const auto at = [&](double share) {
      return circle.on(curve.Value(forward ? first + (last - first) * share : last - (last - first) * share));
    };
    const PlanPoint from = at(0), early = at(0.125), to = at(1), &c = circle.centre;
    const bool clockwise = (from.x - c.x) * (early.y - c.y) - (from.y - c.y) * (early.x - c.x) < 0;
    loop.push_back({from, c, clockwise});
    if (std::hypot(to.x - from.x, to.y - from.y) < units::tolerance::length_mm) loop.push_back({at(0.5), c, clockwise});
  }

  /// Of a curve that is no arc in plan: the mesh's where a meshed face has it, else chords within the same sag.
  std::vector<PlanPoint> inner_points(const TopoDS_Edge& edge) const {
    std::vector<PlanPoint> inner;
    Handle(Poly_PolygonOnTriangulation) line;
    Handle(Poly_Triangulation) mesh;
    TopLoc_Location place;
    BRep_Tool::PolygonOnTriangulation(edge, line, mesh, place);
    if (line.IsNull()) {
      const BRepAdaptor_Curve curve{edge};
      constexpr int chords = 32;
      for (int i = 1; i < chords; ++i)
        inner.push_back(plan_of(
            curve.Value(curve.FirstParameter() + (curve.LastParameter() - curve.FirstParameter()) * i / chords)));
      return inner;
    }
    for (int i = 2; i < line->NbNodes(); ++i)
      inner.push_back(plan_of(mesh->Node(line->Node(i)).Transformed(place.Transformation())));
    return inner;
  }

  void add_mesh(const TopoDS_Face& face) {
    TopLoc_Location place;
    const Handle(Poly_Triangulation) mesh = BRep_Tool::Triangulation(face, place);
    if (mesh.IsNull()) throw job::NoBody{"a curved face of its solid could not be meshed"};
    found_.triangles += static_cast<std::size_t>(mesh->NbTriangles());
    if (found_.triangles > greatest_triangles)
      throw job::NoBody{"its curved faces take more than " + std::to_string(greatest_triangles) +
                        " triangles; leave out lettering, textures and small rounds"};
    found_.meshed_mm2 += brep::area_mm2(face);
    const Rounding round = rounding_of(face, mesh, place);
    const bool turned = face.Orientation() == TopAbs_REVERSED;
    for (int i = 1; i <= mesh->NbTriangles(); ++i) {
      std::array<int, 3> at{};
      mesh->Triangle(i).Get(at[0], at[1], at[2]);
      add_triangle(at, round, mesh, place, turned);
    }
  }

  /// Nodes of a mesh that lie on the arcs which bound its face, and those arcs between them.
  struct Rounding {
    std::map<int, PlanPoint> on;
    std::map<std::pair<int, int>, PlanPoint> centres;  ///< by the nodes at both ends, the lower first
  };

  Rounding rounding_of(const TopoDS_Face& face, const Handle(Poly_Triangulation) & mesh,
                       const TopLoc_Location& place) const {
    Rounding round;
    for (TopExp_Explorer edge{face, TopAbs_EDGE}; edge.More(); edge.Next()) {
      const PlanCircle* circle = circles_.Seek(edge.Current());
      if (!circle) continue;
      const auto line = BRep_Tool::PolygonOnTriangulation(TopoDS::Edge(edge.Current()), mesh, place);
      if (line.IsNull()) continue;
      for (int i = 1; i <= line->NbNodes(); ++i) {
        const int node = line->Node(i);
        round.on[node] = circle->on(mesh->Node(node).Transformed(place.Transformation()));
        if (i > 1) round.centres[std::minmax(line->Node(i - 1), node)] = circle->centre;
      }
    }
    return round;
  }

  void add_triangle(const std::array<int, 3>& at, const Rounding& round, const Handle(Poly_Triangulation) & mesh,
                    const TopLoc_Location& place, bool turned) {
    std::array<gp_Pnt, 3> p;
    for (std::size_t k = 0; k < 3; ++k) {
      p[k] = mesh->Node(at[k]).Transformed(place.Transformation());
      if (const auto on = round.on.find(at[k]); on != round.on.end()) p[k] = {on->second.x, on->second.y, p[k].Z()};
    }
    const gp_Vec normal = gp_Vec{p[0], p[1]}.Crossed(gp_Vec{p[0], p[2]});
    if (std::abs(normal.Z()) < units::tolerance::weld_mm) return;  // upright, or no triangle
    Loop loop;
    for (std::size_t k = 0; k < 3; ++k) {
      const PlanPoint from = plan_of(p[k]), to = plan_of(p[(k + 1) % 3]);
      Corner& corner = loop.emplace_back(Corner{from});
      const auto arc = round.centres.find(std::minmax(at[k], at[(k + 1) % 3]));
      if (arc == round.centres.end()) continue;
      const PlanPoint& c = arc->second;
      corner.centre = c;
      corner.clockwise = (from.x - c.x) * (to.y - c.y) - (from.y - c.y) * (to.x - c.x) < 0;
    }
    add({{std::move(loop)}, brep::plane_at(p[0], normal), of_a_mesh}, (normal.Z() > 0) != turned);
  }

  TopoDS_Shape solid_;
  std::vector<TopoDS_Face> curved_;
  TopTools_MapOfShape meshed_;
  NCollection_DataMap<TopoDS_Shape, PlanCircle, TopTools_ShapeMapHasher> circles_;
  Reliefs found_;
};

/// Whether its edges alone tell what a face encloses: a plane, and a cylinder between lines and conics.
bool is_told_by_edges(const TopoDS_Face& face) {
  const GeomAbs_SurfaceType surface = BRepAdaptor_Surface{face, false}.GetType();
  if (surface != GeomAbs_Cylinder) return surface == GeomAbs_Plane;
  for (TopExp_Explorer edge{face, TopAbs_EDGE}; edge.More(); edge.Next()) {
    const GeomAbs_CurveType curve = BRepAdaptor_Curve{TopoDS::Edge(edge.Current())}.GetType();
    if (curve != GeomAbs_Line && curve != GeomAbs_Circle && curve != GeomAbs_Ellipse) return false;
  }
  return true;
}

}  // namespace

double enclosed_mm3(const TopoDS_Solid& solid) {
  const BRep_Builder builder;
  TopoDS_Compound faces;
  builder.MakeCompound(faces);
  for (TopExp_Explorer face{solid, TopAbs_FACE}; face.More(); face.Next()) {
    TopoDS_Shape each = face.Current();
    if (!is_told_by_edges(TopoDS::Face(each))) {  // as they are in a file, curves do not lie on round faces yet
      ShapeFix_Face fix{TopoDS::Face(each)};
      fix.Perform();
      each = fix.Result().Oriented(each.Orientation());
    }
    builder.Add(faces, each);
  }
  return brep::volume_mm3(faces);
}

Reliefs reliefs_of(const TopoDS_Solid& solid, const Frame& frame) {
  gp_Trsf turn;
  turn.SetValues(frame.x[0], frame.x[1], frame.x[2], 0, frame.y[0], frame.y[1], frame.y[2], 0, frame.z[0], frame.z[1],
                 frame.z[2], 0);
  return Faces{solid.Moved(TopLoc_Location{turn})}.reliefs();
}

}  // namespace fallwright::intake
