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

}  // namespace
}  // namespace fallwright::drawing
