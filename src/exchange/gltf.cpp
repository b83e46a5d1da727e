#include "exchange/gltf.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <fstream>
#include <map>
#include <utility>
#include <vector>

#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <nlohmann/json.hpp>

#include "diag/fault.hpp"
#include "exchange/mesh.hpp"
#include "exchange/palette.hpp"
#include "units/letters.hpp"

namespace fallwright::exchange {

namespace {

using Json = nlohmann::ordered_json;
using Corner = std::array<float, 3>;

// glTF 2.0, 3.6.2.2 (types of numbers), 3.6.1 (targets of views), 3.7.2 (triangles).
constexpr int two_bytes = 5123, four_bytes = 5125, floats = 5126, of_corners = 34962, of_triangles = 34963;

/// The alcove's millimetres, z up, as metres, y up: what lies at the back is away from the viewer.
gp_XYZ in_gltf(const gp_XYZ& p) {
  return {p.X() / 1000, p.Z() / 1000, 0.0 - p.Y() / 1000};
}

template <class Number>
void add_number(std::string& bytes, Number value) {
  bytes.append(reinterpret_cast<const char*>(&value), sizeof value);
}

void fill_to_four(std::string& bytes, char with) {
  bytes.resize((bytes.size() + 3) / 4 * 4, with);
}

/// A file in the making: every distinct solid once, as corners that triangles share. Corners have no normals, which is
/// how the standard says that faces are flat.
class Glb {
 public:
  explicit Glb(const parts::Model& model) {
    json_ = {{"asset", {{"version", "2.0"}, {"generator", "fallwright"}}},
             {"scene", 0},
             {"scenes", Json::array({Json{{"nodes", Json::array({0})}}})}};
    for (const char* list : {"nodes", "meshes", "materials", "accessors", "bufferViews"}) json_[list] = Json::array();
    json_["nodes"].push_back(Json{{"name", units::on_one_line(model.job.name)}, {"children", Json::array()}});
    for (const parts::Solid& solid : model.solids)
      if (solid.role != parts::Role::bed_spread) add_node(solid);
    fill_to_four(data_, '\0');
    json_["buffers"] = Json::array({Json{{"byteLength", data_.size()}}});
  }

  /// Header, then the chunk of text, then the chunk of numbers, each with its length and its kind (4.4).
  std::string bytes() const {
    std::string text = json_.dump();
    fill_to_four(text, ' ');
    std::string out{"glTF"};
    add_number(out, std::uint32_t{2});
    add_number(out, static_cast<std::uint32_t>(12 + 8 + text.size() + 8 + data_.size()));
    add_number(out, static_cast<std::uint32_t>(text.size()));
    out += "JSON" + text;
    add_number(out, static_cast<std::uint32_t>(data_.size()));
    return out + std::string{"BIN\0", 4} + data_;
  }

 private:
  void add_node(const parts::Solid& solid) {
    const auto [mesh, fresh] = meshes_.try_emplace({solid.shape.TShape().get(), solid.role}, json_["meshes"].size());
    if (fresh) add_mesh(solid);
    Json node{{"name", solid.id}, {"mesh", mesh->second}};
    const gp_Trsf place = solid.shape.Location().Transformation();
    if (place.Form() == gp_Translation) {
      const gp_XYZ by = in_gltf(place.TranslationPart());
      node["translation"] = {by.X(), by.Y(), by.Z()};
    } else if (place.Form() != gp_Identity) {
      node["matrix"] = matrix_of(place);
    }
    json_["nodes"][0]["children"].push_back(json_["nodes"].size());
    json_["nodes"].push_back(std::move(node));
  }

  /// By columns: where the file's three axes go, then its origin.
  static Json matrix_of(const gp_Trsf& place) {
    const gp_Mat turn = place.VectorialPart();
    Json columns = Json::array();
    for (const gp_XYZ& axis : {gp_XYZ{1, 0, 0}, gp_XYZ{0, 0, 1}, gp_XYZ{0, -1, 0}}) {
      const gp_XYZ to = in_gltf(axis.Multiplied(turn)) * 1000;
      for (const double v : {to.X(), to.Y(), to.Z(), 0.0}) columns.push_back(v);
    }
    const gp_XYZ at = in_gltf(place.TranslationPart());
    for (const double v : {at.X(), at.Y(), at.Z(), 1.0}) columns.push_back(v);
    return columns;
  }

  void add_mesh(const parts::Solid& solid) {
    parts::Solid product = solid;
    product.shape = TopoDS::Solid(solid.shape.Located(TopLoc_Location{}));
    std::map<Corner, std::uint32_t> numbers;
    std::vector<Corner> corners;
    std::vector<std::uint32_t> triangles;
    for (const Triangle& triangle : triangles_of(product))
      for (const gp_Pnt& p : triangle) {
        const gp_XYZ at = in_gltf(p.XYZ());
        const Corner corner{static_cast<float>(at.X()), static_cast<float>(at.Y()), static_cast<float>(at.Z())};
        const auto [number, fresh] = numbers.try_emplace(corner, static_cast<std::uint32_t>(corners.size()));
        if (fresh) corners.push_back(corner);
        triangles.push_back(number->second);
      }
    const std::size_t positions = add_corners(corners), indices = add_triangles(triangles, corners.size());
    const Json primitive{
        {"attributes", {{"POSITION", positions}}}, {"indices", indices}, {"material", material_of(solid.role)}};
    json_["meshes"].push_back(Json{{"name", solid.id}, {"primitives", Json::array({primitive})}});
  }

  std::size_t add_corners(const std::vector<Corner>& corners) {
    const std::size_t view = begin_view(of_corners);
    Corner least = corners.at(0), greatest = least;
    for (const Corner& corner : corners)
      for (std::size_t k = 0; k < 3; ++k) {
        add_number(data_, corner[k]);
        least[k] = std::min(least[k], corner[k]);
        greatest[k] = std::max(greatest[k], corner[k]);
      }
    end_view();
    return add_accessor(Json{{"bufferView", view},
                             {"componentType", floats},
                             {"count", corners.size()},
                             {"type", "VEC3"},
                             {"min", least},
                             {"max", greatest}});
  }

  /// In two bytes each where they do; the greatest number of either size is not for corners (3.7.2.1).
  std::size_t add_triangles(const std::vector<std::uint32_t>& triangles, std::size_t corners) {
    const std::size_t view = begin_view(of_triangles);
    const bool narrow = corners < 0xffff;
    for (const std::uint32_t corner : triangles)
      if (narrow)
        add_number(data_, static_cast<std::uint16_t>(corner));
      else
        add_number(data_, corner);
    end_view();
    return add_accessor(Json{{"bufferView", view},
                             {"componentType", narrow ? two_bytes : four_bytes},
                             {"count", triangles.size()},
                             {"type", "SCALAR"}});
  }

  std::size_t begin_view(int target) {
    fill_to_four(data_, '\0');
    json_["bufferViews"].push_back(
        Json{{"buffer", 0}, {"byteOffset", data_.size()}, {"byteLength", 0}, {"target", target}});
    return json_["bufferViews"].size() - 1;
  }
  void end_view() {
    Json& view = json_["bufferViews"].back();
    view["byteLength"] = data_.size() - view["byteOffset"].get<std::size_t>();
  }
  std::size_t add_accessor(Json accessor) {
    json_["accessors"].push_back(std::move(accessor));
    return json_["accessors"].size() - 1;
  }

  std::size_t material_of(parts::Role role) {
    const auto [material, fresh] = materials_.try_emplace(role, json_["materials"].size());
    if (fresh) {
      const Quantity_Color colour = colour_of(role);
      json_["materials"].push_back(Json{{"name", parts::name_of(role)},
                                        {"pbrMetallicRoughness",
                                         {{"baseColorFactor", {colour.Red(), colour.Green(), colour.Blue(), 1.0}},
                                          {"metallicFactor", 0.0},
                                          {"roughnessFactor", 0.8}}}});
    }
    return material->second;
  }

  Json json_;
  std::string data_;
  std::map<std::pair<const Standard_Transient*, parts::Role>, std::size_t> meshes_;
  std::map<parts::Role, std::size_t> materials_;
};

}  // namespace

void write_glb(const parts::Model& model, const std::string& path) {
  const std::string bytes = Glb{model}.bytes();
  std::ofstream out{path, std::ios::binary};
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  out.close();
  if (!out) throw diag::MachineError{path, "cannot be written"};
}

}  // namespace fallwright::exchange
