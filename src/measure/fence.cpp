#include "measure/fence.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "points/points.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {

Fence::Fence(const brep::Ring& ring) : ring_{ring}, near_{std::numeric_limits<double>::max()} {
  double twice_area = 0, low_x = ring[0].X(), high_x = low_x, low_y = ring[0].Y(), high_y = low_y;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Side s = side(i);
    twice_area += s.from.X() * s.to.Y() - s.to.X() * s.from.Y();
    low_x = std::min(low_x, s.from.X()), high_x = std::max(high_x, s.from.X());
    low_y = std::min(low_y, s.from.Y()), high_y = std::max(high_y, s.from.Y());
  }
  turn_ = twice_area > 0 ? 1 : -1;
  middle_ = {(low_x + high_x) / 2, (low_y + high_y) / 2, 0};
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Side s = side(i);
    if (const double length = std::sqrt(s.dx * s.dx + s.dy * s.dy); length > 0)
      near_ = std::min(near_, turn_ * s.aside(middle_) / length);
    convex_ = convex_ && turn_ * s.aside(ring[(i + 2) % ring.size()]) >= 0;
  }
}

bool Fence::lies_well_within(const gp_Pnt& place) const {
  const double dx = place.X() - middle_.X(), dy = place.Y() - middle_.Y();
  return near_ > 0 && dx * dx + dy * dy <= near_ * near_;
}

bool Fence::holds(const gp_Pnt& place) const {
  if (lies_well_within(place)) return true;
  for (std::size_t i = 0; i < ring_.size(); ++i) {
    const Side s = side(i);
    if (turn_ * s.aside(place) < -units::tolerance::weld_mm * std::max(std::abs(s.dx), std::abs(s.dy))) return false;
  }
  return true;
}

bool Fence::holds(const brep::Ring& other) const {
  std::size_t at = ring_.size();
  for (const gp_Pnt& p : other) {
    if (lies_well_within(p)) {
      at = ring_.size();
      continue;
    }
    if (convex_ && at < ring_.size()) {
      const std::size_t next = (at + 1) % ring_.size(), before = (at + ring_.size() - 1) % ring_.size();
      const std::size_t beside = is_at(p, next) ? next : is_at(p, before) ? before : ring_.size();
      if (beside < ring_.size()) {
        at = beside;
        continue;
      }
    }
    if (!holds(p)) return false;
    for (at = 0; convex_ && at < ring_.size() && !is_at(p, at);) ++at;
  }
  return true;
}

bool Fence::holds(const Triangle& t) const {
  return std::all_of(t.corner.begin(), t.corner.end(), [&](const gp_Pnt& p) { return holds(p); });
}

Fence::Lie Fence::of(const Triangle& t) const {
  if (convex_) return holds(t) ? Lie::within : stands_apart_from(t) ? Lie::apart : Lie::across;
  if (runs_through(t)) return Lie::across;
  const gp_XYZ middle = (t.corner[0].XYZ() + t.corner[1].XYZ() + t.corner[2].XYZ()) / 3;
  return encloses(middle.X(), middle.Y()) ? Lie::within : Lie::apart;
}

namespace {

constexpr double touches_mm2 = 1e-9;  ///< twice the area of a triangle whose corners lie in a line

}  // namespace

/// Whether one lies wholly beyond a side of the other, or touches it from there: so it is with two that are convex.
bool Fence::stands_apart_from(const Triangle& t) const {
  for (std::size_t i = 0; i < ring_.size(); ++i) {
    const Side s = side(i);
    const auto beyond = [&](const gp_Pnt& p) { return turn_ * s.aside(p) < touches_mm2; };
    if (std::all_of(t.corner.begin(), t.corner.end(), beyond)) return true;
  }
  for (std::size_t i = 0; i < 3; ++i) {  // corners run counter-clockwise
    const Side s{t.corner[i], t.corner[(i + 1) % 3]};
    if (std::all_of(ring_.begin(), ring_.end(), [&](const gp_Pnt& p) { return s.aside(p) < touches_mm2; })) return true;
  }
  return false;
}

/// Whether a side of the ring comes into a triangle: it crosses one of the triangle's, or an end or the middle of it
/// lies within. (One that comes in by a corner and goes out by another runs along a side.)
bool Fence::runs_through(const Triangle& t) const {
  for (std::size_t i = 0; i < ring_.size(); ++i) {
    const Side s = side(i);
    if (std::max(s.from.X(), s.to.X()) <= t.x0 || std::min(s.from.X(), s.to.X()) >= t.x1) continue;
    if (std::max(s.from.Y(), s.to.Y()) <= t.y0 || std::min(s.from.Y(), s.to.Y()) >= t.y1) continue;
    const double from[] = {s.aside(t.corner[0]), s.aside(t.corner[1]), s.aside(t.corner[2])};
    bool from_within = true, middle_within = true;
    const gp_Pnt middle{(s.from.XYZ() + s.to.XYZ()) / 2};
    for (std::size_t k = 0; k < 3; ++k) {
      const Side own{t.corner[k], t.corner[(k + 1) % 3]};
      const double a = own.aside(s.from), b = own.aside(s.to), c = from[k], d = from[(k + 1) % 3];
      const auto parted = [](double p, double q) {
        return (p > touches_mm2 && q < -touches_mm2) || (p < -touches_mm2 && q > touches_mm2);
      };
      if (parted(a, b) && parted(c, d)) return true;
      from_within = from_within && a > touches_mm2;
      middle_within = middle_within && own.aside(middle) > touches_mm2;
    }
    if (from_within || middle_within) return true;
  }
  return false;
}

Patch Fence::within(Patch polygon) const {
  for (std::size_t i = 0; i < ring_.size(); ++i) {
    const Side s = side(i);
    const auto inner = [&](const Spot& spot) { return turn_ * s.aside(spot.x, spot.y); };
    if (std::any_of(polygon.begin(), polygon.end(), [&](const Spot& spot) { return inner(spot) < 0; }))
      polygon = keep(polygon, inner);
  }
  return polygon;
}

bool Fence::encloses(double x, double y) const {
  bool inside = false;
  for (std::size_t i = 0; i < ring_.size(); ++i) {
    const Side s = side(i);
    if (points::crosses_ray({s.from.X(), s.from.Y()}, {s.to.X(), s.to.Y()}, {x, y})) inside = !inside;
  }
  return inside;
}

}  // namespace fallwright::measure
