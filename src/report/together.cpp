#include <algorithm>
#include <cmath>
#include <map>

#include "report/report.hpp"
#include "report/stick_text.hpp"
#include "rules/check.hpp"
#include "takeoff/kits.hpp"
#include "takeoff/pool.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::report {
namespace {

std::string padded(std::string text, std::size_t width) {
  if (text.size() < width) text.append(width - text.size(), ' ');
  return text;
}

const char* hand_of(const job::Job& job) {
  if (!job.bench) return "no bench";
  return job.bench->place == job::BenchPlace::left_end    ? "left"
         : job.bench->place == job::BenchPlace::right_end ? "right"
                                                          : "back";
}

/// Rooms that take the same base are one family.
std::string family_of(const job::Job& job) {
  const bool metric = job.unit == job::UnitSystem::metric;
  return units::to_text(job.base.length, metric) + " x " + units::to_text(job.base.width, metric);
}

/// The result that is worst off, as the checks order them.
const rules::Result& worst_of(const std::vector<rules::Result>& sorted) {
  return sorted.front();
}

std::string rooms(const std::vector<const Report*>& reports) {
  std::string text =
      "  " + padded("room", 34) + padded("hand", 10) + padded("base", 20) + padded("set mortar", 12) + "worst check\n";
  for (const Report* r : reports) {
    const auto sorted = rules::worst_first(r->results);
    const rules::Result& worst = worst_of(sorted);
    text += "  " + padded(r->job.name.substr(0, 33), 34) + padded(hand_of(r->job), 10) + padded(family_of(r->job), 20) +
            padded(units::volume_text(r->facts.bed.set_mm3, r->job.unit == job::UnitSystem::metric), 12) +
            rules::name_of(worst.outcome) + ": " + worst.id + "\n";
  }
  return text;
}

/// How many rooms there are of each hand and family.
std::string families(const std::vector<const Report*>& reports) {
  std::map<std::string, int> counts;
  for (const Report* r : reports) ++counts[family_of(r->job) + ", bench " + hand_of(r->job)];
  std::string text;
  for (const auto& [family, count] : counts) text += "  " + std::to_string(count) + " x base " + family + "\n";
  return text;
}

/// What is bought in packs, together: what one room leaves of its last pack another begins with.
std::string pooled(const std::vector<const Report*>& reports) {
  std::vector<const std::vector<takeoff::Row>*> lists;
  for (const Report* r : reports) lists.push_back(&r->rows);
  std::string text = "  buy together\n";
  for (const takeoff::Pooled& p : takeoff::pool(lists)) {
    text += "    " + padded(p.row.item, 26) + padded(takeoff::needed(p.row), 18) + "buy " +
            padded(takeoff::bought(p.row), 22) + p.row.basis;
    if (p.row.pack > 0 && p.apart > p.row.buy)
      text += " (" + units::decimals(p.apart, 0) + " if every room bought its own)";
    text += "\n";
  }
  return text;
}

/// Every room's pieces into one set of sticks; a piece is marked by its room's number and its own mark.
std::string saw_list(const std::vector<const Report*>& reports) {
  std::vector<takeoff::CutRow> cuts;
  for (std::size_t i = 0; i < reports.size(); ++i)
    for (takeoff::CutRow cut : reports[i]->cuts) {
      cut.mark = std::to_string(i + 1) + cut.mark;
      cuts.push_back(std::move(cut));
    }
  const job::Job& first = reports.front()->job;
  const bool metric = first.unit == job::UnitSystem::metric;
  const auto plans = takeoff::plan_cuts(cuts, first.cuts, metric);
  double bought = 0, apart = 0;
  std::size_t sticks = 0;
  for (const takeoff::StockPlan& plan : plans) bought += plan.bought_mm, sticks += plan.sticks.size();
  for (const Report* r : reports)
    for (const takeoff::StockPlan& plan : r->plan) apart += plan.bought_mm;
  std::string text = "  saw list: " + std::to_string(sticks) + " sticks, " + takeoff::total_text(bought, metric) +
                     " together (" + takeoff::total_text(apart, metric) +
                     " if every room bought its own); room number before the mark; lengths on offer and kerf (" +
                     takeoff::kerf_text(first.cuts.kerf.in_mm(), metric) + ") as in " + first.name + "\n";
  return text + stick_lines(plans, metric);
}

/// Benches of several rooms from few lengths, by the rooms' numbers.
std::string kits(const std::vector<const Report*>& reports) {
  const bool metric = reports.front()->job.unit == job::UnitSystem::metric;
  const auto length = [&](double mm) { return units::to_text(units::Length::mm(mm), metric); };
  std::vector<double> openings;
  std::vector<std::size_t> rooms;
  for (std::size_t i = 0; i < reports.size(); ++i)
    if (const auto opening = takeoff::bench_opening_mm(reports[i]->facts)) {
      openings.push_back(units::round_to_tape(units::Length::mm(*opening), metric).in_mm());
      rooms.push_back(i + 1);
    }
  if (openings.size() < 2) return "";
  const takeoff::KitGap gap = takeoff::usual_gap(metric);
  const auto kits = takeoff::group_openings(openings, gap);
  std::string text = "  bench kits: " + std::to_string(openings.size()) + " frames in " + std::to_string(kits.size()) +
                     (kits.size() == 1 ? " length" : " lengths") + ", each " + length(gap.least_mm) + " to " +
                     length(gap.greatest_mm) +
                     " shorter than the place it goes into (the frame's upper plate as measured on its solid), if "
                     "benches are built for stock and shimmed; the cut lists keep each room's own length\n";
  for (const takeoff::Kit& kit : kits) {
    text += "    " + padded(length(kit.length_mm), 12) + std::to_string(kit.rooms.size()) +
            (kit.rooms.size() == 1 ? " room: " : " rooms: ");
    for (std::size_t i = 0; i < kit.rooms.size(); ++i)
      text += (i == 0 ? "" : ", ") + std::to_string(rooms[kit.rooms[i]]);
    text += "\n";
  }
  return text;
}

/// For each check the room that has the least to spare.
std::string margins(const std::vector<const Report*>& reports) {
  std::string text = "  worst margin of each check over all rooms\n";
  for (std::size_t i = 0; i < reports.front()->results.size(); ++i) {
    const Report* worst = nullptr;
    for (const Report* r : reports) {
      const rules::Result& result = r->results[i];
      if (!result.margin) continue;
      if (!worst || *result.margin < *worst->results[i].margin) worst = r;
    }
    if (!worst) continue;
    const rules::Result& result = worst->results[i];
    text += "    " + padded(result.id, 30) + padded(rules::name_of(result.outcome), 10) +
            padded((*result.margin >= 0 ? "+" : "") + units::decimals(*result.margin * 100, 1) + " %", 12) +
            worst->job.name + "\n";
  }
  return text;
}

}  // namespace

std::string together(const std::vector<const Report*>& reports) {
  if (reports.empty()) return "";
  return "ALL ROOMS TOGETHER\n" + rooms(reports) + families(reports) + pooled(reports) + saw_list(reports) +
         kits(reports) + margins(reports);
}

}  // namespace fallwright::report
