#include "measure/surface.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "measure/detail.hpp"
#include "measure/shapes.hpp"
#include "parts/model.hpp"
#include "points/points.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

bool in_polygon(const std::vector<survey::Point>& polygon, double x, double y) {
  bool inside = false;
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++)
    if (points::crosses_ray({polygon[i].x, polygon[i].y}, {polygon[j].x, polygon[j].y}, {x, y})) inside = !inside;
  return inside;
}

/// Squared: who looks for the nearest of many needs no more.
double to_edge2(const std::vector<survey::Point>& polygon, double x, double y) {
  double least = std::numeric_limits<double>::max();
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const survey::Point &a = polygon[i], &b = polygon[i + 1 < polygon.size() ? i + 1 : 0];
    const double dx = b.x - a.x, dy = b.y - a.y, length2 = dx * dx + dy * dy;
    const double t = length2 > 0 ? std::clamp(((x - a.x) * dx + (y - a.y) * dy) / length2, 0.0, 1.0) : 0;
    const double off_x = x - a.x - t * dx, off_y = y - a.y - t * dy;
    least = std::min(least, off_x * off_x + off_y * off_y);
  }
  return least;
}

/// What of a polygon in space lies where `side` is not negative.
template <class Side>
std::vector<gp_Pnt> keep(const std::vector<gp_Pnt>& polygon, const Side& side) {
  std::vector<gp_Pnt> kept;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const gp_Pnt &p = polygon[i], &q = polygon[(i + 1) % polygon.size()];
    const double at_p = side(p), at_q = side(q);
    if (at_p >= 0) kept.push_back(p);
    if ((at_p < 0) == (at_q < 0)) continue;
    const double t = at_p / (at_p - at_q);
    kept.emplace_back(p.XYZ() + t * (q.XYZ() - p.XYZ()));
  }
  return kept;
}

}  // namespace

Surface::Surface(const parts::Solid& solid, bool up) : up_{up} {
  const auto skin = parts::skin_of(solid);
  for (const brep::Flat& flat : skin->flats) {
    const gp_Dir& n = flat.normal;
    if (up ? n.Z() <= 0.1 : n.Z() >= -0.1) continue;
    const gp_Pnt& o = flat.rings.front().front();
    Face found;
    found.plane.gx = -n.X() / n.Z();
    found.plane.gy = -n.Y() / n.Z();
    found.plane.z0 = o.Z() - found.plane.gx * o.X() - found.plane.gy * o.Y();
    const std::size_t outer = brep::outer_ring(flat);
    for (std::size_t i = 0; i < flat.rings.size(); ++i) {
      survey::Polygon loop;
      for (const gp_Pnt& p : flat.rings[i]) loop.push_back({p.X(), p.Y()});
      if (i == outer)
        found.outline = std::move(loop);
      else
        found.holes.push_back(std::move(loop));
    }
    faces_.push_back(std::move(found));
  }
  make_grid();
}

std::size_t Surface::Grid::at(double along, double from, double to) const {
  const double share = to > from ? (along - from) / (to - from) : 0;
  return static_cast<std::size_t>(
      std::clamp(share * static_cast<double>(across), 0.0, static_cast<double>(across - 1)));
}

const std::vector<std::size_t>& Surface::Grid::cell(double x, double y) const {
  return cells[at(y, over.y0, over.y1) * across + at(x, over.x0, over.x1)];
}

void Surface::make_grid() {
  constexpr double most = std::numeric_limits<double>::max();
  survey::Rect all{most, most, -most, -most};
  for (Face& face : faces_) {
    survey::Rect box{most, most, -most, -most};
    for (const survey::Point& p : face.outline)
      box = {std::min(box.x0, p.x), std::min(box.y0, p.y), std::max(box.x1, p.x), std::max(box.y1, p.y)};
    face.box = box.grown(2 * units::tolerance::length_mm);
    const survey::Rect& b = face.box;
    all = {std::min(all.x0, b.x0), std::min(all.y0, b.y0), std::max(all.x1, b.x1), std::max(all.y1, b.y1)};
  }
  grid_.over = all;
  grid_.across = 1 + static_cast<std::size_t>(std::sqrt(static_cast<double>(faces_.size())));
  grid_.cells.assign(grid_.across * grid_.across, {});
  for (std::size_t i = 0; i < faces_.size(); ++i) {
    const survey::Rect& b = faces_[i].box;
    for (std::size_t r = grid_.at(b.y0, all.y0, all.y1); r <= grid_.at(b.y1, all.y0, all.y1); ++r)
      for (std::size_t c = grid_.at(b.x0, all.x0, all.x1); c <= grid_.at(b.x1, all.x0, all.x1); ++c)
        grid_.cells[r * grid_.across + c].push_back(i);
  }
}

double Surface::Face::away2(double x, double y) const {
  double least = to_edge2(outline, x, y);
  for (const auto& hole : holes) least = std::min(least, to_edge2(hole, x, y));
  return least;
}

double Surface::Face::off_box2(double x, double y) const {
  const double dx = x - std::clamp(x, box.x0, box.x1), dy = y - std::clamp(y, box.y0, box.y1);
  return dx * dx + dy * dy;
}

bool Surface::Face::holds(double x, double y) const {
  constexpr double near = units::tolerance::length_mm;
  if (off_box2(x, y) > 0) return false;
  if (in_polygon(outline, x, y) &&
      std::none_of(holes.begin(), holes.end(), [&](const auto& hole) { return in_polygon(hole, x, y); }))
    return true;
  return away2(x, y) <= near * near;
}

std::optional<double> Surface::at(double x, double y) const {
  std::optional<double> best;
  for (const std::size_t i : grid_.cell(x, y)) {
    const Face& face = faces_[i];
    if (!face.holds(x, y)) continue;
    const double z = face.plane.at(x, y);
    if (!best || (up_ ? z > *best : z < *best)) best = z;
  }
  return best;
}

double Surface::carried_on(double x, double y) const {
  if (const auto z = at(x, y)) return *z;
  const Face* nearest = nullptr;
  double least = std::numeric_limits<double>::max();
  for (const Face& face : faces_) {
    if (face.off_box2(x, y) > least) continue;
    if (const double away = face.away2(x, y); away < least) least = away, nearest = &face;
  }
  return nearest ? nearest->plane.at(x, y) : 0;
}

std::pair<double, double> Surface::range_along(bool along_x, double line, double from, double to) const {
  const auto end = [&](double stop) { return along_x ? carried_on(stop, line) : carried_on(line, stop); };
  const double at_from = end(from), at_to = end(to);
  double low = std::min(at_from, at_to), high = std::max(at_from, at_to);
  const auto take = [&](const Face& face, const survey::Point& p) {
    const double stop = along_x ? p.x : p.y;
    if (stop < from || stop > to) return;
    const double z = face.plane.at(p.x, p.y);
    low = std::min(low, z), high = std::max(high, z);
  };
  const auto off = [&](const survey::Point& p) { return (along_x ? p.y : p.x) - line; };
  for (const Face& face : faces_) {
    if (along_x ? line < face.box.y0 || line > face.box.y1 : line < face.box.x0 || line > face.box.x1) continue;
    for (std::size_t i = 0; i < face.outline.size(); ++i) {
      const survey::Point &a = face.outline[i], &b = face.outline[i + 1 < face.outline.size() ? i + 1 : 0];
      const double at_a = off(a), at_b = off(b);
      if (std::abs(at_a) <= units::tolerance::weld_mm) take(face, a);
      if ((at_a < 0) == (at_b < 0)) continue;
      const double t = at_a / (at_a - at_b);
      take(face, {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
    }
  }
  return {low, high};
}

std::vector<survey::Spot> Surface::corners(const survey::Polygon& over) const {
  std::vector<survey::Spot> spots;
  for (const Face& face : faces_) {
    std::vector<gp_Pnt> polygon;
    for (const survey::Point& p : face.outline) polygon.emplace_back(p.x, p.y, face.plane.at(p.x, p.y));
    for (std::size_t i = 0; i < over.size() && !polygon.empty(); ++i) {
      const survey::Point a = over[i], b = over[(i + 1) % over.size()];
      polygon =
          keep(polygon, [&](const gp_Pnt& p) { return (b.x - a.x) * (p.Y() - a.y) - (b.y - a.y) * (p.X() - a.x); });
    }
    for (const gp_Pnt& p : polygon) spots.push_back({p.X(), p.Y(), p.Z()});
  }
  return spots;
}

std::vector<std::vector<gp_Pnt>> outlines_of(const brep::Skin& solid) {
  std::vector<std::vector<gp_Pnt>> outlines;
  for (const brep::Flat& flat : solid.flats) outlines.push_back(flat.rings[brep::outer_ring(flat)]);
  return outlines;
}

std::vector<gp_Pnt> between(std::vector<gp_Pnt> outline, int axis, double low, double high) {
  const auto along = [axis](const gp_Pnt& a, const gp_Pnt& b) { return a.Coord(axis) < b.Coord(axis); };
  const auto [first, last] = std::minmax_element(outline.begin(), outline.end(), along);
  const double least = first->Coord(axis), most = last->Coord(axis);
  if (least > high || most < low) return {};
  if (least < low) outline = keep(outline, [&](const gp_Pnt& p) { return p.Coord(axis) - low; });
  if (most > high) outline = keep(outline, [&](const gp_Pnt& p) { return high - p.Coord(axis); });
  return outline;
}

namespace {

/// Wholly beyond one of a box's sides, as most are.
template <class Low, class High>
bool lies_beyond(const std::vector<gp_Pnt>& outline, const Low& low, const High& high) {
  for (int axis = 1; axis <= 3; ++axis) {
    const double least = low(axis), most = high(axis);
    const auto under = [&](const gp_Pnt& p) { return p.Coord(axis) < least; };
    const auto over = [&](const gp_Pnt& p) { return p.Coord(axis) > most; };
    if (std::all_of(outline.begin(), outline.end(), under) || std::all_of(outline.begin(), outline.end(), over))
      return true;
  }
  return false;
}

}  // namespace

std::vector<gp_Pnt> points_within(const std::vector<std::vector<gp_Pnt>>& outlines, const Box3& within) {
  // A face that ends at the box's side counts, on whichever side of it rounding has put its edge.
  const auto low = [&](int axis) { return within.low[axis - 1] - units::tolerance::length_mm; };
  const auto high = [&](int axis) { return within.high[axis - 1] + units::tolerance::length_mm; };
  std::vector<gp_Pnt> found;
  for (const std::vector<gp_Pnt>& outline : outlines) {
    if (lies_beyond(outline, low, high)) continue;
    std::vector<gp_Pnt> polygon = outline;
    for (int axis = 1; axis <= 3 && !polygon.empty(); ++axis)
      polygon = between(std::move(polygon), axis, low(axis), high(axis));
    found.insert(found.end(), polygon.begin(), polygon.end());
  }
  return found;
}

std::optional<double> reach(const std::vector<std::vector<gp_Pnt>>& outlines, const gp_Dir& way, const Box3& within) {
  std::optional<double> farthest;
  for (const gp_Pnt& p : points_within(outlines, within)) {
    const double along = p.XYZ().Dot(way.XYZ());
    if (!farthest || along > *farthest) farthest = along;
  }
  return farthest;
}

}  // namespace fallwright::measure
