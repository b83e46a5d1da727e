#include "rules/remedy.hpp"

#include <cmath>

#include "rules/levelling.hpp"
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

std::string length_in_full(double mm, const job::Job& job) {
  const double mark = job.mark_mm(), fine = job.unit == job::UnitSystem::metric ? 0.1 : 25.4 / 64;
  const auto is_on = [&](double step) {
    return std::abs(std::round(mm / step) * step - mm) <= units::tolerance::length_mm;
  };
  if (is_on(mark)) return text_of(mm, Unit::mm, job);
  if (is_on(fine)) return text_at_most(std::round(mm / fine) * fine, job);
  const std::string quoted = job::written(job::Length::mm(mm), job::UnitSystem::metric);
  return quoted.substr(1, quoted.size() - 2);
}

std::string fall_in_full(double ratio, const job::Job& job) {
  const std::string printed = text_of(ratio, Unit::ratio, job);
  const std::size_t run = printed.find(" (");
  std::string why;
  const auto read = units::parse_fall(printed.substr(0, run), why);
  if (read && std::abs(read->as_ratio() - ratio) <= units::tolerance::ratio) return printed;
  return units::decimals(ratio * 100, 9) + " %" + (run == std::string::npos ? "" : printed.substr(run));
}

job::Change set_fall(const std::string& key, double ratio, const job::Job& job) {
  const std::string text = fall_in_full(ratio, job);
  return {key, "\"" + text.substr(0, text.find(" (")) + "\"", 0};
}

Finding mended_by(Finding finding, std::vector<job::Change> changes, std::string instead) {
  if (!changes.empty()) finding.remedies.push_back({std::move(changes), {}, {}, true, std::move(instead)});
  return finding;
}

}  // namespace fallwright::rules
