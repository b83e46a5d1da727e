#include "rules/steel.hpp"

#include <algorithm>
#include <cmath>

#include "rules/beam.hpp"

namespace fallwright::rules {
namespace {

/// A row of Table G5-2: load at an end, on one flange.
struct Crippling {
  double c, c_r, c_n, c_h, omega, most_r_t;
};
constexpr Crippling fastened_lipped{4, 0.14, 0.35, 0.02, 1.75, 9}, loose_lipped{4, 0.14, 0.35, 0.02, 1.85, 5},
    loose_plain{4, 0.40, 0.60, 0.03, 1.80, 2};

}  // namespace

std::optional<double> crippling_at_end(const SteelWeb& web, double bearing_mm, bool fastened) {
  const Crippling& row = !web.lipped ? loose_plain : fastened ? fastened_lipped : loose_lipped;
  const double t = web.sheet_mm, r_t = web.radius_mm / t, h_t = web.flat_mm / t, n_t = bearing_mm / t;
  // Radii of bends are told to four digits; so is the bound.
  if (r_t > row.most_r_t + 1e-3 || h_t > 200 || n_t > 210 || bearing_mm > 2 * web.flat_mm) return std::nullopt;
  const double nominal = row.c * t * t * web.yield_mpa * (1 - row.c_r * std::sqrt(r_t)) *
                         (1 + row.c_n * std::sqrt(n_t)) * (1 - row.c_h * std::sqrt(h_t));
  return nominal / row.omega;
}

double punched_crippling(double hole_mm, double away_mm, double flat_mm) {
  return std::clamp(1.01 - 0.325 * hole_mm / flat_mm + 0.083 * away_mm / flat_mm, 0.0, 1.0);
}

double punched_shear(double hole_mm, double flat_mm, double sheet_mm) {
  const double over_t = std::max(0.0, flat_mm / 2 - hole_mm / 2) / sheet_mm;
  return std::min(1.0, over_t / 54);
}

double screw_across(double d, double t1, double t2, double f1, double f2) {
  constexpr double omega = 3;
  const double tilts = 4.2 * std::sqrt(t2 * t2 * t2 * d) * f2, bears = std::min(2.7 * t1 * d * f1, 2.7 * t2 * d * f2);
  const double alike = std::min(tilts, bears);  // sheets of one thickness; a thick one behind does not let it tilt
  const double part = std::clamp((t2 / t1 - 1) / 1.5, 0.0, 1.0);
  return (alike + (bears - alike) * part) / omega;
}

double screw_out(double d, double t2, double f2) {
  return 0.85 * t2 * d * f2 / 3;
}

double screw_head_through(double head, double t1, double f1) {
  return 1.5 * t1 * head * f1 / 3;
}

double tensile_of(double sheet_mm) {
  return (steel_of(sheet_mm).yield > 40e3 * mpa_per_psi ? 65e3 : 45e3) * mpa_per_psi;
}

double web_shear(const SteelWeb& web, SteelEdition edition) {
  constexpr double k_v = 5.34, poisson = 0.3, modulus = 29500e3 * mpa_per_psi;
  const double h_t = web.flat_mm / web.sheet_mm, area = web.flat_mm * web.sheet_mm;
  const double buckles = area * M_PI * M_PI * modulus * k_v / (12 * (1 - poisson * poisson) * h_t * h_t);
  const double yields = 0.6 * area * web.yield_mpa, slender = std::sqrt(yields / buckles);
  if (edition == SteelEdition::s100_16)
    return (slender <= 0.815 ? yields : slender <= 1.227 ? 0.815 * std::sqrt(buckles * yields) : buckles) / 1.60;
  const double ratio = std::pow(buckles / yields, 0.65);
  return (slender <= 0.587 ? yields : (1 - 0.25 * ratio) * ratio * yields) / 1.67;
}

}  // namespace fallwright::rules
