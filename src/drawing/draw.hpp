/// The sheets of one job, drawn from its solids.
#pragma once

#include <vector>

#include "drawing/sheet.hpp"
#include "facts/facts.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::parts {
struct Model;
}

namespace fallwright::drawing {

/// Plan, bench frame from the front and from its end, and the cut pieces at true scale; without a bench the plan and
/// the wall pieces only. @throws diag::ModelError when the kernel refuses a view.
std::vector<Sheet> draw(const parts::Model& model, const facts::Facts& facts, const std::vector<takeoff::CutRow>& cuts);

}  // namespace fallwright::drawing
