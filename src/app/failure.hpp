/// What went wrong, in words, whatever was thrown.
#pragma once

#include <filesystem>
#include <string>

namespace fallwright::app {

/// Throws a diag::MachineError of a path: what could not be done, and why the system says so. @pre errno is of that call
[[noreturn]] void stop_by_errno(const std::filesystem::path& path, const std::string& what);

/// Of the exception that is being handled. @pre called from a catch clause
std::string failure_in_words();

}  // namespace fallwright::app
