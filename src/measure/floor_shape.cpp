#include <algorithm>
#include <cmath>

#include "brep/properties.hpp"
#include "measure/detail.hpp"
#include "measure/surface.hpp"
#include "survey/rest.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using survey::Rect;
using survey::Spot;

const char* const corner_names[] = {"back left", "back right", "front right", "front left"};

std::array<survey::Point, 4> corners_of(const Rect& r) {
  return {{{r.x0, r.y1}, {r.x1, r.y1}, {r.x1, r.y0}, {r.x0, r.y0}}};
}

/// Greatest difference along any line that runs across the room one way: on a surface of planes it lies on a line
/// through a corner.
double greatest_along(const Surface& floor, const Rect& room, const std::vector<Spot>& corners, bool along_x) {
  const double from = along_x ? room.x0 : room.y0, to = along_x ? room.x1 : room.y1;
  std::vector<double> lines{along_x ? room.y0 : room.x0, along_x ? room.y1 : room.x1};
  for (const Spot& s : corners) lines.push_back(along_x ? s.y : s.x);
  double greatest = 0;
  for (const double line : lines) {
    const auto [low, high] = floor.range_along(along_x, line, from, to);
    greatest = std::max(greatest, high - low);
  }
  return greatest;
}

/// Each place once: a surface of many cells repeats its corners.
std::vector<Spot> distinct(const std::vector<Spot>& spots) {
  std::vector<Spot> kept;
  for (const Spot& s : spots)
    if (std::none_of(kept.begin(), kept.end(), [&](const Spot& k) { return std::hypot(k.x - s.x, k.y - s.y) < 1; }))
      kept.push_back(s);
  return kept;
}

void add_rock(const std::vector<Spot>& spots, const Rect& base, const Surface& floor, facts::FloorShape& shape) {
  const survey::Point middle{(base.x0 + base.x1) / 2, (base.y0 + base.y1) / 2};
  for (const survey::HeightPlane& stand : survey::stands_on(spots, middle))
    for (std::size_t i = 0; i < 4; ++i) {
      const survey::Point c = corners_of(base)[i];
      const double gap = stand.at(c.x, c.y) - floor.carried_on(c.x, c.y);
      if (gap <= shape.rock_mm + units::tolerance::weld_mm) continue;
      shape.rock_mm = gap;
      shape.rock_at = corner_names[i];
    }
}

}  // namespace

facts::FloorShape measure_floor(const parts::Model& model) {
  const job::Job& job = model.job;
  facts::FloorShape shape;
  shape.known =
      !job.survey.spots.empty() || !job.floor.drop_along_width.is_zero() || !job.floor.drop_along_depth.is_zero();
  const Surface floor{model.first(parts::Role::subfloor)->shape, true};
  const auto box = brep::box_of(model.first(parts::Role::base)->shape);
  const Rect base{box[0], box[1], box[3], box[4]};
  const Rect room{0, 0, job.alcove.width.in_mm(), job.alcove.depth.in_mm()};
  const std::vector<Spot> in_room = distinct(floor.corners(room)), under = distinct(floor.corners(base));
  shape.along_width_mm = greatest_along(floor, room, in_room, true);
  shape.along_depth_mm = greatest_along(floor, room, in_room, false);

  std::vector<Spot> corners;
  for (const survey::Point& c : corners_of(base)) corners.push_back({c.x, c.y, floor.carried_on(c.x, c.y)});
  shape.twist_mm = corners[0].z - corners[1].z + corners[2].z - corners[3].z;
  const survey::HeightPlane plane = survey::best_plane(corners);
  for (const Spot& s : under) {
    const double off = s.z - plane.at(s.x, s.y);
    if (off > shape.hump_mm) shape.hump_mm = off, shape.hump_at_mm = {s.x, s.y, s.z};
    const double below = plane.at(s.x, s.y) - s.z;
    if (below > shape.hollow_mm) shape.hollow_mm = below, shape.hollow_at_mm = {s.x, s.y, s.z};
  }
  add_rock(under, base, floor, shape);
  return shape;
}

}  // namespace fallwright::measure
