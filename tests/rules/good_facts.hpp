/// Facts as they would be measured on the sample alcove, every one well inside its limit; a test moves the one it is
/// about.
#pragma once

#include "facts/facts.hpp"

namespace fallwright::sample {

facts::Facts good_facts();

}  // namespace fallwright::sample
