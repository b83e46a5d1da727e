/// From solids to plain numbers: everything a report says is read here, off the model, never off the job's parameters.
#pragma once

#include "facts/facts.hpp"

namespace fallwright::parts {
struct Model;
}

namespace fallwright::measure {

struct Extent {
  bool validity = true;  ///< run the kernel's own check on every solid
  bool fits = true;      ///< look at every pair of solids
};

/// Measures the whole model. Falls and volumes alone cost milliseconds; `extent` leaves out what costs more.
/// @throws diag::ModelError naming the part when the kernel refuses.
facts::Facts measure(const parts::Model& model, const Extent& extent = {});

}  // namespace fallwright::measure
