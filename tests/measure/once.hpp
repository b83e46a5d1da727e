/// Rooms measured, and models that several cases look at, built and measured once in a program. Inside the tests of
/// `measure` only.
#pragma once

#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/sample.hpp"

namespace fallwright::measure {

inline facts::Facts measured(const job::Job& job) {
  return measure(*parts::build(job));
}

}  // namespace fallwright::measure

namespace fallwright::sample {

inline const parts::Model& alcove_model() {
  static const auto model = parts::build(alcove());
  return *model;
}
inline const facts::Facts& alcove_facts() {
  static const facts::Facts facts = measure::measure(alcove_model());
  return facts;
}

}  // namespace fallwright::sample
