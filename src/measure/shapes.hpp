/// Corners, faces and cylinders of a solid, as the kernel has them. Inside `measure` only.
#pragma once

#include <limits>
#include <optional>
#include <vector>

#include <TopoDS_Face.hxx>
#include <TopoDS_Shape.hxx>
#include <gp_Cylinder.hxx>
#include <gp_Dir.hxx>
#include <gp_Pnt.hxx>

#include "facts/room.hpp"

namespace fallwright::parts {
struct Solid;
}

namespace fallwright::measure {

facts::Point to_point(const gp_Pnt& p);
/// Outward normal of a planar face; nothing for a curved one.
std::optional<gp_Dir> outward(const TopoDS_Face& face);
/// Distinct corner points.
std::vector<gp_Pnt> corners(const TopoDS_Shape& shape);
std::vector<TopoDS_Face> faces_of(const TopoDS_Shape& shape);

/// The widest upright cylinder among the faces of a solid that begin no higher than `below`.
std::optional<gp_Cylinder> widest_cylinder(const parts::Solid& solid,
                                           double below = std::numeric_limits<double>::max());

}  // namespace fallwright::measure
