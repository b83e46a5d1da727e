#include "rules/fasteners.hpp"

#include <algorithm>
#include <cmath>

namespace fallwright::rules {
namespace {

constexpr Fastener all[] = {{"8d", 0.131, 0.131},
                            {"10d", 0.148, 0.148},
                            {"16d", 0.162, 0.162},
                            {"#8", 0.164, 0.131, true},
                            {"#10", 0.190, 0.152, true}};

double bearing_psi(double gravity) {
  return 16600 * std::pow(gravity, 1.84);
}

double bending_psi(double diameter) {
  return diameter <= 0.142 ? 100e3 : diameter <= 0.177 ? 90e3 : 80e3;
}

double reduction(double diameter) {
  return diameter <= 0.17 ? 2.2 : 10 * diameter + 0.5;
}

}  // namespace

std::optional<Fastener> fastener_of(const std::string& name) {
  for (const Fastener& each : all)
    if (name == each.name) return each;
  return std::nullopt;
}

std::array<double, 6> yield_modes(const Fastener& fastener, double gravity, double side, double into) {
  const double d = fastener.root, f = bearing_psi(gravity), by = reduction(d);
  const double bends = bending_psi(fastener.diameter);  // wire by its shank, the joint by the thread's root
  const double r = into / side;  // both members are of one gravity, so that their bearing strengths' ratio is 1
  const double k1 = (std::sqrt(1 + 2 * (1 + r + r * r) + r * r) - (1 + r)) / 2;
  const double k2 = -1 + std::sqrt(4 + 2 * bends * 3 * d * d / (3 * f * into * into));
  const double k3 = -1 + std::sqrt(4 + 2 * bends * 3 * d * d / (3 * f * side * side));
  return {d * into * f / by,          d * side * f / by,          k1 * d * side * f / by,
          k2 * d * into * f / 3 / by, k3 * d * side * f / 3 / by, d * d / by * std::sqrt(2 * f * bends / 6)};
}

double across_lbf(const Fastener& fastener, double gravity, double side, double into) {
  const double d = fastener.diameter;
  if (into < 6 * d) return 0;
  const auto modes = yield_modes(fastener, gravity, side, into);
  return *std::min_element(modes.begin(), modes.end()) * std::min(1.0, into / (10 * d));
}

double pulled_lbf_in(const Fastener& fastener, double gravity) {
  return fastener.screw ? 2850 * gravity * gravity * fastener.diameter
                        : 1380 * std::pow(gravity, 2.5) * fastener.diameter;
}

}  // namespace fallwright::rules
