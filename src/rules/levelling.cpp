#include "rules/levelling.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numeric>
#include <optional>

#include <boost/math/tools/toms748_solve.hpp>

#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

using Vec = std::array<double, 3>;

Vec cross(const Vec& a, const Vec& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

/// A direction of a body that was tilted stiffly, so that level planes slope by (tx, ty).
Vec tilted(const Vec& v, double tx, double ty) {
  const double slope = std::sqrt(tx * tx + ty * ty);
  if (slope == 0) return v;
  const double c = 1 / std::sqrt(1 + slope * slope), s = slope * c;
  const Vec axis{ty / slope, -tx / slope, 0};  // up x (-tx, -ty, 1)
  const Vec turned = cross(axis, v);
  const double along = (axis[0] * v[0] + axis[1] * v[1] + axis[2] * v[2]) * (1 - c);
  Vec out{};
  for (std::size_t i = 0; i < 3; ++i) out[i] = v[i] * c + turned[i] * s + axis[i] * along;
  return out;
}

/// What must keep a limit as a body tilts: the whole fall of a facet, the part of it that leads one way, or how high
/// one place of the body lies above another.
struct Bound {
  enum class Of { fall, fall_toward, height };
  std::string name;
  Of of = Of::fall;
  Vec v{};       ///< the facet's normal; of a height the way from the lower place to the upper
  Vec toward{};  ///< the way a fall must lead
  double limit = 0;
  bool least = true;
  double slack = 0;  ///< what is equal to its limit when all is level is inside it, by this much

  double value(double tx, double ty) const {
    const Vec now = tilted(v, tx, ty);
    if (of == Of::height) return now[2];
    if (of == Of::fall_toward) return (now[0] * toward[0] + now[1] * toward[1]) / now[2];
    return std::sqrt(now[0] * now[0] + now[1] * now[1]) / now[2];
  }
  double room(double tx, double ty) const { return (least ? value(tx, ty) - limit : limit - value(tx, ty)) + slack; }
  std::string helps() const {
    if (of == Of::height) return std::string{"a threshold a little "} + (least ? "higher" : "lower");
    return std::string{"a little "} + (least ? "more" : "less") + " fall" +
           (of == Of::fall_toward ? " of the threshold's top" : "");
  }
  double rounding() const { return of == Of::height ? units::tolerance::length_mm : units::tolerance::ratio; }

  /// How far along a direction the limit would be reached if changes added up; they do but for terms of second order.
  double by_gradient(double dx, double dy) const {
    constexpr double never = 0.2;
    const double edge = least ? limit - slack : limit + slack;
    const auto straight = [&](double own, double change) {
      return change != 0 && (edge - own) / change > 0 ? (edge - own) / change : never;
    };
    if (of == Of::height) return straight(v[2], dx * v[0] + dy * v[1]);
    const double gx = -v[0] / v[2], gy = -v[1] / v[2];
    if (of == Of::fall_toward) return straight(-(gx * toward[0] + gy * toward[1]), -(dx * toward[0] + dy * toward[1]));
    const double b = gx * dx + gy * dy, c = gx * gx + gy * gy - edge * edge, d = b * b - c;
    double root = never;
    if (d >= 0)
      for (const double t : {-b - std::sqrt(d), -b + std::sqrt(d)})
        if (t > 0) root = std::min(root, t);
    return root;
  }

  /// How far along a direction until the limit is reached: refined on the true tilt.
  double first_crossing(double dx, double dy) const {
    constexpr double far = 0.2;
    const auto left = [&](double t) { return room(t * dx, t * dy); };
    const double here = left(0);
    if (here <= 0) return 0;
    const double root = by_gradient(dx, dy), high = std::min(far, root * 1.02), there = left(high);
    if (there > 0) return std::min(root, far);
    std::uintmax_t steps = 60;
    const auto close = boost::math::tools::eps_tolerance<double>{};
    return boost::math::tools::toms748_solve(left, 0., high, here, there, close, steps).first;
  }
};

Vec normal_of(const facts::Facet& f) {
  return {f.fall * f.flow[0], f.fall * f.flow[1], 1};
}

void add(Bound bound, std::vector<Bound>& bounds) {
  if (std::abs(bound.room(0, 0)) <= bound.rounding()) bound.slack = bound.rounding();
  bounds.push_back(std::move(bound));
}

void add_bounds(const facts::Facts& facts, facts::Surface surface, const std::string& what, const Limit& limit,
                std::optional<Vec> toward, std::vector<Bound>& bounds) {
  const Bound::Of of = toward ? Bound::Of::fall_toward : Bound::Of::fall;
  for (const facts::Facet& f : facts.facets) {
    if (f.surface != surface) continue;
    const std::string name = what.empty() ? f.facet + " facet" : what;
    const Vec way = toward.value_or(Vec{});
    if (limit.least) add({"least fall of the " + name, of, normal_of(f), way, *limit.least, true}, bounds);
    if (limit.greatest) add({"greatest fall of the " + name, of, normal_of(f), way, *limit.greatest, false}, bounds);
  }
}

/// What reaches its limit first along a direction; of several at once that which has least room, or is broken most.
std::pair<double, const Bound*> first_of(const std::vector<Bound>& bounds, double dx, double dy) {
  double first = std::numeric_limits<double>::max(), room = first;
  const Bound* told = nullptr;
  for (const Bound& bound : bounds) {
    const double t = bound.first_crossing(dx, dy), here = bound.room(0, 0);
    const bool together = std::abs(t - first) <= units::tolerance::ratio;
    if (together ? here >= room - units::tolerance::ratio : t > first) continue;
    first = std::min(t, first), room = here, told = &bound;
  }
  return {first, told};
}

/// Between a least fall and a greatest, with all falls `times` what they are: the flattest has times * least_found -
/// least to spare, the steepest greatest - times * greatest_found; most where both are the same.
std::optional<double> most_slope(const std::vector<Bound>& bounds) {
  const Bound *flattest = nullptr, *steepest = nullptr;
  for (const Bound& b : bounds) {
    if (b.of != Bound::Of::fall) continue;
    if (b.least && (!flattest || b.value(0, 0) < flattest->value(0, 0))) flattest = &b;
    if (!b.least && (!steepest || b.value(0, 0) > steepest->value(0, 0))) steepest = &b;
  }
  if (!flattest || !steepest) return std::nullopt;
  const double low = flattest->value(0, 0), high = steepest->value(0, 0);
  return std::max(0.0, (steepest->limit * low - flattest->limit * high) / (low + high));
}

/// Where it ends, all round.
void add_edge(const std::vector<Bound>& bounds, Levelling& levelling) {
  for (int degrees = 0; degrees < 360; degrees += 5) {
    const double dx = std::cos(degrees * M_PI / 180), dy = std::sin(degrees * M_PI / 180);
    const double slope = first_of(bounds, dx, dy).first;
    levelling.edge.push_back({slope * dx, slope * dy});
  }
}

Levelling window(facts::Surface of, const std::vector<Bound>& bounds, double length, double width, Ask ask) {
  Levelling levelling;
  levelling.of = of;
  if (bounds.empty()) return levelling;
  levelling.most_slope = most_slope(bounds);
  levelling.broken = std::any_of(bounds.begin(), bounds.end(), [](const Bound& b) { return b.room(0, 0) < 0; });
  using survey::Side;
  const struct {
    survey::Side low;
    double dx, dy, over;
  } ways[] = {
      {Side::left, 1, 0, length}, {Side::right, -1, 0, length}, {Side::back, 0, -1, width}, {Side::front, 0, 1, width}};
  for (const auto& way : ways) {
    const auto [slope, bound] = first_of(bounds, way.dx, way.dy);
    levelling.ways.push_back(
        {way.low, way.over, slope * way.over, bound->name, bound->helps(), bound->of == Bound::Of::fall});
  }
  if (ask == Ask::ways_and_edge) add_edge(bounds, levelling);
  return levelling;
}

const facts::Part* part_of(const facts::Facts& facts, facts::Role role) {
  const auto it = std::find_if(facts.parts.begin(), facts.parts.end(), [&](const auto& p) { return p.which.is(role); });
  return it == facts.parts.end() ? nullptr : &*it;
}

/// The threshold's top edges at both ends of the base, above the drain's top at its middle.
void add_threshold_heights(const facts::Facts& facts, const Limits& limits, std::vector<Bound>& bounds) {
  const facts::Part *base = part_of(facts, facts::Role::base), *drain = part_of(facts, facts::Role::drain);
  if (!base || !drain) return;
  const Vec top{(drain->bbox_mm[0] + drain->bbox_mm[3]) / 2, (drain->bbox_mm[1] + drain->bbox_mm[4]) / 2,
                facts.heights.drain_top_mm};
  const Limit least = limits.at("threshold.height-least"), greatest = limits.at("threshold.height-greatest");
  for (const facts::Facet& f : facts.facets) {
    if (f.surface != facts::Surface::threshold) continue;
    for (const facts::Point& edge : {f.low_mm, f.high_mm})
      for (const double x : {base->bbox_mm[0], base->bbox_mm[3]}) {
        const Vec up{x - top[0], edge[1] - top[1], edge[2] - top[2]};
        if (least.least) add({"threshold's least height", Bound::Of::height, up, {}, *least.least, true}, bounds);
        if (greatest.greatest)
          add({"threshold's greatest height", Bound::Of::height, up, {}, *greatest.greatest, false}, bounds);
      }
  }
}

/// From one side of the floor's rim to the other: where its facets end, and the drain where it stands at a side. A rule
/// is held there or farther out, and what is true between the nearest places is safe between the others.
double across_rim(const facts::Facts& facts, const facts::Part& base, std::size_t axis) {
  std::optional<double> low, high;
  const auto reach = [&](double from, double to) {
    low = std::min(low.value_or(from), from), high = std::max(high.value_or(to), to);
  };
  for (const facts::Facet& f : facts.facets)
    if (f.surface == facts::Surface::base_floor && f.high_mm != f.low_mm) reach(f.high_mm[axis], f.high_mm[axis]);
  if (const facts::Part* drain = part_of(facts, facts::Role::drain); drain && low)
    reach(drain->bbox_mm[axis], drain->bbox_mm[axis + 3]);
  return low ? *high - *low : base.bbox_mm[axis + 3] - base.bbox_mm[axis];
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

Levelling base_levelling(const facts::Facts& facts, const Limits& limits, Ask ask) {
  const facts::Part* base = part_of(facts, facts::Role::base);
  if (!base || facts.site_built) return {};  // what is screeded is not set in one piece
  std::vector<Bound> bounds;
  add_bounds(facts, facts::Surface::base_floor, "", limits.at("floor.fall-least"), {}, bounds);
  add_bounds(facts, facts::Surface::base_floor, "", limits.at("floor.fall-greatest"), {}, bounds);
  add_bounds(facts, facts::Surface::threshold, "threshold", limits.at("threshold.falls-inward"), Vec{0, 1, 0}, bounds);
  add_threshold_heights(facts, limits, bounds);
  return window(facts::Surface::base_floor, bounds, across_rim(facts, *base, 0), across_rim(facts, *base, 1), ask);
}

Levelling seat_levelling(const job::Job& job, const facts::Facts& facts, const Limits& limits) {
  const facts::Part* seat = part_of(facts, facts::Role::seat_block);
  if (!seat || !job.bench) return {};
  const Vec toward = job.bench->place == job::Side::left    ? Vec{1, 0, 0}
                     : job.bench->place == job::Side::right ? Vec{-1, 0, 0}
                                                            : Vec{0, -1, 0};
  std::vector<Bound> bounds;
  add_bounds(facts, facts::Surface::seat, "seat", limits.at("seat.fall-least"), toward, bounds);
  add_bounds(facts, facts::Surface::seat, "seat", limits.at("seat.fall-greatest"), {}, bounds);
  return window(facts::Surface::seat, bounds, seat->bbox_mm[3] - seat->bbox_mm[0], seat->bbox_mm[4] - seat->bbox_mm[1],
                Ask::ways_and_edge);
}

std::string allowance_text(double mm, const job::Job& job) {
  if (job.is_metric() || !std::isfinite(mm)) return text_at_most(mm, job);
  const double step = units::inch_mm / 32;
  return text_at_most(std::floor((mm + on_rule_mark_mm) / step) * step, job);
}

std::string text_at_most(double mm, const job::Job& job) {
  constexpr double countable_mm = 1e12;  // beyond it no mark of a rule is counted
  if (!(std::abs(mm) < countable_mm)) return units::to_text(units::Length::mm(mm), job.is_metric());
  if (job.is_metric()) {
    const double tenths = std::floor((mm + on_rule_mark_mm) * 10) / 10;
    return units::decimals(tenths, tenths == std::floor(tenths) ? 0 : 1) + " mm";
  }
  const long marks = static_cast<long>(std::floor((mm + on_rule_mark_mm) / units::inch_mm * 64));
  const long whole = std::abs(marks) / 64, rest = std::abs(marks) % 64;
  const std::string sign = marks < 0 ? "-" : "";
  if (rest == 0) return sign + std::to_string(whole) + "\"";
  const long g = std::gcd(rest, 64L);
  return sign + (whole ? std::to_string(whole) + "-" : "") + std::to_string(rest / g) + "/" + std::to_string(64 / g) +
         "\"";
}

}  // namespace fallwright::rules
