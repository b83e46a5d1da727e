#include <algorithm>
#include <cmath>
#include <limits>

#include "brep/skin.hpp"
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

double twice_area_of(const brep::Flat& flat) {
  gp_XYZ sum;
  for (const brep::Ring& ring : flat.rings)
    for (std::size_t i = 1; i + 1 < ring.size(); ++i)
      sum += (ring[i].XYZ() - ring[0].XYZ()).Crossed(ring[i + 1].XYZ() - ring[0].XYZ());
  return sum.Modulus();
}

/// Across an upright stick, square to its broadest side: a wall may stand askew.
gp_Dir across_upright(const brep::Skin& skin, const gp_Dir& axis) {
  gp_Dir across = gp::DX();
  double greatest = 0;
  for (const brep::Flat& flat : skin.flats) {
    if (std::abs(flat.normal.Dot(axis)) > 0.7) continue;  // an end
    const double area = twice_area_of(flat);
    if (area > greatest) greatest = area, across = flat.normal;
  }
  return axis.Crossed(across).Crossed(axis);
}

/// How far from square the two ends are cut: the angle between the end faces and the length.
std::array<double, 2> end_angles(const brep::Skin& skin, const gp_Dir& axis) {
  std::array<double, 2> angles{};
  for (const brep::Flat& flat : skin.flats) {
    const double along = flat.normal.Dot(axis);
    if (std::abs(along) < 0.7) continue;  // a long side, not an end
    double& angle = angles[along > 0 ? 1 : 0];
    angle = std::max(angle, std::acos(std::min(1.0, std::abs(along))) * 180 / M_PI);
  }
  return angles;
}

/// The shortest of the edges that run along the length.
double shortest_edge(const brep::Skin& skin, const gp_Dir& axis) {
  double shortest = std::numeric_limits<double>::max();
  for (const brep::Flat& flat : skin.flats)
    for (const brep::Ring& ring : flat.rings)
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const gp_XYZ run = ring[(i + 1) % ring.size()].XYZ() - ring[i].XYZ();
        const double length = run.Modulus();
        if (length > 0 && std::abs(run.Dot(axis.XYZ())) > 0.9 * length) shortest = std::min(shortest, length);
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
    const auto skin = parts::skin_of(solid);
    const gp_Dir side = std::abs(axis.Z()) > 0.7 ? across_upright(*skin, axis) : gp_Dir{-axis.Y(), axis.X(), 0},
                 third = axis.Crossed(side);
    facts::Member member;
    member.which = solid.part;
    member.part_id = solid.id;
    member.stock = solid.cut->stock;
    member.steel = solid.cut->steel;
    member.sheet = solid.cut->sheet;
    member.length_mm = extent(points, axis);
    member.short_mm = std::min(member.length_mm, shortest_edge(*skin, axis));
    const double a = extent(points, side), b = extent(points, third);
    member.width_mm = std::max(a, b);
    member.thickness_mm = std::min(a, b);
    if (const double sold = solid.cut->stock_thickness; sold > 0)
      member.fitted_mm = std::max(0.0, member.thickness_mm - sold);
    member.end_angle_deg = end_angles(*skin, axis);
    members.push_back(std::move(member));
  }
  return members;
}

}  // namespace fallwright::measure
