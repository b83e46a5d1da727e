// What trades set by stands where it is set: figures at their own marks, what stood before in every picture, brackets
// about all that hangs on what nobody measured.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/views.hpp"
#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

using testing::Each;
using testing::HasSubstr;
using testing::Not;

const Drawn& set_by_on_small(const std::string& job) {
  static std::map<std::string, Drawn> all;
  const auto known = all.find(job);
  if (known != all.end()) return known->second;
  job::Job small = demo(job);
  small.drawings.paper = small.is_metric() ? job::PaperSize::a4 : job::PaperSize::letter;
  return all.emplace(job, drawn(small, false)).first->second;
}

TEST(SetBy, ACornersFiguresStandLevelWithItsCircleAndTheFormsWithItsCross) {
  // Source: common practice, no source: a figure is of the mark at whose height it stands. The form's top is 1-5/16
  // lower than the coat's at that corner.
  const Drawn& d = set_by_on_small("coopers-yard-4");
  const Sheet& sheet = d.sheet("screed");
  int corners = 0;
  for (const facts::ScreedMark& mark : d.facts.site_built->marks) {
    const bool form = mark.runs == facts::Runs::form;
    if (!form && (!mark.corner || mark.at_mm[1] > 300)) continue;
    const Text* nearest = nullptr;
    double least = 1e9;
    for (const Text& text : sheet.texts) {
      if (form != text.words.starts_with("form ")) continue;
      if (!form && !std::isdigit(static_cast<unsigned char>(text.words[0]))) continue;
      const double off = std::hypot(text.at.x - mark.at_mm[0], text.at.y - mark.at_mm[1]);
      if (off < least) least = off, nearest = &text;
    }
    ASSERT_NE(nearest, nullptr);
    const Box box = box_of(*nearest);
    EXPECT_LT(std::abs((box.y0 + box.y1) / 2 - mark.at_mm[1]), nearest->height) << nearest->words;
    ++corners;
  }
  EXPECT_GE(corners, 4);
}

TEST(SetBy, LetteredMarksAreATableBesideThePlan) {
  // Source: none: three figures of eight marks in a sentence are looked up in a table.
  const Sheet& sheet = set_by_on_small("coopers-yard-4").sheet("screed");
  const std::string all = read_through(sheet);
  for (const char* head : {"pre-slope ", "a 37-5/16 38-13/16 12-3/16 ", "h 37-1/16 38-9/16 25-5/8 "})
    EXPECT_THAT(all, HasSubstr(head));
  EXPECT_THAT(all, Not(HasSubstr("a: 37")));
  EXPECT_NEAR(set_by_on_small("coopers-yard-9").sheet("screed").page.scale, 10, 1e-9) << "not for a smaller plan";
}

/// The words of a table's row, from those of a title on to the next row's number.
std::string row_told(const Drawn& d, const std::string& begin, const std::string& title) {
  for (const Sheet& sheet : d.sheets)
    if (sheet.name.starts_with(begin))
      if (const std::string all = read_through(sheet); all.find(title) != std::string::npos)
        return all.substr(all.find(title), 260);
  return "";
}

TEST(SetBy, NoNumberOfABoreOrABaseThatIsNotSettledIsPassedAndAdviceOnItWaits) {
  // Source: common practice, no source: who inspects ticks nothing that will be another thing. In both the base is
  // rejected, and so its drain's place.
  const Drawn &ferry = drawn_demo("ferry-steps-3"), &flat = drawn_demo("tannery-lane-2b");
  for (const Drawn* d : {&ferry, &flat})
    EXPECT_THAT(row_told(*d, "inspection", "drain's body is free in the bore").substr(0, 110),
                testing::AllOf(HasSubstr(" HOLD "), Not(HasSubstr("7/8"))));
  EXPECT_THAT(row_told(flat, "inspection", "bore misses the joists ").substr(0, 100), HasSubstr(" HOLD "));
  EXPECT_THAT(row_told(ferry, "inspection", "bore misses the joists ").substr(0, 120), HasSubstr("FAILS"));
  EXPECT_THAT(row_told(flat, "inspection", "floor is wide enough").substr(0, 100), HasSubstr("HOLD NOT CHECKED"));
  EXPECT_THAT(row_told(flat, "inspection-care", "bed can be placed in one lift").substr(0, 60), HasSubstr(" HOLD: "));
  EXPECT_THAT(row_told(ferry, "inspection-care", "studs stand close to what is set").substr(0, 60),
              testing::AllOf(HasSubstr(" HOLD: "), Not(HasSubstr("9/16"))));
  EXPECT_THAT(row_told(ferry, "inspection-care", "no hump lifts the base"), HasSubstr("grind or plane the hump down"));
}

}  // namespace
}  // namespace fallwright::drawing
