/// The beam formulas against published spans.
#include <cmath>

#include <gtest/gtest.h>

#include "rules/beam.hpp"
#include "rules/good_facts.hpp"
#include "rules/loads.hpp"
#include "support/sample.hpp"

namespace fallwright::rules {
namespace {

constexpr double in = 25.4;

/// Nearest inch of a span.
int inches(double mm) {
  return static_cast<int>(std::lround(mm / in));
}

TEST(Beam, ReproducesSixteenPublishedSpans) {
  // Source: IRC 2018 Table R802.5.1(2): ceiling joists, 20 psf live and 10 psf dead, L/240, No.2, 2x4 to 2x10, 19.2 and
  // 24 in on centre; feet and inches. Bending governs: 30 psf, Fb CF 1.15, L = sqrt(8 Fb' S / w).
  const struct {
    const char* grade;
    double spacing;
    int spans[4];
  } rows[] = {{"DF-L No.2", 19.2, {8 * 12 + 2, 11 * 12 + 11, 15 * 12 + 1, 18 * 12 + 5}},
              {"SPF No.2", 19.2, {8 * 12 + 0, 11 * 12 + 9, 14 * 12 + 10, 18 * 12 + 2}},
              {"DF-L No.2", 24, {7 * 12 + 3, 10 * 12 + 8, 13 * 12 + 6, 16 * 12 + 5}},
              {"SPF No.2", 24, {7 * 12 + 2, 10 * 12 + 6, 13 * 12 + 3, 16 * 12 + 3}}};
  const double depths[] = {3.5, 5.5, 7.25, 9.25};
  int compared = 0;
  for (const auto& row : rows)
    for (std::size_t i = 0; i < 4; ++i, ++compared) {
      const Grade grade = *grade_of(row.grade);
      const Section section{1.5 * in, depths[i] * in};
      const double load = 30 * kpa_per_psf * 1e-3 * row.spacing * in;
      const double span = span_by_bending(load, section, grade.bending * size_factor(section.depth_mm) * repetitive);
      EXPECT_EQ(inches(span), row.spans[i]) << row.grade << " " << row.spacing << " " << depths[i];
    }
  EXPECT_EQ(compared, 16);
}

TEST(Beam, ReproducesAPublishedFloorSpan) {
  // Source: IRC 2003 Table R502.3.1(2): SPF No.2 2x8 at 16 in, 40 psf: 12 ft 3 in, by deflection L/360 under live load.
  const Section section{1.5 * in, 7.25 * in};
  const double load = 40 * kpa_per_psf * 1e-3 * 16 * in;
  EXPECT_EQ(inches(span_by_deflection(load, section, grade_of("SPF No.2")->modulus, 360)), 12 * 12 + 3);
}

TEST(Beam, SectionsAreThoseOfTheTables) {
  // Source: dressed sizes: 2x4 3.0625 in3 and 5.359 in4, 2x8 13.14 and 47.63, flat 2x4 1.3125 and 0.984.
  const auto s = [](double b, double d) { return Section{b * in, d * in}.modulus_mm3() / std::pow(in, 3); };
  const auto i = [](double b, double d) { return Section{b * in, d * in}.inertia_mm4() / std::pow(in, 4); };
  EXPECT_NEAR(s(1.5, 3.5), 3.0625, 1e-9);
  EXPECT_NEAR(i(1.5, 3.5), 5.359, 1e-3);
  EXPECT_NEAR(s(1.5, 7.25), 13.14, 5e-3);
  EXPECT_NEAR(i(1.5, 7.25), 47.63, 1e-2);
  EXPECT_NEAR(s(3.5, 1.5), 1.3125, 1e-9);
  EXPECT_NEAR(i(3.5, 1.5), 0.984, 1e-3);
}

TEST(Beam, APersonOnABenchMember) {
  // Source: by hand: 250 lbf at the middle of 36 in, 2x4 SPF on edge: M 2250 lbf in, 734.7 psi, 0.0324 in, span / 1112.
  const Section section{1.5 * in, 3.5 * in};
  const Effect e = point(250 * n_per_lbf, 36 * in, grade_of("SPF No.2")->modulus, section.inertia_mm4());
  EXPECT_NEAR(e.moment_nmm / (n_per_lbf * in), 2250, 1e-6);
  EXPECT_NEAR(e.moment_nmm / section.modulus_mm3() / mpa_per_psi, 734.7, 0.05);
  EXPECT_NEAR(e.deflection_mm / in, 0.0324, 5e-5);
  EXPECT_NEAR(36 * in / e.deflection_mm, 1112, 1);
}

TEST(Beam, SizeFactorsAreThoseOfAPublishedExample) {
  // Source: Purdue CE 479 (2006), NDS 2001: a wet 2x8 of No.1 DF-L under snow: 1000 x 1.15 x 0.85 x size factor = 1173
  // psi. The others: NELMA design tables, 2 to 3 in thick, by nominal width.
  EXPECT_NEAR(1000 * 1.15 * 0.85 * size_factor(7.25 * in), 1173, 0.5);
  for (const auto& [width, factor] : {std::pair{1.5, 1.5},
                                      {2.5, 1.5},
                                      {3.5, 1.5},
                                      {4.5, 1.4},
                                      {5.5, 1.3},
                                      {7.25, 1.2},
                                      {9.25, 1.1},
                                      {11.25, 1.0},
                                      {13.25, 0.9}})
    EXPECT_DOUBLE_EQ(size_factor(width * in), factor) << width;
}

TEST(Beam, SizeFactorsChangeBetweenDressedWidths) {
  // Source: NDS Supplement Table 4A (2018), by nominal width: what is a hair wider than dressed 4, 5, 6, 8, 10 and 12
  // in is the next size.
  for (const auto& [width, factor] : {std::pair{3.6, 1.4}, {4.6, 1.3}, {5.6, 1.2}, {7.3, 1.1}, {9.3, 1.0}, {11.3, 0.9}})
    EXPECT_DOUBLE_EQ(size_factor(width * in), factor) << width;
}

TEST(Beam, LoadsAlongAJoistAreThoseOfATextbook) {
  // Source: Breyer, 6th edition, example 6.18: joists at 16 in, 14 psf dead and 20 psf roof live load: 18.67, 26.67 and
  // 45.33 lbf/ft. The moment over 13.5 ft by hand: 45.33 x 13.5 x 13.5 / 8 = 1032.8 lbf ft.
  const auto along = [](double psf) { return psf * kpa_per_psf * 1e-3 * 16 * in; };  // N/mm
  const double plf = n_per_lbf / (12 * in);
  EXPECT_NEAR(along(14) / plf, 18.67, 5e-3);
  EXPECT_NEAR(along(20) / plf, 26.67, 5e-3);
  EXPECT_NEAR(along(34) / plf, 45.33, 5e-3);
  EXPECT_NEAR(uniform(along(34), 13.5 * 12 * in, 1, 1).moment_nmm / (n_per_lbf * 12 * in), 1032.8, 0.1);
}

TEST(Beam, UniformAndPointFormulasAgreeAtTheirKnownRatio) {
  // Source: closed form: the same total load spread out bends half as much and deflects 5/8 as much.
  const Effect p = point(1000, 3000, 9000, 4e7), u = uniform(1000. / 3000, 3000, 9000, 4e7);
  EXPECT_NEAR(u.moment_nmm / p.moment_nmm, 0.5, 1e-12);
  EXPECT_NEAR(u.deflection_mm / p.deflection_mm, 5. / 8, 1e-12);
}

TEST(Beam, GradesAreReadHoweverTheyAreWritten) {
  // Source: NDS Supplement Table 4A (2018), secondary: SPF No.2 875 psi and 1.4e6 psi, DF-L No.2 900 and 1.6e6.
  EXPECT_NEAR(grade_of("spf no. 2")->bending / mpa_per_psi, 875, 1e-9);
  EXPECT_NEAR(grade_of("DF-L No.2")->modulus / mpa_per_psi, 1.6e6, 1e-3);
  EXPECT_FALSE(grade_of("oak"));
  EXPECT_FALSE(grade_of(""));
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
  EXPECT_NE(unknown_joists(job).find("find the joists' stock"), std::string::npos);
  job.floor.joist_species = "C24";
  EXPECT_NE(unknown_joists(job).find("found 'C24'"), std::string::npos);
  job.floor.joist_species = "SPF No.2";
  EXPECT_NE(unknown_joists(job).find("find the joists' stock"), std::string::npos)
      << "it is known; something else is not";
}

TEST(Loads, AHeavySeatWeighsOnTheFloor) {
  // Source: by hand: 200 kg on 0.34 m2 are 5.77 kPa on top of floor and tile; water there is none.
  job::Job job = sample::alcove();
  job.floor.joist_species = "SPF No.2";
  job.floor.joist_span = job::Length::feet(10);
  facts::Facts facts = sample::good_facts();
  std::erase_if(facts.parts, [](const facts::Part& p) { return p.role == "seat-block" || p.role == "bench-frame"; });
  const FloorLoad without = *floor_load(job, facts);
  EXPECT_EQ(without.bench_kpa, 0);
  facts::Part seat;
  seat.role = "seat-block";
  seat.mass_kg = 200;
  seat.bbox_mm = {0, 0, 400, 368, 914, 460};
  facts.parts.push_back(seat);
  const FloorLoad with = *floor_load(job, facts);
  EXPECT_NEAR(with.bench_kpa - with.floor_kpa - 0.43, 200 * 9.80665e-3 / (0.368 * 0.914), 1e-9);
  EXPECT_GT(with.bending_share, without.bending_share);
}

TEST(Loads, OfTheSampleFloorByHand) {
  // Source: by hand: 3/4 in of deck and a 2x10 every 16 in at 600 kg/m3 are 0.2417 kPa, tile 0.43, 90 kg of base and 85
  // of bed on 1.2 m2 1.4301: dead 2.1018. People 40 psf, 1.9152; 45 L on 1.2 m2 0.3677, so people count. 4.0170 kPa are
  // 1.6325 N/mm on a joist; over 10 ft M = w L2 / 8 on 350,530 mm3 is 70.87 % of 875 psi x 1.1 x 1.15, shear 44.79 % of
  // 135 psi, and 5 w L4 / 384 E I 4.616 mm. The bench's strip, 40 kg on 57-1/2 x 36 in, is the lighter.
  job::Job job = sample::alcove();
  job.floor.joist_species = "SPF No.2";
  job.floor.joist_span = job::Length::feet(10);
  facts::Facts facts = sample::good_facts();
  FloorLoad load = *floor_load(job, facts);
  EXPECT_NEAR(load.floor_kpa, 0.24169, 1e-5);
  EXPECT_NEAR(load.dead_kpa, 2.10183, 1e-5);
  EXPECT_NEAR(load.bench_kpa, 0.96542, 1e-5);
  EXPECT_NEAR(load.live_kpa, 1.91521, 1e-5);
  EXPECT_NEAR(load.flood_kpa, 0.36775, 1e-5);
  EXPECT_NEAR(load.bending_share, 0.70869, 1e-5);
  EXPECT_NEAR(load.shear_share, 0.44790, 1e-5);
  EXPECT_NEAR(load.deflection_mm, 4.61574, 1e-5);
  EXPECT_NEAR(load.span_mm, 3048, 1e-9);
  // A flood of 4 kPa in place of people: 6.1018 in all. A bench of 600 kg with people: 0.6717 + 4.4059 + 1.9152.
  facts.flood.dips.back().volume_mm3 = 4 * 1.2 / 9.80665e-3 * 1e6;
  EXPECT_NEAR(floor_load(job, facts)->bending_share, 0.70869 * 6.10183 / 4.01704, 1e-5);
  facts.parts[2].mass_kg = 600;
  EXPECT_NEAR(floor_load(job, facts)->bending_share, 0.70869 * 6.99280 / 4.01704, 1e-4);
  // What is there only before the base is set weighs nothing.
  facts.parts[1].before = true;
  EXPECT_NEAR(floor_load(job, facts)->dead_kpa, 2.10183 - 85 * 9.80665e-3 / 1.2, 1e-5);
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
