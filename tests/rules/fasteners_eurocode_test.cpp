// Nails and screws in timber of a European class, worked by hand, and who asks for them.
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/beam.hpp"
#include "rules/fasteners_eurocode.hpp"
#include "rules/good_facts.hpp"
#include "rules/loads.hpp"
#include "rules/push.hpp"
#include "rules/result_of.hpp"
#include "rules/rule_book.hpp"
#include "support/imperial.hpp"

namespace fallwright::rules {
namespace {

using sample::in_book;
using sample::result_of;
using testing::HasSubstr;
using testing::Not;

TEST(FastenersByEurocode, GiveWayInSixWays) {
  // Source: by hand with EN 1995-1-1 formulas 8.6, 8.14 and 8.15: a nail of 3.4 mm through 38 mm, 52 mm into C24 (350
  // kg/m3): f_h 0.082 x 350 x 3.4^-0.3 = 19.881, M_y 180 x 3.4^2.6 = 4336.3; 2568.6, 3515.0, 1285.9, 1015.1, 1316.3,
  // 880.5 N. A screw of 5 mm, root 3.1, through 45 mm, 35 mm into C16 (310): 3.41 mm thick, f_h 17.593, M_y 120 x
  // 3.41^2.6 = 2913.0.
  const double nail[] = {2568.625, 3514.961, 1285.897, 1015.091, 1316.291, 880.502},
               screw[] = {2699.704, 2099.770, 1007.235, 1011.686, 819.856, 679.886};
  const auto by_nail = yield_modes_n(*fastener_of("3.4 mm nail"), {350, 38, 52}),
             by_screw = yield_modes_n(*fastener_of("5 mm screw"), {310, 45, 35});
  for (std::size_t i = 0; i < 6; ++i) {
    EXPECT_NEAR(by_nail[i], nail[i], 2e-3) << i;
    EXPECT_NEAR(by_screw[i], screw[i], 2e-3) << i;
  }
  EXPECT_NEAR(across_n(*fastener_of("3.4 mm nail"), {350, 38, 52}), 880.502, 2e-3);
}

TEST(FastenersByEurocode, NailsHoldFromEightThicknessesOnAndScrewsFromFour) {
  // Source: EN 1995-1-1, 8.3.1.2 and 8.7.2 (from memory).
  const Fastener nail = *fastener_of("4.2 mm nail"), screw = *fastener_of("5 mm screw");
  EXPECT_GT(across_n(nail, {310, 38, 8 * 4.2}), 0);
  EXPECT_EQ(across_n(nail, {310, 38, 7.99 * 4.2}), 0);
  EXPECT_GT(across_n(screw, {310, 38, 20}), 0);
  EXPECT_EQ(across_n(screw, {310, 38, 19.9}), 0);
}

TEST(FastenersByEurocode, DrivenAskewTheyReachLessDeep) {
  // Source: by hand: at 30 degrees a nail of length L with a third in the side goes 0.8660 - 0.3333 = 0.5327 L into
  // the other timber; one of 3.4 mm needs 27.2 mm there, which 51.1 mm of length give. One of 90 mm is 30 in the side
  // and 47.94 beyond, where 0.83 of the nail straight through holds.
  const Fastener nail = *fastener_of("3.4 mm nail");
  EXPECT_EQ(toe_nailed_n(nail, 350, 51), 0);
  EXPECT_GT(toe_nailed_n(nail, 350, 51.2), 0);
  EXPECT_NEAR(toe_nailed_n(nail, 350, 90), 0.83 * across_n(nail, {350, 30, 47.942}), 0.01);
}

TEST(FastenersByEurocode, PulledOutByTheirLengthInTheTimberOrByTheirHead) {
  // Source: by hand with formulas 8.24 to 8.26: a nail of 3.4 mm in C24: 20e-6 x 350^2 = 2.45 N/mm2; 52 mm are 433.16
  // N; at ten thicknesses half of 2.45 x 3.4 x 34; a head of 7.65 mm and 38 mm of side hold 2.45 x 3.4 x 38 + 8.575 x
  // 58.52 = 818.4 N. A screw of 5 mm in C16: 5.766 N/mm2 of 35 mm of thread are 1009, of its head of 10 mm 576.6 N.
  const Fastener nail = *fastener_of("3.4 mm nail"), screw = *fastener_of("5 mm screw");
  EXPECT_NEAR(pulled_n(nail, {350, 38, 52}), 433.16, 0.01);
  EXPECT_NEAR(pulled_n(nail, {350, 38, 34}), 2.45 * 3.4 * 34 / 2, 0.01);
  EXPECT_EQ(pulled_n(nail, {350, 38, 27}), 0);
  EXPECT_NEAR(pulled_n(nail, {350, 38, 200}), 818.36, 0.05);
  EXPECT_NEAR(pulled_n(screw, {310, 45, 35}), 576.6, 0.01);
  EXPECT_NEAR(pulled_n(screw, {310, 45, 20}), 576.6, 0.01) << "exactly as much of thread";
}

job::Job bench_of(const char* species, const char* book) {
  job::Job job = in_book(book);
  job.bench->frame.species = species;
  return job;
}

TEST(FastenersByEurocode, ACleatOfC24IsJudged) {
  // Source: by hand: 250 lbf, 1112.06 N, on three nails of 4.2 mm and 110 mm through a cleat of 38.1 mm into studs
  // taken as C16: f_h 16.527, M_y 7507.7; the least of six is (d), 925.6 (sqrt(4 + 0.8941) - 1) = 1122.2 N; 0.9 / 1.3
  // / 1.5 of it: 517.94 N.
  job::Job job = bench_of("C24", "residential");
  job.bench->frame.fastener = "4.2 mm nail", job.bench->frame.fastener_length = job::Length::mm(110);
  const Result r = result_of(job, sample::good_facts(), "load.seat-cleat");
  EXPECT_NEAR(*r.measured, 1112.0554 / (3 * 517.94), 2e-4);
  EXPECT_EQ(r.outcome, Outcome::pass);
  EXPECT_THAT(r.limit.source, HasSubstr("EN 1995-1-1, 8.2 to 8.7"));
  EXPECT_EQ(r.limit.verified, Verified::secondary);
  EXPECT_THAT(r.where, HasSubstr("3 4.2 mm nails"));
  job.book = "european";  // 2.0 kN
  const Result two_kn = result_of(job, sample::good_facts(), "load.seat-cleat");
  EXPECT_NEAR(*two_kn.measured, 2000 / (3 * 517.94), 2e-4);
  EXPECT_EQ(two_kn.outcome, Outcome::fail);
  ASSERT_EQ(two_kn.remedies.size(), 1U);
  EXPECT_EQ(two_kn.remedies[0].changes[0], (job::Change{"bench.frame.fasteners_at_stud", "4", 0}));
}

TEST(FastenersByEurocode, APushAddsUpOnNailsAndBySquaresOnScrews) {
  // Source: EN 1995-1-1 formulas 8.27 and 8.28: the same push, shared out as by any timber.
  job::Job job = bench_of("C24", "european");
  job.bench->frame.fastener = "6 mm screw", job.bench->frame.fastener_length = job::Length::mm(120);
  job.bench->frame.joist_fastener = "3.4 mm nail", job.bench->frame.joist_fastener_length = job::Length::mm(90);
  const facts::Facts facts = sample::good_facts();
  const Result screws = result_of(job, facts, "load.seat-push");
  ASSERT_TRUE(screws.measured);
  EXPECT_THAT(screws.limit.source, HasSubstr("EN 1995-1-1, 8.2 to 8.7"));
  const TimberJoint joint{310, 38.1, 120 - 38.1};
  const Fastener f = *fastener_of("6 mm screw");
  const double pull = 152.9604 * n_per_lbf / (3 * pulled_n(f, joint) * eurocode_may_use),
               lift = 89.9767 * n_per_lbf / (3 * across_n(f, joint) * eurocode_may_use);
  EXPECT_NEAR(*screws.measured, std::hypot(pull, lift), 1e-3);
  job.bench->frame.fastener = "4.2 mm nail", job.bench->frame.fastener_length = job::Length::mm(110);
  const TimberJoint nailed{310, 38.1, 110 - 38.1};
  const Fastener n = *fastener_of("4.2 mm nail");
  const double p = 152.9604 * n_per_lbf / (3 * pulled_n(n, nailed) * eurocode_may_use),
               l = 89.9767 * n_per_lbf / (3 * across_n(n, nailed) * eurocode_may_use);
  EXPECT_NEAR(*result_of(job, facts, "load.seat-push").measured, p + l, 2e-3);
}

TEST(Rail, IsHeldByWhatNailsTakeInEndGrain) {
  // Source: by hand with NDS 12.3 and 12.5.2 (2018): 200 lbf over three 16d into each of four joists, 119.84 lbf x
  // 0.67: 20.76 %; by EN 1995-1-1, 8.3.1.2 (from memory), a third, of three or more that go in ten thicknesses.
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  facts.stand->from_mm = facts.stand->to_mm = 18 * 25.4;  // off the wall it is held better, by the deck
  job.buy.fasteners.deck_edge = job.buy.fasteners.deck_field = job::Length::inches(1);
  const Result r = result_of(job, facts, "load.seat-rail");
  EXPECT_NEAR(*r.measured, 200 / (12 * 119.8426 * 0.67), 1e-5);
  EXPECT_THAT(r.limit.source, HasSubstr("NDS"));
  EXPECT_THAT(r.where, HasSubstr("into the ends of 4 joists, on 3 16d nails"));
  job.book = "building";
  EXPECT_NEAR(*result_of(job, facts, "load.seat-rail").measured, 250 / (12 * 119.8426 * 0.67), 1e-5);
  job = bench_of("C24", "european");
  job.bench->frame.rail_fastener = "4.2 mm nail", job.bench->frame.rail_fastener_length = job::Length::mm(110);
  const double one = across_n(*fastener_of("4.2 mm nail"), {350, 38.1, 71.9}) / 3 * eurocode_may_use;
  EXPECT_NEAR(*result_of(job, facts, "load.seat-rail").measured, 200 * n_per_lbf / (12 * one), 1e-6);
  job.bench->frame.deck_fastener = "5 mm screw", job.bench->frame.deck_fastener_length = job::Length::mm(60);
  job.buy.fasteners.deck_edge = job.buy.fasteners.deck_field = job::Length::mm(300);
  facts.stand = sample::good_facts().stand;
  // In EN 1995-1-1 the deck's screws likewise: three along 36 in, all of it at an end.
  const double screw = across_n(*fastener_of("5 mm screw"), {350, 19.05, 60 - 19.05}) * eurocode_may_use;
  const double most = std::max(deck_hold(*facts.rail, 0, 36 * 25.4, 300, 300).at_rail,
                               deck_hold(*facts.rail, 0, 36 * 25.4, 300, 300).at_joists);
  EXPECT_NEAR(*result_of(job, facts, "load.seat-rail").measured, 200 * n_per_lbf * most / screw, 1e-6);
  facts.stand->from_mm = facts.stand->to_mm = 18 * 25.4;
  job.buy.fasteners.deck_edge = job.buy.fasteners.deck_field = job::Length::inches(1);
  job.bench->frame.fasteners_at_rail = 2;
  const Result two = result_of(job, facts, "load.seat-rail");
  EXPECT_EQ(two.outcome, Outcome::fail) << "two in end grain count for nothing";
  ASSERT_EQ(two.remedies.size(), 1U);
  EXPECT_EQ(two.remedies[0].changes[0], (job::Change{"bench.frame.fasteners_at_rail", "3", 0}));
  job.bench->frame.rail_fastener.reset();
  const Result unsaid = result_of(job, facts, "load.seat-rail");
  EXPECT_EQ(unsaid.outcome, Outcome::not_checked);
  EXPECT_THAT(unsaid.advice, HasSubstr("bench.frame.rail_fastener"));
}

TEST(Sources, AreThoseOfTheMaterialsOwnCalculation) {
  // Source: none; what is printed beside a number is what it was worked out by, in whichever book.
  facts::Facts facts = sample::good_facts();
  job::Job job = bench_of("SPF No.2", "european");
  job.floor.joist_span = job::Length::feet(10);
  for (const auto& [floor, seat, book, of_floor, of_seat] :
       {std::tuple{"SPF No.2", "SPF No.2", "european", "NDS Supplement Table 4A (2018)", "strength by NDS"},
        {"C24", "C24", "residential", "EN 1995-1-1 with EN 338", "PS 1"},
        {"C16", "DF-L No.2", "accessible", "EN 1995-1-1 with EN 338", "PS 1"}}) {
    job.book = book, job.floor.joist_species = floor, job.bench->frame.species = seat;
    EXPECT_THAT(result_of(job, facts, "load.joists-strength").limit.source, HasSubstr(of_floor)) << book;
    EXPECT_THAT(result_of(job, facts, "load.seat-strength").limit.source, HasSubstr(of_seat)) << book;
  }
  EXPECT_THAT(result_of(job, facts, "load.seat-strength").limit.source, HasSubstr("ADA 610.4")) << "what asks for it";
  // A joist's bearing decides: its timber's own values.
  facts.bearers[1].bearing_mm2 = 300;
  job.book = "european";
  EXPECT_THAT(result_of(job, facts, "load.seat-strength").limit.source,
              testing::AllOf(HasSubstr("EN 1991-1-1"), HasSubstr("strength by NDS"), Not(HasSubstr("EN 1995"))));
  job.bench->frame.species = "C24";
  EXPECT_THAT(result_of(job, facts, "load.seat-strength").limit.source, HasSubstr("strength by EN 1995-1-1"));
  // What the user sets is his.
  job.limits.push_back({"joist_deflection", 1. / 480, "the owner"});
  EXPECT_EQ(result_of(job, facts, "load.joists-deflection").limit.source, "the owner");
}

TEST(Sources, OfAJoistsSagGoByItsTimber) {
  // Source: EN 1995-1-1, 7.2 for its own timber in the end; other timber by the tile's 1:360.
  job::Job job = in_book("european");
  job.floor.joist_span = job::Length::feet(10);
  job.floor.joist_species = "SPF No.2";
  const Result spf = result_of(job, sample::good_facts(), "load.joists-deflection");
  EXPECT_DOUBLE_EQ(*spf.limit.greatest, 1. / 360);
  EXPECT_THAT(spf.limit.source, HasSubstr("joist technical note"));
  job.floor.joist_species = "C24";
  const Result c24 = result_of(job, sample::good_facts(), "load.joists-deflection");
  EXPECT_DOUBLE_EQ(*c24.limit.greatest, 1. / 250);
  EXPECT_THAT(c24.limit.source, HasSubstr("EN 1995-1-1"));
}

TEST(Sources, ALimitOfTheUsersHoldsWhateverTheTimber) {
  // Source: common practice, no source: what the owner asks for is asked of any timber, the tile's own limit or not.
  for (const char* book : {"residential", "european"})
    for (const char* species : {"SPF No.2", "C24"})
      for (const double sag : {1. / 480, 1. / 240}) {
        job::Job job = in_book(book);
        job.floor.joist_span = job::Length::feet(10);
        job.floor.joist_species = species;
        job.limits.push_back({"joist_deflection", sag, "the owner"});
        const Result r = result_of(job, sample::good_facts(), "load.joists-deflection");
        EXPECT_DOUBLE_EQ(*r.limit.greatest, sag) << book << " " << species;
        EXPECT_EQ(r.limit.source, "the owner") << book << " " << species;
      }
}

TEST(People, WeighWhatTheBookSays) {
  // Source: IRC Table R301.5, 40 psf; ADA 610.4, 250 lbf; EN 1991-1-1 table 6.2, category A, from memory: 2.0 kN/m2 and
  // 2.0 kN on 50 by 50 mm.
  EXPECT_NEAR(imposed_of("residential").person_n, 250 * n_per_lbf, 1e-9);
  EXPECT_NEAR(imposed_of("accessible-roll-in").floor_kpa, 40 * kpa_per_psf, 1e-9);
  EXPECT_NEAR(imposed_of("metric").person_n, 250 * n_per_lbf, 1e-9);
  EXPECT_EQ(imposed_of("european").person_n, 2000);
  EXPECT_EQ(imposed_of("european").patch_mm, 50);
  EXPECT_EQ(imposed_of("european").floor_kpa, 2);
  facts::Facts facts = sample::good_facts();
  facts.bearers[1].bearing_mm2 = 300;  // of all members the joist decides
  const Result seat = result_of(in_book("european"), facts, "load.seat-strength");
  const Result home = result_of(in_book("residential"), facts, "load.seat-strength");
  EXPECT_NEAR(*seat.measured / *home.measured, 2000 / (250 * n_per_lbf), 1e-9);
  EXPECT_THAT(seat.where, HasSubstr("2.0 kN (450 lbf) on 50 by 50 mm"));
  EXPECT_THAT(home.where, HasSubstr("250 lbf (1112 N)"));
}

TEST(People, OneAloneOnAJoistCountsWhereTheBookSaysSo) {
  // Source: by hand: a joist of C24, 47 by 195 mm, over 2000 mm at 300 mm: dead load of deck and joist alone, 0.27935
  // kPa; 1.35 G + 1.5 x 2.0 kN in the middle over 50 mm, M = 1.5 x 2000 (2 x 2000 - 50) / 8 = 1481250 Nmm, on 24 x 0.8
  // / 1.3 x 1.1 N/mm2.
  job::Job job = in_book("european");
  job.floor.joist_species = "C24";
  job.floor.joist_span = job::Length::mm(2000), job.floor.joist_spacing = job::Length::mm(300);
  job.floor.joist_stock.thickness = job::Length::mm(47), job.floor.joist_stock.depth = job::Length::mm(195);
  job.floor.joist_bearing = job::Length::mm(-1066.8);
  job.floor.finish_outside.reset();
  facts::Facts facts = sample::good_facts();
  facts.parts.back().bbox_mm[0] = -500, facts.parts.back().bbox_mm[3] = -453;  // nothing but people stands on it
  job.floor.joist_bearing.reset();
  const double dead = 600 * (0.01905 + 0.047 * 0.195 / 0.3) * 9.80665e-6 * 300;
  const double moment = 1.35 * dead * 2000 * 2000 / 8 + 1481250, s = 47. * 195 * 195 / 6;
  EXPECT_NEAR(floor_load(job, facts)->bending_share, moment / s / (24 * 0.8 / 1.3 * 1.1), 1e-6);
  job.book = "residential";
  EXPECT_LT(floor_load(job, facts)->bending_share, 0.5 * moment / s / (24 * 0.8 / 1.3 * 1.1));
}

}  // namespace
}  // namespace fallwright::rules
