/// A solid seen from above and from below: its faces in triangles over the plan, and what two such views have in
/// common. Inside `measure` only.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include <boost/container/small_vector.hpp>

#include <gp_Pnt.hxx>
#include <gp_XYZ.hxx>

#include "brep/skin.hpp"

namespace fallwright::measure {

/// A triangle over the plan, with the plane it lies in.
struct Triangle {
  std::array<gp_Pnt, 3> corner;  ///< counter-clockwise from above
  double x0, y0, x1, y1;
  gp_XYZ across;  ///< of the plane
};
bool same(const brep::About& a, const brep::About& b);
Triangle to_triangle(std::array<gp_Pnt, 3> corner);

double twice_plan_mm2(const Triangle& t);
/// Height of its plane over a point.
double height(const Triangle& t, double x, double y);

/// A chord that stands for a piece of an arc round an upright axis, as seen from above.
struct Chord {
  gp_Pnt from, to;
  brep::About about;
};

struct Sides {
  std::vector<Triangle> up, down;
  std::vector<Chord> chords = {};  ///< of the faces that are among them
};

/// The faces of a solid that are not upright, each in triangles once it is asked for, round ones by the kernel's mesh.
/// Exact for straight edges; an arc's chord error touches only the plan of a flat face, never its height, and `mate`
/// makes it good.
class View {
 public:
  struct Face {
    const brep::Flat* flat = nullptr;  ///< else it is round
    const brep::Round* round = nullptr;
    const brep::Box& box() const { return flat ? flat->box : round->box; }
    const std::vector<brep::Ring>& rings() const { return flat ? flat->rings : round->rings; }
  };

  /// @pre the skin outlives it.
  explicit View(const brep::Skin& skin);

  /// Flat ones first.
  const std::vector<Face>& faces() const { return faces_; }
  /// A flat one that is not steep.
  bool bears(std::size_t face) const;
  /// A face's triangles alone; a flat one has either tops or undersides.
  const Sides& of(std::size_t face) const;

 private:
  std::vector<Face> faces_;
  mutable std::vector<std::optional<Sides>> known_;
};
/// The sides with which solids lie on each other: flat faces that are not steep.
Sides sides_that_bear(const View& view);
/// To others those of a flat face: neighbours in its rings that both lie on one of its arcs, no farther apart than
/// chords are.
void add_chords(std::vector<Chord>& chords, const brep::Flat& flat);

/// A corner of what two triangles have in common, with the open height from the lower plane up to the upper one.
struct Spot {
  double x, y, open;
};
/// Three corners, one more for each edge and plane that cuts it: few of millions need more room than that.
using Patch = boost::container::small_vector<Spot, 8>;

/// What lies under both in plan; nothing where they only touch.
Patch common(const Triangle& upper, const Triangle& lower);

/// The part of a polygon where `side`, which runs evenly over it, is not negative.
template <class Side>
Patch keep(const Patch& polygon, const Side& side) {
  Patch kept;
  if (polygon.empty()) return kept;
  const double first = side(polygon.front());
  double at_p = first;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const bool last = i + 1 == polygon.size();
    const Spot &p = polygon[i], &q = polygon[last ? 0 : i + 1];
    const double at_q = last ? first : side(q);
    if (at_p >= 0) kept.push_back(p);
    if ((at_p < 0) != (at_q < 0)) {
      const double t = at_p / (at_p - at_q);
      kept.push_back({p.x + t * (q.x - p.x), p.y + t * (q.y - p.y), p.open + t * (q.open - p.open)});
    }
    at_p = at_q;
  }
  return kept;
}

/// Its area and the integral of its open height.
struct Integral {
  double area = 0, volume = 0;
};
Integral integrate(const Patch& polygon);

/// The volume that two solids share; where a round face bounds it as exact as that face's mesh.
double overlap_mm3(const View& a, const View& b);

}  // namespace fallwright::measure
