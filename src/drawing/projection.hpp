/// Views of solids as flat lines: hidden lines apart, nothing drawn twice. Inside `drawing` only.
#pragma once

#include <vector>

#include <TopoDS_Shape.hxx>
#include <gp_Dir.hxx>
#include <gp_Pln.hxx>

#include "drawing/sheet.hpp"

namespace fallwright::parts {
struct Model;
struct Solid;
}  // namespace fallwright::parts

namespace fallwright::drawing {

/// Looking against `toward` (the way from the thing to the eye) with `right` to the right. Sheet coordinates are those
/// of the thing along `right` and upward, from the alcove's origin.
struct View {
  gp_Dir toward, right;
};

struct Projection {
  std::vector<Line> lines;
  std::vector<Arc> arcs;  ///< full circles and arcs that are seen square on; others come as chords
};

/// Hidden-line projection. Visible edges are outlines; hidden ones come only where `with_hidden` asks for them and no
/// visible one covers them.
/// @param model whose solids they are, where they are any's: these were looked at already
Projection project(const std::vector<TopoDS_Shape>& shapes, const View& view, bool with_hidden,
                   const parts::Model* model = nullptr);

/// The same of several groups of solids that hide each other, each group's visible edges by themselves.
std::vector<Projection> project_apart(const std::vector<std::vector<TopoDS_Shape>>& groups, const View& view,
                                      const parts::Model* model = nullptr);

/// What a plane cuts out of a solid, seen in a view: the outlines of the cut faces.
Projection section(const parts::Solid& solid, const gp_Pln& plane, const View& view);

/// Without hidden straight lines that lie beside another line, over half of their length, so near that both would run
/// into a bar on paper: feet of studs on a floor that falls, edges of thin sheet.
Projection uncrowded(Projection seen);

/// Merges overlapping and touching lines on one carrier and takes from the hidden what the visible cover.
std::vector<Line> tidy(const std::vector<Line>& lines);
/// The same of arcs on one circle.
std::vector<Arc> tidy(const std::vector<Arc>& arcs);

}  // namespace fallwright::drawing
