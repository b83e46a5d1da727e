/// Facts in which no two numbers are alike, so that a value that stands in another's place is seen. Inside the report's
/// tests only.
#pragma once

#include "facts/facts.hpp"

namespace fallwright::sample {

facts::Facts distinct_facts();

}  // namespace fallwright::sample
