/// Binary STL: millimetres, watertight, outward.
#pragma once

#include <string>

namespace fallwright::parts {
struct Model;
struct Solid;
}  // namespace fallwright::parts

namespace fallwright::exchange {

/// One solid. @throws diag::MachineError when the file cannot be written.
void write_stl(const parts::Solid& solid, const std::string& path);

/// All solids as they stand once all is set (without the bed as spread) in one file.
void write_stl(const parts::Model& model, const std::string& path);

/// Where a solid's own file lies below the output folder: "stl/bench-frame/stud-03.stl".
std::string stl_name(const parts::Solid& solid);

}  // namespace fallwright::exchange
