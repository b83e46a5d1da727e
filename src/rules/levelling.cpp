#include "rules/levelling.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <optional>

#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

using Vec = std::array<double, 3>;

Vec cross(const Vec& a, const Vec& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

/// A normal after its body was tilted stiffly, so that level planes slope by (tx, ty).
Vec tilted(const Vec& normal, double tx, double ty) {
  const double slope = std::hypot(tx, ty);
  if (slope == 0) return normal;
  const double c = 1 / std::hypot(1, slope), s = slope * c;
  const Vec axis{ty / slope, -tx / slope, 0};  // up x (-tx, -ty, 1)
  const Vec turned = cross(axis, normal);
  const double along = (axis[0] * normal[0] + axis[1] * normal[1] + axis[2] * normal[2]) * (1 - c);
  Vec out{};
  for (std::size_t i = 0; i < 3; ++i) out[i] = normal[i] * c + turned[i] * s + axis[i] * along;
  return out;
}

/// A facet with what its fall must keep: its whole fall, or only the part of it that leads one way.
struct Bound {
  std::string name;
  Vec normal;
  std::optional<Vec> toward;
  double limit;
  bool least;
  double slack = 0;  ///< a fall that is equal to its limit when all is level is inside it, by this much

  double fall(double tx, double ty) const {
    const Vec n = tilted(normal, tx, ty);
    if (toward) return (n[0] * (*toward)[0] + n[1] * (*toward)[1]) / n[2];
    return std::hypot(n[0], n[1]) / n[2];
  }
  double room(double tx, double ty) const { return (least ? fall(tx, ty) - limit : limit - fall(tx, ty)) + slack; }

  /// How far along a direction until the limit is reached. Gradients add up but for terms of second order; the root of
  /// that is bracketed and refined on the true tilt.
  double first_crossing(double dx, double dy) const {
    constexpr double far = 0.2;
    if (room(0, 0) <= 0) return 0;
    double root = far;
    const double edge = least ? limit - slack : limit + slack;
    const double gx = -normal[0] / normal[2], gy = -normal[1] / normal[2];
    if (toward) {
      const double own = -(gx * (*toward)[0] + gy * (*toward)[1]), change = -(dx * (*toward)[0] + dy * (*toward)[1]);
      if (change != 0 && (edge - own) / change > 0) root = (edge - own) / change;
    } else {
      const double b = gx * dx + gy * dy, c = gx * gx + gy * gy - edge * edge, d = b * b - c;
      if (d >= 0)
        for (const double t : {-b - std::sqrt(d), -b + std::sqrt(d)})
          if (t > 0) root = std::min(root, t);
    }
    double low = 0, high = std::min(far, root * 1.02);
    if (room(high * dx, high * dy) > 0) return std::min(root, far);
    for (int i = 0; i < 60; ++i) {
      const double middle = (low + high) / 2;
      (room(middle * dx, middle * dy) > 0 ? low : high) = middle;
    }
    return low;
  }
};

Vec normal_of(const facts::Facet& f) {
  return {f.fall * f.flow[0], f.fall * f.flow[1], 1};
}

void add_bounds(const facts::Facts& facts, const std::string& surface, const std::string& what, const Limit& limit,
                std::optional<Vec> toward, std::vector<Bound>& bounds) {
  for (const facts::Facet& f : facts.facets) {
    if (f.surface != surface) continue;
    const std::string name = what.empty() ? f.facet + " facet" : what;
    const auto add = [&](const char* which, double value, bool least) {
      Bound bound{which + name, normal_of(f), toward, value, least};
      if (std::abs(bound.room(0, 0)) <= units::tolerance::ratio) bound.slack = units::tolerance::ratio;
      bounds.push_back(std::move(bound));
    };
    if (limit.least) add("least fall of the ", *limit.least, true);
    if (limit.greatest) add("greatest fall of the ", *limit.greatest, false);
  }
}

/// What reaches its limit first along a direction; of several at once that which has least room, or is broken most.
std::pair<double, std::string> first_of(const std::vector<Bound>& bounds, double dx, double dy) {
  double first = std::numeric_limits<double>::max(), room = first;
  std::string name;
  for (const Bound& bound : bounds) {
    const double t = bound.first_crossing(dx, dy), here = bound.room(0, 0);
    const bool together = std::abs(t - first) <= units::tolerance::ratio;
    if (together ? here >= room - units::tolerance::ratio : t > first) continue;
    first = std::min(t, first), room = here, name = bound.name;
  }
  return {first, name};
}

Levelling window(const std::string& of, const std::vector<Bound>& bounds, double length, double width) {
  Levelling levelling{of, false, {}, {}};
  if (bounds.empty()) return levelling;
  levelling.broken = std::any_of(bounds.begin(), bounds.end(), [](const Bound& b) { return b.room(0, 0) < 0; });
  const struct {
    const char* low;
    double dx, dy, over;
  } ways[] = {{"left", 1, 0, length}, {"right", -1, 0, length}, {"back", 0, -1, width}, {"front", 0, 1, width}};
  for (const auto& way : ways) {
    const auto [slope, name] = first_of(bounds, way.dx, way.dy);
    levelling.ways.push_back({way.low, way.over, slope * way.over, name});
  }
  for (int degrees = 0; degrees < 360; degrees += 5) {
    const double dx = std::cos(degrees * M_PI / 180), dy = std::sin(degrees * M_PI / 180);
    const double slope = first_of(bounds, dx, dy).first;
    levelling.edge.push_back({slope * dx, slope * dy});
  }
  return levelling;
}

const facts::Part* part_of(const facts::Facts& facts, const std::string& role) {
  const auto it = std::find_if(facts.parts.begin(), facts.parts.end(), [&](const auto& p) { return p.role == role; });
  return it == facts.parts.end() ? nullptr : &*it;
}

}  // namespace

double Levelling::least_mm() const {
  const Way* way = first();
  return way ? way->allowed_mm : 0;
}

const Way* Levelling::first() const {
  const auto it = std::min_element(ways.begin(), ways.end(), [](const Way& a, const Way& b) {
    return a.allowed_mm / a.over_mm < b.allowed_mm / b.over_mm;
  });
  return it == ways.end() ? nullptr : &*it;
}

Levelling base_levelling(const facts::Facts& facts, const Limits& limits) {
  const facts::Part* base = part_of(facts, "base");
  if (!base) return {};
  std::vector<Bound> bounds;
  add_bounds(facts, "base-floor", "", limits.at("floor.fall-least"), {}, bounds);
  add_bounds(facts, "base-floor", "", limits.at("floor.fall-greatest"), {}, bounds);
  add_bounds(facts, "threshold", "threshold", limits.at("threshold.falls-inward"), Vec{0, 1, 0}, bounds);
  return window("base", bounds, base->bbox_mm[3] - base->bbox_mm[0], base->bbox_mm[4] - base->bbox_mm[1]);
}

Levelling seat_levelling(const job::Job& job, const facts::Facts& facts, const Limits& limits) {
  const facts::Part* seat = part_of(facts, "seat-block");
  if (!seat || !job.bench) return {};
  const Vec toward = job.bench->place == job::BenchPlace::left_end    ? Vec{1, 0, 0}
                     : job.bench->place == job::BenchPlace::right_end ? Vec{-1, 0, 0}
                                                                      : Vec{0, -1, 0};
  std::vector<Bound> bounds;
  add_bounds(facts, "seat", "seat", limits.at("seat.fall-least"), toward, bounds);
  add_bounds(facts, "seat", "seat", limits.at("seat.fall-greatest"), {}, bounds);
  return window("seat", bounds, seat->bbox_mm[3] - seat->bbox_mm[0], seat->bbox_mm[4] - seat->bbox_mm[1]);
}

std::string text_at_most(double mm, const job::Job& job) {
  if (job.unit == job::UnitSystem::metric) {
    const double tenths = std::floor(mm * 10 + 1e-6) / 10;
    return units::decimals(tenths, tenths == std::floor(tenths) ? 0 : 1) + " mm";
  }
  const long marks = static_cast<long>(std::floor(mm / 25.4 * 64 + 1e-6));
  const long whole = marks / 64, rest = marks % 64;
  if (rest == 0) return std::to_string(whole) + "\"";
  const long g = std::gcd(rest, 64L);
  return (whole ? std::to_string(whole) + "-" : "") + std::to_string(rest / g) + "/" + std::to_string(64 / g) + "\"";
}

}  // namespace fallwright::rules
