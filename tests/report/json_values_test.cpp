// Every number of report.json stands under the name it belongs to.
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "report/valued.hpp"

namespace fallwright {
namespace {

using Json = nlohmann::json;
using namespace nlohmann::literals;
using Sample = sample::Valued;

Json written() {
  static const Json json = Json::parse(report::to_json(Sample{}.report()));
  return json;
}

TEST(JsonValues, OfTheJobAndItsParts) {
  // Source: the sample's own numbers, field by field.
  const Json json = written();
  EXPECT_EQ(
      json["job"],
      R"({"name": "sample alcove", "book": "residential", "file": "bath.toml", "sha256": "5ha", "unit": "in", "keys": []})"_json);
  EXPECT_EQ(json["parts"][0],
            R"({"id": "base", "role": "base", "material": "resin", "volume_mm3": 7.1e6, "area_mm2": 2.2e6,
    "mass_kg": 85.5, "bbox_mm": [1.0, 2.0, 3.0, 1461.0, 916.0, 104.0], "centroid_mm": [731.0, 459.0, 47.0],
    "valid": true,
    "before_setting": false, "stl": "stl/base.stl"})"_json);
  EXPECT_EQ(json["parts"][1]["valid"], false);
  EXPECT_EQ(json["parts"][1]["before_setting"], true);
  Sample metric;
  metric.job.unit = job::UnitSystem::metric;
  EXPECT_EQ(Json::parse(report::to_json(metric.report()))["job"]["unit"], "mm");
}

TEST(JsonValues, OfFallsAndWater) {
  // Source: the sample's own numbers; 0.025 is 2.5 % and 0.3 in/ft, 0.018 1.8 % and 0.216 in/ft.
  const Json json = written();
  Json fall = json["falls"][0];
  EXPECT_NEAR(fall["in_per_ft"].get<double>(), 0.3, 1e-12);
  fall.erase("in_per_ft");
  EXPECT_EQ(fall, R"({"surface": "base-floor", "facet": "left", "area_mm2": 3.5e5, "percent": 2.5,
    "azimuth_deg": 91.0,
    "run_mm": 667.0, "low_mm": [368.0, 459.0, 38.0], "high_mm": [13.0, 899.0, 55.0]})"_json);
  const Json valley = json["creases"][0], ridge = json["creases"][1];
  EXPECT_NEAR(valley["percent"].get<double>(), 1.8, 1e-12);
  EXPECT_NEAR(valley["in_per_ft"].get<double>(), 0.216, 1e-12);
  EXPECT_EQ(valley["between"], R"(["back", "left"])"_json);
  EXPECT_EQ(valley["kind"], "valley");
  EXPECT_EQ(ridge,
            R"({"surface": "seat", "between": ["top", "low"], "kind": "ridge", "percent": 1.25,
    "in_per_ft": 0.15000000000000002,
    "length_mm": 371.0, "low_mm": [21.0, 22.0, 23.0], "high_mm": [24.0, 25.0, 26.0]})"_json);
  EXPECT_EQ(json["drainage"],
            R"([{"surface": "seat", "drains": false, "pond_mm": 1.25, "pond_at_mm": [77.0, 78.0, 79.0],
    "stuck": ["top"]}])"_json);
  EXPECT_EQ(json["flood"],
            R"({"plan_mm2": 1.19e6, "over": ["front"], "dips": [{"above_drain_mm": 50.0, "volume_mm3": 4.5e7,
    "surface_mm2": 1.2e6}], "levels": []})"_json);
}

TEST(JsonValues, OfAnArmInNotches) {
  // Source: by hand, the sample's joist from -254 to -19 mm and 60 mm of pipe about -131: 153 from below, 142 from
  // above, which leaves 93 below it and nothing above.
  Sample sample;
  sample.job.trap.emplace().notch = units::Length::mm(30);
  const Json crossing = Json::parse(report::to_json(sample.report()))["pipe"]["crossings"][0];
  EXPECT_EQ(crossing["notch_mm"], 142.0);
  EXPECT_EQ(crossing["above_mm"], 0.0);
  EXPECT_EQ(crossing["below_mm"], 93.0);
}

TEST(JsonValues, OfBedAndFreeFloor) {
  // Source: the sample's own numbers.
  const Json json = written();
  EXPECT_EQ(json["bed"],
            R"({"least_mm": 15.5, "least_at_mm": [31.0, 32.0, 33.0], "greatest_mm": 38.5, "greatest_at_mm": [34.0, 35.0,
    36.0],
    "least_under_base_mm": 16.5, "gauge_mm": 31.75, "set_mm3": 4e7, "spread_mm3": 4.15e7, "squeeze_out_mm3": 1.5e6,
    "contact_mm2": 1.2e6, "plan_mm2": 1.25e6, "underside_mm2": 1.3e6, "void_mm3": 42.0, "deepest_rib_mm": 43.5,
    "bare": {"area_mm2": 5e4, "box_mm": [1.0, 2.0, 1400.0, 900.0], "along": ["back", "left"],
    "round_drain": true}})"_json);
  EXPECT_EQ(json["clear"],
            R"({"area_mm2": 8e5, "circle_mm": 801.0, "circle_at_mm": [701.0, 401.0, 41.0], "least_width_mm": 802.0,
    "entry_mm": 1448.0, "seat_depth_mm": 381.0, "seat_reach_mm": 61.0, "seat_rear_gap_mm": 12.5,
    "seat_side_gap_mm": 13.5, "finished": {"area_mm2": 7.5e5, "circle_mm": 775.0,
    "circle_at_mm": [702.0, 402.0, 42.0],
    "least_width_mm": 776.0, "entry_mm": 1423.0, "seat_depth_mm": 356.0, "seat_rear_gap_mm": 1.25,
    "seat_side_gap_mm": 2.25}, "compartment": {"width_mm": 1778.0, "depth_mm": 787.0,
    "face_mm": 1779.0}})"_json);
}

TEST(JsonValues, OfHeightsEdgesAndOpenings) {
  // Source: the sample's own numbers.
  const Json json = written();
  EXPECT_EQ(json["heights"],
            R"({"drain_top_mm": 38.1, "rib_plane_mm": 12.7, "rim_least_mm": 51.0, "rim_greatest_mm": 52.0,
    "threshold_least_mm": 101.0, "threshold_greatest_mm": 104.0, "upstand_top_mm": 139.0, "seat_front_mm": 457.0,
    "seat_back_mm": 465.0,
    "outside_least_mm": 6.35, "outside_greatest_mm": 6.85, "floor_at_threshold_mm": 50.5})"_json);
  EXPECT_EQ(json["edges"],
            R"([{"side": "back", "behind": "wall", "turned": "upstand", "top_mm": 140.0, "top_greatest_mm": 141.0,
    "lapped": true, "length_mm": 1455.0, "outside_least_mm": null, "outside_greatest_mm": null},
    {"side": "front", "behind": null, "turned": "threshold", "top_mm": 101.0, "top_greatest_mm": 104.0,
    "lapped": false, "length_mm": 1460.0, "outside_least_mm": 6.4, "outside_greatest_mm": 6.9}])"_json);
  EXPECT_EQ(json["seat_skirt"],
            R"({"apron_mm": 303.0, "bare_walls": ["back"], "gap_least_mm": -0.25, "gap_greatest_mm": 4.75})"_json);
  EXPECT_EQ(json["openings"],
            R"([{"axis": "width", "alcove_mm": 1835.0, "base_mm": 1461.5, "bench_mm": 368.3, "left_over_mm": 5.2,
    "open_mm": 1.3}])"_json);
  EXPECT_EQ(json["drain"],
            R"({"body_to_bore_mm": 22.2, "bore_to_joist_mm": 101.6, "nearest_joist": "joists/joist-04",
    "outlet_mm": 50.8, "body_to_bed_mm": 34.9})"_json);
  // Of a hole 60 across about -131 in a joist from -254 to -19: 82 above, 93 below.
  EXPECT_EQ(json["pipe"],
            R"({"aside_mm": 127.0, "riser_mm": 141.5, "riser_most_mm": 230.5, "down_to_weir_mm": 217.5, "routed": true,
    "bends": [{"from_weir_mm": 40.0, "degrees": 90.0, "to": "back", "off_left_mm": 703.0, "off_back_mm": 302.0}],
    "crossings": [{"joist": "joists/joist-03", "from_weir_mm": 209.0, "bottom_mm": -254.0, "top_mm": -19.0,
    "centre_mm": -131.0, "hole_mm": 60.0, "above_mm": 82.0, "below_mm": 93.0, "notch_mm": null, "along_mm": 702.0, "along_span": 0.33,
    "modelled": true}], "holes": [{"joist": "joists/joist-05", "along_mm": 703.0, "centre_mm": -121.0,
    "diameter_mm": 26.0}], "passed_under": ["joists/joist-02"], "bay": "joists/joist-01", "beside_mm": 147.5,
    "offset_through": ["joists/joist-06"], "hub_in_joist": "joists/joist-03", "hub_in_mm": 148.5})"_json);
  EXPECT_EQ(json["fit"],
            R"([{"a": "base", "b": "drain", "state": "gap", "distance_mm": 2.5, "overlap_mm3": 0.0, "at_mm": [601.0,
    602.0, 603.0]},
    {"a": "base", "b": "bed", "state": "touch", "distance_mm": 0.0, "overlap_mm3": 0.0, "at_mm": [0.0, 0.0, 0.0]},
    {"a": "drain", "b": "joists/joist-03", "state": "clash", "distance_mm": 0.0, "overlap_mm3": 4321.0,
    "at_mm": [604.0, 605.0, 606.0]}])"_json);
}

TEST(JsonValues, OfFraming) {
  // Source: the sample's own numbers.
  const Json json = written();
  EXPECT_EQ(json["backings"],
            R"([{"name": "grab bar", "wall": "back", "height_mm": 860.0, "share": 0.9, "assumed_share": 0.2,
    "above_water_mm": 701.0, "behind_bench": 0.1}])"_json);
  EXPECT_EQ(json["holds"],
            R"([{"side": "left", "behind": "wall", "length_mm": 914.0, "thickness_mm": 12.7, "apart_mm": 381.0,
    "sure_apart_mm": 882.0,
    "from_at_mm": [1.0, 2.0, 3.0], "to_at_mm": [4.0, 5.0, 6.0], "studs_assumed": true,
    "ends": [{"at": "back", "to_first_mm": 22.5, "sure_mm": 23.5}, {"at": "front", "to_first_mm": 24.5,
    "sure_mm": 25.5}]}])"_json);
  EXPECT_EQ(json["floor_deck"],
            R"({"measured": true, "thickness_mm": 19.0, "apart_mm": 406.0, "at_mm": [700.0, 450.0, 0.0]})"_json);
  EXPECT_EQ(json["sections"],
            R"([{"stock": "2x4", "steel": true, "area_mm2": 3387.0, "sheet_mm": 1.09, "centroid_mm": [44.0, 19.0],
    "strong": {"depth_mm": 88.9, "inertia_mm4": 2.23e6, "modulus_mm3": 5.02e4, "upright_mm2": 3386.0},
    "weak": {"depth_mm": 38.1, "inertia_mm4": 4.1e5, "modulus_mm3": 2.15e4, "upright_mm2": 3385.0}}])"_json);
  EXPECT_EQ(
      json["bearers"],
      R"([{"what": "plate", "part_id": "bench-frame/top-plate", "clear_mm": 254.0, "span_mm": 292.0, "width_mm": 89.0,
    "bearing_mm2": 3371.0, "off_stud_mm": 12.5, "inertia_mm4": 4.2e5, "modulus_mm3": 2.2e4, "flat_mm": 83.5}])"_json);
  EXPECT_EQ(json["finish"], R"({"top_mm": 2001.0, "covered": [{"surface": "walls", "where": "back", "area_mm2": 3e6}],
    "joints": [{"what": "floor to walls", "length_mm": 2002.0}], "flashings": [{"what": "base, back",
    "length_mm": 1462.0}],
    "flashing_corners": 3, "seat_bond_mm2": 3e5, "seat_bonds": [{"what": "deck", "area_mm2": 2.5e5},
    {"what": "front rail", "area_mm2": 5e4}], "bed_bottom_mm2": 1e6})"_json);
}

TEST(JsonValues, OfChecksAndWhatIsBought) {
  // Source: the sample's own numbers.
  const Json json = written();
  Json check = json["checks"][0];
  EXPECT_EQ(check["measured"].get<double>(), 0.2 / 12);
  EXPECT_EQ(check["limit"]["least"].get<double>(), 1. / 48);
  EXPECT_EQ(check["limit"]["greatest"].get<double>(), 1. / 24);
  check.erase("measured"), check.erase("limit");
  EXPECT_EQ(
      check,
      R"({"id": "floor.fall-least", "title": "floor falls enough", "result": "fail", "unit": "ratio", "counts": null,
    "source": "IRC P2709.1",
    "verified": "secondary", "margin": -0.2, "where": "left facet", "advice": "raise the rim", "details": ["a line"],
    "remedies": [{"lines": [{"key": "base.rise", "entry": 0, "value": "\"3/4 in\""}, {"key": "fixture.height",
    "entry": 2, "value": null}], "settles": true, "costs": ["threshold.step-inside"], "refused": "no such job"}],
    "rests_on": [{"solid": "the base", "state": "as designed"}, {"reading": "spot levels",
    "state": "missing"}]})"_json);
  EXPECT_TRUE(json["checks"][1]["measured"].is_null());
  EXPECT_EQ(json["takeoff"][0],
            R"({"item": "tile, walls", "quantity": 45.25, "unit": "ft2", "buy": 5.0, "buy_unit": "boxes",
    "basis": "back 30.0 ft2", "waste": 0.1, "pack": 10.0, "doubt": 0.02, "for_sale": true,
    "instead": false, "price": 41.5, "cost": 207.5, "supplier": "the yard", "hold": null,
    "sold_as": null, "product": null, "out_of": null})"_json);
  EXPECT_TRUE(json["takeoff"][1]["price"].is_null() && json["takeoff"][1]["cost"].is_null());
  EXPECT_EQ(
      json["cost"],
      R"({"currency": "EUR", "sum": 207.5, "held": null, "instead": null, "missing": ["'sand' by the ft3"]})"_json);
  EXPECT_EQ(json["cuts"],
            R"([{"mark": "A", "part_ids": ["x", "y"], "stock": "2x4", "length_mm": 263.525, "width_mm": 88.9,
    "thickness_mm": 38.1,
    "count": 2, "ends": "0.0 and 2.3 deg from square", "short_mm": 262.5, "fitted_mm": 1.7,
    "sheet": false, "hold": null, "rip_from": null, "rip_from_mm": null}])"_json);
  EXPECT_EQ(json["sticks"], R"([{"stock": "2x4", "length_mm": 2438.4, "count": 1, "to_order": true,
    "offcut_mm": 1905.0, "hold": null,
    "pieces": [{"mark": "A", "length_mm": 263.525, "ripped_mm": 0.0, "lane": 0},
    {"mark": "A", "length_mm": 263.525, "ripped_mm": 0.0, "lane": 0}]}])"_json);
  EXPECT_EQ(json["stocks"],
            R"([{"stock": "2x4", "pieces": 2, "kerf_mm": 3.175, "trim_mm": 3.25, "preferred": true,
    "bought_mm": 2438.5, "least_mm": 2400.5, "offcut_mm": 1905.5, "proven": false, "fewest": true,
    "hold": null, "sold_as": null, "sticks_mm": [2438.4, 3048.0], "preferred_mm": [2438.4]}])"_json);
  EXPECT_EQ(json["files"], R"([{"path": "model.step", "bytes": 12, "sha256": "ab"}])"_json);
}

TEST(JsonValues, OfTheRoom) {
  // Source: the sample's own numbers; what stands before no stud and what is not known has no number.
  const Json room = written()["room"];
  EXPECT_EQ(
      room["closure"],
      R"({"solved": true, "spare": true, "worst_mm": 0.5, "allowed_mm": 1.5, "suspect": "left", "missing": ["front"],
    "readings": [{"name": "back", "reading_mm": 1801.0, "solved_mm": 1802.0, "tolerance_mm": 1.25,
    "if_others_hold_mm": 1803.0}]})"_json);
  EXPECT_EQ(room["widths"],
            R"([{"height_mm": 1200.0, "reading_mm": 1798.0, "solids_mm": 1799.0, "tolerance_mm": 1.75,
    "from_back_mm": 305.0}])"_json);
  EXPECT_EQ(room["not_plumbed"], R"(["right"])"_json);
  EXPECT_EQ(
      room["floor"],
      R"({"known": true, "by_drops": false, "along_width_mm": 4.25, "along_depth_mm": 3.25, "hump_mm": 1.125, "hump_at_mm": [101.0,
    102.0, 3.0],
    "hollow_mm": 2.25, "hollow_at_mm": [103.0, 104.0, -4.0], "twist_mm": -5.5, "rock_mm": 0.75,
    "rock_at": "front left", "datum_at_mm": null, "spots_mm": [], "unread_corners": ["back right"]})"_json);
  EXPECT_EQ(room["studs"],
            R"([{"id": "wall-back/stud-02", "wall": "back", "before": "base", "running_mm": 407.0, "at_floor_mm": 4.5,
    "at_upstand_mm": 5.5, "at_top_mm": 9.5, "assumed": true},
    {"id": "wall-left/stud-01", "wall": "left", "before": "", "running_mm": 19.0, "at_floor_mm": null,
    "at_upstand_mm": null, "at_top_mm": null, "assumed": false}])"_json);
  EXPECT_EQ(room["corners"],
            R"([{"corner": "back left", "wall": "left", "at_floor_mm": 3.5, "at_upstand_mm": 3.75}])"_json);
  EXPECT_EQ(room["drop_in"],
            R"({"between_walls": true, "length_mm": 1460.0, "height_mm": 101.0, "least_mm": 5.25, "least_at_mm": 1202.0,
    "tip_deg": 6.5,
    "tip_clear_mm": 2.5, "widths": [{"height_mm": 12.0, "width_mm": 1466.0}, {"height_mm": 1201.0,
    "width_mm": 1465.0}], "read_narrower_at_mm": 1203.0})"_json);
  EXPECT_EQ(room["drain_window"],
            R"({"joists_known": true, "along": "width", "free_mm": [[501.0, 702.0], [800.0, 900.0]], "other_mm": [111.0,
    808.0],
    "now_mm": [712.0, 412.0, 0.0], "left_face_mm": 7.0, "any": true, "nearest_mm": [713.0, 413.0, 0.0],
    "moved_mm": 3.5,
    "falls_there_percent": [2.25, 4.25], "falls_there_unknown": "", "joist": {"depth_mm": 184.0, "hole_mm": 61.0,
    "notch_mm": 31.0, "end_notch_mm": 46.0}})"_json);
  EXPECT_EQ(room["heights_at_drain"],
            R"([{"name": "datum", "above_datum_mm": 0.0, "above_last_mm": 0.0}, {"name": "rib plane",
    "above_datum_mm": 12.0, "above_last_mm": 11.0}])"_json);
  EXPECT_EQ(room["gauges"][0],
            R"({"name": "A1", "at_mm": [14.0, 901.0], "floor_mm": -3.0, "set_mm": 15.0, "spread_mm": 33.0,
    "keep_clear": false})"_json);
  EXPECT_EQ(room["gauges"][1]["keep_clear"], true);
  EXPECT_EQ(room["set_out"], R"([{"name": "bore centre from the left stud face", "mm": 1066.0}])"_json);
}

TEST(JsonValues, OfTheBaseAsSetAndHowSureAllIs) {
  // Source: the sample's own numbers; 0.021 is 2.1 % and 0.252 in/ft.
  const Json room = written()["room"];
  Json set = room["as_set"];
  EXPECT_NEAR(set["falls"][0]["percent"].get<double>(), 2.1, 1e-12);
  EXPECT_NEAR(set["falls"][0]["in_per_ft"].get<double>(), 0.252, 1e-12);
  EXPECT_NEAR(set["falls"][0]["inward_percent"].get<double>(), 2.05, 1e-12);
  set.erase("falls");
  EXPECT_EQ(set,
            R"({"threshold_least_mm": 63.0, "threshold_greatest_mm": 66.0, "upstand_least_mm": 101.5, "raised_mm": 2.75,
    "drain_body_mm": 36.5, "apron_least_mm": 4.25, "apron_greatest_mm": 5.75, "slope_x": 0.001,
    "slope_y": -0.002,
    "over_length_mm": 1.46, "over_width_mm": -1.83, "twist_mm": 0.375, "points": [{"name": "back left",
    "at_mm": [13.0, 899.0], "off_mm": 0.5, "plane_mm": 0.625}]})"_json);
  EXPECT_EQ(room["worst_case"],
            R"([{"what": "mortar in the bed as set", "unit": "mm3", "nominal": 4e7, "least": 3.8e7, "greatest": 4.2e7,
    "matters_most": "spot level", "by_it": 1e5, "unknown": ""},
    {"what": "fall", "unit": "ratio", "nominal": 0.02, "least": null, "greatest": null, "matters_most": "",
    "by_it": 0.0, "unknown": "why"}])"_json);
  Sample unread;
  unread.facts.room.as_set.read = false;
  EXPECT_TRUE(Json::parse(report::to_json(unread.report()))["room"]["as_set"].is_null());
}

TEST(JsonValues, OfTheKindOfBase) {
  // Source: the numbers put in here, field by field.
  Sample site;
  site.job.base.kind = job::BaseKind::site_built;
  site.job.base.site.waterproofing = job::Waterproofing::liner;
  site.job.base.site.line = units::Length::mm(900);
  facts::SiteBuilt& built = site.facts.site_built.emplace();
  built.at_flange_mm = 31, built.flange_top_mm = 32, built.cover_least_mm = 38.5, built.bed_fall_least = 0.0208;
  built.bed_top_mm2 = 1.25e6, built.forms_mm = 1500.5;
  built.marks = {{"back wall", 300, {310, 890}, -2, 41, 80.5, true}};
  const Json mortar = Json::parse(report::to_json(site.report()))["base"];
  EXPECT_EQ(mortar["kind"], "site-built");
  EXPECT_TRUE(mortar["bought"].is_null());
  EXPECT_EQ(mortar["site_built"],
            R"({"waterproofing": "liner", "at_flange_mm": 31.0, "flange_top_mm": 32.0, "cover_least_mm": 38.5,
    "bed_fall_least": 0.0208, "bed_top_mm2": 1.25e6, "forms_mm": 1500.5, "line_mm": 900.0, "marks": [{"line":
    "back wall", "along_mm": 300.0, "at_mm": [310.0, 890.0], "corner": true, "subfloor_mm": -2.0, "bed_mm": 41.0,
    "top_mm": 80.5}]})"_json);
  Sample taped;
  taped.job.base.kind = job::BaseKind::bought;
  facts::Bought& bought = taped.facts.bought.emplace();
  bought.drain_aside_mm = -12.5, bought.waste_aside_mm = 8, bought.density_kg_m3 = 1450, bought.waste_back_mm = -3;
  bought.out_of_square_mm = 1.5, bought.bed_least_mm3 = 1e7, bought.bed_greatest_mm3 = 2e7;
  const Json known = Json::parse(report::to_json(taped.report()))["base"];
  EXPECT_EQ(known["kind"], "bought");
  EXPECT_EQ(known["bought"],
            R"({"drain_aside_mm": -12.5, "waste_aside_mm": 8.0, "waste_back_mm": -3.0, "density_kg_m3": 1450.0,
    "out_of_square_mm": 1.5, "bed_least_mm3": null, "bed_greatest_mm3": null})"_json);
  bought.ribs_known = false;
  const Json range = Json::parse(report::to_json(taped.report()))["base"]["bought"];
  EXPECT_EQ(range["bed_least_mm3"], 1e7);
  EXPECT_EQ(range["bed_greatest_mm3"], 2e7);
}

}  // namespace
}  // namespace fallwright
