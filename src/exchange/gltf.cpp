#include "exchange/gltf.hpp"

#include <cstdint>
#include <cstring>
#include <fstream>
#include <iterator>

#include <Message_ProgressRange.hxx>
#include <RWGltf_CafWriter.hxx>
#include <TColStd_IndexedDataMapOfStringString.hxx>
#include <nlohmann/json.hpp>

#include "brep/guard.hpp"
#include "exchange/document.hpp"
#include "brep/kernel.hpp"
#include "exchange/mesh.hpp"
#include "units/letters.hpp"

namespace fallwright::exchange {

namespace {

std::uint32_t word(const std::string& bytes, std::size_t at) {
  std::uint32_t value = 0;
  std::memcpy(&value, bytes.data() + at, sizeof value);
  return value;
}
void put_word(std::string& bytes, std::size_t at, std::size_t value) {
  const auto narrow = static_cast<std::uint32_t>(value);
  std::memcpy(bytes.data() + at, &narrow, sizeof narrow);
}

/// The kernel numbers materials; a viewer's list reads better with the roles. The assembly gets the job's
/// name. GLB: 12 bytes of header, then the JSON chunk (length, type, text padded to four bytes), then the binary chunk.
std::string with_names(const std::string& bytes, const parts::Model& model) {
  constexpr std::size_t header = 20;
  const std::size_t length = word(bytes, 12);
  auto json = nlohmann::ordered_json::parse(bytes.substr(header, length));
  for (auto& node : json["nodes"]) {
    if (node.contains("name") && node["name"] == root_name) node["name"] = units::on_one_line(model.job.name);
    const parts::Solid* solid = node.contains("mesh") ? model.find(node["name"]) : nullptr;
    if (!solid) continue;
    for (const auto& primitive : json["meshes"][node["mesh"].get<std::size_t>()]["primitives"])
      json["materials"][primitive["material"].get<std::size_t>()]["name"] = parts::name_of(solid->role);
  }
  std::string text = json.dump();
  text.resize((text.size() + 3) / 4 * 4, ' ');
  std::string out = bytes.substr(0, header) + text + bytes.substr(header + length);
  put_word(out, 8, out.size());
  put_word(out, 12, text.size());
  return out;
}

void put_names(const parts::Model& model, const std::string& path) {
  std::ifstream in{path, std::ios::binary};
  const std::string bytes{std::istreambuf_iterator<char>{in}, {}};
  if (bytes.size() < 20 || word(bytes, 8) != bytes.size())  // the kernel may keep a full disk to itself
    throw diag::MachineError{path, "cannot be written to its end"};
  std::ofstream out{path, std::ios::binary};
  out << with_names(bytes, model);
  out.close();
  if (!in || !out) throw diag::MachineError{path, "cannot be written"};
}

void write(const parts::Model& model, const std::string& path) {
  const brep::KernelGuard guard;
  for (const parts::Solid& solid : model.solids) mesh(solid);
  RWGltf_CafWriter writer{path.c_str(), /*theIsBinary=*/true};
  writer.SetTransformationFormat(RWGltf_WriterTrsfFormat_Mat4);
  writer.SetNodeNameFormat(RWMesh_NameFormat_Instance);
  writer.SetMeshNameFormat(RWMesh_NameFormat_Product);
  writer.SetMergeFaces(true);
  RWMesh_CoordinateSystemConverter axes;
  axes.SetInputLengthUnit(0.001);
  axes.SetInputCoordinateSystem(RWMesh_CoordinateSystem_Zup);
  axes.SetOutputLengthUnit(1);
  axes.SetOutputCoordinateSystem(RWMesh_CoordinateSystem_glTF);
  writer.ChangeCoordinateSystemConverter() = axes;
  TColStd_IndexedDataMapOfStringString about;
  if (!writer.Perform(to_document(model, Before::leave_out), about, Message_ProgressRange{}))
    throw diag::MachineError{path, "cannot be written"};
  put_names(model, path);
}

}  // namespace

void write_glb(const parts::Model& model, const std::string& path) {
  brep::guarded("model.glb", [&] { write(model, path); });
}

}  // namespace fallwright::exchange
