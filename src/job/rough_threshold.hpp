/// A threshold that is built on site stands rough until what finishes it is laid on.
#pragma once

#include <optional>

#include "job/base.hpp"

namespace fallwright::job {

/// What is laid on the rough threshold later, in millimetres; nothing where nobody said. Over a bonded membrane it is
/// as thick as what covers the floor, `cover_mm`, unless the job says otherwise.
inline std::optional<double> laid_on_threshold_mm(const Base& base, double cover_mm) {
  if (base.threshold.finish) return base.threshold.finish->in_mm();
  return base.site.waterproofing == Waterproofing::bonded ? std::optional{cover_mm} : std::nullopt;
}

}  // namespace fallwright::job
