// Marks, leaders and notes that can be read for what they are: nothing hides them, and none stands where it would be
// taken for something else.
#include <algorithm>
#include <cmath>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/clear.hpp"
#include "drawing/page.hpp"
#include "drawing/views.hpp"
#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

const Drawn& attic_on_letter() {
  static const Drawn d = drawn(demo_on("ferry-steps-3", job::PaperSize::letter), false);
  return d;
}

std::string told_on(const Sheet& sheet) {
  std::string all = read_through(sheet);
  for (const std::string& note : sheet.notes) all += note + " ";
  return all;
}

bool is_in_set(const Drawn& d, const std::string& name) {
  return std::any_of(d.sheets.begin(), d.sheets.end(), [&](const Sheet& s) { return s.name == name; });
}

TEST(Legible, AListOnSeveralPagesIsNamedByAllOfThem) {
  // Source: by hand: on letter paper the attic's order of work takes three pages, its pieces to cut two and those by
  // place two.
  const Drawn& d = attic_on_letter();
  const auto code = [&](const char* name) { return d.sheet(name).code; };
  ASSERT_TRUE(is_in_set(d, "order-of-work-3") && !is_in_set(d, "order-of-work-4"));
  ASSERT_TRUE(is_in_set(d, "cuts-2") && !is_in_set(d, "cuts-3"));
  const std::string order = code("order-of-work") + " to " + code("order-of-work-3"),
                    cuts = code("cuts") + ", " + code("cuts-2"),
                    places = code("schedules") + ", " + code("schedules-2");
  EXPECT_THAT(told_on(d.sheet("assembly")), HasSubstr(order));
  EXPECT_THAT(told_on(d.sheet("plan-framing")), HasSubstr(cuts));
  EXPECT_THAT(told_on(d.sheet("bench-plan")), HasSubstr(places));
  EXPECT_THAT(told_on(drawn_demo("tannery-lane-2a").sheet("assembly")), HasSubstr("steps on G-02, G-03. "));
}

TEST(Legible, WrappedWordsKeepTheRoomOfAllTheirSheetsCodes) {
  // Source: by hand: "G-88 to G-88" is as wide as any codes of a list, and stands in place of its name.
  for (const double width : {30.0, 40.0, 50.0, 60.0})
    for (std::string line : wrapped("Those of the steps on {order-of-work} and of {cuts}, as told.", width, 2.5)) {
      for (const char* name : {"{order-of-work}", "{cuts}"})
        if (const auto at = line.find(name); at != std::string::npos)
          line.replace(at, std::string{name}.size(), "F-14 to F-16");
      EXPECT_LE(width_of(line, 2.5), width) << line;
    }
}

TEST(Legible, NotesThatLeaveTheStripLeaveItTogether) {
  // Source: none but this: who reads the first of them finds the others there. The attic's walls have more notes on
  // letter paper than their strip takes.
  const Drawn& d = attic_on_letter();
  int left = 0;
  for (const char* name : {"wall-back", "wall-left", "plan-framing", "bench-front"}) {
    const Sheet& sheet = d.sheet(name);
    const double strip = sheet.page.corner.y + (10 + strip_of(sheet, sheet.page.paper)) * sheet.page.scale;
    bool first_above = false, second_above = false;
    for (const Text& text : sheet.texts) {
      if (text.words.starts_with("1  ")) first_above = text.at.y > strip;
      if (text.words.starts_with("2  ")) second_above = text.at.y > strip;
    }
    EXPECT_EQ(first_above, second_above) << name;
    EXPECT_TRUE(sheet.notes.empty() || !first_above) << name;
    left += first_above;
  }
  EXPECT_GE(left, 2);
}

TEST(Legible, HeightsOfTheFloorHaveCrossesThatNoEdgeRunsAlong) {
  // Source: none but this: an arm along an edge is not seen, as a thin line under a thick one.
  for (const char* name : {"tannery-lane-2a", "coopers-yard-4", "tannery-lane-5c"}) {
    const Sheet& sheet = drawn_demo(name).sheet("falls");
    int arms = 0;
    for (const Line& a : sheet.lines) {
      if (a.kind != LineKind::centre ||
          std::abs(std::hypot(a.to.x - a.from.x, a.to.y - a.from.y) - 1.4 * 3 * sheet.page.scale) > 1e-3)
        continue;
      const Point middle{(a.from.x + a.to.x) / 2, (a.from.y + a.to.y) / 2};
      ++arms;
      for (const Line& edge : sheet.lines) {
        if (edge.kind != LineKind::outline) continue;
        const double dx = edge.to.x - edge.from.x, dy = edge.to.y - edge.from.y, length = std::hypot(dx, dy);
        const double along = ((middle.x - edge.from.x) * dx + (middle.y - edge.from.y) * dy) / length,
                     off = std::abs((middle.x - edge.from.x) * dy - (middle.y - edge.from.y) * dx) / length;
        if (off > 0.1 || along < -0.1 || along > length + 0.1 || length < 1) continue;
        const double sine = std::abs(dx * (a.to.y - a.from.y) - dy * (a.to.x - a.from.x)) / length /
                            std::hypot(a.to.x - a.from.x, a.to.y - a.from.y);
        EXPECT_GT(sine, std::sin(10 * M_PI / 180)) << name << " " << middle.x << " " << middle.y;
      }
    }
    EXPECT_GE(arms, 10) << name;
  }
}

TEST(Legible, TheDatumsSignAndTheBreakStandApart) {
  // Source: by hand: at the attic's drain heights stand 5/16 over the datum, so that its sign goes to the left of them:
  // a triangle 0.7 letters wide; the break is a zigzag half a letter to either side of the picture's end, and no line
  // to a layer's name runs through it.
  for (const char* name : {"ferry-steps-3", "coopers-yard-4", "chandlers-row-9", "tannery-lane-2a"}) {
    const Sheet& sheet = drawn_demo(name).sheet("drain");
    const double t = 3 * sheet.page.scale;
    double end = -1e9;
    for (const Line& line : sheet.lines)
      if (line.kind == LineKind::section && std::max(line.from.y, line.to.y) > 0 &&
          std::min(line.from.y, line.to.y) > -30)
        end = std::max({end, line.from.x, line.to.x});
    int signs = 0, zigzags = 0;
    for (const Line& line : sheet.lines) {
      const double dx = line.to.x - line.from.x, dy = line.to.y - line.from.y;
      if (line.kind == LineKind::dimension && line.from.y == 0 && std::abs(dx + 0.35 * t) < 1e-6 &&
          std::abs(dy - 0.7 * t) < 1e-6) {
        ++signs;
        EXPECT_TRUE(line.to.x > end + 0.6 * t || line.from.x < end - 30 * t) << name;
      }
      if (line.kind != LineKind::dimension || std::abs(dx - t) > 1e-6 || std::abs(dy - 0.3 * t) > 1e-6) continue;
      ++zigzags;
      for (const Line& other : sheet.lines)
        EXPECT_FALSE(cross(line, other)) << name << " " << line.from.x << " " << line.from.y << " by a line of kind "
                                         << name_of(other.kind) << " from " << other.from.x << " " << other.from.y
                                         << " to " << other.to.x << " " << other.to.y;
    }
    EXPECT_EQ(signs, 1) << name;
    EXPECT_EQ(zigzags, 2) << name;
  }
}

TEST(Legible, NoDotStandsBehindANumber) {
  // Source: none but this: behind "bore 100" the dot of the line to the channel was a degree's sign.
  for (const char* name : {"coopers-yard-9", "tannery-lane-5c"}) {
    const Sheet& sheet = drawn_demo(name).sheet("plan");
    const double t = 3 * sheet.page.scale;
    int dots = 0;
    for (const Arc& dot : sheet.arcs) {
      if (std::abs(dot.radius - 0.2 * t) > 1e-6) continue;
      ++dots;
      for (const Text& text : sheet.texts) {
        const Box box = box_of(text);
        const bool beside = dot.centre.x > box.x1 && dot.centre.x < box.x1 + 1.5 * t && dot.centre.y > box.y0 &&
                            dot.centre.y < box.y1 + 0.5 * t;
        EXPECT_FALSE(beside && std::isdigit(static_cast<unsigned char>(text.words.back()))) << name << text.words;
      }
    }
    EXPECT_GE(dots, 2) << name;
  }
}

TEST(Legible, AStripOfFurringIsDrawnOnItsStud) {
  // Source: the studs' boxes: a left wall is seen along y, a right one against it.
  int strips = 0;
  for (const char* name : {"ferry-steps-3", "chandlers-row-9"})
    for (const bool left : {true, false}) {
      const Drawn& d = drawn_demo(name);
      const Sheet& sheet = d.sheet(left ? "wall-left" : "wall-right");
      for (const Line& line : sheet.lines) {
        if (line.kind != LineKind::correction || line.from.y == line.to.y) continue;  // level ones lie on blocks
        ++strips;
        EXPECT_TRUE(std::any_of(d.model->solids.begin(), d.model->solids.end(),
                                [&](const parts::Solid& solid) {
                                  if (!solid.part.is(parts::Role::wall, parts::Kind::stud)) return false;
                                  const auto& box = part(d.facts, solid.id).bbox_mm;
                                  const double from = left ? box[1] : -box[4], to = left ? box[4] : -box[1];
                                  return line.from.x > from + 5 && line.from.x < to - 5;
                                }))
            << name << " " << line.from.x;
      }
    }
  EXPECT_GE(strips, 10);
}

TEST(Legible, TheWholeBetweenFinishedFacesHasItsName) {
  // Source: by hand: 29 and 29-3/8 from the finished walls to the bore are 58-3/8.
  const Sheet& plan = drawn_demo("coopers-yard-4").sheet("plan");
  const auto name =
      std::find_if(plan.texts.begin(), plan.texts.end(), [](const Text& t) { return t.words == "finished faces"; });
  ASSERT_NE(name, plan.texts.end());
  EXPECT_TRUE(std::any_of(plan.dimensions.begin(), plan.dimensions.end(), [&](const Dimension& d) {
    return d.words == "58-3/8" && d.picture && std::abs(d.picture->line_at.y - name->at.y) < plan.page.scale;
  }));
}

TEST(Legible, CrossesThatJoinTilesStandOffTheirSticksLines) {
  // Source: by hand: a stick's strip is 22 mm wide on a tile 140 mm high: there is room above and below it.
  int arms = 0;
  for (const char* name : {"tannery-lane-5c", "tannery-lane-2a"})
    for (const Sheet& sheet : drawn_demo(name).sheets) {
      if (!sheet.name.starts_with("story-stick")) continue;
      for (const Line& a : sheet.lines) {
        if (a.kind != LineKind::centre || std::abs(std::hypot(a.to.x - a.from.x, a.to.y - a.from.y) - 8) > 1e-6)
          continue;
        ++arms;
        for (const Line& other : sheet.lines)
          EXPECT_FALSE(other.kind == LineKind::outline && cross(a, other)) << sheet.name;
      }
    }
  EXPECT_GE(arms, 8);
}

TEST(Legible, TheBedAtTheFlangeIsTheSameOnEverySheet) {
  // Source: by hand: the flange of 9 Coopers Yard at 29.85, its slab 2.07 below the datum there: 31.92.
  const Drawn& d = drawn_demo("coopers-yard-9");
  EXPECT_NEAR(d.facts.site_built->at_flange_mm, 31.92, 0.01);
  EXPECT_THAT(told_on(d.sheet("drain")), HasSubstr("on 32 mm of bed"));
  EXPECT_THAT(told_on(d.sheet("screed")), HasSubstr("32 mm thick"));
  EXPECT_THAT(told_on(d.sheet("order-of-work")), HasSubstr("on 32 mm"));
}

TEST(Legible, ASectionAlongARibSaysSo) {
  // Source: by hand: six rows of pockets have a rib in the middle of the base, where the drain is; seven have none.
  for (const auto& [rows, along] : {std::pair{6, true}, {7, false}}) {
    job::Job job = demo("chandlers-row-7");
    job.base.ribs.rows = rows;
    const Drawn d = drawn(job, false);
    const bool told = told_on(d.sheet("drain")).find("along a rib of the base") != std::string::npos;
    EXPECT_EQ(told, along) << rows;
    EXPECT_EQ(told_on(d.sheet("drain")).find("on the bed, 3/16\" thick") != std::string::npos, along) << rows;
  }
}

TEST(Legible, EachMemberInTheBenchsSectionHasItsMark) {
  // Source: the frame's parts: the section passes between studs and joists. It cuts deck, front rail, top plate, sole
  // plate and wall cleat, and sees a stud and a joist behind.
  using parts::Kind;
  for (const char* name : {"tannery-lane-2a", "ferry-steps-3"}) {
    const Drawn& d = drawn_demo(name);
    const Subject subject{{d.facts, d.cuts, {}, d.rows, d.judgement}, *d.model};
    std::multiset<std::string> wanted, found;
    for (const Kind kind :
         {Kind::deck, Kind::front_rail, Kind::top_plate, Kind::sole_plate, Kind::wall_cleat, Kind::stud, Kind::joist})
      for (const parts::Solid& solid : d.model->solids)
        if (solid.part.is(parts::Role::bench_frame, kind)) {
          wanted.insert(mark_of(subject, solid.id));
          break;
        }
    for (const MemberMark& mark : d.sheet("bench-section").members) found.insert(mark.mark);
    EXPECT_EQ(found, wanted) << name;
  }
}

TEST(Legible, FurringBehindABenchIsNamedInItsDetail) {
  // Source: by hand: the attic's left studs stand back, those of flat 2A do not.
  const Sheet& sheet = drawn_demo("ferry-steps-3").sheet("bench-section");
  const auto name = std::find_if(sheet.texts.begin(), sheet.texts.end(), [](const Text& text) {
    return text.words.starts_with("furring ") && text.words.ends_with(", behind");
  });
  ASSERT_NE(name, sheet.texts.end());
  const auto& cuts = drawn_demo("ferry-steps-3").cuts;
  EXPECT_TRUE(std::any_of(cuts.begin(), cuts.end(), [&](const takeoff::CutRow& cut) {
    return cut.furring && name->words == "furring " + cut.mark + ", behind";
  }));
  EXPECT_THAT(read_through(drawn_demo("tannery-lane-2a").sheet("bench-section")), Not(HasSubstr("furring")));
}

TEST(Legible, OnSmallPaperTheBenchsThirdJointLeavesTheOthersTheirScale) {
  // Source: by hand: at 1:2 the first two joints of flat 2A take 225 mm of a letter page's 243; under the second, 55
  // high with its name, 90 of its 150 mm are left, and the third takes 90 at 1:4 and its name.
  job::Job job = demo_on("tannery-lane-2a", job::PaperSize::letter);
  const Drawn d = drawn(job, false);
  EXPECT_EQ(d.sheet("bench-joints").page.scale, 2);
  EXPECT_THAT(read_through(d.sheet("bench-joints")), AllOf(HasSubstr("1  Apron"), Not(HasSubstr("3  Cleat, joist"))));
  EXPECT_THAT(told_on(d.sheet("bench-section")),
              HasSubstr("1 and 2 larger on " + d.sheet("bench-joints").code + ", 3 on " + d.sheet("bench-wall").code));
}

TEST(Legible, TheStoryStickSaysWhatItsHeightsAreAbove) {
  // Source: none but this: not every height is on it.
  EXPECT_THAT(told_on(drawn_demo("tannery-lane-2a").sheet("story-stick-1")),
              AllOf(HasSubstr("its height above the datum"), Not(HasSubstr("every height"))));
}

}  // namespace
}  // namespace fallwright::drawing
