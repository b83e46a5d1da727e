// What stands beside or over something else on the sheets of framer and plumber.
#include <algorithm>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/plan.hpp"
#include "drawing/wall.hpp"
#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

/// Its notes and texts.
std::string words_and_notes(const Sheet& sheet) {
  std::string all = read_through(sheet);
  for (const std::string& note : sheet.notes) all += note + " ";
  const auto both_blank = [](char a, char b) { return a == ' ' && b == ' '; };
  all.erase(std::unique(all.begin(), all.end(), both_blank), all.end());
  return all;
}

const Drawn& on_small_paper(const std::string& name) {
  static std::map<std::string, Drawn> all;
  const auto known = all.find(name);
  if (known != all.end()) return known->second;
  job::Job job = demo(name);
  job.drawings.paper = job.is_metric() ? job::PaperSize::a4 : job::PaperSize::letter;
  return all.emplace(name, drawn(job, false)).first->second;
}

TEST(OwnLine, AStudPastOStandsOverTheRowThatBeginsThere) {
  // Source: common practice, no source: a row of numbers from O is read from its end; what runs the other way and ends
  // on its line would be read as its beginning.
  for (const char* name : {"tannery-lane-2a", "tannery-lane-2b", "coopers-yard-9"}) {
    const Sheet& sheet = drawn_demo(name).sheet("plan");
    double top = -1e9, past = -1e9;
    for (const Dimension& dim : sheet.dimensions) {
      const auto& picture = dim.picture;
      if (!picture || dim.from.y < 500) continue;
      if (dim.running && std::abs(dim.from.y - dim.to.y) < 1e-6)
        top = std::max(top, box_of(sheet.texts.at(picture->text)).y1);
      if (!dim.running && picture->turn_deg == 0 && std::min(dim.from.x, dim.to.x) < -1) past = picture->line_at.y;
    }
    EXPECT_GT(past, top) << name;
  }
}

TEST(OwnLine, TheLastRowOfAPlanHasItsName) {
  // Source: none: every other row has one; what runs from stud face to stud face is called that.
  for (const char* name : {"tannery-lane-2a", "chandlers-row-7"})
    EXPECT_THAT(read_through(drawn_demo(name).sheet("plan")), HasSubstr("stud faces ")) << name;
}

TEST(BlockStrips, AreHeldInTheirBayAndToldByTheBlock) {
  // Source: by hand, from the job: two strips go on blocks of the right wall, and wait as the drain's place does; one's
  // block stands between the studs at 13/16 and 16.
  const Drawn &own = drawn_demo("ferry-steps-3"), &letter = on_small_paper("ferry-steps-3");
  for (const Drawn* d : {&own, &letter}) {
    const Sheet& sheet = d->sheet("wall-right");
    int strips = 0, held = 0;
    for (const takeoff::CutRow& cut : d->cuts) {
      if (!cut.on_block || cut.part_ids.front().find("wall-right") == std::string::npos) continue;
      ++strips;
      const std::string name = "fur " + cut.mark;
      const auto text = std::find_if(sheet.texts.begin(), sheet.texts.end(), [&](const Text& t) {
        return t.words == name + " HOLD" || t.words == cut.mark + " HOLD";
      });
      ASSERT_NE(text, sheet.texts.end()) << name;
      EXPECT_GT(text->at.y, 6 * 25.4 + 1.75 * 25.4) << "over the block's top";
    }
    for (const Text& text : sheet.texts) held += text.words.ends_with("HOLD");
    EXPECT_EQ(strips, 2);
    EXPECT_GE(held, 6);
  }
  std::string cuts;
  for (const Sheet& sheet : own.sheets)
    if (sheet.name.starts_with("cuts")) cuts += read_through(sheet);
  EXPECT_THAT(cuts, AllOf(HasSubstr("on block "), HasSubstr("between the studs at 13/16 and 16"),
                          Not(HasSubstr("on the block at"))));
}

TEST(Plan, ShowsStripsThatBeginOverTheUpstand) {
  // Source: the cut list: what is furred anywhere has its heavy dash, and the word that it waits.
  const Sheet& plan = drawn_demo("ferry-steps-3").sheet("plan");
  const auto& cuts = drawn_demo("ferry-steps-3").cuts;
  std::size_t strips = 0;
  for (const takeoff::CutRow& cut : cuts)
    if (cut.furring && cut.turn != facts::Turn::seat) strips += cut.part_ids.size();
  std::size_t dashes = 0;
  for (const Line& line : plan.lines) dashes += line.kind == LineKind::correction;
  EXPECT_GE(dashes, strips / 2);
  EXPECT_GT(std::count_if(plan.lines.begin(), plan.lines.end(),
                          [&](const Line& line) {
                            return line.kind == LineKind::correction && std::abs(line.from.y - line.to.y) < 1e-6 &&
                                   line.from.y > 500;
                          }),
            3)
      << "of the back wall";
}

TEST(Schedules, FasteningIsLedToWhereItStands) {
  // Source: none: where its table has a sheet of its own, that is named.
  const Drawn& d = on_small_paper("ferry-steps-3");
  const auto apart = std::find_if(d.sheets.begin(), d.sheets.end(),
                                  [](const Sheet& sheet) { return sheet.name == "schedules-fastening"; });
  ASSERT_TRUE(apart != d.sheets.end());
  for (const char* name : {"bench-plan", "wall-back", "wall-right"})
    EXPECT_THAT(words_and_notes(d.sheet(name)), HasSubstr("fastening: " + apart->code)) << name;
}

TEST(OrderOfWork, CountsStripsOfAMarkThatTwoWallsShare) {
  // Source: by hand: three strips A on each side wall of 7 Chandlers: "A (3 of 6)" twice was read as the third of six.
  std::string all;
  for (const Sheet& sheet : drawn_demo("chandlers-row-7").sheets) all += words_and_notes(sheet);
  EXPECT_THAT(all, AllOf(HasSubstr("3 strips A on the left wall"), Not(HasSubstr(" of 6)"))));
}

TEST(Tapers, NoWordIsSentToThatNoWallHas) {
  // Source: none: 'in' is explained where a wall has it.
  for (const char* name : {"ferry-steps-3", "chandlers-row-9"}) {
    const Drawn& d = drawn_demo(name);
    bool said = false, there = false;
    for (const Sheet& sheet : d.sheets) {
      if (sheet.name == "cuts-tapers") said = words_and_notes(sheet).find("'in'") != std::string::npos;
      if (sheet.name.starts_with("wall-"))
        there = there || std::any_of(sheet.texts.begin(), sheet.texts.end(),
                                     [](const Text& text) { return text.words.starts_with("in "); });
    }
    EXPECT_TRUE(there || !said) << name;
  }
}

TEST(TitleBlock, SaysOAndDatumOnEveryPaper) {
  // Source: the conventions of the set: a sheet that was taken from the roll says from where its lengths run.
  for (const Drawn* d : {&drawn_demo("tannery-lane-2a"), &on_small_paper("tannery-lane-2a"),
                         &on_small_paper("coopers-yard-9"), &drawn_demo("tannery-lane-5c")})
    for (const Sheet& sheet : d->sheets) {
      if (sheet.page.paper.width_mm <= 0) continue;
      const std::string all = read_through(sheet);
      EXPECT_THAT(all, AllOf(HasSubstr("O: "), HasSubstr("DATUM: "))) << sheet.name;
    }
}

TEST(SmallPlan, HasTheLengthsOfItsSidesInANote) {
  // Source: by hand, from the job: walls of 36-1/4 in; upright, the name with that is 420 mm long at 1:12, its bay 370.
  const Sheet& plan = on_small_paper("ferry-steps-3").sheet("plan");
  for (const Text& text : plan.texts)
    if (text.words.starts_with("LEFT WALL") || text.words.starts_with("RIGHT WALL")) {
      EXPECT_THAT(text.words, Not(HasSubstr("36")));
    }
  EXPECT_THAT(words_and_notes(plan), AllOf(HasSubstr("left wall 36-1/4"), HasSubstr("entry 72-5/16")));
}

TEST(SmallSection, OfSeatAndBaseIsBrokenOffAndTwiceAsLarge) {
  // Source: by hand: bench and half a metre of base are 1.06 m, 132 mm at 1:8; a letter page has 249.
  EXPECT_EQ(on_small_paper("tannery-lane-2a").sheet("bench-section").page.scale, 8);
  EXPECT_EQ(on_small_paper("tannery-lane-5c").sheet("bench-section").page.scale, 10);
  EXPECT_THAT(on_small_paper("tannery-lane-2a").sheet("bench-section").notes,
              testing::Contains(HasSubstr("broken off")));
}

TEST(BorePlan, NamesBothItsCircles) {
  // Source: by hand, from the job: a bore of 5 in about a body of 3-1/4.
  EXPECT_THAT(read_through(on_small_paper("tannery-lane-2a").sheet("drain-plan")),
              AllOf(HasSubstr("bore 5 "), HasSubstr("drain body 3-1/4 ")));
}

TEST(Backing, HasItsMarkInTheSectionAndStandsOffAStudsLength) {
  // Source: none: what is on the cut list has its mark wherever it is drawn; two texts side by side are read as one.
  const Sheet& front = on_small_paper("tannery-lane-5c").sheet("bench-front");
  for (const Text& backing : front.texts) {
    if (backing.words != "L backing") continue;
    const Box box = box_of(backing);
    for (const Text& stud : front.texts) {
      if (!stud.words.starts_with("B  ")) continue;
      const Box other = box_of(stud);
      const double across = std::max(box.x0 - other.x1, other.x0 - box.x1),
                   up = std::max(box.y0 - other.y1, other.y0 - box.y1);
      EXPECT_GT(std::max(across, up) / front.page.scale, 1.4) << "paper mm";
    }
  }
}

TEST(Marks, OfThinMembersAreLedUprightPastAChain) {
  // Source: common practice, no source: a letter on the line of a chain is read as one of its numbers.
  for (const char* name : {"tannery-lane-5c", "ferry-steps-3"}) {
    const Sheet& front = on_small_paper(name).sheet("bench-front");
    double left = 1e9;  // of the frame
    for (const Line& line : front.lines)
      if (line.kind == LineKind::outline) left = std::min({left, line.from.x, line.to.x});
    for (const MemberMark& mark : front.members)
      if (front.texts.at(mark.text).words.size() <= 2) {
        EXPECT_GT(box_of(front.texts.at(mark.text)).x0, left) << name << " " << mark.mark;
      }
  }
}

TEST(Strips, HaveOneThicknessOnPlanAndListAndHeightsOverTheDatum) {
  // Source: by hand: a gap of 27.42 at an upstand is 27 to a mark, but the strip is cut 26: the plan says 26. A foot
  // piece of 144 on a plate of 45 ends 189 over the datum; the rest begins there. A strip that ends under a seat and is
  // cut to nothing stands at the foot, and one that begins over that does not.
  const Drawn& d = drawn_demo("tannery-lane-5c");
  const auto row = [](double thick, double thin, takeoff::StripEnd thin_at, facts::Turn turn) {
    takeoff::CutRow cut;
    cut.part_ids = {"one"}, cut.furring = takeoff::Furring::strip, cut.thickness_mm = thick, cut.turn = turn;
    if (thin < thick) cut.taper = takeoff::Taper{thin, thin_at};
    return cut;
  };
  using facts::Strip, facts::Turn, takeoff::StripEnd;
  facts::StudGap stud{"one", survey::Side::left, facts::Before::base, 25, 27.73, 27.42, 21.76};
  std::vector<takeoff::CutRow> cuts{row(26, 26, StripEnd::head, Turn::base), row(26, 21, StripEnd::head, Turn::after)};
  const Subject subject{{d.facts, cuts, {}, d.rows, d.judgement}, *d.model};
  stud.strips = {Strip{26, 26, 0, 0.06, Turn::base}, Strip{26, 21, 0.06, 1, Turn::after}};
  EXPECT_EQ(furring_told(subject, stud)->foot_mm, 26);
  Sheet sheet;
  sheet.metric = true;
  Pen pen{sheet, 3};
  EXPECT_EQ(ends_of_strip(pen, cuts[1], stud.strips[1], {{0, 189}, {0, 2355}}), "26 at 189, 21 top");
  EXPECT_EQ(ends_of_strip(pen, cuts[0], stud.strips[0], {{0, 45}, {0, 189}}), "26 foot, 26 at 189");
  cuts = {row(2, 0, StripEnd::head, Turn::framing)};
  stud.strips = {Strip{2, 0, 0, 0.2}}, stud.at_upstand_mm = 0.4;
  EXPECT_FALSE(furring_told(subject, stud)->is_above());
  EXPECT_EQ(ends_of_strip(pen, cuts[0], stud.strips[0], {{0, 45}, {0, 424}}), "2 foot, ends at 424");
  cuts = {row(19, 0, StripEnd::foot, Turn::framing)};
  stud.strips = {Strip{0, 19, 0.2, 1}}, stud.at_upstand_mm = 18;
  EXPECT_TRUE(furring_told(subject, stud)->is_above());
  cuts.clear();
  EXPECT_FALSE(furring_told(subject, stud)) << "what no list has is on no plan";
}

TEST(TitleBlock, OnSmallPaperNoTitleIsSmallerThanThatOfALongSection) {
  // Source: none: letters of 2.5 mm are those of notes, a title's are 3 and more.
  for (const char* name : {"tannery-lane-2a", "coopers-yard-4"})
    for (const Sheet& sheet : on_small_paper(name).sheets)
      for (const Text& text : sheet.texts)
        if (text.words == sheet.title && sheet.page.scale > 0 &&
            text.at.y < sheet.page.corner.y + 60 * sheet.page.scale && sheet.name != "cover") {
          EXPECT_GT(text.height / sheet.page.scale, 2.6) << sheet.title;
        }
}

}  // namespace
}  // namespace fallwright::drawing
