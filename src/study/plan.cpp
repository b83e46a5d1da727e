#include "study/plan.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <numeric>
#include <string>
#include <utility>

#include "diag/fault.hpp"
#include "diag/nearest.hpp"
#include "study/doubts.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::study {
namespace {

/// A number from 0 up to 1, below it, that hangs on nothing but what it is for: any machine draws the same, in any
/// order. The mixing steps are those of a published generator of 64 bits (Steele, Lea and Flood 2014).
double drawn(std::uint64_t seed, std::uint64_t number, std::uint64_t item, std::uint64_t draw) {
  std::uint64_t state = 0;  // the seed is mixed before the number is added: one seed's numbers are no other seed's
  for (const std::uint64_t part : {seed, number, item, draw}) {
    state += 0x9e3779b97f4a7c15u + part;
    state = (state ^ (state >> 30)) * 0xbf58476d1ce4e5b9u;
    state = (state ^ (state >> 27)) * 0x94d049bb133111ebu;
    state ^= state >> 31;
  }
  return static_cast<double>(state >> 11) * 0x1p-53;
}

/// So many of a list's places at most, evenly, the first among them.
std::vector<std::size_t> places(std::size_t size, std::size_t most) {
  const std::size_t step = (size + most - 1) / most;
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < size; i += std::max<std::size_t>(step, 1)) all.push_back(i);
  return all;
}

/// In fractions of an inch, as a tape or a level has them, down to a 512th; finer or other ones in decimals.
std::string offset_text(double mm, bool metric) {
  if (metric) return units::short_decimals(mm, 4) + " mm";
  constexpr long parts = 512;
  const double marks = mm / units::inch_mm * parts;
  const long count = std::labs(std::lround(marks)), common = std::gcd(count, parts);
  if (std::abs(marks - std::round(marks)) > 1e-6 || count == 0 || count >= parts)
    return units::short_decimals(mm / units::inch_mm, 4) + "\"";
  return (mm < 0 ? "-" : "") + std::to_string(count / common) + "/" + std::to_string(parts / common) + "\"";
}

/// A reading off by up to its tolerance, in steps of an eighth of it.
job::Varied varied_reading(const Doubt& doubt, bool metric) {
  constexpr int steps = 8;
  job::Varied varied;
  varied.name = doubt.name;
  varied.measure = job::Measure::length;
  for (int i = -steps; i <= steps; ++i) {
    varied.numbers.push_back(doubt.tolerance_mm * i / steps);
    varied.shown.push_back(offset_text(varied.numbers.back(), metric));
  }
  varied.held = steps;
  varied.now = varied.shown[steps];
  varied.now_number = 0;
  return varied;
}

}  // namespace

Plan::Plan(job::Study study) : study_{std::move(study)}, original_{std::make_unique<job::Original>(study_.job)} {
  if (study_.vary == job::Vary::readings)
    take_readings();
  else
    varied_ = study_.keys;
  own_ = study_.samples;
  if (study_.way == job::Way::all) {
    own_ = 1;
    for (const job::Varied& key : varied_) own_ *= key.shown.size();
  }
  lay_map();
}

Plan::~Plan() = default;

void Plan::take_readings() {
  for (const auto& of : {doubts_of_plan_and_plumb, doubts_of_widths, doubts_of_floor})
    for (Doubt& doubt : of(study_.job)) doubts_.push_back(std::move(doubt));
  if (doubts_.empty())
    throw diag::JobFaults{
        {{study_.file, 0, 0, "study.vary",
          "found 'readings'; the job '" + study_.job.file + "' has no readings ([survey.plan] and on)"}}};
  for (const Doubt& doubt : doubts_) varied_.push_back(varied_reading(doubt, study_.job.is_metric()));
}

std::size_t Plan::named(const job::Asked& asked) const {
  std::vector<std::string> known;
  for (std::size_t i = 0; i < varied_.size(); ++i) {
    if (varied_[i].name == asked.path) return i;
    known.push_back(varied_[i].name);
  }
  throw diag::JobFaults{
      {{study_.file, asked.line, asked.column, "study.map",
        "'" + asked.path + "' does not vary; did you mean '" + diag::nearest(asked.path, known) + "'?"}}};
}

void Plan::lay_map() {
  std::vector<std::size_t> axes;
  for (const job::Asked& asked : study_.map) axes.push_back(named(asked));
  if (axes.empty() && study_.vary == job::Vary::readings) return;
  if (axes.empty()) axes = varied_.size() > 1 ? std::vector<std::size_t>{0, 1} : std::vector<std::size_t>{0};
  const std::size_t most = study_.way == job::Way::all ? 201 : 41;
  facts::Map map{axes[0], std::nullopt, places(varied_[axes[0]].shown.size(), most), {0}};
  if (axes.size() > 1) map.up = axes[1], map.ys = places(varied_[axes[1]].shown.size(), most);
  map.nodes.resize(map.xs.size() * map.ys.size());
  if (study_.way == job::Way::samples) for_map_ = map.nodes.size();
  map_ = std::move(map);
}

facts::Variant Plan::nth(std::size_t number, std::size_t draw) const {
  facts::Variant variant;
  variant.number = number;
  variant.for_map = number >= own_;
  const bool readings = !doubts_.empty();
  std::vector<std::size_t> values;
  for (const job::Varied& each : varied_) values.push_back(each.held);
  if (variant.for_map) {
    const std::size_t node = number - own_;
    values[map_->across] = map_->xs[node % map_->xs.size()];
    if (map_->up) values[*map_->up] = map_->ys[node / map_->xs.size()];
  } else if (study_.way == job::Way::all) {
    for (std::size_t i = varied_.size(); i-- > 0; number /= varied_[i].shown.size())
      values[i] = number % varied_[i].shown.size();
  } else {
    for (std::size_t i = 0; i < varied_.size(); ++i) {
      const double share = drawn(study_.seed, number, i, draw);
      values[i] = static_cast<std::size_t>(share * static_cast<double>(varied_[i].shown.size()));
      if (readings) variant.offsets_mm.push_back((2 * share - 1) * doubts_[i].tolerance_mm);
    }
  }
  if (!readings)
    variant.values = std::move(values);
  else if (variant.for_map)
    for (std::size_t i = 0; i < varied_.size(); ++i) variant.offsets_mm.push_back(varied_[i].numbers[values[i]]);
  return variant;
}

job::Job Plan::job_of(const facts::Variant& variant) const {
  if (!variant.offsets_mm.empty())
    return original_->with({}, [&](job::Job& job) {
      for (std::size_t i = 0; i < doubts_.size(); ++i) doubts_[i].move(job, variant.offsets_mm[i]);
    });
  std::vector<job::Change> changes;
  for (std::size_t i = 0; i < variant.values.size(); ++i) changes.push_back(varied_[i].changes[variant.values[i]]);
  return original_->with(changes);
}

std::optional<std::size_t> Plan::node_of(const facts::Variant& variant) const {
  if (!map_) return std::nullopt;
  if (study_.way == job::Way::samples) return variant.for_map ? std::optional{variant.number - own_} : std::nullopt;
  for (std::size_t i = 0; i < varied_.size(); ++i)
    if (i != map_->across && i != map_->up && variant.values[i] != varied_[i].held) return std::nullopt;
  const auto place = [](const std::vector<std::size_t>& list, std::size_t value) -> std::optional<std::size_t> {
    const auto it = std::lower_bound(list.begin(), list.end(), value);
    return it != list.end() && *it == value ? std::optional{static_cast<std::size_t>(it - list.begin())} : std::nullopt;
  };
  const auto x = place(map_->xs, variant.values[map_->across]);
  const auto y = map_->up ? place(map_->ys, variant.values[*map_->up]) : std::optional<std::size_t>{0};
  return x && y ? std::optional{*y * map_->xs.size() + *x} : std::nullopt;
}

std::vector<double> Plan::tolerances_mm() const {
  std::vector<double> all;
  for (const Doubt& doubt : doubts_) all.push_back(doubt.tolerance_mm);
  return all;
}

}  // namespace fallwright::study
