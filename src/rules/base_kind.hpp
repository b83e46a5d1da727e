/// What follows from a kind of base: which checks it makes pointless.
#pragma once

#include <optional>
#include <string>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

/// Why a check says nothing of this job's kind of base; empty: it does.
std::string without_matter(const std::string& id, const job::Job& job);

/// How far the outline of a base that is built on site is known: it is as square as the walls, and read in part, or
/// said to be askew, they are drawn square all the same. Nothing of another base, nor of a room that is
/// still to be built and of which nothing was read.
std::optional<Standing> outline_known(const job::Job& job, const facts::Facts& facts);

/// Whether a base is built on site below a bonded membrane.
bool is_bonded(const job::Job& job);

}  // namespace fallwright::rules
