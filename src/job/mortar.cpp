#include "job/mortar.hpp"

#include <algorithm>

#include "job/job.hpp"

namespace fallwright::job {

Wetness wetness_of(const Job& job) {
  if (job.bed.wetness) return *job.bed.wetness;
  const Base& base = job.base;
  const bool ribbed = base.underside == Underside::shell && (base.pockets() > 0 || !base.tape.ribs_known);
  return ribbed && !base.is_site_built() ? Wetness::soft : Wetness::stiff;
}

Mortar mortar_of(const Mix& mix, Wetness wetness) {
  constexpr double water_kg_m3 = 1000;
  Mortar m{mix.cement() * cement_kg_m3, mix.lime() * lime_kg_m3, mix.sand() * mix.sand_kg_m3, 0, mix.sand()};
  m.water_kg = m.solids_kg() * water_share(wetness);
  const double volume = (m.cement_kg / cement_grain_kg_m3 + m.lime_kg / lime_grain_kg_m3 +
                         m.sand_kg / sand_grain_kg_m3 + m.water_kg / water_kg_m3) /
                        (1 - air_share(wetness));
  for (double* part : {&m.cement_kg, &m.lime_kg, &m.sand_kg, &m.water_kg, &m.sand_m3}) *part /= volume;
  return m;
}

namespace {

/// What bags make: the dry mix, and the water printed on them or else what a mortar so wet takes.
double bagged_kg_m3(const Job& job) {
  const double litre_mm3 = 1e6, dry = *job.bed.bag_kg;
  const auto &least = job.buy.water_least_mm3, &most = job.buy.water_greatest_mm3;
  const double water = least || most
                           ? (least.value_or(*(most ? most : least)) + (most ? *most : *least)) / 2 / litre_mm3
                           : dry * water_share(wetness_of(job));
  return (dry + water) / *job.bed.bag_yield_m3;
}

}  // namespace

void settle_density(Job& job) {
  double known = 0;
  if (job.bed.bag_yield_m3 && job.bed.bag_kg) known = bagged_kg_m3(job);
  if (job.buy.mix.any()) known = std::max(known, mortar_of(job.buy.mix, wetness_of(job)).wet_kg());
  if (known > 0) job.bed.density_kg_m3 = known;
}

}  // namespace fallwright::job
