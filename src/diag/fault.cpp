#include "diag/fault.hpp"

#include <utility>

namespace fallwright::diag {
namespace {

std::string joined(const std::vector<Fault>& faults) {
  std::string text;
  for (const Fault& fault : faults) text += (text.empty() ? "" : "\n") + to_text(fault);
  return text;
}

}  // namespace

std::string to_text(const Fault& fault) {
  std::string text = fault.file;
  if (fault.line != 0) text += ":" + std::to_string(fault.line) + ":" + std::to_string(fault.column);
  if (!fault.key.empty()) text += ": " + fault.key;
  return text + ": " + fault.message;
}

JobFaults::JobFaults(std::vector<Fault> faults) : std::runtime_error{joined(faults)}, faults_{std::move(faults)} {}

ModelError::ModelError(const std::string& part, const std::string& what) : std::runtime_error{part + ": " + what} {}

MachineError::MachineError(const std::string& path, const std::string& what) : std::runtime_error{path + ": " + what} {}

void ensure(bool truth, const char* what) {
  if (!truth) throw std::logic_error{std::string{"fallwright made a mistake: "} + what};
}

}  // namespace fallwright::diag
