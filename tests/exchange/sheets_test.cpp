// A small sheet in every format of sheets, read back letter by letter: lines, arcs, texts, styles and pages.
#include <algorithm>
#include <cctype>
#include <cmath>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include <gtest/gtest.h>

#include "exchange/dxf.hpp"
#include "exchange/paper.hpp"
#include "support/run.hpp"

namespace fallwright::exchange {
namespace {

using drawing::Anchor;
using drawing::LineKind;
using drawing::Sheet;

/// A page of 200 x 100 mm at 1:2 whose lower left corner lies at (-20, -10).
Sheet small_sheet(bool metric) {
  Sheet s{"plan", "Plan", metric, {}, {}, {}, {}};
  double y = 0;
  for (const LineKind kind : drawing::all_line_kinds) s.lines.push_back({{25.4, y += 12.7}, {50.8, y + 2}, kind});
  s.arcs = {{{100, 50}, 25.4, 0, 360, LineKind::outline}, {{110, 60}, 12.7, 30, 150, LineKind::hidden}};
  s.texts = {{{10, 20}, 5.08, "abc", 0, Anchor::left},
             {{10, 40}, 5.08, "abc", 0, Anchor::middle},
             {{10, 60}, 10.16, "abc", 0, Anchor::right},
             {{30, 80}, 5.08, "abc", 90, Anchor::left},
             {{40, 80}, 5.08, "abc", 90, Anchor::middle}};
  s.page = {{"own", 200, 100}, 2, {-20, -10}};
  return s;
}

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
    EXPECT_EQ(types[layer_of(kind)], dashed ? "DASHEDTINY" : kind == LineKind::centre ? "CENTERTINY" : "Continuous");
  }
  std::map<std::string, std::vector<double>> patterns;
  for (const Record& type : records(groups, "LTYPE"))
    if (type.count(40)) {
      std::vector<double>& p = patterns[word(type, 2)];
      p.push_back(number(type, 40));
      for (auto [it, end] = type.equal_range(49); it != end; ++it) p.push_back(std::stod(it->second));
    }
  EXPECT_EQ(patterns["DASHEDTINY"], (std::vector<double>{2.5, 1.6, -0.9}));
  EXPECT_EQ(patterns["CENTERTINY"], (std::vector<double>{6.5, 4, -0.9, 0.7, -0.9}));
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
  // height of capitals (DejaVu Sans Condensed: 1493 of 2048, set at 1.08 of the text's height), 50 rotation in degrees,
  // 72 horizontal: 0 left, 1 centre, 2 right.
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
    EXPECT_NEAR(number(texts[i], 40), t.height * 1.08 * 1493 / 2048 / 25.4, 0.001 * t.height / 25.4);
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
  double scale = 1;
};

std::vector<double> numbers_in(const std::string& text) {
  static const std::regex number{"-?[0-9.]+(e-?[0-9]+)?"};
  std::vector<double> all;
  for (std::sregex_iterator it{text.begin(), text.end(), number}, end; it != end; ++it)
    all.push_back(std::stod(it->str()));
  return all;
}

/// Paths with a stroke, in points on the page.
std::vector<Stroke> strokes_of(const std::string& svg) {
  static const std::regex path{"<path [^>]*stroke-width[^>]*>"}, d{" d=\"([^\"]*)\""},
      width{"stroke-width[:=]\"?([0-9.]+)"}, dash{"stroke-dasharray[:=]\"?([0-9., ]+)"},
      grey{"stroke[:=]\"?rgb\\(([0-9.]+)%"}, matrix{"matrix\\(([^)]*)\\)"};
  std::vector<Stroke> all;
  for (std::sregex_iterator it{svg.begin(), svg.end(), path}, end; it != end; ++it) {
    const std::string tag = it->str();
    std::smatch m;
    Stroke s;
    if (std::regex_search(tag, m, width)) s.width = std::stod(m[1]);
    if (std::regex_search(tag, m, dash)) s.dashes = numbers_in(m[1]);
    if (std::regex_search(tag, m, grey)) s.grey = std::stod(m[1]) / 100;
    if (std::regex_search(tag, m, d)) s.path = numbers_in(m[1]);
    if (std::regex_search(tag, m, matrix)) s.scale = numbers_in(m[1]).at(0);
    all.push_back(s);
  }
  return all;
}

TEST(Svg, StrokesHaveTheirWeightDashesAndPlace) {
  // Source: by hand: a page of 200 x 100 mm is 566.93 x 283.46 points; (25.4, 12.7) lies 45.4 / 2 = 22.7 mm from its
  // left and 22.7 / 2 = 11.35 from its foot. Weights in millimetres on paper; only what stands already is grey.
  const std::string svg = svg_of(small_sheet(false));
  std::smatch size;
  ASSERT_TRUE(std::regex_search(svg, size, std::regex{"width=\"([0-9.]+)(pt)?\" height=\"([0-9.]+)(pt)?\""}));
  EXPECT_NEAR(std::stod(size[1]), 200 / 25.4 * 72, 0.01);
  EXPECT_NEAR(std::stod(size[3]), 100 / 25.4 * 72, 0.01);
  const auto strokes = strokes_of(svg);
  ASSERT_EQ(strokes.size(), std::size(drawing::all_line_kinds) + 2);
  const std::map<LineKind, std::pair<double, std::vector<double>>> wanted{
      {LineKind::outline, {0.35, {}}},
      {LineKind::hidden, {0.18, {1.6, 0.9}}},
      {LineKind::centre, {0.18, {4, 0.9, 0.7, 0.9}}},
      {LineKind::dimension, {0.13, {}}},
      {LineKind::text, {0.13, {}}},
      {LineKind::existing, {0.25, {}}},
      {LineKind::correction, {0.6, {2.4, 0.8}}},
      {LineKind::rejected, {0.7, {}}},
      {LineKind::sheet, {0.3, {}}}};
  std::size_t i = 0, line = 0;
  for (const LineKind kind : drawing::all_line_kinds) {
    const Stroke& s = strokes.at(i++);
    EXPECT_NEAR(s.width, wanted.at(kind).first, 1e-6) << name_of(kind);
    EXPECT_EQ(s.dashes, wanted.at(kind).second) << name_of(kind);
    EXPECT_NEAR(s.grey, kind == LineKind::existing ? 0.45 : 0, 0.01) << name_of(kind);
    EXPECT_NEAR(s.scale, 72 / 25.4, 1e-3);
    const double y = 12.7 * ++line;
    ASSERT_EQ(s.path.size(), 4u) << name_of(kind);
    EXPECT_NEAR(s.path[0], (25.4 + 20) / 2, 0.01);
    EXPECT_NEAR(s.path[1], 100 - (y + 10) / 2, 0.01);
    EXPECT_NEAR(s.path[2], (50.8 + 20) / 2, 0.01);
    EXPECT_NEAR(s.path[3], 100 - (y + 2 + 10) / 2, 0.01);
    if (kind == LineKind::outline || kind == LineKind::hidden) ++i;  // its arc
  }
}

TEST(Svg, ArcsBeginAndEndWhereTheyDid) {
  // Source: by hand: the arc of 12.7 mm about (110, 60) from 30 to 150 degrees begins at (120.998, 66.35), ends at
  // (99.002, 66.35) and has its top at (110, 72.7); the circle begins at (125.4, 50).
  const auto strokes = strokes_of(svg_of(small_sheet(false)));
  const auto& circle = strokes.at(1).path;
  const auto& arc = strokes.at(3).path;
  EXPECT_NEAR(circle[0], 145.4 / 2, 0.01);
  EXPECT_NEAR(circle[1], 100 - 60 / 2., 0.01);
  EXPECT_NEAR(arc[0], (120.998 + 20) / 2, 0.01);
  EXPECT_NEAR(arc[1], 100 - (66.35 + 10) / 2, 0.01);
  EXPECT_NEAR(arc[arc.size() - 2], (99.002 + 20) / 2, 0.01);
  EXPECT_NEAR(arc.back(), 100 - (66.35 + 10) / 2, 0.01);
  double top = 1e9;
  for (std::size_t k = 1; k < arc.size(); k += 2) top = std::min(top, arc[k]);
  EXPECT_NEAR(top, 100 - (72.7 + 10) / 2, 0.2) << "over the top, not under the foot";
}

/// Origins of letters in the order they are drawn, in points.
std::vector<drawing::Point> letters_of(const std::string& svg) {
  static const std::regex use{"<use [^>]* x=\"([0-9.-]+)\" y=\"([0-9.-]+)\"/>"};
  std::vector<drawing::Point> all;
  for (std::sregex_iterator it{svg.begin(), svg.end(), use}, end; it != end; ++it)
    all.push_back({std::stod((*it)[1]), std::stod((*it)[2])});
  return all;
}

TEST(Svg, TextsStandAtTheirAnchorAndTurn) {
  // Source: by hand: (10, 20) is 15 mm from the left and 85 from the page's top; the middle one begins half its length
  // before, the right one, twice as high, all of its double length; turned ones run upward.
  const auto at = letters_of(svg_of(small_sheet(false)));
  ASSERT_EQ(at.size(), 15u);
  constexpr double pt = 72 / 25.4;
  const double x = 15 * pt;
  EXPECT_NEAR(at[0].x, x, 0.01);
  EXPECT_NEAR(at[0].y, 85 * pt, 0.01);
  EXPECT_GT(at[1].x, at[0].x);
  const double half = x - at[3].x, advance = 2 * half;
  EXPECT_GT(half, at[1].x - at[0].x);
  EXPECT_NEAR(at[3].y, 75 * pt, 0.01);
  EXPECT_NEAR(at[6].x, x - 2 * advance, 0.3) << "twice as high";
  EXPECT_NEAR(at[6].y, 65 * pt, 0.01);
  EXPECT_NEAR(at[9].x, 25 * pt, 0.01);
  EXPECT_NEAR(at[9].y, 55 * pt, 0.01);
  EXPECT_NEAR(at[10].x, at[9].x, 0.01);
  EXPECT_LT(at[10].y, at[9].y) << "upward on the page";
  EXPECT_NEAR(at[12].x, 30 * pt, 0.01);
  EXPECT_NEAR(at[12].y, 55 * pt + half, 0.1);
  // 1.08 x 5.08 mm at 1:2; three letters of this font are 1.62 times as long as it is high.
  EXPECT_NEAR(advance / (1.08 * 2.54 * pt), 1.62, 0.08);
}

TEST(Pdf, HasAPageForEachSheetThatHasOneAndItsDate) {
  // Source: poppler's pdfinfo: 200 x 100 mm are 566.929 x 283.465 points; 86400 s after 1970 is its second day.
  const sample::Folder folder{"small-pdf"};
  Sheet machine = small_sheet(false), other = small_sheet(false);
  machine.page = {};
  other.page.paper = {"other", 100, 50};
  write_pdf({small_sheet(false), machine, other}, "A \u00d8 title\nin one line", folder / "s.pdf", 86400);
  const sample::Ran ran = sample::run("TZ=UTC pdfinfo -isodates -f 1 -l 9 " + (folder / "s.pdf") + " 2>&1");
  for (const char* words : {"Pages:", " 2\n", "566.929 x 283.465 pts", "283.465 x 141.732 pts", "1970-01-02T00:00:00",
                            "fallwright", "A \u00d8 title in one line"})
    EXPECT_NE(ran.out.find(words), std::string::npos) << words << "\n" << ran.out;
}

TEST(Pdf, WordsStandWhereTheSheetHasThem) {
  // Source: poppler's boxes of words: the left one begins 15 mm from the left, its foot 85 mm from the top; the right
  // one ends there.
  const sample::Folder folder{"small-pdf"};
  write_pdf({small_sheet(false)}, "x", folder / "s.pdf", 0);
  const sample::Ran ran = sample::run("pdftotext -bbox " + (folder / "s.pdf") + " - 2>&1");
  static const std::regex box{"xMin=\"([0-9.]+)\" yMin=\"([0-9.]+)\" xMax=\"([0-9.]+)\" yMax=\"([0-9.]+)\">abc<"};
  std::vector<std::array<double, 4>> boxes;
  for (std::sregex_iterator it{ran.out.begin(), ran.out.end(), box}, end; it != end; ++it)
    boxes.push_back({std::stod((*it)[1]), std::stod((*it)[2]), std::stod((*it)[3]), std::stod((*it)[4])});
  ASSERT_GE(boxes.size(), 3u) << ran.out;
  constexpr double pt = 72 / 25.4;
  std::sort(boxes.begin(), boxes.end(), [](const auto& a, const auto& b) { return a[3] > b[3]; });
  EXPECT_NEAR(boxes[0][0], 15 * pt, 0.3);
  EXPECT_NEAR((boxes[1][0] + boxes[1][2]) / 2, 15 * pt, 0.3);
  EXPECT_NEAR(boxes[2][2], 15 * pt, 0.3);
  EXPECT_NEAR(boxes[2][2] - boxes[2][0], 2 * (boxes[0][2] - boxes[0][0]), 0.5);
}

}  // namespace
}  // namespace fallwright::exchange
