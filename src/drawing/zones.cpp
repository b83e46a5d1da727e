#include "drawing/zones.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

namespace fallwright::drawing {
namespace {

using Plane = Zones::Plane;
using Ends = std::pair<Point, Point>;

Plane through(const std::array<Point, 3>& p, const std::array<double, 3>& z) {
  const double x1 = p[1].x - p[0].x, y1 = p[1].y - p[0].y, x2 = p[2].x - p[0].x, y2 = p[2].y - p[0].y;
  const double det = x1 * y2 - x2 * y1;
  const double gx = ((z[1] - z[0]) * y2 - (z[2] - z[0]) * y1) / det,
               gy = ((z[2] - z[0]) * x1 - (z[1] - z[0]) * x2) / det;
  return {z[0] - gx * p[0].x - gy * p[0].y, gx, gy};
}

bool is_built(const facts::Node& node) {
  return node.verdict == facts::Verdict::passes || node.verdict == facts::Verdict::fails;
}

/// What a zone's place is worth at three corners; the zone with the least is the one that is there.
struct Field {
  std::size_t zone = passing;
  std::array<double, 3> z{};
};

/// Margins of the checks that give way at some corner; where a corner could not be built, as those of the others are.
std::vector<Field> fields_of(const std::array<const facts::Node*, 3>& nodes) {
  std::vector<Field> fields{{passing, {0, 0, 0}}};
  std::size_t checks = 0, built = 0;
  for (const facts::Node* node : nodes) checks = std::max(checks, node->margins.size()), built += is_built(*node);
  for (std::size_t check = 0; check < checks; ++check) {
    Field field{first_check + check, {}};
    double sum = 0, least = 1;
    for (std::size_t i = 0; i < 3; ++i)
      if (is_built(*nodes[i]))
        field.z[i] = nodes[i]->margins[check], sum += field.z[i], least = std::min(least, field.z[i]);
    for (std::size_t i = 0; i < 3; ++i)
      if (!is_built(*nodes[i]) && built > 0) field.z[i] = sum / static_cast<double>(built);
    if (least < 0) fields.push_back(field);
  }
  if (built == 3) return fields;
  constexpr double deep = 1e8;  // so far past all margins that its border lies half-way
  fields.push_back({not_built, {}});
  for (std::size_t i = 0; i < 3; ++i) fields.back().z[i] = is_built(*nodes[i]) ? deep : -deep;
  return fields;
}

double area_of(const std::vector<Point>& ring) {
  double twice = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
    twice += a.x * b.y - b.x * a.y;
  }
  return twice / 2;
}

bool lies_in(const std::vector<Point>& ring, Point p) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
    if ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) < 0) return false;
  }
  return true;
}

std::vector<double> over_corners(const Plane& plane, const std::vector<Point>& ring, double level = 0) {
  std::vector<double> values;
  for (const Point& corner : ring) values.push_back(plane.at(corner) - level);
  return values;
}

/// The line on which a value, linear over a convex ring and known at each corner, is zero.
std::optional<Ends> where_zero(const std::vector<Point>& ring, const std::vector<double>& values) {
  std::vector<Point> crossings;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const std::size_t k = (i + 1) % ring.size();
    if ((values[i] < 0) == (values[k] < 0)) continue;
    const double t = values[i] / (values[i] - values[k]);
    crossings.push_back({ring[i].x + t * (ring[k].x - ring[i].x), ring[i].y + t * (ring[k].y - ring[i].y)});
  }
  if (crossings.size() != 2) return std::nullopt;
  return Ends{crossings[0], crossings[1]};
}

/// Where one of some planes is at a level in a ring, and none of the others below it.
std::optional<Ends> least_along(const std::vector<Plane>& planes, std::size_t own, double level,
                                const std::vector<Point>& ring) {
  const auto line = where_zero(ring, over_corners(planes[own], ring, level));
  if (!line) return std::nullopt;
  double from = 0, to = 1;
  for (std::size_t other = 0; other < planes.size() && from < to; ++other) {
    if (other == own) continue;
    const double a = planes[other].at(line->first) - level, b = planes[other].at(line->second) - level;
    if (a < 0 && b < 0) return std::nullopt;
    if (a < 0 && b >= 0) from = std::max(from, a / (a - b));
    if (b < 0 && a >= 0) to = std::min(to, a / (a - b));
  }
  if (!(from < to)) return std::nullopt;
  const auto at = [&](double t) {
    return Point{line->first.x + t * (line->second.x - line->first.x),
                 line->first.y + t * (line->second.y - line->first.y)};
  };
  return Ends{at(from), at(to)};
}

/// Neighbours in a row that are of one zone throughout become one patch.
class Runs {
 public:
  explicit Runs(std::vector<Patch>& to) : to_{to} {}
  void add(std::vector<Patch> cell, Point low, Point high) {
    const bool whole =
        cell.size() == 2 && cell[0].zone == cell[1].zone && cell[0].ring.size() == 3 && cell[1].ring.size() == 3;
    if (!whole || !run_ || run_->zone != cell[0].zone || run_->ring[1].x != low.x) end();
    if (!whole) {
      for (Patch& patch : cell) to_.push_back(std::move(patch));
    } else if (run_) {
      run_->ring[1].x = run_->ring[2].x = high.x;
    } else {
      run_ = Patch{{low, {high.x, low.y}, high, {low.x, high.y}}, cell[0].zone};
    }
  }
  void end() {
    if (run_) to_.push_back(std::move(*run_));
    run_.reset();
  }

 private:
  std::vector<Patch>& to_;
  std::optional<Patch> run_;
};

}  // namespace

std::vector<Point> kept(const std::vector<Point>& ring, const std::vector<double>& values) {
  std::vector<Point> part;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const std::size_t k = (i + 1) % ring.size();
    if (values[i] >= 0) part.push_back(ring[i]);
    if ((values[i] < 0) == (values[k] < 0)) continue;
    const double t = values[i] / (values[i] - values[k]);
    part.push_back({ring[i].x + t * (ring[k].x - ring[i].x), ring[i].y + t * (ring[k].y - ring[i].y)});
  }
  return part;
}

Zones::Zones(const facts::Map& map, const Axis& across, const Axis& up) {
  std::vector<Patch> all;
  Runs runs{patches_};
  for (std::size_t j = 0; j + 1 < up.at.size(); ++j) {
    for (std::size_t i = 0; up.joined[j] && i + 1 < across.at.size(); ++i) {
      if (!across.joined[i]) continue;
      const auto corner = [&](std::size_t a, std::size_t b) {
        return Corner{{across.at[a], up.at[b]}, &map.nodes[up.node[b] * map.xs.size() + across.node[a]]};
      };
      // The diagonal leans the other way from cell to cell, so that the map has no grain.
      const Corner a = corner(i, j), b = corner(i + 1, j), c = corner(i + 1, j + 1), d = corner(i, j + 1);
      if (!a.node->known || !b.node->known || !c.node->known || !d.node->known) continue;
      const bool even = (i + j) % 2 == 0;
      const Triangle first{a, b, even ? c : d}, second{even ? a : b, c, d};
      std::vector<Patch> cell = patches_in(first), more = patches_in(second);
      cell.insert(cell.end(), more.begin(), more.end());
      all.insert(all.end(), cell.begin(), cell.end());
      runs.add(std::move(cell), a.p, c.p);
      triangles_.push_back(first), triangles_.push_back(second);
    }
    runs.end();
  }
  find_borders(all);
}

std::vector<Patch> Zones::patches_in(const Triangle& t) const {
  const std::array<Point, 3> p{t[0].p, t[1].p, t[2].p};
  const std::vector<Field> fields = fields_of({t[0].node, t[1].node, t[2].node});
  std::vector<Patch> found;
  for (const Field& own : fields) {
    std::vector<Point> ring(p.begin(), p.end());
    for (const Field& other : fields) {
      if (other.zone == own.zone || ring.empty()) continue;
      const Plane over = through(p, {other.z[0] - own.z[0], other.z[1] - own.z[1], other.z[2] - own.z[2]});
      const std::vector<double> values = over_corners(over, ring);
      // Where two are alike the first of them is there: nothing, then what stands earlier among the checks.
      const bool none =
          own.zone > other.zone && std::all_of(values.begin(), values.end(), [](double v) { return v <= 0; });
      ring = none ? std::vector<Point>{} : kept(ring, values);
    }
    if (ring.size() >= 3 && area_of(ring) > 1e-9) found.push_back({std::move(ring), own.zone});
  }
  return found;
}

/// An edge of two patches is a border where these are of two zones. Both have its ends to the last digits.
void Zones::find_borders(const std::vector<Patch>& patches) {
  struct Side {
    std::array<long, 4> key;
    Point from, to;
    std::size_t zone;
  };
  const auto grid = [](double mm) { return std::lround(mm * 1e4); };
  std::vector<Side> sides;
  for (const Patch& patch : patches)
    for (std::size_t i = 0; i < patch.ring.size(); ++i) {
      const Point &a = patch.ring[i], &b = patch.ring[(i + 1) % patch.ring.size()];
      std::array<long, 2> p{grid(a.x), grid(a.y)}, q{grid(b.x), grid(b.y)};
      if (p == q) continue;
      if (q < p) std::swap(p, q);
      sides.push_back({{p[0], p[1], q[0], q[1]}, a, b, patch.zone});
    }
  std::stable_sort(sides.begin(), sides.end(), [](const Side& a, const Side& b) { return a.key < b.key; });
  for (std::size_t i = 0; i + 1 < sides.size(); ++i)
    if (sides[i].key == sides[i + 1].key && sides[i].zone != sides[i + 1].zone)
      borders_.push_back({sides[i].from, sides[i].to});
}

std::vector<Stretch> Zones::contours(const std::vector<double>& levels) const {
  std::vector<Stretch> all;
  for (const auto& t : triangles_) {
    if (std::any_of(t.begin(), t.end(), [](const Corner& c) { return !c.node->aim; })) continue;
    const std::vector<Point> ring{t[0].p, t[1].p, t[2].p};
    for (std::size_t level = 0; level < levels.size(); ++level) {
      std::vector<double> over;
      for (const Corner& c : t) over.push_back(*c.node->aim - levels[level]);
      if (const auto line = where_zero(ring, over)) all.push_back({line->first, line->second, level});
    }
  }
  return all;
}

/// Margins that the aim looks at, alike ones once. @param below at some corner; none where a corner has none
std::vector<Zones::Plane> Zones::aimed_in(const Triangle& t, double below) {
  std::vector<std::array<double, 3>> found;
  std::vector<Plane> planes;
  if (std::any_of(t.begin(), t.end(), [](const Corner& c) { return c.node->aimed.empty(); })) return planes;
  for (std::size_t check = 0; check < t[0].node->aimed.size(); ++check) {
    const std::array<double, 3> z{t[0].node->aimed[check], t[1].node->aimed[check], t[2].node->aimed[check]};
    if (*std::min_element(z.begin(), z.end()) > below || std::find(found.begin(), found.end(), z) != found.end())
      continue;
    found.push_back(z);
    planes.push_back(through({t[0].p, t[1].p, t[2].p}, z));
  }
  return planes;
}

std::vector<Stretch> Zones::margin_lines(const std::vector<double>& levels) const {
  std::vector<Stretch> all;
  for (const Triangle& t : triangles_) {
    const std::vector<Plane> planes = levels.empty() ? std::vector<Plane>{} : aimed_in(t, levels.back());
    if (planes.empty()) continue;
    std::vector<Point> ring{t[0].p, t[1].p, t[2].p};
    for (const Plane& margin : margins_that_end(t)) ring = kept(ring, over_corners(margin, ring));
    if (ring.size() < 3) continue;
    for (std::size_t level = 0; level < levels.size(); ++level)
      for (std::size_t own = 0; own < planes.size(); ++own)
        if (const auto line = least_along(planes, own, levels[level], ring))
          all.push_back({line->first, line->second, level});
  }
  return all;
}

/// What must not be below zero in a triangle for nothing to give way there.
std::vector<Zones::Plane> Zones::margins_that_end(const Triangle& t) {
  std::vector<Plane> planes;
  for (const Field& field : fields_of({t[0].node, t[1].node, t[2].node}))
    if (field.zone != passing) planes.push_back(through({t[0].p, t[1].p, t[2].p}, field.z));
  return planes;
}

std::vector<double> Zones::least_margins() const {
  constexpr int parts = 4;
  std::vector<double> all;
  for (const Triangle& t : triangles_) {
    const std::vector<Plane> planes = aimed_in(t, HUGE_VAL), ends = margins_that_end(t);
    for (int i = 0; i <= parts && !planes.empty(); ++i)
      for (int j = 0; i + j <= parts; ++j) {
        const double a = static_cast<double>(i) / parts, b = static_cast<double>(j) / parts, c = 1 - a - b;
        const Point p{a * t[0].p.x + b * t[1].p.x + c * t[2].p.x, a * t[0].p.y + b * t[1].p.y + c * t[2].p.y};
        if (std::any_of(ends.begin(), ends.end(), [&](const Plane& end) { return end.at(p) < 0; })) continue;
        double least = HUGE_VAL;
        for (const Plane& plane : planes) least = std::min(least, plane.at(p));
        all.push_back(least);
      }
  }
  return all;
}

std::vector<Stretch> Zones::hatch(std::size_t zone, double angle_deg, double apart) const {
  const double c = std::cos(angle_deg * M_PI / 180), s = std::sin(angle_deg * M_PI / 180);
  const auto off = [&](long n) { return static_cast<double>(n) * apart; };
  std::map<long, std::vector<std::pair<double, double>>> lines;  // by their number: from where to where along each
  for (const Patch& patch : patches_) {
    if (patch.zone != zone) continue;
    double low = HUGE_VAL, high = -HUGE_VAL;
    for (const Point& p : patch.ring) low = std::min(low, p.y * c - p.x * s), high = std::max(high, p.y * c - p.x * s);
    for (long n = std::lround(std::ceil(low / apart)); off(n) <= high; ++n) {
      double from = HUGE_VAL, to = -HUGE_VAL;
      for (std::size_t i = 0; i < patch.ring.size(); ++i) {
        const Point &a = patch.ring[i], &b = patch.ring[(i + 1) % patch.ring.size()];
        const double x = a.y * c - a.x * s - off(n), y = b.y * c - b.x * s - off(n);
        if ((x < 0) == (y < 0)) continue;
        const double t = x / (x - y), along = (a.x + t * (b.x - a.x)) * c + (a.y + t * (b.y - a.y)) * s;
        from = std::min(from, along), to = std::max(to, along);
      }
      if (from < to) lines[n].emplace_back(from, to);
    }
  }
  std::vector<Stretch> all;
  for (auto& [n, parts] : lines) {
    std::sort(parts.begin(), parts.end());
    const auto point = [&, by = off(n)](double along) { return Point{along * c - by * s, along * s + by * c}; };
    for (std::size_t i = 0; i < parts.size();) {
      double end = parts[i].second;
      std::size_t next = i + 1;
      for (; next < parts.size() && parts[next].first <= end + 1e-3; ++next) end = std::max(end, parts[next].second);
      all.push_back({point(parts[i].first), point(end)});
      i = next;
    }
  }
  return all;
}

std::vector<std::optional<std::size_t>> Zones::raster(Point low, double square, std::size_t columns,
                                                      std::size_t rows) const {
  std::vector<std::optional<std::size_t>> zones(columns * rows);
  const auto place = [&](double at, double from, std::size_t most) {
    return static_cast<std::size_t>(std::clamp(std::floor((at - from) / square), 0.0, static_cast<double>(most - 1)));
  };
  for (const Patch& patch : patches_) {
    Point a{HUGE_VAL, HUGE_VAL}, b{-HUGE_VAL, -HUGE_VAL};
    for (const Point& p : patch.ring)
      a = {std::min(a.x, p.x), std::min(a.y, p.y)}, b = {std::max(b.x, p.x), std::max(b.y, p.y)};
    for (std::size_t j = place(a.y, low.y, rows); j <= place(b.y, low.y, rows); ++j)
      for (std::size_t i = place(a.x, low.x, columns); i <= place(b.x, low.x, columns); ++i)
        if (lies_in(patch.ring,
                    {low.x + (static_cast<double>(i) + 0.5) * square, low.y + (static_cast<double>(j) + 0.5) * square}))
          zones[j * columns + i] = patch.zone;
  }
  return zones;
}

}  // namespace fallwright::drawing
