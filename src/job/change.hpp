/// A job file with some of its lines changed: what an advice asks for, followed.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "job/job.hpp"

namespace fallwright::job {

/// One line of the job file: a key and what is written after its equals sign. No value: the line is left out.
struct Change {
  std::string key;        ///< "base.threshold.height"
  std::string value;      ///< TOML: "\"2-1/2 in\"", "[\"back\", \"left\"]"
  std::size_t entry = 0;  ///< of a section that stands several times
  bool operator==(const Change& other) const = default;
};

/// `base.threshold.height = "2-1/2 in"`, or `without bed.gauge_depth`.
std::string text_of(const Change& change);

/// A length as a job file has it: on a mark of the tape where one lies within rounding, else in millimetres.
std::string written(Length length, UnitSystem unit);
/// Words as a job file has them: `["back", "left"]`.
std::string written(const std::vector<Side>& sides);

/// The job whose file has these changes, read and validated anew.
/// @pre `job.text`, the file it was read from, is known. @throws diag::JobFaults where such a job cannot stand.
Job changed(const Job& job, const std::vector<Change>& changes);

/// A job file that is parsed once, for as many jobs with changes as are wanted of it. Threads may share it.
class Original {
 public:
  /// @pre `job.text` is known.
  explicit Original(const Job& job);
  ~Original();

  /// The job with these changes, validated anew; `with_readings`, if any, moves readings of its survey before anything
  /// is made of them. It was read from no file. @throws diag::JobFaults where such a job cannot stand.
  Job with(const std::vector<Change>& changes, const std::function<void(Job&)>& with_readings = {}) const;

 private:
  struct File;
  std::unique_ptr<const File> file_;
};

}  // namespace fallwright::job
