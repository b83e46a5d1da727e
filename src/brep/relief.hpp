/// The one idea behind every solid that is not a stick: it is the space between two reliefs over one plan.
///
/// A relief is a plan divided into regions, each carrying one plane (level or falling), with upright steps where
/// neighbours differ. The topology is known beforehand, so vertices, edges and faces are made directly, shared where
/// they meet, at a cost that grows with the number of regions; no Boolean operation is involved. Two solids made over
/// the same relief meet in exactly the same surface. Places and heights are millimetres.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <TopoDS_Face.hxx>
#include <TopoDS_Solid.hxx>
#include <gp_Pnt.hxx>
#include <gp_Vec.hxx>

namespace fallwright::brep {

struct PlanPoint {
  double x = 0, y = 0;
};

/// Corner of a loop; the edge to the next corner is straight, or an arc of the circle about `centre`.
struct Corner {
  PlanPoint at;
  std::optional<PlanPoint> centre = {};
  bool clockwise = false;  ///< the arc's sense, seen from above
};

/// Closed; outer loops run counter-clockwise, holes clockwise (`outline` and `hole` see to it).
using Loop = std::vector<Corner>;

/// Height over plan: z = z0 + gx x + gy y; gx and gy are ratios.
struct Plane {
  double z0 = 0, gx = 0, gy = 0;
  double at(PlanPoint p) const { return z0 + gx * p.x + gy * p.y; }
};
/// @pre `normal` is not level.
inline Plane plane_at(const gp_Pnt& on, const gp_Vec& normal) {
  const double gx = -normal.X() / normal.Z(), gy = -normal.Y() / normal.Z();
  return {on.Z() - gx * on.X() - gy * on.Y(), gx, gy};
}

/// Part of a relief under one plane: its outer loop first, then its holes. `name` comes back with its face.
struct Region {
  std::vector<Loop> loops;
  Plane plane;
  std::string name = {};
};

using Relief = std::vector<Region>;

/// The face that a named region became.
struct NamedFace {
  std::string name;
  TopoDS_Face face;
};

struct Slab {
  TopoDS_Solid solid;
  std::vector<NamedFace> upper;  ///< faces of the upper relief's named regions
};

/// The closed solid between `upper` and `lower`, faces outward, all curves exact (lines, circles, ellipses).
/// @pre both reliefs cover the same plan, and `upper` lies above `lower` everywhere on it.
/// @throws diag::ModelError naming `part` when they do not.
Slab between(const Relief& upper, const Relief& lower, const std::string& part);

/// What is left of the plan `outline` (outer loops, then holes) beside `regions`, as regions of one plane: one for each
/// connected piece.
/// @pre the regions lie within the outline and do not overlap; they may touch each other and it along edges.
Relief ground(const std::vector<Loop>& outline, const Relief& regions, const Plane& plane,
              const std::string& name = {});

}  // namespace fallwright::brep
