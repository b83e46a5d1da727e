/// The faces of a solid as two reliefs over the plan. Inside `intake` only.
#pragma once

#include <array>
#include <cstddef>

#include <TopoDS_Solid.hxx>

#include "brep/relief.hpp"

namespace fallwright::intake {

/// The file's axes that become +X and +Y and +Z, each as a unit vector.
struct Frame {
  std::array<int, 3> x, y, z;
};

/// The name of regions that are triangles of a curved face.
inline constexpr const char* of_a_mesh = "mesh";

struct Reliefs {
  brep::Relief top, underside;  ///< faces that look up and down; upright ones are what lies between them
  std::size_t triangles = 0;    ///< that stand for faces which are no planes
  double meshed_mm2 = 0;        ///< the area of these
};

/// What the solid's faces enclose, in mm3: by the divergence theorem, face by face.
double enclosed_mm3(const TopoDS_Solid& solid);

/// @throws job::NoBody when meshing takes more triangles than are taken.
Reliefs reliefs_of(const TopoDS_Solid& solid, const Frame& frame);

}  // namespace fallwright::intake
