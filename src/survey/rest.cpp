#include "survey/rest.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <set>

#include "points/points.hpp"
#include "units/tolerance.hpp"

namespace fallwright::survey {
namespace {

constexpr double same_mm = units::tolerance::weld_mm;
constexpr double same_slope = units::tolerance::ratio;

/// Of spots in one place the highest carries; the others only cost time.
std::vector<Spot> distinct(const std::vector<Spot>& spots) {
  std::vector<Spot> kept;
  for (const Spot& s : spots) {
    const auto same = std::find_if(kept.begin(), kept.end(), [&](const Spot& k) {
      return std::abs(k.x - s.x) < same_mm && std::abs(k.y - s.y) < same_mm;
    });
    if (same == kept.end())
      kept.push_back(s);
    else if (s.z > same->z)
      *same = s;
  }
  return kept;
}

struct Stand {
  HeightPlane plane;
  double height = std::numeric_limits<double>::lowest();  ///< at the middle
};

/// The plane through three spots when their triangle holds the middle.
std::optional<Stand> stand_on(const Spot& a, const Spot& b, const Spot& c, Point m) {
  const auto turn = [](const Spot& p, const Spot& q, Point r) {
    return (q.x - p.x) * (r.y - p.y) - (r.x - p.x) * (q.y - p.y);
  };
  const double whole = turn(a, b, {c.x, c.y});
  if (std::abs(whole) < 1) return std::nullopt;  // mm2: no triangle
  const double wa = turn(b, c, m) / whole, wb = turn(c, a, m) / whole, wc = turn(a, b, m) / whole;
  constexpr double edge = -same_slope;
  if (wa < edge || wb < edge || wc < edge) return std::nullopt;
  const double gx = ((b.z - a.z) * (c.y - a.y) - (c.z - a.z) * (b.y - a.y)) / whole;
  const double gy = ((b.x - a.x) * (c.z - a.z) - (c.x - a.x) * (b.z - a.z)) / whole;
  return Stand{{a.z - gx * a.x - gy * a.y, gx, gy}, wa * a.z + wb * b.z + wc * c.z};
}

bool carries(const HeightPlane& plane, const std::vector<Spot>& spots) {
  return std::all_of(spots.begin(), spots.end(),
                     [&](const Spot& s) { return s.z <= plane.at(s.x, s.y) + 10 * same_mm; });
}

/// The stands on a few spots: every triangle of them over the middle is tried.
std::vector<HeightPlane> stands_on_few(const std::vector<Spot>& spots, Point middle) {
  double highest = std::numeric_limits<double>::lowest();
  std::vector<HeightPlane> planes;
  for (std::size_t i = 0; i < spots.size(); ++i)
    for (std::size_t j = i + 1; j < spots.size(); ++j)
      for (std::size_t k = j + 1; k < spots.size(); ++k) {
        const auto stand = stand_on(spots[i], spots[j], spots[k], middle);
        if (!stand || stand->height < highest - same_mm) continue;
        if (stand->height > highest + same_mm) planes.clear();
        highest = std::max(highest, stand->height);
        planes.push_back(stand->plane);
      }
  // Other triangles over the same edge reach the same height; a true stand lies nowhere below the floor.
  std::vector<HeightPlane> stands;
  for (const HeightPlane& p : planes) {
    const bool known = std::any_of(stands.begin(), stands.end(), [&](const HeightPlane& s) {
      return std::abs(s.gx - p.gx) < same_slope && std::abs(s.gy - p.gy) < same_slope;
    });
    if (!known && carries(p, spots)) stands.push_back(p);
  }
  if (stands.empty() && !planes.empty()) stands.push_back(planes.front());
  return stands;
}

/// Of many spots those that can carry the plate: corners of the upper hull's faces over the middle. The plate's stand
/// is such a face, so no other spot needs to be looked at (n log n; all triangles of them would be n3).
/// @pre the spots do not lie on one plane.
std::vector<Spot> carriers(const std::vector<Spot>& spots, Point middle) {
  std::vector<points::Point3> places;
  for (const Spot& s : spots) places.push_back({s.x, s.y, s.z});
  std::set<std::size_t> corners;
  for (const auto& [a, b, c] : points::hull(places))
    if (stand_on(spots[a], spots[b], spots[c], middle)) corners.insert({a, b, c});
  std::vector<Spot> found;  // in the order they were given
  for (const std::size_t i : corners) found.push_back(spots[i]);
  return found;
}

}  // namespace

std::vector<HeightPlane> stands_on(const std::vector<Spot>& given, Point middle) {
  constexpr std::size_t few = 40;  // ten thousand triangles: no time
  const std::vector<Spot> spots = distinct(given);
  if (spots.size() <= few) return stands_on_few(spots, middle);
  const HeightPlane best = best_plane(spots);
  const auto on_it = [&](const Spot& s) { return std::abs(best.at(s.x, s.y) - s.z) <= same_mm; };
  if (std::all_of(spots.begin(), spots.end(), on_it)) return {best};
  return stands_on_few(carriers(spots, middle), middle);
}

HeightPlane rest_on(const std::vector<Spot>& spots, Point middle) {
  const std::vector<HeightPlane> stands = stands_on(spots, middle);
  HeightPlane mean;
  const double count = std::max<double>(1, static_cast<double>(stands.size()));
  for (const HeightPlane& p : stands) mean.z0 += p.z0 / count, mean.gx += p.gx / count, mean.gy += p.gy / count;
  return mean;
}

HeightPlane rest_on(const Floor& floor, const Polygon& plate) {
  if (floor.is_plane()) return floor.cells().front().plane;
  std::vector<const Cell*> under;
  for (const Cell& cell : floor.cells())
    if (!common(cell.plan, plate).empty()) under.push_back(&cell);
  if (under.size() == 1) return under.front()->plane;
  double x0 = plate[0].x, x1 = x0, y0 = plate[0].y, y1 = y0;
  for (const Point& p : plate)
    x0 = std::min(x0, p.x), x1 = std::max(x1, p.x), y0 = std::min(y0, p.y), y1 = std::max(y1, p.y);
  return rest_on(floor.corners(plate), {(x0 + x1) / 2, (y0 + y1) / 2});
}

}  // namespace fallwright::survey
