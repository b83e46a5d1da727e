// Enlarged details: what a builder sets by stands in them.
#include <algorithm>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

using testing::AllOf;
using testing::ContainsRegex;
using testing::HasSubstr;
using testing::Not;

const Sheet& small_sheet(const std::string& job, const std::string& name) {
  static std::map<std::string, Drawn> all;
  const auto known = all.find(job);
  if (known != all.end()) return known->second.sheet(name);
  job::Job small = demo(job);
  small.drawings.paper = small.is_metric() ? job::PaperSize::a4 : job::PaperSize::letter;
  return all.emplace(job, drawn(small, false)).first->second.sheet(name);
}

TEST(DetailSizes, OfSeatAndBaseAreThoseOfTheJob) {
  // Source: by hand, from the job: the apron is 1/2 in thick and stands on the upstand, whose top is 5-1/2 over the
  // datum, the rim 2-1/16: 3-7/16; the bed keeps 1/2 off; the deck is 3/4, and of the board nobody said how thick it
  // is.
  const std::string joints = read_through(small_sheet("tannery-lane-2a", "bench-joints"));
  for (const char* said : {"1/2 apron ", "no gap ", "3-7/16 over base ", "1/2 holdback ", "deck J, 3/4 ", "backing K "})
    EXPECT_THAT(joints, HasSubstr(said));
  // At the wall the seat is as thick as the view from the entry tells it: 18-5/16 less the frame's 16-3/4.
  EXPECT_THAT(read_through(small_sheet("tannery-lane-2a", "bench-wall")),
              AllOf(HasSubstr("1/2 upstand "), HasSubstr(" 3 upstand "), HasSubstr("1-9/16 seat ")));
  // Its nose is as thick as the job says.
  EXPECT_THAT(joints, HasSubstr("1-1/4 nose "));
  EXPECT_THAT(read_through(small_sheet("tannery-lane-5c", "bench-joints")),
              AllOf(HasSubstr("12 apron "), HasSubstr("12 holdback "), HasSubstr("deck K, 18 ")));
}

TEST(DetailSizes, OfABenchAtTheOtherSideAreTheSame) {
  // Source: none: a room and its mirror image are built alike.
  const auto sizes = [](const job::Job& job) {
    std::vector<std::string> words;
    const Drawn d = drawn(job, false);
    for (const Text& text : d.sheet("bench-section").texts)
      for (const char* what : {"apron", " over base", " holdback", " overhang", " upstand"})
        if (text.words.find(what) != std::string::npos) words.push_back(text.words);
    std::sort(words.begin(), words.end());
    return words;
  };
  const std::vector<std::string> left = sizes(sample::alcove());
  EXPECT_GE(left.size(), 6u);
  EXPECT_EQ(left, sizes(right_hand()));
}

TEST(DetailSizes, OfThresholdAndUpstandAreMeasuredInTheirSection) {
  // Source: by hand, from the job: the threshold is 4 in wide, its inner edge 4 in over the datum, the floor there
  // 2-1/16; the bed runs 1/2 past it and is 1/2 under its edge.
  EXPECT_THAT(read_through(small_sheet("tannery-lane-2a", "bed-threshold")),
              AllOf(HasSubstr("4 threshold "), HasSubstr("1-15/16 over floor "), HasSubstr("1/2 past the base "),
                    HasSubstr("1/2 under its edge ")));
  EXPECT_THAT(read_through(small_sheet("tannery-lane-2a", "wall-upstand")),
              AllOf(HasSubstr("3-7/16 over base "), HasSubstr("1/2 holdback ")));
}

TEST(DetailSizes, OfADrainAreFromItsBodyToTheBoreAndOnToTheMortar) {
  // Source: by hand: a bore of 5 in about a body of 3-1/4 leaves 7/8; the collar is 1/2. In 5C no mortar is laid there.
  EXPECT_THAT(read_through(small_sheet("tannery-lane-2a", "drain-flange")),
              AllOf(HasSubstr("7/8 to the bore "), HasSubstr("1/2 collar ")));
  // There a bore of 100 mm about a body of 63 leaves 18.5: no more than 18 may be counted on.
  EXPECT_THAT(read_through(small_sheet("tannery-lane-5c", "drain-flange")),
              AllOf(Not(HasSubstr("collar")), HasSubstr("18 to the bore ")));
}

TEST(DetailSizes, OfABaseThatIsNotSettledAreNotGiven) {
  // Source: common practice, no source: nobody builds to numbers of what is struck out.
  EXPECT_THAT(read_through(small_sheet("ferry-steps-3", "bench-joints")),
              AllOf(Not(HasSubstr("over base")), Not(HasSubstr("holdback")), Not(ContainsRegex("[0-9] seat ")),
                    Not(HasSubstr("under apron")), Not(HasSubstr("no gap"))));
}

}  // namespace
}  // namespace fallwright::drawing
