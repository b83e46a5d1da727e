#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "measure/columns.hpp"
#include "measure/fence.hpp"
#include "measure/sides.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using brep::Box;
using Numbers = std::vector<std::size_t>;

bool lies_in_ring(const View::Face& face, const brep::Ring& ring) {
  const auto round = [&](double least, double most, auto at) {
    const auto [low, high] =
        std::minmax_element(ring.begin(), ring.end(), [&](const gp_Pnt& a, const gp_Pnt& b) { return at(a) < at(b); });
    return at(*low) <= least + units::tolerance::weld_mm && at(*high) >= most - units::tolerance::weld_mm;
  };
  const Box& box = face.box();
  if (!round(box[0], box[3], [](const gp_Pnt& p) { return p.X(); })) return false;
  if (!round(box[1], box[4], [](const gp_Pnt& p) { return p.Y(); })) return false;
  const Fence fence{ring};
  return std::all_of(face.rings().begin(), face.rings().end(), [&](const brep::Ring& own) { return fence.holds(own); });
}

/// Whether a face lies in a hole of another, as seen from above.
bool lies_in_a_hole(const View::Face& face, const View::Face& other) {
  if (!other.flat || other.flat->rings.size() < 2) return false;
  const std::size_t outline = brep::outer_ring(*other.flat);
  for (std::size_t i = 0; i < other.flat->rings.size(); ++i)
    if (i != outline && lies_in_ring(face, other.flat->rings[i])) return true;
  return false;
}

/// Whether one may lie over the other.
bool may_meet_in_plan(const View::Face& one, const View::Face& other) {
  const Box &a = one.box(), &b = other.box();
  if (a[0] >= b[3] || b[0] >= a[3] || a[1] >= b[4] || b[1] >= a[4]) return false;
  return !lies_in_a_hole(one, other) && !lies_in_a_hole(other, one);
}

/// How far all of the other solid that may lie over or under a face lies above it, for each face of both.
struct Below {
  std::vector<double> a, b;
};

Below below(const View& a, const View& b) {
  constexpr double far = std::numeric_limits<double>::max();
  Below by{std::vector<double>(a.faces().size(), far), std::vector<double>(b.faces().size(), far)};
  for (std::size_t i = 0; i < by.a.size(); ++i)
    for (std::size_t k = 0; k < by.b.size(); ++k) {
      const View::Face &one = a.faces()[i], &other = b.faces()[k];
      if (!may_meet_in_plan(one, other)) continue;
      by.a[i] = std::min(by.a[i], other.box()[2] - one.box()[5]);
      by.b[k] = std::min(by.b[k], one.box()[2] - other.box()[5]);
    }
  return by;
}

/// Those that do not lie so far below the other solid.
Numbers not_below(const std::vector<double>& by, double mm) {
  Numbers left;
  for (std::size_t i = 0; i < by.size(); ++i)
    if (by[i] < mm) left.push_back(i);
  return left;
}

/// The faces of both that have to be looked at.
struct Left {
  Numbers a, b;
};

/// Two that touch in one level may lie over each other: there the faces of one of the two alone are left out, of that
/// which leaves less to do.
Left left_of(const Below& by) {
  constexpr double rounding_mm = 1e-9, touches = -rounding_mm, clear = 2 * rounding_mm;
  Left one{not_below(by.a, touches), not_below(by.b, clear)}, other{not_below(by.a, clear), not_below(by.b, touches)};
  return one.a.size() * one.b.size() < other.a.size() * other.b.size() ? one : other;
}

struct Tops {
  std::vector<Triangle> up, down;
};

Tops triangles_of(const View& view, const Numbers& faces) {
  Tops tops;
  for (const std::size_t face : faces) {
    const Sides& sides = view.of(face);
    tops.up.insert(tops.up.end(), sides.up.begin(), sides.up.end());
    tops.down.insert(tops.down.end(), sides.down.begin(), sides.down.end());
  }
  return tops;
}

/// The volume under the lower of two planes where both are, above a level.
double under_both(const Triangle& a, const Triangle& b, double level) {
  Patch polygon = common(a, b);
  if (polygon.size() < 3) return 0;
  // Under b's plane, less what of it rises above a's.
  const double above = integrate(keep(polygon, [](const Spot& s) { return -s.open; })).volume;
  for (Spot& s : polygon) s.open = height(b, s.x, s.y) - level;
  return integrate(polygon).volume + above;
}

}  // namespace

/// Along a plumb line a solid is what lies under its tops less what lies under its undersides, so what two share is the
/// sum, with these signs, of what lies under both of two faces. Whatever level one counts from, it drops out. Of a face
/// that has all of the other solid above it the sum is nothing: what lies under it counts as often for the other's tops
/// as against it for its undersides. Two such faces, one of each solid, never lie over each other, so all of them are
/// left out at once, and where a solid stands on another nothing need be cut.
double overlap_mm3(const View& a, const View& b) {
  const Left left = left_of(below(a, b));
  if (left.a.empty() || left.b.empty()) return 0;
  const double level = a.faces()[left.a.front()].box()[2];
  const Tops upper = triangles_of(a, left.a), lower = triangles_of(b, left.b);
  const Columns<Triangle> ups{lower.up}, downs{lower.down};
  const auto under = [&](const Triangle& t) {
    double sum = 0;
    ups.near(t, [&](const Triangle& o) { sum += under_both(t, o, level); });
    downs.near(t, [&](const Triangle& o) { sum -= under_both(t, o, level); });
    return sum;
  };
  double sum = 0;
  for (const Triangle& t : upper.up) sum += under(t);
  for (const Triangle& t : upper.down) sum -= under(t);
  return sum;
}

}  // namespace fallwright::measure
