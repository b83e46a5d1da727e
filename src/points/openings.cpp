#include "points/openings.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numeric>

#include <gmpxx.h>

#include <boost/polygon/polygon.hpp>

// Crossings of sides are exact fractions: by numbers that round, sides that all but meet in one corner come in another
// order each time they are asked, and the way round a region never ends where it began.
namespace boost::polygon {
template <>
struct high_precision_type<int> {
  using type = mpq_class;
};
template <>
inline int convert_high_precision_type<int>(const mpq_class& v) {
  return static_cast<int>(mpz_class{v.get_num() / v.get_den()}.get_si());
}
}  // namespace boost::polygon

namespace fallwright::points {
namespace {

namespace bp = boost::polygon;
using Point = bp::point_data<int>;
using Polygon = bp::polygon_with_holes_data<int>;
using Region = bp::polygon_set_data<int>;

/// Whole numbers for places about the middle of a box, as fine as they go: a place and its mirror image have the same
/// ones but for the sign, and what is decided of whole numbers is decided exactly.
class Grid {
 public:
  explicit Grid(const Box2& box) : box_{box}, x_{(box.x0 + box.x1) / 2}, y_{(box.y0 + box.y1) / 2} {
    constexpr double most = 1 << 29, nothing = 1e-3;
    const double half = std::max({box.x1 - box.x0, box.y1 - box.y0, nothing}) / 2;
    marks_ = std::exp2(std::floor(std::log2(most / half)));
  }
  int marks(double length) const { return static_cast<int>(std::lround(length * marks_)); }
  /// What lies outside the box, however far, is put a little beyond it.
  Point on(const Point2& p) const {
    const auto near = [](double at, double low, double high) {
      const double past = high - low;
      return std::clamp(at, low - past / 2, high + past / 2);
    };
    return {marks(near(p.x, box_.x0, box_.x1) - x_), marks(near(p.y, box_.y0, box_.y1) - y_)};
  }
  Point low() const { return on({box_.x0, box_.y0}); }
  Point high() const { return on({box_.x1, box_.y1}); }
  /// What lies on a side of the box lies on it to the last bit.
  Point2 off(const Point& p) const {
    const auto at = [&](int k, int least, int most, double from, double to, double middle) {
      return k == least ? from : k == most ? to : middle + k / marks_;
    };
    return {at(p.x(), low().x(), high().x(), box_.x0, box_.x1, x_),
            at(p.y(), low().y(), high().y(), box_.y0, box_.y1, y_)};
  }
  double area(double square_marks) const { return square_marks / marks_ / marks_; }

 private:
  Box2 box_;
  double x_, y_, marks_;
};

/// Positive where the way by three points turns left.
long long turn(const Point& a, const Point& b, const Point& c) {
  return (static_cast<long long>(b.x()) - a.x()) * (static_cast<long long>(c.y()) - a.y()) -
         (static_cast<long long>(b.y()) - a.y()) * (static_cast<long long>(c.x()) - a.x());
}

bool is_convex(const std::vector<Point>& ring) {
  for (std::size_t i = 0; i < ring.size(); ++i)
    if (turn(ring[i], ring[(i + 1) % ring.size()], ring[(i + 2) % ring.size()]) < 0) return false;
  return true;
}

/// All that a square of half a side `by` reaches whose middle goes round in a convex polygon.
std::vector<Point> swept(const std::vector<Point>& corners, int by) {
  std::vector<Point> all, hull;
  for (const Point& p : corners)
    for (const int dx : {-by, by})
      for (const int dy : {-by, by}) all.emplace_back(p.x() + dx, p.y() + dy);
  std::sort(all.begin(), all.end());
  const auto half = [&](auto first, auto last) {
    const std::size_t kept = hull.size();
    for (auto it = first; it != last; ++it) {
      while (hull.size() > kept + 1 && turn(hull[hull.size() - 2], hull.back(), *it) <= 0) hull.pop_back();
      hull.push_back(*it);
    }
    hull.pop_back();  // the other half begins there
  };
  half(all.begin(), all.end());
  half(all.rbegin(), all.rend());
  return hull;
}

void add(Region& region, const std::vector<Point>& corners) {
  bp::polygon_data<int> polygon;
  polygon.set(corners.begin(), corners.end());
  region.insert(polygon);
}

/// Where the way from `a` to `b` goes, along each axis: 1 up, -1 down, 0 neither.
std::pair<int, int> heading(const Point& a, const Point& b) {
  const auto sign = [](int from, int to) { return (to > from) - (to < from); };
  return {sign(a.x(), b.x()), sign(a.y(), b.y())};
}

/// All that a square reaches whose middle goes along a way that turns back along neither axis: what its corners left
/// and right of the way draw, and its two sides behind the first point and before the last.
std::vector<Point> swept_along(const std::vector<Point>& way, int dx, int dy, int by) {
  const int x = dx < 0 ? -by : by, y = dy < 0 ? -by : by;
  std::vector<Point> outline{{way.front().x() - x, way.front().y() - y}};
  for (const Point& p : way) outline.emplace_back(p.x() + x, p.y() - y);
  outline.emplace_back(way.back().x() + x, way.back().y() + y);
  for (auto p = way.rbegin(); p != way.rend(); ++p) outline.emplace_back(p->x() - x, p->y() + y);
  return outline;
}

/// To a region all that a square reaches whose middle goes round a ring: an arc is swept as a whole, not by its chords.
void add_way_round(Region& region, const std::vector<Point>& ring, int by) {
  std::vector<Point> way{ring.front()};
  int dx = 0, dy = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point& next = ring[(i + 1) % ring.size()];
    const auto [x, y] = heading(ring[i], next);
    if (x * dx < 0 || y * dy < 0) {
      add(region, swept_along(way, dx, dy, by));
      way = {ring[i]}, dx = dy = 0;
    }
    way.push_back(next);
    dx = x != 0 ? x : dx, dy = y != 0 ? y : dy;
  }
  add(region, swept_along(way, dx, dy, by));
}

/// To a region all that a square reaches whose middle goes along the sides of a part.
void add_sides(Region& region, const Polygon& part, int by) {
  const auto along = [&](const std::vector<Point>& ring) { add_way_round(region, ring, by); };
  along(std::vector<Point>(part.begin(), part.end()));
  for (auto hole = part.begin_holes(); hole != part.end_holes(); ++hole)
    along(std::vector<Point>(hole->begin(), hole->end()));
}

/// A part with all that a square reaches whose middle goes round in it.
Region grown(const Polygon& part, int by) {
  Region region;
  const std::vector<Point> outline(part.begin(), part.end());
  if (part.size_holes() == 0 && is_convex(outline)) {
    add(region, swept(outline, by));
    return region;
  }
  region.insert(part);
  add_sides(region, part, by);
  return region;
}

double area_of(const Polygon& part) {
  auto area = std::abs(bp::area(bp::polygon_data<int>{part.begin(), part.end()}));
  for (auto hole = part.begin_holes(); hole != part.end_holes(); ++hole) area -= std::abs(bp::area(*hole));
  return static_cast<double>(area);
}

/// Pieces that lie side by side have a side in common, which bounds nothing: without those few are left to be crossed.
Region joined(const Grid& grid, const std::vector<std::vector<Point2>>& pieces) {
  Region apart, region;
  for (const std::vector<Point2>& piece : pieces) {
    std::vector<Point> corners;
    for (const Point2& p : piece) corners.push_back(grid.on(p));
    add(apart, corners);
  }
  std::vector<Region::element_type> sides(apart.begin(), apart.end());
  std::sort(sides.begin(), sides.end());
  for (auto side = sides.begin(); side != sides.end();) {
    const auto same = std::find_if(side, sides.end(), [&](const auto& s) { return s.first != side->first; });
    const int times = std::accumulate(side, same, 0, [](int sum, const auto& s) { return sum + s.second; });
    if (times != 0) region.insert({side->first, times});
    side = same;
  }
  return region;
}

/// What the pieces leave of the box, the largest first.
std::vector<Polygon> left_of(const Grid& grid, const std::vector<std::vector<Point2>>& covered) {
  Region left;
  left.insert(bp::rectangle_data<int>{grid.low().x(), grid.low().y(), grid.high().x(), grid.high().y()});
  for (const auto& side : joined(grid, covered)) left.insert(side, /*is_hole=*/true);  // counts down what they cover
  std::vector<Polygon> parts;
  left.get(parts);
  std::sort(parts.begin(), parts.end(), [](const Polygon& a, const Polygon& b) { return area_of(a) > area_of(b); });
  return parts;
}

/// A rectangle along the axes: a square that has room in it reaches all of it.
bool is_rectangle(const Polygon& part, int by) {
  const std::vector<Point> ring(part.begin(), part.end());
  if (ring.size() != 4 || part.size_holes() > 0) return false;
  for (std::size_t i = 0; i < 4; ++i) {
    const int dx = std::abs(ring[(i + 1) % 4].x() - ring[i].x()), dy = std::abs(ring[(i + 1) % 4].y() - ring[i].y());
    if ((dx != 0 && dy != 0) || dx + dy <= 2 * by) return false;
  }
  return true;
}

/// What a square sweeps within a part; apart where it cannot get from one to another.
std::vector<std::vector<Polygon>> swept_within(const Polygon& part, int by) {
  if (is_rectangle(part, by)) return {{part}};
  Region middles, beside;
  middles.insert(part);
  add_sides(beside, part, by);
  bp::operators::operator-=(middles, beside);
  std::vector<Polygon> reached;
  middles.get(reached);
  std::vector<std::vector<Polygon>> found;
  for (const Polygon& each : reached) grown(each, by).get(found.emplace_back());
  return found;
}

Opening to_opening(const Grid& grid, const std::vector<Polygon>& polygons) {
  Opening opening;
  const auto add_ring = [&](auto begin, auto end) {
    auto& ring = opening.rings.emplace_back();
    for (auto it = begin; it != end; ++it) ring.push_back(grid.off(*it));
  };
  for (const Polygon& p : polygons) {
    opening.area += grid.area(area_of(p));
    add_ring(p.begin(), p.end());
    for (auto hole = p.begin_holes(); hole != p.end_holes(); ++hole) add_ring(hole->begin(), hole->end());
  }
  return opening;
}

}  // namespace

std::vector<Opening> largest_openings(const Box2& box, const std::vector<std::vector<Point2>>& covered, double narrow,
                                      double alike) {
  const Grid grid{box};
  const int by = grid.marks(narrow / 2);
  std::vector<Opening> largest;
  double area = 0;
  for (const Polygon& part : left_of(grid, covered)) {
    if (grid.area(area_of(part)) < area - alike) break;
    for (const std::vector<Polygon>& polygons : swept_within(part, by)) {
      largest.push_back(to_opening(grid, polygons));
      area = std::max(area, largest.back().area);
    }
  }
  std::erase_if(largest, [&](const Opening& o) { return o.area < area - alike; });
  return largest;
}

}  // namespace fallwright::points
