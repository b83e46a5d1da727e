#include "study/worst.hpp"

#include <algorithm>
#include <cmath>

#include "brep/properties.hpp"
#include "job/body.hpp"
#include "measure/measure.hpp"
#include "parts/model.hpp"
#include "study/doubts.hpp"
#include "study/study.hpp"

namespace fallwright::study {
namespace {

struct Tilt {
  double x = 0, y = 0;
};

/// Where on a line from `a` to `b` a plane of slope `g` comes nearest to level.
Tilt nearest_to_level(Tilt g, Tilt a, Tilt b) {
  const double dx = b.x - a.x, dy = b.y - a.y, length2 = dx * dx + dy * dy;
  const double t = length2 > 0 ? std::clamp(-((a.x + g.x) * dx + (a.y + g.y) * dy) / length2, 0.0, 1.0) : 0;
  return {a.x + t * dx, a.y + t * dy};
}

/// How the base may lie when its rim reads level at its four corners, each reading off by the level's tolerance: the
/// four tie it to one plane, so that the slopes along length and width together take up one corner against the one
/// across, twice the tolerance: `|x| length + |y| width <= 2 t`. These are the ends of that, and for every facet the
/// place where it falls least.
std::vector<Tilt> tilts_of(const parts::Model& model, const std::vector<facts::Facet>& level) {
  const auto base = parts::box_of(*model.first(parts::Role::base));
  const double t = 2 * model.job.survey.level_tolerance_mm, x = t / (base[3] - base[0]), y = t / (base[4] - base[1]);
  const std::vector<Tilt> ends{{x, 0}, {0, y}, {-x, 0}, {0, -y}};
  std::vector<Tilt> tilts = ends;
  for (const facts::Facet& f : level) {
    const Tilt g{-f.fall * f.flow[0], -f.fall * f.flow[1]};
    for (std::size_t i = 0; i < ends.size(); ++i) tilts.push_back(nearest_to_level(g, ends[i], ends[(i + 1) % 4]));
    if (x > 0 && y > 0 && std::abs(g.x) / x + std::abs(g.y) / y < 1) tilts.push_back({-g.x, -g.y});
  }
  return tilts;
}

std::vector<facts::Facet> floor_of(const parts::Model& model, const Tilt& tilt) {
  std::vector<facts::Facet> floor;
  for (facts::Facet& f : measure::tilted_falls(model, tilt.x, tilt.y))
    if (f.surface == facts::Surface::base_floor) floor.push_back(std::move(f));
  return floor;
}

std::pair<double, double> span_of(const std::vector<facts::Facet>& floor) {
  std::pair<double, double> falls{1, 0};
  for (const facts::Facet& f : floor) falls = {std::min(falls.first, f.fall), std::max(falls.second, f.fall)};
  return falls;
}

/// Falls of the floor with the rim levelled by readings that are off.
std::vector<facts::Worst> worst_falls(const parts::Model& model) {
  const auto level = floor_of(model, {});
  const auto [low, high] = span_of(level);
  facts::Worst least{"least fall of the floor", low, low, low, "", 0, facts::Bounded::fall},
      greatest{"greatest fall of the floor", high, high, high, "", 0, facts::Bounded::fall};
  const auto take = [](facts::Worst& worst, double value, const char* reading) {
    worst.least = std::min(worst.least, value), worst.greatest = std::max(worst.greatest, value);
    if (reading && std::abs(value - worst.nominal) > worst.by_reading)
      worst.by_reading = std::abs(value - worst.nominal), worst.reading = reading;
  };
  for (const Tilt& tilt : tilts_of(model, level)) {
    const auto falls = span_of(floor_of(model, tilt));
    const char* alone = tilt.y == 0 ? "level along the length" : tilt.x == 0 ? "level along the width" : nullptr;
    take(least, falls.first, alone);
    take(greatest, falls.second, alone);
  }
  return {least, greatest};
}

}  // namespace

std::vector<facts::Worst> worst_cases(const parts::Model& model, const facts::Facts& facts) {
  std::vector<facts::Worst> all;
  if (!facts.site_built) {  // which is neither levelled in one piece nor let down between the walls
    const auto& body = model.job.base.body;
    if (!body || !body->curved_floor) all = worst_falls(model);  // of a mesh's falls none passes as it is
    for (facts::Worst& w : worst_widths(model, facts)) all.push_back(std::move(w));
  }
  if (!doubts_of_floor(model.job).empty()) all.push_back(worst_bed(model, facts));
  return all;
}

}  // namespace fallwright::study
