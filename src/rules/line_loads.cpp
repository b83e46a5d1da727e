#include "rules/line_loads.hpp"

#include <algorithm>

#include <boost/math/tools/minima.hpp>

namespace fallwright::rules {
namespace {

double left_reaction(const std::vector<LineLoad>& loads, double span) {
  double sum = 0;
  for (const LineLoad& l : loads)
    sum += l.newton_per_mm * (l.to_mm - l.from_mm) * (span - (l.from_mm + l.to_mm) / 2) / span;
  return sum;
}

double total(const std::vector<LineLoad>& loads) {
  double sum = 0;
  for (const LineLoad& l : loads) sum += l.newton_per_mm * (l.to_mm - l.from_mm);
  return sum;
}

double shear_at(const std::vector<LineLoad>& loads, double reaction, double x) {
  for (const LineLoad& l : loads) reaction -= l.newton_per_mm * std::clamp(x - l.from_mm, 0.0, l.to_mm - l.from_mm);
  return reaction;
}

double moment_at(const std::vector<LineLoad>& loads, double reaction, double x) {
  double moment = reaction * x;
  for (const LineLoad& l : loads) {
    const double covered = std::clamp(x - l.from_mm, 0.0, l.to_mm - l.from_mm);
    moment -= l.newton_per_mm * covered * (x - l.from_mm - covered / 2);
  }
  return moment;
}

/// What a load of 1 from `a` to `b`, both left of the place `x`, sinks that place, times E I: each unit of it at `s`
/// sinks it by s r (L2 - s2 - r2) / 6L, with r from there to the span's end.
double sunk(double x, double a, double b, double span) {
  if (b <= a) return 0;
  const double rest = span - x;
  return rest * (b - a) * (b + a) / (12 * span) * (span * span - rest * rest - (a * a + b * b) / 2);
}

}  // namespace

double greatest_moment(const std::vector<LineLoad>& loads, double span) {
  const double reaction = left_reaction(loads, span);
  std::vector<double> places{0, span};
  for (const LineLoad& l : loads) places.insert(places.end(), {l.from_mm, l.to_mm});
  std::sort(places.begin(), places.end());
  double greatest = 0;
  for (std::size_t i = 0; i + 1 < places.size(); ++i) {
    const double a = places[i], b = places[i + 1];
    const double va = shear_at(loads, reaction, a), vb = shear_at(loads, reaction, b);
    greatest = std::max({greatest, moment_at(loads, reaction, a), moment_at(loads, reaction, b)});
    if (va > 0 && vb < 0) greatest = std::max(greatest, moment_at(loads, reaction, a + (b - a) * va / (va - vb)));
  }
  return greatest;
}

double greatest_shear(const std::vector<LineLoad>& loads, double span) {
  const double left = left_reaction(loads, span);
  return std::max(left, total(loads) - left);
}

double greatest_deflection(const std::vector<LineLoad>& loads, double span) {
  const auto at = [&](double x) {
    double sum = 0;
    for (const LineLoad& l : loads)
      sum += l.newton_per_mm * (sunk(x, l.from_mm, std::min(l.to_mm, x), span) +
                                sunk(span - x, span - l.to_mm, span - std::max(l.from_mm, x), span));
    return sum;
  };
  // Loads that push down bend a beam one way all along: it has one lowest place, which is closed in on.
  constexpr int bits = 26;  // half of a number's digits: nearer it is no deeper
  const auto [place, height] = boost::math::tools::brent_find_minima([&](double x) { return -at(x); }, 0.0, span, bits);
  return std::max(0.0, -height);
}

}  // namespace fallwright::rules
