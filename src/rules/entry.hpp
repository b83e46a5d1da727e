/// Where lengths "from the entry" begin.
#pragma once

#include <string>

#include "facts/room.hpp"
#include "job/job.hpp"

namespace fallwright::rules {

/// Where side walls end apart, as a tape shows it: which of them, where that tape begins, and how far it is off at the
/// other. Empty where they end within 1/4 in of each other, or where one of them was not read.
std::string entry_words(const job::Job& job, const facts::Room& room);

}  // namespace fallwright::rules
