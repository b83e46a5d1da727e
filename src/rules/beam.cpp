#include "rules/beam.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

namespace fallwright::rules {
namespace {

constexpr Grade psi(const char* name, double bending, double shear, double bearing, double modulus, double axial,
                    double least_modulus) {
  return {name,
          bending * mpa_per_psi,
          shear * mpa_per_psi,
          bearing * mpa_per_psi,
          modulus * mpa_per_psi,
          axial * mpa_per_psi,
          least_modulus * mpa_per_psi};
}
constexpr Grade grades[] = {psi("SPF No.2", 875, 135, 425, 1.4e6, 1150, 0.51e6),
                            psi("DF-L No.2", 900, 180, 625, 1.6e6, 1350, 0.58e6)};

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

double size_factor(double depth_mm) {
  const double in = depth_mm / 25.4;
  const struct {
    double up_to, factor;
  } steps[] = {{3.51, 1.5}, {4.51, 1.4}, {5.51, 1.3}, {7.26, 1.2}, {9.26, 1.1}, {11.26, 1.0}};
  for (const auto& step : steps)
    if (in <= step.up_to) return step.factor;
  return 0.9;
}

Steel steel_of(double sheet_mm) {
  constexpr double between_43_and_54_mil = 0.0508 * 25.4;  // design thickness 0.0451 and 0.0566 in
  const double yield = (sheet_mm < between_43_and_54_mil ? 33 : 50) * ksi;
  return {yield, yield / 1.67, 0.6 * yield / 1.67, 29500 * ksi};
}

Panel panel_of(double thickness_mm) {
  const double in = thickness_mm / 25.4;
  const Rated* row = std::begin(panels);
  for (const Rated& rated : panels)
    if (in >= rated.least_in) row = &rated;
  // Thinner than anything rated: as the thinnest, by the powers of its thickness.
  const double thin = std::min(1.0, in / row->least_in);
  return {row->rating, row->moment * thin * thin * n_per_lbf * 25.4, row->shear * thin * n_per_lbf,
          row->stiffness * thin * thin * thin * n_per_lbf * 25.4 * 25.4};
}

double column_of(const Grade& grade, double slender) {
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
