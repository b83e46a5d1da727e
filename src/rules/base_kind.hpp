/// What follows from a kind of base: which checks it makes pointless, and what its flood test holds.
#pragma once

#include <string>

#include "facts/facts.hpp"
#include "job/job.hpp"

namespace fallwright::rules {

/// Why a check says nothing of this job's kind of base; empty: it does.
std::string without_matter(const std::string& id, const job::Job& job);

/// Whether a base is built on site below a bonded membrane.
bool is_bonded(const job::Job& job);

/// Water that stands in the place of the top coat while the liner below it is tested; none where there is no liner.
double in_place_of_top_coat_mm3(const job::Job& job, const facts::Facts& facts);

}  // namespace fallwright::rules
