#include "report/json_room.hpp"

#include "report/json_words.hpp"
#include "rules/levelling.hpp"
#include "rules/spot.hpp"

namespace fallwright::report {
namespace {

Json closure(const facts::Closure& c) {
  Json readings = list(c.readings, [](const facts::Tape& t) {
    return Json{{"name", t.name},
                {"reading_mm", t.reading_mm},
                {"solved_mm", t.solved_mm},
                {"tolerance_mm", t.tolerance_mm},
                {"if_others_hold_mm", maybe(t.if_others_hold_mm)}};
  });
  return {{"solved", c.solved},   {"spare", c.spare},     {"worst_mm", c.worst_mm}, {"allowed_mm", c.allowed_mm},
          {"suspect", c.suspect}, {"missing", c.missing}, {"readings", readings}};
}

Json floor(const facts::FloorShape& f, bool by_drops) {
  return {{"known", f.known},
          {"by_drops", by_drops},
          {"along_width_mm", f.along_width_mm},
          {"along_depth_mm", f.along_depth_mm},
          {"hump_mm", f.hump_mm},
          {"hump_at_mm", f.hump_at_mm},
          {"hollow_mm", f.hollow_mm},
          {"hollow_at_mm", f.hollow_at_mm},
          {"twist_mm", f.twist_mm},
          {"rock_mm", f.rock_mm},
          {"rock_at", f.rock_at},
          {"datum_at_mm", f.datum_at_mm ? Json(*f.datum_at_mm) : Json(nullptr)},
          {"spots_mm", f.spots},
          {"unread_corners", list(f.unread, [](const facts::NamedPlace& p) { return p.name; })}};
}

Json stud(const facts::StudGap& s) {
  const auto gap = [&](double mm) { return s.stands_alone() ? Json(nullptr) : Json(mm); };
  return {{"id", s.part_id},
          {"wall", job::name_of(s.wall)},
          {"before", name_of(s.before)},
          {"running_mm", s.running_mm},
          {"at_floor_mm", gap(s.at_floor_mm)},
          {"at_upstand_mm", gap(s.at_upstand_mm)},
          {"at_top_mm", gap(s.at_top_mm)},
          {"assumed", s.assumed}};
}

Json drop_in(const facts::DropIn& d) {
  Json widths = list(d.widths_mm, [](const auto& w) { return Json{{"height_mm", w.first}, {"width_mm", w.second}}; });
  return {{"between_walls", d.between_walls},
          {"length_mm", d.length_mm},
          {"height_mm", d.height_mm},
          {"least_mm", d.least_mm},
          {"least_at_mm", d.least_at_mm},
          {"tip_deg", d.tip_deg},
          {"tip_clear_mm", d.tip_clear_mm},
          {"widths", widths},
          {"read_narrower_at_mm", maybe(d.narrower ? std::optional{d.narrower->height_mm} : std::nullopt)}};
}

Json seat_in(const facts::DropIn& d) {
  return {{"between_walls", d.between_walls},
          {"length_mm", d.length_mm},
          {"height_mm", d.height_mm},
          {"carried_mm", d.carried_mm},
          {"least_mm", d.least_mm},
          {"least_at_mm", d.least_at_mm},
          {"tip_deg", d.tip_deg},
          {"tip_clear_mm", d.tip_clear_mm}};
}

Json window(const facts::DrainWindow& w) {
  return {{"joists_known", w.joists_known},
          {"along", w.along_width ? "width" : "depth"},
          {"free_mm", list(w.free_mm,
                           [](const auto& s) {
                             return Json{s.first, s.second};
                           })},
          {"other_mm", {w.other_mm.first, w.other_mm.second}},
          {"now_mm", w.now_mm},
          {"left_face_mm", w.left_face_mm},
          {"any", w.any},
          {"nearest_mm", w.nearest_mm},
          {"moved_mm", w.moved_mm},
          {"falls_there_percent", {w.least_fall * 100, w.greatest_fall * 100}},
          {"falls_there_unknown", w.falls_unknown},
          {"joist",
           {{"depth_mm", w.joist_depth_mm},
            {"hole_mm", w.hole_mm},
            {"notch_mm", w.notch_mm},
            {"end_notch_mm", w.end_notch_mm}}}};
}

Json as_set(const facts::AsSet& set) {
  if (!set.read) return nullptr;
  Json points = list(set.points, [](const facts::AsSetPoint& p) {
    return Json{{"name", p.name}, {"at_mm", {p.x_mm, p.y_mm}}, {"off_mm", p.off_mm}, {"plane_mm", p.plane_mm}};
  });
  Json falls = list(set.falls, [](const facts::AsSetFall& f) {
    return Json{{"surface", name_of(f.surface)},
                {"facet", f.facet},
                {"percent", f.fall * 100},
                {"in_per_ft", f.fall * 12},
                {"inward_percent", f.inward * 100}};
  });
  return {{"threshold_least_mm", maybe(set.threshold_least_mm)},
          {"threshold_greatest_mm", maybe(set.threshold_greatest_mm)},
          {"upstand_least_mm", maybe(set.upstand_least_mm)},
          {"raised_mm", maybe(set.raised_mm)},
          {"drain_body_mm", maybe(set.drain_body_mm)},
          {"apron_least_mm", maybe(set.apron_least_mm)},
          {"apron_greatest_mm", maybe(set.apron_greatest_mm)},
          {"slope_x", set.gx},
          {"slope_y", set.gy},
          {"over_length_mm", set.over_length_mm},
          {"over_width_mm", set.over_width_mm},
          {"twist_mm", set.twist_mm},
          {"points", points},
          {"falls", falls}};
}

Json levelling(const rules::Levelling& l) {
  if (l.ways.empty()) return nullptr;
  Json ways = list(l.ways, [](const rules::Way& w) {
    return Json{{"low", survey::name_of(w.low)},
                {"over_mm", w.over_mm},
                {"allowed_mm", w.allowed_mm},
                {"gives_way", w.gives_way}};
  });
  return {{"ways", ways}, {"edge", l.edge}};
}

}  // namespace

Json room_json(const Report& report) {
  const facts::Room& r = report.facts.room;
  Json json;
  json["closure"] = closure(r.closure);
  json["widths"] = list(r.widths, [](const facts::WidthRead& w) {
    return Json{{"height_mm", w.height_mm},
                {"reading_mm", w.reading_mm},
                {"solids_mm", w.solids_mm},
                {"tolerance_mm", w.tolerance_mm},
                {"from_back_mm", w.from_back_mm}};
  });
  json["not_plumbed"] = job::names_of(r.not_plumbed);
  json["floor"] = floor(r.floor, rules::told_by_drops(report.job));
  json["studs"] = list(r.studs, stud);
  json["corners"] = list(r.corners, [](const facts::CornerGap& c) {
    return Json{{"corner", c.name()},
                {"wall", job::name_of(c.wall)},
                {"at_floor_mm", c.at_floor_mm},
                {"at_upstand_mm", c.at_upstand_mm}};
  });
  json["drop_in"] = drop_in(r.drop_in);
  json["seat_in"] = r.seat_in ? seat_in(*r.seat_in) : Json(nullptr);
  json["drain_window"] = window(r.drain);
  json["heights_at_drain"] = list(r.chain, [](const facts::Rung& rung) {
    return Json{{"name", rung.name}, {"above_datum_mm", rung.above_datum_mm}, {"above_last_mm", rung.above_last_mm}};
  });
  json["levelling"] = {{"base", levelling(report.judgement.base_levelling)},
                       {"seat", levelling(report.judgement.seat_levelling)}};
  json["gauges"] = list(r.gauges, [](const facts::Gauge& g) {
    return Json{{"name", g.name},     {"at_mm", {g.x_mm, g.y_mm}}, {"floor_mm", g.floor_mm},
                {"set_mm", g.set_mm}, {"spread_mm", g.spread_mm},  {"keep_clear", g.clear}};
  });
  json["set_out"] = list(r.set_out, [](const facts::Mark& m) { return Json{{"name", m.name}, {"mm", m.mm}}; });
  json["as_set"] = as_set(r.as_set);
  json["worst_case"] = list(r.worst, [](const facts::Worst& w) {
    const bool known = w.unknown.empty();
    return Json{{"what", w.what},
                {"unit", unit_of(w.is)},
                {"nominal", w.nominal},
                {"least", known ? Json(w.least) : Json()},
                {"greatest", known ? Json(w.greatest) : Json()},
                {"matters_most", w.reading},
                {"by_it", w.by_reading},
                {"unknown", w.unknown}};
  });
  return json;
}

}  // namespace fallwright::report
