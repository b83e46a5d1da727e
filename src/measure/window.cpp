#include <algorithm>
#include <cmath>

#include <Geom_CylindricalSurface.hxx>
#include <gp_Cylinder.hxx>

#include "brep/properties.hpp"
#include "job/validate.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
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

/// Where the centre of the opening may lie so that it stays on the floor, along x (axis 0) or y.
Stretch on_floor(const parts::Model& model, int axis) {
  const auto drain = brep::box_of(model.first(parts::Role::drain)->shape);
  double low = drain[axis], high = drain[axis + 3];
  for (const parts::Facet& facet : model.first(parts::Role::base)->facets) {
    if (facet.surface != "base-floor") continue;
    const auto box = brep::box_of(facet.face);
    low = std::min(low, box[axis]), high = std::max(high, box[axis + 3]);
  }
  const double half = (drain[axis + 3] - drain[axis]) / 2;
  return {low + half, high - half};
}

/// Falls of the floor with the drain somewhere else, from a base built there.
void falls_at(const parts::Model& model, facts::DrainWindow& window) {
  job::Job job = model.job;
  const double dx = window.nearest_mm[0] - window.now_mm[0], dy = window.nearest_mm[1] - window.now_mm[1];
  const auto shift = [](job::From& from, double by, job::Side low) {
    from.distance = from.distance + job::Length::mm(from.side == low ? by : -by);
  };
  shift(job.drain.across, dx, job::Side::left);
  shift(job.drain.along, dy, job::Side::front);
  if (!job::contradictions(job).empty()) return;  // the floor would allow it, and something else does not
  parts::Model moved{job, {parts::build_base(job)}};
  facts::Facts facts;
  measure_falls(moved, facts);
  window.least_fall = 1;
  for (const facts::Facet& f : facts.facets) {
    if (f.surface != "base-floor") continue;
    window.least_fall = std::min(window.least_fall, f.fall);
    window.greatest_fall = std::max(window.greatest_fall, f.fall);
  }
}

/// Bore to a third of the depth and two inches from either edge; notch to a sixth, at the ends to a quarter: IRC
/// R502.8.1, quoted. Where the third and the edges differ both hold.
void joist_limits(double depth, facts::DrainWindow& window) {
  window.joist_depth_mm = depth;
  window.hole_mm = std::max(0.0, std::min(depth / 3, depth - 4 * 25.4));
  window.notch_mm = depth / 6;
  window.end_notch_mm = depth / 4;
}

}  // namespace

facts::DrainWindow measure_window(const parts::Model& model) {
  facts::DrainWindow window;
  const auto bore = widest_cylinder(model.first(parts::Role::subfloor)->shape);
  if (!bore) return window;
  const gp_Pnt centre = bore->Location();
  window.now_mm = window.nearest_mm = {centre.X(), centre.Y(), 0};
  window.along_width = model.job.floor.joist_direction == job::Direction::along_depth;
  window.left_face_mm = wall_line(model, job::Side::left, centre.Y()).value_or(0);
  const int axis = window.along_width ? 0 : 1, other = 1 - axis;
  window.free_mm = {on_floor(model, axis)};
  window.other_mm = on_floor(model, other);
  std::vector<Stretch> asked = window.free_mm;
  const job::Limit* own = model.job.limit("bore_clearance");
  const double clearance = own ? own->value : facts::bore_clearance_mm;
  for (const parts::Solid& joist : model.solids) {
    if (joist.role != parts::Role::joist) continue;
    const auto b = brep::box_of(joist.shape);
    window.joists_known = true;
    const double r = bore->Radius();
    window.free_mm = without(window.free_mm, {b[axis] - r, b[axis + 3] + r});
    asked = without(asked, {b[axis] - r - clearance, b[axis + 3] + r + clearance});
    joist_limits(model.job.floor.joist_stock.depth.in_mm(), window);
  }
  double nearest = 0, least = std::numeric_limits<double>::max();
  for (const Stretch& s : asked) {
    const double at = std::clamp(window.now_mm[axis], s.first, s.second), away = std::abs(at - window.now_mm[axis]);
    if (away < least) least = away, nearest = at;
  }
  window.any = !asked.empty();
  if (!window.any || !window.joists_known) return window;
  window.nearest_mm[axis] = nearest;
  window.moved_mm = least;
  falls_at(model, window);
  return window;
}

}  // namespace fallwright::measure
