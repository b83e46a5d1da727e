// What trades set by stands where it is set: figures at their own marks, what stood before in every picture, brackets
// about all that hangs on what nobody measured.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/title_block.hpp"
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

/// A job of a name and of limits that take two lines each.
const Drawn& wordy() {
  static const Drawn d = [] {
    job::Job job = demo("tannery-lane-2a");
    job.drawings.paper = job::PaperSize::letter;
    job.name = "12 Tannery Lane, the rooms over the old stable, flat 2A";
    return drawn(job, false);
  }();
  return d;
}

TEST(TitleBlock, NoLettersStandOnItsRulesAndNoLinesCloserThanTheyAreRead) {
  // Source: common practice, no source: lines of words stand 1.5 letters' heights apart; a rule is not written on.
  for (const Drawn* d : {&set_by_on_small("tannery-lane-5c"), &set_by_on_small("coopers-yard-9"),
                         &set_by_on_small("tannery-lane-2b"), &drawn_demo("tannery-lane-5c"), &wordy()})
    for (const Sheet& sheet : d->sheets) {
      if (sheet.page.paper.width_mm <= 0) continue;
      const double s = sheet.page.scale;
      std::vector<Box> in_block;
      std::vector<Text> words;
      for (const Text& text : sheet.texts) {
        const double y = (text.at.y - sheet.page.corner.y) / s, x = (text.at.x - sheet.page.corner.x) / s;
        if (y < 10 || y > 10 + sheet.page.paper.block_mm || x < sheet.page.paper.width_mm - 192 ||
            text.rotation_deg != 0)
          continue;
        words.push_back(text);
        for (const Line& line : sheet.lines) {
          if (line.kind != LineKind::sheet || line.from.y != line.to.y) continue;
          const Box b = box_of(text);
          if (std::max(line.from.x, line.to.x) < b.x0 || std::min(line.from.x, line.to.x) > b.x1) continue;
          const double under = (text.at.y - line.from.y) / s, over = (line.from.y - text.at.y - text.height) / s;
          EXPECT_TRUE(under > 0.5 || over > 0.5) << d->name << ", " << sheet.name << ": " << text.words;
        }
      }
      for (const Text& a : words)
        for (const Text& b : words)
          if (a.at.x == b.at.x && a.at.y > b.at.y && a.height == b.height) {
            EXPECT_GE((a.at.y - b.at.y) / a.height, 1.49) << d->name << ", " << sheet.name << ": " << a.words;
          }
    }
}

TEST(TitleBlock, SaysWhatKindOfDocumentASheetIs) {
  // Source: ISO 7200 (from memory): the kind of document is a field of the title block.
  const Drawn &own = drawn_demo("tannery-lane-2a"), &small = set_by_on_small("tannery-lane-2a");
  for (const Drawn* d : {&own, &small})
    for (const auto& [name, kind] : {std::pair{"plan", "plan"},
                                     {"drain", "section"},
                                     {"bench-front", "elevation"},
                                     {"wall-back", "elevation"},
                                     {"buy", "list"},
                                     {"inspection", "list"},
                                     {"template", "template"},
                                     {"steps", "picture"}}) {
      const auto& texts = d->sheet(name).texts;
      EXPECT_EQ(std::count_if(texts.begin(), texts.end(), [&, k = kind](const Text& t) { return t.words == k; }), 1)
          << name;
      EXPECT_THAT(read_through(d->sheet(name)), Not(HasSubstr("Shop drawing")));
    }
  EXPECT_EQ(std::string{document_kind(small.sheet("bench-joints"))}, "detail");
}

TEST(SetBy, WhatHangsOnAHoleThatNobodyMeasuredIsInBrackets) {
  // Source: the conventions of the set: what is assumed stands in brackets. That job names neither the hole about its
  // waste nor the drain's body; the collar it leaves is set by the job.
  const Sheet& sheet = drawn_demo("chandlers-row-7").sheet("drain");
  std::vector<std::string> lengths;
  for (const Dimension& d : sheet.dimensions) lengths.push_back(d.words);
  EXPECT_GE(lengths.size(), 4u);
  EXPECT_THAT(lengths, Each(testing::StartsWith("(")));
  EXPECT_THAT(read_through(sheet), testing::AllOf(HasSubstr("(7/8) to the hole"), HasSubstr(" 1/2 collar")));
  const auto& results = drawn_demo("chandlers-row-7").judgement.results;
  for (const char* id : {"drain.in-bore", "drain.bore-clear-of-joists"}) {
    const rules::Result* r = rules::find(results, id);
    EXPECT_EQ(r->outcome, rules::Outcome::not_checked) << id;
    EXPECT_THAT(r->advice, HasSubstr("the hole in the floor about the waste")) << id;
  }
  // Of a bore that is still to be made the job says how wide it will be: its clearances are those.
  for (const Dimension& d : drawn_demo("tannery-lane-2a").sheet("drain").dimensions)
    EXPECT_EQ(d.assumed, d.words.starts_with("(")) << d.words;
}

TEST(Pictures, FramingThatStandsAlreadyIsDottedInAllOfThemAndIsBroughtByNone) {
  // Source: the conventions of the set: dots are what is existing. 4 Coopers Yard's walls stand and have no blocking to
  // come: no step of its pictures is "walls". 2A's are framed: nothing of it is dotted.
  const auto dots = [](const Sheet& sheet) {
    return std::count_if(sheet.lines.begin(), sheet.lines.end(),
                         [](const Line& line) { return line.kind == LineKind::existing; });
  };
  const Sheet &stood = drawn_demo("coopers-yard-4").sheet("steps"),
              &framed = drawn_demo("tannery-lane-2a").sheet("steps");
  const auto numbers = std::count_if(stood.arcs.begin(), stood.arcs.end(), [&](const Arc& arc) {
    return std::abs(arc.radius - 1.25 * letter * stood.page.scale) < 1e-6 && arc.kind == LineKind::outline;
  });
  EXPECT_GE(numbers, 8);
  EXPECT_GE(dots(stood), 30 * numbers) << "walls of two sides with seven studs and more in each picture";
  EXPECT_THAT(read_through(stood), Not(HasSubstr(" walls ")));
  EXPECT_EQ(dots(framed), 0);
  EXPECT_THAT(read_through(framed), HasSubstr(" walls"));
  EXPECT_GT(dots(drawn_demo("ferry-steps-3").sheet("steps")), 0);
  EXPECT_THAT(read_through(drawn_demo("ferry-steps-3").sheet("steps")), Not(HasSubstr("furred")))
      << "a note says that furring is in no picture";
  for (const char* other : {"assembly", "exploded", "cover"}) {
    EXPECT_GE(dots(drawn_demo("coopers-yard-4").sheet(other)), 30) << other;
    EXPECT_EQ(dots(drawn_demo("tannery-lane-2a").sheet(other)), 0) << other;
  }
}

TEST(SetBy, MembersInTheUpstandsDetailHaveTheirMarks) {
  // Source: the conventions of the set: a member that is cut to the list is named with its mark. By that list studs are
  // A, plates B, blocks D.
  const std::string detail = read_through(set_by_on_small("tannery-lane-2a").sheet("wall-upstand"));
  for (const char* name : {"blocking D ", "sole plate B ", "stud A, behind "}) EXPECT_THAT(detail, HasSubstr(name));
}

TEST(SetBy, AnAssumedStudPastTheLeftCornerHasItsNumberInBrackets) {
  // Source: the conventions of the set: what is drawn by assumption has its number, in brackets. Its middle is half a
  // stud and a 3-1/2 in plate's end from the corner: 2-3/4.
  for (const char* job : {"coopers-yard-4", "chandlers-row-7"}) {
    int past = 0;
    for (const Dimension& d : drawn_demo(job).sheet("wall-back").dimensions)
      if (d.assumed && !d.running && d.words == "(2-3/4)") ++past;
    EXPECT_EQ(past, 1) << job;
  }
}

TEST(SetBy, JointsSayOnWhatBeadTheApronStandsAndWhatThicknessNobodyRead) {
  // Source: by hand, from the jobs: 2A's apron stands on the upstand, over the bead of the step before it; its board
  // nobody read, Ferry's is 1/2 in.
  const auto notes = [](const Sheet& sheet) {
    std::string all = read_through(sheet);  // on small paper they may stand with the drawing
    for (const std::string& note : sheet.notes) all += note + " ";
    return all;
  };
  for (const Sheet* sheet : {&drawn_demo("tannery-lane-2a").sheet("bench-section"),
                             &set_by_on_small("tannery-lane-2a").sheet("bench-joints")})
    EXPECT_THAT(notes(*sheet), testing::AllOf(HasSubstr("comes down on the bead that G-0"), HasSubstr("was not read")));
  EXPECT_THAT(notes(drawn_demo("ferry-steps-3").sheet("bench-section")), Not(HasSubstr("was not read")));
}

}  // namespace
}  // namespace fallwright::drawing
