#include "app/typed.hpp"

#include <algorithm>

#include "diag/fault.hpp"
#include "job/read.hpp"
#include "survey/room.hpp"
#include "units/length.hpp"
#include "units/letters.hpp"
#include "units/tolerance.hpp"

namespace fallwright::app {

namespace {

/// "back-left", "upstand-back-left", "threshold-left" for the sheets' "back left" and so on.
std::string typed_name(const job::RimReading& reading) {
  std::string name = job::name_of(reading);
  std::replace(name.begin(), name.end(), ' ', '-');
  return name;
}

/// Every place a rule can be held to, with its key in the job file.
const std::vector<std::pair<job::RimReading, std::string>>& places() {
  static const std::vector<std::pair<job::RimReading, std::string>> all = [] {
    std::vector<std::pair<job::RimReading, std::string>> made;
    for (const auto on : {job::ReadOn::rim, job::ReadOn::upstands, job::ReadOn::threshold})
      for (const job::RimPoint point : job::all_rim_points) {
        const bool front =
            point == job::RimPoint::front_left || point == job::RimPoint::front || point == job::RimPoint::front_right;
        if (on == job::ReadOn::threshold && !front) continue;
        const job::RimReading reading{point, {}, on};
        std::string key = job::place_on(reading);
        std::replace(key.begin(), key.end(), ' ', '_');
        made.emplace_back(reading, (on == job::ReadOn::upstands    ? "upstands."
                                    : on == job::ReadOn::threshold ? "threshold."
                                                                   : "") +
                                       key);
      }
    return made;
  }();
  return all;
}

job::RimReading rim_reading(const std::string& text, job::UnitSystem unit) {
  const std::size_t equals = text.find('=');
  const std::string name = text.substr(0, equals);
  std::string known;
  for (const auto& [place, key] : places()) {
    if (equals != std::string::npos && (name == typed_name(place) || name == job::name_of(place)))
      return {place.point, units::Length::mm(job::typed_length("as_set." + key, name, text.substr(equals + 1), unit)),
              place.on};
    if (place.on == job::ReadOn::rim) known += (known.empty() ? "" : ", ") + typed_name(place);
  }
  throw diag::JobFaults{{{"", 0, 0, "",
                          "found '" + units::first_letters(text, 60) +
                              "'; a reading is a place and a length, like back-left=1/8. Places of the rim: " + known +
                              "; of an upstand's top the same with upstand- before it; threshold-left, "
                              "threshold-middle, threshold-right"}}};
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
  const double depth = job.alcove.depth.in_mm(),
               from_entry = coordinate("Y", y, job.unit, -job.floor.beyond_entry.in_mm(), depth);
  const survey::StudFaces faces =
      survey::make_room(job.survey, job.alcove.width.in_mm(), depth, job.alcove.walls).faces();
  return {coordinate("X", x, job.unit, 0, faces.right.at(from_entry) - faces.left.at(from_entry)), from_entry};
}

std::vector<job::RimReading> rim_readings(const std::vector<std::string>& texts, job::UnitSystem unit) {
  std::vector<job::RimReading> readings;
  std::vector<diag::Fault> faults;
  for (const std::string& text : texts) try {
      const job::RimReading reading = rim_reading(text, unit);
      if (std::any_of(readings.begin(), readings.end(),
                      [&](const auto& r) { return r.point == reading.point && r.on == reading.on; }))
        faults.push_back({"", 0, 0, typed_name(reading), "is given twice; a place has one reading"});
      readings.push_back(reading);
    } catch (const diag::JobFaults& e) {
      faults.insert(faults.end(), e.faults().begin(), e.faults().end());
    }
  if (!faults.empty()) throw diag::JobFaults{faults};
  return readings;
}

}  // namespace fallwright::app
