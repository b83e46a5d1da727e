/// A stick's section, by its end face: how it is bent and what it resists. Inside `measure` only.
#pragma once

#include <optional>

#include <TopoDS_Face.hxx>
#include <gp_Dir.hxx>

#include "facts/section.hpp"
#include "parts/model.hpp"

namespace fallwright::measure {

/// A stick's end face, square to its length; nothing where both ends are cut otherwise.
std::optional<TopoDS_Face> end_face(const parts::Solid& solid);
/// How a sheet is bent: the least inside radius, and how many bends there are.
struct Bends {
  double inside_mm = 0;
  int count = 0;
};
Bends bends_of(const TopoDS_Face& end);
/// The longest straight edge of an end face along a load; zero: there is none.
double longest_flat(const TopoDS_Face& end, const gp_Dir& load);
/// Of bent sheet: the shortest flat of its outline that is no cut edge, as those of lips are; zero: it is not bent.
double shortest_flat(const TopoDS_Face& end);
facts::Section section_on(const TopoDS_Face& end, const parts::Solid& stick);
/// An end face under a load along `load`, which lies in it.
facts::Bending bending_on(const TopoDS_Face& end, const gp_Dir& load);

}  // namespace fallwright::measure
