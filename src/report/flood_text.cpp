#include <algorithm>

#include "report/columns.hpp"
#include "report/report.hpp"
#include "rules/beam.hpp"
#include "rules/book.hpp"
#include "rules/flood.hpp"
#include "rules/loads.hpp"
#include "rules/rule_book.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::report {
namespace {

using units::decimals;

/// One row of the dipstick.
std::string row(const facts::Dip& dip, const std::string& height, double plan_mm2, bool metric,
                const std::string& what = "") {
  const double litres = dip.volume_mm3 * 1e-6, kg = litres;  // water, 1000 kg/m3
  const double kpa = kg * units::n_per_kg / (plan_mm2 * 1e-6) / 1000, mm_per_litre = 1e6 / dip.surface_mm2;
  std::string text = "    " + padded(height, 18);
  if (metric)
    return text + padded(decimals(litres, 1) + " L", 14) + padded(decimals(kg, 1) + " kg", 14) +
           padded(decimals(kpa, 3) + " kPa", 14) + decimals(mm_per_litre, 2) + " mm" + what + "\n";
  // A 32nd of an inch on the rule, as fluid ounces.
  const double ounces = dip.surface_mm2 * units::inch_mm / 32 / (units::mm3_per_gal / 128);
  return text + padded(decimals(dip.volume_mm3 / units::mm3_per_gal, 2) + " gal", 14) +
         padded(decimals(kg / units::kg_per_lb, 1) + " lb", 14) +
         padded(decimals(kpa / rules::kpa_per_psf, 2) + " psf", 14) + decimals(ounces, 0) + " fl oz" + what + "\n";
}

std::string loads(const Report& report) {
  std::string text = "\n  WHAT CARRIES IT (simple beams; a licensed engineer judges structure)\n";
  if (const auto& f = report.judgement.floor_load)
    for (const std::string& line : rules::floor_lines(*f, report.job)) text += "    floor joists: " + line + "\n";
  else if (report.job.floor.kind == job::FloorKind::slab)
    text += "    the floor is a slab: no joists to judge\n";
  else
    text += "    floor joists: not judged; " + rules::unknown_joists(report.job) + "\n";
  if (const auto& s = report.judgement.seat_load) {
    text +=
        "    seat: " + s->person + " anywhere, on each member alone, as " + s->material + "; deck as " + s->deck + "\n";
    for (const rules::SeatMember& member : s->members) text += "      " + rules::text_of(member, report.job) + "\n";
  }
  return text;
}

std::string masses(const Report& report) {
  const bool metric = report.job.is_metric();
  std::string text = "\n  WEIGHTS\n";
  for (const facts::Part& part : report.facts.parts)
    if (part.which.is(facts::Role::base) || part.which.is(facts::Role::bed) || part.which.is(facts::Role::seat_block))
      text += "    " + padded(part.id, 14) +
              (metric ? decimals(part.mass_kg, 1) + " kg" : decimals(part.mass_kg / units::kg_per_lb, 1) + " lb") +
              "\n";
  return text;
}

/// Where the water of the last row spills: "threshold's lowest edge", "rim at the open right edge".
std::string over(const facts::Facts& facts, const rules::FloodTable& table) {
  if (table.rough) return "rough threshold's lowest edge";
  std::string text;
  for (const facts::Edge& edge : facts.edges) {
    if (std::find(table.over.begin(), table.over.end(), edge.side) == table.over.end()) continue;
    text += text.empty() ? "" : " and the ";
    text += edge.turned == facts::Turned::threshold
                ? std::string{table.on_flange ? "finished " : ""} + "threshold's lowest edge"
                : name_of(edge.turned) + std::string{edge.open() ? " at the open " : " at the "} +
                      job::name_of(edge.side) + " edge";
  }
  return text.empty() ? "lowest edge" : text;
}

}  // namespace

std::string flood_table(const Report& report) {
  const bool metric = report.job.is_metric();
  const rules::FloodTable table = rules::flood_table(report.job, report.facts, report.judgement.results);
  const std::string from =
      table.on_flange ? "drain's flange, on the waterproofing before it is covered" : "drain's top";
  std::string text = report.job.name + "\n\n  FLOOD TEST: drain plugged, heights above the " + from + ", up to the " +
                     over(report.facts, table) + "\n    " + padded("height", 18) + padded("water", 14) +
                     padded("weight", 14) + padded("on the floor", 14) +
                     (metric ? "a litre lost lowers it by" : "a fall of 1/32\" is") + "\n";
  const auto len = [&](double mm) { return units::to_text(units::Length::mm(mm), metric); };
  for (const facts::Dip& dip : table.dips)
    text += row(dip, &dip == &table.dips.back() ? rules::brim_text(table, report.job) : len(dip.above_drain_mm),
                report.facts.flood.plan_mm2, metric);
  for (const rules::FloodLevel& level : table.levels)
    text += row(table.filled ? *table.filled : level.dip,  // up to the mark that is told
                table.fill_mm ? rules::text_at_least(*table.fill_mm, report.job) : len(level.dip.above_drain_mm),
                report.facts.flood.plan_mm2, metric, "  " + level.what);
  const std::string fill = rules::fill_words(report.job, report.facts, report.judgement.results);
  text += "    Asked for: " + rules::flood_words(report.job, report.judgement.results) +
          (fill.empty() ? "" : ": " + fill) +
          ". Practice asks for 24 hours: mark the level and wait. Know what the floor carries first.\n";
  if (table.holds_none)
    text += "    It holds none by itself: build a dam along there first; how high this book does not say.\n";
  if (!table.unknown.empty()) text += "    The rows go to the finished edge: " + table.unknown + ".\n";
  if (table.on_flange && !table.unknown.empty())
    text += "    It spills lower, at the rough threshold's top: fill no higher.\n";
  return text + masses(report) + loads(report);
}

}  // namespace fallwright::report
