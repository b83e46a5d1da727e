#include "report/together.hpp"

#include <algorithm>

#include "rules/check.hpp"
#include "units/length.hpp"

namespace fallwright::report {
namespace {

const char* hand_of(const job::Job& job) {
  if (!job.bench) return "no bench";
  return job.bench->place == job::BenchPlace::left_end    ? "left"
         : job.bench->place == job::BenchPlace::right_end ? "right"
                                                          : "back";
}

bool is_metric(const job::Job& job) {
  return job.unit == job::UnitSystem::metric;
}

RoomLine line_of(const Report& report) {
  const job::Base& base = report.job.base;
  const bool metric = is_metric(report.job);
  return {report.job.name, hand_of(report.job),
          units::to_text(base.length, metric) + " x " + units::to_text(base.width, metric), report.facts.bed.set_mm3,
          rules::worst_first(report.results).front()};
}

/// The saw list as the cutting plan takes it.
std::vector<takeoff::CutRow> cuts_of(const std::vector<takeoff::SawRow>& pieces) {
  std::vector<takeoff::CutRow> cuts;
  for (const takeoff::SawRow& piece : pieces) cuts.push_back(piece.cut);
  return cuts;
}

/// Benches of several rooms from few lengths; one bench alone needs no kit.
std::vector<takeoff::Kit> kits_of(const std::vector<const Report*>& reports, bool metric) {
  std::vector<double> openings;
  std::vector<std::size_t> rooms;
  for (std::size_t i = 0; i < reports.size(); ++i)
    if (const auto opening = takeoff::bench_opening_mm(reports[i]->facts)) {
      openings.push_back(units::round_to_tape(units::Length::mm(*opening), metric).in_mm());
      rooms.push_back(i + 1);
    }
  if (openings.size() < 2) return {};
  std::vector<takeoff::Kit> kits = takeoff::group_openings(openings, takeoff::usual_gap(metric));
  for (takeoff::Kit& kit : kits)
    for (std::size_t& room : kit.rooms) room = rooms[room];
  return kits;
}

/// In the order of the checks; those that no room has a margin for are left out. Rooms may answer to different rule
/// books, so results are found by their check and not by their place.
std::vector<Tightest> tightest_of(const std::vector<const Report*>& reports) {
  std::vector<Tightest> all;
  for (std::size_t i = 0; i < reports.size(); ++i)
    for (const rules::Result& result : reports[i]->results) {
      if (!result.margin) continue;
      const auto at = std::find_if(all.begin(), all.end(), [&](const Tightest& t) { return t.result.id == result.id; });
      if (at == all.end())
        all.push_back({i + 1, result});
      else if (*result.margin < *at->result.margin)
        *at = {i + 1, result};
    }
  return all;
}

}  // namespace

Together together(const std::vector<const Report*>& reports) {
  Together all;
  all.metric = is_metric(reports.front()->job);
  all.cuts = reports.front()->job.cuts;
  std::vector<const std::vector<takeoff::Row>*> rows;
  std::vector<const std::vector<takeoff::CutRow>*> cuts;
  for (const Report* report : reports) {
    all.rooms.push_back(line_of(*report));
    rows.push_back(&report->rows);
    cuts.push_back(&report->cuts);
    for (const takeoff::StockPlan& plan : report->plan) all.bought_apart_mm += plan.bought_mm;
  }
  all.packs = takeoff::pool(rows);
  all.pieces = takeoff::saw_list(cuts);
  all.plan = takeoff::plan_cuts(cuts_of(all.pieces), all.cuts, all.metric);
  all.kits = kits_of(reports, all.metric);
  all.tightest = tightest_of(reports);
  return all;
}

std::string owners_text(const std::vector<takeoff::Owner>& owners) {
  std::vector<std::pair<std::string, std::vector<std::size_t>>> by_mark;
  for (const takeoff::Owner& owner : owners) {
    auto at = std::find_if(by_mark.begin(), by_mark.end(), [&](const auto& m) { return m.first == owner.mark; });
    if (at == by_mark.end()) at = by_mark.insert(by_mark.end(), {owner.mark, {}});
    at->second.push_back(owner.room + 1);
  }
  std::string text;
  for (const auto& [mark, rooms] : by_mark) text += (text.empty() ? "" : "; ") + mark + " of " + numbers_text(rooms);
  return text;
}

std::string numbers_text(const std::vector<std::size_t>& numbers) {
  std::string text;
  for (std::size_t first = 0, last = 0; first < numbers.size(); first = last + 1) {
    for (last = first; last + 1 < numbers.size() && numbers[last + 1] == numbers[last] + 1;) ++last;
    text += (first == 0 ? "" : ", ") + std::to_string(numbers[first]);
    if (last > first) text += (last == first + 1 ? ", " : "-") + std::to_string(numbers[last]);
  }
  return text;
}

}  // namespace fallwright::report
