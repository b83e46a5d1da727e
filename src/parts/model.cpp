#include "parts/model.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <gp_Ax1.hxx>

#include "brep/guard.hpp"
#include "brep/properties.hpp"
#include "parts/build.hpp"
#include "parts/pieces.hpp"
#include "units/tolerance.hpp"

namespace fallwright::parts {
namespace {

/// Sticks of one shape are looked at once, where it is drawn.
class Looks {
 public:
  std::shared_ptr<const brep::Skin> at(const Solid& solid) {
    const TopLoc_Location& place = solid.shape.Location();
    if (solid.skin || place.IsIdentity()) return skin_of(solid);
    const auto [drawn, is_new] = drawn_.try_emplace(solid.shape.TShape().get());
    if (is_new) drawn->second = brep::skin_of(solid.shape.Located({}));
    auto skin = brep::moved(drawn->second, place);
    return skin ? std::make_shared<const brep::Skin>(std::move(*skin)) : skin_of(solid);
  }

 private:
  std::map<const Standard_Transient*, brep::Skin> drawn_;
};

void look_at(std::vector<Solid>& solids) {
  Looks looks;
  for (Solid& solid : solids) solid.skin = brep::guarded(solid.id, [&] { return looks.at(solid); });
}

Model assemble(const job::Job& job) {
  const job::Layout layout = lay_out_as_cut(job);
  Model model{job, {}};
  Sticks sticks;
  const auto add = [&](std::vector<Solid> solids) {
    for (Solid& solid : solids) model.solids.push_back(std::move(solid));
  };
  add(make_subfloor(job, layout));
  add(make_walls(job, layout, sticks));
  if (job.bench) add(make_bench_frame(job, layout, sticks));
  Solid bed = make_bed(job, layout);
  model.solids.push_back(make_spread(job, layout, bed));
  model.solids.push_back(std::move(bed));
  model.solids.push_back(make_base(job, layout));
  model.solids.push_back(make_drain(job, layout));
  if (job.bench) model.solids.push_back(make_seat_block(job, layout));
  look_at(model.solids);
  return model;
}

Model framing_of(const job::Job& job) {
  const job::Layout layout = lay_out_as_cut(job);
  Sticks sticks;
  Model model{job, make_walls(job, layout, sticks)};
  if (job.bench)
    for (Solid& solid : make_bench_frame(job, layout, sticks)) model.solids.push_back(std::move(solid));
  model.solids.push_back(make_base(job, layout));
  look_at(model.solids);
  return model;
}

}  // namespace

std::shared_ptr<const brep::Skin> skin_of(const Solid& solid) {
  return solid.skin ? solid.skin : std::make_shared<const brep::Skin>(brep::skin_of(solid.shape));
}

std::array<double, 6> box_of(const Solid& solid) {
  return solid.skin ? solid.skin->extent.box : brep::box_of(solid.shape);
}

std::vector<gp_Pnt> corners_of(const Solid& solid) {
  return solid.skin ? solid.skin->extent.corners : brep::corners_of(solid.shape);
}

const Solid* Model::find(const PartId& part) const {
  const auto it = std::find_if(solids.begin(), solids.end(), [&](const Solid& s) { return s.part == part; });
  return it == solids.end() ? nullptr : &*it;
}

const Solid* Model::find(const std::string& id) const {
  const auto it = std::find_if(solids.begin(), solids.end(), [&](const Solid& s) { return s.id == id; });
  return it == solids.end() ? nullptr : &*it;
}

const Solid* Model::first(Role role) const {
  const auto it = std::find_if(solids.begin(), solids.end(), [&](const Solid& s) { return s.role == role; });
  return it == solids.end() ? nullptr : &*it;
}

std::shared_ptr<const Model> build(const job::Job& job) {
  return brep::guarded(job.name, [&] { return std::make_shared<const Model>(assemble(job)); });
}

Solid build_base(const job::Job& job) {
  return brep::guarded("base", [&] { return make_base(job, job::lay_out(job)); });
}

Solid build_bed(const job::Job& job) {
  return brep::guarded("bed", [&] { return make_bed(job, job::lay_out(job)); });
}

Model build_framing(const job::Job& job) {
  return brep::guarded(job.name, [&] { return framing_of(job); });
}

Solid to_solid(const PartId& part, const std::string& material, double density, const brep::Slab& slab) {
  Solid solid{part, material, density, slab.solid};
  for (const brep::NamedFace& named : slab.upper) {
    const auto slash = named.name.find('/');
    const auto surface = survey::surface_of(named.name.substr(0, slash));
    if (!surface) throw std::logic_error{"no surface is called " + named.name};
    solid.facets.push_back({*surface, named.name.substr(slash + 1), named.face});
  }
  return solid;
}

void move(Solid& solid, const gp_Trsf& trsf) {
  const TopLoc_Location place{trsf};
  solid.shape = TopoDS::Solid(solid.shape.Moved(place));
  for (Facet& facet : solid.facets) facet.face = TopoDS::Face(facet.face.Moved(place));
  if (solid.cut) solid.cut->axis.Transform(trsf);
}

gp_Trsf bench_to_alcove(const job::Job& job, const job::Layout& layout) {
  const job::Rect& plan = layout.bench;
  const auto turned = [](double angle, const gp_Vec& to) {
    gp_Trsf turn, shift;
    turn.SetRotation(gp::OZ(), angle);
    shift.SetTranslation(to);
    return shift * turn;
  };
  switch (job.bench->place) {
    case job::Side::left:
      return turned(-M_PI / 2, {plan.x0, plan.y1, 0});
    case job::Side::right:
      return turned(M_PI / 2, {plan.x1, plan.y0, 0});
    default:  // at the back
      break;
  }
  return turned(M_PI, {plan.x1, plan.y1, 0});
}

std::vector<double> spread_evenly(double length, double thickness, double spacing) {
  const double clear = length - thickness;
  const int bays = std::max(1, static_cast<int>(std::ceil(clear / spacing - units::tolerance::ratio)));
  std::vector<double> places;
  for (int i = 0; i <= bays; ++i) places.push_back(clear * i / bays);
  return places;
}

}  // namespace fallwright::parts
