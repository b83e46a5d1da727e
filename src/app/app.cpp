#include "app/app.hpp"

#include <algorithm>
#include <filesystem>
#include <functional>
#include <iostream>

#include <spdlog/sinks/ostream_sink.h>
#include <spdlog/spdlog.h>
#include <unistd.h>
#include <CLI/CLI.hpp>

#include "app/base_file.hpp"
#include "app/failure.hpp"
#include "app/outputs.hpp"
#include "app/prices.hpp"
#include "app/side_by_side.hpp"
#include "app/staging.hpp"
#include "app/steps.hpp"
#include "app/stop.hpp"
#include "app/streams.hpp"
#include "app/study.hpp"
#include "app/terminal.hpp"
#include "app/typed.hpp"
#include "app/watch.hpp"
#include "diag/fault.hpp"
#include "diag/nearest.hpp"
#include "diag/text_file.hpp"
#include "job/describe.hpp"
#include "job/read.hpp"
#include "job/validate.hpp"
#include "measure/measure.hpp"
#include "page/page.hpp"
#include "report/together.hpp"
#include "report/verdict.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/rule_book.hpp"
#include "units/letters.hpp"

namespace fallwright::app {
namespace {

struct Options {
  std::vector<std::string> jobs;
  std::string out = "out";
  std::string job, starter_file;
  std::vector<std::string> form_files;
  std::string at_x, at_y;
  std::vector<std::string> readings;
  std::string line;
  std::string explain, book = "residential", prices;
  bool down = false, all_books = false, together = false, all = false, watch = false;
  std::string unit = "in", kind;
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

using Words = std::function<std::string(const Work&)>;

/// A line on standard error, of what is no error: a wait, or a file that has lost its place.
Say saying(const Options& options) {
  return [quiet = options.quiet](const std::string& line) {
    if (!quiet) std::cerr << "fallwright: " + line + "\n";
  };
}

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

/// Where a build ends: one verdict a room, and the page to open.
void tell_pages(const Options& options, const std::vector<Outcome>& outcomes, const std::optional<Output>& together) {
  if (options.quiet || options.json) return;
  std::string text;
  for (const Outcome& outcome : outcomes) {
    if (!outcome.work) continue;
    const report::Report& report = *outcome.work->report;
    text += units::printable(report.job.name) + ": " + report::verdict_words(report) + "\n  " +
            units::printable(outcome.work->folder) + "/" + page_name + "\n";
  }
  if (together && outcomes.size() > 1) text += "All rooms:\n  " + units::printable(together->shown) + "/index.html\n";
  std::cout << (text.empty() ? "" : "\n") << text;
}

/// The job files that were named, with their prices or those of the command line.
std::vector<job::Job> jobs_of(const Options& options) {
  std::vector<job::Job> jobs = load_all(options.jobs, options.prices);
  if (options.together) must_agree_on_prices(jobs);
  return jobs;
}

/// Works out every job, writes its files where there are outputs, and prints what there is to say of it, or its report,
/// in the order given. One job's failure, of a check or of the machine, never hides another's result.
int each_job(const Options& options, std::vector<job::Job> jobs, const Words& words, const Outputs& outputs = {},
             Advice advice = Advice::followed) {
  Stages stages{options};
  bool failed = false, broke = false;
  const auto tell = [&](const Outcome& outcome) {
    if (!outcome.work) {
      std::cerr << "fallwright: " + outcome.name + ": " + outcome.failure + "\n";
      broke = true;
      return;
    }
    const report::Report& report = *outcome.work->report;
    failed = failed || rules::any_failed(report.judgement.results);
    if (options.json)
      std::cout << report::to_json(report);
    else if (!options.quiet)
      std::cout << words(*outcome.work) << std::endl;  // a room told is a room seen, even through a pipe
  };
  const auto begin = [&](std::size_t room) -> Finish {
    if (outputs.rooms.empty()) return {};
    const Output& output = outputs.rooms[room];
    const auto staging = std::make_shared<Staging>(output.folder, names_of_all(), saying(options));
    return [&, staging](Work& work) {
      write_all(work, *staging, stages);
      work.folder = output.shown;
    };
  };
  const std::vector<Outcome> outcomes = side_by_side(std::move(jobs), stages, begin, tell, advice);
  if (options.together) tell_together(options, outcomes, outputs.together);
  if (!outputs.rooms.empty()) tell_pages(options, outcomes, outputs.together);
  return broke ? machine_failed : failed ? check_failed : all_pass;
}

int each_job(const Options& options, const Words& words, Advice advice = Advice::followed) {
  return each_job(options, jobs_of(options), words, {}, advice);
}

/// A report in full holds all advice; the text of some commands holds none.
Advice only_in_json(const Options& options) {
  return options.json ? Advice::followed : Advice::untold;
}

/// For commands that only tell: a check that fails is no failure of theirs.
int each_job_told(const Options& options, const Words& words) {
  const int code = each_job(options, words, only_in_json(options));
  return code == machine_failed ? code : all_pass;
}

int build(const Options& options) {
  timestamp();  // before any work: one that is no time is refused
  const Outputs outputs = outputs_of(options.jobs, options.out, options.together);
  std::vector<job::Job> jobs = jobs_of(options);
  const auto held = hold(outputs, saying(options));
  must_not_replace(options.jobs, jobs, outputs);
  if (outputs.together) must_be_replaceable(outputs.together->folder, names_of_together());
  return each_job(
      options, std::move(jobs), [](const Work& work) { return report::summary(*work.report, work.folder); }, outputs);
}

/// What may have been meant: the nearest ids by letters; where none is near, the first parts of all ids.
std::string no_such_check(const std::string& asked) {
  std::vector<std::string> ids, parts;
  for (const rules::Rule& rule : rules::all_rules()) {
    ids.push_back(rule.id);
    const std::string part = rule.id.substr(0, rule.id.find('.'));
    if (std::find(parts.begin(), parts.end(), part) == parts.end()) parts.push_back(part);
  }
  std::string listed;
  for (const std::string& id : diag::near(asked, ids, 3)) listed += (listed.empty() ? "'" : ", '") + id + "'";
  if (!listed.empty()) return "no check is called so or has that in its name; the nearest are " + listed;
  for (const std::string& part : parts) listed += (listed.empty() ? "" : ", ") + part;
  return "no check is called so or has that in its name; their names begin with: " + listed;
}

int explain(const Options& options) {
  if (rules::rules_like(options.explain).empty()) {
    throw diag::JobFaults{{{"", 0, 0, "--explain", no_such_check(options.explain)}}};
  }
  return each_job(options, [&](const Work& work) { return report::explained(*work.report, options.explain); });
}

int check(const Options& options) {
  if (options.watch) {
    if (options.jobs.size() != 1 || options.jobs[0] == "-")
      throw diag::JobFaults{{{"", 0, 0, "--watch", "watches one job file; name one, and not '-'"}}};
    watch(options.jobs[0], options.prices);
    return all_pass;
  }
  if (!options.explain.empty()) return explain(options);
  return each_job(options, [&](const Work& work) {
    if (options.all_books)
      return report::books_table(*work.report, rules::check_under_all_books(work.report->job, work.report->facts));
    return options.all ? report::check_table(*work.report) : report::check_list(*work.report);
  });
}

int takeoff(const Options& options) {
  return each_job_told(options, [](const Work& work) { return report::takeoff_table(*work.report); });
}

int steps(const Options& options) {
  return each_job_told(options, steps_text);
}

int survey(const Options& options) {
  return each_job(
      options, [&](const Work& work) { return report::room_table(*work.report, options.all); }, only_in_json(options));
}

int flood(const Options& options) {
  return each_job_told(options, [](const Work& work) { return report::flood_table(*work.report); });
}

int heights(const Options& options) {
  const job::Job job = load(options.job);
  const auto [x, y] = point_of(options.at_x, options.at_y, job);
  Stages stages{options};
  const auto work = work_out(job, stages, Advice::untold);
  const std::vector<facts::Rung> chain = measure::measure_chain(*work->model, work->report->facts, x, y);
  std::cout << (options.json ? report::chain_json(work->report->job, chain, x, y)
                             : report::chain_table(work->report->job, chain, x, y));
  return all_pass;
}

int level(const Options& options) {
  job::Job job = load(options.job);
  if (job.base.is_site_built())
    throw diag::JobFaults{{{job.file, 0, 0, "base.kind",
                            "the base is built on site: it is screeded to its marks (survey, sheet 'screed'), not set "
                            "and levelled in one piece"}}};
  if (!options.readings.empty()) job.as_set = {options.down, rim_readings(options.readings, job.unit), job.as_set.line};
  if (!options.line.empty())
    job.as_set.line = units::Length::mm(job::typed_length("as_set.line", "--line", options.line, job.unit));
  if (job.as_set.readings.empty())
    throw diag::JobFaults{
        {{job.file, 0, 0, "as_set", "no readings: give them here, like back-left=1/8, or in the file"}}};
  for (const job::Contradiction& c : job::survey_contradictions(job))
    throw diag::JobFaults{{{job.file, 0, 0, c.key, c.message}}};
  Stages stages{options};
  const auto work = work_out(std::move(job), stages, only_in_json(options));
  const report::Verdict verdict = report::as_set_verdict(*work->report);
  if (options.json)
    std::cout << report::to_json(*work->report);
  else if (!options.quiet)
    std::cout << work->report->job.name << "\n" << verdict.text;
  return verdict.passes ? all_pass : check_failed;
}

/// Writes a file of a name of its own; one that is there already only where that is asked for.
void write_new(const Options& options, const std::string& file, const std::string& text) {
  if (std::filesystem::exists(file) && !options.force)
    throw diag::JobFaults{{{file, 0, 0, "", "is there already; give another name, or --force to replace it"}}};
  write_file(file, text, options.force, saying(options));
}

int starter(const Options& options) {
  const auto unit = options.unit == "mm" ? job::UnitSystem::metric : job::UnitSystem::inch;
  const auto kind = options.kind == "bought"       ? job::BaseKind::bought
                    : options.kind == "site-built" ? job::BaseKind::site_built
                                                   : job::BaseKind::designed;
  write_new(options, options.starter_file,
            options.kind.empty()            ? job::starter(unit)
            : options.kind == "bought-file" ? job::starter_with_file(unit)
                                            : job::starter(unit, kind));
  if (!options.quiet)
    std::cout << options.starter_file << ": a job file with "
              << (options.kind.empty() ? "every key" : "the keys that matter for this kind of base")
              << "; change it and run 'fallwright build' on it\n";
  return all_pass;
}

/// A page to fill in, empty or with a job file in it; a file that is none is refused as ever.
int form(const Options& options) {
  const std::string& page = options.form_files.back();
  std::string text, name = "job.toml";
  if (options.form_files.size() > 1) {
    const std::string& job = options.form_files.front();
    text = diag::read_text(job);
    job::read(text, job, body_beside(job));
    if (job != "-") name = std::filesystem::path{job}.filename().string();
  }
  write_new(options, page, page::form_page(text, name));
  if (!options.quiet)
    std::cout << units::printable(page)
              << ": a form to fill in, in a browser; it saves a job file for 'fallwright build'\n";
  return all_pass;
}

/// The command `study`, apart from those of jobs: it has options of its own.
void declare_study(CLI::App& app, StudyOptions& study, const Options& options, std::function<int()>& chosen) {
  auto* s = app.add_subcommand("study", "many variants of a job: what passes, what gives way first, the best, a map");
  s->add_option("STUDY", study.file, "study file (TOML)")->required();
  s->add_option("-o,--out", study.out, "folder that gets a folder for the study")->capture_default_str();
  s->add_option("--threads", study.threads, "how many variants are worked on at once; 0: as many as there are cores")
      ->check(CLI::Range(0, 1024))
      ->capture_default_str();
  auto* part = s->add_option("--part", study.part, "compute one share alone: 3/8 is the third of eight");
  s->add_flag("--merge", study.merge, "join shares that were computed, and write what one run would")->excludes(part);
  s->add_flag("-q,--quiet", study.quiet, "print errors only");
  s->add_flag("--json", study.json, "print study.json instead of text");
  s->callback([&] { chosen = [&] { return run_study(study, saying(options)); }; });
}

void add_jobs(CLI::App& command, Options& options) {
  command.add_option("JOB", options.jobs, "job files (TOML)")->required();
  command.add_flag("-q,--quiet", options.quiet, "print errors only");
  command.add_flag("--json", options.json, "print report.json instead of text");
  command.add_flag("--together", options.together,
                   "then all rooms as one order: what to buy, saw list, kits, where it is tightest");
  command.add_option("--prices", options.prices, "your own prices (CSV: item, pack, price, supplier), for all jobs")
      ->check([](const std::string& file) { return file.empty() ? "name a file" : ""; });
}

/// Declares the commands; `chosen` becomes the one that was given.
void declare(CLI::App& app, Options& options, StudyOptions& study, std::function<int()>& chosen) {
  app.require_subcommand(1);
  app.set_version_flag("--version", "fallwright " + report::version());
  app.add_flag("-v,--verbose", options.verbose, "log what is being done");
  app.footer(
      "Exit codes: 0 all checks pass, 1 a check fails (build writes all files), 2 the job file or the command line is\n"
      "wrong (nothing is written), 3 the machine failed us, 128 + signal when stopped by one.");
  auto* b = app.add_subcommand("build", "build the solids, measure, check, write all files");
  add_jobs(*b, options);
  b->add_option("-o,--out", options.out, "folder that gets one folder for each job")->capture_default_str();
  b->callback([&] { chosen = [&] { return build(options); }; });
  auto* c = app.add_subcommand("check", "what fails and its remedy, what to read next; writes nothing");
  add_jobs(*c, options);
  auto* one =
      c->add_option("--explain", options.explain, "one check, by id, title or a part of it, with all that led to it");
  one->check([](const std::string& asked) { return asked.empty() ? "name a check" : ""; })
      ->excludes(c->get_option("--json"));
  c->add_flag("--all", options.all, "every check, with limit, source and place")->excludes(one);
  auto* books = c->add_flag("--all-books", options.all_books, "margins under every rule book")->excludes(one);
  c->add_flag("--watch", options.watch, "go on: at each save of the one job file tell what changed in the verdict")
      ->excludes(one, books, c->get_option("--all"), c->get_option("--json"), c->get_option("--together"),
                 c->get_option("--quiet"));
  c->callback([&] { chosen = [&] { return check(options); }; });
  auto* t = app.add_subcommand("takeoff", "quantities and cut list; writes nothing");
  add_jobs(*t, options);
  t->callback([&] { chosen = [&] { return takeoff(options); }; });
  auto* o = app.add_subcommand("steps", "the order of work, step by step with its numbers; writes nothing");
  add_jobs(*o, options);
  o->callback([&] { chosen = [&] { return steps(options); }; });
  auto* v = app.add_subcommand("survey", "the room as measured: closure, floor, furring, fit, drain, levels, set-out");
  add_jobs(*v, options);
  v->add_flag("--all", options.all, "every free width, stud and touch as well");
  v->callback([&] { chosen = [&] { return survey(options); }; });
  auto* f = app.add_subcommand("flood", "the flood test: water by height, its weight, and what carries it");
  add_jobs(*f, options);
  f->callback([&] { chosen = [&] { return flood(options); }; });
  auto* l = app.add_subcommand("level", "the base as it lies in the wet bed, judged whole, and what to do next");
  l->add_option("JOB", options.job, "job file (TOML)")->required();
  l->add_option("READING", options.readings,
                "heights like back-left=1/8 upstand-back-right=3-1/2 threshold-left=2-1/4; left out, those of the job "
                "file");
  l->add_option("--line", options.line, "height of the level line above the datum: how high the base lies is told too");
  l->add_flag("--down", options.down, "readings are distances below a level line, as under a laser");
  l->add_flag("--json", options.json, "print report.json instead of text");
  l->add_flag("-q,--quiet", options.quiet, "print errors only: the exit code tells");
  l->callback([&] { chosen = [&] { return level(options); }; });
  auto* h = app.add_subcommand("heights", "every height over one point of the plan");
  h->add_option("JOB", options.job, "job file (TOML)")->required();
  h->add_option("X", options.at_x, "from the left stud face")->required();
  h->add_option("Y", options.at_y, "from the entry")->required();
  h->add_flag("--json", options.json, "print JSON instead of text");
  h->callback([&] { chosen = [&] { return heights(options); }; });
  auto* m =
      app.add_subcommand("form", "a page to fill in on site, for a new job or with one in it; it saves a job file");
  m->add_option("FILES", options.form_files, "[JOB.toml] FILE.html: a job to begin with, and the page to write")
      ->required()
      ->expected(1, 2);
  m->add_flag("--force", options.force, "replace a page that is there already");
  m->add_flag("-q,--quiet", options.quiet, "print errors only");
  m->callback([&] { chosen = [&] { return form(options); }; });
  auto* s = app.add_subcommand("starter", "write a commented job file to begin from");
  s->add_option("FILE", options.starter_file, "the file to write")->required();
  s->add_option("--unit", options.unit, "unit it is written in")
      ->check(CLI::IsMember({"in", "mm"}))
      ->capture_default_str();
  s->add_option("--kind", options.kind, "a short one, for one kind of base")
      ->check(CLI::IsMember({"designed", "bought", "bought-file", "site-built"}));
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
  declare_study(app, study, options, chosen);
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
  } catch (...) {
    std::cerr << "fallwright: " + failure_in_words() + "\n";
    return machine_failed;
  }
}

/// Whether the first word may be one; a mistyped command is told the nearest.
bool is_command(const CLI::App& app, const std::string& word) {
  std::vector<std::string> known;
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
    known.push_back(command->get_name());
  if (word.rfind('-', 0) == 0 || std::count(known.begin(), known.end(), word) > 0) return true;
  std::cerr << "fallwright: there is no command '" << units::first_letters(word, 60) << "'; did you mean '"
            << diag::nearest(word, known) << "'?\n";
  return false;
}

}  // namespace

int run(int argc, const char* const* argv) {
  guard_streams();
  const Printable out{std::cout}, errors{std::cerr};
  Options options;
  std::function<int()> chosen;
  CLI::App app{"Solids, numbers and drawings for a sloped shower base set in a mortar bed beside a framed bench."};
  StudyOptions study;
  declare(app, options, study, chosen);
  if (argc > 1 && !is_command(app, argv[1])) return bad_input;
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    if (app.exit(e) != 0) return bad_input;
    return all_is_out() ? all_pass : machine_failed;
  }
  const stop::Watch watch;
  const auto log =
      std::make_shared<spdlog::logger>("fallwright", std::make_shared<spdlog::sinks::ostream_sink_mt>(std::cerr));
  log->set_pattern("%v");
  log->set_level(options.verbose ? spdlog::level::debug : spdlog::level::info);
  spdlog::set_default_logger(log);
  const int code = guarded(chosen);
  spdlog::drop_all();
  return all_is_out() ? code : machine_failed;
}

}  // namespace fallwright::app
