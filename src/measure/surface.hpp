/// Heights of a solid over plan, and how far it reaches within a box: read off its planar faces. Inside `measure` only.
#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <utility>
#include <vector>

#include <gp_Dir.hxx>
#include <gp_Pnt.hxx>

#include "brep/skin.hpp"
#include "measure/shapes.hpp"
#include "survey/floor.hpp"

namespace fallwright::parts {
struct Solid;
}

namespace fallwright::measure {

/// The faces of a solid that look up (or down), as a height over plan.
class Surface {
 public:
  Surface(const parts::Solid& solid, bool up);

  /// The highest (looking up) or lowest face over a point; nothing where there is none.
  std::optional<double> at(double x, double y) const;
  /// The same, and where there is none the plane of the nearest face: a floor goes on over its bore.
  double carried_on(double x, double y) const;
  /// Least and greatest height over a line along x (at y = `line`) or along y, between two places on it: on planes both
  /// lie where the line crosses an edge.
  std::pair<double, double> range_along(bool along_x, double line, double from, double to) const;
  /// Corners over a convex part of the plan: the faces' own, and those where its outline cuts them.
  std::vector<survey::Spot> corners(const survey::Polygon& over) const;

 private:
  struct Face {
    std::vector<survey::Point> outline;
    std::vector<std::vector<survey::Point>> holes;
    survey::HeightPlane plane;
    survey::Rect box;
    bool holds(double x, double y) const;
    double away2(double x, double y) const;     ///< to the nearest edge, squared
    double off_box2(double x, double y) const;  ///< out of its box, squared
  };
  /// Over the plan, about one cell for each face: which faces a point in it may lie on.
  struct Grid {
    survey::Rect over;
    std::size_t across = 1;
    std::vector<std::vector<std::size_t>> cells = std::vector<std::vector<std::size_t>>(1);
    std::size_t at(double along, double from, double to) const;  ///< number of the strip, outermost ones included
    const std::vector<std::size_t>& cell(double x, double y) const;
  };
  void make_grid();

  bool up_;
  std::vector<Face> faces_;
  Grid grid_;
};

/// A box; open to any side.
struct Box3 {
  double low[3] = {std::numeric_limits<double>::lowest(), std::numeric_limits<double>::lowest(),
                   std::numeric_limits<double>::lowest()};
  double high[3] = {std::numeric_limits<double>::max(), std::numeric_limits<double>::max(),
                    std::numeric_limits<double>::max()};
};

/// The outlines of a solid's planar faces, in space; arcs in chords.
std::vector<std::vector<gp_Pnt>> outlines_of(const brep::Skin& solid);

/// What of an outline lies between two levels of an axis, 1 to 3; most lie wholly beyond one of them or between both.
std::vector<gp_Pnt> between(std::vector<gp_Pnt> outline, int axis, double low, double high);

/// Corners of what of such outlines lies within a box. Exact for faces with straight edges.
std::vector<gp_Pnt> points_within(const std::vector<std::vector<gp_Pnt>>& outlines, const Box3& within);

/// How far such outlines reach along `way` within a box; nothing when none of them comes into it.
std::optional<double> reach(const std::vector<std::vector<gp_Pnt>>& outlines, const gp_Dir& way, const Box3& within);

}  // namespace fallwright::measure
