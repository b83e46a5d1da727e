/// ISO 10303-21 (STEP), application protocol 214, millimetres.
#pragma once

#include <string>

namespace fallwright::parts {
struct Model;
}

namespace fallwright::exchange {

/// Writes the model as an assembly named by the job, each solid an instance named by its id, equal members instances of
/// one product, coloured by role; the bed as spread is a second root. `timestamp` is seconds since 1970, printed in the
/// header.
/// @throws diag::MachineError when the file cannot be written, diag::ModelError when the kernel refuses.
void write_step(const parts::Model& model, const std::string& path, long timestamp);

}  // namespace fallwright::exchange

/// The same by the name that the program loads it by, see brep/later.hpp.
extern "C" void fallwright_write_step(const fallwright::parts::Model& model, const std::string& path, long timestamp);
