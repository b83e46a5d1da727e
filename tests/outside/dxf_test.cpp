#include "exchange/dxf.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "diag/fault.hpp"
#include "support/run.hpp"

namespace fallwright::exchange {
namespace {

using drawing::LineKind;

drawing::Sheet sheet(bool metric) {
  drawing::Sheet s{"plan", "Plan", metric, {}, {}, {}, {}};
  s.lines = {{{0, 0}, {1828.8, 914.4}, LineKind::outline}, {{10.1, 20.2}, {33.333333333, 20.2}, LineKind::hidden}};
  s.arcs = {{{100, 50}, 25.4, 0, 360, LineKind::outline}, {{100, 50}, 12.7, 30, 150, LineKind::centre}};
  s.texts = {{{5, 6}, 25.4, "17-1/2\" 100 %", 0, drawing::Anchor::left},
             {{50, 60}, 25.4, "upright", 90, drawing::Anchor::middle}};
  return s;
}

nlohmann::json audited(const drawing::Sheet& s) {
  const sample::Folder folder{"dxf"};
  write_dxf(s, folder / "sheet.dxf");
  const sample::Ran ran =
      sample::run(EZDXF_PYTHON " " PROJECT_DIR "/tests/outside/audit_dxf.py " + (folder / "sheet.dxf") + " 2>&1");
  EXPECT_EQ(ran.code, 0) << ran.out;
  return nlohmann::json::parse(ran.out);
}

TEST(Dxf, OpensWithoutRepairInBothUnits) {
  // Source: ezdxf's auditor, an independent reader: no error, no fix; $INSUNITS 1 is inches, 4 millimetres (DXF
  // reference).
  EXPECT_EQ(audited(sheet(false)).at("units"), 1);
  EXPECT_EQ(audited(sheet(true)).at("units"), 4);
}

TEST(Dxf, IsTrueToScaleInTheSheetsUnit) {
  // Source: 25.4 mm to the inch: 72 x 36 in comes back as 72 x 36, and 1/3 survives to a millionth.
  const auto inch = audited(sheet(false)), metric = audited(sheet(true));
  EXPECT_NEAR(inch.at("lines")[0][2].get<double>(), 72, 1e-6);
  EXPECT_NEAR(inch.at("lines")[0][3].get<double>(), 36, 1e-6);
  EXPECT_NEAR(metric.at("lines")[1][2].get<double>(), 33.333333333, 1e-6);
  EXPECT_NEAR(inch.at("circles")[0][2].get<double>(), 1, 1e-9);
}

TEST(Dxf, KeepsCirclesArcsAndTextWhatTheyAre) {
  // Source: the sheet that was written.
  const auto read = audited(sheet(false));
  EXPECT_EQ(read.at("types"), (nlohmann::json{{"ARC", 1}, {"CIRCLE", 1}, {"LINE", 2}, {"TEXT", 2}}));
  EXPECT_NEAR(read.at("arcs")[0][3].get<double>(), 30, 1e-9);
  EXPECT_NEAR(read.at("arcs")[0][4].get<double>(), 150, 1e-9);
  EXPECT_EQ(read.at("texts"), (nlohmann::json{"17-1/2\" 100 %", "upright"}));
}

TEST(Dxf, LayersSayWhatLinesMean) {
  // Source: the names of line kinds.
  EXPECT_EQ(audited(sheet(true)).at("layers"),
            (nlohmann::json{{"centre", 1}, {"hidden", 1}, {"outline", 2}, {"text", 2}}));
}

TEST(Dxf, LettersBeyondAsciiAreTheFormatsOwnCodes) {
  // Source: the DXF reference: %%c diameter, %%d degree, \\U+XXXX any other letter.
  drawing::Sheet s = sheet(true);
  s.texts = {{{0, 0}, 10, "\u00d8 50 at 2\u00b0, B\u00e4der", 0, drawing::Anchor::left}};
  EXPECT_EQ(audited(s).at("texts")[0], "%%c 50 at 2%%d, B\\U+00E4der");
}

TEST(Dxf, ALineEndOrAControlInATextBreaksNoGroup) {
  // Source: ezdxf's auditor: a group is two lines, so a text with a line end would be read as the next group.
  drawing::Sheet s = sheet(true);
  s.texts = {{{0, 0}, 10, "flat 2\n  0\nEOF\r\x1b\xff", 0, drawing::Anchor::left}};
  EXPECT_EQ(audited(s).at("texts")[0], "flat 2   0 EOF \\U+FFFD\\U+FFFD");
}

TEST(Dxf, AFullDiskIsTheMachinesFault) {
  // Source: /dev/full refuses every byte.
  const sample::Folder folder{"full"};
  std::filesystem::create_symlink("/dev/full", folder / "full.dxf");
  EXPECT_THROW(write_dxf(sheet(true), folder / "full.dxf"), diag::MachineError);
}

TEST(Dxf, AFolderThatIsNotThereIsTheMachinesFault) {
  // Source: the contract of errors.
  EXPECT_THROW(write_dxf(sheet(true), "/nowhere/at/all.dxf"), diag::MachineError);
}

}  // namespace
}  // namespace fallwright::exchange
