#include "drawing/boundary.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace fallwright::drawing {
namespace {

constexpr double same_mm = 0.01;

double distance(const Point& a, const Point& b) {
  return std::hypot(b.x - a.x, b.y - a.y);
}

/// How far a point lies from a stretch, and where along it (0 to 1).
std::pair<double, double> off(const Point& p, const Point& a, const Point& b) {
  const double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
  const double at = square > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / square, 0.0, 1.0) : 0;
  return {distance(p, {a.x + at * dx, a.y + at * dy}), at};
}

/// Corners, each once, and for each those it is joined with: lines cut at all corners that lie on them.
class Net {
 public:
  explicit Net(const std::vector<Line>& lines) {
    for (const Line& line : lines) corner(line.from), corner(line.to);
    for (const Line& line : lines) join(line);
  }
  const std::vector<Point>& corners() const { return corners_; }
  /// None where its lines are too short to lead anywhere.
  const std::vector<std::size_t>& from(std::size_t corner) const {
    static const std::vector<std::size_t> none;
    const auto at = joined_.find(corner);
    return at == joined_.end() ? none : at->second;
  }

 private:
  std::size_t corner(const Point& p) {
    const auto known =
        std::find_if(corners_.begin(), corners_.end(), [&](const Point& c) { return distance(c, p) < same_mm; });
    if (known == corners_.end()) return corners_.push_back(p), corners_.size() - 1;
    return static_cast<std::size_t>(known - corners_.begin());
  }

  void join(const Line& line) {
    std::map<double, std::size_t> along;
    for (std::size_t i = 0; i < corners_.size(); ++i)
      if (const auto [far, at] = off(corners_[i], line.from, line.to); far < same_mm) along[at] = i;
    for (auto next = along.begin(), last = next++; next != along.end(); last = next++) {
      joined_[last->second].push_back(next->second);
      joined_[next->second].push_back(last->second);
    }
  }

  std::vector<Point> corners_;
  std::map<std::size_t, std::vector<std::size_t>> joined_;
};

/// The turn from one direction to another, counter-clockwise, above 0 and up to a full one.
double turn(const Point& from, const Point& to) {
  double angle = std::atan2(to.y, to.x) - std::atan2(from.y, from.x);
  constexpr double tiny = 1e-9;
  while (angle <= tiny) angle += 2 * M_PI;
  while (angle > 2 * M_PI + tiny) angle -= 2 * M_PI;
  return angle;
}

Outline without_straight_corners(const Outline& walked) {
  Outline corners;
  for (std::size_t i = 0; i < walked.size(); ++i) {
    const Point &before = walked[(i + walked.size() - 1) % walked.size()], &after = walked[(i + 1) % walked.size()];
    if (off(walked[i], before, after).first > same_mm) corners.push_back(walked[i]);
  }
  return corners;
}

}  // namespace

Outline boundary_of(const std::vector<Line>& lines) {
  const Net net{lines};
  const std::vector<Point>& corners = net.corners();
  if (corners.size() < 3) return {};
  std::size_t first = 0;
  for (std::size_t i = 1; i < corners.size(); ++i)
    if (corners[i].y < corners[first].y - same_mm ||
        (corners[i].y < corners[first].y + same_mm && corners[i].x < corners[first].x))
      first = i;
  Outline walked;
  Point back{-1, 0};  // the way one came: nothing lies lower
  for (std::size_t here = first; walked.size() <= 2 * lines.size() + corners.size();) {
    walked.push_back(corners[here]);
    const auto way = [&](std::size_t to) {
      return Point{corners[to].x - corners[here].x, corners[to].y - corners[here].y};
    };
    const std::vector<std::size_t>& next = net.from(here);
    if (next.empty()) return {};
    const std::size_t taken = *std::min_element(next.begin(), next.end(), [&](std::size_t a, std::size_t b) {
      return turn(back, way(a)) < turn(back, way(b));
    });
    back = {-way(taken).x, -way(taken).y};
    here = taken;
    if (here == first) return without_straight_corners(walked);
  }
  return {};
}

bool runs_along(const Line& line, const Outline& outline) {
  const Point middle{(line.from.x + line.to.x) / 2, (line.from.y + line.to.y) / 2};
  for (std::size_t i = 0; i < outline.size(); ++i)
    if (off(middle, outline[i], outline[(i + 1) % outline.size()]).first < same_mm) return true;
  return false;
}

}  // namespace fallwright::drawing
