#include "app/failure.hpp"

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <exception>
#include <memory>
#include <new>

#include <cxxabi.h>

#include "diag/fault.hpp"

namespace fallwright::app {
namespace {

/// The kernel's errors are no standard exceptions: where one comes this far, its kind is all that is known here.
std::string kind_of_current() {
  const std::type_info* type = abi::__cxa_current_exception_type();
  if (!type) return "unknown";
  int status = 0;
  const std::unique_ptr<char, decltype(&std::free)> name{abi::__cxa_demangle(type->name(), nullptr, nullptr, &status),
                                                         &std::free};
  return status == 0 ? name.get() : type->name();
}

}  // namespace

void stop_by_errno(const std::filesystem::path& path, const std::string& what) {
  throw diag::MachineError{path.string(), what + ": " + std::strerror(errno)};
}

std::string failure_in_words() try { throw; } catch (const std::bad_alloc&) {
  return "there is not enough memory";
} catch (const std::exception& e) {
  return e.what();
} catch (...) {
  return "the work ended with an error of the kind '" + kind_of_current() + "'";
}

}  // namespace fallwright::app
