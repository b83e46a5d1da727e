/// glTF 2.0 binary: metres, Y up.
#pragma once

#include <string>

namespace fallwright::parts {
struct Model;
}

namespace fallwright::exchange {

/// Writes the model, one node for each solid, named by its id; materials by role. The bed as spread is left out.
/// @throws diag::MachineError when the file cannot be written, diag::ModelError when the kernel refuses.
void write_glb(const parts::Model& model, const std::string& path);

}  // namespace fallwright::exchange
