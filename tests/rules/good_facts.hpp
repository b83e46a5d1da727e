/// Facts as they would be measured on the sample alcove, every one well inside its limit; a test moves the one it is
/// about.
#pragma once

#include "facts/facts.hpp"

namespace fallwright::sample {

facts::Facts good_facts();

inline facts::Levels level_at(double mm) {
  return {mm, mm};
}

inline void level_outside(facts::Facts& facts, double mm) {
  facts.heights.outside = level_at(mm);
}

}  // namespace fallwright::sample
