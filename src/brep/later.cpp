#include "brep/later.hpp"

#include <dlfcn.h>

#include "diag/fault.hpp"

namespace fallwright::brep {

void* function_loaded(const char* name) {
  constexpr const char* file = FALLWRIGHT_STEP;
  static void* const module = dlopen(file, RTLD_NOW);  // by the program's own search path; kept until the process ends
  void* const function = module ? dlsym(module, name) : nullptr;
  if (function) return function;
  const char* const why = dlerror();
  throw diag::MachineError{file, "what reads and writes STEP cannot be loaded (" +
                                     std::string{why ? why : "it was not found"} +
                                     "): install the program again, whole"};
}

}  // namespace fallwright::brep
