#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <utility>

#include <BRepAdaptor_Curve.hxx>
#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <gp_Circ.hxx>

#include "brep/properties.hpp"
#include "brep/skin.hpp"
#include "measure/detail.hpp"
#include "measure/shapes.hpp"
#include "measure/stick_end.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

/// With the bends of steel as they are.
brep::PlaneProperties surface_of(const TopoDS_Face& face) {
  if (const brep::Flat flat = brep::flat_of(face); flat.straight()) return brep::plane_properties(flat);
  GProp_GProps surface;
  BRepGProp::SurfaceProperties(face, surface);
  return {surface.Mass(), surface.CentreOfMass(), surface.MatrixOfInertia()};
}

double bilinear(const gp_Mat& m, const gp_Dir& a, const gp_Dir& b) {
  return a.XYZ().Dot(b.XYZ().Multiplied(m));
}

/// The straight edges of a face, as vectors.
std::vector<gp_Vec> flats_of(const TopoDS_Face& face) {
  std::vector<gp_Vec> flats;
  for (TopExp_Explorer it{face, TopAbs_EDGE}; it.More(); it.Next()) {
    const BRepAdaptor_Curve curve{TopoDS::Edge(it.Current())};
    if (curve.GetType() == GeomAbs_Line)
      flats.emplace_back(curve.Value(curve.FirstParameter()), curve.Value(curve.LastParameter()));
  }
  return flats;
}

bool is_steel(const parts::Solid& stick) {
  return stick.cut && stick.cut->steel;
}

/// A sheet of one thickness t, bent, has the area t (P - 2 t) / 2 within an outline P long: both sides together are
/// twice its middle line, and its two ends are t each.
double sheet_of(const TopoDS_Face& end, double area) {
  GProp_GProps outline;
  BRepGProp::LinearProperties(end, outline);
  const double half = outline.Mass() / 2;
  return (half - std::sqrt(std::max(0.0, half * half - 4 * area))) / 2;
}

/// The end's outline runs straight along its longest edge. Where that is no principal axis (a section cut askew), the
/// axis is turned until the product of inertia vanishes.
gp_Dir principal_way(const TopoDS_Face& end, const gp_Dir& normal, const gp_Mat& inertia) {
  gp_Vec longest;
  for (const gp_Vec& flat : flats_of(end))
    if (flat.Magnitude() > longest.Magnitude() + units::tolerance::length_mm) longest = flat;
  const gp_Dir u{longest}, v = normal.Crossed(u);
  const double uu = bilinear(inertia, u, u), vv = bilinear(inertia, v, v), uv = bilinear(inertia, u, v);
  if (std::abs(uv) <= units::tolerance::ratio * (uu + vv)) return u;
  const double turn = std::atan2(2 * uv, uu - vv) / 2;
  return gp_Dir{std::cos(turn) * u.XYZ() + std::sin(turn) * v.XYZ()};
}

/// Longest flats along the load; each has two edges.
double upright_mm2(const TopoDS_Face& end, const gp_Dir& load, double sheet) {
  std::vector<double> lengths;
  for (const gp_Vec& flat : flats_of(end))
    if (std::abs(gp_Dir{flat}.Dot(load)) > 1 - units::tolerance::ratio) lengths.push_back(flat.Magnitude());
  const double longest = lengths.empty() ? 0 : *std::max_element(lengths.begin(), lengths.end());
  double sum = 0;
  for (const double length : lengths)
    if (length > longest - units::tolerance::length_mm) sum += length;
  return sum / 2 * sheet;
}

double from_nearer_edge(const TopoDS_Face& end, const gp_Pnt& centroid, const gp_Dir& way) {
  double low = 0, high = 0;
  for (const gp_Pnt& p : corners(end)) {
    const double at = (p.XYZ() - centroid.XYZ()).Dot(way.XYZ());
    low = std::min(low, at), high = std::max(high, at);
  }
  return std::min(-low, high);
}

}  // namespace

std::optional<TopoDS_Face> end_face(const parts::Solid& solid) {
  for (const TopoDS_Face& face : faces_of(solid.shape)) {
    const auto normal = outward(face);
    if (normal && solid.cut && std::abs(normal->Dot(solid.cut->axis)) > 1 - units::tolerance::ratio) return face;
  }
  return std::nullopt;
}

double longest_flat(const TopoDS_Face& end, const gp_Dir& load) {
  double longest = 0;
  for (const gp_Vec& flat : flats_of(end))
    if (std::abs(gp_Dir{flat}.Dot(load)) > 1 - units::tolerance::ratio) longest = std::max(longest, flat.Magnitude());
  return longest;
}

double shortest_flat(const TopoDS_Face& end) {
  const Bends bends = bends_of(end);
  double shortest = 0;
  // The edges of the sheet itself, at the lips' ends, are no flats: they are its thickness long.
  const double sheet = sheet_of(end, brep::area_mm2(end));
  for (const gp_Vec& flat : flats_of(end))
    if (bends.count > 0 && flat.Magnitude() > sheet + units::tolerance::length_mm)
      shortest = shortest == 0 ? flat.Magnitude() : std::min(shortest, flat.Magnitude());
  return shortest;
}

Bends bends_of(const TopoDS_Face& end) {
  Bends bends;
  int arcs = 0;  // two for each bend, inside and outside
  for (TopExp_Explorer it{end, TopAbs_EDGE}; it.More(); it.Next()) {
    const BRepAdaptor_Curve curve{TopoDS::Edge(it.Current())};
    if (curve.GetType() != GeomAbs_Circle) continue;
    const double radius = curve.Circle().Radius();
    bends.inside_mm = arcs++ == 0 ? radius : std::min(bends.inside_mm, radius);
  }
  bends.count = arcs / 2;
  return bends;
}

namespace {

facts::Bending bending_of(const brep::PlaneProperties& surface, const TopoDS_Face& end, const gp_Dir& load) {
  const gp_Dir across = outward(end)->Crossed(load);
  facts::Bending bending;
  bending.inertia_mm4 = bilinear(surface.inertia_mm4, across, across);
  double low = 0, high = 0;
  // The outermost fibres lie on flats: corners reach them, no bend goes beyond.
  for (const gp_Pnt& p : corners(end)) {
    const double at = (p.XYZ() - surface.centroid.XYZ()).Dot(load.XYZ());
    low = std::min(low, at), high = std::max(high, at);
  }
  bending.depth_mm = high - low;
  bending.modulus_mm3 = bending.inertia_mm4 / std::max(high, -low);
  return bending;
}

}  // namespace

facts::Bending bending_on(const TopoDS_Face& end, const gp_Dir& load) {
  return bending_of(surface_of(end), end, load);
}

facts::Section section_on(const TopoDS_Face& end, const parts::Solid& stick) {
  const brep::PlaneProperties surface = surface_of(end);
  facts::Section section;
  section.stock = stick.cut->stock;
  section.steel = is_steel(stick);
  section.area_mm2 = surface.area_mm2;
  if (section.steel) section.sheet_mm = sheet_of(end, section.area_mm2);
  const gp_Dir normal = *outward(end);
  gp_Dir way = principal_way(end, normal, surface.inertia_mm4);
  section.strong = bending_of(surface, end, way);
  section.weak = bending_of(surface, end, normal.Crossed(way));
  if (section.strong.inertia_mm4 < section.weak.inertia_mm4) {
    std::swap(section.strong, section.weak);
    way = normal.Crossed(way);
  }
  const gp_Dir other = normal.Crossed(way);
  section.strong.upright_mm2 = section.steel ? upright_mm2(end, way, section.sheet_mm) : section.area_mm2;
  section.weak.upright_mm2 = section.steel ? upright_mm2(end, other, section.sheet_mm) : section.area_mm2;
  section.centroid_mm = {from_nearer_edge(end, surface.centroid, way), from_nearer_edge(end, surface.centroid, other)};
  return section;
}

std::vector<facts::Section> measure_sections(const parts::Model& model) {
  std::vector<facts::Section> sections;
  const auto box = [](const facts::Section& s) { return s.strong.depth_mm * s.weak.depth_mm; };
  std::set<std::pair<const Standard_Transient*, std::string>> looked_at;  // sticks of one shape have one section
  for (const parts::Solid& solid : model.solids) {
    if (solid.role != parts::Role::bench_frame || !solid.cut || solid.cut->sheet) continue;
    if (!looked_at.emplace(solid.shape.TShape().get(), solid.cut->stock).second) continue;
    const auto end = end_face(solid);
    if (!end) continue;
    const facts::Section section = section_on(*end, solid);
    const auto known = std::find_if(sections.begin(), sections.end(),
                                    [&](const facts::Section& s) { return s.stock == section.stock; });
    if (known == sections.end())
      sections.push_back(section);
    else if (box(section) < box(*known) * (1 - units::tolerance::ratio))
      *known = section;  // a plate cut to a sloping floor has a skewed section: the stock is the one that is not
  }
  return sections;
}

}  // namespace fallwright::measure
