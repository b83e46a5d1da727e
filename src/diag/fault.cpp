#include "diag/fault.hpp"

#include <utility>

namespace fallwright::diag {

std::string to_text(const Fault& fault) {
  std::string text = fault.file;
  if (fault.line != 0) text += ":" + std::to_string(fault.line) + ":" + std::to_string(fault.column);
  for (const std::string& part : {fault.key, fault.message})
    if (!part.empty()) text += (text.empty() ? "" : ": ") + part;
  return text;
}

std::string to_text(const std::vector<Fault>& faults) {
  std::string text;
  for (const Fault& fault : faults) text += (text.empty() ? "" : "\n") + to_text(fault);
  return text;
}

JobFaults::JobFaults(std::vector<Fault> faults) : std::runtime_error{to_text(faults)}, faults_{std::move(faults)} {}

ModelError::ModelError(const std::string& part, const std::string& what) : std::runtime_error{part + ": " + what} {}

MachineError::MachineError(const std::string& path, const std::string& what)
    : std::runtime_error{path + ": " + what}, path_{path}, reason_{what} {}

void ensure(bool truth, const char* what) {
  if (!truth) throw std::logic_error{std::string{"fallwright made a mistake: "} + what};
}

}  // namespace fallwright::diag
