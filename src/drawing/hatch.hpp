/// What a plane cuts, filled by its material. Inside `drawing` only.
#pragma once

#include <limits>
#include <optional>
#include <utility>
#include <vector>

#include "drawing/pen.hpp"
#include "drawing/views.hpp"

namespace fallwright::drawing {

/// A solid as a plane cuts it.
struct CutSolid {
  const parts::Solid* solid = nullptr;
  Projection seen;
  Hatch look = {};        ///< how it is filled, without rings: timber by its grain, which lies in the plane where it
                          ///< is cut lengthwise and of a panel in some layers
  std::string name = {};  ///< what people call it: "base", "pre-slope", "front rail"
  Hatch::Source source = {};
};
std::vector<CutSolid> cut_solids(const parts::Model& model, const Wanted& wanted, const Cut& cut);

/// A stretch of a view, from left to right.
struct Span {
  double from = -std::numeric_limits<double>::max(), to = std::numeric_limits<double>::max();
};
/// What of a line, or of rings, lies in it.
std::optional<Line> within(const Line& line, const Span& span);
std::vector<Outline> within(const std::vector<Outline>& rings, const Span& span);
/// Where a level line runs within rings.
std::vector<std::pair<double, double>> stretches_within(const std::vector<Outline>& rings, double y);
/// Where an upright line meets lines that are not upright themselves, the highest first.
std::vector<double> heights_at(const std::vector<Line>& lines, double x);

/// Draws it with heavy edges, filled. @return the frame of what is drawn; nothing when none of it lies in the span.
std::optional<Frame> add_cut(Sheet& sheet, const Pen& pen, const CutSolid& cut, const Span& span = {});
/// The same with edges as they are given and their rings, which need not close where the edges do not.
std::optional<Frame> add_cut(Sheet& sheet, const Pen& pen, const CutSolid& cut, const std::vector<Outline>& rings);

/// Where a picture ends and deck, bed and base go on: a thin line across them, its zigzag over them, clear of lines
/// that lead to their names and heights.
void add_breaks(Pen& pen, const std::vector<CutSolid>& solids, const Span& span);

/// Closed rings of lines that meet at their ends; what does not close is left out.
std::vector<Outline> rings_of(std::vector<Line> lines);
/// Of the points that lie inside an odd number of rings.
double area_within(const std::vector<Outline>& rings);
/// Fills rings with a pattern whose lengths are so many model millimetres each, and keeps it with the sheet; one
/// without a name is lines and no more.
void fill(Sheet& sheet, Hatch hatch, double model_for_paper);

}  // namespace fallwright::drawing
