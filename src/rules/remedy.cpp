#include "rules/remedy.hpp"

#include <cmath>

#include "units/fall.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {

double up_to_mark(double mm, const job::Job& job) {
  const double mark = job.mark_mm();
  return std::ceil(mm / mark - units::tolerance::length_mm) * mark;
}

double down_to_mark(double mm, const job::Job& job) {
  const double mark = job.unit == job::UnitSystem::metric ? 0.1 : 25.4 / 64;
  return std::floor(mm / mark + units::tolerance::length_mm) * mark;
}

job::Change set_length(const std::string& key, double mm, const job::Job& job, std::size_t entry) {
  return {key, job::written(job::Length::mm(mm), job.unit), entry};
}

/// As it is printed where that reads back as the same fall, else in percent to the last digit that counts.
job::Change set_fall(const std::string& key, double ratio, const job::Job& job) {
  const std::string printed = text_of(ratio, Unit::ratio, job), text = printed.substr(0, printed.find(" ("));
  std::string why;
  const auto read = units::parse_fall(text, why);
  const bool same = read && std::abs(read->as_ratio() - ratio) <= units::tolerance::ratio;
  return {key, "\"" + (same ? text : units::decimals(ratio * 100, 9) + " %") + "\"", 0};
}

Finding mended_by(Finding finding, std::vector<job::Change> changes, std::string instead) {
  if (!changes.empty()) finding.remedies.push_back({std::move(changes), {}, {}, true, std::move(instead)});
  return finding;
}

}  // namespace fallwright::rules
