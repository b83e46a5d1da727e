/// A job's name in every file, as the kernel's reader, ezdxf, poppler and Python's own modules read it back.
#include <map>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <STEPCAFControl_Reader.hxx>
#include <TDataStd_Name.hxx>
#include <TDocStd_Document.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <nlohmann/json.hpp>

#include "support/run.hpp"

namespace fallwright {
namespace {

const std::string name = "Café Zoë, Bauer's; \\X2\\ 🚿 %%d ^J Łódź";

/// Two rooms, one of them named by it, built once.
class Names : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    folder_ = std::make_unique<sample::Folder>("names");
    const sample::Ran ran =
        sample::run(FALLWRIGHT " build --together -q --out " + folder_->path().string() +
                    " " PROJECT_DIR "/tests/outside/jobs/names.toml " PROJECT_DIR "/params/tannery-lane-5c.toml 2>&1");
    ASSERT_LE(ran.code, 1) << ran.out;
  }
  static void TearDownTestSuite() { folder_.reset(); }

  static std::string file(const std::string& path) { return *folder_ / path; }
  /// A folder that was built, read once.
  static const nlohmann::json& read(const std::string& path) {
    static std::map<std::string, nlohmann::json> all;
    if (const auto known = all.find(path); known != all.end()) return known->second;
    const sample::Ran ran = sample::run(PYTHON " " PROJECT_DIR "/tests/outside/read_text.py " + file(path));
    EXPECT_EQ(ran.code, 0) << ran.out;
    return all.emplace(path, nlohmann::json::parse(ran.out, nullptr, false)).first->second;
  }

 private:
  static std::unique_ptr<sample::Folder> folder_;
};
std::unique_ptr<sample::Folder> Names::folder_;

TEST_F(Names, StandInTheModelsAsTheyWereGiven) {
  // Source: ISO 10303-21:2016, 5.5 and 6.4.3 (strings and their control directives), by a reader of its own; glTF's
  // names are JSON, by Python's json.
  const nlohmann::json found = read("names");
  EXPECT_EQ(found.at("step").at("header"), name);
  EXPECT_EQ(found.at("step").at("products")[0], name);
  EXPECT_EQ(found.at("step").at("products")[1], "subfloor");
  EXPECT_THAT(found.at("glb").get<std::vector<std::string>>(), testing::Contains(name));
  EXPECT_EQ(found.at("report"), name);
}

TEST_F(Names, ComeBackFromTheKernelsReader) {
  // Source: the kernel's own STEP reader, on the file alone.
  Handle(TDocStd_Document) document;
  XCAFApp_Application::GetApplication()->NewDocument("BinXCAF", document);
  STEPCAFControl_Reader reader;
  reader.SetNameMode(true);
  ASSERT_EQ(reader.ReadFile(file("names/model.step").c_str()), IFSelect_RetDone);
  ASSERT_TRUE(reader.Transfer(document));
  TDF_LabelSequence roots;
  XCAFDoc_DocumentTool::ShapeTool(document->Main())->GetFreeShapes(roots);
  std::vector<std::string> names;
  for (const TDF_Label& root : roots) {
    Handle(TDataStd_Name) label;
    ASSERT_TRUE(root.FindAttribute(TDataStd_Name::GetID(), label));
    std::string utf8(static_cast<std::size_t>(label->Get().LengthOfCString()) + 1, '\0');
    Standard_PCharacter bytes = utf8.data();
    label->Get().ToUTF8CString(bytes);
    names.emplace_back(utf8.c_str());
  }
  EXPECT_THAT(names, testing::Contains(name));
}

TEST_F(Names, BreakNoTable) {
  // Source: RFC 4180, section 2, rule 4, read by Python's csv module in its strict mode.
  int tables = 0;
  for (const auto& found : {read("names").at("csv"), read("together").at("csv")})
    for (const auto& [table, rows] : found.items()) {
      ++tables;
      ASSERT_GE(rows.size(), 2u) << table;
      for (const auto& row : rows) EXPECT_EQ(row.size(), rows[0].size()) << table << ": " << row;
    }
  EXPECT_EQ(tables, 8);
  EXPECT_EQ(read("together").at("csv").at("rooms.csv")[1][1], name);
}

TEST_F(Names, StandOnPaperAndOnScreen) {
  // Source: poppler, and Python's XML parser; what poppler calls a title is the PDF's own.
  EXPECT_THAT(sample::run("pdfinfo " + file("names/drawings.pdf")).out, testing::HasSubstr(name));
  EXPECT_THAT(sample::run("pdftotext " + file("names/drawings.pdf") + " -").out, testing::HasSubstr("Café Zoë"));
  EXPECT_GT(read("names").at("svg").size(), 15u);
}

TEST_F(Names, ReadBackFromEveryDxf) {
  // Source: ezdxf: an audit without error or fix; the DXF reference: \U+XXXX is a letter's number (in halves beyond
  // FFFF), ^ and a blank a caret, %%nnn the sign of that number.
  const sample::Ran ran = sample::run(PYTHON " " PROJECT_DIR "/tests/outside/audit_dxf.py --plain " +
                                      file("names/drawings") + "/*.dxf 2>&1");
  ASSERT_EQ(ran.code, 0) << ran.out;
  const auto sheet = nlohmann::json::parse(ran.out.substr(0, ran.out.find('\n')));
  EXPECT_THAT(sheet.at("texts").get<std::vector<std::string>>(), testing::Contains(name));
}

}  // namespace
}  // namespace fallwright
