#include <algorithm>
#include <cmath>

#include "takeoff/mix.hpp"
#include "takeoff/need.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::takeoff {
namespace {

using units::decimals;

/// What is mixed: what stays, or what is spread where that is more.
struct Mixed {
  double mm3 = 0;
  const char* solid = "bed";
};

Mixed mixed(const facts::Bed& bed) {
  return bed.spread_mm3 > bed.set_mm3 ? Mixed{bed.spread_mm3, "bed-spread"} : Mixed{bed.set_mm3, "bed"};
}

void add_bags(const job::Job& job, const Mixed& all, std::vector<Row>& rows) {
  const Units u = units_of(job);
  const double yield_mm3 = *job.bed.bag_yield_m3 * 1e9, gross = all.mm3 * (1 + job.bed.waste);
  Row row = to_row({"mortar, bags", u.volume(all.mm3), u.volume_unit(), job.bed.waste, u.volume(yield_mm3), "bags",
                    std::string{"solid '"} + all.solid + "'; yield as printed on the bag"});
  rows.push_back(row);
  if (!job.buy.water_least_mm3 && !job.buy.water_greatest_mm3) return;
  const double bags = gross / yield_mm3, least = job.buy.water_least_mm3.value_or(*job.buy.water_greatest_mm3),
               most = job.buy.water_greatest_mm3.value_or(least);
  const double gallon = u.metric ? 1e6 : units::mm3_per_gal;
  const char* unit = u.metric ? "L" : "gal";
  rows.push_back({"water for the mortar", bags * least / gallon, unit, bags * most / gallon, unit,
                  "from " + decimals(bags * least / gallon, 2) + " to " + decimals(bags * most / gallon, 2) + " " +
                      unit + " for " + decimals(bags, 2) +
                      " bags; clean and cold, the last of it by the splash: a clump must hold and not drip"});
}

/// A part of a mix: "5", "0.25".
std::string part(double parts) {
  return decimals(parts, parts == std::floor(parts) ? 0 : 2);
}

/// Cement, lime and sand for the volume with waste.
void add_mix(const job::Job& job, double net_mm3, std::vector<Row>& rows) {
  const Units u = units_of(job);
  const job::Mix& mix = job.buy.mix;
  const Parts parts = parts_for(net_mm3 * 1e-9, {mix.cement(), mix.lime(), mix.sand()});  // m3
  const double unit_kg = u.metric ? 1 : units::kg_per_lb;
  const char* mass = u.metric ? "kg" : "lb";
  const std::string basis = "site mix of " + part(mix.cement()) + " : " +
                            (mix.lime() > 0 ? part(mix.lime()) + " : " : "") + part(mix.sand()) +
                            " by loose volume; handbooks differ by up to 11 %";
  const auto bag = [&](const char* item, double m3, double density, double bag_kg) {
    rows.push_back(to_row({item, m3 * density / unit_kg, mass, job.bed.waste, bag_kg / unit_kg, "bags", basis}));
  };
  bag("cement", parts.cement, cement_kg_m3, mix.cement_bag_kg);
  if (parts.lime > 0) bag("hydrated lime", parts.lime, lime_kg_m3, mix.lime_bag_kg);
  const double sand = u.volume(parts.sand * 1e9);
  rows.push_back(to_row({"sand, damp and loose", sand, u.volume_unit(), job.bed.waste, 0, "",
                         basis + "; about " + decimals(parts.sand * sand_kg_m3 / unit_kg, 0) + " " + mass + " dry"}));
}

}  // namespace

double mortar_of(const Parts& p) {
  constexpr double paste = 3.4 / 3.8, voids = 0.45;
  return std::max(1.1 * p.sand, paste * (p.cement + p.lime) + p.sand * (1.1 - 0.9 * voids));
}

Parts parts_for(double mortar, const Parts& p) {
  const double share = mortar / mortar_of(p);
  return {p.cement * share, p.lime * share, p.sand * share};
}

std::vector<Row> mortar_rows(const job::Job& job, const facts::Facts& facts) {
  const Units u = units_of(job);
  std::vector<Row> rows;
  const double net = facts.bed.set_mm3;
  const Mixed all = mixed(facts.bed);
  rows.push_back(to_row({"mortar, bed as set", u.volume(net), u.volume_unit(), job.bed.waste, 0, "", "solid 'bed'"}));
  rows.push_back({"mortar, bed as spread", u.volume(facts.bed.spread_mm3), u.volume_unit(),
                  u.volume(facts.bed.spread_mm3), u.volume_unit(),
                  "solid 'bed-spread', a level line " +
                      units::to_text(units::Length::mm(facts.bed.gauge_mm), u.metric) +
                      " above the datum; what is over is squeezed out and can be used again while it is fresh"});
  if (job.bed.bag_yield_m3) add_bags(job, all, rows);
  if (job.buy.mix.any()) add_mix(job, all.mm3, rows);
  if (!job.bed.bag_yield_m3 && !job.buy.mix.any())
    rows.push_back(to_row({"mortar, bags", u.volume(all.mm3), u.volume_unit(), job.bed.waste, 0, "",
                           "no bag_yield in [bed]: divide by the yield printed on the bag"}));
  rows.push_back(
      to_row({"mortar, batches", u.volume(all.mm3), u.volume_unit(), 0, u.volume(job.buy.batch_mm3), "batches",
              "the greater of both volumes, mixed " + units::volume_text(job.buy.batch_mm3, u.metric) + " at a time"}));
  return rows;
}

}  // namespace fallwright::takeoff
