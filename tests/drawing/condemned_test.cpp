// What one sheet of a set condemns no other tells as if it could be used, and what it does not condemn stays usable.
#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/pen.hpp"
#include "drawing/piece.hpp"
#include "drawing/steps.hpp"
#include "drawing/views.hpp"
#include "drawing/warning.hpp"
#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

using testing::AllOf, testing::HasSubstr, testing::Not;

/// A table's row as it is read, from the cell that says `first`.
std::string row_of(const Sheet& sheet, const std::string& first) {
  const auto begin =
      std::find_if(sheet.texts.begin(), sheet.texts.end(), [&](const Text& t) { return t.words == first; });
  std::string row;
  for (auto cell = begin; cell != sheet.texts.end() && std::abs(cell->at.y - begin->at.y) < 1e-6; ++cell)
    row += (row.empty() ? "" : " | ") + cell->words;
  return row;
}

std::string notes_of(const Sheet& sheet) {
  std::string all;
  for (const std::string& note : sheet.notes) all += note + " ";
  return all;
}

TEST(Condemned, AFallOfSeatOrThresholdThatItsCheckRejectsIsOut) {
  // Source: the checks, whose limits ask for 1/8 in/ft of both (common practice, no source); 1:120 is 0.1 in/ft.
  job::Job job = demo("tannery-lane-2a");
  const Drawn kept = drawn(job, false);
  EXPECT_THAT(row_of(kept.sheet("falls"), "seat, top"), Not(HasSubstr("OUT")));
  EXPECT_THAT(read_through(kept.sheet("falls")), Not(HasSubstr("Seat: at least")));
  job.bench->seat_fall = units::Fall::ratio(1. / 120);
  job.base.threshold.fall = units::Fall::ratio(1. / 120);
  const Drawn d = drawn(job, false);
  const Sheet& falls = d.sheet("falls");
  EXPECT_EQ(row_of(falls, "seat, top"), "seat, top | 14-1/2 | 0.100 in/ft (1:120) | OUT");
  EXPECT_EQ(row_of(falls, "threshold, top"), "threshold, top | 4 | 0.100 in/ft (1:120) | OUT");
  EXPECT_EQ(row_of(falls, "floor, left").find("OUT"), std::string::npos) << "the floor keeps its limits";
  EXPECT_THAT(read_through(falls), HasSubstr("Seat: at least 1/8 in/ft (1:96)"));
  EXPECT_THAT(read_through(falls), HasSubstr("Threshold: at least 1/8 in/ft (1:96)"));
  EXPECT_THAT(notes_of(falls), HasSubstr("Seat: OUT OF ITS LIMITS AS DRAWN, 0.100 in/ft (1:120)."));
}

TEST(Condemned, ABaseThatIsVoidDoesNotVoidTheFallOfItsSeat) {
  // Source: the notes of the same sheet, which tell the seat's fall; it is made in its own block, not in the base.
  const Drawn d = drawn_demo("ferry-steps-3");
  for (const char* plane : {"threshold, top", "floor, back", "floor, left"})
    EXPECT_EQ(row_of(d.sheet("falls"), plane), "") << plane << " keeps its limits on a base that nobody sets";
  EXPECT_EQ(row_of(d.sheet("falls"), "seat, top"), "seat, top | 14 | 1/4 in/ft (1:48),  2.08 %");
  const Drawn out = drawn_demo("tannery-lane-2b");
  EXPECT_THAT(row_of(out.sheet("falls"), "floor, back"), HasSubstr("| OUT")) << "by what it is rejected";
  EXPECT_EQ(row_of(out.sheet("falls"), "floor, left"), "");
}

TEST(Condemned, TheJoistThatTheBoreCutsIsNamedBeforeThoseBesideIt) {
  // Source: the joists as solids; the bore's edge is half its width from its centre.
  const Drawn d = drawn(demo_on("ferry-steps-3", job::PaperSize::letter), false);
  const facts::DrainWindow& drain = d.facts.room.drain;
  const double bore = demo("ferry-steps-3").drain.bore.in_mm() / 2;
  std::string cut, beside;
  for (const facts::Part& joist : d.facts.parts) {
    if (joist.which.family.role != facts::Role::joist) continue;
    const double from = joist.bbox_mm[0] - drain.now_mm[0], to = joist.bbox_mm[3] - drain.now_mm[0];
    const double centre = (joist.bbox_mm[0] + joist.bbox_mm[3]) / 2 - drain.left_face_mm;
    (from < bore && to > -bore ? cut : beside) += " " + units::to_text(units::Length::mm(centre), false);
  }
  ASSERT_EQ(cut, " 39\"");
  EXPECT_THAT(beside, HasSubstr(" 55\""));
  EXPECT_THAT(notes_of(d.sheet("drain-plan")),
              AllOf(HasSubstr("The bore cuts the joist whose centre is 39\" from the left stud face"),
                    HasSubstr("Joists beside the bore: centres 23\" and 55\" from the left stud face")));
}

TEST(Condemned, WhatHoldsABenchTooWeaklyAgainstAPushIsNotTold) {
  // Source: the check, which a single nail at each end of a joist does not keep (NDS 12.3: 62 lbf each, of 106).
  const Drawn d = drawn(job::read(sample::random_room(1), "random.toml"), false);
  ASSERT_TRUE(std::any_of(d.judgement.results.begin(), d.judgement.results.end(), [](const rules::Result& r) {
    return r.id == "load.seat-push" && r.outcome == rules::Outcome::fail;
  }));
  for (const char* joint : {"wall cleat to studs", "joists, both ends"})
    EXPECT_THAT(row_of(*std::find_if(d.sheets.begin(), d.sheets.end(),
                                     [&](const Sheet& sheet) { return !row_of(sheet, joint).empty(); }),
                       joint),
                HasSubstr(joint + std::string{" | HOLD: 'bench bears a push sideways'"}));
}

TEST(Condemned, ASeatWithoutAnApronIsNotToldOfOne) {
  // Source: the jobs: no apron is asked for in rooms 1 and 6, and the base of room 6 does not go in. A membrane round
  // the frame takes the apron's place.
  for (const unsigned seed : {1u, 6u}) {
    job::Job job = job::read(sample::random_room(seed), "random.toml");
    job.bench->frame.waterproofed = true, job.bench->seat_fall = job::Fall::ratio(1 / 48.);
    const Drawn d = drawn(job, false);
    ASSERT_TRUE(d.model->job.bench->apron_thickness.is_zero());
    EXPECT_THAT(read_through(d.sheet("bench-side")), Not(HasSubstr("apron"))) << seed;
    EXPECT_THAT(read_through(d.sheet("bench-section")), Not(HasSubstr("Apron"))) << seed;
    EXPECT_THAT(read_through(d.sheet("bench-section")), HasSubstr("1  Base's rim in front of the frame")) << seed;
    for (const Sheet& sheet : d.sheets) {
      EXPECT_THAT(read_through(sheet), Not(HasSubstr("its apron stands on the base"))) << seed << " " << sheet.name;
      EXPECT_THAT(notes_of(sheet), Not(HasSubstr("whose apron stands on it"))) << seed << " " << sheet.name;
    }
    EXPECT_THAT(row_of(d.sheet("buy"), "seat block"), HasSubstr("high, over all")) << seed;
  }
  EXPECT_THAT(read_through(drawn_demo("tannery-lane-2a").sheet("bench-side")), HasSubstr("apron's foot"));
}

TEST(Condemned, ScrewsOfAnUpstandThatIsHeldAreNotCounted) {
  // Source: the schedules of walls and bench, which say HOLD of them.
  const Drawn d = drawn_demo("ferry-steps-3");
  ASSERT_THAT(row_of(d.sheet("wall-right"), "base's upstand"), HasSubstr("HOLD"));
  EXPECT_THAT(row_of(d.sheet("buy-reckoned"), "fasteners, upstands"), HasSubstr("HOLD | HOLD"));
  for (const char* on_the_base : {"flashing over upstands", "sealant", "construction adhesive"})
    EXPECT_THAT(row_of(d.sheet("buy-reckoned"), on_the_base), HasSubstr("HOLD | HOLD"))
        << "the order of work gives no number for it either";
}

TEST(Condemned, NobodyBoresForABaseThatDoesNotGoIn) {
  // Source: the judgement: the base of room 3 is longer than its alcove is wide. A shorter one may have its drain
  // elsewhere, and a hole in a slab stays where it is.
  const Drawn d = drawn(job::read(sample::random_room(3), "random.toml"), false);
  for (const Sheet& sheet : d.sheets)
    if (sheet.name.rfind("template", 0) == 0) {
      EXPECT_THAT(sheet.holds, testing::ElementsAre("DO NOT BORE YET: THE BASE DOES NOT GO IN"));
      EXPECT_THAT(read_through(sheet), testing::AllOf(HasSubstr("VOID"), Not(HasSubstr("BACK WALL"))));
    }
  for (const facts::Mark& mark : d.facts.room.set_out)
    if (mark.name.rfind("bore centre", 0) == 0) {
      const std::string centre = number_of(mark.mm, false);
      for (const Dimension& dim : d.sheet("plan").dimensions) EXPECT_NE(dim.words, centre) << mark.name;
      EXPECT_THAT(read_through(d.sheet("drain")), Not(HasSubstr(mark.name)));
    }
  bool told = false;
  for (const Step& step : steps_of(d.model->job, {d.facts, d.cuts, {}, {}, d.judgement}))
    if (step.what.find("do not bore") != std::string::npos) {
      told = step.hold;
      EXPECT_THAT(step.what, HasSubstr("THE BASE DOES NOT GO IN, and another may have its drain elsewhere"));
      EXPECT_THAT(step.measure, HasSubstr("no centre is given"));
    }
  EXPECT_TRUE(told);
}

TEST(Condemned, NobodyLaysATrapWhoseHolesFail) {
  // Source: the case, in whose second joist a quarter of an inch is left below the hole, of 2 in (IRC R502.8.1); joists
  // from 3 in on, 16 in apart.
  const std::string path = std::string{PROJECT_DIR} + "/tests/cases/trap-arm-low-in-its-joists.toml";
  for (const job::PaperSize paper : {job::PaperSize::tabloid, job::PaperSize::letter}) {
    job::Job job = job::read(diag::read_text(path), path);
    job.drawings.paper = paper;
    const Drawn d = drawn(job, false);
    int told = 0;
    for (const Sheet& sheet : d.sheets)
      if (sheet.name == "drain" || sheet.name == "drain-arm")
        told += std::count(sheet.holds.begin(), sheet.holds.end(), "DO NOT LAY TRAP AND ARM: A CHECK OF THEM FAILS");
    EXPECT_GE(told, 1);
    const std::string row = row_of(d.sheet(paper == job::PaperSize::letter ? "drain-arm" : "drain"), "19\"");
    EXPECT_THAT(row, HasSubstr("| VOID | ")) << "no centre is bored to";
    EXPECT_THAT(row, HasSubstr("| VOID: at least"));
    bool held = false;
    for (const Step& step : steps_of(d.model->job, {d.facts, d.cuts, {}, {}, d.judgement}))
      if (step.what.find("Rough in trap and riser") != std::string::npos)
        held = step.hold && step.measure.find("'holes through joists keep clear of edges and each other' fails") !=
                                std::string::npos;
    EXPECT_TRUE(held);
  }
}

TEST(Condemned, TrapAndArmWaitForWhatMovesThemAlone) {
  // Source: by hand: a vent that is missing is connected at the arm's end, a cleanout set at its bends: the arm and its
  // holes stay. What else may fail of them lays another pipe, elsewhere or through other holes.
  const Drawn& d = drawn_demo("tannery-lane-2a");
  int moving = 0;
  for (const rules::Result& known : d.judgement.results) {
    if (known.id.rfind("trap.", 0) != 0 && known.id.rfind("joist.", 0) != 0) continue;
    rules::Judgement judgement;
    judgement.results = {known};
    judgement.results.front().outcome = rules::Outcome::fail;
    const bool stays = known.id == "trap.vented" || known.id == "trap.turns";
    EXPECT_EQ(rejected_arm({d.facts, d.cuts, {}, {}, judgement}) == nullptr, stays) << known.id;
    moving += !stays;
  }
  EXPECT_GE(moving, 10);
}

TEST(Condemned, AWasteThatStandsKeepsItsPlaceWhateverBaseComes) {
  // Source: the job: the waste of 7 Chandlers Row is in its floor; its alcove is made narrower than its base.
  job::Job job = demo("chandlers-row-7");
  job.alcove.width = job::Length::inches(59.75);
  const Drawn d = drawn(job, false);
  EXPECT_THAT(d.sheet("plan").holds, testing::ElementsAre("DO NOT SET THE BASE: IT DOES NOT GO IN"));
}

TEST(Condemned, WhereTheWasteStandsNoNoteSpeaksOfBoring) {
  // Source: the job: the waste of 7 Chandlers Row is in its floor, and the same sheet says that nothing is bored there.
  const std::string told = notes_of(drawn_demo("chandlers-row-7").sheet("drain"));
  EXPECT_THAT(told, HasSubstr("Nothing is bored there: 'hole' is the one it stands in"));
  EXPECT_THAT(told, Not(HasSubstr("before boring")));
  EXPECT_THAT(told, HasSubstr("Measure it before the dry fit."));
  EXPECT_THAT(notes_of(drawn_demo("tannery-lane-2a").sheet("drain")), HasSubstr("wires before boring"));
}

TEST(Screed, MarksOnARayStandWhereItsNoteSaysTheyDo) {
  // Source: the note, laid off from the drain's middle; there it is whole millimetres above the drain's top, or about
  // 300 mm on.
  const Drawn d = drawn_demo("coopers-yard-9");
  EXPECT_THAT(
      notes_of(d.sheet("screed")),
      HasSubstr(
          "300 mm apart from a wall's left or back end; on the thin lines 'at' so far from the channel's middle"));
  const auto& box = part(d.facts, facts::Role::drain).bbox_mm;
  int on_rays = 0;
  for (const facts::ScreedMark& mark : d.facts.site_built->marks) {
    if (mark.line.rfind("thin line", 0) != 0) continue;
    const double from = std::hypot(mark.at_mm[0] - (box[0] + box[3]) / 2, mark.at_mm[1] - (box[1] + box[4]) / 2);
    EXPECT_NEAR(mark.along_mm, from, 1e-6) << mark.line;
    EXPECT_THAT(read_through(d.sheet("screed")), HasSubstr("at " + number_of(from, true) + " ")) << mark.line;
    const double up = mark.top_mm - d.facts.heights.drain_top_mm;
    EXPECT_TRUE(std::abs(std::remainder(up, 1)) < 0.01 || std::abs(std::remainder(from, 300)) < 0.5) << mark.line;
    EXPECT_LT(std::abs(std::remainder(from, 300)), 100) << mark.line;
    ++on_rays;
  }
  EXPECT_GE(on_rays, 8);
}

TEST(Falls, ARunIsToldToWhereARoundDrainsEdgeIsFurthest) {
  // Source: by hand, on the solids: a facet's run ends where its hip meets the round edge, past the near side of it.
  const Drawn d = drawn_demo("chandlers-row-7");
  EXPECT_THAT(notes_of(d.sheet("falls")), HasSubstr("to the drain's edge, where that round one is furthest;"));
  const auto &base = part(d.facts, facts::Role::base).bbox_mm, &drain = part(d.facts, facts::Role::drain).bbox_mm;
  for (const facts::Facet& facet : d.facts.facets)
    if (facet.surface == facts::Surface::base_floor && facet.facet == "right") {
      EXPECT_GT(facet.run_mm, base[3] - d.model->job.base.upstand_thickness.in_mm() - drain[3]);
    }
  EXPECT_THAT(notes_of(drawn_demo("tannery-lane-2a").sheet("falls")), Not(HasSubstr("furthest")));
}

TEST(Plan, TheNameOfARowStandsClearOfANumberBeforeIt) {
  // Source: property: a height of capitals between them, lest "base" and "3/16" be read as one.
  const Drawn d = drawn(job::read(sample::random_room(1), "random.toml"), false);
  const Sheet& plan = d.sheet("plan");
  const auto name = std::find_if(plan.texts.begin(), plan.texts.end(),
                                 [](const Text& text) { return text.words == "base" && text.anchor == Anchor::right; });
  ASSERT_NE(name, plan.texts.end());
  const double end = box_of(*name).x1;
  int numbers = 0;
  for (const Text& text : plan.texts) {
    if (&text == &*name || std::abs(text.at.y - name->at.y) > 2 * name->height || box_of(text).x0 < end) continue;
    EXPECT_GE(box_of(text).x0 - end, name->height) << text.words;
    ++numbers;
  }
  EXPECT_GE(numbers, 2) << "its gap and its length";
}

TEST(Plan, TheNumberOfABenchAtTheBackStandsAtItsOwnRow) {
  // Source: property: beside its line, between its ends, though a wall's name stands outside of all rows.
  for (const unsigned seed : {3u, 716u}) {
    const Drawn d = drawn(job::read(sample::random_room(seed), "random.toml"), false);
    const Sheet& plan = d.sheet("plan");
    int rows = 0;
    for (const Dimension& row : plan.dimensions) {
      if (!row.picture || row.picture->turn_deg != 90 || row.running) continue;
      const Box number = box_of(plan.texts[row.picture->text]);
      const double y = (number.y0 + number.y1) / 2, x = row.picture->line_at.x;
      if (x < d.model->job.alcove.width.in_mm() || std::abs(row.to.y - row.from.y) < 200)
        continue;  // at the right; short ones have theirs where there is room
      EXPECT_GT(y, std::min(row.from.y, row.to.y)) << seed << " " << row.words;
      EXPECT_LT(y, std::max(row.from.y, row.to.y)) << seed << " " << row.words;
      EXPECT_LT(number.x0 - x, 2 * (number.y1 - number.y0)) << seed << " " << row.words;
      ++rows;
    }
    EXPECT_GE(rows, 4) << seed;
  }
}

TEST(Details, EachMemberOfSteelThatIsCutIsNamed) {
  // Source: ISO 6433 (from memory): what a detail's title names stands in it by its name.
  const std::string told = read_through(drawn_demo("tannery-lane-5c").sheet("bench-section"));
  for (const char* member : {" front track ", " sole track ", " wall track ", " stud ", " joist "})
    EXPECT_THAT(told, HasSubstr(member));
}

TEST(Walls, AFixturesPlateIsNamedAtItOrByALine) {
  // Source: ISO 6433 (from memory): what is named stands at its name or is led to it. Bays of rooms 1 and 3 are too
  // narrow for the words.
  int plates = 0;
  for (const unsigned seed : {1u, 3u}) {
    const Drawn d = drawn(job::read(sample::random_room(seed), "random.toml"), false);
    for (const job::Fixture& fixture : d.model->job.fixtures) {
      const Sheet& sheet = d.sheet(std::string{"wall-"} + job::name_of(fixture.wall));
      const bool back = fixture.wall == job::Side::back;
      const double way = fixture.wall == job::Side::left ? -1 : 1,
                   x = (back ? 0 : -way * d.model->job.alcove.depth.in_mm()) + way * fixture.along.in_mm(),
                   z = fixture.height.in_mm(), w = fixture.width.in_mm() / 2, h = fixture.tall.in_mm() / 2;
      const std::string along = number_of(fixture.along.in_mm(), d.model->job.is_metric()) + " along";
      const auto name = std::find_if(sheet.texts.begin(), sheet.texts.end(), [&](const Text& text) {
        return text.words == along || text.words == fixture.name + ", " + along;
      });
      ASSERT_NE(name, sheet.texts.end()) << seed << " " << fixture.name;
      const Box box = box_of(*name);
      const double near = 2 * name->height;
      const bool at_it =
          box.x0 < x + w + near && box.x1 > x - w - near && box.y0 < z + h + near && box.y1 > z - h - near;
      const bool led = std::any_of(sheet.lines.begin(), sheet.lines.end(), [&](const Line& line) {
        return line.kind == LineKind::dimension && std::abs(line.to.x - x) < w && std::abs(line.to.y - z) < h;
      });
      EXPECT_TRUE(at_it || led) << seed << " " << fixture.name;
      ++plates;
    }
  }
  EXPECT_GE(plates, 4);
}

TEST(Template, TakesNoTileMoreForTheEndsOfItsCross) {
  // Source: by hand: a bore of 5-1/16 in is 129 mm high, one letter page has room for that; with 8 mm of cross at
  // either end it would need 145. One of 9 in, 229 mm, needs two rows, and each tile of it is struck by itself.
  job::Job job = job::read(sample::random_room(90223), "random.toml");
  const auto tiles = [](const Drawn& d) {
    std::vector<const Sheet*> found;
    for (const Sheet& sheet : d.sheets)
      if (sheet.name.rfind("template", 0) == 0) found.push_back(&sheet);
    return found;
  };
  ASSERT_NEAR(job.drain.bore.in_mm(), 5.0625 * 25.4, 0.01);
  EXPECT_EQ(tiles(drawn(job, false)).size(), 1u);
  job.drain.bore = job::Length::mm(9 * 25.4);
  const Drawn large = drawn(job, false);
  EXPECT_GE(tiles(large).size(), 2u);
  for (const Sheet* tile : tiles(large))
    EXPECT_TRUE(std::any_of(tile->texts.begin(), tile->texts.end(), [](const Text& t) { return t.words == "VOID"; }))
        << tile->name;
}

TEST(Plan, NamesNoEdgeThatLiesOnTheBenchsOwn) {
  // Source: by hand: room 90117 has its seat flush with the frame and the base before both, all 12" from the back wall;
  // 2A's seat stands out over its frame and the base's upstand, which end under it.
  const Drawn flush = drawn(job::read(sample::random_room(90117), "random.toml"), false);
  EXPECT_THAT(read_through(flush.sheet("plan")), Not(HasSubstr("base's edge")));
  EXPECT_THAT(notes_of(flush.sheet("plan")), Not(HasSubstr("edges under the bench")));
  const Drawn& over = drawn_demo("tannery-lane-2a");
  EXPECT_THAT(read_through(over.sheet("plan")), HasSubstr("base's edge"));
  EXPECT_THAT(notes_of(over.sheet("plan")), HasSubstr("edges under the bench"));
}

TEST(Plan, SpeaksOfDiagonalsWhereTheyAreDrawn) {
  // Source: the jobs: no left wall stands in room 90407, and diagonals run from one side wall to the other.
  const Drawn open = drawn(job::read(sample::random_room(90407), "random.toml"), false);
  EXPECT_THAT(notes_of(open.sheet("plan")), Not(HasSubstr("diagonals")));
  EXPECT_THAT(notes_of(drawn_demo("tannery-lane-2a").sheet("plan")), HasSubstr("diagonals"));
}

TEST(Origin, WithoutALeftWallIsTheEndOfTheBackOne) {
  // Source: the job: room 90407 has no left wall, so no left stud face; 2A has both.
  const Drawn open = drawn(job::read(sample::random_room(90407), "random.toml"), false);
  for (const Sheet& sheet : open.sheets) {
    EXPECT_THAT(read_through(sheet), Not(HasSubstr("back left corner of the stud"))) << sheet.name;
    EXPECT_THAT(notes_of(sheet), Not(HasSubstr("back left corner of the stud"))) << sheet.name;
  }
  EXPECT_THAT(read_through(open.sheet("cover")), HasSubstr("the back wall's left end, at its stud face"));
  EXPECT_THAT(notes_of(open.sheet("plan")), Not(HasSubstr("joist centres from the left stud face")));
  EXPECT_THAT(read_through(drawn_demo("tannery-lane-2a").sheet("cover")), HasSubstr("back left corner of the stud"));
}

TEST(Falls, SpeaksOfAThresholdWhereThereIsOne) {
  // Source: the jobs: room 90117 is open at its entry, 2A has a threshold.
  const Drawn open = drawn(job::read(sample::random_room(90117), "random.toml"), false);
  ASSERT_TRUE(open.model->job.base.threshold.width.is_zero());
  EXPECT_THAT(notes_of(open.sheet("falls")), Not(HasSubstr("threshold")));
  EXPECT_THAT(notes_of(drawn_demo("tannery-lane-2a").sheet("falls")), HasSubstr("of the threshold its width"));
}

TEST(Pieces, OutOfSquareAreToldByRiseOverRun) {
  // Source: by hand: tan(1.2 deg) * 3-1/2" is 0.0733", on the tape 1/16.
  takeoff::CutRow cut;
  cut.mark = "A", cut.stock = "2x4", cut.width_mm = 88.9, cut.length_mm = 508, cut.short_mm = 508 - 25.4 / 16;
  cut.ends = "0.0 and 1.2 deg from square", cut.end_deg = {0, 1.2};
  EXPECT_EQ(ends_of(cut, false),
            "square, other end 1.2 deg from square, 1/16 over 3-1/2, long point 20, short point 19-15/16");
  cut.ends = "1.2 and 0.0 deg from square", cut.end_deg = {1.2, 0};
  EXPECT_EQ(ends_of(cut), "1.2 deg from square, other end square");
}

TEST(Pieces, RiseByTheAngleTheyAreCutAtAndNotAsItIsPrinted) {
  // Source: by hand: tan(1.149 deg) * 11-1/4" is 0.2256", 3.61 sixteenths; by the 1.1 deg of the list it would be
  // 0.2160", 3.46 of them.
  takeoff::CutRow cut;
  cut.mark = "A", cut.stock = "2x12", cut.width_mm = 11.25 * 25.4, cut.length_mm = 508, cut.short_mm = 508;
  cut.ends = "0.0 and 1.1 deg from square", cut.end_deg = {0, 1.149};
  EXPECT_EQ(ends_of(cut, false), "square, other end 1.1 deg from square, 1/4 over 11-1/4");
}

}  // namespace
}  // namespace fallwright::drawing
