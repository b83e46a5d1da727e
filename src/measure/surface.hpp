/// Heights of a solid over plan, and how far it reaches within a box: read off its planar faces. Inside `measure` only.
#pragma once

#include <limits>
#include <optional>
#include <utility>
#include <vector>

#include <TopoDS_Shape.hxx>
#include <gp_Dir.hxx>
#include <gp_Pnt.hxx>

#include "survey/floor.hpp"

namespace fallwright::measure {

/// The faces of a solid that look up (or down), as a height over plan.
class Surface {
 public:
  Surface(const TopoDS_Shape& solid, bool up);

  /// The highest (looking up) or lowest face over a point; nothing where there is none.
  std::optional<double> at(double x, double y) const;
  /// The same, and where there is none the plane of the nearest face: a floor goes on over its bore.
  double carried_on(double x, double y) const;
  /// Least and greatest height over a line along x (at y = `line`) or along y, between two places on it: on planes both
  /// lie where the line crosses an edge.
  std::pair<double, double> range_along(bool along_x, double line, double from, double to) const;
  /// Corners over a rectangle: the faces' own, and those where its outline cuts them.
  std::vector<survey::Spot> corners(const survey::Rect& over) const;

 private:
  struct Face {
    std::vector<survey::Point> outline;
    std::vector<std::vector<survey::Point>> holes;
    survey::HeightPlane plane;
    bool holds(double x, double y) const;
    double away(double x, double y) const;
  };
  bool up_;
  std::vector<Face> faces_;
};

/// A box; open to any side.
struct Box3 {
  double low[3] = {std::numeric_limits<double>::lowest(), std::numeric_limits<double>::lowest(),
                   std::numeric_limits<double>::lowest()};
  double high[3] = {std::numeric_limits<double>::max(), std::numeric_limits<double>::max(),
                    std::numeric_limits<double>::max()};
};

/// The outlines of a solid's planar faces, in space; arcs in chords.
std::vector<std::vector<gp_Pnt>> outlines_of(const TopoDS_Shape& solid);

/// How far such outlines reach along `way` within a box; nothing when none of them comes into it. Exact for faces with
/// straight edges.
std::optional<double> reach(const std::vector<std::vector<gp_Pnt>>& outlines, const gp_Dir& way, const Box3& within);

}  // namespace fallwright::measure
