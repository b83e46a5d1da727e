// What floor joists and deck carry: each burden on its own plan, on the part of the span where it stands.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/beam.hpp"
#include "rules/check.hpp"
#include "rules/good_facts.hpp"
#include "rules/line_loads.hpp"
#include "rules/loads.hpp"
#include "rules/span_rating.hpp"
#include "support/part_id.hpp"
#include "support/sample.hpp"

namespace fallwright::rules {
namespace {

using testing::HasSubstr;

/// Joists of 10 ft.
job::Job floor_of(const char* species) {
  job::Job job = sample::alcove();
  job.floor.joist_species = species;
  job.floor.joist_span = job::Length::feet(10);
  job.floor.finish_outside = job::Length{};
  return job;
}

TEST(LineLoads, AreThoseOfClosedForms) {
  // Source: closed form: w over all of L; w over c about the middle, M = w c (2 L - c) / 8; w over a at one end,
  // R = w a (2 L - a) / 2 L, M = R2 / 2 w; deflections 5 w L4 / 384, and over c about the middle
  // w c (8 L3 - 4 c2 L + c3) / 384.
  const double w = 3, l = 4000, c = 1000, a = 1200;
  const std::vector<LineLoad> all{{0, l, w}}, middle{{1500, 2500, w}}, end{{0, a, w}};
  EXPECT_NEAR(greatest_moment(all, l), w * l * l / 8, 1e-6);
  EXPECT_NEAR(greatest_shear(all, l), w * l / 2, 1e-9);
  EXPECT_NEAR(greatest_deflection(all, l) / (5 * w * l * l * l * l / 384), 1, 1e-12);
  EXPECT_NEAR(greatest_moment(middle, l), w * c * (2 * l - c) / 8, 1e-6);
  EXPECT_NEAR(greatest_deflection(middle, l) / (w * c * (8 * l * l * l - 4 * c * c * l + c * c * c) / 384), 1, 1e-12);
  const double r = w * a * (2 * l - a) / (2 * l);
  EXPECT_NEAR(greatest_shear(end, l), r, 1e-9);
  EXPECT_NEAR(greatest_moment(end, l), r * r / (2 * w), 1e-6);
  EXPECT_NEAR(greatest_moment({{0, a, w}, {l - a, l, w}}, l), w * a * a / 2, 1e-6) << "alike at both ends";
}

TEST(LineLoads, OfAPartNeverWeighMoreThanOfTheWhole) {
  // Source: property: what is taken away makes nothing worse, and what is turned round changes nothing.
  for (double from = 0; from < 3000; from += 250)
    for (double to = from + 100; to < 3000; to += 250) {
      const std::vector<LineLoad> part{{from, to, 2}}, turned{{3000 - to, 3000 - from, 2}}, all{{0, 3000, 2}};
      EXPECT_LE(greatest_moment(part, 3000), greatest_moment(all, 3000));
      EXPECT_LE(greatest_deflection(part, 3000), greatest_deflection(all, 3000));
      EXPECT_NEAR(greatest_moment(part, 3000), greatest_moment(turned, 3000), 1e-6);
      EXPECT_NEAR(greatest_shear(part, 3000), greatest_shear(turned, 3000), 1e-9);
      EXPECT_NEAR(greatest_deflection(part, 3000) / greatest_deflection(turned, 3000), 1, 1e-12);
    }
}

TEST(Loads, StandOnTheirOwnPlanWhereTheyAre) {
  // Source: by hand and by summing in steps: 3/4 in of deck and a 2x10 every 16 in at 600 kg/m3 are 0.24169 kPa, people
  // 40 psf, 1.91521; 175 kg of base and bed and 40 kg of bench on 57-1/2 by 36 in 1.28505 and 0.29373, on 36 in of 120.
  // In the middle 52.257 % of 875 psi x 1.1 x 1.15, at the end 43.231; shear there 33.027 % of 135 psi.
  job::Job job = floor_of("SPF No.2");
  const facts::Facts facts = sample::good_facts();
  job.floor.joist_bearing = job::Length::mm(-1066.8);
  FloorLoad load = *floor_load(job, facts);
  EXPECT_EQ(load.joist, "joists/joist-01");
  EXPECT_TRUE(load.place_known);
  EXPECT_NEAR(load.floor_kpa, 0.24169, 1e-5);
  ASSERT_EQ(load.burdens.size(), 2U);
  EXPECT_NEAR(load.burdens[0].kpa(), 1.28505, 1e-5);
  EXPECT_NEAR(load.burdens[1].kpa(), 0.29373, 1e-5);
  EXPECT_NEAR(load.flood_kpa, 0.36775, 1e-5);
  EXPECT_NEAR(load.bending_share, 0.52257, 2e-5);
  EXPECT_NEAR(load.shear_share, 0.29331, 2e-5);
  EXPECT_NEAR(load.deflection_mm, 3.3129, 5e-4);
  job.floor.joist_bearing = job::Length{};
  load = *floor_load(job, facts);
  EXPECT_NEAR(load.bending_share, 0.43231, 2e-5);
  EXPECT_NEAR(load.shear_share, 0.33027, 2e-5);
  EXPECT_NEAR(load.deflection_mm, 2.8476, 5e-4);
  job.floor.joist_bearing.reset();
  load = *floor_load(job, facts);
  EXPECT_FALSE(load.place_known);
  EXPECT_NEAR(load.bending_share, 0.52257, 2e-5) << "the worst place for bending";
  EXPECT_NEAR(load.shear_share, 0.33027, 2e-5) << "and for shear";
}

TEST(Loads, OfABaseThatStandsPastTheSpansEndAskForItsPlaceAgain) {
  // Source: property: what stands on no joist that was described weighs nothing there, and that is no pass.
  job::Job job = floor_of("SPF No.2");
  const facts::Facts facts = sample::good_facts();
  Limit own;
  own.unit = Unit::share, own.greatest = 1;
  const Limits limits{{{"load.joists-strength", {own}}}};
  const auto outcome = [&](double bearing_mm) {
    job.floor.joist_bearing = job::Length::mm(bearing_mm);
    for (const Result& r : check(job, facts, limits))
      if (r.id == "load.joists-strength") return r;
    return Result{};
  };
  EXPECT_EQ(outcome(-1066.8).outcome, Outcome::pass);
  for (const double wrong_mm : {762.0, 8000.0, -12000.0}) {
    EXPECT_EQ(outcome(wrong_mm).outcome, Outcome::not_checked) << wrong_mm;
    EXPECT_THAT(outcome(wrong_mm).advice, testing::HasSubstr("floor.joists.bearing")) << wrong_mm;
  }
}

TEST(Loads, OfABaseThatReachesJustPastEitherEndAskToo) {
  // Source: by hand: joists along the depth of 10 ft, a base and a bench from 0 to 36 in of it, but for a millimetre: a
  // span from 0 on, or one that ends at 36 in, holds them.
  job::Job job = floor_of("SPF No.2");
  const auto off = [&](double bearing_mm) {
    job.floor.joist_bearing = job::Length::mm(bearing_mm);
    return floor_load(job, sample::good_facts())->off_span;
  };
  EXPECT_FALSE(off(0));
  EXPECT_FALSE(off(0.9));
  EXPECT_TRUE(off(1.1));
  EXPECT_FALSE(off(914.4 - 3048));
  EXPECT_FALSE(off(914.4 - 3048 - 0.9));
  EXPECT_TRUE(off(914.4 - 3048 - 1.1));
  EXPECT_FALSE(off(1200 - 3048)) << "wider than deep: its width does not count";
}

TEST(Loads, ThatFailAtTheWorstPlaceAloneAskWhereTheSpanBegins) {
  // Source: property: 52.257 % of 100 at the worst place and 43.231 at the best (above) are a pass; with twice the
  // limit's load neither is; between them the reading decides.
  job::Job job = floor_of("SPF No.2");
  const facts::Facts facts = sample::good_facts();
  const auto outcome = [&](double limit) {
    Limit own;
    own.unit = Unit::share, own.greatest = limit;
    const Limits limits{{{"load.joists-strength", {own}}}};
    for (const Result& r : check(job, facts, limits))
      if (r.id == "load.joists-strength") return r;
    return Result{};
  };
  EXPECT_EQ(outcome(0.53).outcome, Outcome::pass);
  EXPECT_EQ(outcome(0.43).outcome, Outcome::fail);
  EXPECT_EQ(outcome(0.48).outcome, Outcome::not_checked);
  EXPECT_THAT(outcome(0.48).advice, HasSubstr("at the worst place of their span it is 52 %, at the best 43 %"));
  job.floor.joist_bearing = job::Length{};
  EXPECT_EQ(outcome(0.48).outcome, Outcome::pass);
}

TEST(Loads, AnOwnersLimitOfSagAsksForThePlaceThatDecidesIt) {
  // Source: by hand, from the closed forms above: 3.3129 mm of 3048 at the worst place are 1/920, 2.8476 at the best
  // 1/1070: a limit of 1/1000 is kept at the one and not at the other, whatever tile asks of such timber.
  job::Job job = floor_of("SPF No.2");
  const auto outcome = [&](double limit) {
    job.limits = {{"joist_deflection", limit, "the owner"}};
    for (const Result& r : check(job, sample::good_facts()))
      if (r.id == "load.joists-deflection") return r.outcome;
    return Outcome::not_applicable;
  };
  EXPECT_EQ(outcome(1. / 1000), Outcome::not_checked);
  EXPECT_EQ(outcome(1. / 900), Outcome::pass);
  EXPECT_EQ(outcome(1. / 1100), Outcome::fail);
}

TEST(Loads, ThatNobodyReadAreAskedForWhereTheyDecide) {
  // Source: property: with every wall of the alcove, or tile outside, the joists take more than without. A limit
  // between the two is kept or broken by what nobody read; one below both fails, one above both passes.
  job::Job job = floor_of("SPF No.2");
  job.floor.joist_bearing = job::Length{};
  const facts::Facts facts = sample::good_facts();
  const auto share = [&](const job::Job& each) {
    const auto load = floor_load(each, facts);
    return std::max(load->bending_share, load->shear_share);
  };
  const auto told = [&](const job::Job& each, double limit) {
    Limit own;
    own.unit = Unit::share, own.greatest = limit;
    for (const Result& r : check(each, facts, Limits{{{"load.joists-strength", {own}}}}))
      if (r.id == "load.joists-strength") return r;
    return Result{};
  };
  job::Job heavy = job, unread = job;
  heavy.floor.finish_outside = job::Length::inches(0.75);
  unread.floor.finish_outside.reset();
  ASSERT_GT(share(heavy), share(unread) + 0.005);
  const double between = (share(heavy) + share(unread)) / 2;
  EXPECT_EQ(told(unread, between).outcome, Outcome::not_checked);
  EXPECT_THAT(told(unread, between).advice, HasSubstr("floor.finish_outside"));
  EXPECT_EQ(told(unread, share(unread) - 0.01).outcome, Outcome::fail);
  EXPECT_EQ(told(unread, share(heavy) + 0.01).outcome, Outcome::pass);
  EXPECT_EQ(told(job, between).outcome, Outcome::pass) << "read: there is none";
  job::Job walls = job;
  walls.defaulted = {"floor.joists.walls"};
  job::Job all = job;
  all.floor.walls_carried = job.alcove.walls;
  if (share(all) > share(job)) {
    const double decides = (share(all) + share(job)) / 2;
    EXPECT_EQ(told(walls, decides).outcome, Outcome::not_checked);
    EXPECT_THAT(told(walls, decides).advice, HasSubstr("floor.joists.walls, [] where none"));
    EXPECT_EQ(told(job, decides).outcome, Outcome::pass);
  }
}

TEST(Loads, ByEurocodeAreFactored) {
  // Source: by hand: EN 338 (2016) C24: 24 and 4.0 N/mm2, E 11000; k_mod 0.8, 1.3, k_sys 1.1, k_cr 0.67; 1.35 G + 1.5
  // Q; in the end 1.8 G + 1.24 Q. The floor above: 35.521 % and 4.1514 mm in the middle, shear 26.972 % at the end.
  job::Job job = floor_of("C24");
  job.floor.joist_bearing = job::Length::mm(-1066.8);
  FloorLoad load = *floor_load(job, sample::good_facts());
  EXPECT_NEAR(load.bending_share, 0.35521, 2e-5);
  EXPECT_NEAR(load.deflection_mm, 4.1514, 5e-4);
  job.floor.joist_bearing = job::Length{};
  EXPECT_NEAR(floor_load(job, sample::good_facts())->shear_share, 0.26972, 2e-5);
  EXPECT_THAT(floor_lines(load, job).back(), HasSubstr("C24 by Eurocode 5"));
}

TEST(Loads, AJoistThatNothingStandsOnCarriesPeopleAlone) {
  // Source: closed form: w L2 / 8 of deck, joist and 40 psf; its strip ends before the base begins.
  const job::Job job = floor_of("SPF No.2");
  facts::Facts facts = sample::good_facts();
  facts.parts.back().bbox_mm[0] = -500, facts.parts.back().bbox_mm[3] = -461.9;
  const double line = (0.241694 + 40 * kpa_per_psf) * 1e-3 * 406.4, s = 38.1 * 234.95 * 234.95 / 6;
  EXPECT_NEAR(floor_load(job, facts)->bending_share, line * 3048 * 3048 / 8 / s / (875 * mpa_per_psi * 1.1 * 1.15),
              1e-6);
}

TEST(Loads, TileWeighsOnlyWhereItIsLaid) {
  // Source: by hand: 9 psf, 43.9 kg/m2, of 1.2 m2 floor and 0.3 m2 of seat; none where nothing is tiled.
  job::Job job = floor_of("SPF No.2");
  facts::Facts facts = sample::good_facts();
  facts.finish.covered = {
      {job::Tiled::floor, {}, 1.2e6}, {job::Tiled::seat, {}, 0.3e6}, {job::Tiled::walls, job::Side::back, 5e6}};
  job.buy.tile.surfaces = {};
  const FloorLoad bare = *floor_load(job, facts);
  EXPECT_NEAR(bare.burdens[0].kg, 175, 1e-9);
  job.buy.tile.surfaces = {job::Tiled::floor, job::Tiled::seat, job::Tiled::walls};
  const FloorLoad tiled = *floor_load(job, facts);
  EXPECT_NEAR(tiled.burdens[0].kg, 175 + 1.2 * 43.9, 1e-9);
  EXPECT_NEAR(tiled.burdens[1].kg, 40 + 0.3 * 43.9, 1e-9);
  EXPECT_GT(tiled.bending_share, bare.bending_share);
}

TEST(Loads, GlassAndWallsWeighWhereTheyAreGiven) {
  // Source: by hand: 3/8 in of glass at 2500 kg/m3, 76 by 57-1/2 in: 67.13 kg. A wall of 60 kg with 2 m by 2.4 m of
  // board at 11 kg/m2: 112.8 kg, as the joists carry it.
  job::Job job = floor_of("SPF No.2");
  facts::Facts facts = sample::good_facts();
  const double before = floor_load(job, facts)->bending_share;
  job.glass = job::Glass{job::Length::inches(0.375), job::Length::inches(76), {}, {}};
  const FloorLoad with_glass = *floor_load(job, facts);
  EXPECT_EQ(with_glass.burdens.back().what, "glass");
  EXPECT_NEAR(with_glass.burdens.back().kg, 67.13, 0.01);
  EXPECT_GT(with_glass.bending_share, before);
  facts::Part wall;
  wall.id = "wall-back/sole-plate", wall.which = sample::part_id(wall.id), wall.mass_kg = 60;
  wall.bbox_mm = {0, 914, 0, 2000, 1003, 38};
  facts.parts.push_back(wall);
  EXPECT_EQ(floor_load(job, facts)->burdens.size(), with_glass.burdens.size()) << "nobody says the joists carry it";
  job.floor.walls_carried = {job::Side::back};
  job.alcove.height = job::Length::mm(2400);
  const FloorLoad with_wall = *floor_load(job, facts);
  EXPECT_NEAR(with_wall.burdens.back().kg, 60 + 2 * 2.4 * 11, 1e-9);
  EXPECT_GT(with_wall.bending_share, with_glass.bending_share);
}

TEST(Loads, PanesStandOnAsMuchOfTheEntryAsTheyAreWide) {
  // Source: closed form: a joist that runs back from the entry carries 16 in of it, and so of panes over all of it as
  // much as of panes 16 in wide that stand over it, wherever they stand; of 8 in of them half. Along one that runs with
  // the entry 8 in anywhere bend it less than twice as much do there, and more than when spread over all of the entry.
  job::Job job = floor_of("SPF No.2");
  facts::Facts facts = sample::good_facts();
  job.floor.joist_bearing = job::Length::mm(-1066.8);
  const auto share = [&](double glass_in) {
    job.glass.reset();
    if (glass_in > 0)
      job.glass = job::Glass{job::Length::inches(0.5), job::Length::inches(80), job::Length::inches(glass_in), {}};
    return floor_load(job, facts)->bending_share;
  };
  const double of_all = share(57.5) - share(0);
  EXPECT_NEAR(share(16) - share(0), of_all, 1e-9);
  EXPECT_NEAR(share(26) - share(0), of_all, 1e-9);
  EXPECT_NEAR(share(8) - share(0), of_all / 2, 0.02 * of_all) << "where it bends most moves with the load";
  job.floor.joist_direction = job::Direction::along_width;
  facts.parts.back().bbox_mm = {-1200, 0, -255, 2400, 38.1, -19};
  const auto more = [&](double glass_in) { return share(glass_in) - share(0); };
  EXPECT_GT(more(16), more(8));
  EXPECT_LT(more(16), 2 * more(8) + 1e-12);
  const double spread = more(57.5) * 8 / 57.5;
  EXPECT_GT(more(8), spread);
  facts.parts.back().bbox_mm = {-938.5, 0, -255, 2661.5, 38.1, -19};
  job.floor.joist_bearing = job::Length::mm(1460.5 + 1066.8 - 3048);
  EXPECT_NEAR(
      more(8),
      [&] {
        job.floor.joist_bearing = job::Length::mm(-1066.8);
        return more(8);
      }(),
      1e-9)
      << "in a mirror";
}

TEST(Loads, PanesWiderThanTheEntryAreMeasuredAgain) {
  // Source: by hand: 120 in of panes do not stand in an entry of 57-1/2; 57-1/2 do, to the last mark.
  job::Job job = floor_of("SPF No.2");
  facts::Facts facts = sample::good_facts();
  facts.clear.entry_mm = 57.5 * in;
  for (const double wide_in : {57.5, 120.}) {
    job.glass = job::Glass{job::Length::inches(0.375), job::Length::inches(76), job::Length::inches(wide_in), {}};
    for (const char* id : {"load.joists-strength", "load.joists-deflection"}) {
      Result result;
      for (const Result& r : check(job, facts))
        if (r.id == id) result = r;
      const bool told = result.advice.find("(glass.width): as given 120\"") != std::string::npos;
      EXPECT_EQ(told && result.outcome == Outcome::not_checked, wide_in > 100) << id << " " << result.advice;
    }
  }
}

TEST(Loads, WithPanesThatNobodyCanWeighAreNoPass) {
  // Source: property: what stands on the joists weighs on them whether its thickness was said or not; a floor that
  // fails without it fails with it.
  job::Job job = floor_of("SPF No.2");
  job.floor.joist_bearing = job::Length::mm(-1066.8);
  const facts::Facts facts = sample::good_facts();
  const auto told = [&](const char* id, double greatest) {
    Limit own;
    own.unit = std::string{id} == "load.joists-strength" ? Unit::share : Unit::span, own.greatest = greatest;
    for (const Result& r : check(job, facts, Limits{{{id, {own}}}}))
      if (r.id == id) return r;
    return Result{};
  };
  for (const char* id : {"load.joists-strength", "load.joists-deflection"}) {
    job.glass.reset();
    EXPECT_EQ(told(id, 1).outcome, Outcome::pass) << id;
    job.glass.emplace().height = job::Length::inches(76);
    EXPECT_EQ(told(id, 1).outcome, Outcome::not_checked) << id;
    EXPECT_THAT(told(id, 1).advice, HasSubstr("say how thick the panes at the entry are")) << id;
    EXPECT_THAT(told(id, 1).advice, HasSubstr("(glass.thickness)")) << id;
    EXPECT_EQ(told(id, 1e-4).outcome, Outcome::fail) << id;
    job.glass = job::Glass{job::Length::inches(0.5), {}, {}, {}};
    EXPECT_THAT(told(id, 1).advice, HasSubstr("(glass.height)")) << id;
    job.glass->height = job::Length::inches(76);
    EXPECT_EQ(told(id, 1).outcome, Outcome::pass) << id;
  }
}

TEST(Loads, AWallBesideTheLastJoistStandsOnIt) {
  // Source: property: a wall along the joists, wherever it stands beside the last of them, weighs on that one as it
  // does at the edge of its strip; a load that no joist bears would be no load at all.
  job::Job job = floor_of("SPF No.2");
  job.floor.walls_carried = {job::Side::right};
  facts::Facts facts = sample::good_facts();
  const double centre = (facts.parts.back().bbox_mm[0] + facts.parts.back().bbox_mm[3]) / 2;
  const double without = floor_load(job, facts)->bending_share;
  facts::Part wall;
  wall.id = "wall-right/sole-plate", wall.which = sample::part_id(wall.id), wall.mass_kg = 60;
  const auto at = [&](double from_mm) {
    wall.bbox_mm = {centre + from_mm, 0, 0, centre + from_mm + 89, 2000, 38};
    facts::Facts with = facts;
    with.parts.push_back(wall);
    return floor_load(job, with)->bending_share;
  };
  const double on_the_strip = at(203.2 - 89);
  EXPECT_GT(on_the_strip, without);
  EXPECT_NEAR(at(203.2), on_the_strip, 1e-9);
  EXPECT_NEAR(at(350), on_the_strip, 1e-9);
  EXPECT_NEAR(at(-203.2 - 120), on_the_strip, 1e-9) << "and on its other side";
}

TEST(Loads, AFloodTakesThePlaceOfPeopleWhereTheBaseIs) {
  // Source: by hand: 4 kPa of water for 1.91521 kPa of people, on 36 in about the middle of 120: 2.08479 kPa on 406.4
  // mm are 0.84726 N/mm, which bend by w c (2 L - c) / 8 more.
  job::Job job = floor_of("SPF No.2");
  job.floor.joist_bearing = job::Length::mm(-1066.8);
  facts::Facts facts = sample::good_facts();
  const double before = floor_load(job, facts)->bending_share;
  facts.flood.dips.back().volume_mm3 = 4 * 1.2 / 9.80665e-3 * 1e6;
  const double more = (4 - 40 * kpa_per_psf) * 1e-3 * 406.4 * 914.4 * (2 * 3048 - 914.4) / 8;
  EXPECT_NEAR(floor_load(job, facts)->bending_share,
              before + more / (38.1 * 234.95 * 234.95 / 6) / (875 * mpa_per_psi * 1.1 * 1.15), 1e-6);
}

TEST(Loads, WhatIsGoneOnceTheBaseIsSetWeighsNothing) {
  // Source: by hand: 90 kg without the bed's 85.
  facts::Facts facts = sample::good_facts();
  facts.parts[1].before = true;
  EXPECT_NEAR(floor_load(floor_of("SPF No.2"), facts)->burdens[0].kg, 90, 1e-9);
}

TEST(Loads, ADeckCarriesWhatItsRatingSays) {
  // Source: by hand: 3/4 in at 600 kg/m3 0.11209 kPa, base and bed 1.28505, people 1.91521: 69.18 % of the 100 psf over
  // joists 24 in apart, that take half as much again 16 in apart. 1-1/8 in takes 65 psf over 48 in, three times that
  // over 16, and as a panel for 32 in twice 100.
  facts::Facts facts = sample::good_facts();
  EXPECT_NEAR(deck_share(sample::alcove(), facts), (0.11209 + 1.28505 + 1.91521) / (150 * kpa_per_psf), 1e-5);
  facts.deck.thickness_mm = 1.125 * 25.4;
  EXPECT_NEAR(deck_share(sample::alcove(), facts), (0.16814 + 1.28505 + 1.91521) / (200 * kpa_per_psf), 1e-5);
  facts.deck.apart_mm = 24 * 25.4, facts.deck.thickness_mm = 19.05;
  EXPECT_NEAR(deck_share(sample::alcove(), facts), (0.11209 + 1.28505 + 1.91521) / (100 * kpa_per_psf), 1e-5);
}

TEST(Loads, AThickerDeckOrACloserJoistNeverCarriesLess) {
  // Source: property: of any thickness, over any bay.
  for (double apart = 200; apart < 1300; apart += 50)
    for (double thick = 10; thick < 40; thick += 0.5) {
      EXPECT_GE(deck_load_kpa(thick + 0.5, apart), deck_load_kpa(thick, apart)) << thick << " " << apart;
      EXPECT_GE(deck_load_kpa(thick, apart), deck_load_kpa(thick, apart + 50)) << thick << " " << apart;
    }
  EXPECT_EQ(deck_load_kpa(9, 400), 0) << "no rating";
}

TEST(Loads, WithoutSpanOrSpeciesTheFloorIsNotJudged) {
  // Source: none; nothing is assumed of a joist.
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  EXPECT_FALSE(floor_load(job, facts));
  job.floor.joist_span = job::Length::feet(10);
  EXPECT_FALSE(floor_load(job, facts));
  job.floor.joist_species = "SPF No.2";
  EXPECT_TRUE(floor_load(job, facts));
}

TEST(Loads, WhatIsNotKnownOfTheJoistsIsNamed) {
  // Source: none; a species that is not in the table is not the same as none given.
  job::Job job = sample::alcove();
  EXPECT_EQ(unknown_joists(job), "find the floor joists' span and grade (floor.joists.span, species)");
  job.floor.joist_species = "oak";
  EXPECT_NE(unknown_joists(job).find("found 'oak'"), std::string::npos);
  EXPECT_NE(unknown_joists(job).find("; find the floor joists' span (floor.joists.span)"), std::string::npos);
  job.floor.joist_species = "SPF No.2";
  EXPECT_EQ(unknown_joists(job), "find the floor joists' span (floor.joists.span)");
  job.floor.joist_span = job::Length::feet(10);
  EXPECT_EQ(unknown_joists(job), "");
  job.floor.joist_first.reset();
  EXPECT_EQ(unknown_joists(job), "find the floor joists' first centre (floor.joists.first)") << "all else is given";
  job.defaulted = {"floor.joists.stock", "floor.joists.spacing"};
  EXPECT_EQ(unknown_joists(job),
            "find the floor joists' stock, spacing and first centre (floor.joists.stock, spacing, first)");
}

TEST(Loads, ALongerSpanIsWorse) {
  // Source: monotonicity.
  job::Job job = sample::alcove();
  job.floor.joist_species = "SPF No.2";
  double bending = 0, deflection = 0;
  for (const double feet : {8., 10., 12., 14.}) {
    job.floor.joist_span = job::Length::feet(feet);
    const auto load = *floor_load(job, sample::good_facts());
    EXPECT_GT(load.bending_share, bending);
    EXPECT_GT(load.deflection_mm / load.span_mm, deflection);
    bending = load.bending_share, deflection = load.deflection_mm / load.span_mm;
  }
}

}  // namespace
}  // namespace fallwright::rules
