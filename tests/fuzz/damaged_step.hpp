/// A STEP file with something wrong in it.
#pragma once

#include <string>

namespace fallwright::fuzz {

/// The text of a STEP file damaged in one to four places, each time another way: references and numbers changed,
/// entities left out, doubled or given another's type, arguments taken out, bytes lost. The same number damages the
/// same text alike.
std::string damaged_step(const std::string& text, unsigned number);

}  // namespace fallwright::fuzz
