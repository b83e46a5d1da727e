#include <algorithm>
#include <cmath>
#include <limits>

#include "brep/plan.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/foremost.hpp"
#include "measure/mating.hpp"
#include "measure/rim.hpp"
#include "measure/shapes.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

/// Of the places that are so deep the one that is told.
facts::Point told_of(const std::vector<Depth>& depths, double mm, const Foremost& foremost) {
  const Depth* told = nullptr;
  for (const Depth& d : depths)
    if (std::abs(d.mm - mm) <= units::tolerance::length_mm && (!told || foremost.before(d.top, told->top))) told = &d;
  return told ? to_point(told->top) : facts::Point{};
}

/// What base and bed cover together, less the hole round the drain as far as it lies within.
void measure_plan(const parts::Model& model, const parts::Solid& bed, const brep::Skin& skin, facts::Bed& found) {
  brep::Loop both;
  for (const survey::Point& p : survey::common(Rim{bed}.corners(), Rim{*model.first(parts::Role::base)}.corners()))
    both.push_back({{p.x, p.y}});
  std::vector<std::vector<brep::Loop>> pieces{{both}};
  std::optional<brep::About> hole;  // the narrowest: the base's ring round the drain leaves a wider mark in the top
  for (const brep::Round& round : skin.rounds)
    if (round.about && (!hole || round.about->radius < hole->radius)) hole = round.about;
  if (hole) pieces = brep::outside_disc(pieces.front(), {hole->x, hole->y}, hole->radius);
  brep::PlanPoint moment{0, 0};
  for (const auto& piece : pieces)
    for (const brep::Loop& loop : piece) {
      const brep::PlanPoint m = brep::moment(loop);
      found.plan_mm2 += brep::area(loop), moment.x += m.x, moment.y += m.y;
    }
  if (found.plan_mm2 > 0) found.plan_centre_mm = {moment.x / found.plan_mm2, moment.y / found.plan_mm2};
}

}  // namespace

void measure_bed(const parts::Model& model, const Remembered& remembered, const Sides& sides, const Mating& mating,
                 facts::Facts& facts) {
  const parts::Solid& bed = *model.first(parts::Role::bed);
  facts::Bed& found = facts.bed;
  found.least_mm = found.least_under_ribs_mm = std::numeric_limits<double>::max();
  const std::vector<Depth> all = depths(sides);
  for (const Depth& d : all)
    found.least_mm = std::min(found.least_mm, d.mm), found.greatest_mm = std::max(found.greatest_mm, d.mm);
  const Foremost foremost{model};
  found.least_at_mm = told_of(all, found.least_mm, foremost);
  found.greatest_at_mm = told_of(all, found.greatest_mm, foremost);
  for (const Depth& d : depths(mating.contact, sides))
    found.least_under_ribs_mm = std::min(found.least_under_ribs_mm, d.mm);
  found.contact_mm2 = mating.contact_mm2;
  measure_plan(model, bed, *remembered.skins[remembered.at(bed)], found);
  found.void_mm3 = mating.void_mm3;
  measure_underside(model, found);
  if (remembered.scope == Scope::all) measure_bare(model, mating, remembered.memory, found);
  for (const facts::Part& part : facts.parts) {
    if (part.which == bed.part) found.set_mm3 = part.volume_mm3;
    if (part.before) found.spread_mm3 = part.volume_mm3, found.gauge_mm = part.bbox_mm[5];
  }
  found.squeeze_out_mm3 = found.spread_mm3 - found.set_mm3;
}

}  // namespace fallwright::measure
