/// What follows from a kind of base: which checks it makes pointless.
#pragma once

#include <string>

#include "facts/facts.hpp"
#include "job/job.hpp"

namespace fallwright::rules {

/// Why a check says nothing of this job's kind of base; empty: it does.
std::string without_matter(const std::string& id, const job::Job& job);

/// Whether a base is built on site below a bonded membrane.
bool is_bonded(const job::Job& job);

}  // namespace fallwright::rules
