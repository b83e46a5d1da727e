/// From solids to plain numbers: everything a report says is read here, off the model, never off the job's parameters.
#pragma once

#include "facts/facts.hpp"

namespace fallwright::parts {
struct Model;
}

namespace fallwright::measure {

/// Measures the whole model.
/// @throws diag::ModelError naming the part when the kernel refuses.
facts::Facts measure(const parts::Model& model);

/// Volumes, areas, masses, boxes, falls and drainage alone: what costs milliseconds, without the kernel's check of
/// validity and without looking at pairs of solids.
facts::Facts measure_solids(const parts::Model& model);

}  // namespace fallwright::measure
