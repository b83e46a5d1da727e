// Sets for an office printer: what is drawn keeps a scale that is read on site.
#include <algorithm>
#include <cctype>
#include <cmath>
#include <set>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/page.hpp"
#include "drawing/views.hpp"
#include "outside/drawn.hpp"
#include "support/imperial.hpp"

namespace fallwright::drawing {
namespace {

using testing::HasSubstr;
using testing::Not;

Drawn on_letter(unsigned seed) {
  job::Job job = job::read(sample::random_room(seed), "random.toml");
  job.drawings.paper = job::PaperSize::letter;
  return drawn(job, false);
}

bool has_sheet(const Drawn& d, const std::string& name) {
  return std::any_of(d.sheets.begin(), d.sheets.end(), [&](const Sheet& sheet) { return sheet.name == name; });
}

/// With its notes, which stand beside the drawing where the strip has no room for them.
std::string with_notes(const Sheet& sheet) {
  std::string all = read_through(sheet);
  for (const std::string& note : sheet.notes) all += note + " ";
  const auto both_blank = [](char a, char b) { return a == ' ' && b == ' '; };
  all.erase(std::unique(all.begin(), all.end(), both_blank), all.end());
  return all;
}

TEST(SmallPaper, APlanWithManyRowsIsDrawnTwiceAtALargerScale) {
  // Source: by hand: six rows below the room, 9 mm apart, leave less than half of a letter page to it, 49-7/8 by 44-7/8
  // in: 24 to one; four rows and two leave room for 16 to one and larger. Each length is told once.
  const Drawn d = on_letter(3057);
  ASSERT_TRUE(has_sheet(d, "plan-edges"));
  const Sheet &bore = d.sheet("plan"), &edges = d.sheet("plan-edges");
  EXPECT_LE(bore.page.scale, 16);
  EXPECT_LE(edges.page.scale, 16);
  EXPECT_THAT(read_through(bore),
              testing::AllOf(HasSubstr("studs to bore"), HasSubstr("19-7/8"), Not(HasSubstr("49-9/16"))));
  EXPECT_THAT(read_through(edges),
              testing::AllOf(HasSubstr("49-9/16"), HasSubstr("29-7/8"), Not(HasSubstr("studs to bore"))));
  for (const Sheet* sheet : {&bore, &edges}) EXPECT_THAT(read_through(*sheet), HasSubstr("49-7/8")) << "the whole";
  EXPECT_THAT(with_notes(bore), HasSubstr("Edges of base and bench: " + edges.code));
  EXPECT_THAT(with_notes(edges), HasSubstr("The bore and sections: " + bore.code));
  EXPECT_FALSE(has_sheet(drawn_demo("tannery-lane-2a"), "plan-edges"));
}

TEST(SmallPaper, AWallBesideLongWordsKeepsHalfAnInchToTheFoot) {
  // Source: by hand: the wall is 87-5/16 in wide and 96 high, 92 by 102 mm at 1:24; a letter page less its borders is
  // 249 by 196 mm.
  EXPECT_EQ(on_letter(90407).sheet("wall-back").page.scale, 24);
}

/// How much of a sheet's height lies between the feet and the tops of its lines, row by row, of what it has.
double share_of_pictures(const Sheet& sheet) {
  std::vector<std::pair<double, double>> rows;
  for (const Line& line : sheet.lines) rows.push_back(std::minmax(line.from.y, line.to.y));
  std::sort(rows.begin(), rows.end());
  double covered = 0, top = rows.front().first;
  for (const auto& [low, high] : rows)
    if (high > top) covered += high - std::max(low, top), top = high;
  const Frame room = room_on(sheet, sheet.page.paper);
  return covered / sheet.page.scale / room.height();
}

TEST(SmallPaper, PicturesOfTheStepsTakeWhatTheirNamesLeave) {
  // Source: by hand: two rows with one line of a name under each take 4-1/2 letters of 3 mm a row and half a step of
  // scale: of 96 mm and more of a letter page's room 155 mm less 27 to 34 are left, 0.76, with two lines more 0.72; of
  // a tabloid's 210 mm 0.84 and 0.82.
  for (const auto& [paper, least] : std::map<job::PaperSize, double>{{job::PaperSize::letter, 0.72},
                                                                     {job::PaperSize::tabloid, 0.8},
                                                                     {job::PaperSize::a4, 0.72},
                                                                     {job::PaperSize::a3, 0.8}})
    for (const std::string name : {"ferry-steps-3", "coopers-yard-9"}) {
      job::Job job = demo(name);
      job.drawings.paper = paper;
      EXPECT_GT(share_of_pictures(drawn(job, false).sheet("steps")), least) << name;
    }
}

TEST(SmallPaper, AWallsNameStandsBetweenNoTwoRows) {
  // Source: common practice, no source: what stands between two rows of dimensions is read as a name of one of them.
  // The name is on its wall or along it in the room, or past all rows.
  for (const unsigned seed : {9301u, 3057u}) {
    const Drawn d = on_letter(seed);
    for (const char* name : {"plan", "plan-edges", "plan-framing"}) {
      if (!has_sheet(d, name)) continue;
      const Sheet& sheet = d.sheet(name);
      const auto rows_in = [&](double from, double to, double y) {  // that run upright past that height
        return std::count_if(sheet.lines.begin(), sheet.lines.end(), [&](const Line& l) {
          return l.kind == LineKind::dimension && std::abs(l.from.x - l.to.x) < 1e-6 &&
                 (l.from.y - y) * (l.to.y - y) < 0 && l.from.x > from && l.from.x < to;
        });
      };
      int named = 0;
      for (const Text& text : sheet.texts) {
        const bool left = text.words.starts_with("LEFT WALL");
        if (!left && !text.words.starts_with("RIGHT WALL")) continue;
        ++named;
        const double x = text.at.x, edge = left ? 0 : d.model->job.alcove.width.in_mm(), far = 1e6;
        const auto rows = [&](double from, double to) { return rows_in(from, to, text.at.y); };
        const auto toward_room = left ? rows(x, edge) : rows(edge, x), past = left ? rows(-far, x) : rows(x, far);
        EXPECT_TRUE(toward_room == 0 || past == 0) << seed << " " << name << ": " << text.words;
      }
      EXPECT_EQ(named, 2) << seed << " " << name;
    }
  }
}

TEST(SmallPaper, AWallsNameIsBesideItsWallOnEveryDemo) {
  // Source: common practice, no source: a name away from its wall is read as one of the rows' it stands beside. Nearer
  // than 12 mm on paper: half a letter page's margin.
  for (const char* name :
       {"ferry-steps-3", "coopers-yard-4", "coopers-yard-9", "tannery-lane-2a", "tannery-lane-5c", "chandlers-row-9"})
    for (const job::PaperSize paper : {job::PaperSize::letter, job::PaperSize::tabloid}) {
      job::Job job = demo(name);
      job.drawings.paper = paper;
      const Drawn d = drawn(job, false);
      for (const Sheet& sheet : d.sheets)
        for (const Text& text : sheet.texts)
          for (const auto& [side, words] :
               {std::pair{job::Side::left, "LEFT WALL"}, {job::Side::right, "RIGHT WALL"}}) {
            if (!sheet.name.starts_with("plan") || !text.words.starts_with(words)) continue;
            double low = 1e9, high = -1e9;
            for (const facts::Part& p : d.facts.parts)
              if (p.which.family == facts::Family{facts::Role::wall, side})
                low = std::min(low, p.bbox_mm[0]), high = std::max(high, p.bbox_mm[3]);
            const Box box = box_of(text);
            EXPECT_LT(std::max(low - box.x1, box.x0 - high), 12 * sheet.page.scale)
                << name << " " << sheet.name << " 1:" << sheet.page.scale << ": " << text.words;
          }
    }
}

TEST(SmallPaper, WhatIsDrawnLargerOnAnotherSheetIsCircledInItsSection) {
  // Source: the set on large paper, where a detail's number stands at a circle about its place in the section: the
  // numbers before the details' titles are those beside the circles, whichever sheet each is on.
  for (const char* name : {"ferry-steps-3", "coopers-yard-4", "tannery-lane-5c"}) {
    job::Job job = demo(name);
    job.drawings.paper = job::PaperSize::letter;
    const Drawn d = drawn(job, false);
    for (const auto& [section, details] : {std::pair{"drain", std::vector<std::string>{"drain-flange"}},
                                           {"bench-section", {"bench-joints", "bench-wall"}}}) {
      if (!has_sheet(d, section)) continue;
      std::vector<std::string> titled, circled;
      for (const Sheet& sheet : d.sheets)
        if (std::count(details.begin(), details.end(), sheet.name) > 0)
          for (const Text& text : sheet.texts)
            if (text.words.size() > 3 && std::isdigit(text.words[0]) && text.words.substr(1, 2) == "  " &&
                text.words.find(", 1:") != std::string::npos)
              titled.push_back(text.words.substr(0, 1));
      const Sheet& whole = d.sheet(section);
      for (const Arc& arc : whole.arcs) {
        if (arc.kind != LineKind::phantom || arc.to_deg - arc.from_deg < 90) continue;
        for (const Text& text : whole.texts)
          if (text.words.size() == 1 && std::isdigit(text.words[0]) &&
              std::abs(std::hypot(text.at.x - arc.centre.x, text.at.y - arc.centre.y) - arc.radius) <
                  8 * whole.page.scale &&
              std::count(circled.begin(), circled.end(), text.words) == 0)
            circled.push_back(text.words);
      }
      EXPECT_FALSE(titled.empty()) << name << " " << section;
      EXPECT_THAT(circled, testing::UnorderedElementsAreArray(titled)) << name << " " << section;
    }
  }
}

TEST(SmallPaper, NotesOfASheetStandTogether) {
  // Source: none but this: notes are read in their order. Those in the strip are a sheet's notes, those with its
  // drawing are texts that begin with their number.
  for (const char* name : {"ferry-steps-3", "coopers-yard-9", "tannery-lane-5c"}) {
    job::Job job = demo(name);
    job.drawings.paper = name == std::string{"ferry-steps-3"} ? job::PaperSize::letter : job::PaperSize::a4;
    for (const Sheet& sheet : drawn(job, false).sheets)
      for (const Text& text : sheet.texts)
        EXPECT_FALSE(!sheet.notes.empty() && text.anchor == Anchor::left && text.height < 2.6 * sheet.page.scale &&
                     text.words.starts_with(std::to_string(sheet.notes.size() + 1) + "  "))
            << name << " " << sheet.name << ": " << text.words;
  }
}

TEST(SmallPaper, JointsOfABenchAreDrawnAtHalfTheirSize) {
  // Source: by hand: windows of 130 mm are 65 each on paper, names at the left of one and the right of both take 75,
  // the page has 243: so on large paper, where the same two are 1:2.
  job::Job job = demo("ferry-steps-3");
  job.drawings.paper = job::PaperSize::letter;
  const Drawn d = drawn(job, false);
  EXPECT_EQ(d.sheet("bench-joints").page.scale, 2);
  EXPECT_THAT(read_through(d.sheet("bench-wall")), HasSubstr("3  Cleat and seat at the wall"));
}

TEST(SmallPaper, LosesNoFigureOfTheViews) {
  // Source: the same job on large paper: whatever length, height or place a view tells there, it or another tells here.
  const auto figures = [](const Drawn& d, bool of_views) {
    std::set<std::string> all;
    for (const Sheet& sheet : d.sheets) {
      if (std::string{"PFS"}.find(sheet.code.substr(0, 1)) == std::string::npos || (of_views && !sheet.to_scale))
        continue;
      for (const Text& text : sheet.texts) {
        if (of_views && (text.words.find("1:") != std::string::npos || text.words.find("  ") == 1)) continue;
        std::string figure;
        for (const char c : text.words + " ") {
          if (std::isdigit(c) || ((c == '-' || c == '/' || c == '.') && !figure.empty())) {
            figure += c;
            continue;
          }
          if (figure.size() > 1 && figure[0] != '0') all.insert(figure);  // none of a code
          figure.clear();
        }
      }
    }
    return all;
  };
  for (const char* name : {"coopers-yard-4", "coopers-yard-9", "ferry-steps-3", "tannery-lane-2a", "tannery-lane-5c"}) {
    job::Job job = demo(name);
    job.drawings.paper = job.is_metric() ? job::PaperSize::a4 : job::PaperSize::letter;
    const auto small = figures(drawn(job, false), false);
    job.drawings.paper = job.is_metric() ? job::PaperSize::a3 : job::PaperSize::tabloid;
    for (const std::string& figure : figures(drawn(job, false), true))
      EXPECT_EQ(small.count(figure), 1u) << name << ": " << figure;
  }
}

TEST(SmallPaper, TheFloodTestsFormStandsBesideItsWater) {
  // Source: closed form: what is filled to half-way between two heights of the table is the middle of their volumes,
  // where walls are upright: 17.52 and 19.59 gal, 146.2 and 163.4 lb. A page of 215.9 mm has no room for 27 rows
  // over four or more lines of notes: the form's eight, which are no heights, begin again at the top.
  const Drawn d = drawn(demo_on("coopers-yard-4", job::PaperSize::letter), false);
  const Sheet& flood = d.sheet("inspection-flood");
  EXPECT_THAT(read_through(flood),
              testing::AllOf(HasSubstr("2-1/2\" 17.52 146.2 fill to 2-5/8\" 18.55 154.8 2-3/4\" 19.59 163.4"),
                             HasSubstr("the test read drop allowed: none ")));
  const auto fill = std::find_if(flood.texts.begin(), flood.texts.end(),
                                 [](const Text& text) { return text.words == "fill to 2-5/8\""; });
  ASSERT_NE(fill, flood.texts.end());
  EXPECT_EQ(std::count_if(flood.lines.begin(), flood.lines.end(),
                          [&](const Line& line) {
                            return line.kind == LineKind::section && std::abs(line.from.y - line.to.y) < 0.01 &&
                                   std::abs(line.from.y - fill->at.y) < 3 * fill->height;
                          }),
            2)
      << "the row to fill to in a heavy frame";
  const auto top_of = [&](const char* words) {
    for (const Text& text : flood.texts)
      if (text.words == words) return text.at;
    return Point{};
  };
  EXPECT_GT(top_of("drop allowed: none").x, top_of("1/4\"").x + 80);
  EXPECT_NEAR(top_of("drop allowed: none").y, top_of("1/4\"").y, 0.01);
}

TEST(Plan, TellsWhereAStudStandsPastO) {
  // Source: by hand: the left wall stands before the back wall's first stud, whose centre is 2-3/4 past the corner: as
  // the back wall's own sheet has it.
  const auto past = [](const char* name) {
    const Sheet& sheet = drawn_demo("tannery-lane-2a").sheet(name);
    return std::count_if(sheet.dimensions.begin(), sheet.dimensions.end(),
                         [](const Dimension& dim) { return !dim.running && dim.words == "2-3/4"; });
  };
  EXPECT_EQ(past("wall-back"), 1);
  EXPECT_EQ(past("plan"), 1);
}

TEST(Falls, SaysThatNoLimitIsOfAHip) {
  // Source: the rules, whose limits are those of planes; a hip between two of 1:48 falls less than 1:48.
  EXPECT_THAT(drawn_demo("tannery-lane-2a").sheet("falls").notes,
              testing::Contains(HasSubstr("'Along': where two planes meet, which falls less than they do")));
  EXPECT_THAT(drawn_demo("tannery-lane-2b").sheet("falls").notes, Not(testing::Contains(HasSubstr("'Along'"))));
}

TEST(Details, OfSteelHaveItsBendsAndArrowsToIt) {
  // Source: common practice, no source: a dot on a line is not seen. By hand: of the names in both details six lie on
  // what is filled, seat block twice, base, mortar bed, slab and deck; four are of steel. A track is bent, and so far
  // from square as no other edge here but the seat's fall is.
  job::Job job = demo("tannery-lane-5c");
  job.drawings.paper = job::PaperSize::a4;
  const Drawn d = drawn(job, false);
  const Sheet& sheet = d.sheet("bench-joints");
  const double dot = 0.25 * letter * sheet.page.scale;
  EXPECT_EQ(
      std::count_if(sheet.arcs.begin(), sheet.arcs.end(),
                    [&](const Arc& arc) { return arc.kind == LineKind::outline && std::abs(arc.radius - dot) < 0.01; }),
      6);
  for (const char* name : {"stud B", "sole track C", "front track C", "joist A"})
    EXPECT_THAT(read_through(sheet), HasSubstr(name));
  EXPECT_GT(std::count_if(sheet.lines.begin(), sheet.lines.end(),
                          [](const Line& line) {
                            const double dx = std::abs(line.to.x - line.from.x), dy = std::abs(line.to.y - line.from.y);
                            return line.kind == LineKind::section && std::min(dx, dy) > 0.05 * std::max(dx, dy) &&
                                   std::hypot(dx, dy) < 5;
                          }),
            10);
}

TEST(Plan, HoldsAStripThatItsCutListHolds) {
  // Source: the cut list of the same room: strips before the base's studs wait, as the drain's place is not settled;
  // the others are told by their thickness.
  const Drawn& d = drawn_demo("ferry-steps-3");
  const std::string plan = read_through(d.sheet("plan"));
  int held = 0, plain = 0;
  for (const facts::StudGap& stud : d.facts.room.studs) {
    if (stud.stands_alone() || stud.at_upstand_mm < -in / 16) continue;
    const auto cut = std::find_if(d.cuts.begin(), d.cuts.end(), [&](const takeoff::CutRow& row) {
      return row.furring && std::count(row.part_ids.begin(), row.part_ids.end(), stud.part_id) > 0;
    });
    if (cut == d.cuts.end()) continue;
    ++(cut->hold ? held : plain);
  }
  // Blocks one above the other are one place; their strips have no words but that they wait.
  std::set<std::pair<long, long>> blocks;
  for (const takeoff::CutRow& row : d.cuts)
    for (const std::string& id : row.part_ids)
      if (row.furring && row.on_block && row.hold)
        blocks.insert({std::lround(part(d.facts, id).bbox_mm[0]), std::lround(part(d.facts, id).bbox_mm[1])});
  held += static_cast<int>(blocks.size());
  int told_held = 0, told = 0;
  for (const Text& text : d.sheet("plan").texts) {
    told_held += text.words == "fur HOLD";
    told += text.words.starts_with("fur ") && text.words != "fur HOLD";
  }
  EXPECT_GT(held, 0);
  EXPECT_EQ(told_held, held);
  EXPECT_EQ(told, plain);
  const auto& notes = d.sheet("plan").notes;
  EXPECT_THAT(notes, testing::Contains(HasSubstr("HOLD: that strip waits, see F-")));
}

}  // namespace
}  // namespace fallwright::drawing
