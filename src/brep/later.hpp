/// Functions that the program loads when it first wants them. With the libraries that read and write STEP every command
/// would take more than twice as long to begin, and few of them touch such a file.
#pragma once

#include <string>

namespace fallwright::brep {

/// A function, by its name for the linker, of the module that is installed beside the program.
/// @throws diag::MachineError when there is no such module, or one of another version.
void* function_loaded(const char* name);

/// The same as a function of the type `Function`, whose name it has.
template <class Function>
Function* loaded(const char* name) {
  return reinterpret_cast<Function*>(function_loaded(name));
}

}  // namespace fallwright::brep
