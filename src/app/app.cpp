#include "app/app.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <filesystem>
#include <functional>
#include <iostream>
#include <set>
#include <thread>

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
#include "rules/rule_book.hpp"

namespace fallwright::app {
namespace {

struct Options {
  std::vector<std::string> jobs;
  std::string out = "out";
  std::string job, starter_file;
  std::string at_x, at_y;
  std::vector<std::string> readings;
  std::string explain, book = "residential";
  bool down = false, all_books = false, together = false;
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

/// What became of one job: its work, or why there is none.
struct Outcome {
  std::unique_ptr<Work> work;
  std::exception_ptr failure;
};

/// Jobs side by side on all cores; each keeps its place.
std::vector<Outcome> work_out_all(std::vector<job::Job> jobs, Progress& progress) {
  std::vector<Outcome> outcomes(jobs.size());
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t i = next++; i < jobs.size(); i = next++) try {
        outcomes[i].work = work_out(std::move(jobs[i]), progress);
      } catch (...) {
        outcomes[i].failure = std::current_exception();
      }
  };
  std::vector<std::thread> threads;
  const std::size_t cores = std::max(1u, std::thread::hardware_concurrency());
  for (std::size_t i = 1; i < std::min(cores, jobs.size()); ++i) threads.emplace_back(work);
  work();
  for (std::thread& thread : threads) thread.join();
  return outcomes;
}

/// Works out every job and hands each on in the order given; one job's failure, of a check or of the kernel, never
/// hides another's result.
int each_job(const Options& options, const std::function<void(Work&, Progress&)>& use) {
  Stages stages{options};
  bool failed = false, broke = false;
  std::vector<Outcome> outcomes = work_out_all(load_all(options.jobs), stages);
  std::vector<const report::Report*> reports;
  for (Outcome& outcome : outcomes) try {
      if (outcome.failure) std::rethrow_exception(outcome.failure);
      use(*outcome.work, stages);
      reports.push_back(outcome.work->report.get());
      failed = failed || rules::any_failed(outcome.work->report->results);
    } catch (const diag::JobFaults&) {
      throw;
    } catch (const std::exception& e) {
      std::cerr << "fallwright: " << e.what() << "\n";
      broke = true;
    }
  if (options.together && !options.json && !options.quiet) std::cout << report::together(reports);
  return broke ? machine_failed : failed ? check_failed : all_pass;
}

void say(const Options& options, const Work& work, const std::string& text) {
  if (options.json)
    std::cout << report::to_json(*work.report);
  else if (!options.quiet)
    std::cout << text << "\n";
}

int explain(const Options& options) {
  return each_job(options, [&](Work& work, Progress&) {
    const std::string text = report::explained(*work.report, options.explain);
    if (text.empty())
      throw diag::JobFaults{
          {{"", 0, 0, "--explain", "there is no check '" + options.explain + "'; see 'fallwright rules'"}}};
    say(options, work, text);
  });
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
  if (!options.explain.empty()) return explain(options);
  if (options.all_books)
    return each_job(options, [&](Work& work, Progress&) { say(options, work, report::books_table(*work.report)); });
  return each_job(options, [&](Work& work, Progress&) { say(options, work, report::check_table(*work.report)); });
}

int takeoff(const Options& options) {
  const int code =
      each_job(options, [&](Work& work, Progress&) { say(options, work, report::takeoff_table(*work.report)); });
  return code == machine_failed ? code : all_pass;
}

int survey(const Options& options) {
  return each_job(options, [&](Work& work, Progress&) { say(options, work, report::room_table(*work.report)); });
}

int flood(const Options& options) {
  const int code =
      each_job(options, [&](Work& work, Progress&) { say(options, work, report::flood_table(*work.report)); });
  return code == machine_failed ? code : all_pass;
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
  command.add_flag("--together", options.together, "then all rooms as one order: saw list, mortar, worst margins");
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
  c->add_option("--explain", options.explain, "one check, with all that led to its result");
  c->add_flag("--all-books", options.all_books, "margins under every rule book");
  c->callback([&] { chosen = [&] { return check(options); }; });
  auto* t = app.add_subcommand("takeoff", "quantities and cut list; writes nothing");
  add_jobs(*t, options);
  t->callback([&] { chosen = [&] { return takeoff(options); }; });
  auto* v = app.add_subcommand("survey", "the room as measured: closure, floor, furring, fit, drain, levels, set-out");
  add_jobs(*v, options);
  v->callback([&] { chosen = [&] { return survey(options); }; });
  auto* f = app.add_subcommand("flood", "the flood test: water by height, its weight, and what carries it");
  add_jobs(*f, options);
  f->callback([&] { chosen = [&] { return flood(options); }; });
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
  r->add_option("--book", options.book, "whose limits")
      ->check(CLI::IsMember(rules::book_names()))
      ->capture_default_str();
  r->callback([&] {
    chosen = [&] {
      std::cout << report::rule_table(options.unit == "mm" ? job::UnitSystem::metric : job::UnitSystem::inch,
                                      options.book);
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
