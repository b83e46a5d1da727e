#include "rules/beam.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "rules/book.hpp"
#include "units/length.hpp"

namespace fallwright::rules {
namespace {

constexpr Grade psi(const char* name, double bending, double shear, double bearing, double modulus, double axial,
                    double least_modulus, double gravity) {
  return {name,
          bending * mpa_per_psi,
          shear * mpa_per_psi,
          bearing * mpa_per_psi,
          modulus * mpa_per_psi,
          axial * mpa_per_psi,
          least_modulus * mpa_per_psi,
          gravity,
          false};
}
/// EN 338 (2016), N/mm2.
constexpr Grade grades[] = {psi("SPF No.2", 875, 135, 425, 1.4e6, 1150, 0.51e6, 0.42),
                            psi("DF-L No.2", 900, 180, 625, 1.6e6, 1350, 0.58e6, 0.50),
                            {"C16", 16, 3.2, 2.2, 8000, 17, 5400, 0, true, 310},
                            {"C24", 24, 4.0, 2.5, 11000, 21, 7400, 0, true, 350}};

constexpr double ksi = 1000 * mpa_per_psi;

/// By the least thickness of a performance category (PS 1): rating, lbf in, lbf and lbf in2 for each foot of width.
struct Rated {
  double least_in;
  const char* rating;
  double moment, shear, stiffness;
};
constexpr Rated panels[] = {{0.344, "24/0", 250, 155, 66e3},
                            {0.438, "32/16", 370, 200, 125e3},
                            {0.563, "40/20", 625, 245, 250e3},
                            {0.688, "48/24", 845, 300, 440e3}};

constexpr Rated strand_boards[] = {{0.438, "24/16", 385, 0, 78e3},
                                   {0.469, "32/16", 445, 0, 115e3},
                                   {0.594, "40/20", 750, 0, 225e3},
                                   {0.688, "48/24", 1000, 0, 400e3}};

template <std::size_t n>
Panel rated_panel(const Rated (&rows)[n], double thickness_mm) {
  const double in = thickness_mm / units::inch_mm;
  const Rated* row = rows;
  for (const Rated& rated : rows)
    if (in >= rated.least_in) row = &rated;
  // Thinner than anything rated: as the thinnest, by the powers of its thickness.
  const double thin = std::min(1.0, in / row->least_in);
  return {row->rating, row->moment * thin * thin * n_per_lbf * units::inch_mm, row->shear * thin * n_per_lbf,
          row->stiffness * thin * thin * thin * n_per_lbf * units::inch_mm * units::inch_mm};
}

/// Letters and digits alone, so that "spf no. 2" is "SPF No.2".
std::string bare(const std::string& name) {
  std::string out;
  for (const char c : name)
    if (std::isalnum(static_cast<unsigned char>(c)))
      out += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

}  // namespace

std::optional<Grade> grade_of(const std::string& name) {
  for (const Grade& grade : grades)
    if (bare(name) == bare(grade.name)) return grade;
  return std::nullopt;
}

std::string known_grades() {
  std::string names;
  for (const Grade& grade : grades) names += (names.empty() ? "\"" : " or \"") + std::string{grade.name} + "\"";
  return names;
}

Calculation calculation_of(const Grade& grade) {
  if (grade.eurocode) return {"EN 1995-1-1 with EN 338 (2016)", Verified::secondary};
  return {"NDS Supplement Table 4A (2018)", Verified::secondary};
}

double size_factor(double depth_mm) {
  const double in = depth_mm / units::inch_mm;
  const struct {
    double up_to, factor;
  } steps[] = {{3.51, 1.5}, {4.51, 1.4}, {5.51, 1.3}, {7.26, 1.2}, {9.26, 1.1}, {11.26, 1.0}};
  for (const auto& step : steps)
    if (in <= step.up_to) return step.factor;
  return 0.9;
}

Steel steel_of(double sheet_mm) {
  constexpr double between_43_and_54_mil = 0.0508 * units::inch_mm;  // design thickness 0.0451 and 0.0566 in
  const double yield = (sheet_mm < between_43_and_54_mil ? 33 : 50) * ksi;
  return {yield, yield / 1.67, 0.6 * yield / 1.67, 29500 * ksi};
}

Panel panel_of(double thickness_mm) {
  return rated_panel(panels, thickness_mm);
}

/// Tables give its shear through the thickness alone: how a strip shears flat is not judged.
Panel osb_of(double thickness_mm) {
  return rated_panel(strand_boards, thickness_mm);
}

Design design_of(const Grade& grade, Duration duration, double depth_mm, bool in_a_row) {
  if (!grade.eurocode)
    return {grade.bending * size_factor(depth_mm) * (in_a_row ? repetitive : 1), grade.shear, grade.bearing,
            grade.axial, grade.modulus};
  constexpr double gamma_m = 1.3, cracked = 0.67, creep = 0.8, permanent_part = 0.3;
  const double k_mod = duration == Duration::medium ? 0.8 : 0.9, of_strength = k_mod / gamma_m;
  const double k_h = depth_mm < 150 ? std::min(1.3, std::pow(150 / depth_mm, 0.2)) : 1;
  return {grade.bending * of_strength * k_h * (in_a_row ? 1.1 : 1),
          grade.shear * of_strength * cracked,
          grade.bearing * of_strength,
          grade.axial * of_strength,
          grade.modulus,
          1.35,
          1.5,
          1 + creep,
          1 + permanent_part * creep};
}

/// EN 1995-1-1 6.3.2, of rectangles: `slender` is length over least side.
static double stability(const Grade& grade, double slender) {
  const double relative = slender * std::sqrt(12.) / M_PI * std::sqrt(grade.axial / grade.least_modulus);
  if (relative <= 0.3) return 1;
  const double k = 0.5 * (1 + 0.2 * (relative - 0.3) + relative * relative);
  return 1 / (k + std::sqrt(k * k - relative * relative));
}

double column_of(const Grade& grade, double slender) {
  if (grade.eurocode) return design_of(grade, Duration::brief, 150, false).axial * stability(grade, slender);
  constexpr double c = 0.8;
  const double euler = 0.822 * grade.least_modulus / (slender * slender) / grade.axial;
  const double half = (1 + euler) / (2 * c);
  return grade.axial * (half - std::sqrt(half * half - euler / c));
}

double column_of(const Steel& steel, double slender) {
  const double elastic = M_PI * M_PI * steel.modulus / (slender * slender), ratio = steel.yield / elastic;
  return (ratio <= 2.25 ? std::pow(0.658, ratio) * steel.yield : 0.877 * elastic) / 1.80;
}

Effect uniform(double load, double span, double modulus, double inertia) {
  return {load * span * span / 8, load * span / 2, 5 * load * std::pow(span, 4) / (384 * modulus * inertia)};
}

Effect point(double load, double span, double modulus, double inertia) {
  return {load * span / 4, load, load * std::pow(span, 3) / (48 * modulus * inertia)};
}

double span_by_bending(double load, const Section& section, double stress) {
  return std::sqrt(8 * stress * section.modulus_mm3() / load);
}

double span_by_deflection(double load, const Section& section, double modulus, double limit) {
  return std::cbrt(384 * modulus * section.inertia_mm4() / (5 * load * limit));
}

}  // namespace fallwright::rules
