#include <cmath>
#include <cstdint>
#include <cstring>
#include <map>
#include <set>

#include <gtest/gtest.h>
#include <BRep_Tool.hxx>
#include <Quantity_Color.hxx>
#include <STEPCAFControl_Reader.hxx>
#include <TDF_ChildIterator.hxx>
#include <TDataStd_Name.hxx>
#include <TDocStd_Document.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_ColorTool.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <nlohmann/json.hpp>

#include "brep/properties.hpp"
#include "diag/fault.hpp"
#include "exchange/export.hpp"
#include "exchange/gltf.hpp"
#include "exchange/step.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/run.hpp"
#include "support/sample.hpp"

namespace fallwright::exchange {
namespace {

const parts::Model& model() {
  static const auto built = parts::build(sample::alcove());
  return *built;
}

struct Component {
  double volume;
  bool coloured;
  TDF_Label product;
};

/// What another run of the kernel's reader finds in a STEP file: components by instance name.
std::map<std::string, Component> read_back(const std::string& path) {
  Handle(TDocStd_Document) document;
  XCAFApp_Application::GetApplication()->NewDocument("BinXCAF", document);
  STEPCAFControl_Reader reader;
  reader.SetNameMode(true);
  reader.SetColorMode(true);
  EXPECT_EQ(reader.ReadFile(path.c_str()), IFSelect_RetDone);
  EXPECT_TRUE(reader.Transfer(document));
  const auto shapes = XCAFDoc_DocumentTool::ShapeTool(document->Main());
  const auto colours = XCAFDoc_DocumentTool::ColorTool(document->Main());
  const auto name_of = [](const TDF_Label& label) {
    Handle(TDataStd_Name) name;
    return label.FindAttribute(TDataStd_Name::GetID(), name)
               ? std::string{TCollection_AsciiString{name->Get()}.ToCString()}
               : "";
  };
  std::map<std::string, Component> found;
  TDF_LabelSequence roots, components;
  shapes->GetFreeShapes(roots);
  for (int i = 1; i <= roots.Length(); ++i) {
    const TopoDS_Shape shape = shapes->GetShape(roots(i));
    if (!shapes->IsAssembly(roots(i))) found[name_of(roots(i))] = {brep::volume_mm3(shape), true, roots(i)};
    components.Clear();
    shapes->GetComponents(roots(i), components);
    for (int k = 1; k <= components.Length(); ++k) {
      TDF_Label product;
      shapes->GetReferredShape(components(k), product);
      const TopoDS_Shape solid = shapes->GetShape(components(k));
      Quantity_Color colour;
      const bool coloured = colours->GetColor(shapes->GetShape(product), XCAFDoc_ColorSurf, colour) ||
                            colours->GetColor(product, XCAFDoc_ColorSurf, colour);
      found[name_of(components(k))] = {brep::volume_mm3(solid), coloured, product};
    }
  }
  return found;
}

TEST(Step, ReadsBackWithAllNamesVolumesAndColours) {
  // Source: the kernel's own reader, on the file alone.
  const sample::Folder folder{"step"};
  write_step(model(), folder / "model.step", 0);
  const auto found = read_back(folder / "model.step");
  EXPECT_EQ(found.size(), model().solids.size());
  for (const parts::Solid& solid : model().solids) {
    ASSERT_TRUE(found.contains(solid.id)) << solid.id;
    EXPECT_NEAR(found.at(solid.id).volume / brep::volume_mm3(solid.shape), 1, 1e-9) << solid.id;
    EXPECT_TRUE(found.at(solid.id).coloured) << solid.id;
  }
}

TEST(Step, EqualMembersAreInstancesOfOneProduct) {
  // Source: the file: studs of the back and the right wall refer to one product.
  const sample::Folder folder{"step"};
  write_step(model(), folder / "model.step", 0);
  const auto found = read_back(folder / "model.step");
  EXPECT_TRUE(found.at("wall-back/stud-02").product == found.at("wall-right/stud-03").product);
  EXPECT_FALSE(found.at("wall-back/stud-02").product == found.at("base").product);
}

TEST(Step, IsAFileOfItsStandard) {
  // Source: ISO 10303-21: magic words at both ends, header entities in order; SI millimetres.
  const sample::Folder folder{"step"};
  write_step(model(), folder / "model.step", 86400);
  const std::string text = sample::slurped(folder / "model.step");
  EXPECT_EQ(text.rfind("ISO-10303-21;", 0), 0u);
  EXPECT_NE(text.find("END-ISO-10303-21;"), std::string::npos);
  EXPECT_LT(text.find("FILE_DESCRIPTION"), text.find("FILE_NAME"));
  EXPECT_LT(text.find("FILE_NAME"), text.find("FILE_SCHEMA"));
  EXPECT_NE(text.find("'1970-01-02T00:00:00'"), std::string::npos);
  EXPECT_NE(text.find("SI_UNIT(.MILLI.,.METRE.)"), std::string::npos);
}

TEST(Step, EqualModelsAreEqualFilesWhateverWasWrittenBefore) {
  // Source: the contract of byte-identical reruns.
  const sample::Folder folder{"step"};
  write_step(model(), folder / "a.step", 0);
  job::Job other = sample::alcove();
  other.base.ribs = {3, 3, job::Length::mm(10)};
  write_step(*parts::build(other), folder / "between.step", 0);
  write_step(*parts::build(sample::alcove()), folder / "b.step", 0);
  EXPECT_EQ(sample::slurped(folder / "a.step"), sample::slurped(folder / "b.step"));
}

TEST(Glb, HasANodeForEachSolidInMetresWithYUp) {
  // Source: glTF 2.0, section 3.4: metres, +Y up; assimp as an independent reader.
  const sample::Folder folder{"glb"};
  write_glb(model(), folder / "model.glb");
  const std::string bytes = sample::slurped(folder / "model.glb");
  std::uint32_t total = 0, length = 0;
  std::memcpy(&total, bytes.data() + 8, 4);
  std::memcpy(&length, bytes.data() + 12, 4);
  EXPECT_EQ(bytes.substr(0, 4), "glTF");
  EXPECT_EQ(total, bytes.size());
  const auto json = nlohmann::json::parse(bytes.substr(20, length));
  std::set<std::string> nodes, materials;
  for (const auto& node : json.at("nodes")) nodes.insert(node.at("name"));
  for (const auto& material : json.at("materials")) materials.insert(material.at("name"));
  for (const parts::Solid& solid : model().solids) {
    EXPECT_EQ(nodes.contains(solid.id), solid.role != parts::Role::bed_spread) << solid.id;
    if (solid.role == parts::Role::bed_spread) continue;
    EXPECT_TRUE(materials.contains(parts::name_of(solid.role))) << solid.id;
  }
  const sample::Ran assimp = sample::run("assimp info " + (folder / "model.glb") + " 2>&1");
  ASSERT_EQ(assimp.code, 0) << "package assimp-utils: " << assimp.out;
  // 3-1/2 in of wall left of the origin; 96 in high; 12 in of floor before the entry, which is +Z.
  EXPECT_NE(assimp.out.find("Minimum point      (-0.088900 -0.254000 -1.003300)"), std::string::npos) << assimp.out;
  EXPECT_NE(assimp.out.find("Maximum point      (1.917700 2.438400 0.304800)"), std::string::npos);
}

class Stl : public testing::Test {
 protected:
  void SetUp() override {
    write_stls(model(), [&](const std::string& name) {
      std::filesystem::create_directories(std::filesystem::path{folder / name}.parent_path());
      return folder / name;
    });
  }
  sample::Folder folder{"stl"};
};

TEST_F(Stl, HasTheSizeOfItsFormat) {
  // Source: binary STL: 80 bytes that do not begin with "solid", a count, 50 bytes for each triangle.
  const std::string bytes = sample::slurped(folder / "stl/base.stl");
  std::uint32_t count = 0;
  std::memcpy(&count, bytes.data() + 80, 4);
  EXPECT_EQ(bytes.size(), 84 + 50 * std::size_t{count});
  EXPECT_NE(bytes.substr(0, 5), "solid");
}

TEST_F(Stl, EveryFileIsWatertightAndHasTheSolidsVolume) {
  // Source: admesh as an independent reader: no open edge, no turned facet; its volume in single precision.
  for (const parts::Solid& solid : model().solids) {
    const sample::Ran ran = sample::run("admesh " + (folder / ("stl/" + solid.id + ".stl")) + " 2>&1");
    ASSERT_EQ(ran.code, 0) << "package admesh: " << ran.out;
    const auto number = [&](const std::string& label) {
      const auto at = ran.out.find(label);
      return at == std::string::npos ? NAN : std::strtod(ran.out.c_str() + ran.out.find(':', at) + 1, nullptr);
    };
    EXPECT_EQ(number("Total disconnected facets"), 0) << solid.id;
    for (const char* repair :
         {"Edges fixed", "Facets removed", "Facets added", "Facets reversed", "Backwards edges", "Normals fixed"})
      EXPECT_EQ(number(repair), 0) << solid.id << ": " << repair;
    EXPECT_NEAR(number("Volume") / brep::volume_mm3(solid.shape), 1, 2e-3) << solid.id;
  }
}

TEST_F(Stl, TheWholeModelIsReadByOthers) {
  // Source: assimp as an independent reader; all solids but the bed as spread.
  const sample::Ran ran = sample::run("assimp info " + (folder / "model.stl") + " 2>&1");
  EXPECT_EQ(ran.code, 0) << "package assimp-utils: " << ran.out;
  EXPECT_NE(ran.out.find("Meshes:             1"), std::string::npos) << ran.out;
}

TEST(Writers, AFolderThatIsNotThereIsTheMachinesFault) {
  // Source: the contract of errors.
  EXPECT_THROW(write_step(model(), "/nowhere/at/all.step", 0), diag::MachineError);
  EXPECT_THROW(write_glb(model(), "/nowhere/at/all.glb"), diag::MachineError);
  EXPECT_THROW(write_stls(model(), [](const std::string& name) { return "/nowhere/at/" + name; }), diag::MachineError);
}

}  // namespace
}  // namespace fallwright::exchange
