#include <algorithm>
#include <cmath>

#include <Geom_CylindricalSurface.hxx>
#include <gp_Cylinder.hxx>

#include "brep/properties.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/shapes.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using Stretch = std::pair<double, double>;

/// What joists and their surroundings leave of a stretch.
std::vector<Stretch> without(std::vector<Stretch> free, const Stretch& taken) {
  std::vector<Stretch> left;
  for (const Stretch& f : free) {
    if (taken.second <= f.first || taken.first >= f.second) {
      left.push_back(f);
      continue;
    }
    if (taken.first > f.first) left.emplace_back(f.first, taken.first);
    if (taken.second < f.second) left.emplace_back(taken.second, f.second);
  }
  return left;
}

/// Where the bore's centre may lie so that the opening stays on the floor, along x (axis 0) or y; along a channel from
/// rim to rim, so that the body stays in the channel.
Stretch on_floor(const parts::Model& model, int axis) {
  const auto drain = parts::box_of(*model.first(parts::Role::drain));
  double low = drain[axis], high = drain[axis + 3];
  for (const parts::Facet& facet : model.first(parts::Role::base)->facets) {
    if (facet.surface != facts::Surface::base_floor) continue;
    const auto box = brep::box_of(facet.face);
    low = std::min(low, box[axis]), high = std::max(high, box[axis + 3]);
  }
  double half = (drain[axis + 3] - drain[axis]) / 2;
  const auto body = widest_cylinder(*model.first(parts::Role::drain));
  if (body && model.job.drain.kind == job::DrainKind::line && 2 * half > high - low - units::tolerance::length_mm)
    half = body->Radius();
  return {low + half, high - half};
}

}  // namespace

std::optional<double> bore_radius_mm(const parts::Model& model) {
  const auto bore = widest_cylinder(*model.first(parts::Role::subfloor));
  return bore ? std::optional{bore->Radius()} : std::nullopt;
}

facts::DrainWindow measure_window(const parts::Model& model, const survey::StudFaces& faces) {
  facts::DrainWindow window;
  const auto bore = widest_cylinder(*model.first(parts::Role::subfloor));
  if (!bore) return window;
  const gp_Pnt centre = bore->Location();
  window.now_mm = window.nearest_mm = {centre.X(), centre.Y(), 0};
  window.along_width = model.job.floor.joist_direction == job::Direction::along_depth;
  window.left_face_mm = faces.left.at(centre.Y());
  const int axis = window.along_width ? 0 : 1, other = 1 - axis;
  window.free_mm = {on_floor(model, axis)};
  window.other_mm = on_floor(model, other);
  for (const parts::Solid& joist : model.solids) {
    if (joist.role != parts::Role::joist) continue;
    const auto b = parts::box_of(joist);
    window.joists_known = true;
    window.joist_depth_mm = model.job.floor.joist_stock.depth.in_mm();
    const double r = bore->Radius();
    window.free_mm = without(window.free_mm, {b[axis] - r, b[axis + 3] + r});
  }
  return window;
}

}  // namespace fallwright::measure
