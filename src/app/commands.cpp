#include "app/commands.hpp"

#include <algorithm>
#include <filesystem>
#include <iostream>

#include "app/app.hpp"
#include "app/base_file.hpp"
#include "app/each_job.hpp"
#include "app/older.hpp"
#include "app/order_shares.hpp"
#include "app/part.hpp"
#include "app/schema_file.hpp"
#include "app/staging.hpp"
#include "app/steps.hpp"
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
#include "report/changed_text.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "units/letters.hpp"

namespace fallwright::app {
namespace {

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

std::string verified_words(std::size_t solids, const std::vector<std::string>& refused) {
  if (refused.empty())
    return "\nThe kernel's own full check: " + std::to_string(solids) + " solids, each closed and valid.\n";
  std::string ids;
  for (const std::string& id : refused) ids += (ids.empty() ? "'" : ", '") + id + "'";
  return "\nThe kernel's own full check refuses " + ids +
         ": a fault of the program, not of the job; trust no number of these parts.\n";
}

int explain(const Options& options) {
  if (rules::rules_like(options.explain).empty()) {
    throw diag::JobFaults{{{"", 0, 0, "--explain", no_such_check(options.explain)}}};
  }
  return each_job(options, [&](const Work& work) { return report::explained(*work.report, options.explain); });
}

}  // namespace

int build(const Options& options) {
  timestamp();  // before any work: one that is no time is refused
  if (!options.part.empty()) part_of(options.part);
  const std::optional<revision::State> since = older(options);  // before any file: it may stand where this build writes
  const Outputs outputs = outputs_of(options.jobs, options.out, options.together);
  std::vector<job::Job> jobs = jobs_of(options);
  if (since) must_be_of_one_room(*since, options.from, jobs.front());
  const Words words = [&](const Work& work) {
    return report::summary(*work.report, work.folder) +
           (since ? report::changes_text(*since, report::state_of(*work.report)) : "");
  };
  if (by_shares(options)) return by_shares(options, "build", std::move(jobs), words, outputs);
  const auto held = hold(outputs, saying(options));
  must_not_replace(options.jobs, jobs, outputs);
  if (outputs.together) must_be_replaceable(outputs.together->folder, names_of_together());
  return each_job(options, std::move(jobs), words, outputs, Extent{}, since ? &*since : nullptr);
}

int check(const Options& options) {
  if (options.watch) {
    if (options.jobs.size() != 1 || options.jobs[0] == "-")
      throw diag::JobFaults{{{"", 0, 0, "--watch", "watches one job file; name one, and not '-'"}}};
    watch(options.jobs[0], options.prices);
    return all_pass;
  }
  if (!options.part.empty()) part_of(options.part);
  if (!options.explain.empty()) return explain(options);
  bool refused = false;
  const Words words = [&](const Work& work) {
    if (options.all_books)
      return report::books_table(*work.report, rules::check_under_all_books(work.report->job, work.report->facts));
    const std::string list = options.all ? report::check_table(*work.report) : report::check_list(*work.report);
    if (!options.verify) return list;
    refused = refused || !work.refused_by_kernel.empty();
    return list + verified_words(work.report->facts.parts.size(), work.refused_by_kernel);
  };
  if (by_shares(options)) return by_shares(options, "check", jobs_of(options), words);
  const int code = each_job(options, words, {.quantities = options.json || options.together});
  return refused && code == all_pass ? check_failed : code;
}

int takeoff(const Options& options) {
  return each_job_told(options, [](const Work& work) { return report::takeoff_table(*work.report); });
}

int steps(const Options& options) {
  return each_job_told(options, steps_text);
}

int survey(const Options& options) {
  return each_job(options, [&](const Work& work) { return report::room_table(*work.report, options.all); },
                  {options.json, options.json});
}

int flood(const Options& options) {
  return each_job_told(options, [](const Work& work) { return report::flood_table(*work.report); });
}

int heights(const Options& options) {
  const job::Job job = load(options.job);
  const survey::Point typed = point_of(options.at_x, options.at_y, job);
  Stages stages{options};
  const auto work = work_out(job, stages, {.advice = false, .quantities = false});
  const survey::StudFaces& faces = work->report->facts.room.faces;
  const auto [x, y] = faces.placed(typed);
  const std::vector<facts::Rung> chain = measure::measure_chain(*work->model, work->report->facts, x, y);
  std::cout << (options.json ? report::chain_json(work->report->job, chain, x, y)
                             : report::chain_table(work->report->job, faces, chain, x, y));
  return all_pass;
}

int level(const Options& options) {
  job::Job job = load(options.job);
  if (job.base.is_site_built())
    throw diag::JobFaults{{{job.file, 0, 0, "base.kind",
                            "the base is built on site: it is screeded to its marks (survey, sheet 'screed'), not set "
                            "and levelled in one piece"}}};
  if (options.down && options.readings.empty() && !job.as_set.down)
    throw diag::JobFaults{{{job.file, 0, 0, "as_set.heights",
                            "the readings are the file's own, and it has them above the line; --down goes with "
                            "readings that are given here"}}};
  if (!options.readings.empty())
    job.as_set = {options.down || job.as_set.down, rim_readings(options.readings, job.unit), job.as_set.line};
  if (!options.line.empty())
    job.as_set.line = units::Length::mm(job::typed_length("as_set.line", "--line", options.line, job.unit));
  if (job.as_set.readings.empty())
    throw diag::JobFaults{
        {{job.file, 0, 0, "as_set", "no readings: give them here, like back-left=1/8, or in the file"}}};
  std::vector<diag::Fault> faults;  // of what was typed no file is to blame
  for (const job::Contradiction& c : job::survey_contradictions(job))
    faults.push_back({options.readings.empty() ? job.file : "", 0, 0, c.key, c.message});
  if (!faults.empty()) throw diag::JobFaults{faults};
  Stages stages{options};
  const auto work = work_out(std::move(job), stages, {options.json, options.json});
  const report::Verdict verdict = report::as_set_verdict(*work->report);
  if (options.json)
    std::cout << report::to_json(*work->report);
  else if (!options.quiet)
    std::cout << work->report->job.name << "\n" << verdict.text;
  return verdict.passes ? all_pass : check_failed;
}

int starter(const Options& options) {
  const auto unit = options.unit == "mm" ? job::UnitSystem::metric : job::UnitSystem::inch;
  const auto kind = options.kind == "bought"       ? job::BaseKind::bought
                    : options.kind == "site-built" ? job::BaseKind::site_built
                                                   : job::BaseKind::designed;
  const SchemaPlace schema = schema_for(options.starter_file);
  write_new(options, options.starter_file,
            "#:schema " + schema.address + "\n" +
                (options.kind.empty()            ? job::starter(unit)
                 : options.kind == "bought-file" ? job::starter_with_file(unit)
                                                 : job::starter(unit, kind)));
  if (!schema.to_write.empty()) write_file(schema.to_write, job::json_schema(), true, saying(options));
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

int rules_of_book(const Options& options) {
  std::cout << report::rule_table(options.unit == "mm" ? job::UnitSystem::metric : job::UnitSystem::inch, options.book);
  return all_pass;
}

int schema(const Options& options) {
  std::cout << (options.schema_of == "report" ? report::json_schema() : job::json_schema());
  return all_pass;
}

}  // namespace fallwright::app
