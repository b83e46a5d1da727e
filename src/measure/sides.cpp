#include "measure/sides.hpp"

#include "measure/detail.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {

Triangle to_triangle(std::array<gp_Pnt, 3> corner) {
  const auto& [a, b, c] = corner;
  if ((b.X() - a.X()) * (c.Y() - a.Y()) < (c.X() - a.X()) * (b.Y() - a.Y())) std::swap(corner[1], corner[2]);
  const auto [x0, x1] = std::minmax({a.X(), b.X(), c.X()});
  const auto [y0, y1] = std::minmax({a.Y(), b.Y(), c.Y()});
  return {corner, x0, y0, x1, y1, (b.XYZ() - a.XYZ()).Crossed(c.XYZ() - a.XYZ())};
}

double twice_plan_mm2(const Triangle& t) {
  const auto& [a, b, c] = t.corner;
  return (b.X() - a.X()) * (c.Y() - a.Y()) - (c.X() - a.X()) * (b.Y() - a.Y());
}

double height(const Triangle& t, double x, double y) {
  const gp_XYZ& n = t.across;
  return t.corner[0].Z() - ((x - t.corner[0].X()) * n.X() + (y - t.corner[0].Y()) * n.Y()) / n.Z();
}

namespace {

constexpr double nothing_mm2 = 1e-9;

/// A triangle whose corners lie in a line, as seen from above, covers nothing.
void add(std::vector<Triangle>& side, const brep::Facet3& facet) {
  const Triangle t = to_triangle(facet);
  if (twice_plan_mm2(t) > nothing_mm2) side.push_back(t);
}

}  // namespace

bool same(const brep::About& a, const brep::About& b) {
  constexpr double near = units::tolerance::weld_mm;
  return std::abs(a.x - b.x) < near && std::abs(a.y - b.y) < near && std::abs(a.radius - b.radius) < near;
}

void add_chords(std::vector<Chord>& chords, const brep::Flat& flat) {
  std::vector<brep::About> arcs;
  for (const brep::Curve& curve : flat.curves)
    if (curve.about &&
        std::none_of(arcs.begin(), arcs.end(), [&](const brep::About& a) { return same(a, *curve.about); }))
      arcs.push_back(*curve.about);
  for (const brep::About& arc : arcs)
    for (const brep::Ring& ring : flat.rings)
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const gp_Pnt &a = ring[i], &b = ring[(i + 1) % ring.size()];
        const auto on = [&](const gp_Pnt& p) {
          const double dx = p.X() - arc.x, dy = p.Y() - arc.y;
          if (std::max(std::abs(dx), std::abs(dy)) > arc.radius + units::tolerance::weld_mm) return false;
          return std::abs(std::sqrt(dx * dx + dy * dy) - arc.radius) < units::tolerance::weld_mm;
        };
        if (!on(a) || !on(b)) continue;
        const double middle = std::hypot((a.X() + b.X()) / 2 - arc.x, (a.Y() + b.Y()) / 2 - arc.y);
        if (arc.radius - middle <= units::tolerance::mesh_mm + units::tolerance::weld_mm) chords.push_back({a, b, arc});
      }
}

const View& Remembered::view(std::size_t solid) const {
  auto& known = views[solid];
  if (!known) known = std::make_shared<const View>(*skins[solid]);
  return *known;
}

namespace {

constexpr double least_rise = 0.1;  ///< of the normal of a face that bears

void add(Sides& sides, const brep::Flat& flat) {
  auto& side = flat.normal.Z() > 0 ? sides.up : sides.down;
  for (const brep::Facet3& facet : brep::triangles_of(flat)) add(side, facet);
  if (!flat.straight()) add_chords(sides.chords, flat);
}

void add(Sides& sides, const brep::Round& round) {
  for (const brep::Facet3& facet : brep::triangles_of(round)) {
    const double up = gp_Vec{facet[0], facet[1]}.Crossed(gp_Vec{facet[0], facet[2]}).Z();
    add(up > 0 ? sides.up : sides.down, facet);
  }
}

}  // namespace

View::View(const brep::Skin& skin) {
  constexpr double upright = 1e-12;  // rounding of a unit normal
  for (const brep::Flat& flat : skin.flats)
    if (std::abs(flat.normal.Z()) > upright) faces_.push_back({&flat, nullptr});
  for (const brep::Round& round : skin.rounds)
    if (!round.about) faces_.push_back({nullptr, &round});
  known_.resize(faces_.size());
}

const Sides& View::of(std::size_t face) const {
  auto& known = known_[face];
  if (known) return *known;
  known.emplace();
  const auto& [flat, round] = faces_[face];
  if (flat)
    add(*known, *flat);
  else
    add(*known, *round);
  return *known;
}

bool View::bears(std::size_t face) const {
  const brep::Flat* flat = faces_[face].flat;
  return flat && std::abs(flat->normal.Z()) > least_rise;
}

Sides sides_that_bear(const View& view) {
  Sides sides;
  const auto join = [](auto& to, const auto& from) { to.insert(to.end(), from.begin(), from.end()); };
  for (std::size_t i = 0; i < view.faces().size(); ++i) {
    if (!view.bears(i)) continue;
    const Sides& face = view.of(i);
    join(sides.up, face.up), join(sides.down, face.down), join(sides.chords, face.chords);
  }
  return sides;
}

namespace {

/// Positive where a place lies to the left of the way from `a` to `b`.
double left_of(const gp_Pnt& a, const gp_Pnt& b, double x, double y) {
  return (b.X() - a.X()) * (y - a.Y()) - (x - a.X()) * (b.Y() - a.Y());
}

/// Whether one lies wholly beyond an edge of the other, in plan, or touches it from there.
bool lies_beyond_an_edge(const Triangle& t, const Triangle& other) {
  for (std::size_t i = 0; i < 3; ++i) {
    const gp_Pnt &a = other.corner[i], &b = other.corner[(i + 1) % 3];
    const auto beyond = [&](const gp_Pnt& p) { return left_of(a, b, p.X(), p.Y()) < nothing_mm2; };
    if (beyond(t.corner[0]) && beyond(t.corner[1]) && beyond(t.corner[2])) return true;
  }
  return false;
}

}  // namespace

Patch common(const Triangle& upper, const Triangle& lower) {
  std::array<bool, 3> cuts{};  // most that are near lie beyond an edge, and of those that do not most lie within two
  for (std::size_t i = 0; i < 3; ++i) {
    const gp_Pnt &a = lower.corner[i], &b = lower.corner[(i + 1) % 3];
    bool beyond = true;
    for (const gp_Pnt& p : upper.corner) {
      const double within = left_of(a, b, p.X(), p.Y());
      beyond = beyond && within < nothing_mm2;
      cuts[i] = cuts[i] || within < 0;
    }
    if (beyond) return {};
  }
  if (lies_beyond_an_edge(lower, upper)) return {};
  Patch polygon;
  for (const gp_Pnt& p : upper.corner) polygon.push_back({p.X(), p.Y(), p.Z() - height(lower, p.X(), p.Y())});
  for (std::size_t i = 0; i < 3; ++i) {
    if (!cuts[i]) continue;
    const gp_Pnt &a = lower.corner[i], &b = lower.corner[(i + 1) % 3];
    polygon = keep(polygon, [&](const Spot& s) { return left_of(a, b, s.x, s.y); });
  }
  return polygon;
}

Integral integrate(const Patch& p) {
  Integral sum;
  for (std::size_t i = 1; i + 1 < p.size(); ++i) {
    const double a = ((p[i].x - p[0].x) * (p[i + 1].y - p[0].y) - (p[i + 1].x - p[0].x) * (p[i].y - p[0].y)) / 2;
    sum.area += a;
    sum.volume += a * (p[0].open + p[i].open + p[i + 1].open) / 3;
  }
  return sum;
}

}  // namespace fallwright::measure
