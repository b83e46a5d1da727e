#include "app/build.hpp"

#include <charconv>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "app/address.hpp"
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
#include "page/page.hpp"
#include "parts/build.hpp"
#include "report/together.hpp"
#include "rules/check.hpp"
#include "rules/rule_book.hpp"
#include "study/advice.hpp"
#include "study/study.hpp"

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

job::Job load(const std::string& path, const std::string& prices) {
  const std::string text = diag::read_text(path);
  job::Job job = job::read(text, path, body_beside(path));
  job.sha256 = exchange::sha256(text);
  if (job::BookOverride& own = job.book_override; !own.file.empty()) {
    const auto beside = std::filesystem::path{path}.parent_path() / own.file;
    own.text = override_text(own, path, beside.string());
    own.file = beside.string();
    rules::read_book(job.book_override.text, job.book_override.file);  // its faults come before anything is built
  }
  read_prices(job, prices);
  const std::string body = job.base.body ? job.base.body->sha256 : "";
  if (const std::string named = job.book_override.text + job.buy.prices.text + body; !named.empty())
    job.sha256 = exchange::sha256(text + named);
  return job;
}

std::unique_ptr<Work> work_out(job::Job job, Progress& progress, Advice advice) {
  auto work = std::make_unique<Work>();
  const std::string name = job.name;
  progress.stage(name, "building the solids");
  work->model = parts::build(job);
  progress.stage(name, "measuring them");
  const rules::Limits limits = rules::limits_for(job);
  facts::Facts facts = study::with_studies(*work->model, measure::measure(*work->model), limits);
  const bool metric = job.unit == job::UnitSystem::metric;
  progress.stage(name, "planning the cuts");
  auto cuts = takeoff::cut_list(facts, metric);
  auto plan = takeoff::plan_cuts(cuts, job.cuts, metric);
  auto rows = takeoff::take_off(job, facts, plan);
  auto results = rules::check(job, facts, limits);
  if (advice == Advice::followed) {
    progress.stage(name, "following the advice");
    results = study::with_advice_followed(job, std::move(results));
  }
  auto judgement = rules::judgement_of(job, facts, limits, std::move(results));
  work->report = std::make_unique<report::Report>(report::Report{
      std::move(job), std::move(facts), std::move(judgement), std::move(rows), std::move(cuts), std::move(plan), {}});
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

namespace {

std::string bytes_of(const std::string& path) {
  std::ifstream in{path, std::ios::binary};
  std::string bytes{std::istreambuf_iterator<char>{in}, {}};
  if (!in) throw diag::MachineError{path, "cannot be read"};
  return bytes;
}

}  // namespace

const std::vector<std::string>& names_of_all() {
  static const std::vector<std::string> names{"model.stl",  "stl/",         "model.glb",   "model.step",
                                              "drawings/",  "drawings.pdf", "takeoff.csv", "cuts.csv",
                                              "checks.csv", "report.html",  "report.json"};
  return names;
}

void write_all(Work& work, Staging& staging, Progress& progress, const revision::Changes* changes) try {
  report::Report& report = *work.report;
  const std::string& name = report.job.name;
  progress.stage(name, "writing the model");
  exchange::write_stls(*work.model, [&](const std::string& file) { return staging.place(file); });
  exchange::write_glb(*work.model, staging.place("model.glb"));
  exchange::write_step(*work.model, staging.place("model.step"), timestamp());
  progress.stage(name, "drawing the sheets");
  const drawing::Findings findings{
      report.facts, report.cuts, report.plan, report.rows, report.judgement, day_of_issue(report.job), changes};
  const std::vector<drawing::Sheet> sheets = drawing::draw(*work.model, findings);
  for (const drawing::Sheet& sheet : sheets) {
    exchange::write_dxf(sheet, staging.place("drawings/" + sheet.name + ".dxf"));
    if (sheet.page.paper.width_mm > 0) exchange::write_svg(sheet, staging.place("drawings/" + sheet.name + ".svg"));
  }
  exchange::write_pdf(sheets, name, staging.place("drawings.pdf"), timestamp());
  staging.write("takeoff.csv", report::takeoff_csv(report));
  staging.write("cuts.csv", report::cuts_csv(report));
  staging.write("checks.csv", report::checks_csv(report));
  progress.stage(name, "making the page");
  const std::string glb = bytes_of(staging.place("model.glb"));
  const auto steps = drawing::steps_of(report.job, findings);
  staging.write(page_name,
                page::report_page({report, sheets, steps, measure::measure_lying(*work.model), glb, changes}));
  report.files = listed(staging);
  staging.write("report.json", report::to_json(report));
  staging.publish();
} catch (const diag::MachineError& e) {
  throw std::runtime_error{staging.in_place(e.what())};
}

const std::vector<std::string>& names_of_together() {
  static const std::vector<std::string> names{"summary.txt", "rooms.csv",    "takeoff.csv", "pieces.csv",
                                              "sticks.csv",  "tightest.csv", "index.html",  "summary.json"};
  return names;
}

void write_together(report::Together& all, const std::vector<const Work*>& rooms, Staging& staging) {
  staging.write("summary.txt", report::together_text(all));
  staging.write("rooms.csv", report::rooms_csv(all));
  staging.write("takeoff.csv", report::packs_csv(all));
  staging.write("pieces.csv", report::pieces_csv(all));
  staging.write("sticks.csv", report::sticks_csv(all));
  staging.write("tightest.csv", report::tightest_csv(all));
  std::vector<page::Listed> pages;
  for (const Work* room : rooms)
    pages.push_back(room ? page::Listed{room->report.get(),
                                        "../" + in_address(std::filesystem::path{room->folder}.filename().string()) +
                                            "/" + page_name}
                         : page::Listed{});
  staging.write("index.html", page::index_page(all, pages));
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
