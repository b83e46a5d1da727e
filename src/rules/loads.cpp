#include "rules/loads.hpp"

#include <algorithm>
#include <cmath>

#include "rules/beam.hpp"
#include "rules/book.hpp"
#include "units/quantity.hpp"

namespace fallwright::rules {
namespace {

constexpr double gravity = 9.80665e-3;         ///< N per kg, in kN: kPa from kg and m2
constexpr double timber_kg_m3 = 600;           ///< deck and joists, on the heavy side: common practice, no source
constexpr double live_kpa = 40 * kpa_per_psf;  ///< rooms other than sleeping rooms
constexpr double finish_kpa = 0.43;            ///< tile 3/8 in with its bond coat, 9 psf: common practice, no source

double mass_of(const facts::Facts& facts, const std::string& role) {
  double mass = 0;
  for (const facts::Part& part : facts.parts)
    if (part.role == role && !part.before) mass += part.mass_kg;
  return mass;
}

double mass_of_bench(const facts::Facts& facts) {
  return mass_of(facts, "seat-block") + mass_of(facts, "bench-frame");
}

/// The floor's area under the bench.
double bench_m2(const facts::Facts& facts) {
  for (const facts::Part& part : facts.parts)
    if (part.role == "seat-block")
      return (part.bbox_mm[3] - part.bbox_mm[0]) * (part.bbox_mm[4] - part.bbox_mm[1]) * 1e-6;
  return 0;
}

}  // namespace

std::string unknown_joists(const job::Job& job) {
  const job::Floor& floor = job.floor;
  if (!floor.joist_species.empty() && !grade_of(floor.joist_species))
    return "floor.joists.species: found '" + floor.joist_species +
           "', whose strength is not in this program; known are " + known_grades();
  return "find the joists' stock, spacing, first centre, span and grade (floor.joists)";
}

std::optional<FloorLoad> floor_load(const job::Job& job, const facts::Facts& facts) {
  const job::Floor& floor = job.floor;
  if (floor.kind == job::FloorKind::slab || !floor.joist_first || !floor.joist_span) return std::nullopt;
  const auto grade = grade_of(floor.joist_species);
  if (!grade || facts.flood.dips.empty()) return std::nullopt;
  FloorLoad load;
  const double area_m2 = facts.flood.plan_mm2 * 1e-6;
  const Section section{floor.joist_stock.thickness.in_mm(), floor.joist_stock.depth.in_mm()};
  const double joist_m2 = section.width_mm * section.depth_mm * 1e-6;  // its weight, shared out over its spacing
  load.floor_kpa =
      timber_kg_m3 * (floor.deck.in_mm() * 1e-3 + joist_m2 / (floor.joist_spacing.in_mm() * 1e-3)) * gravity;
  load.dead_kpa = load.floor_kpa + finish_kpa + (mass_of(facts, "bed") + mass_of(facts, "base")) * gravity / area_m2;
  if (bench_m2(facts) > 0)
    load.bench_kpa = load.floor_kpa + finish_kpa + mass_of_bench(facts) * gravity / bench_m2(facts);
  load.live_kpa = live_kpa;
  load.flood_kpa = facts.flood.dips.back().volume_mm3 * 1e-6 * gravity / area_m2;
  // The flood test has no people in the room: the heavier of both is added to what is always there. Under the bench
  // there is no water; a joist is taken to carry the heavier of both strips along its whole span.
  const double total =
      std::max(load.dead_kpa + std::max(load.live_kpa, load.flood_kpa), load.bench_kpa + load.live_kpa);
  const double line = total * 1e-3 * floor.joist_spacing.in_mm();
  const Effect all = uniform(line, floor.joist_span->in_mm(), grade->modulus, section.inertia_mm4());
  load.bending_share =
      all.moment_nmm / section.modulus_mm3() / (grade->bending * size_factor(section.depth_mm) * repetitive);
  load.shear_share = 1.5 * all.shear_n / (section.width_mm * section.depth_mm) / grade->shear;
  load.deflection_mm = all.deflection_mm;
  load.span_mm = floor.joist_span->in_mm();
  return load;
}

namespace {

const char* const engineer = "loads and structure are for a licensed engineer to judge; here: ";

/// Loads and shares of the floor's joists, a line each.
std::vector<std::string> floor_lines(const FloorLoad& load, const job::Job& job) {
  const auto both = [](double kpa) {
    return units::decimals(kpa, 2) + " kPa (" + units::decimals(kpa / kpa_per_psf, 1) + " psf)";
  };
  const auto percent = [](double share) { return units::decimals(share * 100, 0) + " %"; };
  const std::string bench = load.bench_kpa > 0 ? ", under the bench " + both(load.bench_kpa) : "";
  return {"dead load under the base " + both(load.dead_kpa) + bench + ", people " + both(load.live_kpa) +
              ", flood test " + both(load.flood_kpa),
          job.floor.joist_stock.name + " over " + text_of(load.span_mm, Unit::mm, job) + ", as " +
              grade_of(job.floor.joist_species)->name + ", dry: bending " + percent(load.bending_share) + ", shear " +
              percent(load.shear_share) + "; deflection span / " +
              units::decimals(load.span_mm / load.deflection_mm, 0)};
}

Finding joists_bending(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (job.floor.kind == job::FloorKind::slab) return not_applicable("a slab has no joists");
  const auto load = floor_load(job, facts);
  if (!load) return grade_of(job.floor.joist_species) ? unread() : missing(unknown_joists(job));
  Finding finding = found(std::max(load->bending_share, load->shear_share),
                          "floor joist over " + text_of(load->span_mm, Unit::mm, job) +
                              ", dead load with the heavier of people and flood test",
                          std::string{engineer} + "sister the joists or shorten their span before the bed goes on");
  finding.details = floor_lines(*load, job);
  return finding;
}

Finding joists_deflection(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (job.floor.kind == job::FloorKind::slab) return not_applicable("a slab has no joists");
  const auto load = floor_load(job, facts);
  if (!load) return grade_of(job.floor.joist_species) ? unread() : missing(unknown_joists(job));
  Finding finding = found(load->deflection_mm / load->span_mm,
                          "floor joist over " + text_of(load->span_mm, Unit::mm, job) + ", total load",
                          std::string{engineer} + "stiffen the joists: tile cracks on a floor that bends more");
  finding.details = floor_lines(*load, job);
  return finding;
}

const char* const no_frame = "the bench's frame was not found on the solids: joists, studs and what carries them";

/// Every member on a line, and what was taken for granted.
std::vector<std::string> all_members(const SeatLoad& load, const job::Job& job) {
  std::vector<std::string> lines;
  for (const SeatMember& member : load.members) lines.push_back(text_of(member, job));
  const bool steel = job.bench->frame.kind == job::FrameKind::steel;
  lines.push_back("taken as " + load.material + "; deck as " + load.deck +
                  ", its strength axis across the joists (its values from memory)");
  lines.push_back(std::string{"not judged: a push sideways, the seat block, "} +
                  (steel ? "local buckling, web crippling, torsion, punchouts, screws, what the wall track hangs on"
                         : "nails and screws, what the wall cleat hangs on"));
  return lines;
}

Finding seat_strength(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (!job.bench) return not_applicable("no bench");
  const auto load = seat_load(job, facts);
  if (!load) return missing(no_frame);
  const SeatMember& worst = load->strongest_used();
  Finding finding =
      found(worst.most().first,
            std::string{worst.most().second} + " of the " + worst.what + " '" + worst.part_id + "' over " +
                text_of(worst.span_mm, Unit::mm, job) + ", under 250 lbf (1112 N) anywhere on the seat",
            std::string{engineer} +
                "bring studs and joists closer (bench.frame.spacing), or take deeper stock or a "
                "thicker deck");
  finding.details = all_members(*load, job);
  return finding;
}

Finding seat_stiffness(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (!job.bench) return not_applicable("no bench");
  const auto load = seat_load(job, facts);
  if (!load) return missing(no_frame);
  const SeatMember& worst = load->most_deflected();
  Finding finding = found(worst.deflection_mm / worst.span_mm,
                          worst.what + " '" + worst.part_id + "' over " + text_of(worst.span_mm, Unit::mm, job) +
                              ", 250 lbf (1112 N) at its middle",
                          std::string{engineer} + "bring joists closer (bench.frame.spacing), or take a thicker deck");
  finding.details = all_members(*load, job);
  return finding;
}

}  // namespace

std::vector<Rule> load_rules() {
  return {
      {"load.joists-strength",
       "floor joists carry it",
       "greater of bending and shear stress over its reference value",
       "bed, base, bench: masses; water up to the threshold; joists: section and span",
       Unit::share,
       "",
       "",
       joists_bending,
       {Input::joists, Input::joist_span, Input::joist_species, Input::joist_spacing, Input::deck, Input::joist_solids,
        Input::bed, Input::base, Input::bench_frame, Input::seat_block}},
      {"load.joists-deflection",
       "floor joists are stiff enough",
       "deflection under total load over span",
       "as above",
       Unit::span,
       "",
       "joist_deflection",
       joists_deflection,
       {Input::joists, Input::joist_span, Input::joist_species, Input::joist_spacing, Input::deck, Input::joist_solids,
        Input::bed, Input::base, Input::bench_frame, Input::seat_block}},
      {"load.seat-strength",
       "bench carries a person",
       "greatest share of bending, shear, bearing and push under 250 lbf, each member a simple span",
       "bench frame: sections of its sticks at their ends, distances between what carries them",
       Unit::share,
       "",
       "",
       seat_strength,
       {Input::bench_frame}},
      {"load.seat-deflection",
       "bench is stiff enough",
       "greatest deflection under 250 lbf over span",
       "as above",
       Unit::span,
       "",
       "",
       seat_stiffness,
       {Input::bench_frame}},
  };
}

}  // namespace fallwright::rules
