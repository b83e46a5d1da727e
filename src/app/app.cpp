#include "app/app.hpp"

#include <algorithm>
#include <filesystem>
#include <functional>
#include <iostream>
#include <set>

#include <spdlog/sinks/stdout_color_sinks.h>
#include <spdlog/spdlog.h>
#include <unistd.h>
#include <CLI/CLI.hpp>

#include "app/build.hpp"
#include "app/staging.hpp"
#include "diag/fault.hpp"
#include "job/describe.hpp"
#include "job/validate.hpp"
#include "measure/measure.hpp"
#include "rules/check.hpp"

namespace fallwright::app {
namespace {

struct Options {
  std::vector<std::string> jobs;
  std::string out = "out";
  std::string job, starter_file;
  std::string at_x, at_y;
  std::vector<std::string> readings;
  bool down = false;
  std::string unit = "in";
  bool quiet = false, json = false, verbose = false, force = false;
};

/// Progress on a terminal only: a log file or a pipe gets results, not stages.
class Stages : public Progress {
 public:
  explicit Stages(const Options& options) : on_{!options.quiet && !options.json && isatty(STDERR_FILENO) != 0} {}
  void stage(const std::string& job, const std::string& what) override {
    if (on_) spdlog::info("{}: {} ...", job, what);
    spdlog::debug("{}: {}", job, what);
  }

 private:
  bool on_;
};

/// Faults of every job, all at once, before anything is built.
std::vector<job::Job> load_all(const std::vector<std::string>& paths) {
  std::vector<job::Job> jobs;
  std::vector<diag::Fault> faults;
  std::set<std::string> stems;
  for (const std::string& path : paths) {
    if (!stems.insert(std::filesystem::path{path}.stem().string()).second)
      faults.push_back({path, 0, 0, "", "two jobs of one file name would share one output folder"});
    try {
      jobs.push_back(load(path));
    } catch (const diag::JobFaults& e) {
      faults.insert(faults.end(), e.faults().begin(), e.faults().end());
    }
  }
  if (!faults.empty()) throw diag::JobFaults{faults};
  return jobs;
}

/// Works out every job and hands it on; one job's failed check never hides another's.
int each_job(const Options& options, const std::function<void(Work&, Progress&)>& use) {
  Stages stages{options};
  bool failed = false;
  for (job::Job& job : load_all(options.jobs)) {
    const auto work = work_out(std::move(job), stages);
    use(*work, stages);
    failed = failed || rules::any_failed(work->report->results);
  }
  return failed ? check_failed : all_pass;
}

void say(const Options& options, const Work& work, const std::string& text) {
  if (options.json)
    std::cout << report::to_json(*work.report);
  else if (!options.quiet)
    std::cout << text << "\n";
}

double length_of(const std::string& name, const std::string& text, job::UnitSystem unit) {
  std::string why;
  const auto bare = unit == job::UnitSystem::metric ? units::LengthUnit::mm : units::LengthUnit::inch;
  const bool minus = !text.empty() && text[0] == '-';
  if (const auto length = units::parse_length(minus ? text.substr(1) : text, bare, why))
    return minus ? -length->in_mm() : length->in_mm();
  throw diag::JobFaults{{{"", 0, 0, name, "found '" + text + "': " + why}}};
}

int build(const Options& options) {
  return each_job(options, [&](Work& work, Progress& progress) {
    const auto folder = std::filesystem::path{options.out} / std::filesystem::path{work.job.file}.stem();
    write_all(work, folder.string(), progress);
    say(options, work, report::summary(*work.report, folder.string()));
  });
}

int check(const Options& options) {
  return each_job(options, [&](Work& work, Progress&) { say(options, work, report::check_table(*work.report)); });
}

int takeoff(const Options& options) {
  each_job(options, [&](Work& work, Progress&) { say(options, work, report::takeoff_table(*work.report)); });
  return all_pass;
}

int survey(const Options& options) {
  return each_job(options, [&](Work& work, Progress&) { say(options, work, report::room_table(*work.report)); });
}

int heights(const Options& options) {
  const job::Job job = load(options.job);
  const double x = length_of("X", options.at_x, job.unit), y = length_of("Y", options.at_y, job.unit);
  Stages stages{options};
  const auto work = work_out(job, stages);
  std::cout << report::chain_table(work->job, measure::measure_chain(*work->model, work->facts, x, y), x, y);
  return all_pass;
}

/// "back-left=1/8 in": a place on the rim and what the rule shows there.
job::RimReading rim_reading(const std::string& text, job::UnitSystem unit) {
  const std::size_t equals = text.find('=');
  std::string name = text.substr(0, equals), known;
  std::replace(name.begin(), name.end(), '-', ' ');
  for (const job::RimPoint point : job::all_rim_points) {
    if (equals != std::string::npos && name == job::name_of(point))
      return {point, units::Length::mm(length_of(name, text.substr(equals + 1), unit))};
    std::string own = job::name_of(point);
    std::replace(own.begin(), own.end(), ' ', '-');
    known += (known.empty() ? "" : ", ") + own;
  }
  throw diag::JobFaults{{{"", 0, 0, "",
                          "found '" + text +
                              "'; a reading is a place and a length, like back-left=1/8. "
                              "Places: " +
                              known}}};
}

int level(const Options& options) {
  job::Job job = load(options.job);
  if (!options.readings.empty()) {
    job.as_set = {options.down, {}};
    for (const std::string& text : options.readings) job.as_set.readings.push_back(rim_reading(text, job.unit));
  }
  if (job.as_set.readings.empty())
    throw diag::JobFaults{
        {{job.file, 0, 0, "as_set", "no readings: give them here, like back-left=1/8, or in the file"}}};
  for (const job::Contradiction& c : job::survey_contradictions(job))
    throw diag::JobFaults{{{job.file, 0, 0, c.key, c.message}}};
  Stages stages{options};
  const auto work = work_out(std::move(job), stages);
  const report::Verdict verdict = report::as_set_verdict(*work->report);
  if (options.json)
    std::cout << report::to_json(*work->report);
  else
    std::cout << work->job.name << "\n" << verdict.text;
  return verdict.passes ? all_pass : check_failed;
}

int starter(const Options& options) {
  if (std::filesystem::exists(options.starter_file) && !options.force)
    throw diag::JobFaults{
        {{options.starter_file, 0, 0, "", "is there already; give another name, or --force to replace it"}}};
  write_file(options.starter_file,
             job::starter(options.unit == "mm" ? job::UnitSystem::metric : job::UnitSystem::inch));
  if (!options.quiet)
    std::cout << options.starter_file << ": a job file with every key; change it and run 'fallwright build' on it\n";
  return all_pass;
}

void add_jobs(CLI::App& command, Options& options) {
  command.add_option("JOB", options.jobs, "job files (TOML)")->required();
  command.add_flag("-q,--quiet", options.quiet, "print errors only");
  command.add_flag("--json", options.json, "print report.json instead of text");
}

/// Declares the commands; `chosen` becomes the one that was given.
void declare(CLI::App& app, Options& options, std::function<int()>& chosen) {
  app.require_subcommand(1);
  app.set_version_flag("--version", "fallwright " + report::version());
  app.add_flag("-v,--verbose", options.verbose, "log what is being done");
  app.footer(
      "Exit codes: 0 all checks pass, 1 a check fails (files are written), 2 the job file or the command line is\n"
      "wrong (nothing is written), 3 the machine failed us.");
  auto* b = app.add_subcommand("build", "build the solids, measure, check, write all files");
  add_jobs(*b, options);
  b->add_option("-o,--out", options.out, "folder that gets one folder for each job")->capture_default_str();
  b->callback([&] { chosen = [&] { return build(options); }; });
  auto* c = app.add_subcommand("check", "every check with its limit, source and advice; writes nothing");
  add_jobs(*c, options);
  c->callback([&] { chosen = [&] { return check(options); }; });
  auto* t = app.add_subcommand("takeoff", "quantities and cut list; writes nothing");
  add_jobs(*t, options);
  t->callback([&] { chosen = [&] { return takeoff(options); }; });
  auto* v = app.add_subcommand("survey", "the room as measured: closure, floor, furring, fit, drain, levels, set-out");
  add_jobs(*v, options);
  v->callback([&] { chosen = [&] { return survey(options); }; });
  auto* l = app.add_subcommand("level", "the base as it lies in the wet bed: falls now, and what to press");
  l->add_option("JOB", options.job, "job file (TOML)")->required();
  l->add_option("READING", options.readings,
                "rim heights like back-left=1/8 front-right=-1/16; left out, those of the job file");
  l->add_flag("--down", options.down, "readings are distances below a level line, as under a laser");
  l->add_flag("--json", options.json, "print report.json instead of text");
  l->callback([&] { chosen = [&] { return level(options); }; });
  auto* h = app.add_subcommand("heights", "every height over one point of the plan");
  h->add_option("JOB", options.job, "job file (TOML)")->required();
  h->add_option("X", options.at_x, "from the left stud face")->required();
  h->add_option("Y", options.at_y, "from the entry")->required();
  h->callback([&] { chosen = [&] { return heights(options); }; });
  auto* s = app.add_subcommand("starter", "write a commented job file to begin from");
  s->add_option("FILE", options.starter_file, "the file to write")->required();
  s->add_option("--unit", options.unit, "unit it is written in")
      ->check(CLI::IsMember({"in", "mm"}))
      ->capture_default_str();
  s->add_flag("--force", options.force, "replace a file that is there");
  s->callback([&] { chosen = [&] { return starter(options); }; });
  auto* r = app.add_subcommand("rules", "every check: what it measures on which solid, its limit and source");
  r->add_option("--unit", options.unit, "unit of the limits")
      ->check(CLI::IsMember({"in", "mm"}))
      ->capture_default_str();
  r->callback([&] {
    chosen = [&] {
      std::cout << report::rule_table(options.unit == "mm" ? job::UnitSystem::metric : job::UnitSystem::inch);
      return all_pass;
    };
  });
  auto* j = app.add_subcommand("schema", "JSON Schema of the job file");
  j->callback([&] {
    chosen = [] {
      std::cout << job::json_schema();
      return all_pass;
    };
  });
}

/// Every way a command can end, as a message and an exit code.
int guarded(const std::function<int()>& command) {
  try {
    return command();
  } catch (const diag::JobFaults& e) {
    std::cerr << e.what() << "\n";
    return bad_input;
  } catch (const std::exception& e) {
    std::cerr << "fallwright: " << e.what() << "\n";
    return machine_failed;
  }
}

}  // namespace

int run(int argc, const char* const* argv) {
  Options options;
  std::function<int()> chosen;
  CLI::App app{"Solids, numbers and drawings for a sloped shower base set in a mortar bed beside a framed bench."};
  declare(app, options, chosen);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    return app.exit(e) == 0 ? all_pass : bad_input;
  }
  const auto log = spdlog::stderr_color_st("fallwright");
  log->set_pattern("%v");
  log->set_level(options.verbose ? spdlog::level::debug : spdlog::level::info);
  spdlog::set_default_logger(log);
  const int code = guarded(chosen);
  spdlog::drop_all();
  return code;
}

}  // namespace fallwright::app
