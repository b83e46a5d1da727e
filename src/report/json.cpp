#include <filesystem>

#include "report/json_as_built.hpp"
#include "report/json_base.hpp"
#include "report/json_report.hpp"
#include "report/json_room.hpp"
#include "report/json_takeoff.hpp"
#include "report/json_words.hpp"
#include "report/report.hpp"
#include "revision/state.hpp"
#include "rules/flood.hpp"
#include "rules/joists.hpp"
#include "rules/read_next.hpp"

namespace fallwright::report {
namespace {

Json part(const facts::Part& p) {
  return {{"id", p.id},
          {"role", name_of(p.which.family.role)},
          {"material", p.material},
          {"volume_mm3", p.volume_mm3},
          {"area_mm2", p.area_mm2},
          {"mass_kg", p.mass_kg},
          {"bbox_mm", p.bbox_mm},
          {"centroid_mm", p.centroid_mm},
          {"valid", p.valid},
          {"before_setting", p.before},
          {"stl", "stl/" + p.id + ".stl"}};
}

Json fall(const facts::Facet& f) {
  return {{"surface", name_of(f.surface)},
          {"facet", f.facet},
          {"area_mm2", f.area_mm2},
          {"percent", f.fall * 100},
          {"in_per_ft", f.fall * 12},
          {"azimuth_deg", f.azimuth_deg},
          {"run_mm", f.run_mm},
          {"low_mm", f.low_mm},
          {"high_mm", f.high_mm}};
}

Json crease(const facts::Crease& c) {
  return {{"surface", name_of(c.surface)},
          {"between", {c.facet_a, c.facet_b}},
          {"kind", c.valley ? "valley" : "ridge"},
          {"percent", c.fall * 100},
          {"in_per_ft", c.fall * 12},
          {"length_mm", c.length_mm},
          {"low_mm", c.low_mm},
          {"high_mm", c.high_mm}};
}

Json drainage(const facts::Drainage& d) {
  return {{"surface", name_of(d.surface)},
          {"drains", d.drains},
          {"pond_mm", d.pond_mm},
          {"pond_at_mm", d.pond_at_mm},
          {"stuck", d.stuck}};
}

const char* name_of(facts::Touch state) {
  return state == facts::Touch::gap ? "gap" : state == facts::Touch::touch ? "touch" : "clash";
}

Json fit(const facts::Fit& f) {
  return {{"a", text_of(f.a)},
          {"b", text_of(f.b)},
          {"state", name_of(f.state)},
          {"distance_mm", f.distance_mm},
          {"overlap_mm3", f.overlap_mm3},
          {"at_mm", f.at_mm}};
}

Json bare(const facts::BarePatch& p) {
  return {{"area_mm2", p.area_mm2},
          {"box_mm", p.box_mm},
          {"along", job::names_of(p.along)},
          {"round_drain", p.round_drain}};
}

Json bed(const facts::Bed& b) {
  return {{"least_mm", b.least_mm},
          {"least_at_mm", b.least_at_mm},
          {"greatest_mm", b.greatest_mm},
          {"greatest_at_mm", b.greatest_at_mm},
          {"least_under_base_mm", b.least_under_ribs_mm},
          {"gauge_mm", b.gauge_mm},
          {"set_mm3", b.set_mm3},
          {"spread_mm3", b.spread_mm3},
          {"squeeze_out_mm3", b.squeeze_out_mm3},
          {"contact_mm2", b.contact_mm2},
          {"plan_mm2", b.plan_mm2},
          {"underside_mm2", b.underside_mm2},
          {"void_mm3", b.void_mm3},
          {"deepest_rib_mm", b.deepest_rib_mm},
          {"bare", bare(b.bare)}};
}

Json finished(const facts::Clear& c) {
  if (!c.finished) return nullptr;
  const facts::Finished& f = *c.finished;
  return {{"area_mm2", f.area_mm2},
          {"circle_mm", f.circle_mm},
          {"circle_at_mm", f.circle_at_mm},
          {"least_width_mm", f.least_width_mm},
          {"entry_mm", maybe(f.entry_mm)},
          {"seat_depth_mm", maybe(f.seat_depth_mm)},
          {"seat_rear_gap_mm", maybe(f.seat_rear_gap_mm)},
          {"seat_side_gap_mm", maybe(f.seat_side_gap_mm)}};
}

Json compartment(const facts::Compartment& c) {
  return {{"width_mm", c.width_mm}, {"depth_mm", c.depth_mm}, {"face_mm", maybe(c.face_mm)}};
}

Json clear(const facts::Clear& c) {
  return {{"area_mm2", c.area_mm2},
          {"circle_mm", c.circle_mm},
          {"circle_at_mm", c.circle_at_mm},
          {"least_width_mm", c.least_width_mm},
          {"entry_mm", maybe(c.entry_mm)},
          {"seat_depth_mm", maybe(c.seat_depth_mm)},
          {"seat_reach_mm", maybe(c.seat_reach_mm)},
          {"seat_rear_gap_mm", maybe(c.seat_rear_gap_mm)},
          {"seat_side_gap_mm", maybe(c.seat_side_gap_mm)},
          {"finished", finished(c)},
          {"compartment", compartment(c.compartment)}};
}

Json heights(const facts::Heights& h) {
  return {{"drain_top_mm", h.drain_top_mm},
          {"rib_plane_mm", h.rib_plane_mm},
          {"rim_least_mm", h.rim_least_mm},
          {"rim_greatest_mm", h.rim_greatest_mm},
          {"threshold_least_mm", maybe(h.threshold_least_mm)},
          {"threshold_greatest_mm", maybe(h.threshold_greatest_mm)},
          {"upstand_top_mm", maybe(h.upstand_top_mm)},
          {"seat_front_mm", maybe(h.seat_front_mm)},
          {"seat_back_mm", maybe(h.seat_back_mm)},
          {"outside_least_mm", h.outside ? Json(h.outside->least_mm) : Json()},
          {"outside_greatest_mm", h.outside ? Json(h.outside->greatest_mm) : Json()},
          {"floor_at_threshold_mm", maybe(h.floor_at_threshold_mm)}};
}

Json edge(const facts::Edge& e) {
  return {{"side", job::name_of(e.side)},
          {"behind", e.open() ? Json() : Json(name_of(e.behind))},
          {"turned", name_of(e.turned)},
          {"top_mm", e.top_mm},
          {"top_greatest_mm", e.top_greatest_mm},
          {"lapped", e.lapped},
          {"length_mm", e.length_mm},
          {"outside_least_mm", e.outside ? Json(e.outside->least_mm) : Json()},
          {"outside_greatest_mm", e.outside ? Json(e.outside->greatest_mm) : Json()}};
}

Json skirt(const std::optional<facts::SeatSkirt>& s) {
  if (!s) return {};
  return {{"apron_mm", s->apron_mm},
          {"bare_walls", job::names_of(s->bare_walls)},
          {"gap_least_mm", maybe(s->gap_least_mm)},
          {"gap_greatest_mm", maybe(s->gap_greatest_mm)}};
}

Json opening(const facts::Opening& o) {
  return {{"axis", name_of(o.axis)},       {"alcove_mm", o.alcove_mm},       {"base_mm", o.base_mm},
          {"bench_mm", maybe(o.bench_mm)}, {"left_over_mm", o.left_over_mm}, {"open_mm", o.open_mm}};
}

Json bending(const facts::Bending& b) {
  return {{"depth_mm", b.depth_mm},
          {"inertia_mm4", b.inertia_mm4},
          {"modulus_mm3", b.modulus_mm3},
          {"upright_mm2", b.upright_mm2}};
}

Json section(const facts::Section& s) {
  return {{"stock", s.stock},
          {"steel", s.steel},
          {"area_mm2", s.area_mm2},
          {"sheet_mm", s.sheet_mm},
          {"centroid_mm", s.centroid_mm},
          {"strong", bending(s.strong)},
          {"weak", bending(s.weak)}};
}

Json bearer(const facts::Bearer& b) {
  return {{"what", name_of(b.kind)},
          {"part_id", b.part_id},
          {"clear_mm", b.clear_mm},
          {"span_mm", b.span_mm},
          {"width_mm", b.width_mm},
          {"bearing_mm2", b.bearing_mm2},
          {"off_stud_mm", b.off_stud_mm},
          {"inertia_mm4", b.bending.inertia_mm4},
          {"modulus_mm3", b.bending.modulus_mm3},
          {"flat_mm", b.flat_mm}};
}

/// A notch leaves nothing on the side that it is cut from.
Json crossing(const facts::JoistCrossing& c, bool notched) {
  const auto notch = notched ? rules::notch_at(c) : std::nullopt;
  const auto left = [&](const std::optional<double>& mm, bool below) {
    return notch && notch->from_below == below ? Json(0.) : maybe(mm);
  };
  return {{"joist", c.joist},
          {"modelled", c.modelled},
          {"from_weir_mm", c.from_weir_mm},
          {"bottom_mm", c.bottom_mm},
          {"top_mm", c.top_mm},
          {"centre_mm", maybe(c.centre_mm)},
          {"hole_mm", c.hole_mm},
          {"above_mm", left(c.above_mm(), false)},
          {"below_mm", left(c.below_mm(), true)},
          {"notch_mm", notch ? Json(notch->deep_mm) : Json()},
          {"along_mm", c.along_mm},
          {"along_span", maybe(c.along_span)}};
}

Json hole(const facts::JoistHole& h) {
  return {{"joist", h.joist}, {"along_mm", h.along_mm}, {"centre_mm", h.centre_mm}, {"diameter_mm", h.diameter_mm}};
}

Json bend(const facts::ArmBend& b) {
  return {{"from_weir_mm", b.from_weir_mm},
          {"degrees", b.degrees},
          {"to", job::name_of(b.to)},
          {"off_left_mm", b.off_left_mm},
          {"off_back_mm", b.off_back_mm}};
}

Json pipe(const facts::PipeRun& p, bool notched) {
  if (!p.known) return nullptr;
  return {{"aside_mm", p.aside_mm},
          {"riser_mm", maybe(p.riser_mm)},
          {"riser_most_mm", maybe(p.riser_most_mm)},
          {"down_to_weir_mm", maybe(p.down_to_weir_mm)},
          {"routed", p.routed},
          {"bends", list(p.bends, bend)},
          {"crossings", list(p.crossings, [&](const facts::JoistCrossing& c) { return crossing(c, notched); })},
          {"holes", list(p.holes, hole)},
          {"passed_under", p.passed_under},
          {"bay", p.bay},
          {"beside_mm", maybe(p.beside_mm)},
          {"offset_through", p.offset_through},
          {"hub_in_joist", p.hub_in ? Json(p.hub_in->joist) : Json()},
          {"hub_in_mm", p.hub_in ? Json(std::min(p.hub_in->less_mm, p.hub_in->more_mm)) : Json()}};
}

Json hold_end(const facts::HoldEnd& e) {
  return {{"at", job::name_of(e.at)}, {"to_first_mm", e.to_first_mm}, {"sure_mm", e.sure_mm}};
}

Json hold(const facts::Hold& h) {
  return {{"side", job::name_of(h.side)},   {"behind", name_of(h.behind)}, {"length_mm", h.length_mm},
          {"thickness_mm", h.thickness_mm}, {"apart_mm", h.apart_mm},      {"sure_apart_mm", h.sure_apart_mm},
          {"from_at_mm", h.from_at_mm},     {"to_at_mm", h.to_at_mm},      {"studs_assumed", h.assumed},
          {"ends", list(h.ends, hold_end)}};
}

Json limit(const rules::Limit& l) {
  return {{"least", maybe(l.least)}, {"greatest", maybe(l.greatest)}};
}

Json support(const rules::Support& s) {
  return {{s.solid ? "solid" : "reading", s.name}, {"state", rules::name_of(s.state)}};
}

Json line_json(const job::Change& c) {
  return {{"key", c.key}, {"entry", c.entry}, {"value", c.value.empty() ? Json{} : Json(c.value)}};
}

Json remedy(const rules::Remedy& r) {
  return {{"lines", list(r.changes, line_json)},
          {"settles", r.settles},
          {"costs", r.costs},
          {"refused", r.refused.empty() ? Json{} : Json(r.refused)}};
}

Json check(const rules::Result& r) {
  return {{"id", r.id},
          {"title", r.title},
          {"result", rules::name_of(r.outcome)},
          {"measured", maybe(r.measured)},
          {"limit", limit(r.limit)},
          {"unit", rules::name_of(r.limit.unit)},
          {"counts", r.limit.unit == rules::Unit::count ? Json(rules::noun_of(r.id).many) : Json{}},
          {"source", r.limit.source},
          {"verified", r.limit.source.empty() ? "" : rules::name_of(r.limit.verified)},
          {"margin", maybe(r.margin)},
          {"where", r.where},
          {"advice", r.advice},
          {"remedies", list(r.remedies, remedy)},
          {"details", r.details},
          {"rests_on", list(r.rests_on, support)}};
}

Json joint(const facts::Seam& s) {
  return {{"what", name_of(s.joint)}, {"length_mm", s.length_mm}};
}

Json flashing(const facts::Flashing& f) {
  return {{"what", f.name()}, {"length_mm", f.length_mm}};
}

Json finish(const facts::Finish& f) {
  return {{"top_mm", f.top_mm},
          {"covered", list(f.covered,
                           [](const facts::Covered& c) {
                             return Json{{"surface", name_of(c.surface)},
                                         {"where", c.wall ? survey::name_of(*c.wall) : ""},
                                         {"area_mm2", c.area_mm2}};
                           })},
          {"joints", list(f.joints, joint)},
          {"flashings", list(f.flashings, flashing)},
          {"flashing_corners", f.flashing_corners},
          {"seat_bond_mm2", f.seat_bond_mm2},
          {"seat_bonds", list(f.seat_bonds,
                              [](const facts::Bonded& b) {
                                return Json{{"what", b.what}, {"area_mm2", b.area_mm2}};
                              })},
          {"bed_bottom_mm2", f.bed_bottom_mm2}};
}

Json read_next(const rules::ReadNext& next) {
  return {{"read", next.what}, {"settles", list(next.settles, [](const rules::Result* r) { return r->id; })}};
}

Json file(const File& f) {
  return {{"path", f.path}, {"bytes", f.bytes}, {"sha256", f.sha256}};
}

Json job_json(const job::Job& job) {
  return {{"name", job.name},
          {"book", job.book},
          {"file", std::filesystem::path{job.file}.filename().string()},
          {"sha256", job.sha256},
          {"unit", job.is_metric() ? "mm" : "in"},
          {"keys", list(job::written_keys(job), [](const job::WrittenKey& key) {
             return Json{{"key", key.key}, {"value", key.value}};
           })}};
}

Json drain(const facts::DrainFit& d) {
  return {{"body_to_bore_mm", d.body_to_bore_mm},
          {"bore_to_joist_mm", maybe(d.bore_to_joist_mm)},
          {"nearest_joist", d.nearest_joist},
          {"outlet_mm", maybe(d.outlet_mm)},
          {"body_to_bed_mm", maybe(d.body_to_bed_mm)}};
}

Json backing(const facts::Backing& b) {
  return {{"name", b.name},
          {"wall", job::name_of(b.wall)},
          {"height_mm", b.height_mm},
          {"share", b.share},
          {"assumed_share", b.assumed},
          {"above_water_mm", b.above_water_mm},
          {"behind_bench", b.behind_bench}};
}

Json floor_deck(const facts::FloorDeck& d) {
  return {{"measured", d.measured}, {"thickness_mm", d.thickness_mm}, {"apart_mm", d.apart_mm}, {"at_mm", d.at_mm}};
}

Json dip(const facts::Dip& d) {
  return {{"above_drain_mm", d.above_drain_mm}, {"volume_mm3", d.volume_mm3}, {"surface_mm2", d.surface_mm2}};
}

Json flood(const Report& report) {
  const auto level = [](const rules::FloodLevel& l) {
    Json row = dip(l.dip);
    row["what"] = l.what;
    return row;
  };
  const facts::Flood& f = report.facts.flood;
  return {{"plan_mm2", f.plan_mm2},
          {"over", job::names_of(f.over)},
          {"dips", list(f.dips, dip)},
          {"levels", list(rules::flood_levels(report.job, report.facts, report.judgement.results), level)}};
}

Json unused_key(const job::UnusedKey& u) {
  return {{"key", u.key}, {"line", u.line}, {"why", u.why}};
}

Json road_json(const rules::Road& road) {
  if (road.changes.empty()) return {};
  return {{"lines", list(road.changes, line_json)}, {"mends", road.mends}, {"left", road.left}, {"stay", road.stay}};
}

void add_measured(const Report& report, Json& json) {
  const facts::Facts& f = report.facts;
  json["parts"] = list(f.parts, part);
  json["falls"] = list(f.facets, fall);
  json["creases"] = list(f.creases, crease);
  json["drainage"] = list(f.drainage, drainage);
  json["base"] = base_json(report.job, f);
  json["bed"] = bed(f.bed);
  json["clear"] = clear(f.clear);
  json["heights"] = heights(f.heights);
  json["edges"] = list(f.edges, edge);
  json["seat_skirt"] = skirt(f.skirt);
  json["openings"] = list(f.openings, opening);
  json["drain"] = drain(f.drain);
  json["pipe"] = pipe(f.pipe, report.judgement.pipe.notched);
  json["backings"] = list(f.backings, backing);
  json["holds"] = list(f.holds, hold);
  json["floor_deck"] = floor_deck(f.deck);
  json["flood"] = flood(report);
  json["finish"] = finish(f.finish);
  json["sections"] = list(f.sections, section);
  json["bearers"] = list(f.bearers, bearer);
  json["room"] = room_json(report);
  json["as_built"] = as_built_json(report);
  json["fit"] = list(f.fits, fit);
}

void add_judged(const Report& report, Json& json) {
  json["checks"] = list(report.judgement.results, check);
  json["road"] = road_json(report.road);
  json["unused_keys"] = list(report.job.unused, unused_key);
  json["read_next"] = list(rules::read_next(report.judgement.results), read_next);
}

void add_bought(const Report& report, Json& json) {
  const job::Buy& buy = report.job.buy;
  json["takeoff"] = list(report.rows, row_json);
  json["cost"] = cost_json(buy.prices.file.empty() ? takeoff::Cost{} : takeoff::cost_of(report.rows), buy.currency);
  json["cuts"] = list(report.cuts, cut_json);
  json["stocks"] = list(report.plan, stock_json);
  json["sticks"] = sticks_json(report.plan);
}

}  // namespace

Json report_json(const Report& report) {
  Json json;
  json["schema"] = revision::report_schema;
  json["tool"] = {{"name", "fallwright"}, {"version", version()}};
  json["job"] = job_json(report.job);
  add_measured(report, json);
  add_judged(report, json);
  add_bought(report, json);
  json["files"] = list(report.files, file);
  return json;
}

std::string to_json(const Report& report) {
  return dumped(report_json(report));
}

std::string chain_json(const job::Job& job, const std::vector<facts::Rung>& chain, double x_mm, double y_mm) {
  Json json;
  json["schema"] = 1;
  json["job"] = {{"name", job.name}};
  json["x_mm"] = x_mm;
  json["y_mm"] = y_mm;
  json["heights"] = list(chain, [](const facts::Rung& r) {
    return Json{{"name", r.name}, {"above_datum_mm", r.above_datum_mm}, {"above_last_mm", r.above_last_mm}};
  });
  return dumped(json);
}

}  // namespace fallwright::report
