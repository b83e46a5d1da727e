/// The STL files of a model, in the names of the file contract.
#pragma once

#include <functional>
#include <string>

namespace fallwright::parts {
struct Model;
}

namespace fallwright::exchange {

/// "model.stl" with all solids, and "stl/<id>.stl" for each; `place` turns such a name into a path that can be written.
void write_stls(const parts::Model& model, const std::function<std::string(const std::string&)>& place);

}  // namespace fallwright::exchange
