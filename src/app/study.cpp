#include "app/study.hpp"

#include <filesystem>
#include <fstream>
#include <iostream>
#include <memory>

#include <unistd.h>

#include "app/app.hpp"
#include "app/build.hpp"
#include "app/failure.hpp"
#include "app/outputs.hpp"
#include "app/staging.hpp"
#include "app/study_run.hpp"
#include "app/study_shares.hpp"
#include "diag/fault.hpp"
#include "diag/text_file.hpp"
#include "drawing/study.hpp"
#include "exchange/paper.hpp"
#include "exchange/sha256.hpp"
#include "study/tally.hpp"
#include "units/words.hpp"

namespace fallwright::app {
namespace {

namespace fs = std::filesystem;

/// The map of a study of readings is a second sheet.
std::vector<std::string> names_of(const study::Plan& plan) {
  std::vector<std::string> names{"variants.csv", "study.pdf", "study.svg", "study.json"};
  if (plan.study().vary == job::Vary::readings && plan.map()) names.push_back("study-map.svg");
  return names;
}

job::Study load_study(const std::string& path) {
  const std::string text = diag::read_text(path);
  job::Study study = job::read_study(text, path, [](const std::string& job) { return load(job); });
  study.sha256 = exchange::sha256(text + study.job.sha256);
  return study;
}

/// A file inside a staging folder, written as the rows come.
class Rows {
 public:
  Rows(const Staging& staging, const std::string& name)
      : place_{staging.place(name)}, told_{staging.in_place(place_)}, out_{place_, std::ios::binary} {}
  void add(const std::string& row) {
    if (!(out_ << row)) fail();
  }
  void close() {
    out_.close();
    if (!out_) fail();
  }

 private:
  [[noreturn]] void fail() const { stop_by_errno(told_, "cannot be written"); }

  std::string place_, told_;
  std::ofstream out_;
};

/// What a run holds: its folder, and where its files are written until they are whole.
struct Desk {
  Output output;
  std::vector<std::unique_ptr<HeldFolder>> held;
  std::unique_ptr<Staging> staging;
};

Desk desk(const StudyOptions& options, const job::Study& study, const std::string& out,
          const std::vector<std::string>& names, const Say& say) {
  const Outputs outputs = outputs_of({options.file}, out, false);
  Desk desk{outputs.rooms.front(), hold(outputs, say), nullptr};
  must_not_replace({options.file, study.job.file}, {study.job}, outputs);
  desk.staging = std::make_unique<Staging>(desk.output.folder, names, say);
  return desk;
}

void write_sheets(const study::Plan& plan, const Judge& judge, const facts::Study& all, const Staging& staging) {
  const auto sheets = drawing::draw_study({plan.study(), plan.varied(), all, judge.todays_results()});
  exchange::write_pdf(sheets, plan.study().name, staging.place("study.pdf"), timestamp());
  for (const drawing::Sheet& sheet : sheets) exchange::write_svg(sheet, staging.place(sheet.name + ".svg"));
}

/// All variants, from wherever they come, to files and a few lines.
int whole(const StudyOptions& options, const study::Plan& plan, const Judge& judge, const Say& say) {
  const job::Study& study = plan.study();
  Desk desk = app::desk(options, study, options.out, names_of(plan), say);
  study::Tally tally{plan, judge.checks(), judge.today()};
  Rows rows{*desk.staging, "variants.csv"};
  rows.add(report::variants_head(study, plan.varied()));
  const auto checks = judge.checks();
  const auto take = [&](const facts::Variant& variant) {
    rows.add(report::variants_row(study, plan.varied(), checks, variant));
    tally.take(variant);
  };
  const fs::path folder = desk.output.folder;
  if (options.merge)
    each_kept(plan, folder.parent_path(), folder.filename().string(), take);
  else
    each_variant(judge, 0, plan.count(), options.threads, !options.quiet && isatty(STDERR_FILENO) != 0, take);
  rows.close();
  const facts::Study all = tally.done();
  write_sheets(plan, judge, all, *desk.staging);
  const report::StudyReport report{study, plan.varied(), all, listed(*desk.staging)};
  const std::string json = report::to_json(report);
  desk.staging->write("study.json", json);
  desk.staging->publish();
  if (options.json)
    std::cout << json;
  else if (!options.quiet)
    std::cout << report::study_text(report, desk.output.shown);
  return all_pass;
}

/// Shares of rooms stand beside those of studies, in folders of these names.
void must_not_be_called_as_an_order(const std::string& study) {
  const std::string name = folder_name(study);
  if (name == together_folder || name == checked_folder)
    throw diag::JobFaults{{{study, 0, 0, "--part",
                            "shares of rooms are kept in folders called '" + name + "'; give the study another name"}}};
}

int share(const StudyOptions& options, const study::Plan& plan, const Judge& judge, const Say& say) {
  const Part part = part_of(options.part);
  const std::string out = (fs::path{options.out} / part.folder()).string();
  Desk desk = app::desk(options, plan.study(), out, names_of_share(), say);
  Rows rows{*desk.staging, names_of_share().front()};
  const std::size_t first = part.first(plan.count()), end = part.end(plan.count());
  each_variant(judge, first, end, options.threads, !options.quiet && isatty(STDERR_FILENO) != 0,
               [&](const facts::Variant& variant) { rows.add(report::kept_row(variant)); });
  rows.close();
  write_share(plan, part, *desk.staging);
  if (!options.quiet)
    std::cout << plan.study().name + ": share " + std::to_string(part.number) + " of " + std::to_string(part.of) +
                     ", " + units::counted(end - first, "variant", "variants") + "\n  files        " +
                     desk.output.shown + "\n";
  return all_pass;
}

}  // namespace

int run_study(const StudyOptions& options, const Say& say) {
  timestamp();  // before any work: one that is no time is refused
  if (!options.part.empty()) part_of(options.part), must_not_be_called_as_an_order(options.file);
  const study::Plan plan{load_study(options.file)};
  const Judge judge{plan};
  return options.part.empty() ? whole(options, plan, judge, say) : share(options, plan, judge, say);
}

}  // namespace fallwright::app
