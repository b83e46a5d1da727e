#include <algorithm>
#include <cmath>

#include "job/mortar.hpp"
#include "takeoff/item.hpp"
#include "takeoff/need.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::takeoff {
namespace {

using units::decimals;

/// What is mixed: what stays, or what is spread where that is more. The floor's heights change both alike, so what
/// readings can add to the one they can add to the other.
struct Mixed {
  double mm3 = 0, doubt_mm3 = 0;
  const char* solid = "solid of the bed";
  std::string unknown = {};  ///< why nobody knows what readings can add
};

/// A top coat, which is of mortar as the bed is; zero where none lies on a liner.
double top_coat_mm3(const job::Job& job, const facts::Facts& facts) {
  if (!job.base.is_site_built() || job.base.site.waterproofing == job::Waterproofing::bonded) return 0;
  double mm3 = 0;
  for (const facts::Part& p : facts.parts)
    if (p.which.is(facts::Role::base)) mm3 += p.volume_mm3;
  return mm3;
}

Mixed mixed(const job::Job& job, const facts::Facts& facts) {
  const facts::Bed& bed = facts.bed;
  Mixed all{bed.set_mm3};
  if (const double coat = top_coat_mm3(job, facts); coat > 0)
    all.mm3 += coat, all.solid = "solids of the bed and of the top coat";
  else if (bed.spread_mm3 > bed.set_mm3)
    all.mm3 = bed.spread_mm3, all.solid = "solid of the bed as it is spread";
  for (const facts::Worst& worst : facts.room.worst) {
    if (worst.what != facts::worst_mortar) continue;
    if (worst.unknown.empty()) all.doubt_mm3 = std::max(0.0, worst.greatest - worst.nominal);
    all.unknown = worst.unknown;
  }
  return all;
}

/// How it must be, in words that a hand can test.
const char* wetness_words(job::Wetness wetness) {
  return wetness == job::Wetness::stiff ? "stiff, as dry pack: a clump must hold and not drip"
                                        : "soft: wetter and looser than what holds a clump, so that the ribs sink in, "
                                          "and stiff enough to keep its "
                                          "level line";
}

/// A part of a mix: "5", "0.25".
std::string part(double parts) {
  return decimals(parts, parts == std::floor(parts) ? 0 : 2);
}

class Mortars {
 public:
  Mortars(const job::Job& job, const facts::Facts& facts)
      : job_{job}, mix_{job.buy.mix}, bed_{facts.bed}, facts_{facts}, all_{mixed(job, facts)}, u_{units_of(job)} {}

  std::vector<Row> rows() {
    lying();
    if (job_.bed.bag_yield_m3) bags();
    if (mix_.any()) site_mix();
    if (!job_.bed.bag_yield_m3 && !mix_.any())
      add(need(name_of(Item::mortar_bags), 0, "",
               "the bag's yield is not said (bed.bag_yield): divide by what is printed on it"));
    batches();
    return std::move(rows_);
  }

 private:
  Row& add(const Need& need) { return rows_.emplace_back(to_row(need)); }
  Row& add(Row row) { return rows_.emplace_back(std::move(row)); }
  Row& told(Row row) {
    row.for_sale = false;
    return add(std::move(row));
  }

  std::string mass(double kg, int places = 0) const {
    return decimals(u_.metric ? kg : kg / units::kg_per_lb, places) + (u_.metric ? " kg" : " lb");
  }
  double wanted_mm3() const { return all_.mm3 + all_.doubt_mm3; }

  /// All the mortar that is mixed, sold in packs of `pack`.
  Need need(const char* item, double pack, const char* pack_name, const std::string& from) const {
    return {item, u_.volume(all_.mm3), u_.volume_unit(),     job_.bed.waste,
            pack, pack_name,           from + doubt_words(), u_.volume(all_.doubt_mm3)};
  }

  std::string doubt_words() const {
    if (!all_.unknown.empty()) return "; what readings off by their tolerances add to it is not known";
    if (all_.doubt_mm3 < 1e-4 * all_.mm3) return "";
    return "; up to " + units::volume_text(wanted_mm3(), u_.metric) + " if readings are off by their tolerances";
  }

  /// What lies below the waterproofing, and what lies on a liner: mixed and placed one after the other.
  void built() {
    for (const facts::Part& p : facts_.parts) {
      if (p.before ||
          (!p.which.is(facts::Role::bed) && (!p.which.is(facts::Role::base) || top_coat_mm3(job_, facts_) <= 0)))
        continue;
      const bool coat = p.which.is(facts::Role::base);
      told(to_row({coat ? "mortar, top coat" : "mortar, " + p.material, u_.volume(p.volume_mm3), u_.volume_unit(),
                   job_.bed.waste, 0, "",
                   std::string{coat ? "solid of the top coat, " : "solid of the bed, "} + mass(p.mass_kg) + " wet" +
                       (coat && !job_.base.threshold.width.is_zero()
                            ? ", with the threshold as if that were of mortar throughout"
                            : "")}));
    }
  }

  void lying() {
    if (facts_.site_built) return built();
    std::string weight;
    for (const facts::Part& p : facts_.parts)
      if (p.which.is(facts::Role::bed)) weight = ", " + mass(p.mass_kg) + " wet";
    if (facts_.bought && !facts_.bought->ribs_known)
      weight += "; from " + units::volume_text(facts_.bought->bed_least_mm3, u_.metric) + ", were it solid, to " +
                units::volume_text(facts_.bought->bed_greatest_mm3, u_.metric) +
                " without a rib, as its ribs are not known: bought for the most";
    Row set = to_row({"mortar, bed as set", u_.volume(bed_.set_mm3), u_.volume_unit(), job_.bed.waste, 0, "",
                      "solid of the bed" + weight});
    told(std::move(set));
    told({"mortar, bed as spread", u_.volume(bed_.spread_mm3), u_.volume_unit(), u_.volume(bed_.spread_mm3),
          u_.volume_unit(),
          "solid of the bed as it is spread, a level line " +
              units::to_text(units::Length::mm(bed_.gauge_mm), u_.metric) +
              " above the datum; what is over is squeezed out and can be used again while it is fresh"});
  }

  void bags() {
    const double yield_mm3 = *job_.bed.bag_yield_m3 * 1e9;
    add(need(name_of(Item::mortar_bags), u_.volume(yield_mm3), "bags",
             std::string{all_.solid} + "; yield as printed on the bag" + bag_words()));
    const auto &least = job_.buy.water_least_mm3, &most = job_.buy.water_greatest_mm3;
    if (!least && !most) return;
    const double count = wanted_mm3() * (1 + job_.bed.waste) / yield_mm3, low = least ? *least : *most,
                 high = most ? *most : low;
    const double gallon = u_.metric ? 1e6 : units::mm3_per_gal;
    const char* unit = u_.metric ? "L" : "gal";
    told({name_of(Item::bag_water), count * low / gallon, unit, count * high / gallon, unit,
          "from " + decimals(count * low / gallon, 2) + " to " + decimals(count * high / gallon, 2) + " " + unit +
              " for " + decimals(count, 2) + " bags; clean and cold, the last of it by the splash; " +
              wetness_words(job::wetness_of(job_))});
  }

  /// A yield that makes the bed lighter than mortar is a yield misread.
  std::string bag_words() const {
    constexpr double lightest = 100 * job::lb_ft3;
    if (!job_.bed.bag_kg) return "";
    const double dry = *job_.bed.bag_kg / *job_.bed.bag_yield_m3;
    const std::string text =
        ", " + (u_.metric ? decimals(dry, 0) + " kg/m3" : decimals(dry / job::lb_ft3, 0) + " lb/ft3") + " of dry mix";
    return text + (dry < lightest ? "; careful: that is lighter than any mortar: read yield and mass again" : "");
  }

  /// Cement, lime and sand for what is mixed, as much as a stiff one takes: a soft one takes less of each.
  void site_mix() {
    const job::Mortar per_m3 = job::mortar_of(mix_, job::Wetness::stiff);
    const double m3 = all_.mm3 * 1e-9, more = all_.doubt_mm3 / std::max(all_.mm3, 1.0),
                 unit_kg = u_.metric ? 1 : units::kg_per_lb;
    const char* unit = u_.metric ? "kg" : "lb";
    const std::string basis = "site mix of " + part(mix_.cement()) + " : " +
                              (mix_.lime() > 0 ? part(mix_.lime()) + " : " : "") + part(mix_.sand()) +
                              " by loose volume, by absolute volumes" + doubt_words();
    const auto bag = [&](const char* item, double kg, double bag_kg, const std::string& more_words = "") {
      add({item, kg * m3 / unit_kg, unit, job_.bed.waste, bag_kg / unit_kg, bag_kg > 0 ? "bags" : "",
           basis + more_words, kg * m3 * more / unit_kg});
    };
    bag(name_of(Item::cement), per_m3.cement_kg, mix_.cement_bag_kg);
    if (per_m3.lime_kg > 0) bag(name_of(Item::lime), per_m3.lime_kg, mix_.lime_bag_kg);
    const double as_sold_kg = per_m3.sand_kg * (is_damp() ? 1 + job::damp_share : 1);
    const std::string clean = "; sharp and clean, all of it through a No. 4 sieve (4.75 mm): no stones";
    if (mix_.sand_bag_kg) {
      bag(name_of(Item::sand_bags), as_sold_kg, *mix_.sand_bag_kg, clean);
    } else {
      const double sand = u_.volume(per_m3.sand_m3 * m3 * 1e9);
      add({name_of(is_damp() ? Item::sand_damp : Item::sand_dry), sand, u_.volume_unit(), job_.bed.waste, 0, "",
           basis + "; about " + mass(per_m3.sand_kg * m3) + " dry" + bulking() + clean, sand * more});
    }
    water(per_m3.solids_kg() * wanted_mm3() * 1e-9 * (1 + job_.bed.waste),
          (as_sold_kg - per_m3.sand_kg) * wanted_mm3() * 1e-9 * (1 + job_.bed.waste));
  }

  bool is_damp() const { return mix_.sand_kg_m3 < job::dry_sand_kg_m3; }

  /// Damp sand fills more room than dry: what a measure of either holds differs.
  std::string bulking() const {
    if (!is_damp()) return ", measured dry: a measure of damp sand holds less";
    const auto by = [&](double dry_lb) { return decimals((dry_lb * job::lb_ft3 / mix_.sand_kg_m3 - 1) * 100, 0); };
    return ", bulked by damp: a measure of it dry holds " + by(91) + " to " + by(107) + " % more";
  }

  void water(double solids_kg, double in_sand_kg) {
    const double litres = u_.metric ? 1 : units::mm3_per_gal * 1e-6;
    const char* unit = u_.metric ? "L" : "gal";
    const job::Wetness wetness = job::wetness_of(job_);
    const double all = solids_kg * job::water_share(wetness) / litres,
                 poured = std::max(0.0, all - (is_damp() ? in_sand_kg / litres : 0));
    told({name_of(Item::mix_water), all, unit, poured, unit,
          "about " + decimals(job::water_share(wetness) * 100, 0) + " % of what is mixed, by weight" +
              (is_damp() ? ", of which damp sand brings some " + decimals(in_sand_kg / litres, 2) + " " + unit +
                               " and the rest is poured"
                         : "") +
              "; clean and cold, the last of it by the splash; " + wetness_words(wetness)});
  }

  void batches() {
    Row row =
        to_row({name_of(Item::mortar_batches), u_.volume(all_.mm3), u_.volume_unit(), 0, u_.volume(job_.buy.batch_mm3),
                "batches",
                (facts_.site_built ? "all that is mixed" : "the greater of both volumes") + doubt_words() + ", mixed " +
                    units::volume_text(job_.buy.batch_mm3, u_.metric) + " at a time; each of " + one_batch(job_),
                u_.volume(all_.doubt_mm3)});
    if (const auto two = batches_of_two_beds(job_, facts_)) {
      row.buy = two->whole_bed() + two->whole_coat();
      row.basis += "; whole for each bed, since the pre-slope sets first: " + decimals(two->whole_bed(), 0) +
                   " for it, " + decimals(two->whole_coat(), 0) + " for the top coat";
    }
    row.basis += clock(row.buy);
    row.by_room = true;
    told(std::move(row));
  }

  /// Whether the first batch is still good when the last lies.
  std::string clock(double batches) const {
    constexpr int c270_minutes = 150;
    const double all = batches * job_.buy.batch_minutes;
    std::string text = "; " + std::to_string(job_.buy.batch_minutes) + " minutes each, " + decimals(all, 0);
    if (facts_.site_built) return text + " in all: each is packed and screeded before the next is mixed";
    text += " until the base can be pressed in";
    const bool only_mixed = mix_.any() && !job_.bed.bag_yield_m3;
    const auto good = job_.bed.working_minutes ? job_.bed.working_minutes
                      : only_mixed             ? std::optional{c270_minutes}
                                               : std::nullopt;
    if (!good) return text + ": read on the bag how long it is good";
    text += ", and the first is good for " + std::to_string(*good);
    return all > *good ? text + "; careful: it stiffens before the last lies: mix with more hands, or more at once"
                       : text;
  }

  const job::Job& job_;
  const job::Mix& mix_;
  const facts::Bed& bed_;
  const facts::Facts& facts_;
  Mixed all_;
  Units u_;
  std::vector<Row> rows_;
};

/// As packs are counted: what rounding adds to a whole one is none.
double whole(double batches) {
  return std::ceil(batches - units::tolerance::ratio);
}

}  // namespace

double TwoBeds::whole_bed() const {
  return whole(bed);
}

double TwoBeds::whole_coat() const {
  return whole(coat);
}

std::optional<TwoBeds> batches_of_two_beds(const job::Job& job, const facts::Facts& facts) {
  const double coat_mm3 = top_coat_mm3(job, facts);
  if (coat_mm3 <= 0) return std::nullopt;
  const Mixed all = mixed(job, facts);
  return TwoBeds{(all.mm3 - coat_mm3 + all.doubt_mm3) / job.buy.batch_mm3, coat_mm3 / job.buy.batch_mm3};
}

std::string one_batch(const job::Job& job) {
  const job::Mix& mix = job.buy.mix;
  const bool metric = units_of(job).metric;
  const double m3 = job.buy.batch_mm3 * 1e-9;
  std::string text;
  if (job.bed.bag_yield_m3) {
    const double bags = m3 / *job.bed.bag_yield_m3;
    text = decimals(bags, 2) + " of a bag";
    const auto& most = job.buy.water_greatest_mm3 ? job.buy.water_greatest_mm3 : job.buy.water_least_mm3;
    if (most) text += " with up to " + units::water_text(bags * *most, metric) + " of water";
  }
  if (!mix.any()) return text.empty() ? "what the bag says" : text;
  const job::Mortar per_m3 = job::mortar_of(mix, job::Wetness::stiff);
  const auto mass = [&](double kg) {
    return decimals(metric ? kg : kg / units::kg_per_lb, 1) + (metric ? " kg" : " lb");
  };
  const double brought_kg = mix.sand_kg_m3 < job::dry_sand_kg_m3 ? per_m3.sand_kg * job::damp_share : 0,
               water_kg = per_m3.solids_kg() * job::water_share(job::wetness_of(job)) - brought_kg;
  return text + (text.empty() ? "" : ", or of ") + mass(per_m3.cement_kg * m3) + " of cement" +
         (per_m3.lime_kg > 0 ? ", " + mass(per_m3.lime_kg * m3) + " of lime" : "") + ", " +
         units::volume_text(per_m3.sand_m3 * job.buy.batch_mm3, metric) + " of sand and up to " +
         units::water_text(std::max(0.0, water_kg * m3 * 1e6), metric) + " of water poured";
}

std::vector<Row> mortar_rows(const job::Job& job, const facts::Facts& facts) {
  return Mortars{job, facts}.rows();
}

}  // namespace fallwright::takeoff
