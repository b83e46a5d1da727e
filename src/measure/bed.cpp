#include <algorithm>
#include <cmath>
#include <limits>

#include "measure/detail.hpp"

namespace fallwright::measure {
namespace {

/// The plane that a bed lies on: its one face that looks down.
struct Underside {
  gp_Pnt place;
  gp_Dir normal;

  explicit Underside(const TopoDS_Shape& solid) {
    for (const TopoDS_Face& face : faces_of(solid))
      if (const auto n = outward(face); n && n->Z() < -0.1) place = corners(face).front(), normal = *n;
  }
  double height(const gp_Pnt& p) const {
    return place.Z() - ((p.X() - place.X()) * normal.X() + (p.Y() - place.Y()) * normal.Y()) / normal.Z();
  }
};

}  // namespace

/// The bed's top is made of planes over one plane floor, so thickness is least and greatest at corners of its top.
void measure_bed(const parts::Model& model, const Mating& mating, facts::Facts& facts) {
  const parts::Solid& bed = *model.first(parts::Role::bed);
  const Underside floor{bed.shape};
  facts::Bed& found = facts.bed;
  found.least_mm = std::numeric_limits<double>::max();
  for (const TopoDS_Face& face : faces_of(bed.shape)) {
    const auto normal = outward(face);
    if (!normal || normal->Z() < 0.1) continue;
    for (const gp_Pnt& p : corners(face)) {
      const double thick = p.Z() - floor.height(p);
      if (thick < found.least_mm) found.least_mm = thick, found.least_at_mm = to_point(p);
      if (thick > found.greatest_mm) found.greatest_mm = thick, found.greatest_at_mm = to_point(p);
    }
  }
  found.least_under_ribs_mm = std::numeric_limits<double>::max();
  for (const gp_Pnt& p : mating.contact_corners)
    found.least_under_ribs_mm = std::min(found.least_under_ribs_mm, p.Z() - floor.height(p));
  found.contact_mm2 = mating.contact_mm2;
  found.void_mm3 = mating.void_mm3;
  for (const facts::Part& part : facts.parts) {
    if (part.id == bed.id) found.set_mm3 = part.volume_mm3;
    if (part.before) found.spread_mm3 = part.volume_mm3, found.gauge_mm = part.bbox_mm[5];
  }
  found.squeeze_out_mm3 = found.spread_mm3 - found.set_mm3;
}

}  // namespace fallwright::measure
