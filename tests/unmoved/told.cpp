#include "unmoved/told.hpp"

#include <filesystem>
#include <memory>

#include <unistd.h>
#include <nlohmann/json.hpp>

#include "app/build.hpp"
#include "app/steps.hpp"
#include "diag/text_file.hpp"
#include "drawing/draw.hpp"
#include "exchange/dxf.hpp"
#include "exchange/gltf.hpp"
#include "exchange/paper.hpp"
#include "exchange/step.hpp"
#include "job/describe.hpp"
#include "measure/measure.hpp"
#include "report/report.hpp"
#include "report/verdict.hpp"
#include "rules/check.hpp"
#include "rules/rule_book.hpp"
#include "unmoved/plain.hpp"

namespace fallwright::unmoved {
namespace {

struct Silent : app::Progress {
  void stage(const std::string&, const std::string&) override {}
};

void add_report(const report::Report& report, Told& told) {
  auto json = nlohmann::json::parse(report::to_json(report));
  json.erase("tool"), json.erase("files");
  json["job"].erase("sha256"), json["job"].erase("file");
  for (const auto& [key, value] : json.items()) {
    if (key != "room") {
      told["report " + key] = value.dump(1);
      continue;
    }
    for (const auto& [part, of_room] : value.items()) told["report room." + part] = of_room.dump(1);
  }
}

void add_texts(const app::Work& work, Told& told) {
  const report::Report& report = *work.report;
  told["text check"] = report::check_list(report);
  told["text check --all"] = report::check_table(report);
  told["text survey"] = report::room_table(report, false);
  told["text survey --all"] = report::room_table(report, true);
  told["text takeoff"] = report::takeoff_table(report);
  told["text flood"] = report::flood_table(report);
  told["text steps"] = app::steps_text(work);
  told["text verdict"] = report::verdict_words(report) + report::summary(report, "out");
  std::string explained;
  for (const rules::Result& r : report.judgement.results) explained += report::explained(report, r.id);
  told["text explain"] = explained;
  told["csv"] = report::takeoff_csv(report) + report::cuts_csv(report) + report::checks_csv(report);
  if (!report.job.as_set.readings.empty()) told["text level"] = report::as_set_verdict(report).text;
}

/// A folder of this process alone, gone with it.
class Scratch {
 public:
  Scratch() { std::filesystem::create_directories(folder_); }
  ~Scratch() { std::filesystem::remove_all(folder_); }
  /// What a writer puts into a file.
  template <class Write>
  std::string written(const char* file, const Write& write) const {
    const std::string path = (folder_ / file).string();
    write(path);
    return diag::read_text(path, std::size_t{64} << 20);
  }

 private:
  std::filesystem::path folder_ =
      std::filesystem::temp_directory_path() / ("fallwright-unmoved-" + std::to_string(getpid()));
};

void add_sheets(const app::Work& work, Told& told) {
  const report::Report& report = *work.report;
  const drawing::Findings findings{report.facts, report.cuts, report.plan, report.rows, report.judgement};
  const Scratch scratch;
  for (const drawing::Sheet& sheet : drawing::draw(*work.model, findings)) {
    const std::string name = "sheet " + sheet.name;
    told[name + " dxf"] =
        scratch.written("sheet.dxf", [&](const std::string& file) { exchange::write_dxf(sheet, file); });
    if (sheet.page.paper.width_mm > 0)
      told[name + " svg"] =
          scratch.written("sheet.svg", [&](const std::string& file) { exchange::write_svg(sheet, file); });
  }
  const std::string glb =
      scratch.written("model.glb", [&](const std::string& file) { exchange::write_glb(*work.model, file); });
  told["model glb"] = glb.substr(20, glb.find("BIN", 20) - 20);  // all but the corners
  told["model step"] = scratch.written(
      "model.step", [&](const std::string& file) { exchange::write_step(*work.model, file, app::timestamp()); });
}

Told all_plain(Told told) {
  for (auto& [section, text] : told) text = plain(text);
  return told;
}

}  // namespace

Told told_of(const job::Job& job, bool sheets) {
  Silent silent;
  const auto extent = sheets ? app::Extent{} : app::Extent{false, true};  // each remedy is a room of its own
  const auto work = app::work_out(job, silent, extent);
  Told told;
  add_report(*work->report, told);
  add_texts(*work, told);
  if (sheets) {
    told["text check --all-books"] =
        report::books_table(*work->report, rules::check_under_all_books(work->report->job, work->report->facts));
    add_sheets(*work, told);
  }
  return all_plain(std::move(told));
}

Told told_of_itself() {
  Told told;
  for (const auto unit : {job::UnitSystem::inch, job::UnitSystem::metric}) {
    const std::string name = unit == job::UnitSystem::metric ? " mm" : " in";
    told["starter" + name] = job::starter(unit);
    told["starter designed" + name] = job::starter(unit, job::BaseKind::designed);
    told["starter bought" + name] = job::starter(unit, job::BaseKind::bought);
    told["starter site-built" + name] = job::starter(unit, job::BaseKind::site_built);
    told["starter bought-file" + name] = job::starter_with_file(unit);
    for (const std::string& book : rules::book_names()) told["book " + book + name] = report::rule_table(unit, book);
  }
  told["schema job"] = job::json_schema();
  told["key table"] = job::key_table();
  told["manual of jobs"] = job::manual_page("0");
  return all_plain(std::move(told));
}

}  // namespace fallwright::unmoved
