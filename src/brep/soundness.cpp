#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <vector>

#include "brep/properties.hpp"
#include "brep/skin.hpp"
#include "points/points.hpp"
#include "units/tolerance.hpp"

namespace fallwright::brep {
namespace {

using units::tolerance::weld_mm;

bool is_solid(const TopoDS_Shape& shape) {
  return !shape.IsNull() && shape.ShapeType() == TopAbs_SOLID;
}

/// What rings of a face tell. Where a curve comes so near something that chords do not settle it, the rings in question
/// stay open.
struct Verdict {
  bool sound = true;
  std::set<std::size_t> open = {};
};

struct Point {
  double u, v;
};
double distance(const Point& a, const Point& b) {
  const double u = a.u - b.u, v = a.v - b.v;
  return std::sqrt(u * u + v * v);
}

struct Segment {
  Point from, to;
  double off;  ///< a curve that it is a chord of may lie so far from it
  std::size_t ring, from_at, to_at;
  double length = distance(from, to);
  double u0() const { return std::min(from.u, to.u); }
  double u1() const { return std::max(from.u, to.u); }
};

double turn(const Point& a, const Point& b, const Point& c) {
  return (b.u - a.u) * (c.v - a.v) - (b.v - a.v) * (c.u - a.u);
}

double distance(const Point& p, const Segment& s) {
  const double du = s.to.u - s.from.u, dv = s.to.v - s.from.v;
  const double share = ((p.u - s.from.u) * du + (p.v - s.from.v) * dv) / (du * du + dv * dv);
  const double t = std::clamp(share, 0.0, 1.0);
  return distance(p, Point{s.from.u + t * du, s.from.v + t * dv});
}

bool cross(const Segment& s, const Segment& t) {
  const double a = turn(s.from, s.to, t.from), b = turn(s.from, s.to, t.to);
  const double c = turn(t.from, t.to, s.from), d = turn(t.from, t.to, s.to);
  return ((a > 0 && b < 0) || (a < 0 && b > 0)) && ((c > 0 && d < 0) || (c < 0 && d > 0));
}

/// Two stretches of rings may have one corner in common, and nothing else. How near they come beside that.
double beside_corners(const Segment& s, const Segment& t) {
  const auto one = [](const Point& a, const Point& b) { return distance(a, b) <= weld_mm; };
  const bool from_from = one(s.from, t.from), from_to = one(s.from, t.to), to_from = one(s.to, t.from),
             to_to = one(s.to, t.to);
  if ((from_from && to_to) || (from_to && to_from)) return 0;
  if (from_from || from_to) return std::min(distance(s.to, t), distance(from_from ? t.to : t.from, s));
  if (to_from || to_to) return std::min(distance(s.from, t), distance(to_from ? t.to : t.from, s));
  if (cross(s, t)) return 0;
  return std::min({distance(s.from, t), distance(s.to, t), distance(t.from, s), distance(t.to, s)});
}

/// Whether one goes on where the other ends, without turning back: so they come no nearer to each other anywhere else
/// than the shorter of them is long.
bool goes_on(const Segment& s, const Segment& t) {
  if (s.ring != t.ring || s.to_at != t.from_at) return false;
  return (s.to.u - s.from.u) * (t.to.u - t.from.u) + (s.to.v - s.from.v) * (t.to.v - t.from.v) >= 0;
}

/// The rings of one face in its own plane, or of a cylinder that stands unrolled into one.
class Rings {
 public:
  explicit Rings(const Flat& flat) : given_{flat.rings}, curves_{flat.curves} {
    const gp_Dir& n = flat.normal;
    const double x = std::abs(n.X()), y = std::abs(n.Y()), z = std::abs(n.Z());
    const int axis = z >= x && z >= y ? 3 : x >= y ? 1 : 2;
    const gp_Dir way{axis == 1 ? 0.0 : 1.0, axis == 1 ? 1.0 : 0.0, 0};
    const gp_XYZ v = n.XYZ().Crossed(way.XYZ()).Normalized(), u = v.Crossed(n.XYZ());
    const gp_XYZ origin = flat.rings.front().front().XYZ();
    for (const Ring& ring : flat.rings) {
      auto& points = rings_.emplace_back();
      for (const gp_Pnt& p : ring) {
        const gp_XYZ off = p.XYZ() - origin;
        points.push_back({off.Dot(u), off.Dot(v)});
        on_it_ = on_it_ && std::abs(off.Dot(n.XYZ())) <= weld_mm;
      }
    }
  }

  /// @pre it is about an axis. Round a whole cylinder that has no seam a ring does not close: then nothing is told.
  explicit Rings(const Round& round) : given_{round.rings}, curves_{round.curves} {
    const About& axis = *round.about;
    for (const Ring& ring : round.rings) {
      auto& points = rings_.emplace_back();
      double turned = 0, before = 0;
      for (std::size_t i = 0; i <= ring.size(); ++i) {
        const gp_Pnt& p = ring[i % ring.size()];
        const double x = p.X() - axis.x, y = p.Y() - axis.y, angle = std::atan2(y, x);
        turned = i == 0 ? angle : turned + std::remainder(angle - before, 2 * M_PI);
        before = angle;
        on_it_ = on_it_ && std::abs(std::sqrt(x * x + y * y) - axis.radius) <= weld_mm;
        if (i < ring.size())
          points.push_back({axis.radius * turned, p.Z()});
        else
          on_it_ = on_it_ && std::abs(axis.radius * turned - points.front().u) <= weld_mm;
      }
    }
    // Of a hole's wall the eye stands inside, and sees it from the other side.
    if (rings_.size() == 1 && twice_area(rings_.front()) < 0)
      for (Point& p : rings_.front()) p.u = -p.u;
  }

  Verdict verdict() const {
    if (!on_it_ || !one_outer_ring()) return {false};
    Verdict verdict = stretches_apart();
    if (verdict.sound && !holes_lie_inside()) verdict.sound = false;
    return verdict;
  }

 private:
  static double twice_area(const std::vector<Point>& ring) {
    double sum = 0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i) sum += turn(ring[0], ring[i], ring[i + 1]);
    return sum;
  }

  bool one_outer_ring() const {
    const auto outer = [](const auto& ring) { return twice_area(ring) > 0; };
    return std::count_if(rings_.begin(), rings_.end(), outer) == 1;
  }

  std::vector<Segment> segments() const {
    std::vector<Segment> all;
    for (std::size_t r = 0; r < rings_.size(); ++r)
      for (std::size_t i = 0; i < rings_[r].size(); ++i) {
        const std::size_t next = (i + 1) % rings_[r].size();
        all.push_back({rings_[r][i], rings_[r][next], 0, r, i, next});
      }
    for (const Curve& curve : curves_) note_chords(curve, all);
    std::sort(all.begin(), all.end(), [](const Segment& a, const Segment& b) { return a.u0() < b.u0(); });
    return all;
  }

  /// Chords round an upright axis span a tenth of a radian at most: their height is an eightieth of their length.
  /// @pre stretches are in the order of their corners
  void note_chords(const Curve& curve, std::vector<Segment>& stretches) const {
    std::size_t first = 0;
    for (const Ring& ring : given_) {
      bool at_from = is_at(ring[0], curve);
      const bool at_first = at_from;
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const std::size_t next = (i + 1) % ring.size();
        const bool at_to = next == 0 ? at_first : is_at(ring[next], curve);
        double& off = stretches[first + i].off;
        if (at_from && at_to)
          off = std::max(off, curve.about ? std::min(ring[i].Distance(ring[next]) / 50, units::tolerance::mesh_mm)
                                          : units::tolerance::mesh_mm);
        at_from = at_to;
      }
      first += ring.size();
    }
  }

  /// Whether a corner may lie on a curve: in its box and, where it is round in plan, on its circle.
  static bool is_at(const gp_Pnt& p, const Curve& curve) {
    for (int i = 0; i < 3; ++i)
      if (p.Coord(i + 1) < curve.box[i] - weld_mm || p.Coord(i + 1) > curve.box[i + 3] + weld_mm) return false;
    return !curve.about ||
           std::abs(distance({p.X(), p.Y()}, Point{curve.about->x, curve.about->y}) - curve.about->radius) <= weld_mm;
  }

  /// Curves that a stretch may be a chord of; nothing where one of them is not round in plan.
  std::optional<std::vector<About>> arcs_of(const Segment& s) const {
    std::vector<About> arcs;
    for (const Curve& curve : curves_) {
      if (!is_at(given_[s.ring][s.from_at], curve) || !is_at(given_[s.ring][s.to_at], curve)) continue;
      if (!curve.about) return std::nullopt;
      arcs.push_back(*curve.about);
    }
    return arcs;
  }

  /// Two circles whose lines do not meet; whole ones, whatever of them is there.
  static bool are_clear(const About& a, const About& b) {
    const double off = std::hypot(a.x - b.x, a.y - b.y);
    return std::max(off - a.radius - b.radius, std::abs(a.radius - b.radius) - off) > weld_mm;
  }

  bool is_clear_of(const About& arc, const Segment& straight) const {
    const gp_Pnt &a = given_[straight.ring][straight.from_at], &b = given_[straight.ring][straight.to_at];
    const Point centre{arc.x, arc.y}, p{a.X(), a.Y()}, q{b.X(), b.Y()};
    if (distance(p, q) <= weld_mm) return false;
    return distance(centre, Segment{p, q, 0, 0, 0, 0}) > arc.radius + weld_mm ||
           std::max(distance(centre, p), distance(centre, q)) < arc.radius - weld_mm;
  }

  struct Sector {
    double middle, half;
  };
  /// In which part of a turn round a circle a stretch comes to it: its own where both its ends lie over it; of a
  /// straight one that ends there, and leaves it at once for good, its end. Nothing where it may come to it otherwise.
  std::optional<Sector> sector_of(const Segment& s, const About& circle) const {
    const gp_Pnt &from = given_[s.ring][s.from_at], &to = given_[s.ring][s.to_at];
    const Point p{from.X() - circle.x, from.Y() - circle.y}, q{to.X() - circle.x, to.Y() - circle.y};
    const auto angle = [](const Point& at) { return std::atan2(at.v, at.u); };
    const auto is_on_it = [&](const Point& at) { return std::abs(std::hypot(at.u, at.v) - circle.radius) <= weld_mm; };
    if (is_on_it(p) && is_on_it(q)) {
      const double half = std::remainder(angle(q) - angle(p), 2 * M_PI) / 2;
      return Sector{angle(p) + half, std::abs(half)};
    }
    if (s.off > 0 || is_on_it(p) == is_on_it(q)) return std::nullopt;
    const Point &end = is_on_it(p) ? p : q, &other = is_on_it(p) ? q : p;
    constexpr double steep = 0.1;  // of its way: along the circle's tangent it would stay near
    const double outward = ((other.u - end.u) * end.u + (other.v - end.v) * end.v) / circle.radius / distance(p, q);
    if (outward > -steep && (outward < steep || distance({0, 0}, Segment{p, q, 0, 0, 0, 0}) < circle.radius - weld_mm))
      return std::nullopt;
    if (outward <= -steep && std::hypot(other.u, other.v) > circle.radius) return std::nullopt;
    return Sector{angle(end), 0};
  }

  /// Whether two stretches come to a circle beside each other, at one point at most: each stays within its own sector.
  bool are_in_turn(const About& circle, const Segment& s, const Segment& t) const {
    const auto a = sector_of(s, circle), b = sector_of(t, circle);
    if (!a || !b) return false;
    return (std::abs(std::remainder(a->middle - b->middle, 2 * M_PI)) - a->half - b->half) * circle.radius >= -weld_mm;
  }

  /// What is clear in plan is clear: so rings round a drain are told that pass each other nearer than chords can tell.
  bool are_clear_in_plan(const Segment& s, const Segment& t) const {
    const auto of_s = arcs_of(s), of_t = arcs_of(t);
    if (!of_s || !of_t) return false;
    const auto clear_of = [&](const std::vector<About>& arcs, const Segment& straight) {
      return std::all_of(arcs.begin(), arcs.end(),
                         [&](const About& arc) { return is_clear_of(arc, straight) || are_in_turn(arc, s, t); });
    };
    if (of_s->empty()) return clear_of(*of_t, s);
    if (of_t->empty()) return clear_of(*of_s, t);
    return std::all_of(of_s->begin(), of_s->end(), [&](const About& a) {
      return std::all_of(of_t->begin(), of_t->end(),
                         [&](const About& b) { return are_clear(a, b) || are_in_turn(a, s, t); });
    });
  }

  Verdict stretches_apart() const {
    const std::vector<Segment> all = segments();
    constexpr double reach = 2 * units::tolerance::mesh_mm;
    Verdict verdict;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const Segment& s = all[i];
      if (s.length <= weld_mm) return {false};
      const double v0 = std::min(s.from.v, s.to.v) - reach, v1 = std::max(s.from.v, s.to.v) + reach;
      for (std::size_t j = i + 1; j < all.size() && all[j].u0() <= s.u1() + reach; ++j) {
        const Segment& t = all[j];
        if (std::max(t.from.v, t.to.v) < v0 || std::min(t.from.v, t.to.v) > v1) continue;
        const double off = s.off + t.off;
        if (std::min(s.length, t.length) > off + weld_mm && (goes_on(s, t) || goes_on(t, s))) continue;
        if (beside_corners(s, t) > off + weld_mm) continue;
        if (off == 0) return {false};
        if (are_clear_in_plan(s, t)) continue;
        verdict.open.insert({s.ring, t.ring});
      }
    }
    return verdict;
  }

  static bool inside(const std::vector<Point>& ring, const Point& p) {
    bool in = false;
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
      if (points::crosses_ray({ring[i].u, ring[i].v}, {ring[j].u, ring[j].v}, {p.u, p.v})) in = !in;
    return in;
  }

  /// Of rings that do not cross, one stretch tells for all. @pre stretches are apart
  bool holes_lie_inside() const {
    struct Hole {
      const std::vector<Point>* ring;
      double u0, u1, v0, v1;
    };
    std::vector<Hole> holes;
    const std::vector<Point>* outer = nullptr;
    for (const auto& ring : rings_) {
      if (twice_area(ring) > 0) {
        outer = &ring;
        continue;
      }
      const auto u = [](const Point& a, const Point& b) { return a.u < b.u; };
      const auto v = [](const Point& a, const Point& b) { return a.v < b.v; };
      const auto [u0, u1] = std::minmax_element(ring.begin(), ring.end(), u);
      const auto [v0, v1] = std::minmax_element(ring.begin(), ring.end(), v);
      holes.push_back({&ring, u0->u, u1->u, v0->v, v1->v});
    }
    std::sort(holes.begin(), holes.end(), [](const Hole& a, const Hole& b) { return a.u0 < b.u0; });
    const auto middle = [](const Hole& hole) {
      const Point &a = (*hole.ring)[0], &b = (*hole.ring)[1];  // off the corners, where rings may touch
      return Point{(a.u + b.u) / 2, (a.v + b.v) / 2};
    };
    for (std::size_t i = 0; i < holes.size(); ++i) {
      if (!inside(*outer, middle(holes[i]))) return false;
      for (std::size_t j = i + 1; j < holes.size() && holes[j].u0 <= holes[i].u1; ++j) {
        if (holes[j].v0 > holes[i].v1 || holes[j].v1 < holes[i].v0) continue;
        if (inside(*holes[i].ring, middle(holes[j])) || inside(*holes[j].ring, middle(holes[i]))) return false;
      }
    }
    return true;
  }

  const std::vector<Ring>& given_;
  const std::vector<Curve>& curves_;
  std::vector<std::vector<Point>> rings_;
  bool on_it_ = true;  ///< all corners lie on the face
};

/// One straight ring of few corners, which lie in the face's plane, each of them to the left of every side that does
/// not end there: most faces are so, and nothing of such a ring comes near anything else of it.
bool is_plainly_sound(const Flat& flat) {
  constexpr std::size_t few = 8;
  if (flat.rings.size() != 1 || !flat.straight() || flat.rings[0].size() < 3 || flat.rings[0].size() > few)
    return false;
  const Ring& ring = flat.rings[0];
  const gp_XYZ& normal = flat.normal.XYZ();
  for (std::size_t i = 0; i < ring.size(); ++i) {
    if (std::abs((ring[i].XYZ() - ring[0].XYZ()).Dot(normal)) > weld_mm) return false;
    const std::size_t next = (i + 1) % ring.size();
    const gp_XYZ side = ring[next].XYZ() - ring[i].XYZ(), left = normal.Crossed(side);
    const double least = weld_mm * side.Modulus();
    for (std::size_t k = 0; k < ring.size(); ++k)
      if (k != i && k != next && !((ring[k].XYZ() - ring[i].XYZ()).Dot(left) > least)) return false;
  }
  return true;
}

bool is_sound_face(const Flat& flat) {
  if (flat.rings.empty()) return false;
  if (is_plainly_sound(flat)) return true;
  const Verdict verdict = Rings{flat}.verdict();
  if (!verdict.sound) return !flat.straight() && is_valid_face_to_kernel(flat.face);
  return verdict.open.empty() || is_valid_to_kernel(flat.face, verdict.open);
}

/// The kernel is asked about what is no cylinder that stands, and where that is not plainly sound.
bool is_sound_face(const Round& round) {
  if (round.about && !round.rings.empty()) {
    const Verdict verdict = Rings{round}.verdict();
    if (verdict.sound && verdict.open.empty()) return true;
  }
  return is_valid_face_to_kernel(round.face);
}

template <class Faces>
bool are_sound(const Faces& faces) {
  return std::all_of(faces.begin(), faces.end(), [](const auto& face) { return is_sound_face(face); });
}

}  // namespace

bool is_sound(const TopoDS_Shape& solid) {
  return is_solid(solid) && is_sound(solid, skin_of(solid), volume_mm3(solid));
}

bool is_sound(const TopoDS_Shape& solid, const Skin& skin, double volume_mm3) {
  return is_solid(solid) && skin.closed && are_sound(skin.flats) && are_sound(skin.rounds) && volume_mm3 > 0;
}

bool is_sound_to_kernel(const TopoDS_Shape& solid) {
  return is_solid(solid) && skin_of(solid).closed && is_valid_to_kernel(solid) && volume_mm3(solid) > 0;
}

}  // namespace fallwright::brep
