#include <algorithm>
#include <cmath>
#include <limits>

#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/rim.hpp"
#include "measure/shapes.hpp"

namespace fallwright::measure {
namespace {

using survey::Point;

/// How far outside the spots a corner of the base may lie: a level's foot, a tape's hook and the studs keep a reading
/// that far from it. Common practice, no source.
constexpr double near_corner_mm = 152.4;  // 6 in

/// The convex outline of points, counter-clockwise (Andrew's chain).
std::vector<Point> outline_of(std::vector<Point> points) {
  std::sort(points.begin(), points.end(),
            [](const Point& a, const Point& b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
  std::vector<Point> outline;
  const auto chain = [&](auto begin, auto end) {
    const std::size_t start = outline.size();
    for (auto it = begin; it != end; ++it) {
      while (outline.size() >= start + 2 && cross(outline[outline.size() - 2], outline.back(), *it) <= 0)
        outline.pop_back();
      outline.push_back(*it);
    }
    if (!outline.empty()) outline.pop_back();
  };
  chain(points.begin(), points.end());
  chain(points.rbegin(), points.rend());
  return outline;
}

double to_segment(const Point& p, const Point& a, const Point& b) {
  const double dx = b.x - a.x, dy = b.y - a.y, length2 = dx * dx + dy * dy;
  const double t = length2 > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / length2, 0.0, 1.0) : 0;
  return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

/// Zero inside.
double outside(const std::vector<Point>& outline, const Point& p) {
  double least = std::numeric_limits<double>::max();
  bool inside = outline.size() >= 3;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point &a = outline[i], &b = outline[(i + 1) % outline.size()];
    inside = inside && cross(a, b, p) >= 0;
    least = std::min(least, to_segment(p, a, b));
  }
  return inside ? 0 : least;
}

}  // namespace

std::vector<facts::NamedPlace> unread_corners(const parts::Model& model, const survey::StudFaces& faces) {
  std::vector<Point> spots;
  for (const survey::Spot& s : model.job.survey.spots) spots.push_back(faces.placed({s.x, s.y}));
  std::vector<facts::NamedPlace> unread;
  if (spots.empty()) return unread;
  const std::vector<Point> outline = outline_of(spots);
  const auto corners = four_corners(Rim{*model.first(parts::Role::base)}.corners());
  constexpr const char* names[] = {"back left", "back right", "front right", "front left"};
  for (std::size_t i = 0; i < corners.size(); ++i)
    if (const Point& at = corners[i]; outside(outline, at) > near_corner_mm)
      unread.push_back({names[i], {at.x, at.y, 0}});
  return unread;
}

}  // namespace fallwright::measure
