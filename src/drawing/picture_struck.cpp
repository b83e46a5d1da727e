#include "drawing/picture_struck.hpp"

#include <algorithm>
#include <optional>
#include <vector>

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/linestring.hpp>
#include <boost/geometry/geometries/multi_point.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

#include "drawing/warning.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

Projection diagonals(const Frame& f) {
  Projection strokes;
  strokes.lines = {{{f.x0, f.y0}, {f.x1, f.y1}, LineKind::rejected}, {{f.x0, f.y1}, {f.x1, f.y0}, LineKind::rejected}};
  return strokes;
}

using Spot = boost::geometry::model::d2::point_xy<double>;
using Stroke = boost::geometry::model::linestring<Spot>;

}  // namespace

bool is_void(const Subject& subject, const std::string& shows) {
  if (shows == "drain") return bore_is_void(subject);
  if (shows == "base") return base_is_void(subject);
  if (shows == "bed") return base_is_void(subject);
  if (shows == "bench") return rejected_pieces(subject) != nullptr;
  return shows == "seat" && rejected_seat(subject) != nullptr;
}

Projection strokes_over(const Subject& subject, const std::string& shows, const Projection& seen) {
  if (seen.lines.empty() || !is_void(subject, shows)) return {};
  Sheet alone;
  Pen{alone, 1}.add(seen);
  // Of what lies aslant the corners of its frame are of other things.
  constexpr double share = 0.85;
  const Frame f = frame_of(alone);
  const double in_x = (1 - share) / 2 * f.width(), in_y = (1 - share) / 2 * f.height();
  return diagonals({f.x0 + in_x, f.y0 + in_y, f.x1 - in_x, f.y1 - in_y});
}

Projection strokes_beside(const Projection& strokes, const Projection& stands) {
  if (strokes.lines.empty() || stands.lines.empty()) return strokes;
  boost::geometry::model::multi_point<Spot> corners;
  for (const Line& line : stands.lines)
    for (const Point& p : {line.from, line.to}) corners.emplace_back(p.x, p.y);
  boost::geometry::model::polygon<Spot> hull;
  boost::geometry::convex_hull(corners, hull);
  Projection beside;
  for (const Line& line : strokes.lines) {
    const Stroke whole{{line.from.x, line.from.y}, {line.to.x, line.to.y}};
    std::vector<Stroke> rest;
    boost::geometry::difference(whole, hull, rest);
    for (const Stroke& stroke : rest)
      beside.lines.push_back(
          {{stroke.front().x(), stroke.front().y()}, {stroke.back().x(), stroke.back().y()}, line.kind});
  }
  return beside;
}

Projection strokes_over_bore(const Subject& subject, const View& view, const std::string& shows, const Projection& seen,
                             double lifted_mm) {
  if (shows != "floor" || !bore_is_void(subject)) return {};
  const auto& at = subject.facts.room.drain.now_mm;
  const gp_XYZ centre{at[0], at[1], drawn_floor_mm(subject) + lifted_mm}, up = view.toward.Crossed(view.right).XYZ();
  const Point middle{centre.Dot(view.right.XYZ()), centre.Dot(up)};
  const double radius = subject.job().drain.bore.in_mm() / 2;
  const auto around = [&](double times) {
    const double wide = times * radius, high = wide * view.toward.Z();
    return Frame{middle.x - wide, middle.y - high, middle.x + wide, middle.y + high};
  };
  const Frame rim = around(1.05);
  const auto in_rim = [&](const Point& p) { return p.x > rim.x0 && p.x < rim.x1 && p.y > rim.y0 && p.y < rim.y1; };
  const bool is_seen = std::any_of(seen.lines.begin(), seen.lines.end(),
                                   [&](const Line& line) { return in_rim(line.from) && in_rim(line.to); });
  return is_seen ? diagonals(around(1.4)) : Projection{};
}

void warn_in_pictures(Sheet& sheet, const Subject& subject) {
  warn(sheet, bore_warning(subject));
  const auto base = base_warning(subject);
  if (base && shut_base(subject) && bore_is_void(subject))
    sheet.holds.push_back(base->line);  // one reason for both
  else
    warn(sheet, base);
  if (rejected_pieces(subject)) warn(sheet, frame_warning(subject));
}

double drawn_floor_mm(const Subject& subject) {
  double lowest = part(subject.facts, Role::subfloor).bbox_mm[5];
  for (const facts::Part& one : subject.facts.parts)
    if (one.which.is(Role::wall) || one.which.is(Role::bench_frame) || one.which.is(Role::bed))
      lowest = std::min(lowest, one.bbox_mm[2]);
  return lowest;
}

}  // namespace fallwright::drawing
