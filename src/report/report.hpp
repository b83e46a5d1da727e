/// Everything a report draws on, and the files it becomes. No kernel, no disk: each function returns a text.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/check.hpp"
#include "rules/judgement.hpp"
#include "rules/result.hpp"
#include "rules/road.hpp"
#include "rules/words.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::report {

/// A file that was written, as it is listed in report.json.
struct File {
  std::string path;  ///< below the job's output folder
  std::uintmax_t bytes = 0;
  std::string sha256;
};

/// All of it its own: a report may outlive what it was made from.
struct Report {
  job::Job job;
  facts::Facts facts;
  rules::Judgement judgement;
  std::vector<takeoff::Row> rows;
  std::vector<takeoff::CutRow> cuts;
  std::vector<takeoff::StockPlan> plan;  ///< which of them are cut from which stick
  std::vector<File> files;
  rules::Road road = {};  ///< where remedies get in each other's way: lines that go together
};

std::string version();  ///< of this program, "0.1.0"

/// What stands at the end of all that was judged.
inline constexpr const char* informs_only =
    "These checks inform; they approve nothing. Local code and licensed trades decide.";

using rules::limit_text;
using rules::measured_text;
using rules::source_text;

/// report.json: every number at full precision, SI; described in docs/report-json.md.
std::string to_json(const Report& report);

/// JSON Schema (draft 2020-12) of report.json.
std::string json_schema();

/// RFC 4180, with lengths in the trade's notation beside the plain numbers.
std::string takeoff_csv(const Report& report);
std::string cuts_csv(const Report& report);
std::string checks_csv(const Report& report);

/// The few lines a tired person reads: what was built, bed and bags, falls, what fails or asks for caution, what to
/// read next, where the files are.
std::string summary(const Report& report, const std::string& folder);

/// What fails or asks for caution, worst first, with its remedy; then what to read next and what that settles; counts.
std::string check_list(const Report& report);

/// Where remedies get in each other's way: the lines that go together, and what they leave, in words. Else nothing.
std::string road_words(const Report& report);

/// Every check on a line of its own, worst first, with source and advice.
std::string check_table(const Report& report);

/// The room as it was measured, question by question: closure, floor, furring, letting in, drain, dry fit, heights,
/// levelling, gauge depths, set-out, and how sure all that is. Unless `all` is asked for: free widths where they
/// change, studs that need work, and of the dry fit what does not touch.
std::string room_table(const Report& report, bool all);

/// The base as readings on its rim say it lies.
std::string as_set_text(const job::Job& job, const facts::AsSet& set, const std::vector<rules::Result>& results);

/// The same with the checks that go with it, and in its last line what to do next.
struct Verdict {
  bool passes = true;
  std::string text;
};
Verdict as_set_verdict(const Report& report);

/// Heights over one point, highest first; as text, and as JSON in docs/report-json.md.
std::string chain_table(const job::Job& job, const survey::StudFaces& faces, const std::vector<facts::Rung>& chain,
                        double x_mm, double y_mm);
std::string chain_json(const job::Job& job, const std::vector<facts::Rung>& chain, double x_mm, double y_mm);

/// The flood test: water by height, its weight, pressure on the floor, and how far a litre lost lowers it; then what
/// the floor and the seat carry.
std::string flood_table(const Report& report);

/// The buy list and the cut list as plain tables.
std::string takeoff_table(const Report& report);

/// Every rule of the book: what it reads, its formula in words, limit and source.
std::string rule_table(job::UnitSystem unit, const std::string& book);

/// Every check under every rule book: outcome and margin.
std::string books_table(const Report& report, const std::vector<rules::UnderBook>& books);

/// The results that are asked for by id, title or a part of one (`rules::rules_like`), each with all that led to it.
std::string explained(const Report& report, const std::string& asked);

}  // namespace fallwright::report
