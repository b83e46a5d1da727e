/// The beam formulas against published spans.
#include <cmath>

#include <gtest/gtest.h>

#include "rules/beam.hpp"
#include "support/imperial.hpp"

namespace fallwright::rules {
namespace {

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

}  // namespace
}  // namespace fallwright::rules
