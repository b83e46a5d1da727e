/// What can be read off one shape: size, mass properties, validity.
#pragma once

#include <array>
#include <cstddef>
#include <set>

#include <TopoDS_Face.hxx>
#include <TopoDS_Shape.hxx>
#include <gp_Mat.hxx>
#include <gp_Pnt.hxx>

namespace fallwright::brep {

struct Flat;
struct Skin;

struct Properties {
  double volume_mm3 = 0;  ///< signed: negative when the faces point inward
  double area_mm2 = 0;
  gp_Pnt centroid;
};

/// Exact for planar faces (integrated over the faces, not over a mesh); round faces to about 1e-10 of their size.
Properties properties(const TopoDS_Shape& shape);
/// The same of a solid whose skin is known.
Properties properties(const Skin& skin);
double volume_mm3(const TopoDS_Shape& shape);
double area_mm2(const TopoDS_Shape& shape);
double area_mm2(const Flat& flat);

/// Of a flat face, whose arcs count for their chords: its area, its middle, and the moments of inertia about that.
struct PlaneProperties {
  double area_mm2 = 0;
  gp_Pnt centroid;
  gp_Mat inertia_mm4;
};
PlaneProperties plane_properties(const Flat& flat);

/// xmin ymin zmin xmax ymax zmax, tight: the kernel's tolerance is not added.
std::array<double, 6> box_of(const TopoDS_Shape& shape);

/// Whether a solid is closed, valid and outward, in a time that grows with its edges: every edge parts two faces that
/// run along it in opposite senses, edges end at their corners, and on every face rings neither cross nor touch along a
/// stretch, holes lie inside. Where a curve leaves it open the kernel is asked about that face.
bool is_sound(const TopoDS_Shape& solid);
/// The same where its skin, wherever it stands, and its volume are known.
bool is_sound(const TopoDS_Shape& solid, const Skin& skin, double volume_mm3);

/// The same in the kernel's own eyes: for tests, and for those who want its word.
bool is_sound_to_kernel(const TopoDS_Shape& solid);
bool is_valid_to_kernel(const TopoDS_Shape& solid);
bool is_valid_face_to_kernel(const TopoDS_Face& face);
/// A face with its outer ring and some of its holes, told by their place among its rings.
bool is_valid_to_kernel(const TopoDS_Face& face, const std::set<std::size_t>& rings);

}  // namespace fallwright::brep
