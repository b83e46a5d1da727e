#include <algorithm>
#include <cmath>
#include <limits>

#include <BRep_Tool.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Vertex.hxx>

#include "brep/properties.hpp"
#include "measure/detail.hpp"
#include "measure/shapes.hpp"
#include "parts/model.hpp"

namespace fallwright::measure {
namespace {

/// Extent of a solid along a direction, over its corners.
double extent(const std::vector<gp_Pnt>& points, const gp_Dir& way) {
  double least = 0, greatest = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double at = points[i].XYZ().Dot(way.XYZ());
    if (i == 0 || at < least) least = at;
    if (i == 0 || at > greatest) greatest = at;
  }
  return greatest - least;
}

/// Across an upright stick, square to its broadest side: a wall may stand askew.
gp_Dir across_upright(const parts::Solid& solid) {
  const gp_Dir& axis = solid.cut->axis;
  gp_Dir across = gp::DX();
  double greatest = 0;
  for (const TopoDS_Face& face : faces_of(solid.shape)) {
    const auto normal = outward(face);
    if (!normal || std::abs(normal->Dot(axis)) > 0.7) continue;  // curved, or an end
    const double area = brep::area_mm2(face);
    if (area > greatest) greatest = area, across = *normal;
  }
  return axis.Crossed(across).Crossed(axis);
}

/// How far from square the two ends are cut: the angle between the end faces and the length.
std::array<double, 2> end_angles(const parts::Solid& solid) {
  std::array<double, 2> angles{};
  for (const TopoDS_Face& face : faces_of(solid.shape)) {
    const auto normal = outward(face);
    if (!normal) continue;
    const double along = normal->Dot(solid.cut->axis);
    if (std::abs(along) < 0.7) continue;  // a long side, not an end
    double& angle = angles[along > 0 ? 1 : 0];
    angle = std::max(angle, std::acos(std::min(1.0, std::abs(along))) * 180 / M_PI);
  }
  return angles;
}

/// The shortest of the edges that run along the length.
double shortest_edge(const parts::Solid& solid) {
  double shortest = std::numeric_limits<double>::max();
  for (TopExp_Explorer it{solid.shape, TopAbs_EDGE}; it.More(); it.Next()) {
    const TopoDS_Edge edge = TopoDS::Edge(it.Current());
    const gp_Vec run{BRep_Tool::Pnt(TopExp::FirstVertex(edge)), BRep_Tool::Pnt(TopExp::LastVertex(edge))};
    if (run.Magnitude() > 0 && std::abs(gp_Dir{run}.Dot(solid.cut->axis)) > 0.9)
      shortest = std::min(shortest, run.Magnitude());
  }
  return shortest;
}

}  // namespace

std::vector<facts::Member> measure_members(const parts::Model& model) {
  std::vector<facts::Member> members;
  for (const parts::Solid& solid : model.solids) {
    if (!solid.cut) continue;
    const std::vector<gp_Pnt> points = parts::corners_of(solid);
    const gp_Dir& axis = solid.cut->axis;
    const gp_Dir side = std::abs(axis.Z()) > 0.7 ? across_upright(solid) : gp_Dir{-axis.Y(), axis.X(), 0},
                 third = axis.Crossed(side);
    facts::Member member;
    member.which = solid.part;
    member.part_id = solid.id;
    member.stock = solid.cut->stock;
    member.steel = solid.cut->steel;
    member.sheet = solid.cut->sheet;
    member.length_mm = extent(points, axis);
    member.short_mm = std::min(member.length_mm, shortest_edge(solid));
    const double a = extent(points, side), b = extent(points, third);
    member.width_mm = std::max(a, b);
    member.thickness_mm = std::min(a, b);
    if (const double sold = solid.cut->stock_thickness; sold > 0)
      member.fitted_mm = std::max(0.0, member.thickness_mm - sold);
    member.end_angle_deg = end_angles(solid);
    members.push_back(std::move(member));
  }
  return members;
}

}  // namespace fallwright::measure
