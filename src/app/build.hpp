/// One job from its file to results and files.
#pragma once

#include <memory>
#include <set>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "report/report.hpp"

namespace fallwright::parts {
struct Model;
}

namespace fallwright::report {
struct Together;
}

namespace fallwright::revision {
struct Changes;
}

namespace fallwright::app {

class Staging;

/// Told before each long stage begins; prints progress, or nothing.
class Progress {
 public:
  virtual ~Progress() = default;
  virtual void stage(const std::string& job, const std::string& what) = 0;
};

/// A job with its solids and what was measured and judged on them.
struct Work {
  std::shared_ptr<const parts::Model> model;
  std::unique_ptr<report::Report> report;      ///< with the job and all that was measured
  std::vector<std::string> refused_by_kernel;  ///< ids; looked at only where that is asked for
  std::string folder;  ///< where its files are, as the user named it; empty where none were written
};

/// Reads a job file with the files it names; `prices` is a table to take instead of its own, or empty.
/// @throws diag::JobFaults, diag::MachineError.
job::Job load(const std::string& path, const std::string& prices = {});

/// The same of a text that was read from there.
job::Job load_text(const std::string& text, const std::string& path, const std::string& prices = {});

/// Whether a text's first letter, blanks aside, is that one.
bool begins_with(const std::string& text, char letter);

/// What of a job will be told: what is not, is not worked out.
struct Extent {
  bool advice = true;      ///< of what fails; it is followed before it is told
  bool quantities = true;  ///< what to cut and to buy
};

/// Builds, measures, judges and takes off.
std::unique_ptr<Work> work_out(job::Job job, Progress& progress, Extent extent = {});

/// The page that a person opens, in every job's folder.
inline constexpr const char* page_name = "report.html";

/// What every job's folder gets, whatever is built: files by name, folders with a slash at the end.
const std::vector<std::string>& names_of_all();

/// Kinds of files that may be asked for alone: "step", "pdf"... report.json comes with any, since it lists the others.
const std::vector<std::string>& kinds_of_files();

/// Those asked for; empty: all.
using Only = std::set<std::string>;

/// Writes all files of a job there, or those asked for, whole or not at all. `changes`: since an older job file, where
/// one is named.
void write_all(Work& work, Staging& staging, Progress& progress, const revision::Changes* changes = nullptr,
               const Only& only = {});

/// Where the order for several rooms stands, beside the rooms' own folders.
inline constexpr const char* together_folder = "together";

const std::vector<std::string>& names_of_together();

/// Writes it as text, JSON, tables and a page, whole or not at all; `all` gets the list of its files. @param links
/// where the rooms' pages lie, seen from there.
void write_together(report::Together& all, const std::vector<std::string>& links, Staging& staging);

/// Every file that was written there so far, with its fingerprint: by this list the next run knows what it may replace.
std::vector<report::File> listed(const Staging& staging);

/// Seconds since 1970 for headers that want a time: SOURCE_DATE_EPOCH, else always the same, so that equal jobs make
/// equal files. @throws diag::JobFaults when it is set to anything but a time up to the year 9999.
long timestamp();

}  // namespace fallwright::app
