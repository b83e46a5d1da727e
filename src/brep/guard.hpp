/// The kernel's exceptions, turned into our own where the kernel is called: they are no std::exception, most come
/// without a word, and one that gets past ends the process. Its signals are never armed: what it divides by zero stays
/// a number that is none, and is caught by what is measured.
#pragma once

#include <new>
#include <string>
#include <type_traits>

#include <Standard_Failure.hxx>
#include <Standard_OutOfMemory.hxx>

#include "diag/fault.hpp"

namespace fallwright::brep {

/// The keys of a job to look at when the kernel refuses a part, by its id: "; look at bed.collar, drain.bore and
/// base.ribs, a change of a millimetre may be enough".
std::string what_to_change(const std::string& part);

/// The kernel's own word for what happened, and what to change; never empty, whatever the kernel says.
diag::ModelError refused(const std::string& part, const Standard_Failure& failure);

inline const std::string& told(const std::string& part) {
  return part;
}
template <class Tell>
std::string told(const Tell& part) requires std::is_invocable_v<Tell> {
  return part();
}

/// Does `work`, which calls the kernel for `part`: a solid's id, a file or a sheet, or what tells it when it is asked.
/// @throws diag::ModelError for whatever the kernel throws, std::bad_alloc where it has no memory left; other
/// exceptions pass.
template <class Part, class Work>
auto guarded(const Part& part, const Work& work) -> decltype(work()) {
  try {
    return work();
  } catch (const Standard_OutOfMemory&) {
    throw std::bad_alloc{};
  } catch (const Standard_Failure& failure) {
    throw refused(told(part), failure);
  }
}

}  // namespace fallwright::brep
