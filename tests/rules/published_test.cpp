// Worked examples of wood, steel and fasteners that others published, beside those where each formula is tried:
// ceiling joists of IRC Table R802.5.1(2), a floor span of R502.3.1(2), size factors (CE 479) and Breyer's example 6.18
// in beam_test; six ways to give way, cells of NDS Tables 12L, 12N, 12.2B, 12.2C and a short nail in fasteners_test;
// Yu and Chen p. 137, AISI Manual examples II-1 and p. II-184 and CFSEI Table 3 in steel_section_test.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "rules/beam.hpp"
#include "rules/fasteners.hpp"
#include "support/imperial.hpp"

namespace fallwright::rules {
namespace {

/// Along a joist of a floor: N/mm.
double along(double psf, double spacing_in) {
  return psf * kpa_per_psf * 1e-3 * spacing_in * in;
}

TEST(Published, FloorJoistsSpanWhatTheCodesTableSays) {
  // Source: IRC Table R502.3.1(2) (2018, from memory): SPF No.2, 40 psf live and 10 dead, L/360, 2x6 to 2x12 at 12, 16,
  // 19.2 and 24 in; feet and inches. The lesser of bending under all and sag under people.
  const struct {
    double spacing;
    int spans[4];
  } rows[] = {{12, {10 * 12 + 3, 13 * 12 + 6, 17 * 12 + 3, 20 * 12 + 7}},
              {16, {9 * 12 + 4, 12 * 12 + 3, 15 * 12 + 5, 17 * 12 + 10}},
              {19.2, {8 * 12 + 9, 11 * 12 + 6, 14 * 12 + 1, 16 * 12 + 3}},
              {24, {8 * 12 + 1, 10 * 12 + 3, 12 * 12 + 7, 14 * 12 + 7}}};
  const double depths[] = {5.5, 7.25, 9.25, 11.25};
  const Grade grade = *grade_of("SPF No.2");
  for (const auto& row : rows)
    for (std::size_t i = 0; i < 4; ++i) {
      const Section section{1.5 * in, depths[i] * in};
      const double stress = grade.bending * size_factor(section.depth_mm) * repetitive;
      const double span = std::min(span_by_bending(along(50, row.spacing), section, stress),
                                   span_by_deflection(along(40, row.spacing), section, grade.modulus, 360));
      EXPECT_EQ(std::lround(span / in), row.spans[i]) << row.spacing << " " << depths[i];
    }
}

TEST(Published, ATypicalFloorJoist) {
  // Source: HUD, Residential Structural Design Guide (2nd edition, 2017), example 5.1, as a public code base has it: a
  // 2x8 of 975 psi, 1.5e6, 75 and 405 psi at 16 in, 30 psf live and 10 dead: 1345 psi; 14.87 ft by bending, 40.8 by
  // shear (its factor 2), 45.6 by 2 in of bearing, 13.8 by L/360.
  const Section section{1.5 * in, 7.25 * in};
  const double stress = 975 * mpa_per_psi * size_factor(section.depth_mm) * repetitive, foot = 12 * in;
  EXPECT_NEAR(stress / mpa_per_psi, 1345, 1);
  EXPECT_NEAR(span_by_bending(along(40, 16), section, stress) / foot, 14.865, 0.01);
  const double shear = uniform(along(40, 16), 40.8 * foot, 1, 1).shear_n, area = 1.5 * in * 7.25 * in;
  EXPECT_NEAR(1.5 * shear / area / mpa_per_psi, 2 * 75, 0.15);
  const double bearing = uniform(along(40, 16), 45.6 * foot, 1, 1).shear_n / (2 * in * 1.5 * in);
  EXPECT_NEAR(bearing / mpa_per_psi, 405, 0.5);
  EXPECT_NEAR(span_by_deflection(along(30, 16), section, 1.5e6 * mpa_per_psi, 360) / foot, 13.8, 0.05);
}

TEST(Published, ColumnsOfWoodGiveWayWhereTheExamplesSay) {
  // Source: as a public code base works them: HUD, Residential Structural Design Guide (2017), example 5.6: 4x4 SPF
  // No.2 of 7.3 ft, 1150 x 1.15 and 0.51e6 psi: C_P 0.4378. Aghayere and Vigil, Structural Wood Design (2007),
  // example 5.7: 4-1/2 in of DF-L No.1, 12 ft high, 1500 x 1.1 and 0.62e6: 0.2799.
  const auto factor = [](double axial_psi, double modulus_psi, double slender) {
    Grade grade = *grade_of("SPF No.2");
    grade.axial = axial_psi * mpa_per_psi, grade.least_modulus = modulus_psi * mpa_per_psi;
    return column_of(grade, slender) / grade.axial;
  };
  EXPECT_NEAR(factor(1150 * 1.15, 0.51e6, 7.3 * 12 / 3.5), 0.4378, 1e-4);
  EXPECT_NEAR(factor(1500 * 1.1, 0.62e6, 12 * 12 / 4.5), 0.2799, 1e-4);
}

TEST(Published, ABeamByEurocode) {
  // Source: Benoit, Legrand and Tastet, Calcul de structures en bois (2008), example 2.3.1, as a public code base works
  // it: C24, 75 by 200 mm over 4.5 m at 0.5 m, 0.5 kN/m2 that stay and 1.5 that come: bent to 45.57 % in a row.
  const Grade c24 = *grade_of("C24");
  const Section section{75, 200};
  const Design d = design_of(c24, Duration::medium, section.depth_mm, true);
  const double load = 0.5 * (d.dead * 0.5 + d.live * 1.5);  // kN/m
  EXPECT_NEAR(uniform(load, 4500, 1, 1).moment_nmm / section.modulus_mm3() / d.bending, 0.45573, 1e-5);
}

TEST(Published, ANailPulledOutAndOneAcross) {
  // Source: American Wood Council, Structural Wood Design Solved Example Problems, as a public code base works them:
  // E2.1a, 8d in SPF, 2.395 in of it: 3619.3 N/m, 49.5 lbf. A 10d of 3 in through 3/4 in of DF-L: 467.49 N.
  const double per_inch = pulled_lbf_in(*fastener_of("8d"), 0.42);
  EXPECT_NEAR(per_inch * n_per_lbf / in * 1000, 3619.3, 0.5);
  EXPECT_NEAR(per_inch * 2.395, 49.5, 0.05);
  EXPECT_NEAR(across_lbf(*fastener_of("10d"), 0.5, 0.75, 2.25) * n_per_lbf, 467.49, 1);
}

}  // namespace
}  // namespace fallwright::rules
