#include <algorithm>
#include <cmath>
#include <map>

#include "report/report.hpp"
#include "rules/check.hpp"
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

/// Bags bought together: what one room leaves of its last bag another begins with.
std::string mortar(const std::vector<const Report*>& reports) {
  struct Pool {
    double exact = 0, apart = 0;
    bool metric = false;
  };
  std::map<double, Pool> by_yield;
  double without_mm3 = 0;
  for (const Report* r : reports) {
    const double gross = r->facts.bed.set_mm3 * (1 + r->job.bed.waste);
    if (!r->job.bed.bag_yield_m3) {
      without_mm3 += gross;
      continue;
    }
    Pool& pool = by_yield[*r->job.bed.bag_yield_m3];
    const double bags = gross * 1e-9 / *r->job.bed.bag_yield_m3;
    pool.exact += bags;
    pool.apart += std::ceil(bags - units::tolerance::ratio);
    pool.metric = r->job.unit == job::UnitSystem::metric;
  }
  std::string text;
  for (const auto& [yield, pool] : by_yield)
    text += "  mortar: " + units::decimals(pool.exact, 2) + " bags of " + units::volume_text(yield * 1e9, pool.metric) +
            ", buy " + units::decimals(std::ceil(pool.exact - units::tolerance::ratio), 0) + " together (" +
            units::decimals(pool.apart, 0) + " if every room bought its own)\n";
  if (without_mm3 > 0)
    text += "  mortar without a bag yield in the job file: " + units::decimals(without_mm3 * 1e-6, 1) + " L\n";
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
  const bool metric = reports.front()->job.unit == job::UnitSystem::metric;
  const auto sticks = takeoff::plan_sticks(cuts, metric);
  std::size_t apart = 0;
  for (const Report* r : reports) apart += takeoff::plan_sticks(r->cuts, r->job.unit == job::UnitSystem::metric).size();
  std::string text = "  saw list: " + std::to_string(sticks.size()) + " sticks together (" + std::to_string(apart) +
                     " if every room bought its own); room number before the mark\n";
  // Sticks that are cut alike are one line.
  std::vector<std::pair<std::string, int>> lines;
  for (const takeoff::Stick& stick : sticks) {
    std::string line = padded(stick.stock, 14) + padded(units::to_text(units::Length::mm(stick.length_mm), metric), 10);
    for (const takeoff::StickPiece& piece : stick.pieces)
      line += piece.mark + " " + units::to_text(units::Length::mm(piece.length_mm), metric) + "  ";
    if (lines.empty() || lines.back().first != line) lines.emplace_back(line, 0);
    ++lines.back().second;
  }
  for (const auto& [line, count] : lines) text += "    " + padded(std::to_string(count) + " x", 6) + line + "\n";
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
  return "ALL ROOMS TOGETHER\n" + rooms(reports) + families(reports) + mortar(reports) + saw_list(reports) +
         margins(reports);
}

}  // namespace fallwright::report
