/// Which checks a kind of base makes pointless. Inside `rules` only.
#pragma once

#include <string>

#include "job/job.hpp"

namespace fallwright::rules {

/// Why a check says nothing of this job's kind of base; empty: it does.
std::string without_matter(const std::string& id, const job::Job& job);

}  // namespace fallwright::rules
