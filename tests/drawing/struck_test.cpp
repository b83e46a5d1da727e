// A base that does not go in is struck out where it would be built from; what crowds on a sheet stands apart, with
// lines to what is meant; and pages that would stand half empty.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "drawing/pen.hpp"
#include "drawing/steps.hpp"
#include "drawing/table.hpp"
#include "drawing/views.hpp"
#include "outside/drawn.hpp"
#include "rules/standing.hpp"
#include "support/run.hpp"
#include "support/sample.hpp"
#include "units/fall.hpp"

namespace fallwright::drawing {
namespace {

/// Flat 2A with a wall beside the base that leans in by 1/2 in over 48 in, the bench at the other end.
Drawn shut(const std::string& leaning) {
  std::string job = sample::slurped(std::string{PROJECT_DIR} + "/params/tannery-lane-2a.toml");
  const auto turn = [&](const std::string& from, const std::string& to) {
    const std::size_t at = job.find(from);
    if (at == std::string::npos) throw std::logic_error{"not in flat 2A: " + from};
    job.replace(at, from.size(), to);
  };
  if (leaning == "left") {
    turn("place = \"left-end\"", "place = \"right-end\"");
    turn("from_left = \"28-3/4 in\"", "from_right = \"28-3/4 in\"");
  }
  job += "\n[[survey.plumb]]\nwall = \"" + leaning + "\"\nalong = \"4 in\"\nlean = \"1/2 in\"\nover = \"48 in\"\n";
  return drawn(job::read(job, "shut.toml"), false);
}

bool says(const Sheet& sheet, const std::string& words) {
  return std::any_of(sheet.texts.begin(), sheet.texts.end(),
                     [&](const Text& t) { return t.words.find(words) != std::string::npos; });
}

std::size_t struck(const Sheet& sheet) {
  return static_cast<std::size_t>(std::count_if(sheet.lines.begin(), sheet.lines.end(),
                                                [](const Line& line) { return line.kind == LineKind::rejected; }));
}

/// Middles of the pairs of crossing strokes that are at most so long.
std::vector<Point> crosses_of(const Sheet& sheet, double longest) {
  std::vector<Point> middles;
  for (std::size_t i = 0; i + 1 < sheet.lines.size(); ++i) {
    const Line &a = sheet.lines[i], &b = sheet.lines[i + 1];
    if (a.kind != LineKind::rejected || b.kind != LineKind::rejected) continue;
    const Point m{(a.from.x + a.to.x) / 2, (a.from.y + a.to.y) / 2},
        n{(b.from.x + b.to.x) / 2, (b.from.y + b.to.y) / 2};
    if (std::hypot(m.x - n.x, m.y - n.y) < 1e-6 && std::hypot(a.to.x - a.from.x, a.to.y - a.from.y) < longest)
      middles.push_back(m);
  }
  return middles;
}

TEST(Struck, ABaseThatDoesNotGoInIsVoidOnThePlanAndWhereItCatches) {
  // Source: what was measured on the solids: how much it lacks, and at which height. The bench's frame stands at the
  // base's edge, so that the leaning wall alone takes what is lacking.
  for (const char* leaning : {"right", "left"}) {
    const Drawn d = shut(leaning);
    const facts::DropIn& drop = d.facts.room.drop_in;
    ASSERT_LT(drop.least_mm, -1) << leaning;
    const Sheet &plan = d.sheet("plan"), &wall = d.sheet(std::string{"wall-"} + leaning);
    EXPECT_TRUE(says(plan, "VOID")) << leaning;
    const auto base = std::find_if(d.facts.parts.begin(), d.facts.parts.end(),
                                   [](const facts::Part& p) { return p.which.is(facts::Role::base); });
    const auto& b = base->bbox_mm;
    const auto strikes = [&](Point from, Point to) {
      return std::any_of(plan.lines.begin(), plan.lines.end(), [&](const Line& l) {
        const auto same = [](Point p, Point q) { return std::hypot(p.x - q.x, p.y - q.y) < 0.01; };
        return l.kind == LineKind::rejected &&
               ((same(l.from, from) && same(l.to, to)) || (same(l.from, to) && same(l.to, from)));
      });
    };
    EXPECT_TRUE(strikes({b[0], b[1]}, {b[3], b[4]}) && strikes({b[0], b[4]}, {b[3], b[1]})) << leaning;
    EXPECT_TRUE(strikes({b[0], b[1]}, {b[3], b[1]}) && strikes({b[0], b[1]}, {b[0], b[4]})) << leaning;
    for (const Dimension& dim : plan.dimensions) EXPECT_NE(dim.words, "57-1/2") << "nobody sets such a base out";

    const double scale = plan.page.scale;
    const std::vector<Point> in_plan = crosses_of(plan, 12 * scale);
    ASSERT_EQ(in_plan.size(), 1u) << leaning;
    const double edge = *leaning == 'r' ? b[3] : b[0], in = *leaning == 'r' ? edge - in_plan[0].x : in_plan[0].x - edge;
    EXPECT_NEAR(in, -drop.least_mm, 0.05) << leaning;
    const std::vector<Point> on_wall = crosses_of(wall, 12 * wall.page.scale);
    ASSERT_EQ(on_wall.size(), 1u) << leaning;
    EXPECT_NEAR(on_wall[0].y, drop.least_at_mm, 1e-6) << leaning;
    EXPECT_NEAR(std::abs(on_wall[0].x), in_plan[0].y, 1e-6) << "the same place on both";
    EXPECT_TRUE(says(wall, number_of(drop.least_at_mm, false) + "  VOID: the base catches here, " +
                               number_of(-drop.least_mm, false) + " too far in"))
        << leaning;
    EXPECT_EQ(struck(d.sheet("wall-back")), 2u) << leaning << ": its upstand, larger, and nothing of the wall";
    for (const Sheet* sheet : {&plan, &wall}) {
      std::vector<std::string> holds{"DO NOT SET THE BASE: IT DOES NOT GO IN"};
      if (sheet == &plan) holds.insert(holds.begin(), "DO NOT BORE YET: THE BASE DOES NOT GO IN");
      ASSERT_EQ(sheet->holds, holds);
      for (const std::string& line : holds) EXPECT_TRUE(says(*sheet, line)) << "over the notes";
    }
    bool told = false;
    for (const Step& step : steps_of(d.model->job, {d.facts, d.cuts, {}, {}, d.judgement}))
      told = told || step.what.find("THE BASE DOES NOT GO IN") != std::string::npos;
    EXPECT_TRUE(told) << leaning;
  }
}

TEST(Struck, ABaseThatGoesInIsNot) {
  // Source: the judgement: no check of it fails.
  const Drawn d = drawn_demo("tannery-lane-2a");
  for (const char* name : {"plan", "wall-back", "wall-left", "wall-right"})
    EXPECT_EQ(struck(d.sheet(name)), 0u) << name;
  EXPECT_TRUE(std::any_of(d.sheet("plan").dimensions.begin(), d.sheet("plan").dimensions.end(),
                          [](const Dimension& dim) { return dim.words == "57-1/2"; }));
}

TEST(Crowded, RunningNumbersStandInOneRowWithALineToTheirTicks) {
  // Source: by hand: on letter two studs of flat 2B's back wall stand 3-1/2 in apart, which is less on paper than their
  // numbers are high.
  const Drawn d = drawn(demo_on("tannery-lane-2b", job::PaperSize::letter), false);
  const Sheet& wall = d.sheet("wall-back");
  const double t = 3 * wall.page.scale;
  std::vector<const Text*> numbers;
  for (const Dimension& dim : wall.dimensions)
    if (dim.running && dim.picture) numbers.push_back(&wall.texts[dim.picture->text]);
  ASSERT_EQ(numbers.size(), 7u);
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    EXPECT_LE(std::abs(numbers[i]->at.y - numbers[0]->at.y), t) << numbers[i]->words;
    if (i == 0) continue;
    EXPECT_GT(numbers[i]->at.x - numbers[i - 1]->at.x, t) << numbers[i]->words << " is too near the last";
  }
  for (const Dimension& dim : wall.dimensions) {
    if (dim.words != "71-1/4" && dim.words != "74-3/4") continue;
    const bool leads =
        std::any_of(wall.lines.begin() + static_cast<std::ptrdiff_t>(dim.picture->first_line),
                    wall.lines.begin() + static_cast<std::ptrdiff_t>(dim.picture->last_line), [&](const Line& l) {
                      return std::abs(l.from.x - dim.to.x) < 1e-6 && std::abs(l.to.x - l.from.x) > 0.1 &&
                             std::abs(l.to.y - l.from.y) > 0.5 * t;
                    });
    EXPECT_TRUE(leads) << dim.words;
  }
}

TEST(Crowded, AChannelsNameStandsOnTheFloorWithALineIntoIt) {
  // Source: by hand: the channel of flat 5C runs along the back wall, 80 wide with its middle 75 from that: its name
  // stands before it, and its line ends 115 to 35 from the wall, over no wall's edge.
  const Drawn d = drawn_demo("tannery-lane-5c");
  const Sheet& plan = d.sheet("plan");
  const double back = 950, t = 3 * plan.page.scale;
  const auto name = std::find_if(plan.texts.begin(), plan.texts.end(), [&](const Text& t) {
    return t.words == "channel" && t.at.y > 300;  // not that of its row of lengths
  });
  ASSERT_NE(name, plan.texts.end());
  const Box box = box_of(*name);
  EXPECT_LT(box.y1, back - 115);
  EXPECT_TRUE(std::any_of(plan.lines.begin(), plan.lines.end(), [&](const Line& l) {
    return l.kind == LineKind::dimension && l.to.y < back - 35 && l.to.y > back - 115 && l.from.x > box.x0 - t &&
           l.from.x < box.x1 + t && std::abs(l.from.y - box.y1) < t;
  }));
}

TEST(Crowded, ASectionsLetterStandsOutsideOfTheRoomThatIsCut) {
  // Source: by hand: flat 5C is 1900 by 950 between its stud faces; three sections have a letter at either end.
  int letters = 0;
  const Drawn d = drawn_demo("tannery-lane-5c");
  const Sheet& plan = d.sheet("plan");
  for (const Text& text : plan.texts) {
    if (text.words.size() != 1 || text.height < 4.5 * plan.page.scale) continue;
    const Box b = box_of(text);
    EXPECT_TRUE(b.x1 < 0 || b.x0 > 1900 || b.y1 < 0 || b.y0 > 950)
        << text.words << " " << text.at.x << " " << text.at.y;
    ++letters;
  }
  EXPECT_EQ(letters, 6);
}

TEST(Crowded, NoMarkOfAMemberStandsOnACircleThatShowsADetail) {
  // Source: by hand: the letters B and A of flat 5C's stud and joist have room beside the circles of the first detail
  // and the third.
  const Drawn d = drawn_demo("tannery-lane-5c");
  const Sheet& sheet = d.sheet("bench-section");
  int circles = 0;
  for (const MemberMark& mark : sheet.members) {
    if (mark.mark != "A" && mark.mark != "B") continue;
    for (const Arc& arc : sheet.arcs) {
      if (arc.kind != LineKind::phantom) continue;
      const Box b = box_of(sheet.texts[mark.text]);
      double near = 1e9, far = 0;
      for (const double x : {b.x0, b.x1})
        for (const double y : {b.y0, b.y1}) {
          const double off = std::hypot(x - arc.centre.x, y - arc.centre.y);
          near = std::min(near, off), far = std::max(far, off);
        }
      EXPECT_TRUE(far < arc.radius || near > arc.radius) << mark.mark;
      ++circles;
    }
  }
  EXPECT_GT(circles, 0);
}

TEST(Crowded, HeightsOfTwoSpotsCloseBehindEachOtherKeepTheirOrder) {
  // Source: by hand: in flat 5C the floor's back edge lies 23 mm behind the channel and less than 1 mm above it.
  const Drawn d = drawn_demo("tannery-lane-5c");
  const Sheet& falls = d.sheet("falls");
  std::vector<const Text*> rim, drain;
  for (const Text& text : falls.texts) {
    if (text.words == "less than +1") rim.push_back(&text);
    if (text.words == "drain 0") drain.push_back(&text);
    EXPECT_NE(text.words, "0") << "a bare nought beside another height is read as its last figure";
  }
  ASSERT_EQ(rim.size(), 2u);
  ASSERT_EQ(drain.size(), 2u);
  for (const Text* behind : rim)
    for (const Text* before : drain) EXPECT_GT(behind->at.y, before->at.y + before->height);
}

TEST(Crowded, AStripOfBedThatNobodySpreadsHasNoName) {
  // Source: by hand: between collar and holdback 1 mm of flat 5C's bed is left behind the bore; 2A has the bed there.
  const auto named = [](const char* job) {
    const Drawn d = drawn(demo(job), false);
    const auto& texts = d.sheet("drain").texts;
    return std::count_if(texts.begin(), texts.end(),
                         [](const Text& t) { return t.words == "mortar bed" || t.words.starts_with("bed, "); });
  };
  EXPECT_EQ(named("tannery-lane-5c"), 1) << "in the section alone";
  EXPECT_EQ(named("tannery-lane-2a"), 2) << "and in the detail";
}

TEST(Crowded, WhereNoMortarIsLaidTheBedsEdgeIsBrokenOff) {
  // Source: by hand: flat 5C's bore of 100 has a collar of 12, its centre stands 63 from the bed's back edge at 938
  // (950 less 12): 1 is left, less than 5 as far as sqrt(62^2 - 58^2) to either side.
  const Drawn d = drawn_demo("tannery-lane-5c");
  const Sheet& sheet = d.sheet("bed");
  const double half = std::sqrt(62. * 62 - 58 * 58), centre = d.facts.room.drain.now_mm[0];
  int ends = 0;
  for (const Line& line : sheet.lines)
    for (const Point& p : {line.from, line.to}) {
      if (line.kind != LineKind::outline || std::abs(p.y - 938) > 0.01 || std::abs(line.from.y - line.to.y) > 0.01)
        continue;
      EXPECT_GE(std::abs(p.x - centre), half - 0.01);
      ends += std::abs(std::abs(p.x - centre) - half) < 0.01;
    }
  EXPECT_EQ(ends, 2);
  const auto says = [](const Sheet& s) {
    return std::any_of(s.texts.begin(), s.texts.end(), [](const Text& t) { return t.words == "no mortar"; });
  };
  EXPECT_TRUE(says(sheet));
  EXPECT_FALSE(says(drawn_demo("tannery-lane-2a").sheet("bed"))) << "its collar stands far off every edge";
}

TEST(Pages, AFewRowsStandInLargerLetters) {
  // Source: the heights that the set keeps to, those of ISO 3098 (2.5, 3.5, 5, from memory) and 3 between two of them.
  // By hand: a row is 2.05 letters high, some 205 mm of tabloid take 40 of 2.5 and 33 of 3: 60 take two pages either
  // way, 115 three of the smaller and four of the larger.
  const auto height = [](job::PaperSize paper, int count) {
    std::vector<Cells> rows;
    for (int i = 0; i < count; ++i) rows.push_back({std::to_string(i), "row"});
    job::Job job = sample::alcove();
    job.drawings.paper = paper;
    const std::vector<Sheet> sheets = on_pages("rows", "Rows", job, {{"no."}, {"what"}}, rows, {});
    double of_rows = 0;
    for (const Text& text : sheets.front().texts)
      if (text.words == "row") of_rows = text.height;
    return of_rows;
  };
  EXPECT_EQ(height(job::PaperSize::tabloid, 8), 5);
  EXPECT_EQ(height(job::PaperSize::tabloid, 24), 3.5);
  EXPECT_EQ(height(job::PaperSize::tabloid, 60), 3);
  EXPECT_EQ(height(job::PaperSize::tabloid, 115), 2.5);
  EXPECT_EQ(height(job::PaperSize::letter, 8), 3.5);
  EXPECT_EQ(height(job::PaperSize::letter, 40), 2.5);
}

TEST(Pages, OnASmallOneAFrameThatReadsAlikeAtBothEndsHasOneChain) {
  // Source: by hand: the floor under Ferry Steps' bench falls 1/64 along it: to the tape's mark both ends are
  // 17-7/16 high. With a chain at either end the frame of 36-3/16 would have to be drawn at 1:12.
  const Drawn d = drawn(demo_on("ferry-steps-3", job::PaperSize::letter), false);
  const Sheet& front = d.sheet("bench-front");
  EXPECT_EQ(front.page.scale, 8);
  EXPECT_EQ(std::count_if(front.dimensions.begin(), front.dimensions.end(),
                          [](const Dimension& dim) { return dim.words == "17-7/16"; }),
            1);
}

TEST(Pages, OfOneTableAreEvenlyFull) {
  // Source: by hand: 60 rows of a line each on two pages are some 30 on either, not a page of 40 and one of 20.
  std::vector<Cells> rows(60, {"1", "row"});
  const std::vector<Sheet> sheets = on_pages("rows", "Rows", sample::alcove(), {{"no."}, {"what"}}, rows, {});
  ASSERT_EQ(sheets.size(), 2U);
  const auto count = [](const Sheet& sheet) {
    return std::count_if(sheet.texts.begin(), sheet.texts.end(), [](const Text& t) { return t.words == "row"; });
  };
  EXPECT_EQ(count(sheets.front()) + count(sheets.back()), 60);
  EXPECT_NEAR(static_cast<double>(count(sheets.front())), 30, 2);
}

TEST(Pages, OfAListToTickThatLeavesRoomHaveHigherRows) {
  // Source: by hand: the same few rows take more of the page where one of their cells is to be written in.
  const auto foot = [](bool boxed) {
    const std::vector<Cells> rows(8, {"", "row"});
    return frame_of(on_pages("rows", "Rows", sample::alcove(), {{"got", 1, boxed}, {"what"}}, rows, {}).front())
        .height();
  };
  EXPECT_GT(foot(true), foot(false) + 8 * 2 * 0.2 * 5);
}

TEST(Seat, ThatComesOutLowerThanWasAskedIsToldWithBothHeights) {
  // Source: the job's own number, and the solid's; flat 2A's come out alike.
  const auto told = [](const char* name) {
    const Drawn d = drawn_demo(name);
    std::vector<std::string> found;
    for (const std::string& note : d.sheet("bench-side").notes)
      if (note.find("asked for") != std::string::npos) found.push_back(note);
    for (const Step& step : steps_of(d.model->job, {d.facts, d.cuts, {}, {}, d.judgement}))
      if (step.measure.find("asked for") != std::string::npos) found.push_back(step.measure);
    return found;
  };
  const std::vector<std::string> lower = told("tannery-lane-5c");
  ASSERT_EQ(lower.size(), 2u);
  for (const std::string& words : lower) {
    EXPECT_NE(words.find("459 mm"), std::string::npos) << words;
    EXPECT_NE(words.find("460 mm asked for"), std::string::npos) << words;
  }
  EXPECT_TRUE(told("tannery-lane-2a").empty());
}

/// A number of a chain that runs between two heights of a sheet, at a place along x.
std::string upright_from(const Sheet& sheet, double y0, double y1) {
  for (const Dimension& dim : sheet.dimensions)
    if (std::abs(dim.from.x - dim.to.x) < 1e-6 && std::abs(std::min(dim.from.y, dim.to.y) - y0) < 0.5 &&
        std::abs(std::max(dim.from.y, dim.to.y) - y1) < 0.5)
      return dim.words;
  return "none";
}

TEST(Skew, ABaseOnSiteIsToldAtItsDrainOnEverySheet) {
  // Source: the set-out that was measured on the solids at the bore; 4 Coopers Yard has no two sides alike.
  const Drawn d = drawn_demo("coopers-yard-4");
  const auto mark = [&](const std::string& from) {
    for (const facts::Mark& m : d.facts.room.set_out)
      if (m.name == "bore centre from the " + from) return m.mm;
    return 0.0;
  };
  const double left = mark("left stud face"), right = mark("right stud face"), front = mark("base's front edge");
  ASSERT_GT(std::min({left, right, front}), 0);
  const auto& now = d.facts.room.drain.now_mm;
  EXPECT_EQ(upright_from(d.sheet("plan"), now[1] - front, now[1]), number_of(front, false));
  EXPECT_TRUE(says(d.sheet("drain"), number_of(front, false) + "   bore centre from the base's front edge"));
  std::size_t wholes = 0;
  for (const Dimension& dim : d.sheet("falls").dimensions) {
    if (dim.chain >= 0) continue;
    ++wholes;
    EXPECT_NEAR(dim.length_mm, left + right, 0.01) << "the alcove at the drain, which the plan has as well";
  }
  EXPECT_EQ(wholes, 1u);
}

TEST(Screed, FallsAreThoseOfTheirSheet) {
  // Source: the falls sheet, whose table has each plane's.
  for (const char* name : {"coopers-yard-4", "coopers-yard-9"}) {
    const Drawn d = drawn_demo(name);
    const std::string& note = d.sheet("screed").notes.at(1);
    ASSERT_EQ(note.rfind("Falls to the drain: ", 0), 0u) << note;
    std::vector<std::string> falls;
    for (const facts::Facet& f : d.facts.facets)
      if (f.surface == facts::Surface::base_floor)
        falls.push_back(rules::text_of_fall(f, rules::judged_fall(f, d.judgement.results), d.model->job));
    const std::string told = note.substr(20, note.find(". ") - 20);
    const std::size_t to = told.find(" to ");
    EXPECT_NE(std::find(falls.begin(), falls.end(), told.substr(0, to)), falls.end()) << told;
    if (to == std::string::npos) continue;
    EXPECT_NE(std::find(falls.begin(), falls.end(), told.substr(to + 4)), falls.end()) << told;
  }
}

TEST(Waste, ThatStandsInTheFloorIsBoredNowhere) {
  // Source: by hand: 9 Chandlers Row's waste was read from the left stud face alone.
  const Drawn d = drawn_demo("chandlers-row-9");
  for (const Step& step : steps_of(d.model->job, {d.facts, d.cuts, {}, {}, d.judgement})) {
    EXPECT_EQ(step.what.find("Bore for the drain"), std::string::npos) << step.what;
    if (step.what.find("The waste stands") == 0) {
      EXPECT_NE(step.measure.find("from the back was not read"), std::string::npos) << step.measure;
    }
  }
  for (const char* name : {"plan", "drain", "template"}) {
    const auto& notes = d.sheet(name).notes;
    EXPECT_TRUE(std::any_of(notes.begin(), notes.end(), [](const std::string& note) {
      return note.find("Nothing is bored there: 'hole' is the one it stands in") != std::string::npos;
    })) << name;
    EXPECT_TRUE(std::none_of(notes.begin(), notes.end(), [](const std::string& note) {
      return note.rfind("Bore ", 0) == 0;
    })) << name;
  }
}

TEST(LappedEdge, IsNamedInTheStepThatLapsIt) {
  // Source: the job: the bench stands at the left, and on the right nothing turns up either.
  job::Job job = sample::alcove();
  EXPECT_EQ(lapped_edges(job, true) + lapped_edges(job, false), "");
  job.base.upstands = {job::Side::back}, job.base.lapped = {job::Side::left, job::Side::right};
  EXPECT_EQ(lapped_edges(job, true), "base's left edge");
  EXPECT_EQ(lapped_edges(job, false), "base's right edge");
  job.bench.reset();
  EXPECT_EQ(lapped_edges(job, false), "base's left and right edges");
  job = sample::alcove();
  job.base.upstands = {}, job.base.lapped = {job::Side::back, job::Side::left, job::Side::right};
  const Drawn d = drawn(job, false);
  std::string seat, walls;
  for (const Step& step : steps_of(d.model->job, {d.facts, d.cuts, {}, {}, d.judgement})) {
    if (step.what.find("Before the seat block") != std::string::npos) seat = step.what;
    if (step.what.find("Board, flashing") != std::string::npos) walls = step.what;
  }
  EXPECT_NE(seat.find("bond a strip of membrane over the base's left edge and up the frame"), std::string::npos)
      << seat;
  EXPECT_EQ(seat.find("flash the base"), std::string::npos) << seat;
  EXPECT_NE(walls.find("lapped over the base's back and right edges and bonded to it"), std::string::npos) << walls;
}

TEST(Across, FromRightToLeftHasItsWordsPastItsLeftEnd) {
  // Source: by hand: beside a bore each number stands outside, away from the bore's own width.
  Sheet sheet{"across", "Across", false};
  Pen pen{sheet, 30};
  pen.across({40, 0}, {20, 0}, -100);
  pen.across({100, 0}, {120, 0}, -100);
  pen.part_texts();
  ASSERT_EQ(sheet.texts.size(), 2u);
  EXPECT_LT(box_of(sheet.texts[0]).x1, 20);
  EXPECT_GT(box_of(sheet.texts[1]).x0, 120);
}

TEST(Words, KeepTheirUnitsAndLoseTheirKeys) {
  // Source: by hand.
  const std::string words = "body at most 63 mm; 48 in";
  for (const double width : {10.0, 25.0, 40.0, 60.0, 80.0})
    for (const std::string& line : wrapped(words, width, 3)) {
      EXPECT_NE(line.substr(0, 2), "mm") << width;
      EXPECT_NE(line, "in") << width;
    }
  EXPECT_EQ(without_keys("take one 3/8\" shorter (base.length), or two (of the three) at 1:24 (1/2 in/ft)"),
            "take one 3/8\" shorter, or two (of the three) at 1:24 (1/2 in/ft)");
  EXPECT_EQ(without_keys("set it higher (walls.blocking)"), "set it higher");
}

TEST(Plan, TheEntrysLengthStandsInNoRowOfDimensions) {
  // Source: common practice, no source: a length over another's line is read as that one's. In flat 2A with its bench
  // along the back of a room as it was surveyed the base's row is the first, and marks of two sections stand beside.
  std::string job = sample::slurped(std::string{PROJECT_DIR} + "/params/tannery-lane-2a.toml");
  const auto turn = [&](const std::string& from, const std::string& to) {
    const std::size_t at = job.find(from);
    if (at == std::string::npos) throw std::logic_error{"not in flat 2A: " + from};
    job.replace(at, from.size(), to);
  };
  turn("width = \"6 ft\"\ndepth = \"36 in\"\n", "");
  turn("length = \"57-1/2 in\"\nwidth = \"36 in\"", "length = \"65-3/4 in\"\nwidth = \"39-1/2 in\"");
  turn("from_left = \"28-3/4 in\"", "from_left = \"30 in\"");
  turn("from_back = \"16-1/4 in\"", "from_back = \"18 in\"");
  turn("place = \"left-end\"", "place = \"back\"");
  job +=
      "\n[survey]\ntolerance = \"1/16 in\"\nface = \"stud\"\n[survey.plan]\nback = \"66-1/8 in\"\nfront = \"66-1/4 "
      "in\"\n"
      "left = \"54-1/8 in\"\nright = \"54-3/16 in\"\ndiagonal_from_back_left = \"85-9/16 in\"\n"
      "diagonal_from_back_right = \"85-1/2 in\"\n[[survey.plumb]]\nwall = \"left\"\nalong = \"20 in\"\n"
      "lean = \"-3/8 in\"\nover = \"48 in\"\n";
  const Drawn d = drawn(job::read(job, "odd.toml"), false);
  const Sheet& plan = d.sheet("plan");
  const auto entry = std::find_if(plan.texts.begin(), plan.texts.end(),
                                  [](const Text& t) { return t.words.rfind("ENTRY  ", 0) == 0; });
  ASSERT_NE(entry, plan.texts.end());
  std::size_t level = 0;
  for (const Dimension& dim : plan.dimensions) {
    if (!dim.picture || dim.picture->turn_deg != 0) continue;
    ++level;
    EXPECT_GT(std::abs(dim.picture->line_at.y - entry->at.y), entry->height) << dim.words;
  }
  EXPECT_GT(level, 3u);
}

}  // namespace
}  // namespace fallwright::drawing
