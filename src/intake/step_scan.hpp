/// What a STEP file says it holds, told from its words before the kernel takes it apart. Inside `intake` only.
#pragma once

#include <string>

namespace fallwright::intake {

/// @throws job::NoBody for a text that is no STEP file, that is cut off, or that does not hold one solid of a size that
/// is taken.
void scan_step(const std::string& text);

}  // namespace fallwright::intake
