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

[[noreturn]] void stop_with(const std::string& file, const std::string& key, const std::string& why) {
  throw diag::JobFaults{{{file, 0, 0, key, why}}};
}

revision::State of_report(const std::string& path) {
  return revision::read_state(diag::read_text(path, greatest_report_bytes), path);
}

/// A report by its name's ending or, on standard input, by how it begins; anything else is a job file, worked out in
/// memory.
revision::State of_file(const std::string& path, Progress& progress) {
  if (std::filesystem::path{path}.extension() == ".json") return of_report(path);
  const std::string text = diag::read_text(path);
  if (path == diag::standard_input && begins_with(text, '{')) return revision::read_state(text, path);
  return report::state_of(*work_out(load_text(text, path), progress)->report);
}

/// What became of one room is told; of two rooms every number would be other, and no piece is told apart from chance.
void hold_to_one_room(const revision::State& was, const std::string& file, const revision::State& now) {
  if (!revision::of_one_room(was, now))
    stop_with(file, "",
              "is of another room, '" + was.job.name + "'; '" + now.job.name +
                  "' has neither its name nor its alcove. Where it is one room after all, give both one job.name");
}

}  // namespace

std::optional<revision::State> older(const Options& options) {
  if (options.from.empty()) return std::nullopt;
  if (options.jobs.size() != 1) stop_with("", "--from", "is the older report of one job; name one");
  if (options.from == diag::standard_input && options.jobs.front() == diag::standard_input)
    stop_with("", "--from", "standard input holds one file: name the job file or the report");
  return of_report(options.from);
}

void must_be_of_one_room(const revision::State& was, const std::string& file, const job::Job& now) {
  revision::State state;
  state.job = now, state.keys = job::written_keys(now);
  hold_to_one_room(was, file, state);
}

int diff(const Options& options) {
  if (options.old_file == diag::standard_input && options.new_file == diag::standard_input)
    stop_with("", "diff", "standard input holds one file: name the other");
  Stages stages{options};
  const revision::State was = of_file(options.old_file, stages), now = of_file(options.new_file, stages);
  hold_to_one_room(was, options.old_file, now);
  std::cout << (options.json ? report::changes_json(was, now) : report::changes_text(was, now));
  return all_pass;
}

}  // namespace fallwright::app
