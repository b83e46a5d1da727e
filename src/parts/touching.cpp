#include "parts/touching.hpp"

#include <algorithm>
#include <cmath>

#include "units/tolerance.hpp"

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

void add_floor(const job::Layout& layout, const survey::Polygon& window, std::vector<double>& radii) {
  for (const survey::Cell& cell : layout.subfloor.cells())
    if (const brep::Polygon shared = to_brep(survey::common(cell.plan, window)); !shared.empty())
      add_touching(shared, {layout.drain_x, layout.drain_y}, radii);
}

double clear_of_floor(double radius, const job::Layout& layout, const survey::Polygon& window) {
  std::vector<double> touching;
  add_floor(layout, window, touching);
  return clear_of(radius, std::move(touching));
}

void add_touching(const std::vector<brep::Loop>& loops, brep::PlanPoint centre, std::vector<double>& radii,
                  std::vector<double>& own) {
  constexpr double same = units::tolerance::weld_mm;
  const auto away = [&](brep::PlanPoint p) { return std::hypot(p.x - centre.x, p.y - centre.y); };
  for (const brep::Loop& loop : loops)
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const brep::Corner &p = loop[i], &q = loop[(i + 1) % loop.size()];
      if (!p.centre) {
        add_touching(brep::Polygon{p.at, q.at}, centre, radii);
      } else if (const double off = away(*p.centre); off <= same) {
        own.push_back(away(p.at));
      } else {
        const double radius = std::hypot(p.at.x - p.centre->x, p.at.y - p.centre->y);
        for (const double at : {away(p.at), away(q.at), off + radius, std::abs(off - radius)}) radii.push_back(at);
      }
    }
  for (const double at : own) std::erase_if(radii, [&](double r) { return std::abs(r - at) <= same; });
}

double clear_of(double radius, std::vector<double> touching, const std::vector<double>& own) {
  for (const double at : own) {
    const auto touches = [&](double r) { return std::abs(r - at) < hair_mm; };
    if (touches(radius) && std::none_of(touching.begin(), touching.end(), touches)) return at;
  }
  touching.insert(touching.end(), own.begin(), own.end());
  return clear_of(radius, std::move(touching));
}

}  // namespace fallwright::parts
