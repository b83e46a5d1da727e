#include <filesystem>
#include <fstream>

#include <unistd.h>
#include <nlohmann/json.hpp>

#include "app/build.hpp"
#include "app/study_run.hpp"
#include "diag/text_file.hpp"
#include "drawing/draw.hpp"
#include "drawing/study.hpp"
#include "exchange/paper.hpp"
#include "job/read.hpp"
#include "report/changed_text.hpp"
#include "report/study.hpp"
#include "report/together.hpp"
#include "revision/changes.hpp"
#include "study/plan.hpp"
#include "study/tally.hpp"
#include "unmoved/plain.hpp"
#include "unmoved/told.hpp"

namespace fallwright::unmoved {
namespace {

struct Quiet : app::Progress {
  void stage(const std::string&, const std::string&) override {}
};

std::unique_ptr<app::Work> worked_out(job::Job job) {
  Quiet quiet;
  return app::work_out(std::move(job), quiet, {false, true});
}

/// JSON without what goes by where and by what it was made.
std::string lasting(const std::string& text) {
  auto json = nlohmann::json::parse(text);
  for (const char* key : {"tool", "files", "sha256", "file"}) json.erase(key);
  if (json.contains("job") && json["job"].is_object()) json["job"].erase("sha256"), json["job"].erase("file");
  return json.dump(1);
}

void add_order(const std::string& params, Told& told) {
  std::vector<std::unique_ptr<app::Work>> works;
  std::vector<report::Room> rooms;
  for (const char* name :
       {"tannery-lane-2a", "tannery-lane-2b", "chandlers-row-7", "coopers-yard-4", "tannery-lane-5c"})
    rooms.emplace_back(works.emplace_back(worked_out(app::load(params + name + ".toml")))->report.get());
  rooms.emplace_back("flat 9Z", "flat-9z.toml:1:1: is no room");
  std::string kept;
  for (const report::Room& room : rooms) kept += report::kept_room(room);
  told["order kept"] = kept;
  const report::Together all = report::together(rooms);
  told["order text"] = report::together_text(all);
  told["order csv"] = report::rooms_csv(all) + report::packs_csv(all) + report::pieces_csv(all) +
                      report::sticks_csv(all) + report::tightest_csv(all);
  told["order json"] = lasting(report::to_json(all));
}

void add_changes(const std::string& params, Told& told) {
  const std::string file = params + "tannery-lane-2a.toml";
  std::string text = diag::read_text(file);
  const auto replaced = [&](const std::string& from, const std::string& to) {
    if (const std::size_t at = text.find(from); at != std::string::npos) text.replace(at, from.size(), to);
  };
  const auto was = worked_out(app::load(file));
  replaced("length = \"57-1/2 in\"", "length = \"57 in\"");
  replaced("depth = \"14-1/2 in\"", "depth = \"13-1/2 in\"");
  replaced("least = \"1/2 in\"", "least = \"3/4 in\"");
  const auto now = worked_out(job::read(text + "\n[trap]\narm = \"40 in\"\n", "newer.toml"));
  const revision::State before = report::state_of(*was->report), after = report::state_of(*now->report);
  told["changes text"] = report::changes_text(before, after) + report::verdicts_text(before, after);
  told["changes json"] = lasting(report::changes_json(before, after));
}

void add_study(const std::string& name, const std::string& text, const std::string& folder, Told& told) {
  const study::Plan plan{
      job::read_study(text, folder + "study.toml", [](const std::string& job) { return app::load(job); })};
  const app::Judge judge{plan};
  study::Tally tally{plan, judge.checks(), judge.today()};
  std::string rows = report::variants_head(plan.study(), plan.varied()), kept;
  app::each_variant(judge, 0, plan.count(), 2, false, [&](const facts::Variant& variant) {
    rows += report::variants_row(plan.study(), plan.varied(), judge.checks(), variant);
    kept += report::kept_row(variant);
    tally.take(variant);
  });
  const facts::Study all = tally.done();
  const report::StudyReport report{plan.study(), plan.varied(), all};
  told[name + " rows"] = rows + kept;
  told[name + " text"] = report::study_text(report, "out");
  told[name + " json"] = lasting(report::to_json(report));
  const std::string file =
      std::filesystem::temp_directory_path() / ("fallwright-study-" + std::to_string(getpid()) + ".svg");
  for (const drawing::Sheet& sheet : drawing::draw_study({plan.study(), plan.varied(), all, judge.todays_results()})) {
    exchange::write_svg(sheet, file);
    told[name + " sheet " + sheet.name] = diag::read_text(file);
  }
  std::filesystem::remove(file);
}

}  // namespace

Told told_of_several(const std::string& params) {
  Told told;
  add_order(params, told);
  add_changes(params, told);
  add_study(
      "study of keys",
      "[study]\njob = \"tannery-lane-2a.toml\"\naim = \"fewest-bags\"\ncolumns = [\"bed.set_mm3\", \"cuts[A].mark\"]\n"
      "[[key]]\npath = \"drain.from_left\"\nfrom = \"26 in\"\nto = \"32 in\"\nstep = \"2 in\"\n"
      "[[key]]\npath = \"base.fall\"\nvalues = [\"0.2 in/ft\", \"1/4 in/ft\", \"3/8 in/ft\"]\n",
      params, told);
  add_study("study of readings", "[study]\njob = \"ferry-steps-3.toml\"\nvary = \"readings\"\nsamples = 12\nseed = 3\n",
            params, told);
  for (auto& [section, text] : told) text = plain(text);
  return told;
}

}  // namespace fallwright::unmoved
