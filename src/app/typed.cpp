#include "app/typed.hpp"

#include <algorithm>

#include "diag/fault.hpp"
#include "job/read.hpp"
#include "units/length.hpp"
#include "units/letters.hpp"
#include "units/tolerance.hpp"

namespace fallwright::app {

namespace {

/// "back-left" for the file's and the sheets' "back left".
std::string typed_name(job::RimPoint point) {
  std::string name = job::name_of(point);
  std::replace(name.begin(), name.end(), ' ', '-');
  return name;
}

job::RimReading rim_reading(const std::string& text, job::UnitSystem unit) {
  const std::size_t equals = text.find('=');
  const std::string name = text.substr(0, equals);
  std::string known;
  for (const job::RimPoint point : job::all_rim_points) {
    if (equals != std::string::npos && (name == typed_name(point) || name == job::name_of(point))) {
      std::string key = typed_name(point);
      std::replace(key.begin(), key.end(), '-', '_');
      return {point, units::Length::mm(job::typed_length("as_set." + key, name, text.substr(equals + 1), unit))};
    }
    known += (known.empty() ? "" : ", ") + typed_name(point);
  }
  throw diag::JobFaults{{{"", 0, 0, "",
                          "found '" + units::first_letters(text, 60) +
                              "'; a reading is a place and a length, like back-left=1/8. Places: " + known}}};
}

/// A coordinate of the plan, between `least` and `greatest`.
double coordinate(const char* name, const std::string& text, job::UnitSystem unit, double least, double greatest) {
  const auto bare = unit == job::UnitSystem::metric ? units::LengthUnit::mm : units::LengthUnit::inch;
  const auto in_words = [&](double mm) {
    return units::to_text(units::Length::mm(mm), unit == job::UnitSystem::metric);
  };
  const auto refuse = [&](const std::string& why) {
    throw diag::JobFaults{{{"", 0, 0, name, "found '" + units::first_letters(text, 60) + "'" + why}}};
  };
  std::string why;
  const auto length = units::parse_length(text, bare, why);
  if (!length) refuse(": " + why);
  const double mm = length->in_mm();
  if (!(mm >= least - units::tolerance::length_mm && mm <= greatest + units::tolerance::length_mm))
    refuse(", which is outside the room; allowed is " + in_words(least) + " to " + in_words(greatest));
  return mm;
}

}  // namespace

survey::Point point_of(const std::string& x, const std::string& y, const job::Job& job) {
  return {coordinate("X", x, job.unit, 0, job.alcove.width.in_mm()),
          coordinate("Y", y, job.unit, -job.floor.beyond_entry.in_mm(), job.alcove.depth.in_mm())};
}

std::vector<job::RimReading> rim_readings(const std::vector<std::string>& texts, job::UnitSystem unit) {
  std::vector<job::RimReading> readings;
  std::vector<diag::Fault> faults;
  for (const std::string& text : texts) try {
      const job::RimReading reading = rim_reading(text, unit);
      if (std::any_of(readings.begin(), readings.end(), [&](const auto& r) { return r.point == reading.point; }))
        faults.push_back({"", 0, 0, typed_name(reading.point), "is given twice; a place has one reading"});
      readings.push_back(reading);
    } catch (const diag::JobFaults& e) {
      faults.insert(faults.end(), e.faults().begin(), e.faults().end());
    }
  if (!faults.empty()) throw diag::JobFaults{faults};
  return readings;
}

}  // namespace fallwright::app
