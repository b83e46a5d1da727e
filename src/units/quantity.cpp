#include "units/quantity.hpp"

#include <charconv>
#include <cmath>
#include <span>

#include "units/length.hpp"
#include "units/reader.hpp"

namespace fallwright::units {
namespace {

struct Name {
  std::string_view text;
  double factor;
};

constexpr double in3 = inch_mm * inch_mm * inch_mm;
constexpr Name volumes[] = {{"cubic feet", mm3_per_ft3},
                            {"cu ft", mm3_per_ft3},
                            {"ft3", mm3_per_ft3},
                            {"ft^3", mm3_per_ft3},
                            {"cu in", in3},
                            {"in3", in3},
                            {"gal", mm3_per_gal},
                            {"qt", mm3_per_gal / 4},
                            {"pt", mm3_per_gal / 8},
                            {"fl oz", mm3_per_gal / 128},
                            {"mL", 1e3},
                            {"ml", 1e3},
                            {"in^3", in3},
                            {"litres", 1e6},
                            {"liters", 1e6},
                            {"L", 1e6},
                            {"l", 1e6},
                            {"cm3", 1e3},
                            {"cm^3", 1e3},
                            {"m3", 1e9},
                            {"m^3", 1e9},
                            {"cm3", 1e3},
                            {"mm3", 1}};
constexpr Name areas[] = {{"sq in", mm2_per_in2},
                          {"in2", mm2_per_in2},
                          {"in^2", mm2_per_in2},
                          {"sq ft", 144 * mm2_per_in2},
                          {"ft2", 144 * mm2_per_in2},
                          {"ft^2", 144 * mm2_per_in2},
                          {"mm2", 1},
                          {"cm2", 100},
                          {"m2", 1e6},
                          {"m^2", 1e6}};
constexpr Name densities[] = {{"lb/ft3", kg_per_lb / (mm3_per_ft3 * 1e-9)},
                              {"pcf", kg_per_lb / (mm3_per_ft3 * 1e-9)},
                              {"kg/m3", 1},
                              {"kg/L", 1000}};
/// What hangs or stands somewhere is told by makers as its weight as well, which is a force.
constexpr Name masses[] = {{"lb", kg_per_lb}, {"lbs", kg_per_lb},  {"lbf", kg_per_lb},
                           {"kg", 1},         {"N", 1 / n_per_kg}, {"kN", 1000 / n_per_kg}};
constexpr Name stresses[] = {
    {"psi", mpa_per_psi}, {"ksi", 1000 * mpa_per_psi}, {"N/mm2", 1}, {"MPa", 1}, {"kPa", 0.001}, {"kN/m2", 0.001}};
constexpr Name shares[] = {{"%", 0.01}, {"percent", 0.01}};

std::optional<double> parse(std::string_view text, std::span<const Name> names, const char* example, std::string& why) {
  Reader in{text};
  const auto number = in.number(why);
  if (!number) return std::nullopt;
  for (const Name& name : names)
    if (in.rest() == name.text) return *number * name.factor;
  why = "'" + std::string{in.rest()} + "' is no unit for it; write it like " + example;
  return std::nullopt;
}

}  // namespace

std::optional<double> parse_volume_mm3(std::string_view text, std::string& why) {
  return parse(text, volumes, "'0.45 ft3' or '12 L'", why);
}
std::optional<double> parse_area_mm2(std::string_view text, std::string& why) {
  return parse(text, areas, "'900 in2' or '0.6 m2'", why);
}
std::optional<double> parse_density_kg_m3(std::string_view text, std::string& why) {
  return parse(text, densities, "'130 lb/ft3' or '2080 kg/m3'", why);
}
std::optional<double> parse_share(std::string_view text, std::string& why) {
  return parse(text, shares, "'10 %'", why);
}

std::optional<double> parse_mass_kg(std::string_view text, std::string& why) {
  return parse(text, masses, "'94 lb', '25 kg' or, as what it weighs, '400 lbf', '950 N', '2.5 kN'", why);
}

std::optional<double> parse_stress_mpa(std::string_view text, std::string& why) {
  return parse(text, stresses, "'60 psi' or '0.4 N/mm2'", why);
}

std::vector<double> parse_parts(std::string_view text, std::string& why) {
  std::vector<double> parts;
  Reader in{text};
  do {
    const auto part = in.number(why);
    if (!part) return {};
    parts.push_back(*part);
  } while (in.take(":"));
  if (!in.done())
    why = "'" + std::string{in.rest()} + "' is not understood";
  else if (parts.size() < 2 || parts.size() > 3)
    why = std::to_string(parts.size()) + " parts";
  else if (parts.front() == 0 || parts.back() == 0)
    why = "there is no mortar without cement and sand";
  else
    return parts;
  return {};
}

std::string decimals(double value, int count) {
  char buffer[64];  // which fits
  const auto format = std::abs(value) < 1e30 ? std::chars_format::fixed : std::chars_format::general;
  const std::string text{buffer, std::to_chars(buffer, buffer + sizeof buffer, value, format, count).ptr};
  // What is rounded to nothing has no sign.
  return text.front() == '-' && text.find_first_of("123456789") == std::string::npos ? text.substr(1) : text;
}

std::string short_decimals(double value, int most) {
  std::string text = decimals(value, most);
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string volume_text(double mm3, bool metric) {
  // What would come out as nothing is told in the smaller unit.
  const double litres = mm3 * 1e-6, feet = mm3 / mm3_per_ft3;
  if (mm3 == 0) return metric ? "0 L" : "0 ft3";
  if (metric) return mm3 != 0 && std::abs(litres) < 0.1 ? decimals(mm3 / 1000, 1) + " cm3" : decimals(litres, 1) + " L";
  return mm3 != 0 && std::abs(feet) < 0.01 ? decimals(feet * 1728, 1) + " in3" : decimals(feet, 2) + " ft3";
}
std::string water_text(double mm3, bool metric) {
  return metric ? decimals(mm3 * 1e-6, 1) + " L" : decimals(mm3 / mm3_per_gal, 2) + " gal";
}
std::string stress_text(double mpa, bool metric) {
  return metric ? decimals(mpa, 2) + " N/mm2" : decimals(mpa / mpa_per_psi, 1) + " psi";
}

std::string area_text(double mm2, bool metric) {
  return metric ? decimals(mm2 * 1e-6, 3) + " m2" : decimals(mm2 / mm2_per_in2, 0) + " in2";
}

}  // namespace fallwright::units
