#include "rules/fasteners.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "units/length.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

/// Of a size in millimetres: heads of 2-1/4 thicknesses on nails and two on screws, threads' roots of screws: from
/// memory.
constexpr Fastener mm_nail(const char* name, double thick, double longest) {
  return {name, thick / units::inch_mm, thick / units::inch_mm, 2.25 * thick / units::inch_mm, false, 0, longest};
}
constexpr Fastener mm_screw(const char* name, double thick, double root, double longest) {
  return {name, thick / units::inch_mm, root / units::inch_mm, 2 * thick / units::inch_mm, true, 0, longest};
}

/// Heads of nails by ASTM F1667 (from memory), and lengths of common nails: 2-1/2, 3 and 3-1/2 in; of screws as a maker
/// of framing tabulates them.
constexpr Fastener all[] = {{"8d", 0.131, 0.131, 0.281, false, 2.5},
                            {"10d", 0.148, 0.148, 0.312, false, 3},
                            {"16d", 0.162, 0.162, 0.344, false, 3.5},
                            {"#8", 0.164, 0.131, 0.3125, true, 0, 3 * units::inch_mm},
                            {"#10", 0.190, 0.152, 0.340, true, 0, 6 * units::inch_mm},
                            mm_nail("3.1 mm nail", 3.1, 90),
                            mm_nail("3.4 mm nail", 3.4, 100),
                            mm_nail("3.8 mm nail", 3.8, 110),
                            mm_nail("4.2 mm nail", 4.2, 120),
                            mm_screw("4.5 mm screw", 4.5, 2.8, 80),
                            mm_screw("5 mm screw", 5, 3.1, 120),
                            mm_screw("6 mm screw", 6, 3.8, 300)};

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

static bool is_by_mm(const Fastener& fastener) {
  return std::string{fastener.name}.find(" mm ") != std::string::npos;
}

std::vector<double> lengths_of(const Fastener& fastener, double past_mm, double most_mm) {
  const double sold = fastener.longest_mm > 0 ? std::min(most_mm, fastener.longest_mm) : most_mm,
               most = sold + units::tolerance::length_mm;
  if (fastener.length > 0) {
    const double own = fastener.length * units::inch_mm;
    return own > past_mm && own <= most ? std::vector{own} : std::vector<double>{};
  }
  const double step = is_by_mm(fastener) ? 10 : units::inch_mm / 4;
  std::vector<double> lengths;
  for (double steps = std::floor(past_mm / step) + 1; steps * step <= most; ++steps) lengths.push_back(steps * step);
  return lengths;
}

std::vector<Fastener> stouter_than(const Fastener& fastener) {
  std::vector<Fastener> found;
  for (const Fastener& each : all)
    if (is_by_mm(each) == is_by_mm(fastener) &&
        (each.screw == fastener.screw ? each.diameter > fastener.diameter : each.screw))
      found.push_back(each);
  std::sort(found.begin(), found.end(), [](const Fastener& a, const Fastener& b) {
    return a.screw != b.screw ? b.screw : a.diameter < b.diameter;
  });
  return found;
}

std::string counted(int count, const Fastener& fastener) {
  const std::string name = fastener.name, kind = fastener.screw ? "screw" : "nail";
  const bool told = name.find(kind) != std::string::npos;
  const std::string one = name + (told ? "" : " " + kind);
  return units::counted(count, one, one + "s");
}

std::array<double, 6> yield_modes(const Fastener& fastener, double gravity, double side, double into, double side_psi) {
  const double d = fastener.root, f = bearing_psi(gravity), by = reduction(d);
  const double bends = bending_psi(fastener.diameter);  // wire by its shank, the joint by the thread's root
  const double of_side = side_psi > 0 ? side_psi : f, e = f / of_side, r = into / side;
  const double k1 = (std::sqrt(e + 2 * e * e * (1 + r + r * r) + r * r * e * e * e) - e * (1 + r)) / (1 + e);
  const double k2 = -1 + std::sqrt(2 * (1 + e) + 2 * bends * (1 + 2 * e) * d * d / (3 * f * into * into));
  const double k3 = -1 + std::sqrt(2 * (1 + e) / e + 2 * bends * (2 + e) * d * d / (3 * f * side * side));
  return {d * into * f / by,
          d * side * of_side / by,
          k1 * d * side * of_side / by,
          k2 * d * into * f / (1 + 2 * e) / by,
          k3 * d * side * f / (2 + e) / by,
          d * d / by * std::sqrt(2 * f * bends / (3 * (1 + e)))};
}

double across_lbf(const Fastener& fastener, double gravity, double side, double into, double side_psi) {
  const double d = fastener.diameter;
  if (into < 6 * d) return 0;
  const auto modes = yield_modes(fastener, gravity, side, into, side_psi);
  return *std::min_element(modes.begin(), modes.end()) * std::min(1.0, into / (10 * d));
}

double toe_nailed_lbf(const Fastener& nail, double gravity, double length) {
  constexpr double lateral = 0.83;
  const double side = length / 3;
  return lateral * across_lbf(nail, gravity, side, length * std::cos(M_PI / 6) - side);
}

double both_ways_share(double across, double pulled, double may_across, double may_pull) {
  const double all = std::hypot(across, pulled);
  if (all <= 0) return 0;
  if (may_across <= 0 || may_pull <= 0) return std::numeric_limits<double>::infinity();
  return (may_pull * across * across + may_across * pulled * pulled) / (all * may_across * may_pull);
}

double pulled_lbf_in(const Fastener& fastener, double gravity) {
  return fastener.screw ? 2850 * gravity * gravity * fastener.diameter
                        : 1380 * std::pow(gravity, 2.5) * fastener.diameter;
}

}  // namespace fallwright::rules
