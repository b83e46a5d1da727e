/// A study as text, JSON and rows. No kernel, no disk: each function returns a text.
#pragma once

#include <string>
#include <vector>

#include "facts/study.hpp"
#include "job/study_file.hpp"
#include "report/report.hpp"

namespace fallwright::report {

/// What a study's reports draw on.
struct StudyReport {
  const job::Study& study;
  const std::vector<job::Varied>& varied;  ///< its keys, or its readings
  const facts::Study& all;
  std::vector<File> files = {};
};

/// At most twenty lines: what passes, what gives way, the best five or the odds, what moves the verdict most.
std::string study_text(const StudyReport& report, const std::string& folder);

/// study.json, described in docs/study.md.
std::string to_json(const StudyReport& report);

/// variants.csv (RFC 4180), a row at a time.
std::string variants_head(const job::Study& study, const std::vector<job::Varied>& varied);
std::string variants_row(const job::Study& study, const std::vector<job::Varied>& varied,
                         const std::vector<facts::Check>& checks, const facts::Variant& variant);

/// A variant on a line of its own from which it is read back to the last bit.
std::string kept_row(const facts::Variant& variant);
/// @throws std::runtime_error for a line that is none.
facts::Variant read_row(const std::string& line);

/// Values of report.json by their paths: names with dots between them, and in brackets which entry of a list, by its
/// place from 1 or by a text it holds: `bed.set_mm3`, `checks[drain.bore-clear-of-joists].margin`.
class Columns {
 public:
  /// @param today today's report, in which every path must lead to a number, a word or nothing.
  /// @throws diag::JobFaults that name the study's `file`, and what is there instead.
  Columns(const std::vector<job::Asked>& asked, const std::string& file, const Report& today);

  bool none() const { return paths_.empty(); }
  /// Each value as JSON; empty where a report has none.
  std::vector<std::string> of(const Report& report) const;

 private:
  std::vector<std::string> paths_;
};

}  // namespace fallwright::report
