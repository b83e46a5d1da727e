/// The measurements, one subject each. Inside `measure` only.
#pragma once

#include <functional>
#include <vector>

#include <TopoDS_Face.hxx>
#include <TopoDS_Shape.hxx>
#include <gp_Dir.hxx>
#include <gp_Pnt.hxx>

#include "facts/facts.hpp"
#include "measure/measure.hpp"
#include "parts/model.hpp"

namespace fallwright::measure {

facts::Point to_point(const gp_Pnt& p);
/// Outward normal of a planar face; nothing for a curved one.
std::optional<gp_Dir> outward(const TopoDS_Face& face);
/// Distinct corner points.
std::vector<gp_Pnt> corners(const TopoDS_Shape& shape);
std::vector<TopoDS_Face> faces_of(const TopoDS_Shape& shape);

std::vector<facts::Part> measure_parts(const parts::Model& model, bool validity);
void measure_falls(const parts::Model& model, facts::Facts& facts);  ///< facets, creases
std::vector<facts::Drainage> measure_drainage(const parts::Model& model);
facts::Clear measure_clear(const parts::Model& model);
std::vector<facts::Member> measure_members(const parts::Model& model);
void measure_heights(const parts::Model& model, facts::Facts& facts);  ///< heights, openings
facts::DrainFit measure_drain(const parts::Model& model);

/// How the underside of one solid meets the top of another below it.
struct Mating {
  double contact_mm2 = 0;  ///< in plan, where both are one
  double overlap_mm3 = 0;  ///< the upper one reaches into the lower
  double void_mm3 = 0;     ///< open space between them, over their common plan
  std::vector<gp_Pnt> contact_corners;
};
Mating mate(const TopoDS_Shape& upper, const TopoDS_Shape& lower);

void measure_bed(const parts::Model& model, const Mating& base_on_bed, facts::Facts& facts);
std::vector<facts::Fit> measure_fits(const parts::Model& model, const Mating& base_on_bed, const facts::Facts& facts);

}  // namespace fallwright::measure
