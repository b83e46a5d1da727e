/// What stands left and right of the base as it is let down. Inside `measure` only.
#pragma once

#include <optional>
#include <vector>

#include <gp_Pnt.hxx>

#include "measure/measure.hpp"

namespace fallwright::measure {

/// Faces of walls and bench frame over a stretch of the room's depth, by their edges.
class Flanks {
 public:
  /// @param beyond_mm how far before and behind the base they are looked at as well
  Flanks(const parts::Model& model, double beyond_mm);

  /// At one height.
  Faces at(double z) const;
  /// Every height from `low` to `high` at which an edge begins or ends, and both. Between two of them left and right
  /// are reached by straight edges alone, so that the free width is nowhere less than at one of the two.
  std::vector<double> heights(double low, double high) const;

 private:
  struct Edge {
    gp_Pnt a, b;
    bool of_bench;
  };
  void take(const std::vector<std::vector<gp_Pnt>>& outlines, bool of_bench, double from_y, double to_y);

  double middle_;
  std::vector<Edge> left_, right_;
};

/// Free width between faces; nothing where there are none on one side.
std::optional<double> width_between(const Faces& faces);

/// The heights over which the base is let down.
std::pair<double, double> way_down(const parts::Model& model, const facts::Heights& heights);

}  // namespace fallwright::measure
