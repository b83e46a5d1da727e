/// Solids as triangles. Inside `exchange` only.
#pragma once

#include <array>
#include <vector>

#include <gp_Pnt.hxx>

#include "parts/model.hpp"

namespace fallwright::exchange {

using Triangle = std::array<gp_Pnt, 3>;  ///< in the alcove, counter-clockwise from outside

/// Meshes a solid's shape once; edges that faces share get one row of points, so the mesh is watertight.
void mesh(const parts::Solid& solid);
std::vector<Triangle> triangles_of(const parts::Solid& solid);

}  // namespace fallwright::exchange
