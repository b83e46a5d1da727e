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

double between_points(Point a, Point b) {
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

/// Where the line ends that leads to a name, which stands at its left.
Point place_named(const Sheet& sheet, const std::string& words) {
  const double t = 3 * sheet.page.scale;
  const auto name =
      std::find_if(sheet.texts.begin(), sheet.texts.end(), [&](const Text& text) { return text.words == words; });
  if (name == sheet.texts.end()) throw std::logic_error{"not on the sheet: " + words};
  const Point end{name->at.x + 0.5 * t, name->at.y + 0.4 * t};
  for (const Line& line : sheet.lines)
    if (line.kind == LineKind::dimension && between_points(line.to, end) < 0.01 * t) return line.from;
  throw std::logic_error{"no line to " + words};
}

TEST(ReadAsOne, ARoughThresholdIsBlankAndItsNameLeadsIntoIt) {
  // Source: by hand: where its build-up is not said it is drawn a quarter of 4-1/2 off both faces: at 1:2 its middle
  // lies 14.3 mm of paper from them, and no filling is nearer than 10.
  const Drawn& d = drawn_demo("coopers-yard-4");
  const Sheet& sheet = d.sheet("screed-sections");
  const double mm = sheet.page.scale;
  ASSERT_EQ(mm, 2);
  const Point rough = place_named(sheet, "threshold, build-up not said"), liner = place_named(sheet, "liner");
  EXPECT_GT(between_points(rough, liner), 10 * mm);
  int filled = 0;
  for (const Hatch& hatch : sheet.hatches)
    for (std::size_t i = hatch.first_line; i < hatch.last_line; ++i, ++filled) {
      const Line& l = sheet.lines[i];
      const double dx = l.to.x - l.from.x, dy = l.to.y - l.from.y;
      const double u =
          std::clamp(((rough.x - l.from.x) * dx + (rough.y - l.from.y) * dy) / (dx * dx + dy * dy + 1e-12), 0., 1.);
      EXPECT_GT(between_points(rough, {l.from.x + u * dx, l.from.y + u * dy}), 7 * mm) << hatch.material;
    }
  EXPECT_GT(filled, 50);
}

TEST(ReadAsOne, ADrainsSectionIsAsLargeAsItsPageHolds) {
  // Source: the rooms: joists as deep and as far apart, heights as many: what one holds at 1:4 the other does.
  for (const char* name : {"tannery-lane-2a", "chandlers-row-9", "coopers-yard-4"}) {
    const Drawn& d = drawn_demo(name);
    EXPECT_EQ(d.sheet("drain").page.scale, 4) << name;
    EXPECT_THAT(told_on(d, "drain"), Contains("joist")) << name;
  }
}

TEST(ReadAsOne, EachStripOfASideWallHasALineFromItsWords) {
  // Source: the facts: where the stud stands that is furred; and none but this: its words stand in the room.
  for (const char* name : {"chandlers-row-9", "ferry-steps-3"}) {
    const Drawn& d = drawn_demo(name);
    const Sheet& plan = d.sheet("plan");
    const double t = 3 * plan.page.scale;
    int led = 0;
    for (const Text& text : plan.texts) {
      if (!text.words.starts_with("fur ") || text.anchor == Anchor::middle) continue;
      EXPECT_GT(text.at.y, part(d.facts, facts::Role::base).bbox_mm[1]) << name << " " << text.at.x;
      const Box b = box_of(text);
      led += std::any_of(plan.lines.begin(), plan.lines.end(), [&](const Line& l) {
        const bool here = l.from.x > b.x0 - t && l.from.x < b.x1 + t && l.from.y > b.y0 - t && l.from.y < b.y1 + t;
        const bool block = std::any_of(d.cuts.begin(), d.cuts.end(), [&](const takeoff::CutRow& cut) {
          return cut.on_block && std::any_of(cut.part_ids.begin(), cut.part_ids.end(), [&](const std::string& id) {
                   const auto& s = part(d.facts, id).bbox_mm;
                   return std::abs(l.to.y - (s[1] + s[4]) / 2) < 0.01;
                 });
        });
        if (here && block && l.kind == LineKind::dimension) return true;
        return here && l.kind == LineKind::dimension &&
               std::any_of(d.facts.room.studs.begin(), d.facts.room.studs.end(), [&](const facts::StudGap& stud) {
                 const auto& s = part(d.facts, stud.part_id).bbox_mm;
                 return std::abs(l.to.y - (s[1] + s[4]) / 2) < 0.01 &&
                        (std::abs(l.to.x - s[3]) < 0.01 || std::abs(l.to.x - s[0]) < 0.01);
               });
      });
    }
    EXPECT_EQ(led, std::count_if(plan.texts.begin(), plan.texts.end(),
                                 [](const Text& text) {
                                   return text.words.starts_with("fur ") && text.anchor != Anchor::middle;
                                 }))
        << name;
    EXPECT_GE(led, 4) << name;
  }
}

TEST(ReadAsOne, HeightsBelowTheDatumHaveNoMinus) {
  // Source: by hand: a drain's body of 4, as it was read, below its top at 2-1/2, 1-1/8 and 1-1/2.
  const std::pair<const char*, const char*> bodies[]{
      {"coopers-yard-4", "1-1/2"}, {"chandlers-row-9", "2-7/8"}, {"tannery-lane-2a", "2-1/2"}};
  for (const auto& [name, below] : bodies) {
    job::Job job = demo(name);
    std::erase(job.defaulted, "drain.body_depth");
    EXPECT_THAT(told_on(drawn(job, false), "drain"),
                Contains(below + std::string{" below the datum  drain body, lowest"}));
  }
  EXPECT_THAT(told_on(drawn_demo("ferry-steps-3"), "bench-front"),
              Contains(HasSubstr(" below the datum  sole plate's foot")));
  EXPECT_THAT(told_on(drawn_demo("coopers-yard-4"), "screed-sections"),
              Contains("1/16 below the datum  subfloor at the form"));
  for (const char* name : {"coopers-yard-4", "chandlers-row-9", "tannery-lane-2a", "ferry-steps-3"})
    for (const Sheet& sheet : drawn_demo(name).sheets)
      for (const Text& text : sheet.texts)
        EXPECT_FALSE(sheet.to_scale && text.words.starts_with("-") && text.words.find("  ") != std::string::npos)
            << name << " " << sheet.name << " " << text.words;
}

TEST(ReadAsOne, AJoiningCrossStandsClearOfEdges) {
  // Source: none but this: two lines nearer than a millimetre of paper that run one way are read as one. A cross is 8
  // wide.
  int crosses = 0;
  for (const char* name : {"tannery-lane-2a", "ferry-steps-3"})
    for (const Sheet& sheet : drawn_demo(name).sheets) {
      if (!sheet.name.starts_with("bench-profile") && !sheet.name.starts_with("story-stick")) continue;
      for (const Line& arm : sheet.lines) {
        const double dx = std::abs(arm.to.x - arm.from.x), dy = std::abs(arm.to.y - arm.from.y);
        if (arm.kind != LineKind::centre || std::abs(dx + dy - 8) > 0.01) continue;
        const bool level = dy < 0.01;
        ++crosses;
        for (const Line& l : sheet.lines) {
          if (l.kind == LineKind::centre || (level ? std::abs(l.to.y - l.from.y) : std::abs(l.to.x - l.from.x)) > 0.5)
            continue;
          const double off = level ? l.from.y - arm.from.y : l.from.x - arm.from.x,
                       low = level ? std::min(l.from.x, l.to.x) - std::max(arm.from.x, arm.to.x)
                                   : std::min(l.from.y, l.to.y) - std::max(arm.from.y, arm.to.y),
                       high = level ? std::min(arm.from.x, arm.to.x) - std::max(l.from.x, l.to.x)
                                    : std::min(arm.from.y, arm.to.y) - std::max(l.from.y, l.to.y);
          EXPECT_FALSE(std::abs(off) < 1 && low < 0 && high < 0)
              << name << " " << sheet.name << " " << arm.from.x << " " << arm.from.y;
        }
      }
    }
  EXPECT_GT(crosses, 20);
}

TEST(ReadAsOne, LettersOfSectionsRunOnAndAWasteStandsInAHole) {
  // Source: by hand: a room without a bench has two sections, one with it three; over a waste that stands nothing is
  // bored.
  const auto letters = [](const char* name) {
    std::string found;
    const Sheet& plan = drawn_demo(name).sheet("plan");
    for (const std::string letter : {"A", "B", "C"})
      found +=
          std::any_of(plan.texts.begin(), plan.texts.end(),
                      [&](const Text& text) { return text.words == letter && text.height > 4.5 * plan.page.scale; })
              ? letter
              : "";
    return found;
  };
  EXPECT_EQ(letters("tannery-lane-2a"), "ABC");
  EXPECT_EQ(letters("chandlers-row-9"), "AB");
  EXPECT_EQ(letters("coopers-yard-4"), "AB");
  EXPECT_THAT(drawn_demo("coopers-yard-4").sheet("screed-sections").title, HasSubstr("section B-B"));
  EXPECT_THAT(told_on(drawn_demo("chandlers-row-9"), "drain"), Contains(HasSubstr("Drain in its hole")));
  EXPECT_THAT(told_on(drawn_demo("tannery-lane-2a"), "drain"), Contains(HasSubstr("Drain in its bore")));
}

}  // namespace
}  // namespace fallwright::drawing
