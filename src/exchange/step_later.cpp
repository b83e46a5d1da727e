#include "brep/later.hpp"
#include "exchange/step.hpp"

// In place of step.cpp in the program that users run: see brep/later.hpp.

namespace fallwright::exchange {

void write_step(const parts::Model& model, const std::string& path, long timestamp) {
  brep::loaded<decltype(fallwright_write_step)>("fallwright_write_step")(model, path, timestamp);
}

}  // namespace fallwright::exchange
