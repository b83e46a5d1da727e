/// Quantities that come from a label or a code and are plain numbers inside: volumes, areas, densities, shares.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "units/length.hpp"

namespace fallwright::units {

/// Each reads a number with its unit and returns nothing, with `why`, when the text is no such quantity.
std::optional<double> parse_volume_mm3(std::string_view text, std::string& why);  ///< `0.45 ft3`, `12 L`, `10.1 fl oz`
std::optional<double> parse_area_mm2(std::string_view text, std::string& why);    ///< `900 in2`, `0.66 m2`, `6.25 ft2`
std::optional<double> parse_density_kg_m3(std::string_view text, std::string& why);  ///< `130 lb/ft3`, `2080 kg/m3`
std::optional<double> parse_share(std::string_view text, std::string& why);          ///< `10 %`
std::optional<double> parse_mass_kg(std::string_view text, std::string& why);        ///< `94 lb`, `25 kg`
std::optional<double> parse_stress_mpa(std::string_view text, std::string& why);     ///< `60 psi`, `0.4 N/mm2`
/// `1:5` or `1:1/4:3-3/4`: two or three parts, the first above zero. Empty with `why` otherwise.
std::vector<double> parse_parts(std::string_view text, std::string& why);

inline constexpr double mm3_per_ft3 = 304.8 * 304.8 * 304.8;
inline constexpr double mm3_per_gal = 231 * inch_mm * inch_mm * inch_mm;  ///< US gallon, exact
inline constexpr double mm2_per_in2 = inch_mm * inch_mm;
inline constexpr double kg_per_lb = 0.45359237;           ///< international pound, exact (1959)
inline constexpr double n_per_kg = 9.80665;               ///< standard gravity, exact (1901)
inline constexpr double mpa_per_psi = 0.006894757293168;  ///< pound-force over square inch

/// `1.24 ft3` or `35.1 L`; `1780 in2` or `1.148 m2`: for people, three figures or so.
std::string volume_text(double mm3, bool metric);
std::string water_text(double mm3, bool metric);  ///< `2.50 gal` or `9.5 L`
std::string area_text(double mm2, bool metric);
std::string stress_text(double mpa, bool metric);  ///< `58.0 psi` or `0.40 N/mm2`

/// A number with a fixed count of decimals, always with a point.
std::string decimals(double value, int count);
/// At most so many, and none that say nothing: "94", "0.45".
std::string short_decimals(double value, int most);

}  // namespace fallwright::units
