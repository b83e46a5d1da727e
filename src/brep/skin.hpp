/// A solid as plain numbers, taken from the kernel's shape once: what distances, overlaps and depths are measured on.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <mutex>
#include <optional>
#include <vector>

#include <TopLoc_Location.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Shape.hxx>
#include <gp_Dir.hxx>
#include <gp_Pnt.hxx>
#include <gp_XYZ.hxx>

namespace fallwright::brep {

/// xmin ymin zmin xmax ymax zmax
using Box = std::array<double, 6>;

/// How far apart two boxes are; zero where they meet.
inline double apart(const Box& a, const Box& b) {
  double sum = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    const double gap = std::max(0.0, std::max(a[i] - b[i + 3], b[i] - a[i + 3]));
    sum += gap * gap;
  }
  return sum > 0 ? std::sqrt(sum) : 0;
}

/// Corners in order, outer loops counter-clockwise and holes clockwise for an eye that the face looks at. A curved edge
/// shows as chords whose ends lie on it, no farther from it than `tolerance::mesh_mm`.
using Ring = std::vector<gp_Pnt>;

/// The upright axis that an arc or a cylinder runs round: seen from above a part of a circle.
struct About {
  double x = 0, y = 0, radius = 0;
};

/// What of a curve lies over one of its chords.
struct Piece {
  gp_Pnt from, to;
  Box box;
};

/// A curved edge.
struct Curve {
  Box box;
  std::optional<About> about = {};
  std::vector<Piece> pieces = {};  ///< none of a curve that is not round in plan
  gp_XYZ across = {};              ///< of the plane in which it lies
};

/// A triangle, corners counter-clockwise for an eye that its face looks at.
using Facet3 = std::array<gp_Pnt, 3>;

/// A face in triangles: worked out for whoever asks first, and shared by all copies of the face.
struct Triangles {
  std::once_flag once;
  std::vector<Facet3> all;
};

/// A planar face.
struct Flat {
  TopoDS_Face face;
  gp_Dir normal;            ///< outward
  std::vector<Ring> rings;  ///< in the kernel's order: the outer one need not be the first
  std::vector<Curve> curves;
  Box box;
  std::shared_ptr<Triangles> triangles = std::make_shared<Triangles>();
  bool straight() const { return curves.empty(); }
};

/// A face that is no plane.
struct Round {
  TopoDS_Face face;
  std::vector<Ring> rings;
  std::vector<Curve> curves;
  Box box;
  std::optional<About> about = {};  ///< a cylinder that stands
  std::shared_ptr<Triangles> triangles = std::make_shared<Triangles>();
};

/// Corners of a shape, each once, and its box, tight: edges are met once. Where a surface or a curve is of a kind whose
/// reach its edges do not tell, the kernel tells the box.
struct Extent {
  std::vector<gp_Pnt> corners;
  Box box{};
};

struct Skin {
  std::vector<Flat> flats;
  std::vector<Round> rounds;
  Box box{};  ///< round its faces' own, whose curves may be told to reach a little too far
  Extent extent = {};
  bool closed = false;  ///< every edge parts two faces that run along it in opposite senses, and ends at its corners
};
Extent extent_of(const TopoDS_Shape& shape);
/// The corners alone.
std::vector<gp_Pnt> corners_of(const TopoDS_Shape& shape);

/// Round an upright axis chords end at the same angles in every solid, so that faces that meet along an arc keep
/// meeting.
Skin skin_of(const TopoDS_Shape& solid);

/// The same of a solid that is drawn elsewhere, from the skin that it has where it is drawn; nothing where curves or
/// round faces bound it, or where it is a mirror image.
std::optional<Skin> moved(const Skin& drawn, const TopLoc_Location& place);

/// One face of it. @pre it is planar
Flat flat_of(const TopoDS_Face& face);

/// Which of its rings is its outline: holes run the other way round. @pre it has one
std::size_t outer_ring(const Flat& flat);

/// A flat face in triangles whose corners are those of its rings; where its chords cross by the kernel's mesh.
const std::vector<Facet3>& triangles_of(const Flat& flat);
const std::vector<Facet3>& triangles_of(Flat&& flat) = delete;  // they go with the face

/// A face that is no plane: of a cylinder likewise, any other by the kernel's mesh. Faces of a solid share the points
/// of the edges between them, so that its triangles close.
const std::vector<Facet3>& triangles_of(const Round& round);
const std::vector<Facet3>& triangles_of(Round&& round) = delete;

}  // namespace fallwright::brep
