#include <algorithm>
#include <array>
#include <cmath>

#include "measure/detail.hpp"
#include "measure/sides.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

double longest(const Patch& polygon) {
  double length = 0;
  for (const Spot& p : polygon) length = std::max(length, std::hypot(p.x - polygon[0].x, p.y - polygon[0].y));
  return length;
}

void add(Mating& mating, const Triangle& upper, const Triangle& lower) {
  const Patch polygon = common(upper, lower);
  if (polygon.size() < 3) return;
  constexpr double same = units::tolerance::length_mm;
  if (std::all_of(polygon.begin(), polygon.end(), [](const Spot& s) { return std::abs(s.open) <= same; })) {
    const double area = integrate(polygon).area;
    mating.contact_mm2 += area;
    if (area <= same) return;
    auto& contact = mating.contact.emplace_back();
    for (const Spot& s : polygon) contact.emplace_back(s.x, s.y, height(lower, s.x, s.y));
    return;
  }
  // Where an arc bounds two faces, each is meshed with its own chords: slivers thinner than the chord height are no
  // open space and no overlap.
  const double area = integrate(polygon).area;
  if (area <= units::tolerance::mesh_mm * longest(polygon)) return;
  mating.void_mm3 += integrate(keep(polygon, [](const Spot& s) { return s.open; })).volume;
  mating.overlap_mm3 -= integrate(keep(polygon, [](const Spot& s) { return -s.open; })).volume;
}

}  // namespace

Sides sides_that_bear(const brep::Skin& skin) {
  return sides_of(skin, 0.1);
}

Mating mate(const Sides& upper, const Sides& lower) {
  const Columns columns{lower.up};
  Mating mating;
  for (const Triangle& t : upper.down) columns.near(t, [&](const Triangle& o) { add(mating, t, o); });
  return mating;
}

std::vector<Depth> depths(const Sides& solid) {
  std::vector<Plate> tops;
  for (const Triangle& t : solid.up) tops.push_back({t.corner.begin(), t.corner.end()});
  return depths(tops, solid);
}

std::vector<Depth> depths(const std::vector<Plate>& tops, const Sides& solid) {
  const Columns columns{solid.down};
  std::vector<Depth> found;
  for (const Plate& top : tops)
    for (std::size_t i = 1; i + 1 < top.size(); ++i) {
      const Triangle t = to_triangle({top[0], top[i], top[i + 1]});
      if (std::abs(twice_plan_mm2(t)) <= units::tolerance::length_mm) continue;
      columns.near(t, [&](const Triangle& o) {
        const Patch polygon = common(t, o);
        if (polygon.size() < 3 || integrate(polygon).area <= units::tolerance::length_mm) return;
        for (const Spot& s : polygon) found.push_back({{s.x, s.y, height(t, s.x, s.y)}, s.open});
      });
    }
  return found;
}

}  // namespace fallwright::measure
