#include "measure/apart.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include <boost/container/small_vector.hpp>

#include <BRepExtrema_DistShapeShape.hxx>
#include <gp_Vec.hxx>

#include "points/points.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using brep::Box;
using brep::Flat;
using brep::Ring;

constexpr double same_mm = units::tolerance::weld_mm;

/// Collects the nearest places as they turn up, and knows how near something must come to matter.
class Nearest {
 public:
  explicit Nearest(double reach_mm) : best_{reach_mm} {}

  double best() const { return best_; }
  bool found() const { return !places_.empty(); }
  bool matters(double mm) const { return mm <= best_ + same_mm; }

  void take(double mm, const gp_Pnt& at) {
    if (!matters(mm)) return;
    if (mm < best_ - same_mm) std::erase_if(places_, [&](const Apart& p) { return p.mm > mm + same_mm; });
    best_ = std::min(best_, mm);
    places_.push_back({mm, at});
  }

  /// The least distance, told at the middle of all places that are as near.
  Apart place() const {
    gp_XYZ low{1e300, 1e300, 1e300}, high = low * -1;
    for (const Apart& p : places_)
      for (int i = 1; i <= 3; ++i)
        if (matters(p.mm))
          low.SetCoord(i, std::min(low.Coord(i), p.at.Coord(i))),
              high.SetCoord(i, std::max(high.Coord(i), p.at.Coord(i)));
    return {best_, gp_Pnt{(low + high) / 2}};
  }

 private:
  double best_;
  std::vector<Apart> places_;
};

double away(const gp_Pnt& p, const Box& box) {
  return brep::apart({p.X(), p.Y(), p.Z(), p.X(), p.Y(), p.Z()}, box);
}

/// Whether a point of the face's plane lies in the face. Nothing is said of points near a curved edge: no.
bool holds(const Flat& flat, const gp_Pnt& p) {
  for (const brep::Curve& curve : flat.curves)
    if (away(p, curve.box) <= same_mm) return false;
  const double x = std::abs(flat.normal.X()), y = std::abs(flat.normal.Y()), z = std::abs(flat.normal.Z());
  const int axis = z >= x && z >= y ? 3 : x >= y ? 1 : 2, u = axis % 3 + 1, v = u % 3 + 1;
  bool inside = false;
  for (const Ring& ring : flat.rings)
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
      const gp_Pnt &a = ring[i], &b = ring[j];
      if ((a.Coord(v) > p.Coord(v)) == (b.Coord(v) > p.Coord(v))) continue;
      const double share = (p.Coord(v) - a.Coord(v)) / (b.Coord(v) - a.Coord(v));
      if (p.Coord(u) < a.Coord(u) + share * (b.Coord(u) - a.Coord(u))) inside = !inside;
    }
  return inside;
}

/// Distance of a point from the face's plane, outward positive.
double above(const Flat& flat, const gp_Pnt& p) {
  return (p.XYZ() - flat.rings.front().front().XYZ()).Dot(flat.normal.XYZ());
}

struct Edge {
  gp_Pnt from, to;
  Box box() const {
    Box b{};
    for (int i = 0; i < 3; ++i) {
      b[i] = std::min(from.Coord(i + 1), to.Coord(i + 1));
      b[i + 3] = std::max(from.Coord(i + 1), to.Coord(i + 1));
    }
    return b;
  }
};

/// The nearest points of two straight edges.
void edge_to_edge(const Edge& a, const Edge& b, Nearest& nearest) {
  const gp_XYZ u = a.to.XYZ() - a.from.XYZ(), v = b.to.XYZ() - b.from.XYZ(), w = a.from.XYZ() - b.from.XYZ();
  const double uu = u.Dot(u), vv = v.Dot(v), uv = u.Dot(v), uw = u.Dot(w), vw = v.Dot(w);
  const double across = uu * vv - uv * uv;
  const auto take = [&](double s, double t) {
    s = std::clamp(s, 0.0, 1.0), t = std::clamp(t, 0.0, 1.0);
    const gp_XYZ p = a.from.XYZ() + s * u, q = b.from.XYZ() + t * v;
    nearest.take((p - q).Modulus(), gp_Pnt{p});
  };
  if (uu == 0 || vv == 0) return;
  constexpr double parallel = 1e-12;  // sine squared: from there on an end is as near as the crossing
  if (across > parallel * uu * vv) {
    const double s = (uv * vw - vv * uw) / across, t = (uu * vw - uv * uw) / across;
    if (s > 0 && s < 1 && t > 0 && t < 1) return take(s, t);
  }
  take(0, vw / vv), take(1, (vw + uv) / vv), take(-uw / uu, 0), take((uv - uw) / uu, 1);
}

/// A face, and what of it lies near the other solid: of a base's underside with all its ribs that is little.
struct NearFace {
  const Flat& flat;
  boost::container::small_vector<gp_Pnt, 8> corners;
  boost::container::small_vector<std::pair<Edge, Box>, 8> edges;

  NearFace(const Flat& face, const Box& other, double reach_mm) : flat{face} {
    const auto is_near = [&](const Box& box) { return brep::apart(box, other) <= reach_mm + same_mm; };
    for (const Ring& ring : face.rings)
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const Edge edge{ring[i], ring[(i + 1) % ring.size()]};
        if (const Box box = edge.box(); is_near(box)) edges.emplace_back(edge, box);
        if (away(ring[i], other) <= reach_mm + same_mm) corners.push_back(ring[i]);
      }
  }
};

/// Corners of one face over the other one's middle.
void corners_to_face(const NearFace& a, const Flat& b, bool on_a, Nearest& nearest) {
  for (const gp_Pnt& p : a.corners) {
    const double height = above(b, p);
    if (!nearest.matters(std::abs(height)) || !nearest.matters(away(p, b.box))) continue;
    const gp_Pnt foot{p.XYZ() - height * b.normal.XYZ()};
    if (holds(b, foot)) nearest.take(std::abs(height), on_a ? p : foot);
  }
}

/// Where an edge of `a` goes through the face `b` the two meet.
void edge_through_face(const Edge& edge, const Flat& b, Nearest& nearest) {
  const double from = above(b, edge.from), to = above(b, edge.to);
  if ((from < 0) == (to < 0)) return;
  const gp_Pnt p{edge.from.XYZ() + from / (from - to) * (edge.to.XYZ() - edge.from.XYZ())};
  if (holds(b, p)) nearest.take(0, p);
}

/// A chord between points of a curve is no edge, so it counts for what its ends are: corners.
bool is_chord(const Edge& edge, const Flat& flat) {
  return std::any_of(flat.curves.begin(), flat.curves.end(), [&](const brep::Curve& curve) {
    return away(edge.from, curve.box) <= same_mm && away(edge.to, curve.box) <= same_mm;
  });
}

using Edges = boost::container::small_vector<const std::pair<Edge, Box>*, 8>;

/// Edges of a face near another one, none of them a chord.
Edges edges_near(const NearFace& side, const Box& box, double reach) {
  Edges edges;
  for (const auto& edge : side.edges)
    if (brep::apart(edge.second, box) <= reach && !is_chord(edge.first, side.flat)) edges.push_back(&edge);
  return edges;
}

void face_to_face(const NearFace& a, const NearFace& b, Nearest& nearest) {
  corners_to_face(a, b.flat, true, nearest);
  corners_to_face(b, a.flat, false, nearest);
  const double reach = nearest.best() + same_mm;
  const auto of_a = edges_near(a, b.flat.box, reach), of_b = edges_near(b, a.flat.box, reach);
  for (const auto* p : of_a) edge_through_face(p->first, b.flat, nearest);
  for (const auto* q : of_b) edge_through_face(q->first, a.flat, nearest);
  for (const auto* p : of_a)
    for (const auto* q : of_b)
      if (nearest.matters(brep::apart(p->second, q->second))) edge_to_edge(p->first, q->first, nearest);
}

/// The middle of what two boxes share, or of the way between them.
gp_Pnt middle_of_shared(const Box& a, const Box& b) {
  gp_XYZ middle;
  for (int i = 0; i < 3; ++i) middle.SetCoord(i + 1, (std::max(a[i], b[i]) + std::min(a[i + 3], b[i + 3])) / 2);
  return gp_Pnt{middle};
}

/// Two faces of which one has a curve, that may come as near as `least`.
struct Curved {
  const TopoDS_Face *a, *b;
  double least;
};

/// Least and greatest distance of what a face covers in plan from an upright axis, or a little less and more.
struct Ranged {
  double least = 0, greatest = 0;
};

bool turns_round(const brep::About& axis, const brep::Curve& curve) {
  return curve.about && std::hypot(curve.about->x - axis.x, curve.about->y - axis.y) <= same_mm;
}

Ranged range_from(const brep::About& axis, const Flat& flat) {
  double least2 = 1e300, greatest2 = 0;
  bool inside = false;
  for (const Ring& ring : flat.rings)
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
      const double ax = ring[j].X() - axis.x, ay = ring[j].Y() - axis.y;
      const double bx = ring[i].X() - axis.x, by = ring[i].Y() - axis.y, dx = bx - ax, dy = by - ay;
      const double length2 = dx * dx + dy * dy,
                   t = length2 > 0 ? std::clamp(-(ax * dx + ay * dy) / length2, 0.0, 1.0) : 0;
      const double nx = ax + t * dx, ny = ay + t * dy;
      least2 = std::min(least2, nx * nx + ny * ny);
      greatest2 = std::max(greatest2, bx * bx + by * by);
      if (points::crosses_ray({ax, ay}, {bx, by}, {})) inside = !inside;
    }
  Ranged range{inside ? 0 : std::sqrt(least2), std::sqrt(greatest2)};
  // Chords lie within a curve that turns round the axis, and may lie beyond any other.
  if (!flat.curves.empty()) range.least -= units::tolerance::mesh_mm;
  const auto round = [&](const brep::Curve& curve) { return turns_round(axis, curve); };
  if (!std::all_of(flat.curves.begin(), flat.curves.end(), round)) range.greatest += units::tolerance::mesh_mm;
  return range;
}

Ranged range_from(const brep::About& axis, const brep::Round& round) {
  if (round.about) {
    const double off = std::hypot(round.about->x - axis.x, round.about->y - axis.y), radius = round.about->radius;
    return {std::abs(off - radius), off + radius};
  }
  const Box& b = round.box;
  return {0, std::hypot(std::max(std::abs(b[0] - axis.x), std::abs(b[3] - axis.x)),
                        std::max(std::abs(b[1] - axis.y), std::abs(b[4] - axis.y)))};
}

/// How far what turns round an upright axis stays on one side of a face's plane: studs lean, and a base may be tilted.
double off_plane(const Box& curved, const brep::About& about, const Flat& flat) {
  const double reach = about.radius * std::hypot(flat.normal.X(), flat.normal.Y());
  const double low = above(flat, {about.x, about.y, curved[2]}), high = above(flat, {about.x, about.y, curved[5]});
  return std::max({0.0, std::min(low, high) - reach, -std::max(low, high) - reach});
}
double off_plane(const Box&, const brep::About&, const brep::Round&) {
  return 0;
}

/// Never more than how far a piece of a curve is from a box. How far a point is from a box grows at least as fast as it
/// leaves one of the piece's ends along the way that leads from the box there; and in the curve's plane height follows
/// from the place in plan.
double beyond(const brep::Piece& piece, const gp_XYZ& across, const Box& box, bool only_below) {
  double least = only_below ? 0 : brep::apart(piece.box, box);
  if (std::abs(across.Z()) < 0.1) return least;
  for (const gp_Pnt& end : {piece.from, piece.to}) {
    gp_XYZ away;
    for (int i = 0; i < 3; ++i)
      away.SetCoord(i + 1, end.Coord(i + 1) - std::clamp(end.Coord(i + 1), box[i], box[i + 3]));
    const double far = away.Modulus();
    if (far < same_mm || (only_below && away.Z() > 0)) continue;
    const gp_XYZ level = (away - across * (away.Z() / across.Z())) / far;
    double nearer = 0;
    for (int i = 0; i < 2; ++i)
      nearer += std::min(level.Coord(i + 1) * (piece.box[i] - end.Coord(i + 1)),
                         level.Coord(i + 1) * (piece.box[i + 3] - end.Coord(i + 1)));
    least = std::max(least, far + nearer);
  }
  return least;
}

/// Never more than how far a curve is from a box.
double by_pieces(const brep::Curve& curve, const Box& box) {
  if (curve.pieces.empty()) return brep::apart(curve.box, box);
  double least = 1e300;
  for (const brep::Piece& piece : curve.pieces) least = std::min(least, beyond(piece, curve.across, box, false));
  return least;
}

/// The same of a cylinder that stands: it is what lies below the pieces of the curves that end it.
double by_pieces(const brep::Round& round, const Box& box) {
  if (!round.about || round.curves.empty()) return 0;
  double least = 1e300;
  for (const brep::Curve& curve : round.curves) {
    if (curve.pieces.empty()) return 0;
    for (const brep::Piece& piece : curve.pieces) {
      Box below = piece.box;
      below[2] = round.box[2];
      least = std::min(least, std::max(brep::apart(below, box), beyond(piece, curve.across, box, true)));
    }
  }
  return least;
}

/// Never more than how far a curved thing is from a face: by their boxes, by how far they are from its axis, and by the
/// face's plane.
template <class Face>
double least_between(const Box& curved, const std::optional<brep::About>& about, const Face& face) {
  const double by_boxes = brep::apart(curved, face.box);
  if (!about) return by_boxes;
  const Ranged range = range_from(*about, face);
  const double beside = std::max(about->radius - range.greatest, range.least - about->radius);
  const double over = std::max({0.0, curved[2] - face.box[5], face.box[2] - curved[5]});
  const double least = std::max(by_boxes, off_plane(curved, *about, face));
  return beside > 0 ? std::max(least, std::hypot(beside, over)) : least;
}

template <class Face>
double least_by_curves(const Flat& flat, const Face& other) {
  double least = 1e300;
  for (const brep::Curve& curve : flat.curves)
    least = std::min(least, std::max(least_between(curve.box, curve.about, other), by_pieces(curve, other.box)));
  return least;
}

double least_of(const Flat& a, const Flat& b) {
  return std::min(least_by_curves(a, b), least_by_curves(b, a));
}
double least_of(const brep::Round& a, const Flat& b) {
  return std::max({brep::apart(a.box, b.box), least_between(a.box, a.about, b), by_pieces(a, b.box)});
}
double least_of(const brep::Round& a, const brep::Round& b) {
  return std::max(
      {least_between(a.box, a.about, b), least_between(b.box, b.about, a), by_pieces(a, b.box), by_pieces(b, a.box)});
}

/// The nearest first, those that may come nearer than `reach`.
std::vector<Curved> curved_pairs(const brep::Skin& a, const brep::Skin& b, double reach) {
  std::vector<Curved> pairs;
  const auto add = [&](const auto& p, const auto& q, const auto& of) {
    if (brep::apart(p.box, q.box) >= reach) return;
    if (const double least = of(p, q); least < reach) pairs.push_back({&p.face, &q.face, least});
  };
  const auto in_turn = [](const auto& p, const auto& q) { return least_of(p, q); };
  const auto turned = [](const auto& p, const auto& q) { return least_of(q, p); };
  for (const Flat& p : a.flats) {
    if (brep::apart(p.box, b.box) >= reach) continue;
    for (const Flat& q : b.flats)
      if (!p.straight() || !q.straight()) add(p, q, in_turn);
    for (const brep::Round& q : b.rounds) add(p, q, turned);
  }
  for (const brep::Round& p : a.rounds) {
    for (const Flat& q : b.flats) add(p, q, in_turn);
    for (const brep::Round& q : b.rounds) add(p, q, in_turn);
  }
  std::sort(pairs.begin(), pairs.end(), [](const Curved& p, const Curved& q) { return p.least < q.least; });
  return pairs;
}

/// Faces whose boxes come so near, the nearest first: what they tell leaves little to be asked of the others.
std::vector<std::pair<double, const Flat*>> flats_near(const brep::Skin& skin, const Box& box, double reach_mm) {
  std::vector<std::pair<double, const Flat*>> near;
  for (const Flat& flat : skin.flats)
    if (const double mm = brep::apart(flat.box, box); mm <= reach_mm) near.emplace_back(mm, &flat);
  std::sort(near.begin(), near.end());
  return near;
}

}  // namespace

std::optional<Apart> apart(const brep::Skin& a, const brep::Skin& b, double reach_mm) {
  Nearest nearest{reach_mm};
  const auto flats_b = flats_near(b, a.box, reach_mm);
  std::vector<std::optional<NearFace>> near_b(flats_b.size());  // looked at when they first matter
  for (const auto& [mm, p] : flats_near(a, b.box, reach_mm)) {
    if (!nearest.matters(mm)) break;
    std::optional<NearFace> side;
    for (std::size_t i = 0; i < flats_b.size() && nearest.matters(flats_b[i].first); ++i) {
      const Flat& q = *flats_b[i].second;
      if (!nearest.matters(brep::apart(p->box, q.box))) continue;
      if (!side) side.emplace(*p, b.box, nearest.best());
      if (!near_b[i]) near_b[i].emplace(q, a.box, nearest.best());
      face_to_face(*side, *near_b[i], nearest);
    }
  }
  for (const Curved& pair : curved_pairs(a, b, nearest.best())) {
    if (pair.least >= nearest.best() - same_mm) break;
    const BRepExtrema_DistShapeShape distance{*pair.a, *pair.b};
    // Of the places along an arc the kernel names any.
    if (distance.IsDone() && distance.NbSolution() > 0 && distance.Value() < nearest.best() - same_mm)
      nearest.take(distance.Value(), middle_of_shared(a.box, b.box));
  }
  if (!nearest.found()) return std::nullopt;
  return nearest.place();
}

}  // namespace fallwright::measure
