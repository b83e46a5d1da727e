#include "rules/good_facts.hpp"
#include "support/imperial.hpp"
#include "support/part_id.hpp"

namespace fallwright::sample {
namespace {

using facts::Behind, facts::Turned, survey::Side;

facts::Facet facet(facts::Surface surface, const char* name, double in_per_ft, double run_in, double flow_x,
                   double flow_y) {
  facts::Facet f;
  f.surface = surface;
  f.facet = name;
  f.area_mm2 = 1e5;
  f.fall = in_per_ft / 12;
  f.run_mm = run_in * in;
  f.flow = {flow_x, flow_y, 0};
  return f;
}

std::vector<facts::Facet> facets() {
  return {facet(facts::Surface::base_floor, "back", 0.45, 13.75, 0, -1),
          facet(facts::Surface::base_floor, "front", 0.45, 13.75, 0, 1),
          facet(facts::Surface::base_floor, "left", 0.3, 26.25, 1, 0),
          facet(facts::Surface::base_floor, "right", 0.3, 26.25, -1, 0),
          facet(facts::Surface::threshold, "top", 0.25, 4, 0, 1),
          facet(facts::Surface::seat, "top", 0.25, 14.5, 1, 0)};
}

facts::Part part(const char* id, double mass_kg) {
  facts::Part p;
  p.which = sample::part_id(id);
  p.id = p.material = id;
  p.volume_mm3 = 1e6;
  p.area_mm2 = 1e5;
  p.mass_kg = mass_kg;
  p.bbox_mm = {0, 0, 0, 57.5 * in, 36 * in, 4 * in};
  p.valid = true;
  return p;
}

facts::Bed bed() {
  facts::Bed b;
  b.least_mm = b.least_under_ribs_mm = 0.625 * in;
  b.greatest_mm = 1.5 * in;
  b.gauge_mm = 1.25 * in;
  b.set_mm3 = 40e6;
  b.spread_mm3 = 41e6;
  b.squeeze_out_mm3 = 1e6;
  b.contact_mm2 = 1.2e6;
  b.plan_mm2 = 1.25e6;
  b.underside_mm2 = 1.3e6;
  b.bare = {5e4, {0, 0, 57.5 * in, 36 * in}, {Side::back, Side::left, Side::right}, false};
  return b;
}

facts::Heights heights() {
  facts::Heights h;
  h.drain_top_mm = 1.5 * in;
  h.rib_plane_mm = 0.5 * in;
  h.rim_least_mm = h.rim_greatest_mm = 2 * in;
  h.threshold_least_mm = 4 * in;
  h.threshold_greatest_mm = 4.1 * in;
  h.upstand_top_mm = 5.5 * in;
  h.seat_front_mm = 18 * in;
  h.seat_back_mm = 18.3 * in;
  h.outside = level_at(0.25 * in);
  h.floor_at_threshold_mm = 2 * in;
  return h;
}

std::vector<facts::Edge> edges() {
  const double up = 5.5 * in;
  return {{Side::back, Behind::wall, Turned::upstand, up, up, false},
          {Side::front, Behind::nothing, Turned::threshold, 4 * in, 4.1 * in, false},
          {Side::left, Behind::bench, Turned::upstand, up, up, false},
          {Side::right, Behind::wall, Turned::upstand, up, up, false}};
}

/// A timber 2x4 frame under 3/4 in of deck: on edge, the plate flat.
std::vector<facts::Bearer> bearers() {
  const facts::Bending edge{88.9, 2.2307e6, 5.0185e4, 3387}, flat{38.1, 4.0972e5, 2.1508e4, 3387};
  return {{facts::Bears::deck, "bench-frame/deck", false, 254, 254, 368, 0, 0, 0, false, 0, 0, {19.05, 0, 0, 0}},
          {facts::Bears::joist, "bench-frame/joist-01", false, 241, 286, 38.1, 3387, 0, 0, false, 1452, 0, edge},
          {facts::Bears::front_rail, "bench-frame/front-rail", false, 254, 292, 38.1, 3387, 0, 0, false, 1452, 0, edge},
          {facts::Bears::plate, "bench-frame/top-plate", false, 254, 292, 88.9, 3387, 0, 0, false, 3387, 0, flat},
          {facts::Bears::stud, "bench-frame/stud-01", false, 250, 250, 38.1, 3387, 0, 0, false, 3387, 0, flat}};
}

facts::Hold hold(Side side, Behind behind, double length_mm) {
  facts::Hold h;
  h.side = side;
  h.behind = behind;
  h.length_mm = length_mm;
  h.apart_mm = h.sure_apart_mm = 15 * in;
  h.to_mm = 15 * in;
  h.screws_mm = 5.625 * in;
  h.thickness_mm = 0.5 * in;
  const bool back = side == Side::back;
  h.ends = {{{back ? Side::left : Side::back, in, in}, {back ? Side::right : Side::front, in, in}}};
  return h;
}

facts::Room room() {
  facts::Room r;
  r.closure = {true, true, {{"back", 1800, 1800, 1.5, 1800.9}}, 0.5, 1.5, "", {}};
  r.widths = {{1200, 1798, 1799, 1.5}};
  r.floor.known = true;
  r.floor.along_width_mm = 4, r.floor.along_depth_mm = 3, r.floor.hump_mm = 1, r.floor.rock_mm = 0.5;
  r.studs = {{"wall-back/stud-02", Side::back, facts::Before::base, 400, 4, 5, 9}};
  r.corners = {{Side::back, Side::left, Side::left, 3, 3}};
  r.drop_in = {true, 1460, 100, {{12, 1466}, {1200, 1465}}, 5, 1200, 0, 0, 2};
  r.as_set.read = true;
  r.as_set.points = {{"back left", 0, 900, 0, 0},
                     {"back right", 1400, 900, 1, 1},
                     {"front right", 1400, 0, 1, 1},
                     {"front left", 0, 0, 0, 0}};
  r.as_set.falls = {{facts::Surface::base_floor, "left", 0.3 / 12},
                    {facts::Surface::base_floor, "back", 0.45 / 12},
                    {facts::Surface::threshold, "top", 0.25 / 12, 0.25 / 12}};
  r.as_set.threshold_least_mm = 2.5 * in, r.as_set.threshold_greatest_mm = 2.6 * in;
  r.as_set.upstand_least_mm = 4 * in;
  r.as_set.raised_mm = 0, r.as_set.drain_body_mm = -2.5 * in;
  r.as_set.apron_least_mm = r.as_set.apron_greatest_mm = 0;
  r.gauges = {{"A1", 100, 800, 0, 0.5 * in, 1.25 * in, false}};
  return r;
}

}  // namespace

facts::Facts good_facts() {
  facts::Facts f;
  f.parts = {part("base", 90), part("bed", 85), part("seat-block", 40), part("joists/joist-01", 20)};
  f.parts.back().bbox_mm = {700, -1200, -255, 738.1, 2400, -19};  // along the depth, under the base's middle
  f.facets = facets();
  f.drainage = {{facts::Surface::base_floor, true, 0, {}, {}},
                {facts::Surface::threshold, true, 0, {}, {}},
                {facts::Surface::seat, true, 0, {}, {}}};
  f.fits = {{sample::part_id("base"), sample::part_id("bed"), facts::Touch::touch, 0, 0, {}}};
  f.openings = {{facts::Axis::width, 72.25 * in, 57.5 * in, 14.5 * in, 0.25 * in},
                {facts::Axis::depth, 36.25 * in, 36 * in, {}, 0.25 * in}};
  f.bed = bed();
  f.clear = {1250 * in * in, 31.5 * in, {700, 400, 40}, 31.5 * in, 41 * in, 15.5 * in};
  f.clear.finished = facts::Finished{1200 * in * in, 31 * in, {700, 400, 40}, 31 * in, 40 * in};
  f.clear.finished->seat_depth_mm = 15.5 * in;
  f.clear.seat_reach_mm = 0;
  f.clear.seat_rear_gap_mm = f.clear.seat_side_gap_mm = 0.75 * in;
  f.clear.finished->seat_rear_gap_mm = f.clear.finished->seat_side_gap_mm = 0;
  f.clear.compartment = {36 * in, 36 * in, 36 * in};
  f.heights = heights();
  f.edges = edges();
  f.skirt = {12 * in, {}, 0., 0.};
  f.drain = {0.875 * in, 4 * in,     "joists/joist-04",
             2 * in,     1.375 * in, {{Side::back, 13 * in}, {Side::right, 25 * in}}};
  f.backings = {{"grab bar", Side::back, 860, 1, 0, false, 700, 0, 0}};
  f.backings[0].beside = {{Side::left, 0, 20 * in, -20 * in}};
  f.holds = {hold(Side::back, Behind::wall, 57.5 * in), hold(Side::left, Behind::bench, 36 * in),
             hold(Side::right, Behind::wall, 36 * in)};
  f.deck = {true, 0.75 * in, 16 * in, {700, 450, 0}};
  f.flood = {1.2e6, {Side::front}, {{50, 4.5e7, 1.2e6}}};
  f.finish.top_mm = 80 * in;
  f.members = {
      {sample::part_id("bench-frame/joist-01"), "bench-frame/joist-01", "2x4", false, false, 200, 200, 88.9, 38.1, {}}};
  f.sections = {{"2x4", false, 3387, 0, {44.45, 19.05}, bearers()[1].bending, bearers()[3].bending}};
  f.bearers = bearers();
  f.cleat = {"bench-frame/wall-cleat",
             1.5 * in,
             4,
             {0.75 * in, 16 * in, 20 * in, 35.25 * in},
             {0.75 * in, 12.25 * in, 23.75 * in, 35.25 * in},
             10.75 * in};
  f.rail = {"bench-frame/front-rail", 1.5 * in, f.cleat->joists_at_mm, 0, 36 * in, 13 * in, 0.75 * in};
  f.stand = {0, 36 * in, 15 * in, 12.75 * in, 18.25 * in, 60, 7.25 * in};
  f.seat_edge = {0.5 * in, Side::right, 1.25 * in};
  f.pipe = {true,  0, 5.5 * in, 9 * in, 8.5 * in, false, true, {}, {}, {}, {}, "joists/joist-03 and joists/joist-04",
            5 * in};
  f.room = room();
  f.room.kinks = {{Side::left, 0, 16 * in}};
  return f;
}

}  // namespace fallwright::sample
