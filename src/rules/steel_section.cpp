#include "rules/steel_section.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "rules/beam.hpp"

namespace fallwright::rules {
namespace {

constexpr double modulus_mpa = 29500e3 * mpa_per_psi, poisson = 0.3, shear_modulus_mpa = 11300e3 * mpa_per_psi;
constexpr double omega_bending = 1.67;

/// What share of a flat counts, by the stress at which it buckles.
double share_of(double k, double width, double sheet, double stress) {
  const double buckles =
      k * M_PI * M_PI * modulus_mpa / (12 * (1 - poisson * poisson)) * (sheet / width) * (sheet / width);
  const double slender = std::sqrt(stress / buckles);
  return slender <= 0.673 ? 1 : (1 - 0.22 / slender) / slender;
}

double flange_flat(const SteelC& c) {
  return c.flange_mm - (c.lip_mm > 0 ? 2 : 1) * (c.sheet_mm + c.radius_mm);
}

/// A strip that is taken off the pressed side, by its middle's height over the section's own.
struct Strip {
  double area = 0, at = 0, own = 0;
};

/// What is left of the section when strips are taken from it.
struct Left {
  double centroid = 0, inertia = 0;
};
Left less(const SteelC& c, const std::vector<Strip>& strips) {
  double area = c.area_mm2, moment = 0, second = c.inertia_mm4;
  for (const Strip& s : strips) area -= s.area, moment -= s.area * s.at, second -= s.own + s.area * s.at * s.at;
  const double centroid = moment / area;
  return {centroid, second - area * centroid * centroid};
}

/// The part of a web under pressed and pulled edges that does not count, by Appendix 1.1.2.
std::vector<Strip> web_lost(const SteelC& c, const Left& left, double stress) {
  const double half = c.depth_mm / 2, flat = c.depth_mm - 2 * (c.sheet_mm + c.radius_mm);
  const double edge = half - left.centroid, pressed = flat / 2 - left.centroid, pulled = -flat / 2 - left.centroid;
  const double f1 = stress * pressed / edge, psi = std::abs(pulled / pressed);
  const double k = 4 + 2 * std::pow(1 + psi, 3) + 2 * (1 + psi);
  const double counts = flat * share_of(k, flat, c.sheet_mm, f1);
  const double near_edge = counts / (3 + psi);
  const double near_axis = psi > 0.236 ? counts / 2 : counts - near_edge;
  const double lost = pressed - near_edge - near_axis;
  if (lost <= 0) return {};
  const double middle = flat / 2 - near_edge - lost / 2;
  return {{lost * c.sheet_mm, middle, c.sheet_mm * lost * lost * lost / 12}};
}

/// Bending of the whole between its supports (F2.1.1): half of the weak second moment is that of the pressed flange.
double overturning_mpa(const SteelC& c, double span_mm) {
  const double full = c.inertia_mm4 / (c.depth_mm / 2);
  const double elastic = M_PI * M_PI * modulus_mpa * c.depth_mm * (c.weak_mm4 / 2) / (full * span_mm * span_mm);
  if (elastic >= 2.78 * c.yield_mpa) return c.yield_mpa;
  if (elastic <= 0.56 * c.yield_mpa) return elastic;
  return 10. / 9 * c.yield_mpa * (1 - 10 * c.yield_mpa / (36 * elastic));
}

}  // namespace

EffectiveFlange effective_flange(const SteelC& c, double stress) {
  const double flat = flange_flat(c), w_t = flat / c.sheet_mm;
  if (c.lip_mm <= 0) return {share_of(0.43, flat, c.sheet_mm, stress), 1};
  const double lip = c.lip_mm - c.sheet_mm - c.radius_mm;
  const double s = 1.28 * std::sqrt(modulus_mpa / stress), t4 = std::pow(c.sheet_mm, 4);
  const double lip_alone = share_of(0.43, lip, c.sheet_mm, stress);
  if (w_t <= 0.328 * s) return {1, lip_alone};
  const double wanted = t4 * std::min(399 * std::pow(w_t / s - 0.328, 3), 115 * w_t / s + 5);
  const double has = lip * lip * lip * c.sheet_mm / 12, of_wanted = std::min(1.0, has / wanted);
  const double n = std::max(1. / 3, 0.582 - w_t / (4 * s)), d_w = c.lip_mm / flat;
  const double k = std::min(4.0, (d_w <= 0.25 ? 3.57 : 4.82 - 5 * d_w) * std::pow(of_wanted, n) + 0.43);
  return {share_of(d_w <= 0.8 ? k : 0.43, flat, c.sheet_mm, stress), lip_alone * of_wanted};
}

double effective_modulus_mm3(const SteelC& c, double stress) {
  const EffectiveFlange counts = effective_flange(c, stress);
  const double half = c.depth_mm / 2, t = c.sheet_mm, flat = flange_flat(c);
  std::vector<Strip> strips{{(1 - counts.flange_share) * flat * t, half - t / 2, 0}};
  if (c.lip_mm > 0) {
    const double lip = c.lip_mm - t - c.radius_mm, off = (1 - counts.lip_share) * lip;
    strips.push_back({off * t, half - c.lip_mm + off / 2, t * off * off * off / 12});  // its free end goes first
  }
  Left left = less(c, strips);
  for (int i = 0; i < 20; ++i) {  // what the web loses moves the axis, and that what it loses
    std::vector<Strip> all = strips;
    for (const Strip& lost : web_lost(c, left, stress)) all.push_back(lost);
    left = less(c, all);
  }
  return left.inertia / (half - left.centroid);
}

std::array<double, 8> flange_alone(double b, double d, double t) {
  const double both = b + d;
  return {both * t,
          t * (t * t * b * b + 4 * b * d * d * d + t * t * b * d + d * d * d * d) / (12 * both),
          t * (std::pow(b, 4) + 4 * d * b * b * b) / (12 * both),
          t * b * b * d * d / (4 * both),
          both * t * t * t / 3,
          b * b / (2 * both),
          -(b * b + 2 * d * b) / (2 * both),
          -d * d / (2 * both)};
}

double distortional_mpa(const SteelC& c) {
  const double t = c.sheet_mm, h = c.depth_mm;
  const auto [area, ix, iy, ixy, twist, x0, hx, y0] = flange_alone(c.flange_mm - t, c.lip_mm - t / 2, t);
  const double arm = x0 - hx, pi4 = std::pow(M_PI, 4), plate = 1 - poisson * poisson;
  const double bends = ix * arm * arm - ixy * ixy / iy * arm * arm;
  const double length = std::pow(4 * pi4 * h * plate / (t * t * t) * bends + pi4 * std::pow(h, 4) / 720, 0.25);
  const double w = M_PI / length, w2 = w * w, l_h = length / h;
  const double flange = w2 * w2 * modulus_mpa * bends + w2 * shear_modulus_mpa * twist;
  const double web = modulus_mpa * t * t * t / (12 * plate) * (3 / h + w2 * 19. / 60 * h + w2 * w2 * h * h * h / 240);
  const double of_flange =
      w2 * (area * (arm * arm * ixy / iy * ixy / iy - 2 * y0 * arm * ixy / iy + hx * hx + y0 * y0) + ix + iy);
  constexpr double gradient = 2;  // pressed as much at one edge as it is pulled at the other
  const double of_web = h * t * M_PI * M_PI / 13440 *
                        (((45360 * (1 - gradient) + 62160) * l_h * l_h + 448 * M_PI * M_PI +
                          (53 + 3 * (1 - gradient)) * pi4 / (l_h * l_h)) /
                         (pi4 + 28 * M_PI * M_PI * l_h * l_h + 420 * std::pow(l_h, 4)));
  return (flange + web) / (of_flange + of_web);
}

double steel_moment_nmm(const SteelC& c, double span_mm) {
  const double stress = overturning_mpa(c, span_mm);
  double moment = effective_modulus_mm3(c, stress) * stress;
  if (c.lip_mm > 0) {
    const double yields = c.inertia_mm4 / (c.depth_mm / 2) * c.yield_mpa;
    const double buckles = c.inertia_mm4 / (c.depth_mm / 2) * distortional_mpa(c);
    const double slender = std::sqrt(yields / buckles), root = std::pow(buckles / yields, 0.5);
    moment = std::min(moment, slender <= 0.673 ? yields : (1 - 0.22 * root) * root * yields);
  }
  return moment / omega_bending;
}

}  // namespace fallwright::rules
