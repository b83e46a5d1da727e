/// What-if questions: the drain elsewhere, every reading off by its tolerance. Each lays the job out anew, builds the
/// solids that would differ and measures those. Of `rules` a study knows the limits; it judges nothing.
#pragma once

#include <vector>

#include "facts/facts.hpp"
#include "rules/limits.hpp"

namespace fallwright::parts {
struct Model;
}

namespace fallwright::study {

/// Facts of a model with what studies add to them: where the drain may stand, and the worst cases. What the kernel
/// refuses to build for one of them costs that answer alone, with its reason.
/// @throws diag::ModelError naming the part when the kernel refuses the job's own.
facts::Facts with_studies(const parts::Model& model, facts::Facts facts, const rules::Limits& limits);

/// The drain's window with the nearest place whose bore keeps as clear of every joist as the limits ask, the falls of
/// the floor there, and what a joist may lose. @param seen as measured: the stretches that joists leave.
facts::DrainWindow drain_window(const parts::Model& model, const facts::DrainWindow& seen, const rules::Limits& limits);

/// Between which bounds numbers of the room stay when every reading is within its tolerance: never too narrow.
std::vector<facts::Worst> worst_cases(const parts::Model& model, const facts::Facts& facts);

}  // namespace fallwright::study
