#include "brep/shell_builder.hpp"

#include <algorithm>
#include <cmath>

#include <ElCLib.hxx>
#include <Geom2dAPI_Interpolate.hxx>
#include <Geom2d_BSplineCurve.hxx>
#include <Geom2d_Line.hxx>
#include <Geom_Circle.hxx>
#include <Geom_CylindricalSurface.hxx>
#include <Geom_Ellipse.hxx>
#include <Geom_Line.hxx>
#include <Geom_Plane.hxx>
#include <Precision.hxx>
#include <TColStd_Array1OfInteger.hxx>
#include <TColStd_Array1OfReal.hxx>
#include <TColStd_HArray1OfReal.hxx>
#include <TColgp_Array1OfPnt2d.hxx>
#include <TColgp_HArray1OfPnt2d.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>

#include "brep/arc.hpp"
#include "diag/fault.hpp"
#include "units/tolerance.hpp"

namespace fallwright::brep {
namespace {

using units::tolerance::weld_mm;

/// The counter-clockwise one of an arc and its twin.
HalfEdge canonical(const HalfEdge& e) {
  return e.clockwise ? HalfEdge{e.to, e.from, e.centre, false} : e;
}

gp_Dir radial(PlanPoint centre, PlanPoint p) {
  return {p.x - centre.x, p.y - centre.y, 0};
}

bool level(const Plane& plane) {
  return std::hypot(plane.gx, plane.gy) < 1e-14;
}

/// The chord of an arc over a falling plane, in a cylinder's own coordinates, run evenly over its turn.
Handle(Geom2d_BSplineCurve) chord(double first, double turn, double middle, double amplitude) {
  TColgp_Array1OfPnt2d ends(1, 2);
  ends(1) = {0, middle + amplitude * std::cos(first)};
  ends(2) = {turn, middle + amplitude * std::cos(first + turn)};
  TColStd_Array1OfReal knots(1, 2);
  knots(1) = 0, knots(2) = turn;
  TColStd_Array1OfInteger both(1, 2);
  both.Init(2);
  return new Geom2d_BSplineCurve(ends, knots, both, 1);
}

/// An arc over a falling plane, in a cylinder's own coordinates (turned angle, height): a sinusoid, interpolated at
/// enough points, with exact end tangents, to lie within a tenth of the kernel's confusion of it: a cubic spline misses
/// a function by at most 5/384 of its step to the fourth times its fourth derivative, here the amplitude.
///
/// An arc so short that its chord is as near is that chord: where a crease of the floor passes the middle of a bore by
/// a hair, arcs are shorter than the interpolation tells its points apart.
Handle(Geom2d_BSplineCurve) sinusoid(double first, double last, double middle, double amplitude) {
  const double turn = last - first, sag = amplitude * turn * turn / 8;
  if (sag <= 0.1 * Precision::Confusion()) return chord(first, turn, middle, amplitude);
  const double step = std::pow(384.0 / 5 * 0.1 * Precision::Confusion() / amplitude, 0.25);
  const int count = 2 + std::max(8, static_cast<int>((last - first) / step));
  Handle(TColgp_HArray1OfPnt2d) places = new TColgp_HArray1OfPnt2d(1, count);
  Handle(TColStd_HArray1OfReal) turns = new TColStd_HArray1OfReal(1, count);
  for (int i = 1; i <= count; ++i) {
    const double t = first + (last - first) * (i - 1) / (count - 1);
    turns->SetValue(i, t);
    places->SetValue(i, {t - first, middle + amplitude * std::cos(t)});
  }
  Geom2dAPI_Interpolate curve{places, turns, false, Precision::Confusion()};
  curve.Load({1, -amplitude * std::sin(first)}, {1, -amplitude * std::sin(last)}, false);
  curve.Perform();
  return curve.Curve();
}

}  // namespace

ShellBuilder::ShellBuilder(const PlanPoints& points) : points_{points}, heights_(points.size()) {
  builder_.MakeShell(shell_);
}

void ShellBuilder::note(int point, double z) {
  heights_[point].push_back(z);
}

void ShellBuilder::settle() {
  int count = 0;
  for (std::vector<double>& zs : heights_) {
    std::sort(zs.begin(), zs.end());
    zs.erase(std::unique(zs.begin(), zs.end(), [](double a, double b) { return b - a <= weld_mm; }), zs.end());
    first_vertex_.push_back(count);
    count += static_cast<int>(zs.size());
  }
  vertices_.resize(count);
  edges_.resize(count);
}

Level ShellBuilder::level_of(int point, double z) const {
  const std::vector<double>& zs = heights_[point];
  const auto at = std::lower_bound(zs.begin(), zs.end(), z - 2 * weld_mm);
  diag::ensure(at != zs.end() && *at <= z + 2 * weld_mm, "a corner's height was not noted");
  return {point, static_cast<int>(at - zs.begin())};
}

TopoDS_Vertex ShellBuilder::vertex(Level at) {
  TopoDS_Vertex& v = vertices_[first_vertex_[at.point] + at.level];
  if (v.IsNull()) {
    const PlanPoint p = points_[at.point];
    builder_.MakeVertex(v, {p.x, p.y, height(at)}, Precision::Confusion());
  }
  return v;
}

TopoDS_Edge ShellBuilder::straight(Level from, Level to) {
  const gp_Pnt a{points_[from.point].x, points_[from.point].y, height(from)};
  const gp_Pnt b{points_[to.point].x, points_[to.point].y, height(to)};
  TopoDS_Edge edge;
  builder_.MakeEdge(edge, new Geom_Line(a, gp_Vec{a, b}), Precision::Confusion());
  builder_.Add(edge, vertex(from).Oriented(TopAbs_FORWARD));
  builder_.Add(edge, vertex(to).Oriented(TopAbs_REVERSED));
  builder_.Range(edge, 0, a.Distance(b));
  return edge;
}

/// Circle over a level plane, ellipse over a falling one, run counter-clockwise.
TopoDS_Edge ShellBuilder::arc(const HalfEdge& c, const Plane& plane, Level from, Level to) {
  const PlanPoint a = points_[c.from], centre = *c.centre;
  const gp_Pnt middle{centre.x, centre.y, plane.at(centre)};
  const double radius = std::hypot(a.x - centre.x, a.y - centre.y), turn = sweep(a, points_[c.to], centre);
  Handle(Geom_Curve) curve;
  double first = 0;
  if (level(plane)) {
    curve = new Geom_Circle(gp_Ax2{middle, gp::DZ(), radial(centre, a)}, radius);
  } else {
    const double rise = std::hypot(plane.gx, plane.gy);
    const gp_Dir up{-plane.gx, -plane.gy, 1}, steepest{plane.gx, plane.gy, rise * rise};
    curve = new Geom_Ellipse(gp_Ax2{middle, up, steepest}, radius * std::sqrt(1 + rise * rise), radius);
    first = ElCLib::InPeriod(std::atan2(a.y - centre.y, a.x - centre.x) - std::atan2(plane.gy, plane.gx), 0, 2 * M_PI);
  }
  TopoDS_Edge edge;
  builder_.MakeEdge(edge, curve, Precision::Confusion());
  builder_.Add(edge, vertex(from).Oriented(TopAbs_FORWARD));
  builder_.Add(edge, vertex(to).Oriented(TopAbs_REVERSED));
  builder_.Range(edge, first, first + turn);
  return edge;
}

TopoDS_Edge& ShellBuilder::between(int a, int b, int bend) {
  auto& made = edges_[a];
  for (Made& m : made)
    if (m.to == b && m.bend == bend) return m.edge;
  return made.emplace_back(Made{b, bend, {}}).edge;
}

/// The edge over a plan edge in a plane, oriented along it.
TopoDS_Edge ShellBuilder::rail(const HalfEdge& e, const Plane& plane) {
  const HalfEdge c = canonical(e);
  const Level from = level_of(c.from, plane.at(points_[c.from])), to = level_of(c.to, plane.at(points_[c.to]));
  int a = first_vertex_[from.point] + from.level, b = first_vertex_[to.point] + to.level;
  const bool turned = !e.centre && a > b;
  if (turned) std::swap(a, b);
  TopoDS_Edge& edge = between(a, b, e.centre ? 1 : 0);
  if (edge.IsNull()) edge = e.centre ? arc(c, plane, from, to) : turned ? straight(to, from) : straight(from, to);
  const bool backwards = e.centre ? e.clockwise : turned;
  return TopoDS::Edge(edge.Oriented(backwards ? TopAbs_REVERSED : TopAbs_FORWARD));
}

TopoDS_Edge ShellBuilder::upright(int point, int lower_level) {
  const int a = first_vertex_[point] + lower_level;
  TopoDS_Edge& edge = between(a, a + 1, 0);
  if (edge.IsNull()) edge = straight({point, lower_level}, {point, lower_level + 1});
  return edge;
}

void ShellBuilder::add_uprights(TopoDS_Wire& wire, int point, double z_from, double z_to) {
  int from = level_of(point, z_from).level;
  const int to = level_of(point, z_to).level;
  for (; from < to; ++from) builder_.Add(wire, upright(point, from).Oriented(TopAbs_FORWARD));
  for (; from > to; --from) builder_.Add(wire, upright(point, from - 1).Oriented(TopAbs_REVERSED));
}

TopoDS_Face ShellBuilder::add_region(const std::vector<EdgeLoop>& loops, const Plane& plane, bool down) {
  const PlanPoint o = points_[loops.front().front().from];
  TopoDS_Face face;
  builder_.MakeFace(face, new Geom_Plane(gp_Pnt{o.x, o.y, plane.at(o)}, gp_Dir{-plane.gx, -plane.gy, 1}),
                    Precision::Confusion());
  for (const EdgeLoop& loop : loops) {
    TopoDS_Wire wire;
    builder_.MakeWire(wire);
    for (const HalfEdge& e : loop) builder_.Add(wire, rail(e, plane));
    wire.Closed(true);
    builder_.Add(face, wire);
  }
  if (down) face.Reverse();
  builder_.Add(shell_, face);
  return face;
}

void ShellBuilder::add_wall(const HalfEdge& e, const Plane& low, const Plane& high) {
  const PlanPoint from = points_[e.from], to = points_[e.to];
  TopoDS_Wire wire;
  builder_.MakeWire(wire);
  builder_.Add(wire, rail(e, low));
  add_uprights(wire, e.to, low.at(to), high.at(to));
  TopoDS_Edge top = rail(e, high);
  builder_.Add(wire, top.Reversed());
  add_uprights(wire, e.from, high.at(from), low.at(from));
  wire.Closed(true);
  if (e.centre)
    add_round_wall(e, wire, low, high);
  else
    add_flat_wall(e, wire);
}

void ShellBuilder::add_flat_wall(const HalfEdge& e, const TopoDS_Wire& wire) {
  const PlanPoint a = points_[e.from], b = points_[e.to];
  TopoDS_Face face;
  builder_.MakeFace(face, new Geom_Plane(gp_Pnt{a.x, a.y, heights_[e.from].front()}, gp_Dir{b.y - a.y, a.x - b.x, 0}),
                    Precision::Confusion());
  builder_.Add(face, wire);
  builder_.Add(shell_, face);
}

/// A patch of a cylinder that starts at angle 0, so that no seam falls into it. Curved faces need their edges' curves
/// in the surface's own coordinates as well.
void ShellBuilder::add_round_wall(const HalfEdge& e, const TopoDS_Wire& wire, const Plane& low, const Plane& high) {
  const HalfEdge c = canonical(e);
  const PlanPoint start = points_[c.from], centre = *c.centre;
  const double radius = std::hypot(start.x - centre.x, start.y - centre.y), turn = sweep(start, points_[c.to], centre);
  const Handle(Geom_CylindricalSurface) surface =
      new Geom_CylindricalSurface(gp_Ax3{{centre.x, centre.y, 0}, gp::DZ(), radial(centre, start)}, radius);
  const auto lay = [&](const TopoDS_Edge& edge, const Handle(Geom2d_Curve) & curve) {
    builder_.UpdateEdge(edge, curve, surface, TopLoc_Location{}, Precision::Confusion());
  };
  for (const Plane& plane : {low, high}) {
    const double middle = plane.at(centre);
    if (level(plane)) {
      lay(rail(e, plane), new Geom2d_Line(gp_Pnt2d{0, middle}, gp::DX2d()));
      continue;
    }
    const double first = ElCLib::InPeriod(
        std::atan2(start.y - centre.y, start.x - centre.x) - std::atan2(plane.gy, plane.gx), 0, 2 * M_PI);
    lay(rail(e, plane), sinusoid(first, first + turn, middle, radius * std::hypot(plane.gx, plane.gy)));
  }
  for (const auto& [point, u] : {std::pair{c.from, 0.0}, std::pair{c.to, turn}})
    for (int k = level_of(point, low.at(points_[point])).level; k < level_of(point, high.at(points_[point])).level; ++k)
      lay(upright(point, k), new Geom2d_Line(gp_Pnt2d{u, heights_[point][k]}, gp::DY2d()));
  TopoDS_Face face;
  builder_.MakeFace(face, surface, Precision::Confusion());
  builder_.Add(face, wire.Oriented(e.clockwise ? TopAbs_REVERSED : TopAbs_FORWARD));
  if (e.clockwise) face.Reverse();
  builder_.Add(shell_, face);
}

}  // namespace fallwright::brep
