// A small sheet in every format of sheets, read back letter by letter: lines, arcs, texts, styles and pages.
#include <algorithm>
#include <cctype>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include <gtest/gtest.h>

#include "diag/fault.hpp"
#include "exchange/dxf.hpp"
#include "exchange/paper.hpp"
#include "exchange/small_sheet.hpp"
#include "support/run.hpp"

namespace fallwright::exchange {
namespace {

using drawing::Anchor;
using drawing::LineKind;
using drawing::Sheet;

/// The groups of a DXF: code and value.
std::vector<std::pair<int, std::string>> groups_of(const Sheet& s) {
  const sample::Folder folder{"small-dxf"};
  write_dxf(s, folder / "s.dxf");
  std::ifstream in{folder / "s.dxf"};
  std::vector<std::pair<int, std::string>> groups;
  for (std::string code, value; std::getline(in, code) && std::getline(in, value);)
    groups.emplace_back(std::stoi(code), value);
  return groups;
}

using Record = std::multimap<int, std::string>;
/// Records of one type: what stands between its group 0 and the next.
std::vector<Record> records(const std::vector<std::pair<int, std::string>>& groups, const std::string& type) {
  std::vector<Record> all;
  bool in = false;
  for (const auto& [code, value] : groups) {
    if (code == 0) in = value == type;
    if (code == 0 && in) all.emplace_back();
    if (in) all.back().emplace(code, value);
  }
  return all;
}

double number(const Record& r, int code) {
  return std::stod(r.find(code)->second);
}
std::string word(const Record& r, int code) {
  return r.find(code)->second;
}

/// "outline" as the layer "FW-OUTLINE".
std::string layer_of(LineKind kind) {
  std::string name = std::string{"FW-"} + drawing::name_of(kind);
  for (char& c : name) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return name;
}

TEST(Dxf, EveryKindOfLineHasALayerOfItsOwn) {
  // Source: the DXF reference: LAYER 2 name, 6 line type, 62 colour (7 black or white; 0 to 255), 290 whether it
  // prints, 370 weight in hundredths of a millimetre, one of the format's list; LTYPE 40 whole pattern, 49 its parts.
  // Dashes in paper millimetres, as the PDF has them.
  const auto groups = groups_of(small_sheet(false));
  const std::set<int> weights{0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100};
  std::map<std::string, std::string> types;
  for (const Record& layer : records(groups, "LAYER"))
    if (layer.count(6)) {
      types[word(layer, 2)] = word(layer, 6);
      EXPECT_TRUE(weights.contains(static_cast<int>(number(layer, 370)))) << word(layer, 2);
      EXPECT_EQ(number(layer, 290), number(layer, 370) > 0 ? 1 : 0) << word(layer, 2);
    }
  for (const LineKind kind : drawing::all_line_kinds) {
    const bool dashed = kind == LineKind::hidden || kind == LineKind::correction;
    EXPECT_EQ(types[layer_of(kind)], dashed                       ? "DASHEDTINY"
                                     : kind == LineKind::limit    ? "DASHED2"
                                     : kind == LineKind::centre   ? "CENTERTINY"
                                     : kind == LineKind::phantom  ? "DIVIDETINY"
                                     : kind == LineKind::existing ? "DOTTINY"
                                                                  : "Continuous");
  }
  std::map<std::string, std::vector<double>> patterns;
  for (const Record& type : records(groups, "LTYPE"))
    if (type.count(40)) {
      std::vector<double>& p = patterns[word(type, 2)];
      p.push_back(number(type, 40));
      for (auto [it, end] = type.equal_range(49); it != end; ++it) p.push_back(std::stod(it->second));
    }
  EXPECT_EQ(patterns["DASHEDTINY"], (std::vector<double>{4, 3, -1}));
  EXPECT_EQ(patterns["DASHED2"], (std::vector<double>{8, 6, -2}));
  EXPECT_EQ(patterns["CENTERTINY"], (std::vector<double>{11.5, 9, -1, 0.5, -1}));
  EXPECT_EQ(patterns["DIVIDETINY"], (std::vector<double>{13, 9, -1, 0.5, -1, 0.5, -1}));
}

TEST(Dxf, TheHeaderTellsUnitAndScaleOfDashes) {
  // Source: the DXF reference: $INSUNITS 1 inches, 4 millimetres; $MEASUREMENT 0 English, 1 metric; a sheet at
  // 1:2 shows a paper millimetre as 2 mm or 2/25.4 in.
  for (const bool metric : {false, true}) {
    std::map<std::string, double> header;
    std::string name;
    for (const auto& [code, value] : groups_of(small_sheet(metric))) {
      if (code == 9) name = value;
      if (code == 40 || code == 70) header.emplace(name, std::stod(value));
    }
    EXPECT_EQ(header["$INSUNITS"], metric ? 4 : 1);
    EXPECT_EQ(header["$MEASUREMENT"], metric ? 1 : 0);
    EXPECT_NEAR(header["$LTSCALE"], metric ? 2 : 2 / 25.4, 1e-9);
    EXPECT_NEAR(header["$DIMSCALE"], header["$LTSCALE"], 1e-12);
  }
}

TEST(Dxf, LinesAndArcsAreWhereTheyWere) {
  // Source: the sheet: lines from (1, n/2) to (2, n/2) and 2 mm in inches, each on the layer of its kind; arcs about
  // (100, 50) and (110, 60) mm.
  for (const bool metric : {false, true}) {
    const double unit = metric ? 1 : 25.4;
    const auto groups = groups_of(small_sheet(metric));
    const auto lines = records(groups, "LINE");
    ASSERT_EQ(lines.size(), std::size(drawing::all_line_kinds));
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const double y = 12.7 * (i + 1);
      EXPECT_EQ(word(lines[i], 8), layer_of(drawing::all_line_kinds[i]));
      EXPECT_NEAR(number(lines[i], 10), 25.4 / unit, 1e-6);
      EXPECT_NEAR(number(lines[i], 20), y / unit, 1e-6);
      EXPECT_NEAR(number(lines[i], 11), 50.8 / unit, 1e-6);
      EXPECT_NEAR(number(lines[i], 21), (y + 2) / unit, 1e-6);
    }
    const auto circles = records(groups, "CIRCLE"), arcs = records(groups, "ARC");
    ASSERT_EQ(circles.size(), 1u);
    ASSERT_EQ(arcs.size(), 1u);
    EXPECT_NEAR(number(circles[0], 10), 100 / unit, 1e-6);
    EXPECT_NEAR(number(circles[0], 20), 50 / unit, 1e-6);
    EXPECT_NEAR(number(circles[0], 40), 25.4 / unit, 1e-6);
    EXPECT_EQ(word(circles[0], 8), "FW-OUTLINE");
    EXPECT_NEAR(number(arcs[0], 10), 110 / unit, 1e-6);
    EXPECT_NEAR(number(arcs[0], 20), 60 / unit, 1e-6);
    EXPECT_NEAR(number(arcs[0], 40), 12.7 / unit, 1e-6);
    EXPECT_NEAR(number(arcs[0], 50), 30, 1e-6);
    EXPECT_NEAR(number(arcs[0], 51), 150, 1e-6);
    EXPECT_EQ(word(arcs[0], 8), "FW-HIDDEN");
  }
}

TEST(Dxf, HasItsSectionsInOrderAndAnArcIsNoCircle) {
  // Source: the DXF reference (AC1021): sections HEADER, CLASSES, TABLES, BLOCKS, ENTITIES, OBJECTS, then EOF; an arc
  // from 200 to 300 degrees is a hundred degrees long; line types BYLAYER and BYBLOCK stand in their table.
  Sheet s = small_sheet(true);
  s.arcs = {{{0, 0}, 5, 200, 300, LineKind::outline}};
  const auto groups = groups_of(s);
  std::vector<std::string> sections;
  for (const Record& section : records(groups, "SECTION")) sections.push_back(word(section, 2));
  EXPECT_EQ(sections, (std::vector<std::string>{"HEADER", "CLASSES", "TABLES", "BLOCKS", "ENTITIES", "OBJECTS"}));
  EXPECT_EQ(groups.back().second, "EOF");
  EXPECT_TRUE(records(groups, "CIRCLE").empty());
  ASSERT_EQ(records(groups, "ARC").size(), 1u);
  EXPECT_NEAR(number(records(groups, "ARC")[0], 50), 200, 1e-9);
}

TEST(Dxf, TextsKeepPlaceHeightTurnAndAlignment) {
  // Source: the DXF reference, TEXT: 10 and 20 the first alignment point, 11 and 21 the second where it is not left, 40
  // height of capitals, which a sheet's texts go by as well, 50 rotation in degrees, 72 horizontal: 0 left, 1 centre, 2
  // right.
  const auto texts = records(groups_of(small_sheet(false)), "TEXT");
  const Sheet s = small_sheet(false);
  ASSERT_EQ(texts.size(), s.texts.size());
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const drawing::Text& t = s.texts[i];
    EXPECT_EQ(word(texts[i], 8), "FW-TEXT");
    EXPECT_EQ(word(texts[i], 1), "abc");
    EXPECT_NEAR(number(texts[i], 10), t.at.x / 25.4, 1e-6);
    EXPECT_NEAR(number(texts[i], 20), t.at.y / 25.4, 1e-6);
    ASSERT_EQ(texts[i].count(11), t.anchor == Anchor::left ? 0u : 1u);
    if (texts[i].count(11)) {
      EXPECT_NEAR(number(texts[i], 11), t.at.x / 25.4, 1e-6);
      EXPECT_NEAR(number(texts[i], 21), t.at.y / 25.4, 1e-6);
    }
    EXPECT_NEAR(number(texts[i], 40), t.height / 25.4, 1e-9);
    EXPECT_NEAR(number(texts[i], 50), t.rotation_deg, 1e-6);
    EXPECT_EQ(number(texts[i], 72), t.anchor == Anchor::left ? 0 : t.anchor == Anchor::middle ? 1 : 2);
  }
}

TEST(Dxf, EscapesWhatTheFormatWouldObey) {
  // Source: the DXF reference: letters are UTF-8 from AC1021 on; %%nnn a letter by its number; ^ and a blank for a
  // caret;
  // \\U+ and four digits a letter by its number.
  const std::pair<const char*, const char*> all[] = {{"5\u00b0 \u00b1 \u00d8 \u2300", "5\u00b0 \u00b1 \u00d8 \u2300"},
                                                     {"a^b", "a^ b"},
                                                     {"100 %", "100 %"},
                                                     {"a%%d", "a%%037%%037d"},
                                                     {"\\U+0041 \\M \\x", "\\U+005CU+0041 \\U+005CM \\x"},
                                                     {"\u0141\U0001f6bf", "\u0141\U0001f6bf"},
                                                     {"~\x7f", "~\ufffd"}};
  for (const auto& [words, written] : all) {
    Sheet s = small_sheet(true);
    s.texts = {{{0, 0}, 5, words, 0, Anchor::left}};
    EXPECT_EQ(word(records(groups_of(s), "TEXT").at(0), 1), written);
  }
}

std::string svg_of(const Sheet& s) {
  const sample::Folder folder{"small-svg"};
  write_svg(s, folder / "s.svg");
  return sample::slurped(folder / "s.svg");
}

struct Stroke {
  double width = 0, grey = 0;
  std::vector<double> dashes, path;
};

std::vector<double> numbers_in(const std::string& text) {
  static const std::regex number{"-?[0-9.]+(e-?[0-9]+)?"};
  std::vector<double> all;
  for (std::sregex_iterator it{text.begin(), text.end(), number}, end; it != end; ++it)
    all.push_back(std::stod(it->str()));
  return all;
}

/// What a pattern with one group finds in a text.
std::string found(const std::string& text, const char* pattern) {
  std::smatch m;
  return std::regex_search(text, m, std::regex{pattern}) ? m[1].str() : "";
}

/// Paths by the kind of line that they are; in millimetres of the page.
std::map<std::string, Stroke> strokes_of(const std::string& svg) {
  static const std::regex path{"<path class=[^>]*>"};
  std::map<std::string, Stroke> all;
  for (std::sregex_iterator it{svg.begin(), svg.end(), path}, end; it != end; ++it) {
    const std::string tag = it->str();
    all[found(tag, "class=\"([a-z]+)\"")] = {std::stod(found(tag, "stroke-width=\"([0-9.]+)\"")),
                                             numbers_in(found(tag, "stroke=\"rgb\\(([0-9]+),")).at(0) / 255,
                                             numbers_in(found(tag, "stroke-dasharray=\"([0-9., ]+)\"")),
                                             numbers_in(found(tag, " d=\"([^\"]*)\""))};
  }
  return all;
}

TEST(Svg, StrokesHaveTheirWeightDashesAndPlace) {
  // Source: by hand: a page of 200 x 100 mm; (25.4, 12.7) lies 45.4 / 2 = 22.7 mm from its left and 22.7 / 2 = 11.35
  // from its foot. Weights in millimetres on paper, 1 to 2 to 4 with hatches finer; what stands already is dotted, as a
  // copier has no grey.
  const std::string svg = svg_of(small_sheet(false));
  EXPECT_NE(svg.find("width=\"200mm\" height=\"100mm\" viewBox=\"0 0 200 100\""), std::string::npos);
  const auto strokes = strokes_of(svg);
  ASSERT_EQ(strokes.size(), std::size(drawing::all_line_kinds));
  const std::map<LineKind, std::pair<double, std::vector<double>>> wanted{
      {LineKind::section, {0.7, {}}},
      {LineKind::outline, {0.35, {}}},
      {LineKind::hidden, {0.18, {3, 1}}},
      {LineKind::centre, {0.18, {9, 1, 0.5, 1}}},
      {LineKind::phantom, {0.18, {9, 1, 0.5, 1, 0.5, 1}}},
      {LineKind::dimension, {0.18, {}}},
      {LineKind::hatch, {0.13, {}}},
      {LineKind::text, {0.18, {}}},
      {LineKind::existing, {0.35, {0.4, 0.9}}},
      {LineKind::faint, {0.13, {}}},
      {LineKind::correction, {0.7, {3, 1}}},
      {LineKind::limit, {0.35, {6, 2}}},
      {LineKind::rejected, {0.7, {}}},
      {LineKind::sheet, {0.35, {}}},
      {LineKind::frame, {0.7, {}}}};
  std::size_t line = 0;
  for (const LineKind kind : drawing::all_line_kinds) {
    const Stroke& s = strokes.at(drawing::name_of(kind));
    EXPECT_NEAR(s.width, wanted.at(kind).first, 1e-6) << name_of(kind);
    EXPECT_EQ(s.dashes, wanted.at(kind).second) << name_of(kind);
    EXPECT_NEAR(s.grey, 0, 0.01) << name_of(kind);
    const double y = 12.7 * ++line;
    ASSERT_GE(s.path.size(), 4u) << name_of(kind);
    EXPECT_NEAR(s.path[0], (25.4 + 20) / 2, 0.01);
    EXPECT_NEAR(s.path[1], 100 - (y + 10) / 2, 0.01);
    EXPECT_NEAR(s.path[2], (50.8 + 20) / 2, 0.01);
    EXPECT_NEAR(s.path[3], 100 - (y + 2 + 10) / 2, 0.01);
  }
}

TEST(Svg, ArcsBeginAndEndWhereTheyDid) {
  // Source: by hand: the arc of 12.7 mm about (110, 60) from 30 to 150 degrees begins at (120.998, 66.35), ends at
  // (99.002, 66.35), less than half a turn of radius 6.35 on paper, counter-clockwise up the page; the circle of 25.4
  // about (100, 50) begins at (125.4, 50) and comes back there by two halves.
  const auto strokes = strokes_of(svg_of(small_sheet(false)));
  const auto arc_of = [&](const char* kind) {
    const std::vector<double>& path = strokes.at(kind).path;
    return std::vector<double>{path.begin() + 4, path.end()};  // after the kind's line
  };
  const std::vector<double> circle = arc_of("outline"), arc = arc_of("hidden");
  ASSERT_EQ(circle.size(), 16u);
  EXPECT_NEAR(circle[0], 145.4 / 2, 0.01);
  EXPECT_NEAR(circle[1], 100 - 60 / 2., 0.01);
  EXPECT_NEAR(circle[7], (100 - 25.4 + 20) / 2, 0.01) << "half way round";
  EXPECT_NEAR(circle[14], circle[0], 0.01);
  EXPECT_NEAR(circle[15], circle[1], 0.01);
  ASSERT_EQ(arc.size(), 9u);
  EXPECT_NEAR(arc[0], (120.998 + 20) / 2, 0.01);
  EXPECT_NEAR(arc[1], 100 - (66.35 + 10) / 2, 0.01);
  EXPECT_NEAR(arc[2], 6.35, 0.001);
  EXPECT_EQ(arc[5], 0) << "the short way";
  EXPECT_EQ(arc[6], 0) << "over the top, not under the foot";
  EXPECT_NEAR(arc[7], (99.002 + 20) / 2, 0.01);
  EXPECT_NEAR(arc[8], 100 - (66.35 + 10) / 2, 0.01);
}

TEST(Svg, TextsStayWordsAtTheirAnchorAndTurn) {
  // Source: by hand: (10, 20) is 15 mm from the left and 85 from the page's top; capitals of 2.54 mm in a font whose
  // capitals are 0.737 of its size (osifont's own table); the font's a, b and c are 0.74, 0.82 and 0.68 of a capital
  // wide, set at 0.88.
  const std::string svg = svg_of(small_sheet(false));
  static const std::regex text{"<text [^>]*>abc</text>"};
  std::vector<std::string> tags;
  for (std::sregex_iterator it{svg.begin(), svg.end(), text}, end; it != end; ++it) tags.push_back(it->str());
  ASSERT_EQ(tags.size(), 5u);
  const auto value = [](const std::string& tag, const std::string& name) {
    return std::stod(found(tag, (" " + name + "=\"([-0-9.]+)").c_str()));
  };
  for (std::size_t i = 0; i < tags.size(); ++i) {
    const double high = i == 2 ? 5.08 : 2.54;
    EXPECT_NEAR(value(tags[i], "font-size"), high / 0.7373, 0.01) << i;
    EXPECT_NEAR(value(tags[i], "textLength"), high * 0.88 * (0.74 + 0.82 + 0.68), 0.1) << i;
    EXPECT_EQ(found(tags[i], "text-anchor=\"([a-z]+)\""),
              (std::vector<std::string>{"", "middle", "end", "", "middle"}[i]));
    EXPECT_EQ(found(tags[i], "rotate\\((-?[0-9]+) "), i > 2 ? "-90" : "") << "upward on the page";
  }
  EXPECT_NEAR(value(tags[0], "x"), 15, 0.001);
  EXPECT_NEAR(value(tags[0], "y"), 85, 0.001);
  EXPECT_NEAR(value(tags[3], "x"), 25, 0.001);
  EXPECT_NEAR(value(tags[3], "y"), 55, 0.001);
}

TEST(Svg, TextsHaveWhiteBehindThem) {
  // Source: by hand: a mask of 0.6 mm about capitals of 2.54 mm at (15, 85), under the words and over the lines.
  const std::string svg = svg_of(small_sheet(false));
  const std::size_t mask = svg.find("<rect x=\"14.4\" y=\"81.86\""), words = svg.find(">abc<"),
                    lines = svg.rfind("<path");
  ASSERT_NE(mask, std::string::npos);
  EXPECT_LT(mask, words);
  EXPECT_GT(mask, lines);
}

TEST(Svg, NoEdgeSeemsToEndInTheWhiteBesideAText) {
  // Source: by hand: the text begins at 15. An edge of 0.35 whose middle stands 0.5 before it leaves 0.325: white of
  // 0.3. One that runs through the letters stops before them, and a dimension's line stops at any.
  const auto white = [](LineKind kind, double off) {
    Sheet sheet = small_sheet(false);
    const double scale = sheet.page.scale;
    const drawing::Point at = sheet.texts.front().at;
    sheet.lines = {{{at.x + off * scale, at.y - 90 * scale}, {at.x + off * scale, at.y + 90 * scale}, kind}};
    sheet.arcs.clear();
    const std::string svg = svg_of(sheet);
    const std::size_t mask = svg.find("<rect x=\"14.");
    return mask == std::string::npos ? 0 : 15 - std::stod(svg.substr(mask + 9));
  };
  EXPECT_NEAR(white(LineKind::outline, -0.5), 0.3, 1e-6);
  EXPECT_NEAR(white(LineKind::correction, -0.5), 0.1, 1e-6);  // twice as heavy, it leaves 0.15
  EXPECT_NEAR(white(LineKind::outline, 1), 0.6, 1e-6);
  EXPECT_NEAR(white(LineKind::outline, -2), 0.6, 1e-6);
  EXPECT_NEAR(white(LineKind::dimension, -0.5), 0.6, 1e-6);
}

TEST(Svg, AFigureIsFilledWithItsTintUnderTheLines) {
  // Source: by hand: 0.5 of 255 is 128 (half a step up); (20, 30) lies 20 mm from the page's left, 80 from its top.
  // Where figures are filled no text has white behind it: it would cut holes in them.
  Sheet s = small_sheet(false);
  s.areas = {{{{20, 30}, {60, 30}, {60, 70}}, {1, 0.5, 0}}};
  const std::string svg = svg_of(s);
  const std::string wanted =
      "<path d=\"M20 80L40 80L40 60Z\" fill=\"rgb(255,128,0)\" stroke=\"rgb(255,128,0)\" stroke-width=\"0.06\"/>";
  const std::size_t at = svg.find(wanted);
  ASSERT_NE(at, std::string::npos) << svg.substr(0, 1500);
  EXPECT_LT(at, svg.find("<path class="));
  EXPECT_EQ(svg.find("<rect x=\"14.4\""), std::string::npos);
}

TEST(Svg, EscapesWhatTheFormatWouldObey) {
  // Source: XML 1.0, 2.4: & and < stand for themselves only as references.
  Sheet s = small_sheet(true);
  s.texts = {{{0, 0}, 5, "a < b & \"c\"", 0, Anchor::left}};
  EXPECT_NE(svg_of(s).find(">a &lt; b &amp; &quot;c&quot;</text>"), std::string::npos);
}

TEST(Sheets, AFullDiskIsToldByEveryFormat) {
  // Source: the contract of errors; /dev/full refuses every byte.
  const sample::Folder folder{"full-sheets"};
  std::filesystem::create_directories(folder / ".");
  std::filesystem::create_symlink("/dev/full", folder / "full");
  EXPECT_THROW(write_dxf(small_sheet(false), folder / "full"), diag::MachineError);
  EXPECT_THROW(write_svg(small_sheet(false), folder / "full"), diag::MachineError);
  EXPECT_THROW(write_pdf({small_sheet(false)}, "a", folder / "full", 0), diag::MachineError);
}

}  // namespace
}  // namespace fallwright::exchange
