#include <algorithm>
#include <cmath>

#include <BRepGProp.hxx>
#include <BRep_Tool.hxx>
#include <GProp_GProps.hxx>
#include <TopExp.hxx>
#include <TopTools_IndexedDataMapOfShapeListOfShape.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Vertex.hxx>

#include "brep/properties.hpp"
#include "diag/fault.hpp"
#include "measure/detail.hpp"
#include "measure/foremost.hpp"
#include "measure/shapes.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

/// The middle of the corners that lie so high: of a level edge its own.
facts::Point middle_of(const std::vector<gp_Pnt>& points, double z) {
  gp_XYZ low{1e300, 1e300, 1e300}, high = low * -1;
  for (const gp_Pnt& p : points)
    if (std::abs(p.Z() - z) <= units::tolerance::length_mm)
      for (int i = 1; i <= 3; ++i)
        low.SetCoord(i, std::min(low.Coord(i), p.Coord(i))), high.SetCoord(i, std::max(high.Coord(i), p.Coord(i)));
  return to_point(gp_Pnt{(low + high) / 2});
}

/// Everything about a facet follows from its face: the plane gives fall and direction, the corners give run and ends.
facts::Facet look_at(const parts::Facet& facet) {
  const auto normal = outward(facet.face);
  diag::ensure(normal && normal->Z() > 0, "a facet that carries water must be a plane that faces up");
  facts::Facet found;
  found.surface = facet.surface;
  found.facet = facet.facet;
  found.area_mm2 = brep::area_mm2(facet.face);
  const double horizontal = std::hypot(normal->X(), normal->Y());
  found.fall = horizontal / normal->Z();
  if (found.fall > units::tolerance::ratio) found.flow = {normal->X() / horizontal, normal->Y() / horizontal, 0};
  const double azimuth = std::atan2(found.flow[0], found.flow[1]) * 180 / M_PI;
  // Rounding must not turn a hair left of straight back into 360.
  found.azimuth_deg = azimuth < -units::tolerance::ratio ? azimuth + 360 : std::abs(azimuth);

  const std::vector<gp_Pnt> points = corners(facet.face);
  const auto lower = [](const gp_Pnt& a, const gp_Pnt& b) { return a.Z() < b.Z(); };
  const auto [lowest, highest] = std::minmax_element(points.begin(), points.end(), lower);
  found.low_mm = middle_of(points, lowest->Z());
  found.high_mm = middle_of(points, highest->Z());
  const auto along = [&](const gp_Pnt& p) { return p.X() * found.flow[0] + p.Y() * found.flow[1]; };
  double least = along(points.front()), greatest = least;
  for (const gp_Pnt& p : points) least = std::min(least, along(p)), greatest = std::max(greatest, along(p));
  found.run_mm = greatest - least;
  return found;
}

/// Water of a facet runs toward an edge when the way from the facet's middle to the edge goes with its flow.
bool runs_to(const facts::Facet& facet, const TopoDS_Face& face, const gp_Pnt& edge_middle) {
  const gp_Pnt middle = brep::plane_properties(brep::flat_of(face)).centroid;
  return (edge_middle.X() - middle.X()) * facet.flow[0] + (edge_middle.Y() - middle.Y()) * facet.flow[1] > 0;
}

void add_creases(const parts::Solid& solid, const std::vector<facts::Facet>& known, facts::Facts& facts) {
  TopTools_IndexedDataMapOfShapeListOfShape sides;
  for (const parts::Facet& facet : solid.facets)
    TopExp::MapShapesAndAncestors(facet.face, TopAbs_EDGE, TopAbs_FACE, sides);
  const auto index_of = [&](const TopoDS_Shape& face) {
    for (std::size_t i = 0; i < solid.facets.size(); ++i)
      if (solid.facets[i].face.IsSame(face)) return i;
    return solid.facets.size();
  };
  for (int e = 1; e <= sides.Extent(); ++e) {
    if (sides(e).Extent() != 2) continue;
    const std::size_t a = index_of(sides(e).First()), b = index_of(sides(e).Last());
    if (a == b || solid.facets[a].surface != solid.facets[b].surface) continue;
    const TopoDS_Edge edge = TopoDS::Edge(sides.FindKey(e));
    gp_Pnt p = BRep_Tool::Pnt(TopExp::FirstVertex(edge)), q = BRep_Tool::Pnt(TopExp::LastVertex(edge));
    if (p.Z() > q.Z()) std::swap(p, q);
    const gp_Pnt middle{(p.XYZ() + q.XYZ()) / 2};
    facts::Crease crease;
    crease.surface = solid.facets[a].surface;
    crease.facet_a = solid.facets[a].facet;
    crease.facet_b = solid.facets[b].facet;
    crease.valley = runs_to(known[a], solid.facets[a].face, middle) && runs_to(known[b], solid.facets[b].face, middle);
    crease.length_mm = p.Distance(q);
    crease.fall = (q.Z() - p.Z()) / std::hypot(q.X() - p.X(), q.Y() - p.Y());
    crease.low_mm = to_point(p);
    crease.high_mm = to_point(q);
    facts.creases.push_back(std::move(crease));
  }
}

/// Of facets that fall alike the first is told: of a left one and a right one that on the hand that is told first.
void put_hand_first(std::vector<facts::Facet>& facets, double hand) {
  const auto side_of = [](const facts::Facet& f) { return f.facet == "left" ? -1 : f.facet == "right" ? 1 : 0; };
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < facets.size(); ++i)
    if (side_of(facets[i]) != 0) places.push_back(i);
  for (const std::size_t a : places)
    for (const std::size_t b : places)
      if (a < b && facets[a].surface == facets[b].surface && hand * side_of(facets[a]) < hand * side_of(facets[b]))
        std::swap(facets[a], facets[b]);
}

}  // namespace

std::vector<facts::Facet> facets_of(const parts::Solid& solid) {
  std::vector<facts::Facet> found;
  for (const parts::Facet& facet : solid.facets) found.push_back(look_at(facet));
  return found;
}

void measure_falls(const parts::Model& model, facts::Facts& facts) {
  const double hand = Foremost{model}.hand();
  for (const parts::Solid& solid : model.solids) {
    std::vector<facts::Facet> found = facets_of(solid);
    add_creases(solid, found, facts);
    put_hand_first(found, hand);
    facts.facets.insert(facts.facets.end(), found.begin(), found.end());
  }
}

}  // namespace fallwright::measure
