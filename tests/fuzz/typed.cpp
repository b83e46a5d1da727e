// Any text as what a person types: lengths, falls, quantities, and lengths for a key of the job file. What was read is
// printed every way there is, and a length that a key takes can be cut to the tape.
#include <cmath>
#include <string>

#include "diag/fault.hpp"
#include "fuzz/target.hpp"
#include "job/read.hpp"
#include "units/fall.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

using namespace fallwright;

namespace {

/// A value with nothing to say why there is none, or none and a reason.
template <class Result>
bool read_or_told(const Result& result, const std::string& why) {
  const bool told = static_cast<bool>(result) || !why.empty();
  fuzz::must(told, "what cannot be read has a reason");
  return static_cast<bool>(result);
}

void lengths(std::string_view text) {
  for (const auto unit : {units::LengthUnit::inch, units::LengthUnit::foot, units::LengthUnit::mm,
                          units::LengthUnit::cm, units::LengthUnit::metre}) {
    std::string why;
    const auto length = units::parse_length(text, unit, why);
    if (!read_or_told(length, why)) continue;
    fuzz::must(!std::isnan(length->in_mm()), "a length is a number");
    units::to_inches(*length), units::to_feet_and_inches(*length), units::to_mm(*length);
    for (const bool metric : {false, true}) units::to_text(units::round_to_tape(*length, metric), metric);
  }
}

void falls(std::string_view text) {
  std::string why;
  const auto fall = units::parse_fall(text, why);
  if (!read_or_told(fall, why)) return;
  fuzz::must(!std::isnan(fall->as_ratio()), "a fall is a number");
  units::to_inches_per_foot(*fall), units::to_percent(*fall), units::to_one_in(*fall);
  for (const bool metric : {false, true}) units::to_text(*fall, metric);
}

void quantities(std::string_view text) {
  for (const bool metric : {false, true}) {
    std::string why;
    if (const auto volume = units::parse_volume_mm3(text, why); read_or_told(volume, why))
      units::volume_text(*volume, metric);
    why.clear();
    if (const auto area = units::parse_area_mm2(text, why); read_or_told(area, why)) units::area_text(*area, metric);
  }
  for (const auto& parse : {units::parse_density_kg_m3, units::parse_share, units::parse_mass_kg}) {
    std::string why;
    if (const auto number = parse(text, why); read_or_told(number, why)) units::decimals(*number, 3);
  }
  std::string why;
  const std::vector<double> parts = units::parse_parts(text, why);
  read_or_told(parts.empty() ? nullptr : &parts, why);
}

/// As the command line takes them: held to the range of the key, in both units.
void for_keys(std::string_view text) {
  for (const char* key : {"alcove.width", "as_set.back_left", "bed.gauge_depth", "survey.tolerance"})
    for (const auto unit : {job::UnitSystem::inch, job::UnitSystem::metric}) try {
        const double mm = job::typed_length(key, "typed", std::string{text}, unit);
        fuzz::must(std::abs(mm) < 1e5, "a length that a key takes is one of a room");
        units::to_text(units::Length::mm(mm), unit == job::UnitSystem::metric);
      } catch (const diag::JobFaults& e) {
        fuzz::must(!e.faults().empty() && !e.faults().front().message.empty(), "a refusal says what is wrong");
      }
}

}  // namespace

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = fuzz::text_of(data, size);
  lengths(text);
  falls(text);
  quantities(text);
  for_keys(text);
  return 0;
}
