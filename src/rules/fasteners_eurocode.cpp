#include "rules/fasteners_eurocode.hpp"

#include <algorithm>
#include <cmath>

#include "units/length.hpp"

namespace fallwright::rules {
namespace {

using units::inch_mm;

/// 8.7.1: a screw counts with 1.1 times its thread's root.
double thick_mm(const Fastener& f) {
  return (f.screw ? 1.1 * f.root : f.diameter) * inch_mm;
}

/// Without holes bored before.
double bears_mpa(double thick, double density) {
  return 0.082 * density * std::pow(thick, -0.3);
}

/// Wire of nails 600 N/mm2, the least of EN 14592; screws 400, of mild steel. From memory.
double yields_nmm(const Fastener& f) {
  return 0.3 * (f.screw ? 400 : 600) * std::pow(thick_mm(f), 2.6);
}

constexpr double out_of_side = 20e-6, head_of_nail = 70e-6, of_screw = 60e-6;

}  // namespace

std::array<double, 6> yield_modes_n(const Fastener& f, const TimberJoint& joint) {
  const double d = thick_mm(f), h = bears_mpa(d, joint.density_kg_m3), m = yields_nmm(f);
  const double t1 = joint.side_mm, t2 = joint.into_mm, r = t2 / t1;
  // Both members of one density: their ratio is one.
  return {h * t1 * d,
          h * t2 * d,
          h * t1 * d / 2 * (std::sqrt(1 + 2 * (1 + r + r * r) + r * r) - (1 + r)),
          1.05 * h * t1 * d / 3 * (std::sqrt(4 + 12 * m / (h * d * t1 * t1)) - 1),
          1.05 * h * t2 * d / 3 * (std::sqrt(4 + 12 * m / (h * d * t2 * t2)) - 1),
          1.15 * std::sqrt(2 * m * h * d)};
}

double across_n(const Fastener& f, const TimberJoint& joint) {
  if (joint.into_mm < (f.screw ? 4 : 8) * f.diameter * inch_mm) return 0;
  const auto modes = yield_modes_n(f, joint);
  return *std::min_element(modes.begin(), modes.end());
}

double pulled_n(const Fastener& f, const TimberJoint& joint) {
  const double d = f.diameter * inch_mm, head = f.head * inch_mm, square = joint.density_kg_m3 * joint.density_kg_m3;
  const double into = joint.into_mm;
  if (f.screw) return into < 4 * d ? 0 : of_screw * square * std::min(d * into, head * head);
  if (into < 8 * d) return 0;
  const double part = std::min(1.0, into / (4 * d) - 2);  // in full from twelve thicknesses on
  return std::min(part * out_of_side * square * d * into,
                  out_of_side * square * d * joint.side_mm + head_of_nail * square * head * head);
}

double toe_nailed_n(const Fastener& nail, double density, double length) {
  constexpr double askew = 0.83;
  const double side = length / 3;
  return askew * across_n(nail, {density, side, length * std::cos(M_PI / 6) - side});
}

}  // namespace fallwright::rules
