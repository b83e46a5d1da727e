#include "drawing/projection.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>

#include <BRepAdaptor_Curve.hxx>
#include <BRepAlgoAPI_Section.hxx>
#include <BRep_Tool.hxx>
#include <GCPnts_QuasiUniformDeflection.hxx>
#include <Standard_Failure.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <gp_Ax3.hxx>
#include <gp_Circ.hxx>
#include <gp_Trsf.hxx>

#include "brep/skin.hpp"
#include "drawing/scene.hpp"
#include "parts/model.hpp"
#include "units/tolerance.hpp"

namespace fallwright::drawing {
namespace {

constexpr double same = 1e3 * units::tolerance::length_mm;  ///< a hundredth of a millimetre: nothing finer is drawn

double degrees(double radians) {
  return radians * 180 / M_PI;
}

void add_circle(const BRepAdaptor_Curve& curve, LineKind kind, Projection& out) {
  const gp_Circ circle = curve.Circle();
  const gp_Pnt c = circle.Location();
  const double sweep = curve.LastParameter() - curve.FirstParameter();
  if (sweep > 2 * M_PI - units::tolerance::ratio) {
    out.arcs.push_back({{c.X(), c.Y()}, circle.Radius(), 0, 360, kind});
    return;
  }
  const gp_Pnt a = curve.Value(curve.FirstParameter()), b = curve.Value(curve.LastParameter());
  double from = degrees(std::atan2(a.Y() - c.Y(), a.X() - c.X())),
         to = degrees(std::atan2(b.Y() - c.Y(), b.X() - c.X()));
  if (circle.Axis().Direction().Z() < 0) std::swap(from, to);
  if (to <= from) to += 360;
  out.arcs.push_back({{c.X(), c.Y()}, circle.Radius(), from, to, kind});
}

void add_edge(const TopoDS_Edge& edge, LineKind kind, Projection& out) {
  const BRepAdaptor_Curve curve{edge};
  if (curve.GetType() == GeomAbs_Circle) return add_circle(curve, kind, out);
  std::vector<gp_Pnt> points{curve.Value(curve.FirstParameter())};
  if (curve.GetType() != GeomAbs_Line) {
    const GCPnts_QuasiUniformDeflection chords{curve, units::tolerance::mesh_mm};
    for (int i = 2; chords.IsDone() && i < chords.NbPoints(); ++i) points.push_back(chords.Value(i));
  }
  points.push_back(curve.Value(curve.LastParameter()));
  for (std::size_t i = 0; i + 1 < points.size(); ++i)
    out.lines.push_back({{points[i].X(), points[i].Y()}, {points[i + 1].X(), points[i + 1].Y()}, kind});
}

/// A straight line's carrier: direction and distance from the origin, rounded so that equal carriers compare equal.
using Carrier = std::tuple<long, long>;
using Interval = std::pair<double, double>;

std::vector<Interval> merged(std::vector<Interval> intervals) {
  std::sort(intervals.begin(), intervals.end());
  std::vector<Interval> out;
  for (const Interval& i : intervals)
    if (!out.empty() && i.first <= out.back().second + same)
      out.back().second = std::max(out.back().second, i.second);
    else
      out.push_back(i);
  return out;
}

std::vector<Interval> without(const std::vector<Interval>& from, const std::vector<Interval>& taken) {
  std::vector<Interval> left;
  for (Interval rest : from) {
    for (const Interval& t : taken) {
      if (t.second <= rest.first || t.first >= rest.second) continue;
      if (t.first > rest.first) left.emplace_back(rest.first, t.first);
      rest.first = t.second;
      if (rest.first >= rest.second) break;
    }
    if (rest.second - rest.first > same) left.push_back(rest);
  }
  return left;
}

}  // namespace

std::vector<Line> tidy(const std::vector<Line>& lines) {
  struct Track {
    double cos = 1, sin = 0, offset = 0;
    std::map<LineKind, std::vector<Interval>> kinds;
  };
  std::map<Carrier, Track> tracks;
  for (const Line& line : lines) {
    const double dx = line.to.x - line.from.x, dy = line.to.y - line.from.y, length = std::hypot(dx, dy);
    if (length < same) continue;
    double angle = std::atan2(dy, dx);
    if (angle < -1e-7) angle += M_PI;
    if (angle > M_PI - 1e-7) angle -= M_PI;
    const double c = std::cos(angle), s = std::sin(angle), offset = line.from.y * c - line.from.x * s;
    Track& track = tracks[{std::lround(angle * 1e5), std::lround(offset / same)}];
    if (track.kinds.empty()) track.cos = c, track.sin = s, track.offset = offset;
    const double a = line.from.x * c + line.from.y * s, b = line.to.x * c + line.to.y * s;
    track.kinds[line.kind].emplace_back(std::min(a, b), std::max(a, b));
  }
  std::vector<Line> out;
  for (auto& [carrier, track] : tracks) {
    std::vector<Interval> covered;
    for (auto& [kind, intervals] : track.kinds) {  // in the order of LineKind: outlines first
      for (const Interval& i : without(merged(std::move(intervals)), covered)) {
        const auto at = [&](double t) {
          return Point{t * track.cos - track.offset * track.sin, t * track.sin + track.offset * track.cos};
        };
        out.push_back({at(i.first), at(i.second), kind});
        covered.push_back(i);
      }
      covered = merged(std::move(covered));
    }
  }
  return out;
}

std::vector<Arc> tidy(const std::vector<Arc>& arcs) {
  struct Track {
    Point centre;
    double radius;
    std::map<LineKind, std::vector<Interval>> kinds;  // in millimetres round it
  };
  std::vector<Track> tracks;
  for (const Arc& arc : arcs) {
    const auto is_same = [&](const Track& t) {
      return std::hypot(t.centre.x - arc.centre.x, t.centre.y - arc.centre.y) < same &&
             std::abs(t.radius - arc.radius) < same;
    };
    auto track = std::find_if(tracks.begin(), tracks.end(), is_same);
    if (track == tracks.end()) track = tracks.insert(track, {arc.centre, arc.radius, {}});
    const double mm = track->radius * M_PI / 180, from = std::fmod(arc.from_deg + 720, 360),
                 to = from + arc.to_deg - arc.from_deg;
    track->kinds[arc.kind].emplace_back(from * mm, std::min(to, 360.0) * mm);
    if (to > 360) track->kinds[arc.kind].emplace_back(0, (to - 360) * mm);
  }
  std::vector<Arc> out;
  for (Track& track : tracks) {
    const double degrees_of = 180 / M_PI / track.radius, once_round = 2 * M_PI * track.radius;
    std::vector<Interval> covered;
    for (auto& [kind, intervals] : track.kinds) {  // in the order of LineKind: outlines first
      std::vector<Interval> own = without(merged(std::move(intervals)), covered);
      covered.insert(covered.end(), own.begin(), own.end());
      covered = merged(std::move(covered));
      if (own.size() > 1 && own.front().first < same &&
          own.back().second > once_round - same) {  // one through the right
        own.back().second += own.front().second;
        own.erase(own.begin());
      }
      for (const Interval& i : own) {
        const bool whole = i.second - i.first > once_round - same;
        out.push_back(
            {track.centre, track.radius, whole ? 0 : i.first * degrees_of, whole ? 360 : i.second * degrees_of, kind});
      }
    }
  }
  return out;
}

Projection uncrowded(Projection seen) {
  constexpr double least = 6;  // mm apart
  std::vector<Line> kept;
  // Over how much of a line another, nearly parallel one lies beside it.
  const auto beside = [](const Line& line, const Line& other) {
    const double dx = line.to.x - line.from.x, dy = line.to.y - line.from.y, length = std::hypot(dx, dy);
    const auto along = [&](const Point& p) { return ((p.x - line.from.x) * dx + (p.y - line.from.y) * dy) / length; };
    const auto off = [&](const Point& p) {
      return std::abs((p.y - line.from.y) * dx - (p.x - line.from.x) * dy) / length;
    };
    if (off(other.from) > least || off(other.to) > least) return 0.0;
    const double a = along(other.from), b = along(other.to), from = std::min(a, b), to = std::max(a, b);
    return std::max(0.0, std::min(to, length) - std::max(from, 0.0)) / length;
  };
  std::stable_partition(seen.lines.begin(), seen.lines.end(), [](const Line& l) { return l.kind != LineKind::hidden; });
  for (const Line& line : seen.lines) {
    double covered = 0;
    if (line.kind == LineKind::hidden)
      for (const Line& other : kept) covered = std::max(covered, beside(line, other));
    if (covered < 0.5) kept.push_back(line);
  }
  seen.lines = std::move(kept);
  return seen;
}

namespace {

/// Where a plane cuts a solid, face by face; nothing where it comes near a corner, along a face or to a curve that it
/// may only touch: there the kernel has the word.
class Cutter {
 public:
  explicit Cutter(const gp_Pln& plane)
      : normal_{plane.Axis().Direction().XYZ()},
        through_{plane.Location().XYZ()},
        upright_{std::abs(normal_.Z()) < units::tolerance::ratio} {}

  using Stroke = std::pair<gp_Pnt, gp_Pnt>;
  std::optional<std::vector<Stroke>> operator()(const brep::Skin& skin) const {
    std::vector<Stroke> strokes;
    for (const brep::Flat& flat : skin.flats)
      if (meets(flat.box) && !cut(flat, strokes)) return std::nullopt;
    for (const brep::Round& round : skin.rounds)
      if (meets(round.box) && !cut(round, strokes)) return std::nullopt;
    return strokes;
  }

 private:
  static constexpr double near = 1e-4;  // mm

  double off(const gp_XYZ& p) const { return (p - through_).Dot(normal_); }

  /// What lies on the plane, but for rounding, counts as beyond it, wherever a curve's turn begins.
  static bool is_beyond(double off) { return off > -near; }

  bool meets(const brep::Box& box) const {
    const gp_XYZ middle{(box[0] + box[3]) / 2, (box[1] + box[4]) / 2, (box[2] + box[5]) / 2};
    const double reach = std::abs(normal_.X()) * (box[3] - box[0]) + std::abs(normal_.Y()) * (box[4] - box[1]) +
                         std::abs(normal_.Z()) * (box[5] - box[2]);
    return std::abs(off(middle)) <= reach / 2 + near;
  }

  /// Whether an upright plane goes through what turns round an upright axis, by more than its chords' height.
  bool goes_through(const brep::Curve& curve) const {
    if (!upright_ || !curve.about || curve.pieces.empty() || std::abs(curve.across.Z()) < 0.1) return false;
    const double away = std::abs(off({curve.about->x, curve.about->y, 0}));
    return away < curve.about->radius - 2 * units::tolerance::mesh_mm;
  }

  /// Where it cuts a piece of such a curve, whose chord it cuts between `a` and `b`.
  gp_XYZ cut(const brep::Curve& curve, const gp_XYZ& chord) const {
    const gp_XYZ centre{curve.about->x, curve.about->y, 0}, along{-normal_.Y(), normal_.X(), 0};
    const double away = off(centre), half = std::sqrt(curve.about->radius * curve.about->radius - away * away);
    const gp_XYZ foot = centre - normal_ * away;
    gp_XYZ at = foot + along * ((chord - foot).Dot(along) > 0 ? half : -half);
    const gp_XYZ& known = curve.pieces.front().from.XYZ();
    at.SetZ(known.Z() -
            (curve.across.X() * (at.X() - known.X()) + curve.across.Y() * (at.Y() - known.Y())) / curve.across.Z());
    return at;
  }

  /// The curve of which two neighbours in a ring are ends of a piece.
  static const brep::Curve* curve_of(const brep::Flat& flat, const gp_Pnt& p, const gp_Pnt& q) {
    const auto is_one = [](const gp_Pnt& a, const gp_Pnt& b) {
      return a.SquareDistance(b) < units::tolerance::weld_mm * units::tolerance::weld_mm;
    };
    for (const brep::Curve& curve : flat.curves)
      for (const brep::Piece& piece : curve.pieces)
        if ((is_one(piece.from, p) && is_one(piece.to, q)) || (is_one(piece.from, q) && is_one(piece.to, p)))
          return &curve;
    return nullptr;
  }

  bool cut(const brep::Flat& flat, std::vector<Stroke>& strokes) const {
    for (const brep::Curve& curve : flat.curves)
      if (meets(curve.box) && !goes_through(curve)) return false;
    const gp_XYZ along = normal_.Crossed(flat.normal.XYZ());
    std::vector<std::pair<double, gp_Pnt>> crossings;
    for (const brep::Ring& ring : flat.rings)
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const gp_Pnt &from = ring[i], &to = ring[(i + 1) % ring.size()];
        const gp_XYZ &p = from.XYZ(), &q = to.XYZ();
        const double a = off(p), b = off(q);
        if (is_beyond(a) == is_beyond(b)) continue;
        // From the lower end whichever way the edge is run along: both faces at it find one point.
        gp_XYZ at = a < b ? p + (q - p) * (a / (a - b)) : q + (p - q) * (b / (b - a));
        if (!flat.curves.empty())
          if (const brep::Curve* curve = curve_of(flat, from, to)) at = cut(*curve, at);
        crossings.emplace_back(at.Dot(along), at);
      }
    std::sort(crossings.begin(), crossings.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2)
      strokes.emplace_back(crossings[i].second, crossings[i + 1].second);
    return true;
  }

  /// A cylinder that stands is cut along its rulings, between the curves that end it.
  bool cut(const brep::Round& round, std::vector<Stroke>& strokes) const {
    if (!round.about) return false;
    std::vector<gp_XYZ> ends;
    for (const brep::Curve& curve : round.curves) {
      if (!goes_through(curve)) return false;
      for (const brep::Piece& piece : curve.pieces) {
        const double a = off(piece.from.XYZ()), b = off(piece.to.XYZ());
        if (is_beyond(a) != is_beyond(b))
          ends.push_back(cut(curve, piece.from.XYZ() + (piece.to.XYZ() - piece.from.XYZ()) * (a / (a - b))));
      }
    }
    const gp_XYZ along{-normal_.Y(), normal_.X(), 0};
    const auto side = [&](const gp_XYZ& p) { return (p - gp_XYZ{round.about->x, round.about->y, 0}).Dot(along) > 0; };
    std::sort(ends.begin(), ends.end(), [&](const gp_XYZ& a, const gp_XYZ& b) {
      return std::pair{side(a), a.Z()} < std::pair{side(b), b.Z()};
    });
    for (std::size_t i = 0; i < ends.size(); i += 2) {
      if (i + 1 == ends.size() || side(ends[i]) != side(ends[i + 1])) return false;
      strokes.emplace_back(gp_Pnt{ends[i]}, gp_Pnt{ends[i + 1]});
    }
    return true;
  }

  gp_XYZ normal_, through_;
  bool upright_;
};

}  // namespace

/// Cut by the kernel.
static TopoDS_Shape cut(const TopoDS_Shape& shape, const gp_Pln& plane) {
  BRepAlgoAPI_Section cut{shape, plane, false};
  cut.Build();
  if (!cut.IsDone()) throw Standard_Failure{"a section could not be cut"};
  return cut.Shape();
}

Projection section(const parts::Solid& solid, const gp_Pln& plane, const View& view) {
  gp_Trsf into_view;  // the view's right becomes x, its up y
  into_view.SetTransformation(gp_Ax3{gp::Origin(), view.toward, view.right});
  Projection out;
  if (const auto lines = Cutter{plane}(*parts::skin_of(solid))) {
    for (const auto& [from, to] : *lines) {
      const gp_Pnt a = from.Transformed(into_view), b = to.Transformed(into_view);
      out.lines.push_back({{a.X(), a.Y()}, {b.X(), b.Y()}, LineKind::section});
    }
  } else {
    for (TopExp_Explorer it{cut(solid.shape, plane).Moved(TopLoc_Location{into_view}), TopAbs_EDGE}; it.More();
         it.Next())
      add_edge(TopoDS::Edge(it.Current()), LineKind::section, out);
  }
  out.lines = tidy(out.lines);
  return out;
}

std::vector<Projection> project_apart(const std::vector<std::vector<TopoDS_Shape>>& groups, const View& view,
                                      const parts::Model* model) {
  Scene scene{view, model};
  for (const auto& group : groups) scene.add(group);
  return scene.seen();
}

Projection project(const std::vector<TopoDS_Shape>& shapes, const View& view, bool with_hidden,
                   const parts::Model* model) {
  Scene scene{view, model};
  for (const TopoDS_Shape& shape : shapes) scene.keep_arcs(shape);
  scene.add(shapes);
  return with_hidden ? scene.with_hidden() : scene.seen().front();
}

}  // namespace fallwright::drawing
