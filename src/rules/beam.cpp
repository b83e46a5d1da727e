#include "rules/beam.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

namespace fallwright::rules {
namespace {

constexpr Grade psi(const char* name, double bending, double shear, double bearing, double modulus) {
  return {name, bending * mpa_per_psi, shear * mpa_per_psi, bearing * mpa_per_psi, modulus * mpa_per_psi};
}
constexpr Grade grades[] = {psi("SPF No.2", 875, 135, 425, 1.4e6), psi("DF-L No.2", 900, 180, 625, 1.6e6)};

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

double size_factor(double depth_mm) {
  const double in = depth_mm / 25.4;
  const struct {
    double up_to, factor;
  } steps[] = {{3.51, 1.5}, {4.51, 1.4}, {5.51, 1.3}, {7.26, 1.2}, {9.26, 1.1}, {11.26, 1.0}};
  for (const auto& step : steps)
    if (in <= step.up_to) return step.factor;
  return 0.9;
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
