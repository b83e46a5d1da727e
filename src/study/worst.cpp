#include <algorithm>
#include <cmath>
#include <functional>

#include "brep/properties.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "study/study.hpp"
#include "units/quantity.hpp"

namespace fallwright::study {
namespace {

/// One reading, and how to move it within a job.
struct Doubt {
  std::string name;
  double tolerance;
  std::function<void(job::Job&, double)> move;
};

std::vector<Doubt> doubts_of_walls(const job::Job& job) {
  std::vector<Doubt> doubts;
  using survey::Plan;
  const std::pair<const char*, std::optional<survey::Reading> Plan::*> sides[] = {
      {"back", &Plan::back},
      {"front", &Plan::front},
      {"left", &Plan::left},
      {"right", &Plan::right},
      {"diagonal from back left", &Plan::from_back_left},
      {"diagonal from back right", &Plan::from_back_right}};
  for (const auto& [name, field] : sides)
    if (const auto& reading = job.survey.plan.*field)
      doubts.push_back(
          {name, reading->tolerance_mm, [f = field](job::Job& j, double by) { (j.survey.plan.*f)->mm += by; }});
  for (std::size_t i = 0; i < job.survey.plumbs.size(); ++i) {
    const survey::Plumb& p = job.survey.plumbs[i];
    doubts.push_back({std::string{"plumb of the "} + name_of(p.wall) + " wall, reading " + std::to_string(i + 1),
                      p.lean.tolerance_mm, [i](job::Job& j, double by) { j.survey.plumbs[i].lean.mm += by; }});
  }
  return doubts;
}

std::vector<Doubt> doubts_of_floor(const job::Job& job) {
  std::vector<Doubt> doubts;
  for (std::size_t i = 0; i < job.survey.spots.size(); ++i) {
    const survey::Spot& s = job.survey.spots[i];
    const auto at = [&](double mm) {
      return units::to_text(units::Length::mm(mm), job.unit == job::UnitSystem::metric);
    };
    doubts.push_back({"spot level at " + at(s.x) + ", " + at(s.y), job.survey.level_tolerance_mm,
                      [i](job::Job& j, double by) { j.survey.spots[i].z += by; }});
  }
  return doubts;
}

/// Every reading moved by its tolerance up and down, one at a time; the changes one way add up to the worst case.
void add_up(const job::Job& job, const std::vector<Doubt>& doubts,
            const std::function<std::vector<double>(const job::Job&)>& measured, std::vector<facts::Worst>& worst) {
  for (const Doubt& doubt : doubts) {
    for (const double sign : {1., -1.}) {
      job::Job other = job;
      doubt.move(other, sign * doubt.tolerance);
      const std::vector<double> values = measured(other);
      for (std::size_t i = 0; i < worst.size(); ++i) {
        const double change = values[i] - worst[i].nominal;
        (change < 0 ? worst[i].least : worst[i].greatest) += change;
        if (std::abs(change) <= worst[i].by_reading) continue;
        worst[i].by_reading = std::abs(change);
        worst[i].reading = doubt.name;
      }
    }
  }
}

facts::Worst start(const char* what, double nominal, const char* unit) {
  return {what, nominal, nominal, nominal, "", 0, unit};
}

/// What is left over across the width, and to spare as the base is let down.
std::vector<double> room_of(const job::Job& job, const facts::Heights& heights) {
  const measure::WayIn way = measure::measure_way_in(parts::build_framing(job), heights);
  return {way.left_over_mm, way.drop_in.least_mm};
}

/// Falls of the floor when the rim is levelled by readings at its corners, each off by the level's tolerance: then one
/// end may be low by twice that, and one side too.
std::vector<facts::Worst> worst_falls(const parts::Model& model) {
  const auto base = brep::box_of(model.first(parts::Role::base)->shape);
  const double t = 2 * model.job.survey.level_tolerance_mm, along = t / (base[3] - base[0]),
               across = t / (base[4] - base[1]);
  const auto span = [&](double gx, double gy) {
    std::pair<double, double> falls{1, 0};
    for (const facts::Facet& f : measure::tilted_falls(model, gx, gy))
      if (f.surface == "base-floor") falls = {std::min(falls.first, f.fall), std::max(falls.second, f.fall)};
    return falls;
  };
  const auto level = span(0, 0);
  facts::Worst least = start("least fall of the floor", level.first, "ratio"),
               greatest = start("greatest fall of the floor", level.second, "ratio");
  const auto take = [](facts::Worst& worst, double value, const char* reading) {
    worst.least = std::min(worst.least, value), worst.greatest = std::max(worst.greatest, value);
    if (reading && std::abs(value - worst.nominal) > worst.by_reading)
      worst.by_reading = std::abs(value - worst.nominal), worst.reading = reading;
  };
  for (const int x : {-1, 0, 1})
    for (const int y : {-1, 0, 1}) {
      const auto falls = span(x * along, y * across);
      const char* alone = x != 0 && y == 0   ? "level along the length"
                          : y != 0 && x == 0 ? "level along the width"
                                             : nullptr;
      take(least, falls.first, alone);
      take(greatest, falls.second, alone);
    }
  return {least, greatest};
}

}  // namespace

std::vector<facts::Worst> worst_cases(const parts::Model& model, const facts::Facts& facts) {
  const job::Job& job = model.job;
  std::vector<facts::Worst> all = worst_falls(model);
  if (const auto doubts = doubts_of_walls(job); !doubts.empty()) {
    std::vector<facts::Worst> worst{start("left over across the width", facts.openings.front().left_over_mm, "mm"),
                                    start("to spare as the base is let down", facts.room.drop_in.least_mm, "mm")};
    if (!facts.room.drop_in.between_walls) worst.pop_back();
    add_up(
        job, doubts, [&](const job::Job& j) { return room_of(j, facts.heights); }, worst);
    all.insert(all.end(), worst.begin(), worst.end());
  }
  if (const auto doubts = doubts_of_floor(job); !doubts.empty()) {
    std::vector<facts::Worst> worst{start("mortar in the bed as set", facts.bed.set_mm3, "mm3")};
    add_up(
        job, doubts, [](const job::Job& j) { return std::vector<double>{brep::volume_mm3(parts::build_bed(j).shape)}; },
        worst);
    all.insert(all.end(), worst.begin(), worst.end());
  }
  return all;
}

}  // namespace fallwright::study
