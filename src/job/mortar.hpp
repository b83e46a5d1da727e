/// Mortar by absolute volumes: what cement, lime, the grains of sand, water and air take up of it.
#pragma once

#include "units/quantity.hpp"

namespace fallwright::job {

struct Job;
struct Mix;

/// How wet a bed is mixed. Stiff is dry pack: a clump holds and does not drip. Soft is wetter and looser: ribs sink
/// into it, and a clump does not hold.
enum class Wetness { stiff, soft };

/// As the job says; else soft under ribs and stiff under a flat base.
Wetness wetness_of(const Job& job);

/// A cubic metre of mortar as it lies. Sand is dry, water is all of it, with what damp sand brings.
struct Mortar {
  double cement_kg = 0, lime_kg = 0, sand_kg = 0, water_kg = 0;
  double sand_m3 = 0;  ///< as it is measured, loose
  double solids_kg() const { return cement_kg + lime_kg + sand_kg; }
  double wet_kg() const { return solids_kg() + water_kg; }
};

/// @pre `mix` is one: it has parts.
Mortar mortar_of(const Mix& mix, Wetness wetness);

/// Bulk densities, kg/m3. A cubic foot: cement 94 lb and lime 40 lb (secondary), damp loose sand that carries 80 lb dry
/// (ASTM C270, secondary), dry loose sand 91 lb with voids of 45 % (Gillette and Hill, 1908).
inline constexpr double lb_ft3 = units::kg_per_lb / (units::mm3_per_ft3 * 1e-9);
inline constexpr double cement_kg_m3 = 94 * lb_ft3, lime_kg_m3 = 40 * lb_ft3, damp_sand_kg_m3 = 80 * lb_ft3,
                        dry_sand_kg_m3 = 91 * lb_ft3;

/// Density of cement, lime and sand without voids, kg/m3. Cement: Sabin, Cement and Concrete (1905); the others from
/// memory.
inline constexpr double cement_grain_kg_m3 = 3150, lime_grain_kg_m3 = 2300, sand_grain_kg_m3 = 2650;

/// Water in damp sand over dry sand. Common practice, no source; it bulks by a quarter then.
inline constexpr double damp_share = 0.04;

/// Water over solids, both by mass. 7 to 10 % in dry pack (common practice, no source); Sabin's 1:3 by mass takes
/// 13.8 % for brickwork.
inline constexpr double water_share(Wetness wetness) {
  return wetness == Wetness::stiff ? 0.09 : 0.16;
}
/// Air over all: from memory, between the 8 % of a worked and the 15 % of a packed mortar that old yields come to.
inline constexpr double air_share(Wetness wetness) {
  return wetness == Wetness::stiff ? 0.15 : 0.08;
}

/// The bed's density where nobody said it and what it is mixed from is known: kg/m3, solids and water.
void settle_density(Job& job);

}  // namespace fallwright::job
