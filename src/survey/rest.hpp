/// How a stiff plate lies on an uneven floor.
#pragma once

#include <vector>

#include "survey/floor.hpp"

namespace fallwright::survey {

/// The plane of a stiff plate put down on spots: it stands on the three whose triangle is highest over the plate's
/// middle. Where two such triangles share an edge through the middle the plate rocks about it, and the plane half way
/// between the two is given.
/// @pre the spots' outline holds the middle.
HeightPlane rest_on(const std::vector<Spot>& spots, Point middle);

/// The same over a convex part of a floor, about the middle of its bounding box.
HeightPlane rest_on(const Floor& floor, const Polygon& plate);

}  // namespace fallwright::survey
