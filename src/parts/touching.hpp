/// Circles about the drain, which cross what they are cut out of, or miss it, but never merely touch it. Inside `parts`
/// only.
#pragma once

#include <vector>

#include "brep/plan.hpp"
#include "job/layout.hpp"

namespace fallwright::parts {

/// A circle that comes nearer than this to a side or a corner that it does not cross is drawn past it: where they
/// merely touch, cusps would be left that no solid can hold.
constexpr double hair_mm = 0.01;

/// Adds the distances from a point at which a circle about it touches a polygon's sides (within them) or goes through
/// its corners.
void add_touching(const brep::Polygon& polygon, brep::PlanPoint centre, std::vector<double>& radii);

/// The least radius from `radius` on that touches nothing, by a hair.
double clear_of(double radius, std::vector<double> touching);

/// Adds those of the measured floor's cells over a convex `window`, about the drain.
void add_floor(const job::Layout& layout, const survey::Polygon& window, std::vector<double>& radii);

/// The least radius from `radius` on that touches none of them, by a hair.
double clear_of_floor(double radius, const job::Layout& layout, const survey::Polygon& window);

/// Adds those of loops that may hold arcs. What runs round the centre itself is no matter of touching: a circle as wide
/// as that is one with it. So arcs about the centre, and their ends, go into `own`.
void add_touching(const std::vector<brep::Loop>& loops, brep::PlanPoint centre, std::vector<double>& radii,
                  std::vector<double>& own);

/// The least radius from `radius` on that touches nothing, where some circles about the centre are there already: one
/// of these where it comes so near, and touches nothing itself.
double clear_of(double radius, std::vector<double> touching, const std::vector<double>& own);

brep::Polygon to_brep(const survey::Polygon& polygon);

}  // namespace fallwright::parts
