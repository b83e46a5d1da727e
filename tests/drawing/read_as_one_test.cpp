// What readers of whole sets stumbled over: numbers of one chain that do not add up, names that point at one place,
// words without a line, heights with a minus, two lines for one.
#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/views.hpp"
#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;

std::vector<std::string> told_on(const Drawn& d, const char* sheet) {
  std::vector<std::string> words;
  for (const Text& text : d.sheet(sheet).texts) words.push_back(text.words);
  return words;
}

double apart(Point a, Point b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

TEST(ReadAsOne, HeightsOverABuiltThresholdAddUpOnAllSheets) {
  // Source: by hand: the drain is told as 2-1/2, the outer edge stands 3-3/32 over it, the inner 3, as the top falls
  // 1/4 to the foot over 4-1/2; no fastener within 1 above that, the liner 3 above it.
  const Drawn& d = drawn_demo("coopers-yard-4");
  const auto falls = told_on(d, "falls");
  EXPECT_EQ(std::count(falls.begin(), falls.end(), "+3-3/32"), 2);
  EXPECT_EQ(std::count_if(falls.begin(), falls.end(), [](const std::string& w) { return w.starts_with("+3-1/"); }), 0);
  EXPECT_THAT(told_on(d, "drain"), Contains("5-19/32  threshold, highest edge, past the picture"));
  EXPECT_THAT(told_on(d, "drain"), Contains("2-1/2  drain, top"));
  EXPECT_THAT(told_on(d, "screed-sections"), Contains("5-19/32  finished threshold, outer edge"));
  EXPECT_THAT(told_on(d, "screed-sections"), Contains("5-1/2  finished threshold, inner edge"));
  for (const char* sheet : {"wall-back", "wall-left", "wall-right", "screed-sections"}) {
    EXPECT_THAT(told_on(d, sheet), Contains("6-19/32  no fastener lower")) << sheet;
    EXPECT_THAT(told_on(d, sheet), Contains("8-19/32  top of the liner")) << sheet;
  }
  EXPECT_THAT(d.sheet("screed").notes, Contains(HasSubstr("5-1/2\" (inner edge) to 5-19/32\" (outer)")));
}

}  // namespace
}  // namespace fallwright::drawing
