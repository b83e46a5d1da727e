/// Binary STL: millimetres, watertight, outward.
#pragma once

#include <string>

#include "parts/model.hpp"

namespace fallwright::exchange {

/// One solid. @throws diag::MachineError when the file cannot be written.
void write_stl(const parts::Solid& solid, const std::string& path);

/// All solids as they stand once all is set (without the bed as spread) in one file.
void write_stl(const parts::Model& model, const std::string& path);

}  // namespace fallwright::exchange
