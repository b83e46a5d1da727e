#include "study/doubts.hpp"

#include "units/quantity.hpp"

namespace fallwright::study {

std::vector<Doubt> doubts_of_plan_and_plumb(const job::Job& job) {
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

std::vector<Doubt> doubts_of_widths(const job::Job& job) {
  std::vector<Doubt> doubts;
  for (std::size_t i = 0; i < job.survey.widths.size(); ++i)
    doubts.push_back({"width at a height, reading " + std::to_string(i + 1), job.survey.widths[i].width.tolerance_mm,
                      [i](job::Job& j, double by) { j.survey.widths[i].width.mm += by; }});
  return doubts;
}

std::vector<Doubt> doubts_of_floor(const job::Job& job) {
  std::vector<Doubt> doubts;
  for (std::size_t i = 0; i < job.survey.spots.size(); ++i) {
    const survey::Spot& s = job.survey.spots[i];
    const auto at = [&](double mm) { return units::to_text(units::Length::mm(mm), job.is_metric()); };
    doubts.push_back({"spot level at " + at(s.x) + ", " + at(s.y), job.survey.level_tolerance_mm,
                      [i](job::Job& j, double by) { j.survey.spots[i].z += by; }});
  }
  return doubts;
}

}  // namespace fallwright::study
