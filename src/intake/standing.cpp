#include <algorithm>
#include <cmath>
#include <vector>

#include "intake/recognise.hpp"

namespace fallwright::intake {

using brep::Loop;
using brep::PlanPoint;
using job::Side;

namespace {

/// Tops that differ by less are one height; a threshold is lower by more.
constexpr double same_top_mm = 1;

template <class Change>
void each_point(Standing& body, const Change& change) {
  for (brep::Relief* relief : {&body.top, &body.underside})
    for (brep::Region& region : *relief)
      for (Loop& loop : region.loops)
        for (brep::Corner& c : loop) {
          change(c.at);
          if (c.centre) change(*c.centre);
        }
}

}  // namespace

void set_down(Standing& body) {
  double x0 = 1e300, y0 = 1e300, z0 = 1e300;
  for (const brep::Relief* relief : {&body.top, &body.underside})
    for (const brep::Region& region : *relief)
      for (const Loop& loop : region.loops)
        for (const brep::Corner& c : loop)
          x0 = std::min(x0, c.at.x), y0 = std::min(y0, c.at.y), z0 = std::min(z0, region.plane.at(c.at));
  each_point(body, [&](PlanPoint& p) { p.x -= x0, p.y -= y0; });
  for (brep::Relief* relief : {&body.top, &body.underside})
    for (brep::Region& region : *relief) region.plane.z0 += region.plane.gx * x0 + region.plane.gy * y0 - z0;
}

void turn(Standing& body, int quarters) {
  for (int i = 0; i < quarters; ++i) {
    each_point(body, [](PlanPoint& p) { p = {-p.y, p.x}; });
    for (brep::Relief* relief : {&body.top, &body.underside})
      for (brep::Region& region : *relief) {
        brep::Plane& p = region.plane;
        p = {p.z0, -p.gy, p.gx};
      }
  }
}

void turn_by(Standing& body, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  each_point(body, [&](PlanPoint& p) { p = {c * p.x - s * p.y, s * p.x + c * p.y}; });
  for (brep::Relief* relief : {&body.top, &body.underside})
    for (brep::Region& region : *relief) {
      brep::Plane& p = region.plane;
      p = {p.z0, c * p.gx - s * p.gy, s * p.gx + c * p.gy};
    }
}

double askew(const job::Body& body) {
  const survey::Point &right = body.outline.corners()[2], &left = body.outline.corners()[3];
  return std::atan2(right.y - left.y, right.x - left.x);
}

std::optional<Side> front_of(const job::Body& body) {
  for (const Side side : survey::all_sides) {
    std::vector<double> others;
    double own = 0;
    for (const Side each : survey::all_sides) {
      const auto i = static_cast<std::size_t>(each);
      const double top = body.turned[i] ? body.top_mm[i] : 0;
      each == side ? void(own = top) : others.push_back(top);
    }
    const auto [low, high] = std::minmax_element(others.begin(), others.end());
    if (*high - *low < same_top_mm && own < *low - same_top_mm) return side;
  }
  return std::nullopt;
}

}  // namespace fallwright::intake
