#include "app/each_job.hpp"

#include <algorithm>
#include <iostream>

#include <spdlog/spdlog.h>
#include <unistd.h>

#include "app/app.hpp"
#include "app/prices.hpp"
#include "app/results.hpp"
#include "app/side_by_side.hpp"
#include "app/staging.hpp"
#include "measure/measure.hpp"
#include "report/changed_text.hpp"
#include "report/together.hpp"
#include "report/verdict.hpp"
#include "units/letters.hpp"

namespace fallwright::app {
namespace {

/// The rooms as one order: printed, and kept beside the rooms' folders where there are any.
void tell_together(const Options& options, const std::vector<Outcome>& outcomes, const std::optional<Output>& kept) {
  std::vector<report::Room> rooms;
  for (const Outcome& outcome : outcomes)
    rooms.push_back(outcome.work ? report::Room{outcome.work->report.get()}
                                 : report::Room{outcome.name, outcome.failure});
  if (std::none_of(rooms.begin(), rooms.end(), [](const report::Room& room) { return room.report; })) return;
  report::Together all = report::together(rooms);
  if (kept) {
    Staging staging{kept->folder, names_of_together(), saying(options)};
    std::vector<const Work*> works;
    for (const Outcome& outcome : outcomes) works.push_back(outcome.work.get());
    write_together(all, works, staging);
  }
  if (options.json)
    std::cout << report::to_json(all);
  else if (!options.quiet)
    std::cout << report::together_text(all);
}

/// Where a build ends: one verdict a room, and the page to open, or the folder where no page was wanted.
void tell_pages(const Options& options, const std::vector<Outcome>& outcomes, const std::optional<Output>& together) {
  if (options.quiet || options.json) return;
  std::string text;
  const auto& only = options.only;
  const bool has_page = only.empty() || std::find(only.begin(), only.end(), "page") != only.end();
  for (const Outcome& outcome : outcomes) {
    if (!outcome.work) continue;
    const report::Report& report = *outcome.work->report;
    text += units::printable(report.job.name) + ": " + report::verdict_words(report) + "\n  " +
            units::printable(outcome.work->folder) + "/" + (has_page ? page_name : "") + "\n";
  }
  if (together && outcomes.size() > 1) text += "All rooms:\n  " + units::printable(together->shown) + "/index.html\n";
  std::cout << (text.empty() ? "" : "\n") << text;
}

}  // namespace

Stages::Stages(const Options& options) : on_{!options.quiet && !options.json && isatty(STDERR_FILENO) != 0} {}

void Stages::stage(const std::string& job, const std::string& what) {
  if (on_) spdlog::info("{}: {} ...", job, what);
  spdlog::debug("{}: {}", job, what);
}

std::vector<job::Job> jobs_of(const Options& options) {
  std::vector<job::Job> jobs = load_all(options.jobs, options.prices);
  if (options.together) must_agree_on_prices(jobs);
  return jobs;
}

int each_job(const Options& options, std::vector<job::Job> jobs, const Words& words, const Outputs& outputs,
             Advice advice, const revision::State* since) {
  Stages stages{options};
  bool failed = false, broke = false;
  const auto tell = [&](const Outcome& outcome) {
    if (!outcome.work) {
      std::cerr << "fallwright: " + outcome.name + ": " + outcome.failure + "\n";
      broke = true;
      return;
    }
    const Results results = results_of(*outcome.work);
    failed = failed || results.fails();
    if (options.json)
      std::cout << results.json;
    else if (!options.quiet)
      std::cout << words(*outcome.work) << std::endl;  // a room told is a room seen, even through a pipe
  };
  const auto begin = [&](std::size_t room) -> Finish {
    if (options.verify) return [](Work& work) { work.refused_by_kernel = measure::refused_by_kernel(*work.model); };
    if (outputs.rooms.empty()) return {};
    const Output& output = outputs.rooms[room];
    const auto staging = std::make_shared<Staging>(output.folder, names_of_all(), saying(options));
    return [&, staging](Work& work) {
      std::optional<revision::Changes> changes;
      if (since) changes = revision::changes(*since, report::state_of(*work.report));
      write_all(work, *staging, stages, changes ? &*changes : nullptr, {options.only.begin(), options.only.end()});
      work.folder = output.shown;
    };
  };
  const std::vector<Outcome> outcomes = side_by_side(std::move(jobs), stages, begin, tell, advice);
  if (options.together) tell_together(options, outcomes, outputs.together);
  if (!outputs.rooms.empty()) tell_pages(options, outcomes, outputs.together);
  return broke ? machine_failed : failed ? check_failed : all_pass;
}

int each_job(const Options& options, const Words& words, Advice advice) {
  return each_job(options, jobs_of(options), words, {}, advice);
}

Advice only_in_json(const Options& options) {
  return options.json ? Advice::followed : Advice::untold;
}

int each_job_told(const Options& options, const Words& words) {
  const int code = each_job(options, words, only_in_json(options));
  return code == machine_failed ? code : all_pass;
}

}  // namespace fallwright::app
