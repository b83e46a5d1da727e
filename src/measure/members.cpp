#include <algorithm>
#include <cmath>

#include "measure/detail.hpp"
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

}  // namespace

std::vector<facts::Member> measure_members(const parts::Model& model) {
  std::vector<facts::Member> members;
  for (const parts::Solid& solid : model.solids) {
    if (!solid.cut) continue;
    const std::vector<gp_Pnt> points = corners(solid.shape);
    const gp_Dir& axis = solid.cut->axis;
    const gp_Dir side = std::abs(axis.Z()) > 0.7 ? gp::DX() : gp_Dir{-axis.Y(), axis.X(), 0},
                 third = axis.Crossed(side);
    facts::Member member;
    member.part_id = solid.id;
    member.stock = solid.cut->stock;
    member.steel = solid.cut->steel;
    member.sheet = solid.cut->sheet;
    member.length_mm = extent(points, axis);
    const double a = extent(points, side), b = extent(points, third);
    member.width_mm = std::max(a, b);
    member.thickness_mm = std::min(a, b);
    member.end_angle_deg = end_angles(solid);
    members.push_back(std::move(member));
  }
  return members;
}

}  // namespace fallwright::measure
