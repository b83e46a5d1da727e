// Lines and rows where there are many of them: hidden edges that would run into bars, tables that go on over pages,
// sticks whose last piece is shorter than its mark, and ends of a bench on a floor that falls along it.
#include <algorithm>
#include <cmath>
#include <map>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/clear.hpp"
#include "drawing/page.hpp"
#include "drawing/projection.hpp"
#include "drawing/table.hpp"
#include "outside/drawn.hpp"
#include "rules/words.hpp"
#include "support/run.hpp"
#include "support/sample.hpp"

namespace fallwright::drawing {
namespace {

constexpr LineKind seen = LineKind::outline, hidden = LineKind::hidden;

std::size_t hidden_in(const Projection& projection) {
  return static_cast<std::size_t>(
      std::count_if(projection.lines.begin(), projection.lines.end(), [](const Line& l) { return l.kind == hidden; }));
}

TEST(Uncrowded, ABundleOfHiddenLinesIsTheFirstOfThem) {
  // Source: by hand: of ten edges half a millimetre apart one is drawn, and one that is 10 mm from them.
  Projection bundle;
  for (int i = 0; i < 10; ++i) bundle.lines.push_back({{0, 0.5 * i}, {100, 0.5 * i}, hidden});
  bundle.lines.push_back({{100, 15}, {0, 15.2}, hidden});
  const Projection left = uncrowded(bundle);
  ASSERT_EQ(left.lines.size(), 2u);
  EXPECT_EQ(left.lines[0].from.y, 0);
  EXPECT_EQ(left.lines[1].from.y, 15);
}

TEST(Uncrowded, WhatIsSeenStaysAndHidesWhatLiesAlongIt) {
  // Source: by hand.
  const Line edge{{0, 0}, {100, 0}, seen}, near{{0, 1}, {100, 1}, seen};
  const Line along{{20, 3}, {80, 3}, hidden}, across{{50, -20}, {50, 20}, hidden}, past{{80, 3}, {200, 3}, hidden};
  const Projection left = uncrowded({{along, across, past, edge, near}, {}});
  EXPECT_EQ(left.lines.size(), 4u);  // all but `along`: of `past` one part in six lies beside an edge
  EXPECT_EQ(hidden_in(left), 2u);
  EXPECT_EQ(hidden_in(uncrowded({{along, across, past}, {}})), 3u) << "nothing lies beside them";
}

TEST(Pages, ATableThatGoesOnSaysUnderWhichHeadline) {
  // Source: by hand: two headlines, rows for two pages and more.
  std::vector<Cells> rows{{"FIRST"}, {"a", "b"}, {"SECOND"}};
  for (int i = 0; i < 90; ++i) rows.push_back({std::to_string(i), "row"});
  const std::vector<Sheet> sheets = on_pages("rows", "Rows", sample::alcove(), {{"no."}, {"what"}}, rows, {});
  ASSERT_GE(sheets.size(), 3u);
  const auto has = [](const Sheet& sheet, const std::string& words) {
    return std::any_of(sheet.texts.begin(), sheet.texts.end(), [&](const Text& t) { return t.words == words; });
  };
  EXPECT_TRUE(has(sheets[0], "FIRST") && has(sheets[0], "SECOND"));
  EXPECT_FALSE(has(sheets[0], "SECOND, continued"));
  for (std::size_t i = 1; i < sheets.size(); ++i) {
    EXPECT_TRUE(has(sheets[i], "SECOND, continued")) << i;
    EXPECT_FALSE(has(sheets[i], "FIRST, continued")) << i;
  }
}

TEST(Pages, FewRowsUnderTheLastHeadlineStandTogetherAndNoPageIsNearlyEmpty) {
  // Source: property: four that sign stand under one another, whatever is above; a page has half the rows of another or
  // more, where a table beside the first takes nothing from it.
  const Beside beside{0.8, [](Pen& pen, Point at, double) { pen.note({at.x, at.y - 5}, "beside"); }};
  std::size_t more_than_one = 0;
  for (int count = 30; count < 120; count += 3) {
    std::vector<Cells> rows{{"FIRST"}};
    for (int i = 0; i < count; ++i) rows.push_back({"row", "row"});
    rows.push_back({"LAST"});
    for (int i = 0; i < 4; ++i) rows.push_back({"signed", "signed"});
    for (const Beside& with : {Beside{}, beside}) {
      const auto sheets = on_pages("rows", "Rows", sample::alcove(), {{"no."}, {"what"}}, rows, {}, with);
      std::size_t least = rows.size(), most = 0;
      for (const Sheet& sheet : sheets) {
        const auto told = [&](const char* words) {
          return static_cast<std::size_t>(
              std::count_if(sheet.texts.begin(), sheet.texts.end(), [&](const Text& t) { return t.words == words; }));
        };
        EXPECT_TRUE(told("signed") == 0 || told("signed") == 8) << count << " " << sheet.name;
        EXPECT_EQ(told("LAST, continued"), 0u) << count;
        least = std::min(least, told("row") + told("signed")), most = std::max(most, told("row") + told("signed"));
      }
      EXPECT_GE(2 * least, most) << count << " rows on " << sheets.size();
      more_than_one += sheets.size() > 1;
    }
  }
  EXPECT_GT(more_than_one, 20u);
}

/// Flat 2A made 11 ft wide, its bench along the back, on a floor that falls along it.
const Drawn& wide() {
  static const Drawn room = [] {
    std::string job = sample::slurped(std::string{PROJECT_DIR} + "/params/tannery-lane-2a.toml");
    const auto turn = [&](const std::string& from, const std::string& to) {
      const std::size_t at = job.find(from);
      if (at == std::string::npos) throw std::logic_error{"not in flat 2A: " + from};
      job.replace(at, from.size(), to);
    };
    turn("width = \"6 ft\"", "width = \"11 ft\"");
    turn("depth = \"36 in\"", "depth = \"54 in\"");
    turn("length = \"57-1/2 in\"\nwidth = \"36 in\"", "length = \"11 ft\"\nwidth = \"39-1/2 in\"");
    turn("from_left = \"28-3/4 in\"", "from_left = \"63-1/2 in\"");
    turn("from_back = \"16-1/4 in\"", "from_back = \"18 in\"");
    turn("place = \"left-end\"", "place = \"back\"");
    job +=
        "\n[survey.floor]\nspots = [[2, 2, 0], [66, 20, 0.375], [130, 2, 0.125], [2, 52, 0.25], [130, 52, 0.625], [66, "
        "52, 0.5]]\n";
    return drawn(job::read(job, "wide.toml"), false);
  }();
  return room;
}

/// The height that a ladder tells of something: the text before its name.
std::string height_of(const Sheet& sheet, const std::string& what) {
  for (const Text& text : sheet.texts)
    if (const std::size_t at = text.words.find("  " + what); at != std::string::npos) return text.words.substr(0, at);
  return "no " + what;
}

TEST(EndOfABench, TellsHeightsOfTheEndThatIsSeen) {
  // Source: the other view of that end; and the thickness of a plate is its stock's, 1-1/2 in (PS 20).
  const Sheet &front = wide().sheet("bench-front"), &end = wide().sheet("bench-side");
  for (const char* what : {"top of the sole plate", "underside of the sole plate", "top of the top plate"})
    EXPECT_EQ(height_of(end, what), height_of(front, what)) << what;
  EXPECT_EQ(height_of(end, "top of the sole plate"), "1-5/8");
  EXPECT_EQ(height_of(end, "underside of the sole plate"), "1/8");
  for (const Line& line : end.lines)
    for (const Line& other : end.lines)
      if (&line != &other && line.kind == hidden && other.kind == hidden && line.from.x == other.from.x) {
        EXPECT_GE(std::abs(line.from.y - other.from.y), 5) << "hidden edges " << line.from.y << " and " << other.from.y;
      }
}

TEST(FallsSheet, SaysOfAFallThatIsOutWhatItsCheckSays) {
  // Source: the check of it, which rounds away from the limit.
  std::size_t out = 0;
  for (const rules::Result& r : wide().judgement.results) {
    if (r.id != "floor.fall-greatest") continue;
    ASSERT_EQ(r.outcome, rules::Outcome::fail);
    for (const Text& text : wide().sheet("falls").texts)
      if (text.words.size() > 5 && text.words.rfind("  OUT") == text.words.size() - 5) {
        ++out;
        EXPECT_EQ(text.words, rules::measured_text(r, wide().model->job) + "  OUT");
      }
  }
  EXPECT_EQ(out, 2u) << "the strips at the back and in front are too steep";
}

TEST(Sticks, APieceTooShortForItsMarkHasItOverItself) {
  // Source: by hand: 2A made wide has pieces of 3-3/4 in at the ends of its sticks; no mark lies in
  // another piece.
  std::size_t over = 0;
  for (const Sheet& sheet : wide().sheets) {
    if (sheet.name.rfind("sticks", 0) != 0) continue;
    std::vector<std::pair<double, double>> sticks;  // foot and length, as their dimensions have them
    for (const Dimension& d : sheet.dimensions) sticks.emplace_back(d.from.y, d.to.x);
    for (const Text& text : sheet.texts)
      if (text.words == "AK") {
        ++over;
        for (const auto& [foot, length] : sticks)
          EXPECT_FALSE(text.at.y > foot - 1 && text.at.y < foot + 2.2 * sheet.page.scale * 3 - 1 && text.at.x < length)
              << sheet.name << ": the mark lies in a stick";
      }
  }
  EXPECT_GT(over, 0u);
}

std::string notes_on(const Sheet& sheet) {
  std::string all;
  for (const std::string& note : sheet.notes) all += note + " ";
  return all;
}

TEST(Walls, ABlockShorterThanItsStudsCentresLeaveIsExplained) {
  // Source: by hand: Ferry Steps' corner studs stand askew, 3/4 and 16 leave 13-3/4 where 13-5/8 fits; 2A is square.
  const std::string why = "Cut blocking by its length";
  EXPECT_THAT(notes_on(drawn_demo("ferry-steps-3").sheet("wall-left")), testing::HasSubstr(why));
  EXPECT_THAT(notes_on(drawn_demo("tannery-lane-2a").sheet("wall-left")), testing::Not(testing::HasSubstr(why)));
}

TEST(Walls, OnSmallPaperNotesLeaveTheViewItsScale) {
  // Source: by hand: 96 of framing at 1:24 are 102 of the 134 mm that a letter page has over a strip of 56; what notes
  // that takes no room for stand beside the view, each with its number, in turn. 1:32 is on few rules.
  job::Job job = job::read(sample::random_room(70016), "random.toml");
  job.drawings.paper = job::PaperSize::letter;
  const Drawn d = drawn(job, false);
  for (const char* name : {"wall-back", "wall-right"}) {
    const Sheet& wall = d.sheet(name);
    EXPECT_EQ(wall.page.scale, 24) << name;
    EXPECT_LE(strip_of(wall, wall.page.paper), 56) << name;
    for (int number = 1; number <= 7; ++number)
      EXPECT_TRUE(std::any_of(wall.texts.begin(), wall.texts.end(),
                              [&](const Text& text) {
                                return text.words.rfind(std::to_string(number) + "  ", 0) == 0 &&
                                       text.height < 2.6 * wall.page.scale;
                              }))
          << name << ": note " << number;
    EXPECT_LT(wall.notes.size(), 8u) << name << ": some stand beside it";
    const std::string words = read_through(wall);
    EXPECT_THAT(words, testing::ContainsRegex("Pieces[:,] ")) << name;
    // A strip's thickness at foot and top, or that it waits while the base does not go in.
    EXPECT_THAT(words, testing::HasSubstr(name == std::string{"wall-back"} ? " foot, " : " HOLD")) << name;
  }
}

TEST(Walls, OnSmallPaperNotesLeaveTheStripToTheTitleBlock) {
  // Source: by hand: a wall of 2400 is 120 mm at 1:20, with its row of numbers less than the 150 that A4 leaves over a
  // title block of 34, not over 52 with its notes; sticks of 4800 are 240 of its 261 mm, with no words past their end.
  const Drawn metric = drawn(demo_on("tannery-lane-5c", job::PaperSize::a4), false);
  for (const char* name : {"wall-back", "sticks"}) EXPECT_EQ(metric.sheet(name).page.scale, 20) << name;
  // In inches: notes stand where a drawing that takes the whole width is empty.
  for (const auto& [seed, name] : {std::pair{3015u, "wall-back"}, {3057u, "plan"}}) {
    job::Job job = job::read(sample::random_room(seed), "random.toml");
    job.drawings.paper = job::PaperSize::letter;
    EXPECT_LE(drawn(job, false).sheet(name).page.scale, 24) << seed;
  }
}

TEST(Labels, OnOneLineStandApart) {
  // Source: property: a height behind which a fall stands on the same line is read as one number; of 9 Chandlers Row's
  // falls each text is a letter's height and more from the next on its line.
  const Sheet& falls = drawn_demo("chandlers-row-9").sheet("falls");
  const auto told = [](const Text& text) {
    return text.rotation_deg == 0 &&
           (text.words.find("in/ft (") != std::string::npos || text.words.find('+') != std::string::npos);
  };
  int compared = 0;
  for (const Text& a : falls.texts)
    for (const Text& b : falls.texts) {
      if (&a == &b || !told(a) || !told(b) || std::abs(a.at.y - b.at.y) > 0.6 * a.height) continue;
      ++compared;
      EXPECT_GT(std::max(box_of(a).x0 - box_of(b).x1, box_of(b).x0 - box_of(a).x1), a.height) << a.words << b.words;
    }
  EXPECT_GT(compared, 0);
}

TEST(Labels, NoLineToAThingRunsThroughTheWhiteAboutAText) {
  // Source: by hand: straight down from its place the line would pass a text 10 high at a tenth of that, inside the
  // fifth of a height that is left white about it, and be broken off: the name stands elsewhere.
  Sheet sheet;
  Pen pen{sheet, 10};
  pen.note({11, 20}, "NOTE");
  pen.name_outside({10, 0}, {10, 45}, "N", Anchor::middle);
  pen.part_texts();
  ASSERT_EQ(sheet.lines.size(), 1u);
  const Line& line = sheet.lines.front();
  const Box box = box_of(sheet.texts.front());
  for (int i = 0; i <= 100; ++i) {
    const double x = line.from.x + (line.to.x - line.from.x) * i / 100,
                 y = line.from.y + (line.to.y - line.from.y) * i / 100;
    EXPECT_FALSE(x > box.x0 - 1.9 && x < box.x1 + 1.9 && y > box.y0 - 1.9 && y < box.y1 + 1.9) << x << ", " << y;
  }
}

TEST(Labels, NoLineToAThingCrossesAnArrow) {
  // Source: by hand: a wall of text leaves a name two places: 6 to the right of its thing, behind an arrow, or further
  // off on the other side. A line that runs over the arrow would be read as part of it.
  Sheet sheet;
  Pen pen{sheet, 10};
  pen.line({30, -60}, {30, 60}, LineKind::dimension);
  pen.name_at_one_of({0, 0}, {{50, -5}, {-80, -5}}, "N", Anchor::middle);
  pen.nowhere_else();
  pen.part_texts();
  ASSERT_EQ(sheet.texts.size(), 1u);
  EXPECT_EQ(sheet.texts.front().at.x, -80);
  EXPECT_TRUE(cross({{0, 0}, {10, 10}}, {{0, 10}, {10, 0}}));
  EXPECT_FALSE(cross({{0, 0}, {10, 10}}, {{5, 5}, {10, 0}})) << "it begins there";
  EXPECT_FALSE(cross({{0, 0}, {10, 10}}, {{11, 12}, {20, 0}}));
}

TEST(FallsSheet, AFallThatIsTooLongForItsFacetStaysOnItWithoutItsRatio) {
  // Source: the solids: the words of each of the floor's facets stand within the base.
  const Drawn d = drawn(job::read(sample::random_room(90512), "random.toml"), false);
  const auto& base = part(d.facts, facts::Role::base).bbox_mm;
  int told = 0;
  for (const Text& text : d.sheet("falls").texts) {
    if (text.words.find("in/ft") == std::string::npos || text.words.find("  OUT") == std::string::npos) continue;
    ++told;
    const Box box = box_of(text);
    EXPECT_TRUE(box.x0 > base[0] && box.x1 < base[3] && box.y0 > base[1] && box.y1 < base[4]) << text.words;
  }
  EXPECT_EQ(told, 2) << "the left facet's and the threshold's";
}

TEST(Plans, WhatIsFurredIsToldInTheRoom) {
  // Source: property: no "fur" of a strip stands in the back wall, where it would be read as a stud's.
  int told = 0;
  for (const unsigned seed : {90512u, 90117u}) {
    const Drawn d = drawn(job::read(sample::random_room(seed), "random.toml"), false);
    for (const Text& text : d.sheet("plan").texts) {
      if (!text.words.starts_with("fur ")) continue;
      ++told;
      EXPECT_LT(box_of(text).y1, d.model->job.alcove.depth.in_mm()) << seed << ": " << text.words;
    }
  }
  EXPECT_GE(told, 5);
}

TEST(Sections, ASlabThinnerThanItsHatchsDashesIsFilled) {
  // Source: by hand: a slab drawn as 3/4" at 1:8 is 2.4 mm of paper, its dashes of 3.2 mm at 45 degrees take 2.3 of its
  // height: about one of them in every 3.7 mm of its length, whole or in part.
  const Drawn d = drawn(job::read(sample::random_room(90117), "random.toml"), false);
  const Sheet& sheet = d.sheet("bench-section");
  int fields = 0;
  for (const Hatch& hatch : sheet.hatches) {
    if (std::string{hatch.material} != "concrete slab" || hatch.source.times != 1) continue;
    double x0 = 1e9, x1 = -1e9, drawn_mm = 0;
    for (const Outline& ring : hatch.rings)
      for (const Point& p : ring) x0 = std::min(x0, p.x), x1 = std::max(x1, p.x);
    for (std::size_t i = hatch.first_line; i < hatch.last_line; ++i)
      drawn_mm += std::hypot(sheet.lines[i].to.x - sheet.lines[i].from.x, sheet.lines[i].to.y - sheet.lines[i].from.y);
    ++fields;
    EXPECT_GT(drawn_mm, 0.4 * (x1 - x0)) << "of strokes as long together as half of it";
  }
  EXPECT_EQ(fields, 1);
}

TEST(Sheets, TitleBlockAndKeyPlanStandAtTheSamePlaceOnEachOfThem) {
  // Source: ISO 7200, from memory: the same fields at the same places of every sheet.
  for (const job::PaperSize paper : {job::PaperSize::tabloid, job::PaperSize::letter}) {
    const Drawn d = drawn(demo_on("ferry-steps-3", paper), false);
    std::map<double, std::pair<double, double>> at;  // by the page's width
    int compared = 0;
    for (const Sheet& sheet : d.sheets) {
      if (sheet.page.paper.width_mm <= 0) continue;
      const auto job_file = std::find_if(sheet.texts.begin(), sheet.texts.end(),
                                         [](const Text& text) { return text.words.starts_with("job file "); });
      ASSERT_NE(job_file, sheet.texts.end()) << sheet.name;
      const std::pair place{(job_file->at.x - sheet.page.corner.x) / sheet.page.scale,
                            (job_file->at.y - sheet.page.corner.y) / sheet.page.scale};
      const auto known = at.emplace(sheet.page.paper.width_mm, place).first->second;
      EXPECT_NEAR(place.first, known.first, 1e-6) << sheet.name;
      EXPECT_NEAR(place.second, known.second, 1e-6) << sheet.name;
      ++compared;
    }
    EXPECT_GT(compared, 20);
  }
}

TEST(OnASlab, NobodyLooksForJoistsAndWhatIsNotDrawnIsNamed) {
  // Source: common practice, no source: a slab is scanned before it is cored; a channel ends before the finish; a
  // drain's clamp comes with it. Of flat 5C's bed 1 mm is left behind the bore.
  const Drawn d = drawn_demo("coopers-yard-9");
  EXPECT_THAT(notes_on(d.sheet("template")), testing::Not(testing::HasSubstr("joists")));
  EXPECT_THAT(notes_on(d.sheet("template")), testing::HasSubstr("scanned for tendons"));
  EXPECT_THAT(notes_on(d.sheet("plan")), testing::HasSubstr("cut it to the finish, once that is known"));
  EXPECT_THAT(notes_on(d.sheet("drain")), testing::HasSubstr("Not drawn, as its maker makes them: flange, clamp and"));
  const auto& texts = d.sheet("drain").texts;
  EXPECT_TRUE(std::any_of(texts.begin(), texts.end(), [](const Text& t) { return t.words == "membrane"; }));
  const Drawn narrow = drawn_demo("tannery-lane-5c");
  EXPECT_THAT(notes_on(narrow.sheet("drain")), testing::HasSubstr("less than 5 mm of the bed no mortar is laid"));
  EXPECT_THAT(notes_on(narrow.sheet("bed")), testing::HasSubstr("NO MORTAR between"));
  EXPECT_THAT(notes_on(narrow.sheet("template")), testing::Not(testing::HasSubstr("Look below for joists")));
}

TEST(KeyPlan, AnEyeStandsBesideTheBore) {
  // Source: by hand: the bore is a circle of 0.9 mm on paper, O one of 1.5 with a cross of 4.4, an eye a triangle
  // of 2.2 with an arrow of 6 from it; 2.5 mm apart, and 3.6, they are two things.
  int looked_at = 0;
  for (const auto& [name, paper] :
       {std::pair{"ferry-steps-3", job::PaperSize::letter}, {"tannery-lane-2a", job::PaperSize::a4}})
    for (const Sheet& sheet : drawn(demo_on(name, paper), false).sheets) {
      const auto circle = [&](double on_paper, LineKind kind) {
        return std::find_if(sheet.arcs.begin(), sheet.arcs.end(), [&](const Arc& arc) {
          return arc.kind == kind && std::abs(arc.radius / sheet.page.scale - on_paper) < 1e-6 && arc.to_deg == 360;
        });
      };
      const auto bore = circle(0.9, LineKind::dimension), corner = circle(1.5, LineKind::sheet);
      const auto eye = std::find_if(sheet.lines.begin(), sheet.lines.end(), [&](const Line& line) {
        const double length = std::hypot(line.to.x - line.from.x, line.to.y - line.from.y);
        return line.kind == LineKind::frame && std::abs(length / sheet.page.scale - 6) < 1e-6;
      });
      if (bore == sheet.arcs.end() || eye == sheet.lines.end()) continue;
      ++looked_at;
      EXPECT_EQ(circle(1, LineKind::sheet), sheet.arcs.end()) << sheet.name << ": no third circle";
      for (const auto& [other, least] : {std::pair{bore, 2.5}, {corner, 3.6}}) {
        const double apart = std::hypot(other->centre.x - eye->from.x, other->centre.y - eye->from.y);
        EXPECT_GE(apart / sheet.page.scale, least - 1e-6) << sheet.name;
      }
    }
  EXPECT_GT(looked_at, 8);
}

TEST(Chains, AStretchTooShortForItsNumberHasItBeyondTheChainsEnd) {
  // Source: by hand: 4" over 1/4", both at their middles, would be read as one number, 4-1/4".
  for (const bool at_foot : {true, false}) {
    Sheet sheet;
    Pen pen{sheet, 3};
    const double shorter = 6.35, longer = 101.6;
    pen.upright_chain({0, at_foot ? shorter : longer, shorter + longer}, 0, 20, {}, 1);
    pen.part_texts();
    const auto quarter = std::find_if(sheet.texts.begin(), sheet.texts.end(),
                                      [](const Text& text) { return text.words.starts_with("1/4"); });
    ASSERT_NE(quarter, sheet.texts.end());
    const Box box = box_of(*quarter);
    if (at_foot)
      EXPECT_LT(box.y1, 0);
    else
      EXPECT_GT(box.y0, shorter + longer);
  }
}

TEST(Crowded, InASteelBenchsSoleTrackNothingIsNamedButIt) {
  // Source: by hand: the sole track is 32 mm high from the floor; the boards behind its front begin in it, and the wall
  // track at the height of the front one is hidden by that.
  const Sheet& front = drawn_demo("tannery-lane-5c").sheet("bench-front");
  int boards = 0, tracks = 0;
  for (const Text& text : front.texts) {
    tracks += text.words == "C";
    if (text.words != "L backing") continue;
    ++boards;
    EXPECT_GT(text.at.y, 32);
  }
  EXPECT_EQ(boards, 3);
  EXPECT_EQ(tracks, 3) << "front track, top track and sole track";
}

TEST(Crowded, ALengthWithRoomForItsNumberHasItBetweenItsEnds) {
  // Source: ISO 129-1 (from memory): past its ends stands what has no room between them. By hand: 750 mm at 1:20 are
  // 37 on paper, 12 for its number; the chain's 12 beside it is less than one.
  job::Job small = demo("tannery-lane-5c");
  small.drawings.paper = job::PaperSize::a4;
  const Drawn d = drawn(small, false);
  const Sheet& plan = d.sheet("plan");
  int wide = 0;
  for (const Dimension& row : plan.dimensions) {
    if (!row.picture || row.picture->turn_deg != 0 || row.running || row.length_mm < 300) continue;
    const Text& number = plan.texts[row.picture->text];
    const Box box = box_of(number);
    EXPECT_GT(box.x0, std::min(row.from.x, row.to.x)) << row.words;
    EXPECT_LT(box.x1, std::max(row.from.x, row.to.x)) << row.words;
    EXPECT_GT(box.y0, row.picture->line_at.y) << row.words << ": over its line, not over the next one";
    ++wide;
  }
  EXPECT_GE(wide, 8);
}

}  // namespace
}  // namespace fallwright::drawing
