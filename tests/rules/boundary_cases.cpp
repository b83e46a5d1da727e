#include "rules/boundary_cases.hpp"

#include <algorithm>
#include <stdexcept>

#include "rules/beam.hpp"
#include "rules/good_facts.hpp"
#include "support/imperial.hpp"
#include "support/part_id.hpp"
#include "support/sample.hpp"

namespace fallwright::sample {
namespace {

using facts::Facts;
using job::Job;
using job::Length;
using rules::Outcome;

Put all_falls(facts::Surface surface) {
  return [=](Job&, Facts& f, double per_ft) {
    for (facts::Facet& each : f.facets) each.fall = each.surface == surface ? per_ft / 12 : each.fall;
  };
}
Put all_as_set() {
  return [](Job&, Facts& f, double per_ft) {
    for (auto& each : f.room.as_set.falls)
      each.fall = each.surface == facts::Surface::base_floor ? per_ft / 12 : each.fall;
  };
}
/// With the upstands well above it, whose own check would answer else.
Put as_set_threshold_greatest() {
  return [](Job&, Facts& f, double inches) {
    f.room.as_set.threshold_greatest_mm = inches * in, f.room.as_set.upstand_least_mm = 20 * in;
  };
}
Put opening(std::size_t index) {
  return fact([=](Facts& f) -> double& { return f.openings[index].left_over_mm; });
}
Put pond(std::size_t index) {
  return [=](Job&, Facts& f, double mm) { f.drainage[index].pond_mm = mm, f.drainage[index].drains = mm <= 0; };
}

std::vector<Case> falls() {
  // Source: IRC P2709.1 (2009, 2021) for the floor; seat and threshold: common practice, no source. In in/ft.
  return {{"floor.fall-least", 0.25, 0.26, 0.24, all_falls(facts::Surface::base_floor)},
          {"floor.fall-greatest", 0.5, 0.49, 0.51, all_falls(facts::Surface::base_floor)},
          {"rim.fall-least", 0.25, 0.26, 0.24, all_as_set()},
          {"rim.fall-greatest", 0.5, 0.49, 0.51, all_as_set()},
          {"rim.threshold-inward", 0.125, 0.13, 0.12,
           fact([](Facts& f) -> double& { return f.room.as_set.falls.back().inward; }, 1. / 12)},
          {"seat.fall-least", 0.125, 0.13, 0.12, all_falls(facts::Surface::seat)},
          {"seat.fall-greatest", 0.5, 0.49, 0.51, all_falls(facts::Surface::seat)},
          {"threshold.falls-inward", 0.125, 0.13, 0.12, all_falls(facts::Surface::threshold)},
          {"floor.drains", 0, 0, 0.01, pond(0)},
          {"threshold.drains", 0, 0, 0.01, pond(1)},
          {"seat.drains", 0, 0, 0.01, pond(2)}};
}

std::vector<Case> heights() {
  // Source: IRC P2709.1 (2009, 2021): 2 in to 9 in above the drain's top, 1 in below the sides; not below the floor
  // outside: common practice, no source.
  const Put least = [](Job&, Facts& f, double v) { f.heights.threshold_least_mm = f.heights.drain_top_mm + v * in; };
  const Put most = [](Job&, Facts& f, double v) { f.heights.threshold_greatest_mm = f.heights.drain_top_mm + v * in; };
  const Put sides = [](Job&, Facts& f, double v) {
    f.heights.upstand_top_mm = *f.heights.threshold_greatest_mm + v * in;
  };
  const Put outside = [](Job&, Facts& f, double v) { level_outside(f, *f.heights.threshold_least_mm - v * in); };
  const Put step = [](Job& j, Facts& f, double v) {
    j.base.threshold = {};
    const double top = f.heights.outside->least_mm + v * in;
    f.edges[1] = {job::Side::front, facts::Behind::nothing, facts::Turned::rim, top, top, false};
  };
  const Put bare = [](Job&, Facts& f, double v) {
    f.edges[0].turned = v > 0 ? facts::Turned::rim : facts::Turned::upstand;
  };
  const Put skirt = [](Job&, Facts& f, double v) {
    if (v > 0) f.skirt->bare_walls = {job::Side::back};
  };
  return {{"entry.step", 0.5, 0.49, 0.51, step, Outcome::caution},
          {"entry.step", 0.5, 0.49, 0.51, step, Outcome::fail, "accessible"},
          {"upstand.every-wall", 0, 0, 1, bare},
          {"seat.keeps-frame-dry", 0, 0, 1, skirt},
          {"threshold.height-least", 2, 2.01, 1.99, least},
          {"threshold.height-greatest", 9, 8.99, 9.01, most},
          {"threshold.below-upstand", 1, 1.01, 0.99, sides},
          {"threshold.above-outside", 0, 0.01, -0.01, outside}};
}

std::vector<Case> room() {
  // Source: IRC P2708.1 (2018) for area and width; UPC 408.7 (2024) for the circle; IRC P2708.1.1 (2018) for the entry.
  const Put entry = [](Job&, Facts& f, double v) { f.clear.finished->entry_mm = v * in; };
  return {
      {"clear.area", 900, 901, 899, fact([](Facts& f) -> double& { return f.clear.finished->area_mm2; }, in2)},
      {"clear.width", 30, 30.01, 29.99, fact([](Facts& f) -> double& { return f.clear.finished->least_width_mm; }, in)},
      {"clear.circle", 30, 30.01, 29.99, fact([](Facts& f) -> double& { return f.clear.finished->circle_mm; }, in),
       Outcome::caution},
      {"access.opening", 22, 22.01, 21.99, entry}};
}

std::vector<Case> fit() {
  // Source: common practice, no source. Below none things go through each other; furring closes 3 and 4 mm here.
  const Put body = fact([](Facts& f) -> double& { return f.drain.body_to_bore_mm; }, in);
  const Put joist = [](Job&, Facts& f, double v) { f.drain.bore_to_joist_mm = v * in; };
  const Put clash = [](Job&, Facts& f, double v) {
    if (v > 0)
      f.fits.push_back(
          {sample::part_id("base"), sample::part_id("bench-frame/joist-01"), facts::Touch::clash, 0, 500, {}});
  };
  return {{"opening.width", 0, 0.1, -1, opening(0)},
          {"opening.width", 0.5 * in, 0.49 * in, 0.51 * in, opening(0), Outcome::caution},
          {"opening.depth", 0, 0.1, -1, opening(1)},
          {"opening.depth", 0.5 * in, 0.49 * in, 0.51 * in, opening(1), Outcome::caution},
          {"drain.in-bore", 0.25, 0.26, 0.24, body},
          {"drain.bore-clear-of-joists", 0.25, 0.26, 0.24, joist},
          {"fit.no-clash", 0, 0, 1, clash},
          {"solids.valid", 0, 0, 1, [](Job&, Facts& f, double v) { f.parts[1].valid = v == 0; }}};
}

std::vector<Case> bed() {
  // Source: the sample job asks for 1/2 in; 2 in a lift, 3/8 in at least, no voids, a quarter squeezed out, 80 % of
  // bearing are common practice, no source. Round the drain half a pocket: 8 by 6 between 1/2 in ribs over 57-1/2 by 36
  // in, (35.5 / 6 - 1/2) / 2 = 2.708 in.
  const Put thickness = [](Job& j, Facts& f, double v) {
    j.bed.least = Length::inches(0.25);
    f.bed.least_under_ribs_mm = v * in;
  };
  const Put squeezed = [](Job&, Facts& f, double v) { f.bed.squeeze_out_mm3 = v * f.bed.set_mm3; };
  const Put reach = [](Job&, Facts& f, double v) { f.drain.body_to_bed_mm = v * in; };
  return {{"bed.least", 0.5, 0.51, 0.49, fact([](Facts& f) -> double& { return f.bed.least_under_ribs_mm; }, in)},
          {"bed.greatest", 2, 1.99, 2.01, fact([](Facts& f) -> double& { return f.bed.greatest_mm; }, in),
           Outcome::caution},
          {"bed.fills-shell", 0, 1e4, -1e4, fact([](Facts& f) -> double& { return f.bed.squeeze_out_mm3; })},
          {"bed.thickness", 0.375, 0.38, 0.37, thickness},
          {"bed.squeeze-out", 0.25, 0.249, 0.251, squeezed, Outcome::caution},
          {"bed.round-drain", (35.5 / 6 - 0.5) / 2, 2.70, 2.72, reach},
          {"bed.bearing", 0.8, 0.801, 0.799,
           [](Job&, Facts& f, double v) { f.bed.contact_mm2 = v * f.bed.underside_mm2; }}};
}

std::vector<Case> survey() {
  // Source: common practice, no source, for floor, gaps and levelling; the sample's own tolerances for readings.
  // A left side low by v takes atan(v / length) off the left facet's angle: what is left must be that of 1/4 in/ft.
  const Put window = [](Job&, Facts& f, double v) {
    facet(f, facts::Surface::base_floor, "left").fall = std::tan(std::atan(1. / 48) + std::atan(v / (57.5 * in)));
  };
  const Put width = [](Job&, Facts& f, double v) { f.room.widths[0].reading_mm = f.room.widths[0].solids_mm + v; };
  const Put tip = [](Job&, Facts& f, double v) { f.room.drop_in.least_mm = -5, f.room.drop_in.tip_clear_mm = v; };
  // The riser's top stands an inch below the datum.
  const Put riser = [](Job&, Facts& f, double v) { f.room.as_set.drain_body_mm = (-1 - v) * in; };
  const Put apron = [](Job&, Facts& f, double v) {
    f.room.as_set.apron_least_mm = f.room.as_set.apron_greatest_mm = v * in;
  };
  const auto caution = Outcome::caution;
  return {
      {"survey.closes", 1.5, 1.49, 1.51, fact([](Facts& f) -> double& { return f.room.closure.worst_mm; })},
      {"survey.widths-agree", 4.5, 4.49, 4.51, width, caution},
      {"floor.level", 0.375, 0.37, 0.38, fact([](Facts& f) -> double& { return f.room.floor.along_depth_mm; }, in)},
      {"floor.hump", 0.125, 0.12, 0.13, fact([](Facts& f) -> double& { return f.room.floor.hump_mm; }, in), caution},
      {"floor.rock", in / 32, in / 33, in / 31, fact([](Facts& f) -> double& { return f.room.floor.rock_mm; }),
       caution},
      {"room.stud-gap", 0.5, 0.49, 0.51, fact([](Facts& f) -> double& { return f.room.corners[0].at_floor_mm; }, in),
       caution},
      {"room.drop-in", 0.125, 0.13, 0.12, fact([](Facts& f) -> double& { return f.room.drop_in.least_mm; }, in),
       caution},
      {"room.goes-in", 0, 0.1, -0.1, tip},
      {"levelling.window", in / 16, in / 15, in / 17, window, caution},
      {"rim.threshold-least", 2, 2.01, 1.99,
       fact([](Facts& f) -> double& { return *f.room.as_set.threshold_least_mm; }, in)},
      {"rim.threshold-greatest", 9, 8.99, 9.01, as_set_threshold_greatest()},
      {"rim.below-upstand", 3.6, 3.61, 3.59,
       fact([](Facts& f) -> double& { return *f.room.as_set.upstand_least_mm; }, in)},
      {"rim.riser", 0.5, 0.51, 0.49, riser},
      {"rim.riser", 3.625, 3.62, 3.63, riser},
      {"rim.apron", -0.0625, -0.06, -0.07, apron, caution},
      {"rim.apron", 0.25, 0.24, 0.26, apron, caution},
      {"rim.bed", 0.375, 0.38, 0.37, fact([](Facts& f) -> double& { return f.room.gauges[0].set_mm; }, in)},
      {"rim.bed", 1.25, 1.24, 1.26, fact([](Facts& f) -> double& { return f.room.gauges[0].set_mm; }, in)},
      {"rim.twist", in / 16, in / 17, in / 15, fact([](Facts& f) -> double& { return f.room.as_set.twist_mm; }),
       caution}};
}

std::vector<Case> plumbing() {
  // Source: IRC P2709.2 (2021), Table P3201.7 (2021), R502.8.1 (2018): a 2x8 is 7-1/4 in deep, a third is 2.417 in and
  // less than its depth less 4 in, a sixth is 1.208 in; blocking: common practice, no source.
  using job::Fall;
  return {{"liner.above-threshold", 3, 3.01, 2.99,
           [](Job& j, Facts&, double v) { j.liner->above_threshold = Length::inches(v); }},
          {"liner.fall", 0.25, 0.26, 0.24, [](Job& j, Facts&, double v) { j.liner->fall = Fall::inches_per_foot(v); }},
          {"joist.hole", 7.25 / 3, 2.41, 2.42, [](Job& j, Facts&, double v) { j.trap->hole = Length::inches(v); }},
          {"joist.notch", 7.25 / 6, 1.20, 1.21, [](Job& j, Facts&, double v) { j.trap->notch = Length::inches(v); }},
          {"drain.outlet", 1.5, 1.51, 1.47,
           [](Job& j, Facts& f, double v) {
             f.drain.outlet_mm = v * in;
             j.drain.flow_mm3 = 2.5 * 231 * in2 * in;  // gallons in a minute
           }},
          {"blocking.behind", 1, 1, 0.99, [](Job&, Facts& f, double v) { f.backings[0].share = v; }}};
}

/// The trap arm by its pipe: at a limit, at `step` on its good side and on its bad side.
std::vector<Case> pipes() {
  // Source: IRC P3105.1 (2021), P3105.2, P3105.3 and P3005.3 (2018); UPC Table 1002.2, 1002.4 and 708.1; Approved
  // Document H; outside of a 2 in pipe 2.375 in (ASTM D1785), of DN 50 its number (EN 1329, from memory).
  using job::Fall;
  const auto pipe = [](Job& j, double nominal_mm) { j.trap->pipe = Length::mm(nominal_mm); };
  const auto arm = [=](double nominal_mm) -> Put {
    return [=](Job& j, Facts&, double mm) { pipe(j, nominal_mm), j.trap->arm = Length::mm(mm); };
  };
  const auto fall = [=](double nominal_mm) -> Put {
    return [=](Job& j, Facts&, double ratio) { pipe(j, nominal_mm), j.trap->fall = Fall::ratio(ratio); };
  };
  const auto drop = [=](double nominal_mm) -> Put {
    return [=](Job& j, Facts&, double mm) {
      pipe(j, nominal_mm), j.trap->arm = Length::feet(4), j.trap->fall = Fall::ratio(mm / (48 * in));
    };
  };
  const auto hole = [=](double nominal_mm) -> Put {
    return [=](Job& j, Facts&, double mm) { pipe(j, nominal_mm), j.trap->hole = Length::mm(mm); };
  };
  const auto fail = Outcome::fail;
  std::vector<Case> cases;
  const auto most = [&](const char* book, const char* id, double at, double step, const Put& put) {
    cases.push_back({id, at, at - step, at + step, put, fail, book});
  };
  const auto least = [&](const char* book, const char* id, double at, double step, const Put& put) {
    cases.push_back({id, at, at + step, at - step, put, fail, book});
  };
  const struct {
    double nominal, irc, upc, irc_fall;
  } inch[] = {{1.25, 60, 30, 0.25}, {1.5, 72, 42, 0.25}, {2, 96, 60, 0.25}, {3, 144, 72, 0.125}, {4, 192, 120, 0.125}};
  for (const auto& p : inch) {
    most("residential", "trap.arm", p.irc * in, 2, arm(p.nominal * in));
    most("plumbing", "trap.arm", p.upc * in, 2, arm(p.nominal * in));
    least("residential", "trap.fall", p.irc_fall / 12, 1e-3, fall(p.nominal * in));
    least("plumbing", "trap.fall", 0.25 / 12, 1e-3, fall(p.nominal * in));
    for (const char* book : {"residential", "plumbing"}) {
      most(book, "trap.drop", p.nominal * in, 0.5, drop(p.nominal * in));
      least(book, "trap.arm-least", 2 * p.nominal * in, 2, arm(p.nominal * in));
    }
  }
  // Source: UPC 1002.3 (2018), IRC P3005.2.4 (2006), IPC 708.1.4 (2018), EN 12056-2 table 5 from memory.
  const auto turn = [=](double nominal_mm) -> Put {
    return [=](Job& j, Facts&, double degrees) {
      pipe(j, nominal_mm), j.trap->bends = {{degrees / 3, {}, {}}, {degrees * 2 / 3, {}, {}}};
    };
  };
  for (const auto& p : inch) most("plumbing", "trap.turns", p.nominal < 3 ? 90 : 135, 3, turn(p.nominal * in));
  for (const double dn : {40, 50}) most("plumbing", "trap.turns", 90, 3, turn(dn));  // sold for 1-1/2 and 2 in
  most("plumbing", "trap.turns", 135, 3, turn(75));
  for (const char* book : {"residential", "building"})
    cases.push_back({"trap.turns", 45, 44, 46, turn(2 * in), Outcome::caution, book});
  most("european", "trap.bends", 3, 1, [=](Job& j, Facts&, double count) {
    pipe(j, 50), j.trap->bends.assign(static_cast<std::size_t>(count), {30, {}, {}});
  });
  for (const double dn : {32, 40, 50, 75, 90, 110}) most("european", "trap.arm", 4000, 2, arm(dn));
  least("european", "trap.fall", 0.01, 1e-3, fall(50));
  for (const auto& p : inch) {
    most("building", "trap.arm", p.irc * in, 2, arm(p.nominal * in));
    most("building", "trap.drop", p.nominal * in, 0.5, drop(p.nominal * in));
  }
  most("metric", "trap.arm", 3000, 2, arm(40));
  most("metric", "trap.arm", 4000, 2, arm(50));
  least("metric", "trap.fall", 0.018, 1e-3, fall(50));
  most("metric", "trap.fall", 0.09, 1e-3, fall(50));
  least("residential", "joist.hole-for-pipe", 2.375 * in, 0.5, hole(2 * in));
  least("plumbing", "joist.hole-for-pipe", 1.9 * in, 0.5, hole(1.5 * in));
  least("accessible", "joist.hole-for-pipe", 3.5 * in, 0.5, hole(3 * in));
  least("metric", "joist.hole-for-pipe", 75, 0.5, hole(75));
  return cases;
}

std::vector<Case> walls() {
  // Source: IPC 417.5.2 (one state's) for 1 in; ANSI A108.02 for 1/16 in, of a 1/2 in board and in 24 in; IRC Table
  // R503.2.1.1(1): 24 in for 23/32; NHBC Standards 6.4.19: 600 mm for 22 mm; the rest common practice, no source.
  const Put kink = fact([](Facts& f) -> double& { return f.room.kinks[0].by_mm; }, in);
  const Put apart = [](Job&, Facts& f, double v) { f.holds[0].apart_mm = f.holds[0].sure_apart_mm = v * in; };
  const Put free_end = fact([](Facts& f) -> double& { return f.holds[2].ends[1].sure_mm; }, in);
  const Put proud = [](Job&, Facts& f, double v) { f.holds[2].thickness_mm = (0.5 + v) * in; };
  const Put boards = [](Job&, Facts& f, double v) { f.deck.thickness_mm = 22, f.deck.apart_mm = v; };
  return {{"fixture.above-water", 1, 1.01, 0.99,
           fact([](Facts& f) -> double& { return f.backings[0].above_water_mm; }, in)},
          {"fixture.clear-of-bench", 0, 0, 0.01, fact([](Facts& f) -> double& { return f.backings[0].behind_bench; })},
          {"upstand.held", 16, 15.9, 16.1, apart},
          {"upstand.end-held", 6, 5.9, 6.1, free_end, Outcome::caution},
          {"upstand.board", 1. / 16, 1. / 17, 1. / 15, proud, Outcome::caution},
          {"wall.furred-flat", 1. / 16, 1. / 17, 1. / 15, kink, Outcome::caution},
          {"floor.deck-span", 24, 23.9, 24.1, fact([](Facts& f) -> double& { return f.deck.apart_mm; }, in)},
          {"floor.deck-span", 600, 599, 601, boards, Outcome::fail, "metric"},
          {"floor.deck-span", 600, 599, 601, boards, Outcome::fail, "european"}};
}

std::vector<Case> finishes() {
  // Source: IRC R307.2 (from memory) for 72 in above the floor.
  return {{"wall.above-floor", 72, 72.1, 71.9,
           [](Job&, Facts& f, double v) { f.finish.top_mm = f.heights.rim_greatest_mm + v * in; }}};
}

/// The same checks at another book's limit.
std::vector<Case> other_books(const std::vector<Case>& residential) {
  // Source: UPC 408.5, 408.7 (2024), CPC 408 (2022); UPC 408.4 (2024) from memory; ADA 305.2 (2010); NCC 2022 Housing
  // Provisions 10.2.12: 1:80 and 1:50, as in/ft, and 1800 mm of wall; whole millimetres: common practice, no source.
  const auto caution = Outcome::caution;
  const struct {
    const char *book, *id;
    double limit, inside, outside;
    Outcome broken = Outcome::fail;
  } rows[] = {{"plumbing", "floor.fall-least", 0.25, 0.26, 0.24},
              {"plumbing", "floor.fall-greatest", 0.5, 0.49, 0.51},
              {"plumbing", "rim.fall-least", 0.25, 0.26, 0.24},
              {"plumbing", "rim.fall-greatest", 0.5, 0.49, 0.51},
              {"plumbing", "threshold.height-least", 2, 2.01, 1.99},
              {"plumbing", "threshold.height-greatest", 9, 8.99, 9.01},
              {"plumbing", "threshold.below-upstand", 1, 1.01, 0.99},
              {"plumbing", "clear.area", 1024, 1025, 1023},
              {"plumbing", "clear.circle", 30, 30.01, 29.99},
              {"plumbing", "liner.above-threshold", 3, 3.01, 2.99},
              {"plumbing", "liner.fall", 0.25, 0.26, 0.24},
              {"plumbing", "joist.hole", 7.25 / 3, 2.41, 2.42},
              {"plumbing", "joist.notch", 7.25 / 6, 1.20, 1.21},
              {"plumbing", "drain.outlet", 2, 2.01, 1.96},
              {"plumbing", "access.opening", 22, 22.01, 21.99},
              {"plumbing", "trap.vented", 1, 1, 0},
              {"plumbing", "trap.below", 24, 23.9, 24.1},
              {"plumbing", "joist.hole-edges", 2, 2.01, 1.99},
              {"plumbing", "joist.notch-place", 1. / 3, 0.33, 0.34},
              {"plumbing", "joist.notch-length", 7.25 / 3, 2.41, 2.42},
              {"building", "clear.area", 900, 901, 899},
              {"building", "clear.width", 30, 30.01, 29.99},
              {"building", "access.opening", 22, 22.01, 21.99},
              {"building", "liner.above-threshold", 2, 2.01, 1.99},
              {"building", "liner.fall", 0.25, 0.26, 0.24},
              {"building", "drain.outlet", 1.5, 1.51, 1.47},
              {"building", "trap.below", 24, 23.9, 24.1},
              {"building", "trap.aside", 30, 29.9, 30.1},
              {"building", "flood.depth", 2, 2.01, 1.99, caution},
              {"building", "load.seat-strength", 1, 0.99, 1.01},
              {"accessible", "load.seat-strength", 1, 0.99, 1.01},
              {"european", "floor.fall-least", 0.15, 0.16, 0.14},
              {"european", "floor.fall-greatest", 0.3, 0.29, 0.31},
              {"european", "rim.fall-least", 0.15, 0.16, 0.14},
              {"european", "rim.fall-greatest", 0.3, 0.29, 0.31},
              {"european", "glass.safety", 0, 0, 1},
              {"building", "glass.safety", 0, 0, 1},
              {"building", "door.opening", 22, 22.1, 21.9},
              {"plumbing", "door.opening", 22, 22.1, 21.9},
              {"plumbing", "door.swing", 0, 0, 1},
              {"accessible", "floor.fall-greatest", 0.25, 0.24, 0.26},
              {"accessible", "rim.fall-greatest", 0.25, 0.24, 0.26},
              {"metric", "floor.fall-least", 0.15, 0.16, 0.14},
              {"metric", "floor.fall-greatest", 0.24, 0.23, 0.25},
              {"metric", "rim.fall-least", 0.15, 0.16, 0.14},
              {"metric", "rim.fall-greatest", 0.24, 0.23, 0.25},
              {"metric", "wall.above-floor", 1800 / in, 1801 / in, 1799 / in},
              {"metric", "glass.safety", 0, 0, 1},
              {"metric", "seat.fall-least", 0.12, 0.13, 0.11},
              {"metric", "seat.fall-greatest", 0.48, 0.47, 0.49},
              {"metric", "threshold.falls-inward", 0.12, 0.13, 0.11},
              {"metric", "opening.width", 0, 1, -1},
              {"metric", "opening.width", 12, 11, 13, caution},
              {"metric", "opening.depth", 0, 1, -1},
              {"metric", "opening.depth", 12, 11, 13, caution},
              {"metric", "drain.in-bore", 6 / in, 6.1 / in, 5.9 / in},
              {"metric", "drain.bore-clear-of-joists", 6 / in, 6.1 / in, 5.9 / in},
              {"metric", "bed.greatest", 50 / in, 49 / in, 51 / in, caution},
              {"metric", "floor.level", 10 / in, 9.9 / in, 10.1 / in},
              {"metric", "floor.hump", 3 / in, 2.9 / in, 3.1 / in, caution},
              {"metric", "floor.rock", 1, 0.9, 1.1, caution},
              {"metric", "room.stud-gap", 12 / in, 11.9 / in, 12.1 / in, caution},
              {"metric", "room.drop-in", 3 / in, 3.1 / in, 2.9 / in, caution},
              {"metric", "rim.twist", 2, 1.9, 2.1, caution},
              {"metric", "rim.riser", 12 / in, 12.1 / in, 11.9 / in},
              {"metric", "rim.apron", -2 / in, -1.9 / in, -2.1 / in, caution},
              {"metric", "rim.apron", 6 / in, 5.9 / in, 6.1 / in, caution},
              {"metric", "apron.gap", -2 / in, -1.9 / in, -2.1 / in, caution},
              {"metric", "apron.gap", 6 / in, 5.9 / in, 6.1 / in, caution},
              {"metric", "base.over-waste", 6 / in, 5.9 / in, 6.1 / in},
              {"metric", "base.cover", 30 / in, 30.1 / in, 29.9 / in, caution},
              {"metric", "bed.thickness", 10 / in, 10.1 / in, 9.9 / in},
              {"metric", "rim.bed", 10 / in, 10.1 / in, 9.9 / in},
              {"metric", "entry.step", 12 / in, 11.9 / in, 12.1 / in, caution},
              {"metric", "fixture.above-water", 25 / in, 25.1 / in, 24.9 / in},
              {"metric", "upstand.held", 400 / in, 399 / in, 401 / in},
              {"metric", "upstand.end-held", 150 / in, 149 / in, 151 / in, caution},
              {"metric", "wall.furred-flat", 2 / in, 1.9 / in, 2.1 / in, caution},
              {"metric", "upstand.board", 2 / in, 1.9 / in, 2.1 / in, caution}};
  std::vector<Case> cases;
  for (const auto& row : rows) {
    const auto same =
        std::find_if(residential.begin(), residential.end(), [&](const Case& c) { return c.id == row.id; });
    if (same == residential.end()) throw std::logic_error(row.id);
    cases.push_back({row.id, row.limit, row.inside, row.outside, same->put, row.broken, row.book});
  }
  return cases;
}

/// What the residential book does not ask for.
std::vector<Case> of_other_books_alone() {
  // Source: ADA 608.2.1, 608.7, 610.3 and 610.3.1 (2010), half an inch either way of 36 in common practice, no source;
  // UPC 408.7 (2024); IPC 417.4.1 from memory.
  const Put from_floor = [](Job&, Facts& f, double v) {
    f.heights.threshold_greatest_mm = *f.heights.floor_at_threshold_mm + v * in;
  };
  const Put up = [](Job&, Facts& f, double v) { level_outside(f, *f.heights.threshold_greatest_mm - v * in); };
  const Put down = [](Job&, Facts& f, double v) { level_outside(f, *f.heights.threshold_least_mm + v * in); };
  const Put wide = [](Job&, Facts& f, double v) { f.clear.compartment.width_mm = v * in; };
  const Put deep = [](Job&, Facts& f, double v) { f.clear.compartment.depth_mm = v * in; };
  const Put face = [](Job&, Facts& f, double v) { f.clear.compartment.face_mm = v * in; };
  const Put window = [](Job& j, Facts& f, double v) {
    all_falls(facts::Surface::base_floor)(j, f, 12. / 64);
    facet(f, facts::Surface::base_floor, "left").fall = std::tan(std::atan(1. / 80) + std::atan(v / (57.5 * in)));
  };
  const Put above_drain = [](Job&, Facts& f, double v) { f.finish.top_mm = f.heights.drain_top_mm + v * in; };
  const Put above_room = [](Job&, Facts& f, double v) { f.finish.top_mm = f.heights.outside->least_mm + v * in; };
  const Put height = [](Job&, Facts& f, double v) { f.heights.seat_front_mm = f.heights.outside->least_mm + v * in; };
  const Put back = [](Job&, Facts& f, double v) { f.heights.seat_back_mm = f.heights.outside->least_mm + v * in; };
  const Put depth = [](Job&, Facts& f, double v) { f.clear.finished->seat_depth_mm = v * in; };
  const Put liner = [](Job& j, Facts&, double v) { j.liner->above_seat = Length::inches(v); };
  return {{"seat.height", 17, 17.01, 16.99, height, Outcome::fail, "accessible"},
          {"seat.height", 19, 18.99, 19.01, back, Outcome::fail, "accessible"},
          {"seat.depth", 15, 15.01, 14.99, depth, Outcome::fail, "accessible"},
          {"seat.depth", 16, 15.99, 16.01, depth, Outcome::fail, "accessible"},
          {"threshold.step-inside", 0.5, 0.49, 0.51, from_floor, Outcome::fail, "accessible"},
          {"threshold.step-outside", 0.5, 0.49, 0.51, up, Outcome::fail, "accessible"},
          {"threshold.step-outside", 0.5, 0.49, 0.51, down, Outcome::fail, "accessible"},
          {"access.inside-width", 35.5, 35.6, 35.4, wide, Outcome::fail, "accessible"},
          {"access.inside-width", 36.5, 36.4, 36.6, wide, Outcome::fail, "accessible"},
          {"access.inside-depth", 35.5, 35.6, 35.4, deep, Outcome::fail, "accessible"},
          {"access.inside-depth", 36.5, 36.4, 36.6, deep, Outcome::fail, "accessible"},
          {"access.face", 36, 36.01, 35.99, face, Outcome::fail, "accessible"},
          {"wall.above-drain", 70, 70.1, 69.9, above_drain, Outcome::fail, "building"},
          {"wall.above-drain", 70, 70.1, 69.9, above_drain, Outcome::fail, "plumbing"},
          {"wall.above-room", 72, 72.1, 71.9, above_room, Outcome::fail, "building"},
          {"levelling.window", 2, 2.1, 1.9, window, Outcome::caution, "metric"},
          {"liner.above-seat", 3, 3.01, 2.99, liner, Outcome::fail, "plumbing"}};
}

std::vector<Case> mixes() {
  // Source: ASTM C270 Table 1 (edition not seen): sand 2-1/4 to 3 times cement and lime; lime by type from memory.
  const auto lime = [](const char* type) -> Put {
    return [=](Job& j, Facts&, double v) { j.buy.mix = {{1, v, 2.5 * (1 + v)}, type, 0, 0, job::damp_sand_kg_m3, {}}; };
  };
  const Put sand = [](Job& j, Facts&, double v) {
    j.buy.mix = {{1, 0.25, v * 1.25}, "S", 0, 0, job::damp_sand_kg_m3, {}};
  };
  // A measure of dry sand that carries 100 lb is one and a quarter of damp sand.
  const Put dry_sand = [](Job& j, Facts&, double v) {
    j.buy.mix = {{1, 0.25, v}, "S", 0, 0, 1.25 * job::damp_sand_kg_m3, {}};
  };
  std::vector<Case> cases{{"mix.sand", 3, 2.99, 3.01, dry_sand},       {"mix.sand", 2.25, 2.26, 2.24, sand},
                          {"mix.sand", 3, 2.99, 3.01, sand},           {"mix.lime-m", 0.25, 0.24, 0.26, lime("M")},
                          {"mix.lime-s", 0.25, 0.26, 0.24, lime("S")}, {"mix.lime-s", 0.5, 0.49, 0.51, lime("S")},
                          {"mix.lime-n", 0.5, 0.51, 0.49, lime("N")},  {"mix.lime-n", 1.25, 1.24, 1.26, lime("N")},
                          {"mix.lime-o", 1.25, 1.26, 1.24, lime("O")}, {"mix.lime-o", 2.5, 2.49, 2.51, lime("O")}};
  // Under a book of another country its own rows hold, with the same limits.
  for (std::size_t i = 0, n = cases.size(); i < n; ++i) {
    Case abroad = cases[i];
    abroad.book = i % 2 == 0 ? "metric" : "european";
    cases.push_back(std::move(abroad));
  }
  return cases;
}

}  // namespace

std::vector<Case> boundary_cases() {
  std::vector<Case> all;
  const auto add = [&](const std::vector<Case>& more) { all.insert(all.end(), more.begin(), more.end()); };
  for (const auto& part : {survey(), plumbing(), walls(), finishes(), falls(), heights(), room(), fit(), bed(), mixes(),
                           load_cases(), below_cases(), base_kind_cases()})
    add(part);
  add(other_books(all));
  add(of_other_books_alone());
  add(pipes());
  add(access_cases());
  return all;
}

job::Job job_for(const Case& c) {
  job::Job job = alcove();
  job.book = c.book;
  job.liner.emplace(), job.trap.emplace();
  job.trap->from_left = Length::inches(43.25), job.trap->from_back = Length::inches(16.25);
  job.survey.board_mm = 0.5 * in;
  job.fixtures.push_back({"grab bar", job::Side::back, Length::inches(24), Length::inches(34), {}, {}});
  job.floor.joist_span = Length::feet(11);
  job.floor.joist_species = "SPF No.2";
  return job;
}

facts::Facts facts_for_boundary() {
  facts::Facts facts = good_facts();
  facts.room.drain.joists_known = true;
  facts.room.drain.joist_depth_mm = 7.25 * in;
  facts.room.drain.hole_mm = 7.25 * in / 3;
  facts.room.drain.notch_mm = 7.25 * in / 6;
  facts.pipe.routed = false, facts.pipe.bay.clear();  // nobody knows yet that the arm meets no joist
  return facts;
}

}  // namespace fallwright::sample
