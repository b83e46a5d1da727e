// What the sheets of one set tell together: lengths of two sheets that add up to a third's, work that nobody can do yet
// and says so, advice that says what it breaks, and words of who reads sheets.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/order_words.hpp"
#include "drawing/pen.hpp"
#include "drawing/steps.hpp"
#include "drawing/views.hpp"
#include "outside/drawn.hpp"
#include "support/imperial.hpp"
#include "takeoff/cuts.hpp"

namespace fallwright::drawing {
namespace {

using testing::HasSubstr, testing::Not;

/// Of the one step whose words begin so.
Step step_that_begins(const char* demo, const std::string& begin) {
  const Drawn& d = drawn_demo(demo);
  for (const Step& step : steps_of(d.model->job, {d.facts, d.cuts, {}, d.rows, d.judgement}))
    if (step.what.starts_with(begin)) return step;
  ADD_FAILURE() << "no step begins '" << begin << "'";
  return {};
}

std::string notes_told_right(const Sheet& sheet) {
  std::string all;
  for (const std::string& note : sheet.notes) all += note + "\n";
  return all;
}

TEST(ToldRight, WhatRoundingLeavesGoesToTheSpareStretchesInTurn) {
  // Source: by hand, in sixteenths: 10.4, 20.4, 30.4 and 10.4 are 10, 20, 30 and 10, their whole of 71.6 is 72: one of
  // the two marks to either end.
  constexpr double mark = in / 16;
  const Rounded told = rounded_to_add_up({0, 10.4 * mark, 30.8 * mark, 61.2 * mark, 71.6 * mark},
                                         {{0, 9 * mark}, {62 * mark, 71 * mark}}, false);
  std::vector<long> sixteenths;
  for (const double part : told.parts) sixteenths.push_back(std::lround(part / mark));
  EXPECT_EQ(sixteenths, (std::vector<long>{11, 20, 30, 11}));
  EXPECT_NEAR(told.whole, 72 * mark, 1e-9);
}

TEST(ToldRight, TheGapBesideABaseAndTheBasesOwnLengthsComeToTheBoresRow) {
  // Source: by hand: the base falls 60-3/8 - 59.944 short, half of it at either end, 0.215; its drain's middle
  // is 17.953 from its edge, 17-15/16 on a rule, and 18.168 from the stud, 18-3/16: the gap between is 1/4, and the
  // other 3/16, as 42 in the base is 42-3/16 from the right stud.
  const Sheet& sheet = drawn_demo("chandlers-row-7").sheet("plan");
  const auto told = [&](double from, double to) {
    for (const Dimension& d : sheet.dimensions)
      if (d.picture && d.picture->turn_deg == 0 && std::abs(d.from.x - from * in) < 0.3 &&
          std::abs(d.to.x - to * in) < 0.3)
        return d.words;
    return std::string{"none"};
  };
  EXPECT_EQ(told(0, 18.168), "18-3/16");
  EXPECT_EQ(told(0, 0.215), "1/4");
  EXPECT_EQ(told(60.16, 60.375), "3/16");
}

TEST(ToldRight, AStripIsSaidToBeNoThickerThanItsGap) {
  // Source: by hand: a gap of 0.23 in is 1/4 on a rule, and a strip for it 3/16: one of 1/4 would stand before the
  // edge.
  std::string all;
  for (const Sheet& sheet : drawn_demo("ferry-steps-3").sheets)
    if (sheet.name.starts_with("plan")) all += notes_told_right(sheet);
  EXPECT_THAT(all, HasSubstr("so thick at the foot by the cut list"));
}

TEST(ToldRight, ABenchWithoutNamedFastenersIsOnHold) {
  // Source: by hand: that job names no fastener of cleat, joists and rail, and says so in its fastening schedule; the
  // other names them all.
  const Step held = step_that_begins("ferry-steps-3", "Build the bench frame");
  EXPECT_TRUE(held.hold);
  EXPECT_THAT(held.what,
              HasSubstr("HOLD: fasten no wall cleat, joists or front rail before the job names the fasteners"));
  const Step free = step_that_begins("tannery-lane-2a", "Build the bench frame");
  EXPECT_FALSE(free.hold);
  EXPECT_THAT(free.what, Not(HasSubstr("HOLD")));
}

TEST(ToldRight, WorkThatWaitsForStudsIsOnHold) {
  // Source: by hand: nobody read that room's studs, and strips and screws go to them; the other's were read.
  for (const char* begin : {"Fur the studs beside the base", "Hold it: a screw"})
    EXPECT_TRUE(step_that_begins("chandlers-row-7", begin).hold) << begin;
  EXPECT_FALSE(step_that_begins("tannery-lane-2a", "Hold it: a screw").hold);
}

TEST(ToldRight, HoldIsToldOfTheStripsThatWaitAndBeforeTheMortarIsMixed) {
  // Source: none; asked of it: what goes in before mortar sets is settled before that is mixed, and a strip that does
  // not wait is not said to.
  Drawn d = drawn_demo("chandlers-row-7");
  const auto step = [&](const std::string& words) {
    for (const Step& each : steps_of(d.model->job, {d.facts, d.cuts, {}, {}, d.judgement}))
      if (each.what.find(words) != std::string::npos) return each;
    return Step{};
  };
  const auto late = [](const takeoff::CutRow& cut) { return cut.furring && cut.turn == facts::Turn::base; };
  ASSERT_TRUE(std::any_of(d.cuts.begin(), d.cuts.end(), late));
  const std::string beside = "Fur the studs beside the base", mix = "Mix outside";
  for (takeoff::CutRow& cut : d.cuts)
    if (late(cut) && !cut.hold) cut.hold = takeoff::Hold{takeoff::HangsOn::studs, "", "", "read them"};
  EXPECT_THAT(step(beside).measure, testing::EndsWith(" by the cut list, on HOLD"));
  EXPECT_TRUE(step(mix).hold);
  EXPECT_THAT(step(mix).what, testing::StartsWith("No mortar while furring waits that goes in before it sets: "));
  takeoff::CutRow& one = *std::find_if(d.cuts.begin(), d.cuts.end(), late);
  takeoff::CutRow other = one;
  other.mark = "Z", other.part_ids = {one.part_ids.back()}, other.count = 1, other.hold.reset();
  const std::string held = "strips? " + one.mark + " on the (left|right) wall";
  one.part_ids.pop_back(), --one.count;
  d.cuts.push_back(other);
  EXPECT_THAT(step(mix).what, testing::ContainsRegex(held));
  EXPECT_THAT(step(beside).measure, testing::ContainsRegex(", on HOLD of them .*" + held));
  EXPECT_THAT(step(beside).measure, testing::Not(testing::HasSubstr(" Z ")));
  for (takeoff::CutRow& cut : d.cuts) cut.hold.reset();
  EXPECT_THAT(step(mix).what, testing::StartsWith("No mortar before the studs are known that hold the upstands."));
  d.judgement.holds.loose.clear();
  EXPECT_FALSE(step(mix).hold);
  EXPECT_THAT(step(beside).measure, testing::EndsWith(" by the cut list"));
}

TEST(ToldRight, WhatABoardWouldTurnByIsMadeGoodBeforeIt) {
  // Source: none; asked of it: a wall that is not flat enough is told in the order of work, with where and how much, as
  // the check tells it, before the board goes on.
  Drawn d = drawn_demo("tannery-lane-2a");
  const auto at = [&](const std::string& words) {
    const auto steps = steps_of(d.model->job, {d.facts, d.cuts, {}, {}, d.judgement});
    return std::find_if(steps.begin(), steps.end(), [&](const Step& step) { return step.what.starts_with(words); }) -
           steps.begin();
  };
  const std::string words = "Before the board, with a long straightedge: ";
  rules::Result* flat = nullptr;
  for (rules::Result& r : d.judgement.results)
    if (r.id == "wall.furred-flat") flat = &r;
  ASSERT_TRUE(flat);
  flat->outcome = rules::Outcome::pass;
  const auto all = static_cast<std::ptrdiff_t>(steps_of(d.model->job, {d.facts, d.cuts, {}, {}, d.judgement}).size());
  EXPECT_EQ(at(words), all);
  flat->outcome = rules::Outcome::caution, flat->where = "at the stud", flat->advice = "fur the stud by 1/4\" more";
  EXPECT_LT(at(words + "fur the stud by 1/4\" more."), at("Board, flashing"));
  d.sheets = draw(*d.model, {d.facts, d.cuts, {}, d.rows, d.judgement});
  const std::string beside = "NOT ON THIS LIST: at the stud. " + words + "fur the stud by 1/4\" more.";
  EXPECT_THAT(notes_told_right(d.sheet("cuts")), HasSubstr(beside));
}

TEST(ToldRight, MovingTheDrainIsNotToldAsIfItBrokeNothing) {
  // Source: by hand: that advice ends with what it takes out of its limit, 'base can be set by a level'.
  Drawn d = drawn_demo("tannery-lane-2b");
  EXPECT_THAT(notes_told_right(d.sheet("plan")), HasSubstr("moving the drain mends it."));
  for (rules::Result& r : d.judgement.results)
    for (rules::Remedy& remedy : r.remedies)
      if (rules::moves_the_drain(remedy)) remedy.costs = {"levelling.window"};
  d.sheets = draw(*d.model, {d.facts, d.cuts, {}, d.rows, d.judgement});
  const std::string notes = notes_told_right(d.sheet("plan"));
  EXPECT_THAT(notes, HasSubstr("moving the drain mends this check and breaks another: see I-"));
}

TEST(ToldRight, KeysOfTheJobFileAreNoWordsOfASheet) {
  // Source: common practice, no source: nobody on site has the job file. By hand: one key, several of a section, a key
  // with what may stand there; other words in brackets stay.
  EXPECT_EQ(without_keys("find the studs (survey.studs): then"), "find the studs: then");
  EXPECT_EQ(without_keys("say which walls stand on these joists (walls, [] where none)."),
            "say which walls stand on these joists.");
  EXPECT_EQ(without_keys("a base (of mortar, screeded) set (6.5 mm)"), "a base (of mortar, screeded) set (6.5 mm)");
  EXPECT_EQ(without_keys("say so (floor.joists.walls, [] where none)"), "say so");
  EXPECT_EQ(without_keys("cleat to studs (bench.frame.fastener, fastener_length, fasteners_at_stud), first"),
            "cleat to studs, first");
  EXPECT_EQ(without_keys("no door ([door]) of 2 (2.5 x 3) or (IRC P2708.1)"),
            "no door of 2 (2.5 x 3) or (IRC P2708.1)");
  EXPECT_EQ(without_keys("thicker (bed.least or bed.collar)"), "thicker");
  for (const char* name : {"ferry-steps-3", "chandlers-row-7", "coopers-yard-4"})
    for (const Sheet& sheet : drawn_demo(name).sheets) {
      const std::string all = notes_told_right(sheet) + read_through(sheet);
      for (const char* key : {"(survey", "(bench.", "_at_", "fastener_", "[]"})
        EXPECT_THAT(all, Not(HasSubstr(key))) << name << " " << sheet.name;
    }
}

TEST(ToldRight, WhatIsBoughtIsNamedAsTheShopSellsIt) {
  // Source: by hand: 300 mL, 10.1 fl oz, is 18.2 in3; what mortar yields is no weight; a fastener without a name is
  // told to be without one.
  const std::string words = read_through(drawn_demo("tannery-lane-2a").sheet("buy"));
  for (const char* told : {"each 10.1 fl oz", "each yields 0.45 ft3", "each yields 0.50 ft3",
                           "size by the local table of framing fasteners", "which and how long the job does not say"})
    EXPECT_THAT(words, HasSubstr(told));
  EXPECT_THAT(words, Not(HasSubstr("in3")));
  EXPECT_THAT(read_through(drawn_demo("tannery-lane-5c").sheet("buy")), HasSubstr("#8, how long the job does not say"));
}

TEST(ToldRight, NoCheckOfARoomWithoutBenchSpeaksOfOne) {
  // Source: by hand: that room has no bench, and a slab has no joists.
  for (const char* name : {"chandlers-row-7", "coopers-yard-9"})
    for (const rules::Result& r : drawn_demo(name).judgement.results)
      if (r.outcome != rules::Outcome::not_applicable) {
        EXPECT_THAT(r.title, Not(HasSubstr("bench"))) << name;
      }
  for (const char* name : {"tannery-lane-5c", "coopers-yard-9"})
    EXPECT_THAT(read_through(drawn_demo(name).sheet("inspection-care")), Not(HasSubstr("notches in joists"))) << name;
}

/// How many upright lines of a table stand beside a text of the inspection, as the borders of boxes do.
long boxes_beside(const Drawn& d, const std::string& words) {
  for (const Sheet& sheet : d.sheets)
    for (const Text& text : sheet.texts)
      if (sheet.name.starts_with("inspection") && text.words.starts_with(words))
        return std::count_if(sheet.lines.begin(), sheet.lines.end(), [&](const Line& line) {
          return line.kind == LineKind::dimension && std::abs(line.from.x - line.to.x) < 1e-9 &&
                 std::min(line.from.y, line.to.y) < text.at.y && text.at.y < std::max(line.from.y, line.to.y);
        });
  ADD_FAILURE() << "no row '" << words << "'";
  return -1;
}

TEST(ToldRight, WhatIsSeenInTheModelAloneHasNoBoxToTick) {
  // Source: by hand: nobody reads in the room whether solids are closed, or meet.
  const Drawn& d = drawn_demo("tannery-lane-2a");
  EXPECT_EQ(boxes_beside(d, "all solids are closed"), 0);
  EXPECT_EQ(boxes_beside(d, "nothing runs into anything"), 0);
  EXPECT_GE(boxes_beside(d, "subfloor is level enough"), 4);
}

TEST(ToldRight, StudsThatNobodyReadHoldNothingWhereNothingHangsOnThem) {
  // Source: by hand: a base that is screeded to its walls is fastened to no stud, and that room needs no furring.
  EXPECT_THAT(notes_told_right(drawn_demo("coopers-yard-4").sheet("wall-left")), HasSubstr("ASSUMED"));
  EXPECT_THAT(notes_told_right(drawn_demo("coopers-yard-4").sheet("wall-left")), Not(HasSubstr("HOLD")));
  EXPECT_THAT(notes_told_right(drawn_demo("chandlers-row-7").sheet("wall-left")),
              HasSubstr("What hangs on them: HOLD"));
}

TEST(ToldRight, EverySheetSaysOfWhichPapersSetItIs) {
  // Source: by hand: the same view has another code on other paper.
  const Drawn small = drawn(demo_on("chandlers-row-7", job::PaperSize::letter), false);
  for (const auto& [d, set] : {std::pair{&drawn_demo("chandlers-row-7"), "tabloid set"}, {&small, "letter set"}})
    for (const Sheet& sheet : d->sheets)
      if (sheet.page.paper.width_mm > 0) {
        EXPECT_THAT(read_through(sheet), HasSubstr(set)) << sheet.name;
      }
}

TEST(ToldRight, TheFallAlongAHipIsSaidToHaveNoLimit) {
  // Source: by hand: 1 in 54 stands there beside a limit of at least 1 in 48.
  EXPECT_THAT(notes_told_right(drawn_demo("tannery-lane-2a").sheet("falls")),
              HasSubstr("'Along': where two planes meet"));
  EXPECT_THAT(notes_told_right(drawn_demo("coopers-yard-9").sheet("falls")), Not(HasSubstr("'Along'")));
}

TEST(ToldRight, TheBedsSectionRunsBetweenTheStudsBehindIt) {
  // Source: by hand: half-way to the base's farther end a stud stands in that room; the sections of the others, and of
  // its mirror image, run clear of studs too.
  const Drawn mirrored = drawn(right_hand(), false);
  for (const Drawn* d :
       {&drawn_demo("tannery-lane-2a"), &drawn_demo("tannery-lane-5c"), &drawn_demo("chandlers-row-9"), &mirrored}) {
    const Subject subject{{d->facts, d->cuts, {}, d->rows, d->judgement}, *d->model};
    const double x = bed_cut(subject).plane.Location().X();
    for (const facts::Part& p : d->facts.parts)
      if (p.which.is(facts::Role::wall, facts::Kind::stud) && p.which.family.wall == job::Side::back) {
        EXPECT_TRUE(x < p.bbox_mm[0] - 14 || x > p.bbox_mm[3] + 14) << d->name << " " << p.id << " at " << x;
      }
  }
}

TEST(ToldRight, ATemplatesCircleHasItsNameAndWidth) {
  // Source: by hand: the hole in the floor is 5 in wide by the program's own guess; the bore of the other is said.
  EXPECT_THAT(read_through(drawn_demo("chandlers-row-7").sheet("template")), HasSubstr("hole 5, assumed"));
  EXPECT_THAT(read_through(drawn_demo("tannery-lane-2a").sheet("template")), HasSubstr("bore 5"));
}

TEST(ToldRight, ABenchIsSetOutFromTheEndAtO) {
  // Source: by hand: rows along the walls begin at the back left corner, and so do those of the frame, whose back end
  // stands at the back wall's studs: its first stud, half of 1-1/2 in off that, is at 3/4 from there.
  for (const char* name : {"ferry-steps-3", "tannery-lane-2a"})
    for (const char* sheet : {"bench-plan", "bench-front"}) {
      const Sheet& drawn = drawn_demo(name).sheet(sheet);
      EXPECT_THAT(notes_told_right(drawn), HasSubstr("from the back end, which stands at the back wall's studs."));
      // The key plan's, and the row's own.
      EXPECT_EQ(2, std::count_if(drawn.texts.begin(), drawn.texts.end(), [](const Text& t) { return t.words == "O"; }));
      int rows = 0;
      for (const Dimension& d : drawn.dimensions) {
        if (!d.running) continue;
        ++rows;
        const bool plan = drawn.name == "bench-plan";  // the back is up there, and at the right from the front
        EXPECT_LT(plan ? d.to.y : d.to.x, plan ? d.from.y : d.from.x) << name << " " << sheet;
      }
      EXPECT_EQ(rows, 4) << name << " " << sheet;
    }
}

TEST(ToldRight, EveryRowOfThePlanHasItsName) {
  // Source: common practice, no source: a row of dimensions says what is measured, and from where. The stud past the
  // corner of 2A has a line of its own over O.
  for (const char* name : {"tannery-lane-2a", "coopers-yard-4"}) {
    const Sheet& plan = drawn_demo(name).sheet("plan");
    const std::string words = read_through(plan);
    for (const char* row : {"studs to bore", "front to studs"}) EXPECT_THAT(words, HasSubstr(row)) << name;
    EXPECT_EQ(3, std::count_if(plan.texts.begin(), plan.texts.end(), [](const Text& t) { return t.words == "studs"; }))
        << name << ": back, left, right";
  }
  EXPECT_THAT(notes_told_right(drawn_demo("tannery-lane-2a").sheet("plan")),
              HasSubstr("over O, a stud past the left corner"));
}

TEST(ToldRight, AJoistThatIsCutIsNotNamedBehindAsWell) {
  // Source: by hand: the section of 5C runs through the flange of the one joist that it shows.
  const Drawn d = drawn(demo_on("tannery-lane-5c", job::PaperSize::a4), false);
  EXPECT_THAT(read_through(d.sheet("bench-wall")), HasSubstr("joist A "));
  EXPECT_THAT(read_through(d.sheet("bench-wall")), Not(HasSubstr("joist A, behind")));
}

TEST(ToldRight, APageOfAStickWithoutMarksSaysSo) {
  // Source: by hand: between the upstand at 5-1/2 and the seat at 18 the stick of 2A has no mark, and a page is 9 in.
  const Drawn& d = drawn_demo("tannery-lane-2a");
  for (const Sheet& sheet : d.sheets)
    if (sheet.name.starts_with("story-stick")) {
      EXPECT_EQ(sheet.name == "story-stick-2", read_through(sheet).find("Nothing is marked here") != std::string::npos)
          << sheet.name;
    }
}

TEST(ToldRight, OnlyWhatThereIsOfOutcomesIsCounted) {
  // Source: by hand.
  rules::Result one;
  one.outcome = rules::Outcome::not_checked;
  EXPECT_EQ(open_checks({one}), "no check fails, 1 is not checked");
  EXPECT_EQ(open_checks({}), "no check fails");
  one.outcome = rules::Outcome::caution;
  rules::Result fails;
  fails.outcome = rules::Outcome::fail;
  EXPECT_EQ(open_checks({one, one, fails}), "1 check fails, 2 are cautions");
}

}  // namespace
}  // namespace fallwright::drawing
