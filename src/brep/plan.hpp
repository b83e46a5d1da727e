/// Small shapes in plan and the two cuts that reliefs need: by a straight line, and by a disc.
#pragma once

#include <vector>

#include "brep/relief.hpp"

namespace fallwright::brep {

/// Counter-clockwise rectangle, and counter-clockwise circle as two arcs. As holes: `reversed`.
Loop rectangle(double x0, double y0, double x1, double y1);
Loop circle(PlanPoint centre, double radius);
Loop reversed(const Loop& loop);

/// Signed area, arcs included; positive when counter-clockwise.
double area(const Loop& loop);
/// The integrals of x and y over that area, arcs included; over the area they are its centre.
PlanPoint moment(const Loop& loop);

/// A convex polygon with straight edges.
using Polygon = std::vector<PlanPoint>;
Loop to_loop(const Polygon& polygon);

/// The part of `polygon` where a x + b y + c >= 0. Exact for points on the line; empty when nothing with an area is
/// left.
Polygon clip(const Polygon& polygon, double a, double b, double c);

/// The part of loops (outer, then holes; arcs allowed) where a x + b y + c >= 0: each entry is one region's loops.
std::vector<std::vector<Loop>> clip(const std::vector<Loop>& loops, double a, double b, double c);

/// What is left of loops (outer, then holes; arcs allowed) outside a disc: nothing, the same, or pieces with arcs.
/// Each entry is one region's loops.
std::vector<std::vector<Loop>> outside_disc(const std::vector<Loop>& loops, PlanPoint centre, double radius);

/// Whether a point lies inside a loop, arcs included; points on it may fall either way.
bool inside(const Loop& loop, PlanPoint point);

/// Sorts loops into regions: every counter-clockwise loop with the clockwise loops that lie in it.
std::vector<std::vector<Loop>> gather(std::vector<Loop> loops);

}  // namespace fallwright::brep
