/// What can go wrong, four ways apart: a fault in the job file (a list, with places), a kernel failure, a failure of
/// the machine, and a mistake of our own. A broken rule is none of these: it is a result.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace fallwright::diag {

/// One thing wrong with a job file. `line` and `column` count from 1; 0 means the file as a whole.
struct Fault {
  std::string file;
  unsigned line = 0, column = 0;
  std::string key;      ///< dotted path, "drain.bore"; may be empty
  std::string message;  ///< what was found and what is allowed, one sentence
};

/// `file:line:column: key: message`, as compilers and editors know it.
std::string to_text(const Fault& fault);
std::string to_text(const std::vector<Fault>& faults);  ///< a line each

/// The job cannot be read or cannot be built as asked; carries every fault found, in file order.
class JobFaults : public std::runtime_error {
 public:
  explicit JobFaults(std::vector<Fault> faults);
  const std::vector<Fault>& faults() const { return faults_; }

 private:
  std::vector<Fault> faults_;
};

/// The kernel refused to build, measure or export a part.
class ModelError : public std::runtime_error {
 public:
  ModelError(const std::string& part, const std::string& what);
};

/// Disk, permission, missing file: the machine failed us.
class MachineError : public std::runtime_error {
 public:
  MachineError(const std::string& path, const std::string& what);
  const std::string& path() const { return path_; }
  const std::string& reason() const { return reason_; }  ///< without the path

 private:
  std::string path_, reason_;
};

/// Our own assumption; stays on in release. @throws std::logic_error with `what` when `truth` is false.
void ensure(bool truth, const char* what);

}  // namespace fallwright::diag
