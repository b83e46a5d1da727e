/// What stands left and right of a way in, and what it leaves over. Inside `measure` only.
#pragma once

#include <vector>

#include <gp_Pnt.hxx>

#include "facts/facts.hpp"
#include "measure/measure.hpp"

namespace fallwright::measure {

class Framing;

/// Faces of walls, and of a bench frame, over a stretch of the room's depth, by their edges.
class Flanks {
 public:
  /// @param bench whether its frame stands to one side of the way
  Flanks(const Framing& framing, double from_y, double to_y, double middle_x, bool bench);

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

/// What a width leaves over; an exact fit, to rounding, is a fit with nothing to spare.
double to_spare(double width, double length);

/// Tipped about its short axis a body, as a box, is R cos(angle - a) wide; as it levels it is at its widest, R.
void tip(facts::DropIn& drop, double where_it_levels);

}  // namespace fallwright::measure
