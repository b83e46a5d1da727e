/// The pieces of the model, one function each; `build` puts them together. Inside `parts` only.
#pragma once

#include <optional>
#include <vector>

#include "brep/relief.hpp"
#include "job/layout.hpp"
#include "parts/model.hpp"
#include "parts/stick.hpp"

namespace fallwright::parts {

inline brep::Plane to_plane(const job::HeightPlane& p) {
  return {p.z0, p.gx, p.gy};
}
inline brep::Loop to_loop(const job::Rect& r) {
  return {{{r.x0, r.y0}}, {{r.x1, r.y0}}, {{r.x1, r.y1}}, {{r.x0, r.y1}}};
}
/// Of a convex polygon.
inline brep::Loop to_loop(const survey::Polygon& polygon) {
  brep::Loop loop;
  for (const survey::Point& p : polygon) loop.push_back({{p.x, p.y}});
  return loop;
}

/// The measured floor over a convex `window`, raised by `raised_mm`; less a circle about the drain where
/// `hole_radius_mm` is above zero.
brep::Relief floor_relief(const job::Layout& layout, const survey::Polygon& window, double raised_mm,
                          double hole_radius_mm = 0);

/// The floor's trimmed facets, without the drain's opening.
brep::Relief floor_facets(const job::Job& job, const job::Layout& layout);

/// The opening's outline, counter-clockwise.
brep::Loop opening_loop(const job::Job& job, const job::Layout& layout);

/// The hole that the bed keeps clear round the drain.
double bed_hole_radius_mm(const job::Job& job, const job::Layout& layout);

/// The base's underside over a convex `window`, down to the rib plane where nothing hollows it out. `hole` (a circle's
/// radius about the drain) is no part of it.
brep::Relief underside(const job::Job& job, const job::Layout& layout, const survey::Polygon& window,
                       double hole_radius_mm);

/// A base that came as a file, where it lies; its underside there; and what of its underside lies above the rib plane,
/// over a convex `window` without the hole. @pre there is a body.
brep::Slab slab_of_body(const job::Job& job, const job::Layout& layout);
brep::Relief underside_of_body(const job::Job& job, const job::Layout& layout);
brep::Relief hollows_of_body(const job::Job& job, const job::Layout& layout, const survey::Polygon& window,
                             double hole_radius_mm);

Solid make_base(const job::Job& job, const job::Layout& layout);
Solid make_drain(const job::Job& job, const job::Layout& layout);
Solid make_bed(const job::Job& job, const job::Layout& layout);

/// The bed before the base goes in: from the subfloor to a level line. With no gauge depth in the job, the least line
/// on the tape at which its volume is not below that of the bed as set.
Solid make_spread(const job::Job& job, const job::Layout& layout, const Solid& bed);

/// Where everything stands once pieces are cut: as laid out, but with the bench on its studs.
job::Layout lay_out_as_cut(const job::Job& job);

std::vector<Solid> make_subfloor(const job::Job& job, const job::Layout& layout);
std::vector<Solid> make_walls(const job::Job& job, const job::Layout& layout, Sticks& sticks);
std::vector<Solid> make_bench_frame(const job::Job& job, const job::Layout& layout, Sticks& sticks);
Solid make_seat_block(const job::Job& job, const job::Layout& layout);

/// From the bench's own frame (u along it, v from its wall to the front) into the alcove.
gp_Trsf bench_to_alcove(const job::Job& job, const job::Layout& layout);

/// Puts a solid and the faces it names somewhere else.
void move(Solid& solid, const gp_Trsf& trsf);

/// A solid from a slab: its named faces "surface/facet" become facets.
Solid to_solid(const PartId& part, const std::string& material, double density, const brep::Slab& slab);

/// Positions of `thickness` wide members over a length: at both ends and evenly between, no further apart than
/// `spacing` centre to centre.
std::vector<double> spread_evenly(double length, double thickness, double spacing);

}  // namespace fallwright::parts
