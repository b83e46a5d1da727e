#include "app/study_run.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <exception>
#include <iostream>
#include <numeric>
#include <optional>
#include <system_error>
#include <thread>

#include "app/stop.hpp"
#include "diag/fault.hpp"
#include "diag/nearest.hpp"
#include "job/read.hpp"
#include "measure/memory.hpp"
#include "rules/judgement.hpp"
#include "study/cores.hpp"
#include "study/variant.hpp"
#include "takeoff/bags.hpp"
#include "takeoff/hold.hpp"
#include "takeoff/packs.hpp"
#include "units/words.hpp"

namespace fallwright::app {
namespace {

Wanted wanted_by(const job::Study& study) {
  const auto asks = [&](const char* section) {
    return std::any_of(study.columns.begin(), study.columns.end(),
                       [&](const job::Asked& column) { return column.path.starts_with(section); });
  };
  Wanted wanted;
  // What readings may add to the mortar stands on the buy list, as a build of the same job has it.
  const bool buys = asks("takeoff") || asks("cost") || study.aim == job::Aim::lowest_price;
  wanted.worst_cases = asks("room.worst_case") || buys || study.aim == job::Aim::fewest_bags;
  wanted.drain_window = asks("room.drain_window") ||
                        std::any_of(study.columns.begin(), study.columns.end(), [](const job::Asked& column) {
                          return column.path.ends_with(".advice");  // which names the nearest place for the drain
                        });
  wanted.cuts = study.aim == job::Aim::least_sticks || buys || asks("cuts") || asks("stick") || asks("stock");
  wanted.rows = study.aim == job::Aim::fewest_bags || buys;
  wanted.report = !study.columns.empty();
  // What the words of checks tell is among it, and all that is cut or bought.
  wanted.told =
      asks("fit") || asks("bed") || asks("checks") || asks("finish") || asks("sections") || wanted.cuts || wanted.rows;
  return wanted;
}

std::optional<double> sticks_of(const std::vector<takeoff::StockPlan>& plan) {
  std::size_t sticks = 0;
  for (const takeoff::StockPlan& stock : plan) sticks += stock.sticks.size();
  return static_cast<double>(sticks);
}

/// Of all that is bought; nothing where something of it has no price, for that would look cheap.
std::optional<double> price_of(const std::vector<takeoff::Row>& rows) {
  const takeoff::Cost cost = takeoff::cost_of(rows);
  return cost.missing.empty() ? cost.sum : std::nullopt;
}

/// A report of what is wanted, its limits judged; nothing else is in it.
report::Report report_of(job::Job job, study::Judged judged, const Wanted& wanted) {
  const bool metric = job.is_metric();
  report::Report report{std::move(job), std::move(judged.facts), {}, {}, {}, {}, {}};
  report.judgement.results = std::move(judged.results);
  if (!wanted.report && !wanted.cuts && !wanted.rows) return report;
  report.judgement =
      rules::judgement_of(report.job, report.facts, rules::limits_for(report.job), std::move(report.judgement.results));
  const facts::Holds& holds = report.judgement.holds;  // what waits is planned apart, as in a build
  if (wanted.cuts) {
    report.cuts = takeoff::cut_list(report.facts, metric, takeoff::board_of(report.job), holds);
    report.plan = takeoff::plan_cuts(report.cuts, report.job.cuts, metric);
  }
  if (wanted.rows) {
    report.rows = takeoff::take_off(report.job, report.facts, report.cuts, report.plan);
    takeoff::hold_back(report.rows, report.cuts, report.job, report.facts, holds);
    takeoff::share_packs(report.rows);
  }
  return report;
}

void set_aim(const job::Study& study, const report::Report& report, bool mapped, facts::Variant& variant) {
  switch (study.aim) {
    case job::Aim::greatest_least_margin:
      if (mapped) variant.aimed = study::aimed_margins(report.judgement.results, study.aim_at);
      variant.aim = study::least_margin(report.judgement.results, study.aim_at);
      return;
    case job::Aim::fewest_bags:
      variant.aim = takeoff::bags_of_mortar(report.rows);
      return;
    case job::Aim::least_sticks:
      variant.aim = sticks_of(report.plan);
      return;
    case job::Aim::lowest_price:
      variant.aim = price_of(report.rows);
      return;
  }
}

/// @throws diag::JobFaults where today's job cannot be measured by the study's aim.
void must_have_aim(const job::Study& study, const report::Report& report, const facts::Variant& today) {
  std::string why;
  if (study.aim == job::Aim::fewest_bags && !today.aim)
    why = "found 'fewest-bags'; the job does not say what a bag yields (bed.bag_yield, or [mix])";
  if (study.aim == job::Aim::lowest_price && study.job.buy.prices.file.empty())
    why = "found 'lowest-price'; the job names no prices (buy.prices)";
  else if (study.aim == job::Aim::lowest_price && !today.aim)
    why = "found 'lowest-price'; in " + study.job.buy.prices.file + " there is no price for " +
          units::listed(takeoff::cost_of(report.rows).missing);
  if (!why.empty()) throw diag::JobFaults{{{study.file, 0, 0, "study.aim", why}}};
}

/// @throws diag::JobFaults for an id that no check has.
void must_be_checks(const std::vector<job::Asked>& ids, const std::string& file,
                    const std::vector<rules::Result>& results) {
  std::vector<std::string> known;
  for (const rules::Result& result : results) known.push_back(result.id);
  std::vector<diag::Fault> faults;
  for (const job::Asked& asked : ids)
    if (std::find(known.begin(), known.end(), asked.path) == known.end())
      faults.push_back({file, asked.line, asked.column, "study.aim_at",
                        "'" + asked.path + "' is no check; did you mean '" + diag::nearest(asked.path, known) + "'?"});
  if (!faults.empty()) throw diag::JobFaults{faults};
}

/// Checks that tell whether readings are of one room. Where those as taken contradict themselves so do most that are
/// near to them, and all are drawn as they come.
std::vector<std::size_t> agreements_of(const std::vector<rules::Result>& results) {
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < results.size(); ++i)
    for (const char* id : {"survey.closes", "survey.widths-agree"})
      if (results[i].id == id && results[i].outcome == rules::Outcome::pass) found.push_back(i);
  return found;
}

std::string first_of(const diag::JobFaults& faults) {
  const diag::Fault& fault = faults.faults().front();
  return (fault.key.empty() ? "" : fault.key + ": ") + fault.message;
}

/// Says how far a run has come, when there is something to say: after two seconds, then every ten.
class Pace {
 public:
  Pace(std::size_t all, bool shown) : all_{all}, shown_{shown} {}

  void at(std::size_t done) {
    if (!shown_ || done == 0 || done == all_) return;
    const double passed = std::chrono::duration<double>(std::chrono::steady_clock::now() - begun_).count();
    if (passed < next_) return;
    next_ = passed + 10;
    const auto left = static_cast<long>(passed / static_cast<double>(done) * static_cast<double>(all_ - done) + 0.5);
    std::cerr << std::to_string(done) + " of " + std::to_string(all_) + " variants, " + clock(left) + " left\n";
  }

 private:
  static std::string clock(long seconds) {
    const auto two = [](long n) { return (n < 10 ? "0" : "") + std::to_string(n); };
    const std::string rest = two(seconds % 60);
    if (seconds < 3600) return std::to_string(seconds / 60) + ":" + rest + " min";
    return std::to_string(seconds / 3600) + ":" + two(seconds / 60 % 60) + " h";
  }

  std::size_t all_;
  bool shown_;
  std::chrono::steady_clock::time_point begun_ = std::chrono::steady_clock::now();
  double next_ = 2;
};

}  // namespace

Judge::Judge(const study::Plan& plan)
    : plan_{plan},
      wanted_{wanted_by(plan.study())},
      columns_{{}, "", {}},
      memory_{std::make_unique<measure::Memory>()} {
  look_at_today();
  memory_->close();
}

Judge::~Judge() = default;

void Judge::look_at_today() {
  const job::Study& study = plan_.study();
  study::Judged judged =
      study::judge(study.job, {wanted_.worst_cases, wanted_.drain_window || wanted_.report, true}, *memory_);
  study::weigh(judged.results, false, today_);
  Wanted all = wanted_;
  all.cuts = all.rows = true;
  const report::Report report = report_of(study.job, std::move(judged), all);
  set_aim(study, report, false, today_);
  must_be_checks(study.aim_at, study.file, report.judgement.results);
  must_have_aim(study, report, today_);
  columns_ = report::Columns{study.columns, study.file, report};
  today_.columns = columns_.of(report);
  results_ = report.judgement.results;
  if (study.vary == job::Vary::readings) agreements_ = agreements_of(results_);
}

std::vector<facts::Check> Judge::checks() const {
  std::vector<facts::Check> checks;
  for (const rules::Result& result : results_) checks.push_back({result.id, result.title});
  return checks;
}

bool Judge::is_no_room(const facts::Variant& variant) const {
  if (variant.for_map || variant.outcomes.empty()) return false;
  return std::any_of(agreements_.begin(), agreements_.end(), [&](std::size_t check) {
    return variant.outcomes[check] == facts::failed || variant.outcomes[check] == facts::cautioned;
  });
}

facts::Variant Judge::variant(std::size_t number) const {
  constexpr std::size_t most_draws = 100;  // half of all agree, at the worst, where those as taken do
  for (std::size_t draw = 0;; ++draw) {
    facts::Variant variant = judged(plan_.nth(number, draw));
    variant.left_out = draw;
    if (draw + 1 == most_draws || !is_no_room(variant)) return variant;
  }
}

facts::Variant Judge::judged(facts::Variant variant) const {
  const bool mapped = plan_.node_of(variant).has_value();
  try {
    job::Job job = plan_.job_of(variant);
    study::Judged judged = study::judge(job, {wanted_.worst_cases, wanted_.drain_window, wanted_.told}, *memory_);
    study::weigh(judged.results, mapped, variant);
    const report::Report report = report_of(std::move(job), std::move(judged), wanted_);
    set_aim(plan_.study(), report, mapped, variant);
    variant.columns = columns_.of(report);
  } catch (const diag::JobFaults& e) {
    variant.verdict = facts::Verdict::refused, variant.reason = first_of(e);
  } catch (const diag::ModelError& e) {
    variant.verdict = facts::Verdict::broken, variant.reason = e.what();
  } catch (const std::logic_error& e) {  // a mistake of ours in one variant is no reason to lose the others
    variant.verdict = facts::Verdict::broken, variant.reason = e.what();
  }
  return variant;
}

void each_variant(const Judge& judge, std::size_t first, std::size_t end, unsigned threads, bool shown,
                  const std::function<void(const facts::Variant&)>& take) {
  if (threads == 0) threads = study::cores();
  const std::size_t block = 64 * static_cast<std::size_t>(threads);
  Pace pace{end - first, shown};
  for (std::size_t from = first; from < end; from += block) {
    std::vector<facts::Variant> done(std::min(block, end - from));
    std::atomic<std::size_t> next{0}, ready{0};
    std::vector<std::exception_ptr> failures(threads);
    const auto work = [&](unsigned thread) {
      try {
        for (std::size_t i = next++; i < done.size(); i = next++) {
          done[i] = judge.variant(from + i);
          ++ready;
          if (thread == 0) pace.at(from - first + ready);
        }
      } catch (...) {
        failures[thread] = std::current_exception();
        next = done.size();
      }
    };
    std::vector<std::jthread> others;
    try {
      for (unsigned i = 1; i < std::min<std::size_t>(threads, done.size()); ++i) others.emplace_back(work, i);
    } catch (const std::system_error&) {  // no more threads to be had: those there are do the work
    }
    work(0);
    others.clear();
    for (const std::exception_ptr& failure : failures)
      if (failure) std::rethrow_exception(failure);
    stop::stay_if_begun();
    for (const facts::Variant& variant : done) take(variant);
  }
}

}  // namespace fallwright::app
