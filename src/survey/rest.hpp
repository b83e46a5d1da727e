/// How a stiff plate lies on an uneven floor.
#pragma once

#include <vector>

#include "survey/floor.hpp"

namespace fallwright::survey {

/// The planes in which a stiff plate can come to lie on spots: one, or the two between which it rocks. It stands on the
/// three spots whose triangle is highest over its middle; where two such triangles share an edge through the middle, it
/// rocks about that edge.
/// @pre the spots' outline holds the middle.
std::vector<HeightPlane> stands_on(const std::vector<Spot>& spots, Point middle);

/// The one such plane, or the mean of all: half way through the rocking.
HeightPlane rest_on(const std::vector<Spot>& spots, Point middle);

/// The same over a convex part of a floor, about the middle of its bounding box.
HeightPlane rest_on(const Floor& floor, const Polygon& plate);

}  // namespace fallwright::survey
