// The solids of one small room in every format of models, read back byte by byte.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <filesystem>
#include <map>
#include <regex>
#include <set>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "brep/properties.hpp"
#include "diag/fault.hpp"
#include "exchange/export.hpp"
#include "exchange/gltf.hpp"
#include "exchange/palette.hpp"
#include "exchange/step.hpp"
#include "exchange/stl.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/run.hpp"
#include "support/skew_room.hpp"

namespace fallwright::exchange {
namespace {

using Json = nlohmann::json;

const parts::Model& model() {
  static const auto built = [] {
    job::Job j = sample::skew_room();
    j.name = "12 'L\u00e4ne'";
    j.walls.blocking.clear();
    return parts::build(j);
  }();
  return *built;
}

template <class T>
T at(const std::string& bytes, std::size_t place) {
  T value;
  std::memcpy(&value, bytes.data() + place, sizeof value);
  return value;
}

/// Six times the volume that a binary STL encloses, by the sum of its tetrahedra from the origin; every normal is that
/// of its corners.
double volume_of(const std::string& stl) {
  double six = 0;
  const auto count = at<std::uint32_t>(stl, 80);
  EXPECT_EQ(stl.size(), 84 + 50 * std::size_t{count});
  for (std::uint32_t i = 0; i < count; ++i) {
    double v[4][3];
    for (std::size_t k = 0; k < 12; ++k) v[k / 3][k % 3] = at<float>(stl, 84 + 50 * i + 4 * k);
    const auto &n = v[0], &a = v[1], &b = v[2], &c = v[3];
    const double u[3] = {b[0] - a[0], b[1] - a[1], b[2] - a[2]}, w[3] = {c[0] - a[0], c[1] - a[1], c[2] - a[2]};
    const double x = u[1] * w[2] - u[2] * w[1], y = u[2] * w[0] - u[0] * w[2], z = u[0] * w[1] - u[1] * w[0];
    const double length = std::sqrt(x * x + y * y + z * z);
    if (length > 1e-3) {
      EXPECT_NEAR((n[0] * x + n[1] * y + n[2] * z) / length, 1, 1e-4);
    }
    six += a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
  }
  return six / 6;
}

TEST(Stl, EnclosesTheSolidsVolume) {
  // Source: the divergence theorem over the file's own triangles, against the kernel's volumes; millimetres; single
  // precision and chords of round faces take a little.
  const sample::Folder folder{"stl"};
  std::set<std::string> places;
  std::filesystem::create_directories(folder / "stl");
  write_stls(model(), [&](const std::string& place) {
    places.insert(place);
    std::filesystem::create_directories(std::filesystem::path{folder / place}.parent_path());
    return folder / place;
  });
  EXPECT_EQ(places.size(), model().solids.size() + 1);
  double all = 0;
  for (const parts::Solid& solid : model().solids) {
    const std::string stl = sample::slurped(folder / ("stl/" + solid.id + ".stl"));
    const double volume = brep::volume_mm3(solid.shape);
    EXPECT_NEAR(volume_of(stl) / volume, 1, 2e-3) << solid.id;
    if (solid.role != parts::Role::bed_spread) all += volume;
  }
  const std::string together = sample::slurped(folder / "model.stl");
  EXPECT_NEAR(volume_of(together) / all, 1, 1e-3) << "all but the bed as spread";
  EXPECT_EQ(together.substr(0, 23), "fallwright, millimetres");
}

TEST(Glb, HasEverySolidInMetresYUpWithItsRole) {
  // Source: glTF 2.0: metres, Y up; the base of 64 x 40 in from x = 1, its material named after its role with its
  // colour, linear; the bed as spread is left out.
  const sample::Folder folder{"glb"};
  write_glb(model(), folder / "m.glb");
  const std::string bytes = sample::slurped(folder / "m.glb");
  EXPECT_EQ(bytes.substr(0, 4), "glTF");
  EXPECT_EQ(at<std::uint32_t>(bytes, 8), bytes.size());
  const auto length = at<std::uint32_t>(bytes, 12);
  EXPECT_EQ(length % 4, 0u);
  const Json json = Json::parse(bytes.substr(20, length));
  std::map<std::string, const Json*> nodes;
  for (const Json& node : json["nodes"]) nodes[node.value("name", "")] = &node;
  EXPECT_TRUE(nodes.count("12 'L\u00e4ne'"));
  EXPECT_FALSE(nodes.count("bed-spread"));
  for (const parts::Solid& solid : model().solids) {
    if (solid.role == parts::Role::bed_spread) continue;
    ASSERT_TRUE(nodes.count(solid.id)) << solid.id;
    const Json& mesh = json["meshes"][(*nodes[solid.id])["mesh"].get<std::size_t>()];
    for (const Json& primitive : mesh["primitives"]) {
      const Json& material = json["materials"][primitive["material"].get<std::size_t>()];
      EXPECT_EQ(material["name"], parts::name_of(solid.role));
      const Quantity_Color colour = colour_of(solid.role);
      const Json& base = material["pbrMetallicRoughness"]["baseColorFactor"];
      EXPECT_NEAR(base[0].get<double>(), colour.Red(), 1e-3) << solid.id;
      EXPECT_NEAR(base[2].get<double>(), colour.Blue(), 1e-3) << solid.id;
      EXPECT_NEAR(material["pbrMetallicRoughness"]["metallicFactor"].get<double>(), 0, 1e-6);
      EXPECT_NEAR(material["pbrMetallicRoughness"]["roughnessFactor"].get<double>(), 0.8, 1e-6);
    }
  }
  const Json& mesh = json["meshes"][(*nodes["base"])["mesh"].get<std::size_t>()];
  const Json& place = json["accessors"][mesh["primitives"][0]["attributes"]["POSITION"].get<std::size_t>()];
  EXPECT_NEAR(place["min"][0].get<double>(), 0.0254, 1e-5);
  EXPECT_NEAR(place["max"][0].get<double>(), 65 * 0.0254, 1e-5);
  EXPECT_NEAR(place["min"][1].get<double>(), 0.5 * 0.0254, 1e-5) << "up: from the rib plane";
  EXPECT_NEAR(place["max"][1].get<double>(), 5.5 * 0.0254, 1e-5);
  EXPECT_NEAR(place["min"][2].get<double>(), -40 * 0.0254, 1e-5) << "the back wall lies away from the viewer";
  EXPECT_NEAR(place["max"][2].get<double>(), 0, 1e-5);
}

/// Where a node of a glTF file puts a corner: by its matrix, its translation, or not at all.
std::array<double, 3> placed(const Json& node, const std::array<double, 3>& p) {
  std::array<double, 3> to = p;
  if (node.contains("translation"))
    for (std::size_t k = 0; k < 3; ++k) to[k] += node["translation"][k].get<double>();
  if (node.contains("matrix"))
    for (std::size_t k = 0; k < 3; ++k) {
      to[k] = node["matrix"][12 + k].get<double>();
      for (std::size_t c = 0; c < 3; ++c) to[k] += node["matrix"][4 * c + k].get<double>() * p[c];
    }
  return to;
}

TEST(Glb, EnclosesTheSolidsVolumeWhereEachStands) {
  // Source: glTF 2.0, sections 3.6 and 3.7, read anew; the divergence theorem against the kernel's volumes, and its
  // boxes
  const sample::Folder folder{"glb-volume"};
  write_glb(model(), folder / "m.glb");
  const std::string bytes = sample::slurped(folder / "m.glb");
  const auto length = at<std::uint32_t>(bytes, 12);
  const Json json = Json::parse(bytes.substr(20, length));
  const std::size_t data = 20 + length + 8;
  const auto start = [&](const Json& accessor) {
    return data + json["bufferViews"][accessor["bufferView"].get<std::size_t>()]["byteOffset"].get<std::size_t>();
  };
  EXPECT_EQ(json["buffers"][0]["byteLength"].get<std::size_t>(), bytes.size() - data);
  for (const Json& node : json["nodes"]) {
    if (!node.contains("mesh")) continue;
    const parts::Solid& solid = *model().find(node["name"]);
    const Json& primitive = json["meshes"][node["mesh"].get<std::size_t>()]["primitives"][0];
    EXPECT_FALSE(primitive["attributes"].contains("NORMAL")) << "faces are flat where corners have no normals";
    const Json& corners = json["accessors"][primitive["attributes"]["POSITION"].get<std::size_t>()];
    const Json& triangles = json["accessors"][primitive["indices"].get<std::size_t>()];
    const bool narrow = triangles["componentType"] == 5123;
    double six = 0, right = -1e9;
    for (std::size_t i = 0; i < triangles["count"].get<std::size_t>(); i += 3) {
      std::array<std::array<double, 3>, 3> t;
      for (std::size_t k = 0; k < 3; ++k) {
        const std::size_t n = narrow ? at<std::uint16_t>(bytes, start(triangles) + 2 * (i + k))
                                     : at<std::uint32_t>(bytes, start(triangles) + 4 * (i + k));
        ASSERT_LT(n, corners["count"].get<std::size_t>());
        std::array<double, 3> p;
        for (std::size_t c = 0; c < 3; ++c) p[c] = at<float>(bytes, start(corners) + 12 * n + 4 * c);
        t[k] = placed(node, p);
        right = std::max(right, t[k][0]);
      }
      const auto& [a, b, c] = t;
      six +=
          a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
    }
    EXPECT_NEAR(six / 6 * 1e9 / brep::volume_mm3(solid.shape), 1, 2e-3) << solid.id;
    EXPECT_NEAR(right * 1000, parts::box_of(solid)[3], 0.2) << solid.id;
  }
}

TEST(Glb, EqualMembersShareOneMesh) {
  // Source: glTF 2.0, section 3.5.3: many nodes may name one mesh; solids that share a shape of the kernel are equal
  const sample::Folder folder{"glb-shared"};
  write_glb(model(), folder / "m.glb");
  const std::string bytes = sample::slurped(folder / "m.glb");
  const Json json = Json::parse(bytes.substr(20, at<std::uint32_t>(bytes, 12)));
  std::map<const void*, std::set<std::size_t>> meshes;
  for (const Json& node : json["nodes"])
    if (node.contains("mesh"))
      meshes[model().find(node["name"])->shape.TShape().get()].insert(node["mesh"].get<std::size_t>());
  EXPECT_LT(json["meshes"].size(), json["nodes"].size() - 1) << "this room has equal studs";
  for (const auto& [shape, named] : meshes) EXPECT_EQ(named.size(), 1u);
}

TEST(Step, NamesItsProductsUnitTimeAndColours) {
  // Source: ISO 10303-21 header and AP214 entities: millimetres, time, product names, a colour for each solid.
  const sample::Folder folder{"step"};
  write_step(model(), folder / "m.step", 86400 + 3661);
  const std::string text = sample::slurped(folder / "m.step");
  EXPECT_NE(text.find("1970-01-02T01:01:01"), std::string::npos);
  EXPECT_NE(text.find("SI_UNIT(.MILLI.,.METRE.)"), std::string::npos);
  EXPECT_NE(text.find("AUTOMOTIVE_DESIGN"), std::string::npos);
  EXPECT_NE(text.find("'fallwright'"), std::string::npos);
  EXPECT_NE(text.find("12 ''L\\X2\\00E4\\X0\\ne''"), std::string::npos);
  for (const char* id : {"base", "bed", "bed-spread", "drain", "seat-block", "subfloor"})
    EXPECT_NE(text.find(std::string{"PRODUCT('"} + id + "','" + id + "'"), std::string::npos) << id;
  std::set<std::string> colours;
  const std::regex colour{"COLOUR_RGB\\('',([0-9.E-]+),([0-9.E-]+),([0-9.E-]+)\\)"};
  for (std::sregex_iterator it{text.begin(), text.end(), colour}, end; it != end; ++it) colours.insert(it->str());
  EXPECT_GE(colours.size(), 8u) << "roles tell apart";
  const std::regex styled{"STYLED_ITEM\\('color',\\(#\\d+\\),#(\\d+)\\)"};
  int painted = 0;
  for (std::sregex_iterator it{text.begin(), text.end(), styled}, end; it != end; ++it, ++painted)
    EXPECT_NE(text.find("\n#" + (*it)[1].str() + " = MANIFOLD_SOLID_BREP("), std::string::npos) << (*it)[1];
  EXPECT_GT(painted, 8);
  int uses = 0;
  const std::regex use{"NEXT_ASSEMBLY_USAGE_OCCURRENCE\\('(\\d+)','([^']*)'"};
  for (std::sregex_iterator it{text.begin(), text.end(), use}, end; it != end; ++it)
    EXPECT_EQ(std::stoi((*it)[1]), ++uses);
  EXPECT_EQ(uses, static_cast<int>(model().solids.size()) - 1) << "the bed as spread stands apart";
}

TEST(Solids, AFullDiskIsToldByEveryFormat) {
  // Source: the contract of errors; /dev/full refuses every byte.
  const sample::Folder folder{"full"};
  std::filesystem::create_directories(folder / ".");
  std::filesystem::create_symlink("/dev/full", folder / "full");
  EXPECT_THROW(write_glb(model(), folder / "full"), diag::MachineError);
  EXPECT_THROW(write_stl(model(), folder / "full"), diag::MachineError);
  EXPECT_THROW(write_stl(model().solids.front(), folder / "full"), diag::MachineError);
  EXPECT_THROW(write_step(model(), folder / "full", 0), diag::MachineError);
}

}  // namespace
}  // namespace fallwright::exchange
