// Limits on loads, round an accessible shower and below the floor, three ways.
#include <cmath>
#include <stdexcept>

#include "rules/beam.hpp"
#include "rules/boundary_cases.hpp"
#include "rules/fasteners.hpp"
#include "rules/fasteners_eurocode.hpp"
#include "rules/good_facts.hpp"
#include "rules/loads.hpp"
#include "support/imperial.hpp"

namespace fallwright::sample {
namespace {

using facts::Facts;
using job::Job;
using job::Length;
using rules::Outcome;

constexpr double psi = rules::mpa_per_psi, lbf = rules::n_per_lbf;

/// A base over the whole of a joist's span that brings all load on it to `kpa`. Else there are people, 40 psf, 3/4 in
/// of deck and a 2x10 every 16 in at 600 kg/m3.
void weigh_to(Job& j, Facts& f, double kpa) {
  const double g = 9.80665e-3, others = 40 * rules::kpa_per_psf + 600 * (0.01905 + 0.0381 * 0.23495 / 0.4064) * g;
  const double span = j.floor.joist_span->in_mm();
  j.floor.joist_bearing = Length{};
  std::erase_if(f.parts, [](const facts::Part& p) {
    return p.which.is(facts::Role::bed) || p.which.is(facts::Role::seat_block);
  });
  f.parts[0].bbox_mm = {0, 0, 0, 1500, span, 100};
  f.parts[0].mass_kg = (kpa - others) * 1.5 * span * 1e-3 / g;
}

/// A cleat of 2x4 on three common nails in each stud.
void held(Job& j) {
  j.bench->frame.fastener = "16d";
  j.bench->frame.fasteners_at_stud = 3;
}

/// A bench between two studs at its very ends, pushed as high as its cleat: all of a push at an end is a pull on one
/// stud, `lbf` over three nails of 25.554 lbf an inch (1380 G^2.5 D).
void pulled(Job& j, Facts& f, double lbf, double v) {
  held(j);
  f.cleat->studs_at_mm = f.cleat->joists_at_mm = {0, 36 * in};
  f.stand = facts::Stand{0, 36 * in, 0.1 * in, 12 * in, f.cleat->middle_mm, 10, 0};
  j.bench->frame.fasteners_at_joist = 12;
  j.bench->frame.fastener_length = Length::inches(1.5 + lbf / (3 * 1380 * std::pow(0.42, 2.5) * 0.162) / v);
}

}  // namespace

std::vector<Case> load_cases() {
  // Source: by hand: SPF No.2 (NDS Supplement Table 4A, 2018): 875, 425 psi and 1.4e6 psi. Floor: 2x10 at 16 in over 11
  // ft, size factor 1.1, repetitive 1.15: M = w L2 / 8, d = 5 w L4 / 384 EI. Seat: 250 lbf on a joist's end, and
  // d = P L3 / 48 EI.
  const double s = 1.5 * 9.25 * 9.25 / 6 * in2 * in, i = 1.5 * std::pow(9.25, 3) / 12 * in2 * in2, e = 1.4e6 * psi;
  const double span = 11 * 12 * in, spacing = 16 * in;
  const Put bending = [=](Job& j, Facts& f, double v) {
    weigh_to(j, f, v * 8 * s * 875 * psi * 1.1 * 1.15 / (spacing * span * span) * 1e3);
  };
  const Put sag = [=](Job& j, Facts& f, double v) {
    weigh_to(j, f, v * 384 * e * i / (5 * spacing * std::pow(span, 3)) * 1e3);
  };
  // 150 psf in all over joists 16 in apart, 100 over 24: 40 of people, 3/4 in of deck, the rest base on 57-1/2 by 36
  // in.
  const Put deck = [](Job&, Facts& f, double v) {
    const double kpa = (150 * v - 40) * rules::kpa_per_psf - 600 * 0.01905 * 9.80665e-3;
    f.parts[0].mass_kg = kpa * 57.5 * 36 * in2 * 1e-6 / 9.80665e-3, f.parts[1].mass_kg = 0;
  };
  // Nails of which so much is in the stud that they take just so much: across by NDS 12.3, along themselves 25.554 lbf
  // an inch (1380 G^2.5 D).
  const Put cleat = [](Job& j, Facts& f, double v) {
    held(j), f.cleat->thickness_mm = 1.5 * in;
    double low = 6 * 0.162, high = 10 * 0.162;  // 3 nails 16d take more the farther they go in
    for (int i = 0; i < 60; ++i) {
      const double into = (low + high) / 2;
      (3 * rules::across_lbf(*rules::fastener_of("16d"), 0.42, 1.5, into) * v < 250 ? low : high) = into;
    }
    j.bench->frame.fastener_length = Length::inches(1.5 + high);
  };
  // One nail 16d into each of three joists' ends, 0.67 of it across: 200 lbf by so much of it in the joist.
  const Put rail = [](Job& j, Facts& f, double v) {
    j.bench->frame.rail_fastener = "16d", j.bench->frame.fasteners_at_rail = 1;
    f.rail->thickness_mm = 1.5 * in, f.rail->joists_at_mm = {0, 300, 600};
    double low = 6 * 0.162, high = 10 * 0.162;
    for (int i = 0; i < 60; ++i) {
      const double into = (low + high) / 2;
      (3 * 0.67 * rules::across_lbf(*rules::fastener_of("16d"), 0.42, 1.5, into) * v < 200 ? low : high) = into;
    }
    j.bench->frame.rail_fastener_length = Length::inches(1.5 + high);
  };
  // 2.0 kN of EN 1991-1-1 on a joist's end, and in its middle; a floor of C24, weighed until it sags so far in the end.
  const Put bearing_2_kn = [](Job&, Facts& f, double v) {
    f.bearers[1].bearing_mm2 = 2000 / (v * 425 * psi);
    for (std::size_t i : {std::size_t{2}, std::size_t{3}, std::size_t{4}}) f.bearers[i].bearing_mm2 = 1e4;
    for (std::size_t i : {std::size_t{1}, std::size_t{2}, std::size_t{3}}) f.bearers[i].bending.upright_mm2 = 1e4;
  };
  const Put seat_sag_2_kn = [=](Job&, Facts& f, double v) {
    f.bearers[1].bending.inertia_mm4 = 2000 * std::pow(f.bearers[1].span_mm, 2) / (48 * e * v);
  };
  // Nails of 4.2 mm, 72 mm into it, through so much of cleat or rail that they take just so much.
  const auto side_for = [](double density, double newton) {
    double low = 5, high = 38.1;
    for (int i = 0; i < 60; ++i) {
      const double side = (low + high) / 2;
      (rules::across_n(*rules::fastener_of("4.2 mm nail"), {density, side, 72}) < newton ? low : high) = side;
    }
    return high;
  };
  const Put cleat_2_kn = [=](Job& j, Facts& f, double v) {
    j.bench->frame.species = "C24", j.bench->frame.fastener = "4.2 mm nail", j.bench->frame.fasteners_at_stud = 4;
    f.cleat->thickness_mm = side_for(310, 2000 / (4 * v * rules::eurocode_may_use));
    j.bench->frame.fastener_length = Length::mm(f.cleat->thickness_mm + 72);
  };
  const Put rail_of_c24 = [=](Job& j, Facts& f, double v) {
    j.bench->frame.species = "C24", j.bench->frame.rail_fastener = "4.2 mm nail", j.bench->frame.fasteners_at_rail = 3;
    f.rail->joists_at_mm = {0, 600};
    f.rail->thickness_mm = side_for(350, 200 * lbf * 3 / (6 * v * rules::eurocode_may_use));
    j.bench->frame.rail_fastener_length = Length::mm(f.rail->thickness_mm + 72);
  };
  const Put bent = [](Job& j, Facts& f, double v) {
    j.floor.joist_species = "C24";
    weigh_to(j, f, 3);  // all of the span, beginning where it begins
    double low = 0, high = 1e5;
    for (int i = 0; i < 80; ++i) {
      f.parts[0].mass_kg = (low + high) / 2;
      const auto load = rules::floor_load(j, f);
      (std::max(load->bending_share, load->shear_share) < v ? low : high) = f.parts[0].mass_kg;
    }
  };
  const Put sag_in_the_end = [](Job& j, Facts& f, double v) {
    j.floor.joist_species = "C24";
    weigh_to(j, f, 3);  // all of the span, beginning where it begins
    double low = 0, high = 1e5;
    for (int i = 0; i < 80; ++i) {
      f.parts[0].mass_kg = (low + high) / 2;
      const auto load = rules::floor_load(j, f);
      (load->deflection_mm / load->span_mm < v ? low : high) = f.parts[0].mass_kg;
    }
  };
  const Put push = [](Job& j, Facts& f, double v) { pulled(j, f, 200, v); };
  const Put nose = [](Job& j, Facts&, double v) {
    j.bench->overhang = Length::inches(1), j.bench->nose_carries_kg = 1112 / 9.80665 / v;
  };
  const Put bearing = [](Job&, Facts& f, double v) { f.bearers[1].bearing_mm2 = 250 * lbf / (v * 425 * psi); };
  const Put seat_sag = [=](Job&, Facts& f, double v) {
    f.bearers[1].bending.inertia_mm4 = 250 * lbf * std::pow(f.bearers[1].span_mm, 2) / (48 * e * v);
  };
  return {{"load.joists-strength", 1, 0.99, 1.01, bending},
          {"load.joists-deflection", 1. / 360, 1. / 361, 1. / 359, sag},
          {"load.deck", 1, 0.99, 1.01, deck},
          {"load.seat-cleat", 1, 0.99, 1.01, cleat},
          {"load.seat-push", 1, 0.99, 1.01, push},
          {"load.seat-nose", 1, 0.99, 1.01, nose},
          {"load.seat-rail", 1, 0.99, 1.01, rail},
          {"load.seat-strength", 1, 0.99, 1.01, bearing},
          {"load.seat-deflection", 1. / 360, 1. / 361, 1. / 359, seat_sag},
          {"load.seat-strength", 1, 0.99, 1.01, bearing_2_kn, Outcome::fail, "european", Outcome::caution},
          {"load.seat-deflection", 1. / 250, 1. / 251, 1. / 249, seat_sag_2_kn, Outcome::fail, "european"},
          {"load.joists-strength", 1, 0.99, 1.01, bent, Outcome::fail, "european"},
          {"load.seat-cleat", 1, 0.99, 1.01, cleat_2_kn, Outcome::fail, "european"},
          {"load.seat-rail", 1, 0.99, 1.01, rail_of_c24, Outcome::fail, "european"},
          {"load.joists-deflection", 1. / 250, 1. / 251, 1. / 249, sag_in_the_end, Outcome::fail, "european"}};
}

std::vector<Case> access_cases() {
  // Source: ADA 608.2.1, 608.2.2, 608.5.1, 608.5.2, 609.4, 609.8, 610.3, 610.4 and 303 (2010); a bar 1-1/4 in thick has
  // its top 5/8 in above its flange's middle, one of 2 in an inch.
  const auto fixture = [](Job& j, job::FixtureKind kind, job::Side wall) -> job::Fixture& {
    j.fixtures = {{"it", wall, Length::inches(18), Length::inches(40), {}, {}}};
    j.fixtures[0].kind = kind;
    return j.fixtures[0];
  };
  const auto bar = [=](double above_in) -> Put {
    return [=](Job& j, Facts& f, double v) {
      fixture(j, job::FixtureKind::grab_bar, job::Side::right).height =
          Length::mm(f.heights.rim_greatest_mm + (v - above_in) * in);
    };
  };
  const Put carries = [=](Job& j, Facts&, double v) {
    fixture(j, job::FixtureKind::grab_bar, job::Side::back).carries_kg = 1112 / 9.80665 / v;
  };
  const Put controls = [=](Job& j, Facts& f, double v) {
    fixture(j, job::FixtureKind::controls, job::Side::right).height = Length::mm(f.heights.rim_greatest_mm + v * in);
  };
  const Put over_a_bar = [=](Job& j, Facts& f, double v) {
    controls(j, f, v);
    j.fixtures.push_back({"bar", job::Side::right, Length::inches(18), Length::inches(34), {}, {}});
    j.fixtures.back().kind = job::FixtureKind::grab_bar;
  };
  const Put toward = [=](Job& j, Facts& f, double v) {
    const double middle = (f.parts[2].bbox_mm[1] + f.parts[2].bbox_mm[4]) / 2;
    fixture(j, job::FixtureKind::controls, job::Side::right).along =
        Length::mm(j.alcove.depth.in_mm() - middle + v * in);
  };
  const Put along = [](Job& j, Facts&, double v) {
    j.floor.clear_along = Length::inches(v), j.floor.clear_before = Length::feet(9);
  };
  const Put before = [](Job& j, Facts&, double v) {
    j.floor.clear_before = Length::inches(v), j.floor.clear_along = Length::feet(9);
  };
  const Put wide = [](Job&, Facts& f, double v) { f.clear.compartment.width_mm = v * in; };
  const Put deep = [](Job&, Facts& f, double v) { f.clear.compartment.depth_mm = v * in; };
  const Put face = [](Job&, Facts& f, double v) { f.clear.compartment.face_mm = v * in; };
  const Put upright = [](Job&, Facts& f, double v) {
    f.heights.threshold_greatest_mm = *f.heights.floor_at_threshold_mm + v * in;
    f.heights.outside = sample::level_at(*f.heights.threshold_greatest_mm);
  };
  const Put push = [](Job& j, Facts& f, double v) { pulled(j, f, 250, v); };
  const Put door = [](Job& j, Facts& f, double v) {
    j.door.emplace().clear = Length::inches(v), f.clear.finished->entry_mm = 2000;
  };
  const Put seat_in = [](Job& j, Facts& f, double v) {
    j.bench->place = job::Side::back;
    f.room.seat_in = facts::DropIn{true, 1500, 60, {}, -5, 400, 140, 10, v * in, {}};
  };
  const auto fail = Outcome::fail;
  const char *const transfer = "accessible", *const roll_in = "accessible-roll-in";
  return {{"door.opening", 36, 36.1, 35.9, door, fail, transfer},
          {"door.opening", 60, 60.1, 59.9, door, fail, roll_in},
          {"seat.goes-in", 1. / 8, 0.13, 0.12, seat_in, Outcome::caution},
          {"seat.goes-in", 3 / in, 3.1 / in, 2.9 / in, seat_in, Outcome::caution, "metric"},
          {"seat.rear-gap", 2.5, 2.49, 2.51,
           fact([](Facts& f) -> double& { return *f.clear.finished->seat_rear_gap_mm; }, in), fail, transfer},
          {"seat.side-gap", 1.5, 1.49, 1.51,
           fact([](Facts& f) -> double& { return *f.clear.finished->seat_side_gap_mm; }, in), fail, transfer},
          {"seat.reach", 3, 2.99, 3.01, fact([](Facts& f) -> double& { return *f.clear.seat_reach_mm; }, in), fail,
           transfer},
          {"bar.height", 33, 33.1, 32.9, bar(0.625), fail, transfer},
          {"bar.height", 36, 35.9, 36.1, bar(1), fail, transfer},
          {"bar.strength", 1, 0.99, 1.01, carries, fail, transfer},
          {"controls.height", 38, 38.1, 37.9, controls, fail, transfer},
          {"controls.height", 48, 47.9, 48.1, controls, fail, transfer},
          {"controls.height", 48, 47.9, 48.1, over_a_bar, fail, roll_in},
          {"controls.reach", 0, 0.1, -0.1, toward, fail, transfer},
          {"controls.reach", 15, 14.9, 15.1, toward, fail, transfer},
          {"access.clearance-along", 48, 48.1, 47.9, along, fail, transfer},
          {"access.clearance-before", 36, 36.1, 35.9, before, fail, transfer},
          {"access.clearance-along", 60, 60.1, 59.9, along, fail, roll_in},
          {"access.clearance-before", 30, 30.1, 29.9, before, fail, roll_in},
          {"access.inside-width", 60, 60.1, 59.9, wide, fail, roll_in},
          {"access.inside-depth", 30, 30.1, 29.9, deep, fail, roll_in},
          {"access.face", 60, 60.1, 59.9, face, fail, roll_in},
          {"threshold.bevel", 0.25, 0.24, 0.26, upright, fail, roll_in},
          {"load.seat-push", 1, 0.99, 1.01, push, fail, transfer},
          {"load.seat-push", 1, 0.99, 1.01, push, fail, "building"}};
}

std::vector<Case> below_cases() {
  // Source: IRC P3101.2.1 from memory, P3201.6, R502.8.1 (2018), P2503.6 from memory, R308.4.5.
  const Put vent = [](Job& j, Facts&, double v) { j.trap->vented = v > 0; };
  const Put below = [](Job& j, Facts& f, double v) {
    j.trap->weir = Length::inches(-12), f.pipe.down_to_weir_mm = v * in;
  };
  const Put aside = [](Job& j, Facts& f, double v) {
    j.trap->from_left = j.trap->from_back = Length::inches(20), f.pipe.aside_mm = v * in;
  };
  const auto crossed = [](Job& j, Facts& f) -> facts::JoistCrossing& {
    j.trap->pipe = Length::inches(2), j.trap->weir = Length::inches(-12);
    f.pipe.routed = true;
    f.pipe.crossings = {{"joists/joist-01", 300, -300, -300 + 7.25 * in, {}, 60}};
    return f.pipe.crossings[0];
  };
  const Put edge = [=](Job& j, Facts& f, double v) {
    facts::JoistCrossing& c = crossed(j, f);
    c.hole_mm = 2.375 * in, c.centre_mm = c.bottom_mm + v * in + c.hole_mm / 2;
  };
  const Put place = [=](Job& j, Facts& f, double v) {
    crossed(j, f).along_span = v;
    j.trap->notch = Length::inches(1), j.floor.joist_bearing = Length{};
  };
  const Put length = [](Job& j, Facts&, double v) {
    j.trap->notch = Length::inches(1), j.trap->outside = Length::inches(v);
  };
  const Put flood = [](Job&, Facts& f, double v) {
    f.heights.threshold_least_mm = *f.heights.floor_at_threshold_mm + v * in;
    for (facts::Edge& edge : f.edges)
      if (edge.turned == facts::Turned::threshold) edge.top_mm = *f.heights.threshold_least_mm;
  };
  const Put glass = [](Job& j, Facts&, double v) { j.glass.emplace().marked = v == 0; };
  const Put door = [](Job& j, Facts& f, double v) {
    j.door.emplace().clear = Length::inches(v), f.clear.finished->entry_mm = 2000;
  };
  const Put swing = [](Job& j, Facts&, double v) {
    j.door.emplace().kind = v > 0 ? job::DoorKind::swings_in : job::DoorKind::swings_both;
  };
  const Put size = [](Job& j, Facts& f, double v) {
    j.trap->pipe = Length::inches(2), f.drain.outlet_mm = 4 * in - v * in;
  };
  // The riser's top stands an inch below the datum; the base was not read in its bed.
  const Put riser_waits = [](Job&, Facts& f, double v) {
    f.room.as_set.drain_body_mm.reset();
    facts::Part& drain = f.parts.emplace_back();
    drain.id = "drain", drain.which = {{facts::Role::drain}}, drain.bbox_mm[2] = (-1 - v) * in;
  };
  const Put tile = fact([](Facts& f) -> double& { return f.drain.before_finish[0].gap_mm; }, in);
  const Put corner = fact([](Facts& f) -> double& { return f.backings[0].beside[0].gap_mm; }, in);
  return {{"drain.clear-of-finish", 0, 0.1, -0.1, tile},
          {"fixture.clear", 0, 0.1, -0.1, corner},
          {"trap.size", 2, 2.5, 1.9, size},
          {"trap.vented", 1, 1, 0, vent},
          {"trap.below", 24, 23.9, 24.1, below},
          {"trap.aside", 30, 29.9, 30.1, aside},
          {"trap.under-drain", 0.5, 0.49, 0.51, aside, Outcome::caution},
          {"trap.under-drain", 12 / 25.4, 0.47, 0.48, aside, Outcome::caution, "metric"},
          {"trap.riser", 0.5, 0.51, 0.49, riser_waits},
          {"trap.riser", 3.625, 3.62, 3.63, riser_waits},
          {"joist.hole-edges", 2, 2.01, 1.99, edge},
          {"joist.hole-inside", 0, 0.01, -0.01, edge, Outcome::fail, "european", Outcome::caution},
          {"joist.notch-place", 1. / 3, 0.33, 0.34, place},
          {"joist.notch-length", 7.25 / 3, 2.41, 2.42, length},
          {"flood.depth", 2, 2.01, 1.99, flood, Outcome::caution},
          {"door.opening", 22, 22.1, 21.9, door},
          {"door.swing", 0, 0, 1, swing},
          {"glass.safety", 0, 0, 1, glass},
          {"glass.safety", 0, 0, 1, glass, Outcome::fail, "plumbing"}};
}

std::vector<Case> base_kind_cases() {
  // Source: common practice, no source.
  const auto buy = [](Job& j, Facts& f) -> facts::Bought& {
    j.base.kind = job::BaseKind::bought, j.base.made = job::Made::bought;
    return f.bought.emplace();
  };
  const Put hand = [=](Job& j, Facts& f, double v) {
    buy(j, f).drain_aside_mm = 200;
    j.base.tape.hand = v == 0 ? job::Side::right : job::Side::left;
  };
  const Put heavy = [=](Job& j, Facts& f, double v) { buy(j, f).density_kg_m3 = v * 1000, j.base.tape.weight_kg = 28; };
  const Put off = [=](Job& j, Facts& f, double v) {  // a right triangle of 3, 4 and 5
    facts::Bought& bought = buy(j, f);
    bought.drain_aside_mm = -200, bought.waste_aside_mm = -200 - 0.6 * v * in, bought.waste_back_mm = 0.8 * v * in;
  };
  const Put membrane = [](Job& j, Facts& f, double v) {
    j.base.kind = job::BaseKind::site_built, j.base.site.waterproofing = job::Waterproofing::bonded, j.liner.reset();
    f.finish.top_mm = *f.heights.threshold_greatest_mm + v * in;
  };
  const Put open = [](Job&, Facts& f, double v) {
    f.skirt->gap_least_mm = std::min(0.0, v) * in, f.skirt->gap_greatest_mm = std::max(0.0, v) * in;
  };
  const Put cover = [](Job& j, Facts& f, double v) {
    j.base.kind = job::BaseKind::site_built, j.base.site.cover = Length::inches(v);
    f.site_built.emplace().cover_least_mm = v * in;
  };
  const auto caution = Outcome::caution;
  return {{"base.hand", 0, 0, 1, hand},
          {"base.weight", 0.6, 0.61, 0.59, heavy, caution},
          {"base.weight", 2.8, 2.79, 2.81, heavy, caution},
          {"base.over-waste", 0.25, 0.24, 0.26, off},
          {"liner.above-threshold", 3, 3.01, 2.99, membrane},  // IRC P2709.2 (2021): a bonded membrane is a lining too
          {"apron.gap", -0.0625, -0.06, -0.07, open, caution},
          {"apron.gap", 0.25, 0.24, 0.26, open, caution},
          {"base.cover", 1.25, 1.26, 1.24, cover, caution}};
}

facts::Facet& facet(facts::Facts& facts, facts::Surface surface, const std::string& name) {
  for (facts::Facet& each : facts.facets)
    if (each.surface == surface && each.facet == name) return each;
  throw std::logic_error(name);
}

}  // namespace fallwright::sample
