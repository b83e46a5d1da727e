// The PDF of small sheets as poppler reads and prints it.
#include <algorithm>
#include <regex>
#include <sstream>

#include <gtest/gtest.h>

#include "exchange/paper.hpp"
#include "exchange/small_sheet.hpp"
#include "support/run.hpp"

namespace fallwright::exchange {
namespace {

using drawing::Anchor;
using drawing::LineKind;
using drawing::Sheet;

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

TEST(Pdf, HasBookmarksLabelsAndLinksByTheSheetsCodes) {
  // Source: poppler's list of bookmarks and named places; the label as the PDF keeps it, in two parts.
  const sample::Folder folder{"small-pdf"};
  Sheet cover = small_sheet(false), plan = small_sheet(false);
  cover.code = "G-01", plan.code = "P-01";
  cover.texts[0].leads_to = "P-01";
  write_pdf({cover, plan}, "x", folder / "s.pdf", 0);
  const sample::Ran ran = sample::run("pdfinfo -dests " + (folder / "s.pdf") + " 2>&1");
  for (const char* name : {"\"G-01\"", "\"P-01\""}) EXPECT_NE(ran.out.find(name), std::string::npos) << ran.out;
  const std::string marks = sample::run("pdftohtml -xml -stdout " + (folder / "s.pdf") + " 2>&1").out;
  EXPECT_NE(marks.find("<item page=\"2\">P-01  Plan</item>"), std::string::npos) << marks;
  EXPECT_NE(sample::run("pdfinfo " + (folder / "s.pdf")).out.find("Shop drawings, 2 sheets"), std::string::npos);
  const std::string pdf = sample::slurped(folder / "s.pdf");
  EXPECT_NE(pdf.find("/PageLabels"), std::string::npos);
  // One link, about the words that lead on: they begin 15 mm from the left, their foot 15 mm above the page's edge.
  static const std::regex link{R"(/Subtype /Link[^>]*/Rect \[ ?([0-9.]+) ([0-9.]+) ([0-9.]+) ([0-9.]+) ?\])"};
  const std::vector<std::smatch> links{std::sregex_iterator{pdf.begin(), pdf.end(), link}, {}};
  ASSERT_EQ(links.size(), 1u);
  constexpr double pt = 72 / 25.4;
  EXPECT_NEAR(std::stod(links[0][1]), 15 * pt, 1);
  EXPECT_NEAR(std::stod(links[0][3]) - std::stod(links[0][1]), drawing::width_of("abc", 2.54) * pt, 1);
  EXPECT_LE(std::stod(links[0][2]), 15 * pt + 0.1);
  EXPECT_GE(std::stod(links[0][4]), (15 + 2.54) * pt - 0.1);
}

/// A page as poppler prints it, ten dots to the millimetre.
class Print {
 public:
  explicit Print(const Sheet& sheet) {
    const sample::Folder folder{"small-print"};
    write_pdf({sheet}, "x", folder / "s.pdf", 0);
    sample::run("pdftoppm -gray -r 254 -singlefile " + (folder / "s.pdf") + " " + (folder / "s"));
    std::istringstream in{sample::slurped(folder / "s.pgm")};
    std::string kind;
    std::size_t height = 0, most = 0;
    in >> kind >> width_ >> height >> most;
    in.get();
    dots_.assign(std::istreambuf_iterator<char>{in}, {});
  }
  /// 0 black, 255 white; in millimetres from the page's upper left corner.
  int at(double x, double y) const {
    return static_cast<unsigned char>(
        dots_.at(static_cast<std::size_t>(y * 10) * width_ + static_cast<std::size_t>(x * 10)));
  }

 private:
  std::size_t width_ = 0;
  std::vector<char> dots_;
};

TEST(Pdf, AFigureIsFilledWithItsTintUnderTheLines) {
  // Source: by hand: grey of half strength between (30, 20) and (60, 60) mm of the page, white beside it, a line black
  // across both.
  Sheet s = small_sheet(false);
  s.lines.clear(), s.arcs.clear(), s.texts.clear();
  const auto x = [](double mm) { return mm * 2 - 20; };
  const auto y = [](double mm) { return (100 - mm) * 2 - 10; };
  s.areas = {{{{x(30), y(20)}, {x(60), y(20)}, {x(60), y(60)}, {x(30), y(60)}}, {0.5, 0.5, 0.5}}};
  s.lines = {{{x(10), y(40)}, {x(90), y(40)}, LineKind::outline}};
  const Print print{s};
  for (const auto& [px, py] : {std::pair{30.3, 20.3}, {59.7, 20.3}, {59.7, 59.7}, {30.3, 59.7}, {45., 30.}})
    EXPECT_NEAR(print.at(px, py), 128, 2) << px << ", " << py;
  for (const auto& [px, py] : {std::pair{29.7, 40.6}, {60.3, 30.}, {45., 19.7}, {45., 60.3}})
    EXPECT_EQ(print.at(px, py), 255) << px << ", " << py;
  EXPECT_LT(print.at(45, 40), 60);
  EXPECT_LT(print.at(20, 40), 60);
}

TEST(Pdf, TextsHaveWhiteBehindThem) {
  // Source: by hand: words of capitals 2.54 mm high, from 15 mm on, their foot 85 mm from the page's top: lines 0.18 mm
  // thick are white where they pass within 0.6 mm of them, and black past that. Turned words the same, a quarter round.
  Sheet s = small_sheet(false);
  s.lines.clear(), s.arcs.clear();
  s.texts = {{{10, 20}, 5.08, "HHH", 0, Anchor::left}, {{210, 80}, 5.08, "HHH", 90, Anchor::left}};
  // On paper x is (x + 20) / 2, and y from the top 100 - (y + 10) / 2.
  const auto lying = [&](double y_mm) {
    s.lines.push_back({{-10, (100 - y_mm) * 2 - 10}, {100, (100 - y_mm) * 2 - 10}, LineKind::dimension});
  };
  const auto upright = [&](double x_mm) {
    s.lines.push_back({{x_mm * 2 - 20, 20}, {x_mm * 2 - 20, 180}, LineKind::dimension});
  };
  const double foot = 85, head = foot - 2.54, end = 15 + drawing::width_of("HHH", 2.54);
  for (const double y : {foot + 0.9, foot + 0.3, head - 0.3, head - 0.9}) lying(y);
  const double base = 115, top = base - 2.54, start = 55, stop = start - drawing::width_of("HHH", 2.54);
  for (const double x : {base + 0.9, base + 0.3, top - 0.3, top - 0.9}) upright(x);
  const Print print{s};
  int darkest = 255;
  for (double x = 15; x < end; x += 0.05) darkest = std::min(darkest, print.at(x, (foot + head) / 2));
  EXPECT_LT(darkest, 20) << "letters are black";
  const double middle = (15 + end) / 2, half = (start + stop) / 2;
  EXPECT_LT(print.at(middle, foot + 0.9), 100);
  EXPECT_GT(print.at(middle, foot + 0.3), 200);
  EXPECT_GT(print.at(middle, head - 0.3), 200);
  EXPECT_LT(print.at(middle, head - 0.9), 100);
  for (const double line : {foot + 0.3, head - 0.3}) {
    EXPECT_LT(print.at(15 - 0.8, line), 100);
    EXPECT_GT(print.at(15 - 0.4, line), 200);
    EXPECT_GT(print.at(end + 0.4, line), 200);
    EXPECT_LT(print.at(end + 0.8, line), 100);
  }
  EXPECT_LT(print.at(base + 0.9, half), 100);
  EXPECT_GT(print.at(base + 0.3, half), 200);
  EXPECT_GT(print.at(top - 0.3, half), 200);
  EXPECT_LT(print.at(top - 0.9, half), 100);
  for (const double line : {base + 0.3, top - 0.3}) {
    EXPECT_LT(print.at(line, start + 0.8), 100);
    EXPECT_GT(print.at(line, start + 0.4), 200);
    EXPECT_GT(print.at(line, stop - 0.4), 200);
    EXPECT_LT(print.at(line, stop - 0.8), 100);
  }
}

TEST(Pdf, TextsLeaveTheRulesOfTheSheetWhole) {
  // Source: by hand: a rule of the title block 0.3 mm over capitals that are 2.54 mm high, their foot 85 mm from the
  // top.
  Sheet s = small_sheet(false);
  s.lines.clear(), s.arcs.clear();
  s.texts = {{{10, 20}, 5.08, "HHH", 0, Anchor::left}};
  const double head = 85 - 2.54, rule = head - 0.3;
  s.lines.push_back({{-10, (100 - rule) * 2 - 10}, {100, (100 - rule) * 2 - 10}, LineKind::sheet});
  EXPECT_LT(Print{s}.at(15 + drawing::width_of("HHH", 2.54) / 2, rule), 100);
}

TEST(Pdf, AScriptThatTheSheetsFontLacksIsSetInOneThatHasIt) {
  // Source: the fonts' own tables, by poppler's list: the sheets' own font has Latin letters with their accents, and no
  // Georgian ones. Words come out whole.
  const auto fonts_of = [](const std::string& words) {
    const sample::Folder folder{"small-fonts"};
    Sheet s = small_sheet(false);
    s.texts = {{{10, 20}, 5.08, words, 0, Anchor::left}};
    write_pdf({s}, "x", folder / "s.pdf", 0);
    EXPECT_NE(sample::run("pdftotext " + (folder / "s.pdf") + " - 2>&1").out.find(words), std::string::npos) << words;
    return sample::run("pdffonts " + (folder / "s.pdf") + " 2>&1").out;
  };
  EXPECT_EQ(fonts_of("Flur 2").find("DejaVu"), std::string::npos);
  EXPECT_EQ(fonts_of("K\u00fcche").find("DejaVu"), std::string::npos);
  EXPECT_NE(fonts_of("2A \u10e1\u10d0\u10ee\u10da\u10d8").find("DejaVu"), std::string::npos);
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
