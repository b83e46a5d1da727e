/// Makes equal models equal files: the kernel numbers instances through the whole life of the process, and writes
/// colours in the order of memory addresses. Inside `exchange` only.
#pragma once

#include <string>

namespace fallwright::exchange {

/// The same STEP file with instances numbered from one and colours in the order of the solids they belong to.
/// @pre `text` was written by the kernel's AP214 writer: colours, one for each solid, come last.
std::string canonical_step(const std::string& text);

}  // namespace fallwright::exchange
