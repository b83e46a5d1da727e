#include "rules/floor_load.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "rules/beam.hpp"
#include "rules/book.hpp"
#include "rules/line_loads.hpp"
#include "rules/loads.hpp"
#include "rules/span_rating.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

constexpr double timber_kg_m3 = 600;          ///< deck and joists, on the heavy side: common practice, no source
constexpr double tile_kg_m2 = 43.9;           ///< 3/8 in with its bond coat, 9 psf: common practice, no source
constexpr double board_kg_m2 = 11;            ///< wall board of 1/2 in: common practice, no source
constexpr double floor_outside_kg_m3 = 2300;  ///< tile and mortar of the bath's floor: common practice, no source
constexpr double glass_kg_m3 = 2500;

using job::Tiled;
using Plan = std::array<double, 4>;

Plan plan_of(const facts::Part& part) {
  return {part.bbox_mm[0], part.bbox_mm[1], part.bbox_mm[3], part.bbox_mm[4]};
}
Plan both(const Plan& a, const Plan& b) {
  return {std::min(a[0], b[0]), std::min(a[1], b[1]), std::max(a[2], b[2]), std::max(a[3], b[3])};
}
double area_mm2(const Plan& p) {
  return std::max(0.0, p[2] - p[0]) * std::max(0.0, p[3] - p[1]);
}

/// All parts that `wanted` picks, as one burden over the plan of them all.
template <class Wanted>
std::optional<Burden> burden_of(const facts::Facts& facts, const std::string& what, Wanted wanted) {
  std::optional<Burden> burden;
  for (const facts::Part& part : facts.parts) {
    if (part.before || !wanted(part)) continue;
    if (!burden) burden = Burden{what, 0, plan_of(part)};
    burden->kg += part.mass_kg;
    burden->plan_mm = both(burden->plan_mm, plan_of(part));
  }
  return burden;
}

/// Tile lies where the job says that something is tiled.
double tile_kg(const job::Job& job, const facts::Facts& facts, Tiled surface, std::optional<job::Side> wall = {}) {
  if (!job.buy.tile.covers(surface)) return 0;
  double kg = 0;
  for (const facts::Covered& c : facts.finish.covered)
    if (c.surface == surface && c.wall == wall) kg += c.area_mm2 * 1e-6 * tile_kg_m2;
  return kg;
}

std::optional<Burden> under_base(const job::Job& job, const facts::Facts& facts) {
  auto burden = burden_of(facts, "base and bed", [](const facts::Part& p) {
    return p.which.is(facts::Role::base) || p.which.is(facts::Role::bed);
  });
  // Over a bonded membrane the floor's tile is the base itself.
  const bool tile_weighed = job.base.is_site_built() && job.base.site.waterproofing == job::Waterproofing::bonded;
  if (!burden) return burden;
  burden->kg += (tile_weighed ? 0 : tile_kg(job, facts, Tiled::floor)) + tile_kg(job, facts, Tiled::threshold);
  burden->in_place_of_bath_floor = true;
  return burden;
}

std::optional<Burden> under_bench(const job::Job& job, const facts::Facts& facts) {
  auto burden = burden_of(facts, "bench", [](const facts::Part& p) {
    return p.which.is(facts::Role::seat_block) || p.which.is(facts::Role::bench_frame);
  });
  if (!burden) return burden;
  burden->kg += tile_kg(job, facts, Tiled::seat) + tile_kg(job, facts, Tiled::apron);
  burden->in_place_of_bath_floor = true;
  return burden;
}

std::optional<Burden> under_wall(const job::Job& job, const facts::Facts& facts, job::Side side) {
  const std::string name = job::name_of(side);
  auto burden = burden_of(facts, name + " wall", [&](const facts::Part& p) {
    return p.which.family == facts::Family{facts::Role::wall, side};
  });
  if (!burden) return burden;
  const double length = std::max(burden->plan_mm[2] - burden->plan_mm[0], burden->plan_mm[3] - burden->plan_mm[1]);
  burden->kg += tile_kg(job, facts, Tiled::walls, side) + length * job.alcove.height.in_mm() * 1e-6 * board_kg_m2;
  return burden;
}

const char* const glass_burden = "glass";

/// Panes stand along the entry, on the base's front, and on as much of it as they are wide: about its middle, or where
/// else they are put along it.
std::optional<Burden> under_glass(const job::Job& job, const Burden& base) {
  if (!job.glass || !job.glass->thickness || !job.glass->height) return std::nullopt;
  Plan strip = base.plan_mm;
  strip[3] = std::min(strip[3], strip[1] + std::max(50.0, job.base.threshold.width.in_mm()));
  const double front = strip[2] - strip[0], width = job.glass->width ? job.glass->width->in_mm() : front;
  const double free = std::max(0.0, front - width) / 2;
  strip[0] += free, strip[2] -= free;
  return Burden{glass_burden, width * job.glass->height->in_mm() * job.glass->thickness->in_mm() * 1e-9 * glass_kg_m3,
                strip};
}

/// The strips that the modelled joists carry, across them: half a spacing to either side of the outermost.
std::array<double, 2> across_of_strips(const facts::Facts& facts, const job::Floor& floor, int across) {
  double low = std::numeric_limits<double>::max(), high = -low;
  for (const facts::Part& part : facts.parts) {
    if (!part.which.is(facts::Role::joist)) continue;
    const double centre = (part.bbox_mm[across] + part.bbox_mm[across + 3]) / 2;
    low = std::min(low, centre), high = std::max(high, centre);
  }
  const double half = floor.joist_spacing.in_mm() / 2;
  return {low - half, high + half};
}

/// A wall that runs along the joists and beside the last of them stands on that one, for all anyone knows.
Burden on_the_strips(Burden wall, const std::array<double, 2>& strips, int across) {
  double &low = wall.plan_mm[across], &high = wall.plan_mm[across + 2];
  const double shift = low < strips[0] ? std::min(strips[0] - low, std::max(0.0, strips[1] - high))
                                       : -std::min(std::max(0.0, high - strips[1]), std::max(0.0, low - strips[0]));
  low += shift, high += shift;
  return wall;
}

std::vector<Burden> burdens_of(const job::Job& job, const facts::Facts& facts, const Burden& base) {
  const int across = job.floor.joist_direction == job::Direction::along_width ? 1 : 0;
  const std::array<double, 2> strips = across_of_strips(facts, job.floor, across);
  std::vector<Burden> all{base};
  const auto add = [&](const std::optional<Burden>& one) {
    if (one && one->kg > 0) all.push_back(*one);
  };
  add(under_bench(job, facts));
  add(under_glass(job, base));
  for (const job::Side side : job.floor.walls_carried)
    if (const auto wall = under_wall(job, facts, side)) add(on_the_strips(*wall, strips, across));
  return all;
}

/// Deck and joists, weight of joists shared out over their spacing.
double floor_kpa(const job::Floor& floor) {
  const double joist_m2 = floor.joist_stock.thickness.in_mm() * floor.joist_stock.depth.in_mm() * 1e-6;
  return timber_kg_m3 * (floor.deck.in_mm() * 1e-3 + joist_m2 / (floor.joist_spacing.in_mm() * 1e-3)) *
         units::n_per_kg * 1e-3;
}

double outside_kpa(const job::Floor& floor) {
  return floor.finish_outside ? floor.finish_outside->in_mm() * 1e-3 * floor_outside_kg_m3 * units::n_per_kg * 1e-3 : 0;
}

/// A joist's strip of floor, half way to its neighbours, with its span laid over it.
struct Strip {
  int along = 1;  ///< 0: the joist runs along x
  double centre = 0, width = 0, begin = 0, span = 0;

  /// The part of the strip's width over a plan; and where on the span it lies.
  double across(const Plan& p) const {
    const int other = 1 - along;
    return std::max(0.0, std::min(p[other + 2], centre + width / 2) - std::max(p[other], centre - width / 2));
  }
  LineLoad over(const Plan& p, double kpa) const {
    return {std::clamp(p[along] - begin, 0.0, span), std::clamp(p[along + 2] - begin, 0.0, span),
            kpa * 1e-3 * across(p)};
  }
};

struct Lines {
  std::vector<LineLoad> dead, live;
};

/// People on all of the span, or water where the base is in their place.
Lines lines_on(const Strip& strip, const FloorLoad& load, const job::Floor& floor, bool flooded) {
  Lines lines;
  const double all = strip.width * 1e-3, outside = outside_kpa(floor);
  lines.dead.push_back({0, strip.span, (load.floor_kpa + outside) * all});
  lines.live.push_back({0, strip.span, load.live_kpa * all});
  for (const Burden& b : load.burdens) {
    lines.dead.push_back(strip.over(b.plan_mm, b.kpa()));
    if (b.in_place_of_bath_floor) lines.dead.push_back(strip.over(b.plan_mm, -outside));
  }
  if (flooded) lines.live.push_back(strip.over(load.burdens.front().plan_mm, load.flood_kpa - load.live_kpa));
  return lines;
}

/// A person alone where they bend the joist most, or where all of them comes on one end of it: no other joist helps.
std::array<std::vector<LineLoad>, 3> person_on(double span, const Imposed& people) {
  const double patch = std::min(people.patch_mm, span), load = people.person_n / patch;
  return {{{{(span - patch) / 2, (span + patch) / 2, load}}, {{0, patch, load}}, {{span - patch, span, load}}}};
}

std::vector<LineLoad> with_factors(const Lines& lines, double dead, double live) {
  std::vector<LineLoad> all;
  for (const LineLoad& l : lines.dead) all.push_back({l.from_mm, l.to_mm, l.newton_per_mm * dead});
  for (const LineLoad& l : lines.live) all.push_back({l.from_mm, l.to_mm, l.newton_per_mm * live});
  return all;
}

/// Nobody says where along the entry the panes stand: on a joist that runs back from it over its middle; along one that
/// runs with it, at any place.
std::vector<std::vector<Burden>> with_panes_placed(const std::vector<Burden>& burdens, const Strip& strip) {
  const auto at = std::find_if(burdens.begin(), burdens.end(), [](const Burden& b) { return b.what == glass_burden; });
  if (at == burdens.end()) return {burdens};
  const Burden& base = burdens.front();
  const double low = base.plan_mm[0], wide = at->plan_mm[2] - at->plan_mm[0], free = base.plan_mm[2] - low - wide;
  if (free <= 0) return {burdens};
  std::vector<double> from;
  constexpr int steps = 24;
  if (strip.along == 1) from = {std::clamp(strip.centre - wide / 2, low, low + free)};
  for (int i = 0; strip.along == 0 && i <= steps; ++i) from.push_back(low + free * i / steps);
  std::vector<std::vector<Burden>> all;
  for (const double begin : from) {
    all.push_back(burdens);
    Burden& panes = all.back()[static_cast<std::size_t>(at - burdens.begin())];
    panes.plan_mm[0] = begin, panes.plan_mm[2] = begin + wide;
  }
  return all;
}

/// By more than rounding: of what is alike the first is told.
bool is_worse(double share, double than) {
  return share > than * (1 + units::tolerance::ratio);
}

/// Takes what a strip feels where that is worse than what was felt before.
void judge(const Strip& strip, const job::Floor& floor, const Grade& grade, const Imposed& people,
           const std::string& joist, FloorLoad& load) {
  const Section section{floor.joist_stock.thickness.in_mm(), floor.joist_stock.depth.in_mm()};
  const Design d = design_of(grade, Duration::medium, section.depth_mm, true);
  const auto feel = [&](const Lines& lines) {
    const auto strength = with_factors(lines, d.dead, d.live);
    const double bending = greatest_moment(strength, strip.span) / section.modulus_mm3() / d.bending;
    const double shear = 1.5 * greatest_shear(strength, strip.span) / (section.width_mm * section.depth_mm) / d.shear;
    if (is_worse(std::max(bending, shear), std::max(load.bending_share, load.shear_share))) load.joist = joist;
    load.bending_share = std::max(load.bending_share, bending);
    load.shear_share = std::max(load.shear_share, shear);
  };
  for (const bool flooded : {false, true}) {
    const Lines lines = lines_on(strip, load, floor, flooded);
    feel(lines);
    const auto sag = with_factors(lines, d.dead_creep, d.live_creep);
    load.deflection_mm =
        std::max(load.deflection_mm, greatest_deflection(sag, strip.span) / (d.modulus * section.inertia_mm4()));
  }
  if (!people.alone_on_joist) return;
  Lines lines = lines_on(strip, load, floor, false);
  for (const auto& person : person_on(strip.span, people)) lines.live = person, feel(lines);
}

/// Where a span may begin: where the job says; else wherever all that stands on the floor is on it.
std::vector<double> begins(const job::Floor& floor, const std::vector<Burden>& burdens, int along) {
  const double span = floor.joist_span->in_mm();
  if (floor.joist_bearing) return {floor.joist_bearing->in_mm()};
  double low = burdens.front().plan_mm[along], high = burdens.front().plan_mm[along + 2];
  for (const Burden& b : burdens) low = std::min(low, b.plan_mm[along]), high = std::max(high, b.plan_mm[along + 2]);
  const double first = std::min(low, high - span), last = std::max(low, high - span);
  constexpr int steps = 24;
  std::vector<double> all;
  for (int i = 0; i <= steps; ++i) all.push_back(first + (last - first) * i / steps);
  return all;
}

/// Whether base or bench reach past a span that begins there: it is then not where they stand.
bool reach_past(const std::vector<Burden>& burdens, const Strip& strip) {
  return std::any_of(burdens.begin(), burdens.end(), [&](const Burden& b) {
    constexpr double slack_mm = 1;
    return b.in_place_of_bath_floor && (b.plan_mm[strip.along] < strip.begin - slack_mm ||
                                        b.plan_mm[strip.along + 2] > strip.begin + strip.span + slack_mm);
  });
}

/// The worst of all places on the span, and how good the best of them is.
std::optional<FloorLoad> worst_of(const std::vector<FloorLoad>& places) {
  const auto share = [](const FloorLoad& load) { return std::max(load.bending_share, load.shear_share); };
  FloorLoad worst = *std::max_element(places.begin(), places.end(), [&](const FloorLoad& a, const FloorLoad& b) {
    return is_worse(share(b), share(a));
  });
  if (worst.joist.empty()) return std::nullopt;
  worst.best_share = share(worst), worst.best_deflection_mm = worst.deflection_mm;
  for (const FloorLoad& each : places) {
    worst.bending_share = std::max(worst.bending_share, each.bending_share);
    worst.shear_share = std::max(worst.shear_share, each.shear_share);
    worst.best_share = std::min(worst.best_share, share(each));
    worst.best_deflection_mm = std::min(worst.best_deflection_mm, each.deflection_mm);
    worst.deflection_mm = std::max(worst.deflection_mm, each.deflection_mm);
  }
  return worst;
}

double flood_kpa(const facts::Facts& facts) {
  return facts.flood.dips.back().volume_mm3 * 1e-9 * 1000 * units::n_per_kg * 1e-3 / (facts.flood.plan_mm2 * 1e-6);
}

}  // namespace

double Burden::kpa() const {
  const double m2 = area_mm2(plan_mm) * 1e-6;
  return m2 > 0 ? kg * units::n_per_kg * 1e-3 / m2 : 0;
}

std::string unknown_joists(const job::Job& job) {
  const job::Floor& floor = job.floor;
  const std::string unknown = floor.joist_species.empty() || grade_of(floor.joist_species)
                                  ? ""
                                  : "floor.joists.species: found '" + floor.joist_species +
                                        "', whose strength is not in this program; known are " + known_grades();
  std::vector<std::string> what, keys;
  const auto ask = [&](bool known, const char* words, const char* key) {
    if (!known) what.emplace_back(words), keys.emplace_back(key);
  };
  const bool placed = floor.joist_first.has_value();  // a spacing alone is asked for by itself, as run and size are
  ask(placed || !job.is_default("floor.joists.direction"), "direction", "direction");
  ask(placed || !job.is_default("floor.joists.stock"), "stock", "stock");
  ask(placed || !job.is_default("floor.joists.spacing"), "spacing", "spacing");
  ask(placed, "first centre", "first");
  ask(floor.joist_span.has_value(), "span", "span");
  ask(!floor.joist_species.empty(), "grade", "species");
  if (what.empty()) return unknown;
  keys.front() = "floor.joists." + keys.front();
  return unknown + (unknown.empty() ? "" : "; ") + "find the floor joists' " + units::listed(what) + " (" +
         units::listed(keys, ", ") + ")";
}

std::optional<FloorLoad> floor_load(const job::Job& job, const facts::Facts& facts) {
  const job::Floor& floor = job.floor;
  if (floor.kind == job::FloorKind::slab || !floor.joist_first || !floor.joist_span) return std::nullopt;
  const auto grade = grade_of(floor.joist_species);
  const auto base = under_base(job, facts);
  if (!grade || !base || facts.flood.dips.empty()) return std::nullopt;
  FloorLoad load;
  load.floor_kpa = floor_kpa(floor);
  load.live_kpa = imposed_of(job.book).floor_kpa;
  load.flood_kpa = flood_kpa(facts);
  load.burdens = burdens_of(job, facts, *base);
  load.place_known = floor.joist_bearing.has_value();
  load.span_mm = floor.joist_span->in_mm();
  Strip strip{floor.joist_direction == job::Direction::along_width ? 0 : 1, 0, floor.joist_spacing.in_mm(), 0,
              load.span_mm};
  std::vector<FloorLoad> at_places;
  for (const double begin : begins(floor, load.burdens, strip.along)) {
    strip.begin = begin;
    load.off_span = load.place_known && reach_past(load.burdens, strip);
    at_places.push_back(load);
    for (const facts::Part& part : facts.parts) {
      if (!part.which.is(facts::Role::joist)) continue;
      strip.centre = (part.bbox_mm[1 - strip.along] + part.bbox_mm[4 - strip.along]) / 2;
      for (std::vector<Burden>& burdens : with_panes_placed(load.burdens, strip)) {
        at_places.back().burdens = std::move(burdens);
        judge(strip, floor, *grade, imposed_of(job.book), part.id, at_places.back());
      }
    }
  }
  return worst_of(at_places);
}

double deck_share(const job::Job& job, const facts::Facts& facts) {
  const auto base = under_base(job, facts);
  const double carried = deck_load_kpa(facts.deck.thickness_mm, bay_mm(job, facts));
  if (!base || facts.flood.dips.empty() || carried <= 0) return 0;
  const double own = timber_kg_m3 * facts.deck.thickness_mm * 1e-3 * units::n_per_kg * 1e-3;
  return (own + base->kpa() + std::max(imposed_of(job.book).floor_kpa, flood_kpa(facts))) / carried;
}

std::vector<std::string> floor_lines(const FloorLoad& load, const job::Job& job) {
  const auto both = [](double kpa) {
    return units::decimals(kpa, 2) + " kPa (" + units::decimals(kpa / kpa_per_psf, 1) + " psf)";
  };
  const auto percent = [](double share) { return units::decimals(share * 100, 0) + " %"; };
  const Grade grade = *grade_of(job.floor.joist_species);
  std::vector<std::string> lines{
      "people " + both(load.live_kpa) + " on all of the span, or where the base is the flood test, " +
      both(load.flood_kpa) + "; deck and joists " + both(load.floor_kpa) +
      (imposed_of(job.book).alone_on_joist ? "; or " + imposed_of(job.book).person + " alone on one joist"
                                           : std::string{})};
  std::string standing;
  for (const Burden& b : load.burdens)
    standing += (standing.empty() ? "" : ", ") + b.what + " " + units::decimals(b.kg, 0) + " kg, " + both(b.kpa());
  lines.push_back(standing + ", each over its own plan");
  lines.push_back(std::string{load.place_known ? "the span begins where floor.joists.bearing says"
                                               : "nobody said where the span begins (floor.joists.bearing): the worst "
                                                 "place is taken"} +
                  "; walls count where floor.joists.walls names them");
  lines.push_back(job.floor.joist_stock.name + " over " + text_of(load.span_mm, Unit::mm, job) + ", as " + grade.name +
                  (grade.eurocode ? " by Eurocode 5, service class 2" : ", dry") + ": bending " +
                  percent(load.bending_share) + ", shear " + percent(load.shear_share) + "; deflection span / " +
                  units::decimals(load.span_mm / load.deflection_mm, 0) + (grade.eurocode ? " in the end" : ""));
  return lines;
}

}  // namespace fallwright::rules
