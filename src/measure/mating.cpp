#include "measure/mating.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <tuple>

#include "measure/columns.hpp"
#include "measure/detail.hpp"
#include "measure/fence.hpp"
#include "measure/sides.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

double longest(const Patch& polygon) {
  double square = 0;
  for (const Spot& p : polygon) {
    const double dx = p.x - polygon[0].x, dy = p.y - polygon[0].y;
    square = std::max(square, dx * dx + dy * dy);
  }
  return std::sqrt(square);
}

/// What lies between two planes over a piece of their common plan.
void add(Mating& mating, const Patch& polygon, const Triangle& lower) {
  if (polygon.size() < 3) return;
  constexpr double same = units::tolerance::length_mm;
  if (std::all_of(polygon.begin(), polygon.end(), [](const Spot& s) { return std::abs(s.open) <= same; })) {
    const double area = integrate(polygon).area;
    mating.contact_mm2 += area;
    if (area <= same) return;
    auto& contact = mating.contact.emplace_back();
    for (const Spot& s : polygon) contact.emplace_back(s.x, s.y, height(lower, s.x, s.y));
    return;
  }
  // Where an arc bounds two faces, each is meshed with its own chords: slivers thinner than the chord height are no
  // open space and no overlap.
  const double area = integrate(polygon).area;
  if (area <= units::tolerance::mesh_mm * longest(polygon)) return;
  mating.void_mm3 += integrate(keep(polygon, [](const Spot& s) { return s.open; })).volume;
  mating.overlap_mm3 -= integrate(keep(polygon, [](const Spot& s) { return -s.open; })).volume;
}

/// What lies between arcs and the chords that stand for them, along the edges of pieces in contact: an arc may bound
/// one face, both, or a contact that goes on past it, where one side wins what the other loses.
class Arcs {
 public:
  Arcs(const std::vector<Chord>& upper, const std::vector<Chord>& lower) {
    for (const auto* chords : {&upper, &lower})
      for (const Chord& chord : *chords) {
        const auto arc =
            std::find_if(arcs_.begin(), arcs_.end(), [&](const Arc& a) { return same(a.about, chord.about); });
        if (const auto line = line_of(chord))
          (arc == arcs_.end() ? arcs_.emplace_back(Arc{chord.about, {}}) : *arc).chords.push_back(*line);
      }
  }

  /// What a piece, counter-clockwise from above, lacks of its true plan; negative where it has too much.
  double beside(const Plate& piece) const {
    double sum = 0;
    if (arcs_.empty()) return sum;
    for (std::size_t i = 0; i < piece.size(); ++i) sum += beside(piece[i], piece[(i + 1) % piece.size()]);
    return sum;
  }

 private:
  /// A chord's own line: distances along it from the point nearest to the axis, and where on it the chord lies.
  struct Line {
    double x, y, ux, uy, off = 0, low = 0, high = 0;
    double along(const gp_Pnt& p) const { return (p.X() - x) * ux + (p.Y() - y) * uy; }
    double aside(const gp_Pnt& p) const { return (p.Y() - y) * ux - (p.X() - x) * uy; }
  };

  struct Arc {
    brep::About about;
    std::vector<Line> chords;
    bool is_near(const gp_Pnt& p) const {  // most points are not: no root is drawn for them
      constexpr double near = units::tolerance::mesh_mm + units::tolerance::weld_mm;
      const double dx = p.X() - about.x, dy = p.Y() - about.y, square = dx * dx + dy * dy;
      const double inner = std::max(0.0, about.radius - near), outer = about.radius + near;
      return square >= inner * inner && square <= outer * outer;
    }
  };

  static std::optional<Line> line_of(const Chord& chord) {
    const double dx = chord.to.X() - chord.from.X(), dy = chord.to.Y() - chord.from.Y(), length = std::hypot(dx, dy);
    if (length < units::tolerance::weld_mm) return std::nullopt;
    Line line{chord.about.x, chord.about.y, dx / length, dy / length};
    line.off = line.aside(chord.from);
    std::tie(line.low, line.high) = std::minmax({line.along(chord.from), line.along(chord.to)});
    return line;
  }

  static double beside(const Line& chord, double radius, const gp_Pnt& a, const gp_Pnt& b) {
    constexpr double on_mm = units::tolerance::weld_mm;
    if (std::abs(chord.aside(a) - chord.off) > on_mm || std::abs(chord.aside(b) - chord.off) > on_mm) return 0;
    const double from = chord.along(a), to = chord.along(b);
    if (std::min(from, to) < chord.low - on_mm || std::max(from, to) > chord.high + on_mm) return 0;
    // The strip between line and circle; where the axis lies to the left of the way the piece bulges, else it is cut
    // in.
    const double r = radius, h = std::abs(chord.off);
    const auto under = [&](double s) {
      const double t = std::clamp(s, -r, r);
      return (t * std::sqrt(r * r - t * t) + r * r * std::asin(t / r)) / 2 - h * t;
    };
    const double strip = std::abs(under(to) - under(from));
    return (chord.off < 0) == (to > from) ? strip : -strip;
  }

  double beside(const gp_Pnt& a, const gp_Pnt& b) const {
    for (const Arc& arc : arcs_) {
      if (!arc.is_near(a) || !arc.is_near(b)) continue;
      for (const Line& chord : arc.chords)
        if (const double strip = beside(chord, arc.about.radius, a, b); strip != 0) return strip;
    }
    return 0;
  }

  std::vector<Arc> arcs_;
};

/// A hole of a face.
struct Hole {
  double x0, y0, x1, y1;
  Fence fence;
};

Hole hole_of(const brep::Ring& ring) {
  const auto by = [](int axis) {
    return [=](const gp_Pnt& a, const gp_Pnt& b) { return a.Coord(axis) < b.Coord(axis); };
  };
  const auto [x0, x1] = std::minmax_element(ring.begin(), ring.end(), by(1));
  const auto [y0, y1] = std::minmax_element(ring.begin(), ring.end(), by(2));
  return {x0->X(), y0->Y(), x1->X(), y1->Y(), Fence{ring}};
}

/// A flat face that looks down, over triangles of what lies below. Most of them lie wholly under it, or wholly beside
/// it or under one of its holes: for those it is never cut up into triangles itself.
class Roof {
 public:
  Roof(const View& view, std::size_t face)
      : view_{view},
        face_{face},
        flat_{*view.faces()[face].flat},
        outline_{brep::outer_ring(flat_)},
        fence_{flat_.rings[outline_]},
        x0{flat_.box[0]},
        y0{flat_.box[1]},
        x1{flat_.box[3]},
        y1{flat_.box[4]} {
    holes_.reserve(flat_.rings.size() - 1);
    for (std::size_t i = 0; i < flat_.rings.size(); ++i)
      if (i != outline_) holes_.push_back(hole_of(flat_.rings[i]));
    near_holes_.emplace(holes_);
  }

  void over(const Triangle& below, Mating& mating) {
    using Lie = Fence::Lie;
    const Lie lie = fence_.of(below), holes = lie == Lie::apart ? Lie::apart : of_holes(below);
    if (lie == Lie::apart || holes == Lie::within) return;
    if (holes == Lie::apart && lie == Lie::within) return add(mating, under_plane(below), below);
    if (holes == Lie::apart && fence_.is_convex()) return add(mating, fence_.within(under_plane(below)), below);
    if (!near_) near_.emplace(view_.of(face_).down);
    near_->near(below, [&](const Triangle& t) { add(mating, common(t, below), below); });
  }

 private:
  /// Within one of the holes, apart from them all, or across one.
  Fence::Lie of_holes(const Triangle& t) const {
    Fence::Lie lie = Fence::Lie::apart;
    near_holes_->near(t, [&](const Hole& hole) {
      if (lie == Fence::Lie::within) return;
      if (const Fence::Lie of_it = hole.fence.of(t); of_it != Fence::Lie::apart) lie = of_it;
    });
    return lie;
  }

  /// The triangle's own corners, with the open height up to the face's plane.
  Patch under_plane(const Triangle& t) const {
    const gp_Pnt& o = flat_.rings[outline_].front();
    const gp_XYZ& n = flat_.normal.XYZ();
    Patch patch;
    for (const gp_Pnt& p : t.corner)
      patch.push_back({p.X(), p.Y(), o.Z() - ((p.X() - o.X()) * n.X() + (p.Y() - o.Y()) * n.Y()) / n.Z() - p.Z()});
    return patch;
  }

  const View& view_;
  std::size_t face_;
  const brep::Flat& flat_;
  std::size_t outline_;
  Fence fence_;
  std::vector<Hole> holes_;
  std::optional<Columns<Hole>> near_holes_;
  std::optional<Columns<Triangle>> near_;

 public:
  double x0, y0, x1, y1;
};

}  // namespace

Mating mate(const View& upper, const Sides& lower) {
  const Columns<Triangle> columns{lower.up};
  Mating mating;
  std::vector<Chord> chords;
  for (std::size_t i = 0; i < upper.faces().size(); ++i) {
    if (!upper.bears(i) || upper.faces()[i].flat->normal.Z() > 0) continue;
    add_chords(chords, *upper.faces()[i].flat);
    Roof roof{upper, i};
    columns.near(roof, [&](const Triangle& below) { roof.over(below, mating); });
  }
  const Arcs arcs{chords, lower.chords};
  for (const Plate& piece : mating.contact) mating.contact_mm2 += arcs.beside(piece);
  return mating;
}

namespace {

/// Over one plane, which a solid has under all of its top, depth is least and greatest at the top's own corners.
bool one_plane(const std::vector<Triangle>& side) {
  constexpr double rounding_mm = 1e-9;
  return std::all_of(side.begin(), side.end(), [&](const Triangle& t) {
    return std::all_of(t.corner.begin(), t.corner.end(), [&](const gp_Pnt& p) {
      return std::abs(height(side.front(), p.X(), p.Y()) - p.Z()) <= rounding_mm;
    });
  });
}

}  // namespace

std::vector<Depth> depths(const Sides& solid) {
  std::vector<Plate> tops;
  for (const Triangle& t : solid.up) tops.push_back({t.corner.begin(), t.corner.end()});
  return depths(tops, solid);
}

std::vector<Depth> depths(const std::vector<Plate>& tops, const Sides& solid) {
  const bool level = !solid.down.empty() && one_plane(solid.down);
  const std::vector<Triangle> none;
  const Columns<Triangle> columns{level ? none : solid.down};
  std::vector<Depth> found;
  for (const Plate& top : tops)
    for (std::size_t i = 1; i + 1 < top.size(); ++i) {
      const Triangle t = to_triangle({top[0], top[i], top[i + 1]});
      if (std::abs(twice_plan_mm2(t)) <= units::tolerance::length_mm) continue;
      if (level)
        for (const gp_Pnt& p : t.corner) found.push_back({p, p.Z() - height(solid.down.front(), p.X(), p.Y())});
      else
        columns.near(t, [&](const Triangle& o) {
          const Patch polygon = common(t, o);
          if (polygon.size() < 3 || integrate(polygon).area <= units::tolerance::length_mm) return;
          for (const Spot& s : polygon) found.push_back({{s.x, s.y, height(t, s.x, s.y)}, s.open});
        });
    }
  return found;
}

}  // namespace fallwright::measure
