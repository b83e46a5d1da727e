/// Studs, and corners of the base, that stand back from what is set before them. Inside `rules` only.
#pragma once

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/book.hpp"

namespace fallwright::rules {

/// From the edge of base or bench to what stands farthest back behind it.
Finding stud_gap(const job::Job& job, const facts::Facts& facts, const Limit& limit);

}  // namespace fallwright::rules
