#include "app/older.hpp"

#include <filesystem>
#include <iostream>

#include "app/app.hpp"
#include "app/each_job.hpp"
#include "diag/fault.hpp"
#include "diag/text_file.hpp"
#include "report/changed_text.hpp"

namespace fallwright::app {
namespace {

/// A report of the largest job that may be typed is a tenth of this.
constexpr std::size_t greatest_report_bytes = 200'000'000;

revision::State of_report(const std::string& path) {
  return revision::read_state(diag::read_text(path, greatest_report_bytes), path);
}

/// A report by its name's ending; anything else is a job file, worked out in memory.
revision::State of_file(const std::string& path, Progress& progress) {
  if (std::filesystem::path{path}.extension() == ".json") return of_report(path);
  return report::state_of(*work_out(load(path), progress)->report);
}

}  // namespace

std::optional<revision::State> older(const Options& options) {
  if (options.from.empty()) return std::nullopt;
  if (options.jobs.size() != 1)
    throw diag::JobFaults{{{"", 0, 0, "--from", "is the older report of one job; name one"}}};
  return of_report(options.from);
}

int diff(const Options& options) {
  Stages stages{options};
  const revision::State was = of_file(options.old_file, stages), now = of_file(options.new_file, stages);
  std::cout << (options.json ? report::changes_json(was, now) : report::changes_text(was, now));
  return all_pass;
}

}  // namespace fallwright::app
