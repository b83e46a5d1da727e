// Chains of dimensions: parts that are rounded to marks of the tape and still add up to their whole.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/pen.hpp"
#include "support/imperial.hpp"

namespace fallwright::drawing {
namespace {

using testing::DoubleNear, testing::ElementsAre;

/// In sixteenths of an inch.
std::vector<double> parts_of(const std::vector<double>& places_in_16ths, const Stretches& spare_in_16ths,
                             double* whole = nullptr) {
  constexpr double sixteenth = in / 16;
  std::vector<double> places;
  for (const double place : places_in_16ths) places.push_back(place * sixteenth);
  Stretches spare;
  for (const auto& [from, to] : spare_in_16ths) spare.push_back({from * sixteenth, to * sixteenth});
  Rounded printed = rounded_to_add_up(places, spare, false);
  for (double& part : printed.parts) part /= sixteenth;
  if (whole) *whole = printed.whole / sixteenth;
  return printed.parts;
}

const auto is = [](double sixteenths) { return DoubleNear(sixteenths, 1e-9); };

TEST(Chain, ThePartThatIsSpareTakesWhatRoundingLeaves) {
  // Source: by hand, in sixteenths: 10.4, 20.4 and 30.4 are 10, 20 and 30, their whole of 61.2 is 61: the first, the
  // second or the last takes the one that is missing, and of two that may the one that is named first.
  const std::vector<double> places{0, 10.4, 30.8, 61.2};
  double whole = 0;
  EXPECT_THAT(parts_of(places, {{0, 9}}, &whole), ElementsAre(is(11), is(20), is(30)));
  EXPECT_NEAR(whole, 61, 1e-9);
  EXPECT_THAT(parts_of(places, {{11, 30}}), ElementsAre(is(10), is(21), is(30)));
  EXPECT_THAT(parts_of(places, {{60, 40}}), ElementsAre(is(10), is(20), is(31))) << "whichever end is named first";
  EXPECT_THAT(parts_of(places, {{40, 60}, {0, 9}}), ElementsAre(is(10), is(20), is(31)));
  EXPECT_THAT(parts_of(places, {{200, 300}, {0, 9}}), ElementsAre(is(11), is(20), is(30)));
}

TEST(Chain, AddsUpToAWholeThatStandsInAnotherRow) {
  // Source: by hand: 10.6, 1020.3 and 352.5 mm are 11, 1020 and 353, their whole of 1383.4 is 1383, as another row has
  // it: the last, which nobody works to, is 352.
  Sheet sheet{"plan", "Plan", true};
  Pen pen{sheet, 3};
  pen.chain({0, 10.6, 1030.9, 1383.4}, 0, -10, {{1030.9, 1383.4}}, false);
  std::vector<std::string> words;
  for (const Dimension& dimension : sheet.dimensions) words.push_back(dimension.words);
  EXPECT_THAT(words, ElementsAre("11", "1020", "352"));
}

TEST(Chain, WithoutASparePartTheWholeIsTheSumOfItsParts) {
  // Source: by hand: 10, 20 and 30.
  double whole = 0;
  EXPECT_THAT(parts_of({0, 10.4, 30.8, 61.2}, {}, &whole), ElementsAre(is(10), is(20), is(30)));
  EXPECT_NEAR(whole, 60, 1e-9);
  EXPECT_THAT(parts_of({5}, {}, &whole), ElementsAre());
  EXPECT_NEAR(whole, 0, 1e-9);
}

}  // namespace
}  // namespace fallwright::drawing
