#include "app/each_job.hpp"

#include <filesystem>
#include <iostream>
#include <map>

#include <spdlog/spdlog.h>
#include <unistd.h>

#include "app/app.hpp"
#include "app/order.hpp"
#include "app/prices.hpp"
#include "app/side_by_side.hpp"
#include "app/staging.hpp"
#include "diag/fault.hpp"
#include "measure/measure.hpp"
#include "report/changed_text.hpp"

namespace fallwright::app {

Stages::Stages(const Options& options) : on_{!options.quiet && !options.json && isatty(STDERR_FILENO) != 0} {}

void Stages::stage(const std::string& job, const std::string& what) {
  if (on_) spdlog::info("{}: {} ...", job, what);
  spdlog::debug("{}: {}", job, what);
}

namespace {

/// A room that is given twice by another name would be bought twice.
void must_be_apart(const std::vector<std::string>& paths) {
  std::map<std::filesystem::path, std::string> known;
  std::vector<diag::Fault> faults;
  for (const std::string& path : paths) {
    if (path == "-") continue;
    std::error_code none;
    const auto [first, is_new] = known.emplace(std::filesystem::weakly_canonical(path, none), path);
    if (!is_new && !none)
      faults.push_back({path, 0, 0, "",
                        "is the same file as '" + first->second +
                            "', and an order has each room once; a room that is built twice has a job "
                            "file of its own each time"});
  }
  if (!faults.empty()) throw diag::JobFaults{faults};
}

}  // namespace

std::vector<job::Job> jobs_of(const Options& options) {
  if (options.together) must_be_apart(options.jobs);
  std::vector<job::Job> jobs = load_all(options.jobs, options.prices);
  if (options.together) must_agree_on_prices(jobs);
  return jobs;
}

std::vector<report::Room> each_room(const Options& options, std::vector<job::Job> jobs, const Words& words,
                                    const Outputs& outputs, Extent extent, const revision::State* since) {
  Stages stages{options};
  std::vector<report::Room> rooms;
  const auto tell = [&](Outcome& outcome) {
    if (!outcome.work) {
      tell_failure(rooms.emplace_back(outcome.name, outcome.failure));
      return;
    }
    const report::Report& report = *outcome.work->report;
    if (options.json)
      std::cout << report::to_json(report);
    else if (!options.quiet)
      std::cout << words(*outcome.work) << std::endl;  // a room told is a room seen, even through a pipe
    rooms.emplace_back(&report);
    outcome.work.reset();  // of many rooms no report is held longer than it takes to tell it
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
  side_by_side(std::move(jobs), stages, begin, tell, extent);
  return rooms;
}

int each_job(const Options& options, std::vector<job::Job> jobs, const Words& words, const Outputs& outputs,
             Extent extent, const revision::State* since) {
  return tell_rooms(options, each_room(options, std::move(jobs), words, outputs, extent, since), outputs);
}

int each_job(const Options& options, const Words& words, Extent extent) {
  return each_job(options, jobs_of(options), words, {}, extent);
}

int each_job_told(const Options& options, const Words& words) {
  const int code = each_job(options, words, {options.json, true});
  return code == machine_failed ? code : all_pass;
}

}  // namespace fallwright::app
