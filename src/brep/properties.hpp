/// What can be read off one shape: size, mass properties, validity.
#pragma once

#include <array>

#include <TopoDS_Shape.hxx>
#include <gp_Pnt.hxx>

namespace fallwright::brep {

struct Properties {
  double volume_mm3 = 0;  ///< signed: negative when the faces point inward
  double area_mm2 = 0;
  gp_Pnt centroid;
};

/// Exact for planar faces (integrated over the faces, not over a mesh); round faces to about 1e-10 of their size.
Properties properties(const TopoDS_Shape& shape);
double volume_mm3(const TopoDS_Shape& shape);
double area_mm2(const TopoDS_Shape& shape);

/// xmin ymin zmin xmax ymax zmax, tight: the kernel's tolerance is not added.
std::array<double, 6> box_of(const TopoDS_Shape& shape);

/// Whether a solid is valid in the kernel's own eyes.
bool is_valid(const TopoDS_Shape& solid);

/// Whether it is closed and outward as well.
bool is_sound(const TopoDS_Shape& solid);

}  // namespace fallwright::brep
