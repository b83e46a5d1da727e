/// Results as a person reads them.
#pragma once

#include <string>

#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

/// A value and its limit in the job's unit: "1/4 in/ft (1:48)", "at least 30\"". A value that fails by less than a
/// person reads is "just under" or "just over" it; one that was not measured is "-".
std::string measured_text(const Result& result, const job::Job& job);
std::string limit_text(const Result& result, const job::Job& job);

/// A limit's source and how far it was verified: "IRC P2709.1 (2009, 2021), quoted".
std::string source_text(const Limit& limit);

}  // namespace fallwright::rules
