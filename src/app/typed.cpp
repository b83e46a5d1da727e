#include "app/typed.hpp"

#include <algorithm>

#include "diag/fault.hpp"
#include "units/length.hpp"

namespace fallwright::app {

double length_of(const std::string& name, const std::string& text, job::UnitSystem unit) {
  std::string why;
  const auto bare = unit == job::UnitSystem::metric ? units::LengthUnit::mm : units::LengthUnit::inch;
  const bool minus = !text.empty() && text[0] == '-';
  if (const auto length = units::parse_length(minus ? text.substr(1) : text, bare, why))
    return minus ? -length->in_mm() : length->in_mm();
  throw diag::JobFaults{{{"", 0, 0, name, "found '" + text + "': " + why}}};
}

job::RimReading rim_reading(const std::string& text, job::UnitSystem unit) {
  const std::size_t equals = text.find('=');
  std::string name = text.substr(0, equals), known;
  std::replace(name.begin(), name.end(), '-', ' ');
  for (const job::RimPoint point : job::all_rim_points) {
    if (equals != std::string::npos && name == job::name_of(point))
      return {point, units::Length::mm(length_of(name, text.substr(equals + 1), unit))};
    std::string own = job::name_of(point);
    std::replace(own.begin(), own.end(), ' ', '-');
    known += (known.empty() ? "" : ", ") + own;
  }
  throw diag::JobFaults{{{"", 0, 0, "",
                          "found '" + text +
                              "'; a reading is a place and a length, like back-left=1/8. "
                              "Places: " +
                              known}}};
}

}  // namespace fallwright::app
