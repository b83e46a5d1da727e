/// How one solid lies on another, and how thick it is below its top. Inside `measure` only.
#pragma once

#include <vector>

#include <gp_Pnt.hxx>

namespace fallwright::measure {

struct Sides;
class View;

/// A convex piece of a plane, by its corners.
using Plate = std::vector<gp_Pnt>;

/// How the underside of one solid meets the top of another below it.
struct Mating {
  double contact_mm2 = 0;  ///< in plan, where both are one
  double overlap_mm3 = 0;  ///< the upper one reaches into the lower
  double void_mm3 = 0;     ///< open space between them, over their common plan
  std::vector<Plate> contact;
};
Mating mate(const View& upper, const Sides& lower);

/// Plumb depth of a solid under a point of its top: at every corner of the pieces that its top and its underside cut
/// out of each other. Between them depth runs evenly, so least and greatest are among them.
struct Depth {
  gp_Pnt top;
  double mm = 0;
};
std::vector<Depth> depths(const Sides& solid);
/// The same under given pieces of the top.
std::vector<Depth> depths(const std::vector<Plate>& tops, const Sides& solid);

}  // namespace fallwright::measure
