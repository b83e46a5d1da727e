/// Solids as their STL files show them, and what triangles alone tell of them. No kernel, no parameters. Millimetres;
/// corners are as exact as single precision has them: to 2e-4 mm.
#pragma once

#include <array>
#include <functional>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace fallwright::properties {

struct Corner {
  double x = 0, y = 0, z = 0;
};
using Triangle = std::array<Corner, 3>;  ///< counter-clockwise from outside
using Mesh = std::vector<Triangle>;
using Meshes = std::map<std::string, Mesh>;  ///< by the solid's id
using Outline = std::vector<Corner>;         ///< convex, in plan

/// Reads a binary STL file.
Mesh read_stl(const std::string& path);

double volume_mm3(const Mesh& mesh);
Corner middle(const Mesh& mesh);                 ///< of the volume
std::array<double, 6> box_of(const Mesh& mesh);  ///< xmin ymin zmin xmax ymax zmax

/// z of the triangle's plane over a point; nothing may be asked of an upright one.
double height_at(const Triangle& t, double x, double y);
double plan_mm2(const Outline& outline);
double true_mm2(const Triangle& t);

/// Triangles that look up, or down; upright ones are in neither.
Mesh looking_up(const Mesh& mesh);
Mesh looking_down(const Mesh& mesh);

/// Where a level plane cuts the surface: pieces of its outline in plan.
std::vector<std::pair<Corner, Corner>> section(const Mesh& mesh, double z);

/// Highest point of the surface over a place in plan. @return whether there is any.
bool highest_at(const Mesh& mesh, double x, double y, double& z);

/// What two triangles have in common in plan.
Outline common(const Outline& a, const Outline& b);
/// Calls `with` for every two triangles that lie over each other, and what they have in common.
void for_each_pair(const Mesh& above, const Mesh& below,
                   const std::function<void(const Triangle& upper, const Triangle& lower, const Outline& both)>& with);

/// The mesh turned stiffly, so that level planes rise by `gx` along x and `gy` along y.
Mesh tilted(const Mesh& mesh, double gx, double gy);

/// Slope of steepest fall: rise over run of a triangle's plane.
double fall_of(const Triangle& t);

/// Free plan: the union of `floor` in plan, holes filled, less that of `over`.
struct FreePlan {
  double filled_mm2 = 0;  ///< before anything is taken away
  double area_mm2 = 0;
  double circle_mm = 0;  ///< diameter of the largest circle, to 0.05 mm, found by trying
};
FreePlan free_plan(const Mesh& floor, const Mesh& over);

}  // namespace fallwright::properties
