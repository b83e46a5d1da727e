/// Bodies drawn in the kernel, and the STEP files that others would make of them.
#pragma once

#include <string>

#include <TopoDS_Shape.hxx>
#include <TopoDS_Solid.hxx>

namespace fallwright::bodies {

/// A tilted plate with a hole: `length` x `width` mm, its top falling from `back` high at the back edge to `front` high
/// at the front; the hole of `hole` across stands at (x, y) from the front left corner.
struct Plate {
  double length = 1000, width = 800, front = 40, back = 60, hole = 90, x = 300, y = 200;
  double volume() const;  ///< by closed formula
};
TopoDS_Solid solid_of(const Plate& plate);
/// The same with its four upright edges rounded.
TopoDS_Solid rounded(const Plate& plate, double radius);

/// The same with a top that is a cylinder's: lowest along its middle, so high there, and of so large a radius.
TopoDS_Solid trough(const Plate& plate, double radius);

/// A block so high as the plate's back, out of which round its hole a cone is cut, as wide as that at the plate's front
/// height and with that radius at the top.
TopoDS_Solid dish(const Plate& plate, double radius);

TopoDS_Shape turned(const TopoDS_Shape& shape, double about_x_degrees, double about_z_degrees = 0);
TopoDS_Shape mirrored_left_right(const TopoDS_Shape& shape);

/// As a STEP file in that unit: "MM", "CM", "M", "INCH", "FT". `laid`: it says where curves run on faces, as this
/// kernel writes and few others do.
std::string step_of(const TopoDS_Shape& shape, const char* unit = "MM", bool laid = true);

}  // namespace fallwright::bodies
