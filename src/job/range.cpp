#include "job/range.hpp"

#include <algorithm>
#include <cmath>

#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::job {
namespace {

bool is_length(Kind kind) {
  return kind == Kind::length || kind == Kind::lengths || kind == Kind::reading || kind == Kind::points ||
         kind == Kind::rows;
}

/// Water is told in gallons where its own key is written so.
bool is_water(const Key& key) {
  return key.kind == Kind::volume && key.inch.find("gal") != std::string::npos;
}

std::string usual_text(const Key& key, double value, UnitSystem unit) {
  if (!is_water(key)) return value_text(key.kind, value, unit);
  // Of a few hundredths of a gallon two decimals would tell another bound.
  const double gal = value / units::mm3_per_gal;
  if (unit == UnitSystem::inch && gal < 0.1) return units::decimals(gal, 3) + " gal";
  return units::water_text(value, unit == UnitSystem::metric);
}

/// A deflection over its span is told as one in so many, where its key is written so in either unit.
bool is_one_in(const Key& key) {
  return key.kind == Kind::fall && key.inch.starts_with("\"1:") && key.metric.starts_with("\"1:");
}

/// A length that is less than a mark of the rule is told in decimals: as none it would tell another bound.
std::string length_bound_text(double value, UnitSystem unit) {
  const std::string usual = units::to_text(Length::mm(value), unit == UnitSystem::metric);
  std::string why;
  const auto read = units::parse_length(usual, units::LengthUnit::mm, why);
  if (value == 0 || !read || read->in_mm() != 0) return usual;
  return units::decimals(value / units::inch_mm, 3) + "\"";
}

/// A fall without the second way to say it, which does not read back.
std::string bound_text(const Key& key, double value, UnitSystem unit) {
  if (is_length(key.kind)) return length_bound_text(value, unit);
  if (is_one_in(key)) return value == 0 ? "0 %" : units::to_one_in(Fall::ratio(value));
  if (key.kind != Kind::fall) return usual_text(key, value, unit);
  const Fall fall = Fall::ratio(value);
  return unit == UnitSystem::metric ? units::to_percent(fall) : units::to_inches_per_foot(fall);
}

/// What a printed bound is read as; the bound itself where it is not a text in the file.
double as_printed(const Key& key, double bound, UnitSystem unit) {
  std::string why;
  return number_of(key.kind, bound_text(key, bound, unit), unit, why).value_or(bound);
}

/// What was found, so that it cannot be taken for a bound that it is past by less than a mark of the rule.
std::string found_text(const Key& key, double number, UnitSystem unit) {
  if (!std::isfinite(number)) return "no finite number";
  const std::string usual = usual_text(key, number, unit);
  const std::string least = usual_text(key, key.least, unit), greatest = usual_text(key, key.greatest, unit);
  if (!is_length(key.kind) || (usual != least && usual != greatest)) return usual;
  return unit == UnitSystem::metric ? units::decimals(number, 3) + " mm"
                                    : units::decimals(number / units::inch_mm, 4) + "\"";
}

}  // namespace

std::string value_text(Kind kind, double value, UnitSystem unit) {
  const bool metric = unit == UnitSystem::metric;
  if (is_length(kind)) return units::to_text(Length::mm(value), metric);
  switch (kind) {
    case Kind::fall:
      return units::to_text(Fall::ratio(value), metric);
    case Kind::volume:
      return units::volume_text(value, metric);
    case Kind::area:
      return units::area_text(value, metric);
    case Kind::density:
      return units::decimals(value, 0) + " kg/m3";
    case Kind::mass:
      return metric ? units::decimals(value, 1) + " kg" : units::decimals(value / units::kg_per_lb, 1) + " lb";
    case Kind::stress:
      return units::stress_text(value, metric);
    case Kind::share:
      return units::decimals(value * 100, 0) + " %";
    default:
      return units::decimals(value, 0);
  }
}

std::optional<double> number_of(Kind kind, const std::string& text, UnitSystem unit, std::string& why) {
  if (is_length(kind)) {
    const auto bare = unit == UnitSystem::inch ? units::LengthUnit::inch : units::LengthUnit::mm;
    const auto length = units::parse_length(text, bare, why);
    return length ? std::optional{length->in_mm()} : std::nullopt;
  }
  switch (kind) {
    case Kind::fall: {
      const auto fall = units::parse_fall(text, why);
      return fall ? std::optional{fall->as_ratio()} : std::nullopt;
    }
    case Kind::volume:
      return units::parse_volume_mm3(text, why);
    case Kind::area:
      return units::parse_area_mm2(text, why);
    case Kind::density:
      return units::parse_density_kg_m3(text, why);
    case Kind::mass:
      return units::parse_mass_kg(text, why);
    case Kind::stress:
      return units::parse_stress_mpa(text, why);
    case Kind::share:
      return units::parse_share(text, why);
    default:
      return std::nullopt;
  }
}

std::optional<Range> range_of(const Key& key, UnitSystem unit) {
  if (key.least == 0 && key.greatest == 0) return std::nullopt;
  return Range{std::min(key.least, as_printed(key, key.least, unit)),
               std::max(key.greatest, as_printed(key, key.greatest, unit))};
}

std::string range_text(const Key& key, UnitSystem unit) {
  if (!range_of(key, unit)) return "";
  return bound_text(key, key.least, unit) + " to " + bound_text(key, key.greatest, unit);
}

bool in_range(const Key& key, double number, UnitSystem unit, std::string& why) {
  constexpr double slack = 1e-9;  // of reading decimals
  const auto range = range_of(key, unit);
  if (std::isfinite(number) && (!range || (number >= range->least - slack && number <= range->greatest + slack)))
    return true;
  why = "found " + found_text(key, number, unit) + (range ? "; allowed is " + range_text(key, unit) : "");
  return false;
}

}  // namespace fallwright::job
