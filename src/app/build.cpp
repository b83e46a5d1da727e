#include "app/build.hpp"

#include <charconv>
#include <cstdlib>
#include <ctime>
#include <filesystem>

#include "app/base_file.hpp"
#include "app/prices.hpp"
#include "app/staging.hpp"
#include "diag/fault.hpp"
#include "diag/text_file.hpp"
#include "drawing/draw.hpp"
#include "exchange/dxf.hpp"
#include "exchange/export.hpp"
#include "exchange/gltf.hpp"
#include "exchange/paper.hpp"
#include "exchange/sha256.hpp"
#include "exchange/step.hpp"
#include "job/read.hpp"
#include "measure/measure.hpp"
#include "measure/memory.hpp"
#include "page/page.hpp"
#include "parts/build.hpp"
#include "report/together.hpp"
#include "rules/check.hpp"
#include "rules/limits.hpp"
#include "study/advice.hpp"
#include "study/road.hpp"
#include "study/study.hpp"
#include "takeoff/hold.hpp"
#include "takeoff/packs.hpp"

namespace fallwright::app {

namespace {

/// What cannot be read is the job file's fault: it names it.
std::string override_text(const job::BookOverride& named, const std::string& job, const std::string& file) {
  const auto refuse = [&](const std::string& why) {
    throw diag::JobFaults{
        {{job, named.line, named.column, "rules.override",
          "found '" + named.file + "'; it must be a rule book file beside the job file, and " + why}}};
  };
  try {
    return diag::read_text(file);
  } catch (const diag::MachineError& e) {
    refuse(std::string{"'"} + file + "': " + e.reason());
  } catch (const diag::JobFaults& e) {
    refuse(e.what());
  }
  return "";
}

/// What a build wrote is taken for a job file now and then; no TOML begins like either.
void must_not_be_written_by_us(const std::string& text, const std::string& file) {
  const auto refuse = [&](const char* why) { throw diag::JobFaults{{{file, 0, 0, "", why}}}; };
  if (begins_with(text, '<'))
    refuse("is a page for a browser, not a job file; name the job file (TOML) that it was made from");
  if (begins_with(text, '{'))
    refuse("is JSON, not a job file; name the job file (TOML). A report.json goes to 'diff' and to 'build --from'");
}

/// "2026-03-14": the job's own day, else that of the time that somebody set; else empty, since no clock may reach a
/// file.
std::string day_of_issue(const job::Job& job) {
  if (!job.date.empty()) return job.date;
  if (!std::getenv("SOURCE_DATE_EPOCH")) return "";
  const std::time_t time = timestamp();
  std::tm utc{};
  gmtime_r(&time, &utc);
  char text[16];
  std::strftime(text, sizeof text, "%Y-%m-%d", &utc);
  return text;
}

}  // namespace

bool begins_with(const std::string& text, char letter) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  return first != std::string::npos && text[first] == letter;
}

job::Job load(const std::string& path, const std::string& prices) {
  return load_text(diag::read_text(path), path, prices);
}

job::Job load_text(const std::string& text, const std::string& path, const std::string& prices) {
  must_not_be_written_by_us(text, path);
  job::Job job = job::read(text, path, body_beside(path));
  job.sha256 = exchange::sha256(text);
  if (job::BookOverride& own = job.book_override; !own.file.empty()) {
    const auto beside = std::filesystem::path{path}.parent_path() / own.file;
    own.text = override_text(own, path, beside.string());
    own.file = beside.string();
    rules::limits_for(job);  // its own faults, and those beside the book's, come before anything is built
  }
  read_prices(job, prices);
  const std::string body = job.base.body ? job.base.body->sha256 : "";
  if (const std::string named = job.book_override.text + job.buy.prices.text + body; !named.empty())
    job.sha256 = exchange::sha256(text + named);
  return job;
}

std::unique_ptr<Work> work_out(job::Job job, Progress& progress, Extent extent) {
  auto work = std::make_unique<Work>();
  const std::string name = job.name;
  progress.stage(name, "building the solids");
  work->model = parts::build(job);
  progress.stage(name, "measuring them");
  const rules::Limits limits = rules::limits_for(job);
  measure::Memory memory;
  facts::Facts facts = study::with_studies(*work->model, measure::measure(*work->model, memory), limits);
  memory.close();
  auto results = rules::check(job, facts, limits);
  rules::Road road;
  if (extent.advice) {
    progress.stage(name, "following the advice");
    results = study::with_advice_followed(job, std::move(results), memory);
    road = study::road_of(job, results, memory);
  }
  auto judgement = rules::judgement_of(job, facts, limits, std::move(results));
  std::vector<takeoff::CutRow> cuts;
  std::vector<takeoff::StockPlan> plan;
  std::vector<takeoff::Row> rows;
  if (extent.quantities) {
    const bool metric = job.is_metric();
    progress.stage(name, "planning the cuts");
    cuts = takeoff::cut_list(facts, metric, takeoff::board_of(job), judgement.holds);
    plan = takeoff::plan_cuts(cuts, job.cuts, metric);
    rows = takeoff::take_off(job, facts, cuts, plan);
    takeoff::hold_back(rows, cuts, job, facts, judgement.holds);
    takeoff::share_packs(rows);
  }
  work->report = std::make_unique<report::Report>(report::Report{std::move(job),
                                                                 std::move(facts),
                                                                 std::move(judgement),
                                                                 std::move(rows),
                                                                 std::move(cuts),
                                                                 std::move(plan),
                                                                 {},
                                                                 std::move(road)});
  return work;
}

std::vector<report::File> listed(const Staging& staging) {
  std::vector<report::File> files;
  for (const std::string& file : staging.names()) {
    const std::string path = staging.place(file);
    files.push_back({file, std::filesystem::file_size(path), exchange::sha256_of_file(path)});
  }
  return files;
}

const std::vector<std::string>& names_of_all() {
  static const std::vector<std::string> names{"model.stl",  "stl/",         "model.glb",   "model.step",
                                              "drawings/",  "drawings.pdf", "takeoff.csv", "cuts.csv",
                                              "checks.csv", "report.html",  "report.json"};
  return names;
}

const std::vector<std::string>& kinds_of_files() {
  static const std::vector<std::string> kinds{"step", "stl", "glb", "dxf", "svg", "pdf", "csv", "page"};
  return kinds;
}

namespace {

/// The files of one job, kind by kind; what nobody asked for is not made.
class Writing {
 public:
  Writing(Work& work, Staging& staging, const Only& only) : work_{work}, staging_{staging}, only_{only} {}

  bool wants(const char* kind) const { return only_.empty() || only_.contains(kind); }

  bool wants_sheets() const { return wants("dxf") || wants("svg") || wants("pdf") || wants("page"); }

  void model() const {
    const parts::Model& model = *work_.model;
    if (wants("stl")) exchange::write_stls(model, [&](const std::string& file) { return staging_.place(file); });
    if (wants("glb")) exchange::write_glb(model, staging_.place("model.glb"));
    if (wants("step")) exchange::write_step(model, staging_.place("model.step"), timestamp());
  }

  void sheets(const std::vector<drawing::Sheet>& sheets) const {
    for (const drawing::Sheet& sheet : sheets) {
      const std::string stem = "drawings/" + sheet.name;
      if (wants("dxf")) exchange::write_dxf(sheet, staging_.place(stem + ".dxf"));
      if (wants("svg") && sheet.page.paper.width_mm > 0) exchange::write_svg(sheet, staging_.place(stem + ".svg"));
    }
    if (wants("pdf")) exchange::write_pdf(sheets, work_.report->job.name, staging_.place("drawings.pdf"), timestamp());
  }

  void tables() const {
    if (!wants("csv")) return;
    staging_.write("takeoff.csv", report::takeoff_csv(*work_.report));
    staging_.write("cuts.csv", report::cuts_csv(*work_.report));
    staging_.write("checks.csv", report::checks_csv(*work_.report));
  }

  void page(const std::vector<drawing::Sheet>& sheets, const drawing::Findings& findings) const {
    const std::string file = staging_.place("model.glb");
    if (!wants("glb")) exchange::write_glb(*work_.model, file);
    const std::string glb = diag::read_bytes(file);
    if (!wants("glb")) std::filesystem::remove(file);  // the page holds it
    const auto steps = drawing::steps_of(work_.report->job, findings);
    staging_.write(page_name, page::report_page({*work_.report, sheets, steps, measure::measure_lying(*work_.model),
                                                 glb, findings.changes}));
  }

 private:
  Work& work_;
  Staging& staging_;
  const Only& only_;
};

}  // namespace

void write_all(Work& work, Staging& staging, Progress& progress, const revision::Changes* changes,
               const Only& only) try {
  report::Report& report = *work.report;
  const std::string& name = report.job.name;
  const Writing write{work, staging, only};
  progress.stage(name, "writing the model");
  write.model();
  if (write.wants_sheets()) {
    progress.stage(name, "drawing the sheets");
    const drawing::Findings findings{
        report.facts, report.cuts, report.plan, report.rows, report.judgement, day_of_issue(report.job), changes};
    const std::vector<drawing::Sheet> sheets = drawing::draw(*work.model, findings);
    write.sheets(sheets);
    if (write.wants("page")) {
      progress.stage(name, "making the page");
      write.page(sheets, findings);
    }
  }
  write.tables();
  report.files = listed(staging);
  staging.write("report.json", report::to_json(report));
  staging.publish();
} catch (const diag::MachineError& e) {
  throw diag::MachineError{staging.in_place(e.path()), staging.in_place(e.reason())};
}

const std::vector<std::string>& names_of_together() {
  static const std::vector<std::string> names{"summary.txt", "rooms.csv",    "takeoff.csv", "pieces.csv",
                                              "sticks.csv",  "tightest.csv", "index.html",  "summary.json"};
  return names;
}

void write_together(report::Together& all, const std::vector<std::string>& links, Staging& staging) {
  staging.write("summary.txt", report::together_text(all));
  staging.write("rooms.csv", report::rooms_csv(all));
  staging.write("takeoff.csv", report::packs_csv(all));
  staging.write("pieces.csv", report::pieces_csv(all));
  staging.write("sticks.csv", report::sticks_csv(all));
  staging.write("tightest.csv", report::tightest_csv(all));
  staging.write("index.html", page::index_page(all, links));
  all.files = listed(staging);
  staging.write("summary.json", report::to_json(all));
  staging.publish();
}

long timestamp() {
  constexpr long end_of_year_9999 = 253402300799;
  const char* epoch = std::getenv("SOURCE_DATE_EPOCH");
  if (!epoch) return 0;
  const std::string text{epoch};
  long seconds = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seconds);
  if (error == std::errc{} && end == text.data() + text.size() && seconds >= 0 && seconds <= end_of_year_9999)
    return seconds;
  throw diag::JobFaults{{{"", 0, 0, "SOURCE_DATE_EPOCH",
                          "found '" + text + "'; it must be whole seconds since 1970, 0 to " +
                              std::to_string(end_of_year_9999) + " (the end of the year 9999), or not be set"}}};
}

}  // namespace fallwright::app
