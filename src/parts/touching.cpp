#include "parts/touching.hpp"

#include <algorithm>
#include <cmath>

namespace fallwright::parts {

brep::Polygon to_brep(const survey::Polygon& polygon) {
  brep::Polygon points;
  for (const survey::Point& p : polygon) points.push_back({p.x, p.y});
  return points;
}

void add_touching(const brep::Polygon& polygon, brep::PlanPoint centre, std::vector<double>& radii) {
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const brep::PlanPoint &p = polygon[i], &q = polygon[(i + 1) % polygon.size()];
    const double dx = q.x - p.x, dy = q.y - p.y, length = std::hypot(dx, dy);
    const double along = ((centre.x - p.x) * dx + (centre.y - p.y) * dy) / length;
    radii.push_back(std::hypot(centre.x - p.x, centre.y - p.y));
    if (along > -hair_mm && along < length + hair_mm)
      radii.push_back(std::abs((centre.x - p.x) * dy - (centre.y - p.y) * dx) / length);
  }
}

double clear_of(double radius, std::vector<double> touching) {
  std::sort(touching.begin(), touching.end());
  for (const double at : touching)
    if (std::abs(at - radius) < hair_mm) radius = at + hair_mm;
  return radius;
}

double clear_of_floor(double radius, const job::Layout& layout, const survey::Polygon& window) {
  std::vector<double> touching;
  for (const survey::Cell& cell : layout.subfloor.cells())
    if (const brep::Polygon shared = to_brep(survey::common(cell.plan, window)); !shared.empty())
      add_touching(shared, {layout.drain_x, layout.drain_y}, touching);
  return clear_of(radius, std::move(touching));
}

}  // namespace fallwright::parts
