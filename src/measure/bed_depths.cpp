#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "measure/detail.hpp"
#include "measure/mating.hpp"
#include "measure/sides.hpp"
#include "parts/model.hpp"
#include "points/points.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using points::Point3;

/// The hull's faces that look down, each as the plane that it lies in.
struct Underneath {
  double x, y, z, gx, gy;  ///< a point of it, and how it rises
  double at(const Point3& p) const { return z + gx * (p.x - x) + gy * (p.y - y); }
};

std::vector<Underneath> underneath(const std::vector<Point3>& kept) {
  Point3 middle;
  for (const Point3& p : kept) middle.x += p.x, middle.y += p.y, middle.z += p.z;
  const double count = static_cast<double>(kept.size());
  middle = {middle.x / count, middle.y / count, middle.z / count};
  std::vector<Underneath> planes;
  for (const auto& [i, j, k] : points::hull(kept)) {
    const Point3 &a = kept[i], &b = kept[j], &c = kept[k];
    const double ux = b.x - a.x, uy = b.y - a.y, uz = b.z - a.z, vx = c.x - a.x, vy = c.y - a.y, vz = c.z - a.z;
    const double up = ux * vy - uy * vx;
    if (std::abs(up) <= units::tolerance::length_mm) continue;  // upright
    const Underneath plane{a.x, a.y, a.z, (uz * vy - uy * vz) / up, (ux * vz - uz * vx) / up};
    if (plane.at(middle) < middle.z) planes.push_back(plane);
  }
  return planes;
}

/// Of the places those over which no base, tilted by less than `steep`, finds its least height elsewhere: the corners
/// of what lies round them from below. Four far ones, so high that none of them is ever the lowest, close that off.
std::vector<Point3> lowest_of(const std::vector<Point3>& all, double steep) {
  Point3 low = all.front(), high = low;
  for (const Point3& p : all) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y), std::min(low.z, p.z)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y), std::max(high.z, p.z)};
  }
  const double over = high.z + 1 + steep * (high.x - low.x + high.y - low.y);
  std::vector<Point3> kept{{low.x, low.y, over}, {high.x, low.y, over}, {high.x, high.y, over}, {low.x, high.y, over}};
  kept.push_back(*std::min_element(all.begin(), all.end(), [](const Point3& a, const Point3& b) { return a.z < b.z; }));
  std::vector<bool> taken(all.size());
  for (std::optional<std::size_t> next = 0; next;) {  // each round takes in what lies farthest below
    const std::vector<Underneath> planes = underneath(kept);
    double farthest = units::tolerance::length_mm;
    next.reset();
    for (std::size_t i = 0; i < all.size(); ++i) {
      double hull = low.z - 1;
      for (const Underneath& plane : planes) hull = std::max(hull, plane.at(all[i]));
      if (!taken[i] && hull - all[i].z > farthest) farthest = hull - all[i].z, next = i;
    }
    if (next) kept.push_back(all[*next]), taken[*next] = true;
  }
  kept.erase(kept.begin(), kept.begin() + 4);
  return kept;
}

}  // namespace

std::vector<facts::BedDepth> thinnest_beds(const parts::Model& model) {
  constexpr double steep = 0.2;  // more than any base can lie off level in its bed
  if (model.job.base.is_site_built()) return {};
  const auto base_skin = parts::skin_of(*model.first(parts::Role::base));
  const auto bed_skin = parts::skin_of(*model.first(parts::Role::bed));
  const View base{*base_skin};
  const Sides bed = sides_that_bear(View{*bed_skin});
  std::vector<Point3> all;
  for (const Depth& d : depths(mate(base, bed).contact, bed)) all.push_back({d.top.X(), d.top.Y(), d.mm});
  std::vector<facts::BedDepth> beds;
  if (all.empty()) return beds;
  for (const Point3& p : lowest_of(all, steep)) beds.push_back({p.x, p.y, p.z});
  return beds;
}

}  // namespace fallwright::measure
