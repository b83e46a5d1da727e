/// Mortar mixed on site from cement, lime and sand by loose volume.
#pragma once

namespace fallwright::takeoff {

/// Loose volumes, in one unit.
struct Parts {
  double cement = 0, lime = 0, sand = 0;
};

/// Mortar that loose parts make. Lean: sand swells by a tenth as it is wetted and worked, and the paste lies in its
/// voids. Rich: the paste does not find room there, and adds to it. The greater of both; they meet where paste fills
/// the voids. Gillette and Hill, Concrete Construction Methods and Costs (1908), p. 21: 1.1 n s, and p + n s (1.1 - 0.9
/// v) a barrel, with a paste of 3.4 ft3 from 3.8 ft3 of cement and voids of 45 %. Lime counts as cement does (common
/// practice, no source). Handbooks differ by up to 11 % for one mix.
double mortar_of(const Parts& parts);

/// Loose parts for a volume of mortar, by the proportions given.
Parts parts_for(double mortar, const Parts& proportions);

/// A cubic foot of each, loose: 94 lb, 40 lb, and damp sand that carries 80 lb dry (ASTM C270, secondary), in kg/m3.
inline constexpr double cement_kg_m3 = 94 * 0.45359237 / 0.028316846592;
inline constexpr double lime_kg_m3 = 40 * 0.45359237 / 0.028316846592;
inline constexpr double sand_kg_m3 = 80 * 0.45359237 / 0.028316846592;

}  // namespace fallwright::takeoff
