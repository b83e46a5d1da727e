/// A stud in a corner, which the upstand of the wall beside it hides in part. Inside `rules` only.
#pragma once

#include <optional>
#include <string>

#include "facts/facts.hpp"
#include "job/job.hpp"

namespace fallwright::rules {

/// What a stud that stands at an end of an upstand shows beside the upstand that meets it there, in millimetres, too
/// little for a fastener, which keeps its way from either edge; nothing where none stands there.
std::optional<double> shown_at(const facts::Facts& facts, const facts::Hold& hold, job::Side end);
/// " (5/8\" of it shows there, and a screw wants 3/4\")".
std::string shown_text(double shown_mm, const job::Job& job);

}  // namespace fallwright::rules
