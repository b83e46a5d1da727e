// What is told so that somebody can work to it: whole, once, and in marks of a tape.
#include <algorithm>
#include <cmath>
#include <regex>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/steps.hpp"
#include "drawing/views.hpp"
#include "outside/drawn.hpp"
#include "rules/standing.hpp"
#include "rules/words.hpp"

namespace fallwright::drawing {
namespace {

using testing::ContainsRegex;
using testing::HasSubstr;
using testing::Not;

std::string sheets_named(const Drawn& d, const std::string& begins) {
  std::string all;
  for (const Sheet& sheet : d.sheets)
    if (sheet.name.rfind(begins, 0) == 0) all += read_through(sheet) + " ";
  return all;
}

TEST(WorkedTo, HowLowASideMayBeIsNeverReadAsAnOrder) {
  // Source: common practice, no source: "front low by 1/32" tells a setter to set it so.
  for (const char* name : {"tannery-lane-2a", "chandlers-row-7", "chandlers-row-9"})
    for (const job::PaperSize paper : {job::PaperSize::tabloid, job::PaperSize::letter}) {
      const Drawn d = drawn(demo_on(name, paper), false);
      std::size_t told = 0;
      for (const Text& text : d.sheet("falls").texts) {
        if (text.words.find(" low ") == std::string::npos || text.words.find("how low") != std::string::npos) continue;
        EXPECT_THAT(text.words, HasSubstr("low by at most ")) << name;
        ++told;
      }
      EXPECT_GE(told, 2u) << name;
    }
}

TEST(WorkedTo, NoSheetForASetterHas64ths) {
  // Source: common practice, no source: a tape has 32nds at best.
  for (const char* name : {"tannery-lane-2a", "chandlers-row-7", "chandlers-row-9", "coopers-yard-4"}) {
    const Drawn& d = drawn_demo(name);
    for (const char* sheets : {"falls", "bed", "order-of-work", "cover"})
      EXPECT_THAT(sheets_named(d, sheets), Not(HasSubstr("/64"))) << name << ": " << sheets;
  }
}

TEST(WorkedTo, AMetricLimitIsInWholeMillimetresNoLargerThanItIs) {
  // Source: by hand: 24 in are 609.6 mm, 9 in 228.6; 2 in of water 50.8, no less than 51. Half an inch is still 12.7.
  const Drawn& d = drawn_demo("tannery-lane-5c");
  const std::string all = sheets_named(d, "inspection");
  for (const char* told : {"at most 609 mm", "at most 228 mm", "0 mm to 12.7 mm", "at least 51 mm of water"})
    EXPECT_THAT(all, HasSubstr(told));
  EXPECT_THAT(all, Not(ContainsRegex("[0-9][0-9][0-9][.][0-9] mm")));
  EXPECT_THAT(all, Not(HasSubstr("2 in (50 mm)")));
}

TEST(WorkedTo, FallsAreTheSameNumbersOnDrawingsAndBeforeTheInspector) {
  // Source: the checks as the terminal prints them; by hand of 4 Coopers: 0.4817 in/ft is 1:24.9 or, no better, 1:24.8.
  for (const char* name : {"coopers-yard-4", "chandlers-row-7", "tannery-lane-2a", "tannery-lane-5c"}) {
    const Drawn& d = drawn_demo(name);
    const std::string falls = sheets_named(d, "falls");
    std::size_t told = 0;
    for (const rules::Result& r : d.judgement.results) {
      if (!r.measured || !(rules::is_of_fall(r.id, facts::Surface::base_floor) || r.id == "threshold.falls-inward"))
        continue;
      const std::string words = rules::measured_text(r, d.model->job);
      // All planes of 5C fall alike: both checks are of one number, which is told as the nearer limit's has it.
      const bool alike = r.id == "floor.fall-least" && std::string{name} == "tannery-lane-5c";
      EXPECT_TRUE(alike || falls.find(words) != std::string::npos) << name << ": " << r.id << " " << words;
      ++told;
    }
    EXPECT_EQ(told, 3u) << name;
  }
  EXPECT_THAT(sheets_named(drawn_demo("coopers-yard-4"), "screed"), HasSubstr("to 0.482 in/ft (1:24.8)"));
}

TEST(WorkedTo, AGapBesideTheBaseSaysBetweenWhat) {
  // Source: by hand: 36 in of alcove less 36 of base; 72 less 57-1/2 and 14-1/2.
  const std::string all = sheets_named(drawn_demo("tannery-lane-2a"), "inspection");
  EXPECT_THAT(all, HasSubstr("filled along its depth: alcove 36\" less base 36\""));
  EXPECT_THAT(all, HasSubstr("filled along its width: alcove 72\" less base 57-1/2\" less bench 14-1/2\""));
}

TEST(WorkedTo, AStepWithStripsOnHoldIsOnHold) {
  // Source: the step's own words.
  std::size_t held = 0;
  for (const char* name : {"ferry-steps-3", "tannery-lane-2a", "chandlers-row-7"}) {
    const Drawn& d = drawn_demo(name);
    for (const Step& step : steps_of(d.model->job, {d.facts, d.cuts, {}, {}, d.judgement}))
      if ((step.what + step.measure).find("n HOLD") != std::string::npos) {
        EXPECT_TRUE(step.hold) << step.what;
        ++held;
      }
  }
  EXPECT_GE(held, 2u);
}

TEST(WorkedTo, ACheckThatFailsIsToldOnceOnASheet) {
  // Source: by hand: on flat 2B's pictures neither bore nor base is to be made, both by the floor's fall.
  const Drawn& d = drawn_demo("tannery-lane-2b");
  for (const char* name : {"assembly", "exploded", "steps"}) {
    const std::vector<std::string>& notes = d.sheet(name).notes;
    EXPECT_EQ(d.sheet(name).holds.size(), 2u) << name;
    EXPECT_EQ(std::count_if(notes.begin(), notes.end(),
                            [](const std::string& note) { return note.find("fails: 0.892") != std::string::npos; }),
              1)
        << name;
    EXPECT_THAT(notes, testing::Contains(HasSubstr("mends it. Build the sheets anew once that is mended."))) << name;
  }
}

TEST(WorkedTo, ARejectedBoreHasNoNumberAtItsTick) {
  // Source: by hand: at 42-3/16 the joist is cut; 42-1/4 just clears, 42-1/2 keeps clear by the limit: that one alone
  // stands on the bar beside the rejected one.
  for (const job::PaperSize paper : {job::PaperSize::tabloid, job::PaperSize::letter}) {
    const Drawn d = drawn(demo_on("ferry-steps-3", paper));
    const Sheet& sheet = d.sheet("drain");
    const auto at = [&](const std::string& words) {
      return std::find_if(sheet.texts.begin(), sheet.texts.end(), [&](const Text& t) { return t.words == words; });
    };
    EXPECT_EQ(at("42-1/4"), sheet.texts.end());
    ASSERT_NE(at("to 42-1/2"), sheet.texts.end()) << read_through(sheet);
    ASSERT_NE(at("rejected"), sheet.texts.end());
    EXPECT_LT(at("rejected")->at.x, at("to 42-1/2")->at.x);
  }
}

}  // namespace
}  // namespace fallwright::drawing
