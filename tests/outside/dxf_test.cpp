#include "exchange/dxf.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "diag/fault.hpp"
#include "drawing/hatch.hpp"
#include "drawing/pen.hpp"
#include "outside/dxf_reader.hpp"
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
  return sample::audited(folder / "sheet.dxf");
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
            (nlohmann::json{{"FW-CENTRE", 1}, {"FW-HIDDEN", 1}, {"FW-OUTLINE", 2}, {"FW-TEXT", 2}}));
}

TEST(Dxf, LettersBeyondAsciiAreLetters) {
  // Source: the DXF reference: from AC1021 on a file is UTF-8; a number for a letter (\\U+005C) where the words
  // themselves would begin such a code.
  drawing::Sheet s = sheet(true);
  s.texts = {{{0, 0}, 10, "\u00d8 50 at 2\u00b0, B\u00e4der, a\\U+0041", 0, drawing::Anchor::left}};
  EXPECT_EQ(audited(s).at("texts")[0], "\u00d8 50 at 2\u00b0, B\u00e4der, a\\U+005CU+0041");
}

TEST(Dxf, ALineEndOrAControlInATextBreaksNoGroup) {
  // Source: ezdxf's auditor: a group is two lines, so a text with a line end would be read as the next group.
  drawing::Sheet s = sheet(true);
  s.texts = {{{0, 0}, 10, "flat 2\n  0\nEOF\r\x1b\xff", 0, drawing::Anchor::left}};
  EXPECT_EQ(audited(s).at("texts")[0], "flat 2   0 EOF \ufffd\ufffd");
}

TEST(Dxf, CapitalsAreAsTallAsOnPaper) {
  // Source: a DXF's height is the capitals' (DXF reference), and so is that of a sheet's text.
  const auto letters = audited(sheet(true)).at("letters");
  EXPECT_NEAR(letters[0][1].get<double>(), 25.4, 1e-9);
  EXPECT_NEAR(letters[1][2].get<double>(), 90, 1e-9);
}

TEST(Dxf, MaterialsAreHatchesAndMembersAreBlocksWithWhatTheyAre) {
  // Source: by construction: a square of 4 in with a square hole of 1, filled by a pattern of one family of lines; the
  // lines that show it on paper are not written beside it. A mark with its stock and length.
  drawing::Sheet s{"section", "Section", false};
  constexpr double in = 25.4;
  fill(
      s,
      {{{{0, 0}, {4 * in, 0}, {4 * in, 4 * in}, {0, 4 * in}}, {{in, in}, {2 * in, in}, {2 * in, 2 * in}, {in, 2 * in}}},
       "ANSI31",
       {{45, 0, 2.2}}},
      1);
  ASSERT_GT(s.lines.size(), 10u);
  s.texts = {{{5, 6}, in, "K", 0, drawing::Anchor::left}};
  s.members = {{0, "K", "2x4", "12-1/2\""}};
  const auto read = audited(s);
  EXPECT_EQ(read.at("types"), (nlohmann::json{{"HATCH", 1}, {"INSERT", 1}, {"TEXT", 1}}));
  EXPECT_EQ(read.at("layers"), (nlohmann::json{{"FW-HATCH", 1}, {"FW-TEXT", 2}}));
  const auto& hatch = read.at("hatches")[0];
  EXPECT_EQ(hatch[0], "ANSI31");
  EXPECT_EQ(hatch[2], 1);
  EXPECT_EQ(hatch[3], 0) << "as ANSI31 lies by itself";
  std::vector<drawing::Outline> rings;
  for (const auto& ring : hatch[1]) {
    rings.emplace_back();
    for (const auto& p : ring) rings.back().push_back({p[0].get<double>(), p[1].get<double>()});
  }
  EXPECT_NEAR(drawing::area_within(rings), 16 - 1, 1e-9);
  EXPECT_EQ(read.at("members"), (nlohmann::json{{{"MARK", "K"}, {"STOCK", "2x4"}, {"LENGTH", "12-1/2\""}}}));
}

TEST(Dxf, AHatchThatLeansTheOtherWayDoesSoReadInDegreesAndInRadians) {
  // Source: DXF reference: 52 is in degrees; in LibreCAD 2.2's print, by eye, a turn of 90
  // leaned as if it were radians: the turn that is written lies right either way.
  drawing::Sheet s{"section", "Section", false};
  fill(s, {{{{0, 0}, {90, 0}, {90, 90}, {0, 90}}}, "ANSI31", {{135, 0, 2.2}}}, 1);
  const double turn = audited(s).at("hatches")[0][3].get<double>();
  const auto off_135 = [](double degrees) { return std::abs(std::remainder(45 + degrees - 135, 180)); };
  EXPECT_LT(off_135(turn), 1e-9);
  EXPECT_LT(off_135(turn * 180 / M_PI), 1.5);
}

TEST(Dxf, ADashedCircleIsTwoArcsAndAPlainOneACircle) {
  // Source: LibreCAD 2.2's print: it dashes arcs and no circles.
  drawing::Sheet s{"section", "Section", true};
  s.arcs = {{{0, 0}, 50, 0, 360, LineKind::phantom}, {{0, 0}, 40, 0, 360, LineKind::outline}};
  EXPECT_EQ(audited(s).at("types"), (nlohmann::json{{"ARC", 2}, {"CIRCLE", 1}}));
}

/// A sheet with a level dimension, an upright one and a line, at 1:8 on tabloid.
drawing::Sheet measured(bool metric) {
  drawing::Sheet s{"plan", "Plan", metric};
  s.page = {{"tabloid", 431.8, 279.4}, 8, {-100, -200}};
  drawing::Pen pen{s, 20};
  pen.line({0, 0}, {1524, 0}, LineKind::outline);
  pen.across({0, 0}, {1524, 0}, -120);
  pen.upright({0, 0}, {0, 812.8}, -150);
  return s;
}

TEST(Dxf, DimensionsAreDimensionsWithTheirPicture) {
  // Source: 60 in and 32 in by construction; the picture is a dimension line, two ticks, two witness lines and words.
  const auto inch = audited(measured(false));
  EXPECT_EQ(inch.at("types"), (nlohmann::json{{"DIMENSION", 2}, {"LINE", 1}}));
  const auto &level = inch.at("dimensions")[0], &upright = inch.at("dimensions")[1];
  EXPECT_NEAR(level[2].get<double>() - level[0].get<double>(), 60, 1e-9);
  EXPECT_NEAR(level[4].get<double>(), 60, 1e-9);
  EXPECT_EQ(level[5], "60");
  EXPECT_EQ(level[6], 0);
  EXPECT_EQ(level[7], (nlohmann::json{"LINE", "LINE", "LINE", "LINE", "LINE", "TEXT"}));
  EXPECT_NEAR(upright[3].get<double>() - upright[1].get<double>(), 32, 1e-9);
  EXPECT_EQ(upright[6], 90);
  const auto metric = audited(measured(true));
  EXPECT_NEAR(metric.at("dimensions")[0][4].get<double>(), 1524, 1e-9);
  EXPECT_EQ(metric.at("dimensions")[0][5], "1524");
}

TEST(Dxf, TheLayoutIsTheSheetsPaperAtItsScale) {
  // Source: tabloid is 17 x 11 in (ANSI Y14.1 B); at 1:8 it shows 88 in of height.
  const auto windows = audited(measured(false)).at("layouts").at("Sheet");
  ASSERT_EQ(windows.size(), 2u);
  EXPECT_NEAR(windows[1][0].get<double>(), 17, 1e-6);
  EXPECT_NEAR(windows[1][1].get<double>(), 11, 1e-6);
  EXPECT_NEAR(windows[1][2].get<double>(), 88, 1e-6);
}

TEST(Dxf, EqualSheetsAreEqualBytes) {
  // Source: the contract: equal jobs make equal files.
  const sample::Folder folder{"twice"};
  for (const char* name : {"a.dxf", "b.dxf"}) write_dxf(measured(true), folder / name);
  EXPECT_EQ(sample::slurped(folder / "a.dxf"), sample::slurped(folder / "b.dxf"));
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
