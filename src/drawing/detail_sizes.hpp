/// Dimensions of a part of a section that is drawn larger. Inside `drawing` only.
#pragma once

#include <string>
#include <vector>

#include "drawing/detail.hpp"

namespace fallwright::drawing {

/// Where a detail's window stands on its sheet, and how many times larger than the view it shows it.
struct Shown {
  Frame window;
  Point low, high;
  double times = 1;
  Point put(Point p) const { return {low.x + (p.x - window.x0) * times, high.y + (p.y - window.y1) * times}; }
};
/// Widths over and under its window, lines of rises in it. @return how low that reaches
double add_sizes(Pen& pen, const Detail& detail, const Shown& shown);

/// What a section cuts of a role, as it is measured there.
class Measured {
 public:
  Measured(const std::vector<CutSolid>& cut, parts::Role role);
  bool any() const { return !lines_.empty(); }
  /// How far it reaches to the right (1) or to the left (-1) in the view.
  double end(double way) const;
  /// The heights of its edges at a place, the highest first.
  std::vector<double> heights(double x) const { return heights_at(lines_, x); }
  std::optional<double> top(double x) const;
  std::optional<double> foot(double x) const;
  /// The stretch of it at a height that holds a place, or ends nearest to it.
  std::optional<Span> across(double z, double x) const;

 private:
  std::vector<Line> lines_;
};

/// What a base's edge is set by before framing, whose face stands at `face` in the way `out` of the base: how high it
/// turns up over the rim, how far off the framing it stands, how far the bed keeps back from it.
struct EdgeGap {
  const char* words = " clear";
  bool assumed = false;  ///< nobody read where the framing stands
};
void size_edge(Detail& detail, const Pen& pen, const std::vector<CutSolid>& cut, double face, double out,
               const EdgeGap& gap = {});
/// The apron over it: how thick it is, what is left below its foot.
void size_apron(Detail& detail, const Pen& pen, const std::vector<CutSolid>& cut, double face, double out);
/// A seat's nose: how far it stands before the frame, its apron, its overhang and how thick it is there.
void size_nose(Detail& detail, const Pen& pen, const Subject& subject, const std::vector<CutSolid>& cut, double face,
               double out);
/// A seat at its wall, whose face stands at `wall`: what lies over what, how thick its upstand is.
void size_wall_end(Detail& detail, const Pen& pen, const std::vector<CutSolid>& cut, double wall, double into);
/// A threshold with its front at the left: how wide and high it is, how far the bed runs past it.
void size_threshold(Detail& detail, const Pen& pen, const std::vector<CutSolid>& cut);
/// A drain at whose right side the detail begins: from its body to the bore, from there to the bed.
void size_flange(Detail& detail, const Pen& pen, const Subject& subject, const std::vector<CutSolid>& cut);
/// ", 1/2": how thick the walls' board is; ", ?" where nobody said.
std::string board_thickness(const Pen& pen, const job::Job& job);

}  // namespace fallwright::drawing
