// What nobody said or read is told as that where it is worked to: what holds plates, which pipe and trap there is.
#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/inspection.hpp"
#include "outside/drawn.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "support/random_room.hpp"

namespace fallwright::drawing {
namespace {

using testing::AllOf, testing::HasSubstr, testing::Not;

/// A sheet's notes in one line.
std::string all_notes(const Sheet& sheet) {
  std::string all;
  for (const std::string& note : sheet.notes) all += note + " ";
  return all;
}

/// All that sheets say whose names begin so.
std::string inspected(const Drawn& d, const std::string& begins) {
  std::string all;
  for (const Sheet& sheet : d.sheets)
    if (sheet.name.rfind(begins, 0) == 0) all += read_through(sheet);
  return all;
}

TEST(Plates, AreHeldAsNoKeySaysAndNeverByTheirEnds) {
  // Source: by hand, from the cut list: the back wall has 8 studs and 6 + 2 + 2 blocks, 18 sticks of 2 x 2, 72; its two
  // plates are held along their length. The side walls of a room that stands already have blocks alone.
  const Sheet& framed = drawn_demo("tannery-lane-2a").sheet("wall-back");
  EXPECT_THAT(read_through(framed), AllOf(HasSubstr("18 sticks"), HasSubstr(" 72 ")));
  EXPECT_THAT(all_notes(framed),
              HasSubstr("Sole plate to floor, top plate to what is above, corners to the next wall"));
  EXPECT_THAT(all_notes(drawn_demo("tannery-lane-5c").sheet("wall-left")), HasSubstr("Sole plate to slab by anchors"));
  const Drawn apart = drawn(demo_on("tannery-lane-2a", job::PaperSize::letter), false);
  const std::string words = inspected(apart, "schedules");
  EXPECT_THAT(words,
              AllOf(HasSubstr("sole plate to floor"), HasSubstr("top plate to what is"), HasSubstr("not counted")));
  const Drawn& old = drawn_demo("ferry-steps-3");
  EXPECT_THAT(all_notes(old.sheet("wall-back")), Not(HasSubstr("ole plate to")));
  EXPECT_THAT(read_through(old.sheet("wall-back")), HasSubstr("5 sticks"));
}

TEST(Outlet, TellsWhichPipeAndWhatOfItNobodyRead) {
  // Source: the job's own numbers: an outlet of 2 in, and a trap of which the side and the vent are not.
  job::Job job = demo("tannery-lane-2a");
  const std::string none = all_notes(drawn_demo("tannery-lane-2a").sheet("drain"));
  EXPECT_THAT(none, HasSubstr("Not read, so no sheet tells of it: trap, arm, vent."));
  EXPECT_THAT(read_through(drawn_demo("tannery-lane-2a").sheet("order-of-work")),
              HasSubstr("Not read: trap, arm, vent."));
  job.trap.emplace();
  job.trap->pipe = job::Length::inches(2), job.trap->arm = job::Length::inches(40);
  job.trap->hub = job::Length::inches(-8), job.trap->fall = job::Fall::inches_per_foot(0.25);
  const std::string some = all_notes(drawn(job, false).sheet("drain"));
  EXPECT_THAT(some, AllOf(HasSubstr("Drain's outlet 2\" inside. Below it: pipe 2 in"), HasSubstr("1/4 in/ft"),
                          HasSubstr("40\" from weir to vent"), HasSubstr("tells of it: arm's side, vent.")));
}

TEST(Unsaid, NobodyBoresOrBuysByWhatIsAssumed) {
  // Source: none: a bore and an outlet that the job leaves out are asked for by the step, the template and the list.
  std::string text = diag::read_text(PROJECT_DIR "/params/tannery-lane-2a.toml");
  for (const char* key : {"\nbore = ", "\noutlet = "}) {
    const std::size_t at = text.find(key);
    ASSERT_NE(at, std::string::npos) << key;
    text.erase(at, text.find('\n', at + 1) - at);
  }
  job::Job job = job::read(text, "unsaid.toml");
  job.name = "unsaid";  // alike in every number
  const Drawn d = drawn(job, false);
  EXPECT_THAT(all_notes(d.sheet("template")), HasSubstr("assumed: measure the drain's body first. Cross"));
  EXPECT_THAT(read_through(d.sheet("order-of-work")), HasSubstr("assumed: measure the"));
  EXPECT_THAT(read_through(d.sheet("buy")), HasSubstr("outlet not read: measure it"));
  EXPECT_THAT(read_through(drawn_demo("tannery-lane-2a").sheet("order-of-work")), Not(HasSubstr("assumed")));
}

TEST(Unsaid, WhatHoldsTheBackingIsToldWithTheOthers) {
  // Source: none: each row of the cut list that waits is named in the note that says why.
  const Sheet& cuts = drawn_demo("ferry-steps-3").sheet("cuts");
  EXPECT_THAT(all_notes(cuts), testing::ContainsRegex("HOLD [^:]*AE: hangs on the base"));
}

/// A table's row as it is read, from the cell that says `first`.
std::string row_at(const Sheet& sheet, const std::string& first) {
  const auto begin =
      std::find_if(sheet.texts.begin(), sheet.texts.end(), [&](const Text& t) { return t.words == first; });
  std::string row;
  for (auto cell = begin; cell != sheet.texts.end() && std::abs(cell->at.y - begin->at.y) < 1e-6; ++cell)
    row += (row.empty() ? "" : " | ") + cell->words;
  return row;
}

TEST(Care, IsToldWithWhatToDoOncePerRow) {
  // Source: the judgement, which sheets print: each that fails, asks for care or waits has its row there, by the number
  // it has on the inspection's own sheets.
  const Drawn& d = drawn_demo("ferry-steps-3");
  const std::string told = inspected(d, "inspection-care");
  for (const rules::Result& r : d.judgement.results)
    if (r.outcome == rules::Outcome::fail || r.outcome == rules::Outcome::caution) {
      EXPECT_THAT(told, HasSubstr(r.title.substr(0, 20))) << r.id;
    }
  EXPECT_THAT(told, HasSubstr("grind or plane the hump down by 1/16\""));
  EXPECT_THAT(told, Not(HasSubstr("bench.frame"))) << "no key of the job file";
  EXPECT_THAT(told, Not(HasSubstr("[trap]")));
  std::string number;  // of the hump's row
  for (const Sheet& sheet : d.sheets)
    if (sheet.name.rfind("inspection", 0) == 0 && sheet.name.rfind("inspection-care", 0) != 0)
      for (std::size_t i = 1; i < sheet.texts.size(); ++i)
        if (sheet.texts[i].words.rfind("no hump lifts the base", 0) == 0) number = sheet.texts[i - 1].words;
  ASSERT_FALSE(number.empty());
  const auto care = std::find_if(d.sheets.begin(), d.sheets.end(),
                                 [](const Sheet& sheet) { return sheet.name == "inspection-care"; });
  EXPECT_THAT(row_at(*care, number), HasSubstr("no hump lifts the base"));
}

Findings findings_of(const Drawn& d) {
  return {d.facts, d.cuts, d.plan, d.rows, d.judgement};
}

TEST(DrawnOn, KnowsEveryCheckByItsPlaceOrAsOneThatHasNone) {
  // Source: the list of checks: each has a view, hangs on a wall, or is of what no sheet draws, and one of these alone.
  const auto& none = checks_without_view();
  for (const rules::Rule& rule : rules::all_rules())
    EXPECT_EQ(1, static_cast<int>(views_of_checks().count(rule.id) + places_of_checks().count(rule.id)) +
                     static_cast<int>(std::count(none.begin(), none.end(), rule.id)) +
                     (is_of_fixtures(rule.id) || is_of_upstands(rule.id)))
        << rule.id;
}

TEST(DrawnOn, LeadsToWhereWhatFailsIsStruckOut) {
  // Source: by hand: the bar of that room reaches into the right wall's tile, and its valve stands on its ledge; where
  // the drain lies under tile its bore is VOID on the plan and in the section.
  const auto of_case = [](const char* name) {
    const std::string file = std::string{PROJECT_DIR} + "/tests/cases/" + name + ".toml";
    return drawn(job::read(diag::read_text(file), file), false);
  };
  const Drawn plates = of_case("fixtures-in-tile-and-on-each-other");
  const rules::Result& clear = *rules::find(plates.judgement.results, "fixture.clear");
  ASSERT_EQ(clear.outcome, rules::Outcome::fail);
  int struck = 0;
  const std::string on = drawn_on(clear, findings_of(plates), plates.sheets);
  for (const char* wall : {"wall-back", "wall-left", "wall-right"}) {
    const bool has = read_through(plates.sheet(wall)).find("VOID") != std::string::npos;
    struck += has;
    EXPECT_EQ(has, on.find(std::string{"{"} + wall + "}") != std::string::npos) << wall << " " << on;
    if (!has) continue;
    EXPECT_THAT(inspected(plates, "inspection"), HasSubstr(plates.sheet(wall).code)) << wall;
  }
  EXPECT_GT(struck, 0);
  const Drawn tiled = of_case("tile-over-the-drain");
  const rules::Result& finish = *rules::find(tiled.judgement.results, "drain.clear-of-finish");
  ASSERT_EQ(finish.outcome, rules::Outcome::fail);
  EXPECT_EQ(drawn_on(finish, findings_of(tiled), tiled.sheets), "{drain}");
  for (const char* sheet : {"plan", "drain"}) EXPECT_THAT(read_through(tiled.sheet(sheet)), HasSubstr("VOID")) << sheet;
}

TEST(DrawnOn, StrikesADrainUnderTileThatStaysWhereItIsMade) {
  // Source: by hand: 4-3/8 from the stud face, half of 3-3/8 wide, behind 4 in of wall: the finish lies over it. The
  // waste stands clear of all joists, and no other place is bored.
  std::string text = diag::read_text(std::string{PROJECT_DIR} + "/params/chandlers-row-7.toml");
  for (const auto& [old, now] : {std::pair{"waste_from_left = \"18-1/8 in\"", "waste_from_left = \"4-3/8 in\""},
                                 {"\nfrom_left = \"17-15/16 in\"", "\nfrom_left = \"4-3/16 in\""},
                                 {"first = \"7 in\"", "first = \"13 in\""}})
    text.replace(text.find(old), std::string{old}.size(), now);
  const Drawn d = drawn(job::read(text + "\n[survey]\nfinish = \"4 in\"\n", "under-tile.toml"), false);
  ASSERT_EQ(rules::find(d.judgement.results, "drain.clear-of-finish")->outcome, rules::Outcome::fail);
  EXPECT_THAT(read_through(d.sheet("plan")), HasSubstr("VOID: tile over the drain"));
  EXPECT_THAT(read_through(drawn_demo("chandlers-row-7").sheet("plan")), Not(HasSubstr("VOID")));
}

TEST(DrawnOn, NamesSheetsThatTheSetHas) {
  // Source: the set itself: of each check that has a view the sheet that is named is one of the set, on either paper;
  // and every check that is named is one.
  for (const char* paper : {"tabloid", "letter"})
    for (const char* name : {"tannery-lane-2a", "coopers-yard-4"}) {
      const Drawn d = drawn(demo_on(name, paper[0] == 't' ? job::PaperSize::tabloid : job::PaperSize::letter), false);
      auto known = views_of_checks();
      known.insert(places_of_checks().begin(), places_of_checks().end());
      for (const auto& [check, names] : known) {
        EXPECT_NE(rules::find(d.judgement.results, check), nullptr) << check;
        const std::string on = drawn_on(*rules::find(d.judgement.results, check), findings_of(d), d.sheets);
        if (!on.empty()) {
          EXPECT_TRUE(std::any_of(d.sheets.begin(), d.sheets.end(),
                                  [&](const Sheet& sheet) { return "{" + sheet.name + "}" == on; }))
              << check << " " << on;
        }
      }
      EXPECT_THAT(inspected(d, "inspection"), Not(HasSubstr("{"))) << "no code is left open";
    }
}

TEST(Readings, OfTheRoomAreAllToldByTheirPlace) {
  // Source: the job file: two people's right side, a width at 48, four plumbs, twelve spots and a hump, three walls'
  // studs, board and finish; spots above the lowest of them.
  const std::string told = inspected(drawn_demo("ferry-steps-3"), "inspection");
  for (const char* words : {"read 36-3/16\", 36-1/4\",", "width 18\" from the back, 48\"",
                            "left wall, 18\" from its back end", "away from the room", "within 1/32\"",
                            "floor 22\" from the entry, at 52\"", "5/16\" above the lowest", "stud face to finished"})
    EXPECT_THAT(told, HasSubstr(words));
  const Sheet& steps = drawn_demo("ferry-steps-3").sheet("order-of-work");
  EXPECT_THAT(read_through(steps), HasSubstr("hump 5/32\" at 52\"")) << "where, and how much";
}

TEST(FloodForm, HasLinesForWhoAndWhenAndAllowsNoDrop) {
  // Source: common practice, no source: a test that drops fails; who saw it, and when, is written beside it.
  const std::string told = read_through(drawn_demo("tannery-lane-2a").sheet("inspection"));
  for (const char* words : {"drop allowed: none", "tested by", "on the day"}) EXPECT_THAT(told, HasSubstr(words));
}

TEST(Backing, BoardsAreOnTheCutListAndSaidToBeHeld) {
  // Source: by hand: between four front studs three boards of 10 x 6.
  const Drawn& d = drawn_demo("tannery-lane-2a");
  EXPECT_THAT(read_through(d.sheet("cuts")), HasSubstr("10 x 6"));
  EXPECT_THAT(read_through(d.sheet("bench-plan")), HasSubstr("on cleats at the studs"));
}

TEST(Widths, OfAnUnsettledDrainAreItsBodysAlone) {
  // Source: by hand: the bore of this room cuts a joist and is struck out; no width of it stands on the sheet.
  EXPECT_THAT(all_notes(drawn_demo("ferry-steps-3").sheet("drain")), HasSubstr("width: the drain's body."));
  EXPECT_THAT(all_notes(drawn_demo("tannery-lane-2a").sheet("drain")),
              HasSubstr("widths: bore, and the drain's body."));
}

TEST(CoverPages, AreAllThereHoweverManyTheIndexTakesWithItself) {
  // Source: by hand: the lines of the cover's own pages fill a page of the index more; what comes after it stays.
  job::Job job = job::read(sample::random_room(1), "random.toml");
  job.drawings.paper = job.is_metric() ? job::PaperSize::a4 : job::PaperSize::letter;
  const Drawn d = drawn(job, false);
  EXPECT_TRUE(
      std::any_of(d.sheets.begin(), d.sheets.end(), [](const Sheet& sheet) { return sheet.name == "cover-legend"; }));
}

TEST(Grain, OfADeckIsOnTheFileThatMachinesCutBy) {
  // Source: by hand: the deck is plywood, its face grain across the joists; a shop that nests would turn it.
  const Drawn& d = drawn_demo("tannery-lane-2a");
  EXPECT_THAT(read_through(d.sheet("piece-J")), HasSubstr("FACE GRAIN"));
  EXPECT_EQ(std::count_if(d.sheet("piece-J").lines.begin(), d.sheet("piece-J").lines.end(),
                          [](const Line& line) { return line.kind == LineKind::text; }),
            6)
      << "an arrow each way, on the layer of its words";
}

TEST(BuyList, SaysWhatAKindOnHoldIsAndGuessesNoPackOfIt) {
  // Source: by hand: 2A names no screws for its upstand, so that nobody knows how many of them a box has.
  const Sheet& list = drawn_demo("tannery-lane-2a").sheet("buy");
  EXPECT_THAT(read_through(list), HasSubstr("kind on HOLD"));
  EXPECT_THAT(read_through(list), Not(testing::ContainsRegex("job does not say[; ]+each")));
  EXPECT_THAT(all_notes(list), HasSubstr("Kind on HOLD: how many is known"));
}

}  // namespace
}  // namespace fallwright::drawing
