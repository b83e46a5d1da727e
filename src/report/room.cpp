#include "report/room.hpp"

#include <algorithm>

#include "report/verdict.hpp"
#include "rules/check.hpp"
#include "takeoff/kits.hpp"
#include "units/length.hpp"
#include "units/letters.hpp"

namespace fallwright::report {
namespace {

const char* hand_of(const job::Job& job) {
  return job.bench ? job::name_of(job.bench->place) : no_bench;
}

std::string base_of(const job::Job& job) {
  const bool metric = job.is_metric();
  return units::to_text(job.base.length, metric) + " x " + units::to_text(job.base.width, metric);
}

double batches_of(const std::vector<takeoff::Row>& rows) {
  double batches = 0;
  for (const takeoff::Row& row : rows)
    if (row.by_room) batches += row.buy;
  return batches;
}

/// Whether other pieces may be cut for the bench: nobody builds a frame for it.
bool waits_for_bench(const Report& report) {
  return std::any_of(report.cuts.begin(), report.cuts.end(), [](const takeoff::CutRow& cut) {
    return cut.hold && cut.hold->on == takeoff::HangsOn::bench && !cut.furring;
  });
}

Judged judged(const rules::Result& result) {
  return {result.id, result.title, result.outcome, result.margin, result.where, result.limit.source};
}

}  // namespace

Room::Room(const Report* report)
    : name{report->job.name},
      metric{report->job.is_metric()},
      hand{hand_of(report->job)},
      base{base_of(report->job)},
      set_mm3{report->facts.bed.set_mm3},
      outcome{worst_outcome(*report)},
      verdict{verdict_words(*report)},
      worst{judged(rules::worst_first(report->judgement.results).front())},
      rows{report->rows},
      cuts{report->cuts},
      sticks{takeoff::stick_rows(report->plan, report->job.is_metric())},
      offered{report->job.cuts},
      opening_mm{waits_for_bench(*report) ? std::nullopt : takeoff::bench_opening_mm(report->facts)},
      prices{report->job.buy.prices.prices},
      priced{!report->job.buy.prices.file.empty()},
      currency{report->job.buy.currency},
      batches{batches_of(report->rows)},
      cost{takeoff::cost_of(report->rows).sum} {
  for (const rules::Result& result : report->judgement.results) checks.push_back(judged(result));
  for (auto* list : {&rows, &sticks})
    for (takeoff::Row& row : *list) row.basis.clear();
  for (takeoff::CutRow& cut : cuts) cut.part_ids.clear();
  for (const takeoff::StockPlan& plan : report->plan) sticks_mm += plan.bought_mm;
}

/// A reason names files, and a file's name need not be letters.
Room::Room(std::string of, std::string why)
    : name{std::move(of)}, failure{why.empty() ? "its work ended without a word" : units::printable(why)} {}

}  // namespace fallwright::report
