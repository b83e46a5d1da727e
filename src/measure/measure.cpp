#include "measure/measure.hpp"

#include <cmath>
#include <limits>
#include <map>

#include <BRep_Tool.hxx>
#include <Geom_Plane.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>

#include "brep/guard.hpp"
#include "brep/properties.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/furring.hpp"
#include "measure/mating.hpp"
#include "measure/memory.hpp"
#include "measure/shapes.hpp"
#include "measure/sides.hpp"
#include "survey/closure.hpp"

namespace fallwright::measure {

facts::Point to_point(const gp_Pnt& p) {
  return {p.X(), p.Y(), p.Z()};
}

std::optional<gp_Dir> outward(const TopoDS_Face& face) {
  TopLoc_Location place;
  const auto plane = Handle(Geom_Plane)::DownCast(BRep_Tool::Surface(face, place));
  if (plane.IsNull()) return std::nullopt;
  gp_Dir normal = plane->Position().Direction();
  if (!place.IsIdentity()) normal.Transform(place.Transformation());
  return face.Orientation() == TopAbs_REVERSED ? normal.Reversed() : normal;
}

std::vector<gp_Pnt> corners(const TopoDS_Shape& shape) {
  return brep::corners_of(shape);
}

std::vector<TopoDS_Face> faces_of(const TopoDS_Shape& shape) {
  std::vector<TopoDS_Face> faces;
  for (TopExp_Explorer face{shape, TopAbs_FACE}; face.More(); face.Next())
    faces.push_back(TopoDS::Face(face.Current()));
  return faces;
}

namespace {

/// Members of one shape are measured once: moving a solid changes neither volume nor area.
struct Shared {
  double volume, area;
  gp_Pnt centroid;  ///< in the shape's own place; in the alcove where it is told of one solid
  bool valid;
};

Shared look_at(const parts::Solid& solid, const brep::Skin* skin) {
  const TopoDS_Shape prototype = solid.shape.Located({});
  const brep::Properties p = !solid.shape.Location().IsIdentity() ? brep::properties(prototype)
                             : solid.mass                         ? *solid.mass
                                          : brep::properties(skin ? *skin : *parts::skin_of(solid));
  return {p.volume_mm3, p.area_mm2, p.centroid, skin && brep::is_sound(prototype, *skin, p.volume_mm3)};
}

facts::Facts look_at_each(const parts::Model& model, const Remembered* remembered) {
  facts::Facts facts;
  facts.parts = measure_parts(model, remembered);
  measure_falls(model, facts);
  facts.drainage = measure_drainage(model);
  facts.room.faces = stud_faces(model);
  return facts;
}

facts::Closure closure_of(const job::Job& job) {
  const survey::Closure c = survey::close(job.survey);
  facts::Closure closure{c.solved, c.spare, {}, 0, 0, c.suspect, c.missing};
  for (const survey::Residual& r : c.readings) {
    closure.readings.push_back({r.name, r.reading_mm, r.solved_mm, r.tolerance_mm, r.if_others_hold_mm});
    const double off = std::abs(r.off_mm());
    if (closure.allowed_mm > 0 && off / r.tolerance_mm <= closure.worst_mm / closure.allowed_mm) continue;
    closure.worst_mm = off;
    closure.allowed_mm = r.tolerance_mm;
  }
  return closure;
}

facts::Room look_at_room(const parts::Model& model, const Framing& framing, const Boards& boards,
                         const facts::Facts& facts) {
  facts::Room room;
  room.faces = facts.room.faces, room.studs = facts.room.studs;
  room.block_strips = boards.block_strips();
  room.kinks = boards.kinks(facts.heights, facts.finish.top_mm);
  room.folds = boards.folds(facts.finish.top_mm);
  room.closure = closure_of(model.job);
  room.floor = measure_floor(model, room.faces);
  room.floor.unread = unread_corners(model, room.faces);
  measure_walls(model, framing, facts.heights, room);
  room.seat_in = measure_seat_in(model, framing.with(boards, true), boards.top_before_seat_mm());
  if (room.seat_in) narrow_seat_in(model, room.widths, *room.seat_in);
  room.drain = measure_window(model, room.faces);
  const auto& bore = room.drain.now_mm;
  room.chain = measure_chain(model, facts, bore[0], bore[1]);
  room.gauges = measure_gauges(model, facts);
  room.set_out = measure_set_out(model, room, boards);
  room.as_set = measure_as_set(model, model.job.as_set);
  return room;
}

/// From the lowest to the highest of a base's underside, ribs' feet to the shell between them.
double deepest_rib_mm(const View& base) {
  double low = std::numeric_limits<double>::max(), high = std::numeric_limits<double>::lowest();
  for (std::size_t i = 0; i < base.faces().size(); ++i)
    if (const brep::Flat* flat = base.faces()[i].flat; base.bears(i) && flat->normal.Z() < 0)
      for (const brep::Ring& ring : flat->rings)
        for (const gp_Pnt& p : ring) low = std::min(low, p.Z()), high = std::max(high, p.Z());
  return std::max(0.0, high - low);
}

facts::Facts look_at_all(const parts::Model& model, Memory& memory, Scope scope) {
  Skins skins;
  skins.reserve(model.solids.size());
  std::vector<std::optional<std::size_t>> numbers;
  for (const parts::Solid& solid : model.solids) {
    skins.push_back(brep::guarded(solid.id, [&] { return parts::skin_of(solid); }));
    numbers.push_back(memory.number_of(*skins.back()));
  }
  std::vector<std::shared_ptr<const View>> views(skins.size());
  const Remembered remembered{model, skins, numbers, memory, views, scope};
  facts::Facts facts = look_at_each(model, &remembered);
  const auto first = [&](parts::Role role) -> const View& {
    return remembered.view(remembered.at(*model.first(role)));
  };
  const View& base = first(parts::Role::base);
  const Sides bed = sides_that_bear(first(parts::Role::bed));
  const Mating base_on_bed = mate(base, bed);
  measure_bed(model, remembered, bed, base_on_bed, facts);
  facts.bed.deepest_rib_mm = deepest_rib_mm(base);
  const Framing framing{model};
  if (scope == Scope::all) facts.members = measure_members(model), facts.sections = measure_sections(model);
  facts.bearers = measure_bearers(model);
  facts.cleat = measure_cleat(model);
  facts.rail = measure_rail(model);
  measure_heights(model, facts);
  facts.room.studs = measure_studs(model, facts.heights);
  const Boards boards{model, facts.heights, facts.room.studs};
  const Framing furred = framing.with(boards);
  facts.clear = measure_clear(model, furred);
  facts.stand = measure_stand(model, facts);
  facts.seat_edge = measure_seat_edge(model);
  facts.edges = measure_edges(model);
  measure_base_kind(model, base, facts);
  facts.skirt = measure_skirt(model);
  measure_openings(model, framing, facts);
  measure_access(model, framing, furred, facts);
  facts.backings = measure_backings(model, facts.heights, boards, furred);
  facts.holds = measure_holds(model, facts.heights, boards);
  facts.deck = measure_deck(model);
  facts.flood = measure_flood(model, facts);
  facts.finish = measure_finish(model, facts, scope);
  facts.drain = measure_drain(model, furred, facts);
  facts.fits = measure_fits(model, remembered, base_on_bed, facts);
  for (facts::Fit& clash : boards.strips_that_clash()) facts.fits.push_back(std::move(clash));
  facts.room = look_at_room(model, framing, boards, facts);
  narrow_entry(model, facts);
  facts.pipe = measure_pipe_run(model, facts);
  return facts;
}

}  // namespace

WayIn measure_way_in(const parts::Model& model, const facts::Heights& heights) {
  facts::Facts facts;
  const Framing framing{model};
  facts.heights = heights;  // openings are read over the base's height
  measure_openings(model, framing, facts);
  facts.room.studs = measure_studs(model, heights);
  measure_walls(model, framing, heights, facts.room);
  return {facts.openings.front().left_over_mm, facts.room.drop_in};
}

std::vector<facts::Part> measure_parts(const parts::Model& model, const Remembered* remembered) {
  std::map<const Standard_Transient*, Shared> known;
  const auto shared_by = [&](const parts::Solid& solid, const brep::Skin* skin) -> const Shared& {
    const Standard_Transient* key = solid.shape.TShape().get();
    const auto it = known.find(key);
    if (it != known.end()) return it->second;
    const auto look = [&] { return look_at(solid, skin); };
    return known.emplace(key, brep::guarded(solid.id, look)).first->second;
  };
  const auto in_place = [&](const parts::Solid& solid, const brep::Skin* skin) {
    Shared shared = shared_by(solid, skin);
    shared.centroid.Transform(solid.shape.Location().Transformation());
    return shared;
  };
  std::vector<facts::Part> found;
  for (std::size_t i = 0; i < model.solids.size(); ++i) {
    const parts::Solid& solid = model.solids[i];
    const auto number = remembered ? remembered->numbers[i] : std::nullopt;
    const auto look = [&] { return in_place(solid, remembered ? remembered->skins[i].get() : nullptr); };
    const Shared here = number ? remembered->memory.once(Question{"solid"}.of(*number), look) : look();
    facts::Part part;
    part.which = solid.part;
    part.id = solid.id;
    part.material = solid.material;
    part.volume_mm3 = here.volume;
    part.area_mm2 = here.area;
    part.mass_kg = here.volume * 1e-9 * solid.density_kg_m3;
    part.bbox_mm = parts::box_of(solid);
    part.centroid_mm = to_point(here.centroid);
    part.valid = here.valid;
    part.before = solid.role == parts::Role::bed_spread;
    found.push_back(std::move(part));
  }
  return found;
}

facts::Facts measure(const parts::Model& model) {
  Memory fresh;
  return measure(model, fresh);
}

facts::Facts measure(const parts::Model& model, Memory& memory, Scope scope) {
  return brep::guarded(model.job.name, [&] { return look_at_all(model, memory, scope); });
}

facts::Facts measure_solids(const parts::Model& model) {
  return brep::guarded(model.job.name, [&] { return look_at_each(model, nullptr); });
}

}  // namespace fallwright::measure
