#include "brep/later.hpp"
#include "intake/step_solid.hpp"

// In place of step_solid.cpp in the program that users run: see brep/later.hpp.

namespace fallwright::intake {

StepSolid solid_of_step(const std::string& text) {
  StepSolid read;
  brep::loaded<decltype(fallwright_read_step)>("fallwright_read_step")(text, read);
  return read;
}

}  // namespace fallwright::intake
