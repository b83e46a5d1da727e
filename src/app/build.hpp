/// One job from its file to results and files.
#pragma once

#include <memory>
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

namespace fallwright::app {

/// Told before each long stage begins; prints progress, or nothing.
class Progress {
 public:
  virtual ~Progress() = default;
  virtual void stage(const std::string& job, const std::string& what) = 0;
};

/// A job with its solids and what was measured and judged on them.
struct Work {
  job::Job job;
  std::shared_ptr<const parts::Model> model;
  facts::Facts facts;
  std::unique_ptr<report::Report> report;
};

/// Reads a job file. @throws diag::JobFaults, diag::MachineError.
job::Job load(const std::string& path);

/// Builds, measures, judges and takes off.
std::unique_ptr<Work> work_out(job::Job job, Progress& progress);

/// Writes all files of a job into `folder`, whole or not at all.
void write_all(Work& work, const std::string& folder, Progress& progress);

/// Where the order for several rooms stands, beside the rooms' own folders.
inline constexpr const char* together_folder = "together";

/// Writes it as text, JSON and tables, whole or not at all.
void write_together(const report::Together& all, const std::string& folder);

/// Seconds since 1970 for headers that want a time: SOURCE_DATE_EPOCH, else always the same, so that equal jobs make
/// equal files.
long timestamp();

}  // namespace fallwright::app
