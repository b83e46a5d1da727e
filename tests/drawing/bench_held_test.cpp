// While a check of its bench fails, nobody builds it, cuts for it or buys for it by the set; what does not hang on that
// is told as ever.
#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/steps.hpp"
#include "drawing/views.hpp"
#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

using testing::HasSubstr;

bool is_failing(const Drawn& d, const std::string& id) {
  return std::any_of(d.judgement.results.begin(), d.judgement.results.end(),
                     [&](const rules::Result& r) { return r.id == id && r.outcome == rules::Outcome::fail; });
}

/// What the buy list says of how much of a thing is carried.
std::string to_carry_of(const Drawn& d, const std::string& what) {
  const auto& texts = d.sheet("buy").texts;
  const auto at = std::find_if(texts.begin(), texts.end(), [&](const Text& t) { return t.words == what; });
  return at == texts.begin() || at == texts.end() ? "" : std::prev(at)->words;
}

Step step_that(const Drawn& d, const char* says) {
  for (const Step& step : steps_of(d.model->job, {d.facts, d.cuts, {}, d.rows, d.judgement}))
    if (step.what.find(says) != std::string::npos) return step;
  return {};
}

Step frame_step(const Drawn& d) {
  return step_that(d, "Build the bench frame");
}

long count_of(const Sheet& sheet, const std::string& words) {
  return std::count_if(sheet.texts.begin(), sheet.texts.end(), [&](const Text& t) { return t.words == words; });
}

constexpr const char *built = "DO NOT BUILD THE BENCH FRAME: A CHECK OF IT FAILS",
                     *fastened = "DO NOT FASTEN THE BENCH FRAME: A CHECK OF ITS FASTENING FAILS",
                     *sawn = "DO NOT CUT FOR THE BENCH: A CHECK OF ITS FRAME FAILS", *held = "HOLD, see note";

TEST(BenchHeld, ADeckThatBreaksHoldsTheFrameItsPiecesAndWhatIsBoughtForIt) {
  // Source: by hand: 250 lbf in the middle of 14-1/2" of clear span between joists 16" apart, on panel of 3/8", bend it
  // with 250 * 14.5 / 5 = 725 in-lbf, over 12" of it 12 * 0.375^2 / 6 = 0.28 in3: 2600 psi, past any panel's strength.
  for (const job::PaperSize paper : {job::PaperSize::tabloid, job::PaperSize::letter}) {
    job::Job job = demo("tannery-lane-2a");
    job.drawings.paper = paper;
    job.bench->frame.deck = job::Length::mm(3. / 8 * 25.4);
    const Drawn d = drawn(job, false);
    ASSERT_TRUE(is_failing(d, "load.seat-strength"));
    int of_machines = 0;
    for (const Sheet& sheet : d.sheets) {
      const auto cut = std::find_if(d.cuts.begin(), d.cuts.end(), [&](const takeoff::CutRow& c) {
        return sheet.name == "piece-" + c.mark && c.part_ids.front().rfind("bench-frame/", 0) == 0;
      });
      const bool machine = cut != d.cuts.end();
      of_machines += machine;
      const auto rejected = std::count_if(sheet.lines.begin(), sheet.lines.end(),
                                          [](const Line& line) { return line.kind == LineKind::rejected; });
      if (machine) {
        EXPECT_TRUE(sheet.cuts.empty()) << sheet.name << ": no machine follows what is void";
        EXPECT_GE(rejected, 6) << sheet.name << ": four edges, two diagonals";
      }
      if (machine || sheet.name == "cuts-shapes") {
        EXPECT_EQ(count_of(sheet, "VOID"), 1) << sheet.name << ": the deck";
        EXPECT_GE(rejected, 2) << sheet.name;
      }
      EXPECT_EQ(read_through(sheet).find(sawn) != std::string::npos && sheet.page.paper.width_mm == 0, machine)
          << sheet.name;
      const bool frame = sheet.name == "bench-plan" || sheet.name == "bench-front" || sheet.name == "bench-side" ||
                         sheet.name == "bench-section" || sheet.name == "bench-wall" || sheet.name == "bench-joints" ||
                         sheet.name.rfind("schedules", 0) == 0 || sheet.name == "assembly" ||
                         sheet.name == "exploded" || sheet.name == "steps";
      const bool pieces = sheet.name.rfind("cuts", 0) == 0 || sheet.name.rfind("bench-profile", 0) == 0 ||
                          sheet.name.rfind("sticks", 0) == 0 || machine;
      EXPECT_EQ(std::count(sheet.holds.begin(), sheet.holds.end(), built), frame) << sheet.name;
      EXPECT_EQ(std::count(sheet.holds.begin(), sheet.holds.end(), sawn), pieces) << sheet.name;
    }
    EXPECT_GE(of_machines, 1) << "its deck";
    const Step step = frame_step(d);
    EXPECT_TRUE(step.hold);
    EXPECT_THAT(step.what, HasSubstr("HOLD until the bench is settled"));
    EXPECT_EQ(step.measure, "no number is given: the check 'bench carries a person' fails");
    for (const char* item : {"fasteners, bench at the wall", "fasteners, bench joists", "fasteners, bench rail",
                             "screws, deck", "fasteners, framing", "deck sheet 3/8\", plywood", "2x4"})
      EXPECT_EQ(to_carry_of(d, item), held) << item;
    for (const char* on_it : {"Before the seat block", "Adhesive on every face", "Flash the seat block's own"}) {
      const Step seat = step_that(d, on_it);
      EXPECT_TRUE(seat.hold) << on_it;
      EXPECT_EQ(seat.measure, "no number is given: the check 'bench carries a person' fails") << on_it;
    }
    for (const char* item : {"shower base", "seat block", "construction adhesive"})
      EXPECT_NE(to_carry_of(d, item), held) << item << " is the same on another frame";
  }
}

TEST(BenchHeld, ASeatThatFallsWronglyHoldsItsBlockAndNotItsFrame) {
  // Source: by hand: 2 in/ft is steeper than 1/2, level is less than 1/8; the block's foot is level on the same frame.
  for (const double in_per_ft : {2., 0.}) {
    job::Job job = demo("tannery-lane-2a");
    job.bench->seat_fall = job::Fall::ratio(in_per_ft / 12);
    const Drawn d = drawn(job, false);
    ASSERT_TRUE(is_failing(d, in_per_ft > 0 ? "seat.fall-greatest" : "seat.fall-least"));
    const std::string why = std::string{"no number is given: the check '"} +
                            (in_per_ft > 0 ? "seat is not too steep" : "seat falls toward the base") + "' fails";
    for (const char* on_it : {"Before the seat block", "Adhesive on every face", "Flash the seat block's own"}) {
      const Step step = step_that(d, on_it);
      EXPECT_TRUE(step.hold) << on_it;
      EXPECT_THAT(step.what, HasSubstr("HOLD until the seat block is settled")) << on_it;
      EXPECT_EQ(step.measure, why) << on_it;
    }
    for (const char* item : {"seat block", "construction adhesive"}) EXPECT_EQ(to_carry_of(d, item), held) << item;
    EXPECT_NE(to_carry_of(d, "2x4"), held);
    EXPECT_FALSE(frame_step(d).hold) << "the same frame under another block";
    EXPECT_NE(read_through(d.sheet("buy")).find("HOLD the seat block and its adhesive: '"), std::string::npos);
  }
}

TEST(BenchHeld, TheStepOfTheSeatTellsWhichWayItLeans) {
  // Source: by hand: with no fall asked for a seat may lie level; one that falls away has its back lower. Its front
  // edge stands as high as was asked for.
  for (const auto& [in_per_ft, words] : {std::pair{0.25, ", back higher"}, {0., ", level"}, {-0.25, ", back lower"}}) {
    job::Job job = demo("tannery-lane-2a");
    job.bench->seat_fall = job::Fall::ratio(in_per_ft / 12);
    Drawn d = drawn(job, false);
    for (rules::Result& r : d.judgement.results)
      if (r.outcome == rules::Outcome::fail) r.outcome = rules::Outcome::caution;
    EXPECT_THAT(step_that(d, "Adhesive on every face").measure,
                testing::EndsWith(std::string{"front edge 18\" above the datum"} + words));
  }
}

TEST(BenchHeld, WhatIsDrawnOfAFrameThatFailsIsStruckOut) {
  // Source: the same deck of 3/8" as above; each view and each tile by itself, as a framer is handed one of them.
  job::Job job = demo("tannery-lane-2a");
  const Drawn sound = drawn(job, false);
  job.bench->frame.deck = job::Length::mm(3. / 8 * 25.4);
  const Drawn d = drawn(job, false);
  int tiles = 0, held_pieces = 0, of_bench = 0;
  for (const Sheet& sheet : d.sheets) {
    if (sheet.name.rfind("bench-profile", 0) == 0) {
      ++tiles;
      EXPECT_GE(count_of(sheet, "VOID"), 1) << sheet.name;
    }
    if (sheet.name.rfind("sticks", 0) != 0) continue;
    for (const takeoff::CutRow& cut : d.cuts) {
      const long waits = count_of(sheet, cut.mark + " HOLD");
      held_pieces += static_cast<int>(waits);
      EXPECT_TRUE(cut.hold || waits == 0) << cut.mark;
      EXPECT_TRUE(!cut.hold || count_of(sheet, cut.mark + "  " + number_of(cut.length_mm, false)) == 0) << cut.mark;
    }
  }
  for (const takeoff::CutRow& cut : d.cuts)
    if (cut.hold && !cut.sheet) ++of_bench;
  EXPECT_GE(tiles, 4);
  EXPECT_GE(held_pieces, of_bench);
  EXPECT_GE(of_bench, 3) << "studs, joists and what runs along";
  for (const char* view : {"bench-plan", "bench-front", "bench-side"}) EXPECT_EQ(count_of(d.sheet(view), "VOID"), 1);
  EXPECT_GE(count_of(d.sheet("bench-section"), "VOID"), 3) << "the section and its first two joints";
  for (const Sheet& sheet : sound.sheets)
    EXPECT_TRUE(sheet.name.rfind("bench-", 0) != 0 || count_of(sheet, "VOID") == 0) << sheet.name;
}

TEST(BenchHeld, ACleatThatIsHeldTooWeaklyHoldsTheFrameAndItsFastenersAlone) {
  // Source: by hand: one 16d in each stud bears about 110 lbf (NDS 12.3, from memory) of the 250 lbf of a person; more
  // of them mend it, and no piece is cut otherwise for that.
  job::Job job = demo("tannery-lane-2a");
  job.bench->frame.fasteners_at_stud = 1;
  const Drawn d = drawn(job, false);
  ASSERT_TRUE(is_failing(d, "load.seat-cleat"));
  ASSERT_FALSE(is_failing(d, "load.seat-strength"));
  EXPECT_THAT(d.sheet("bench-plan").holds, testing::ElementsAre(fastened));
  for (const Sheet& sheet : d.sheets)
    EXPECT_EQ(std::count(sheet.holds.begin(), sheet.holds.end(), sawn) + count_of(sheet, "VOID"), 0) << sheet.name;
  EXPECT_EQ(count_of(d.sheet("bench-plan"), "HOLD: 'bench holds at the wall' fails"), 1) << "one row of its fastening";
  EXPECT_TRUE(frame_step(d).hold);
  EXPECT_THAT(frame_step(d).measure,
              testing::AllOf(HasSubstr("the frame's fastening waits: 'bench holds at the wall' fails"),
                             HasSubstr("deck's top 16-3/4\"")));
  const Step seat = step_that(d, "Adhesive on every face");
  EXPECT_TRUE(seat.hold) << "it stands on that frame";
  EXPECT_THAT(seat.measure, testing::AllOf(HasSubstr("front edge "), HasSubstr("the frame's fastening waits")));
  EXPECT_EQ(to_carry_of(d, "fasteners, bench at the wall"), held);
  EXPECT_NE(to_carry_of(d, "2x4"), held);
  EXPECT_FALSE(frame_step(drawn_demo("tannery-lane-2a")).hold) << "the same bench with four in each stud";
}

TEST(BenchHeld, ADrainIsNoSoonerBoughtThanItsBase) {
  // Source: the judgement: 2B's drain has to move; 2A is the same room without.
  EXPECT_EQ(to_carry_of(drawn_demo("tannery-lane-2b"), "drain with its grate"), held);
  EXPECT_EQ(to_carry_of(drawn_demo("tannery-lane-2a"), "drain with its grate"), "1 piece");
  for (const std::string& note : drawn_demo("tannery-lane-2b").sheet("buy").notes)
    EXPECT_EQ(note.find("first: drain"), std::string::npos) << note;
}

TEST(Reserve, OfAMoveIsToldWhereverItIs) {
  // Source: the advice itself: its first clause is told with what following it breaks, or not at all.
  const Drawn plain = drawn_demo("tannery-lane-2a");
  rules::Judgement judgement = plain.judgement;
  const std::string reserve = "; but with a drain 491 mm from the base's left edge (drain.from_left) this fails: 'x y'";
  for (rules::Result& r : judgement.results)
    if (r.id == "drain.bore-clear-of-joists") {
      r.outcome = rules::Outcome::fail;
      r.advice = "a base made to order: move the drain 85 mm to the left; a bought base: it stays" + reserve;
      r.reserve = reserve;
    }
  int told = 0;
  for (const Sheet& sheet : draw(*plain.model, {plain.facts, plain.cuts, {}, {}, judgement})) {
    std::string notes = read_through(sheet);
    for (const std::string& note : sheet.notes) notes += note + " ";
    const std::size_t move = notes.find("ove the drain 85 mm");
    if (move == std::string::npos) continue;
    EXPECT_NE(notes.find("from the base's left edge this fails: 'x y'"), std::string::npos) << sheet.name;
    EXPECT_EQ(notes.find("from_left"), std::string::npos) << sheet.name;
    ++told;
  }
  EXPECT_GE(told, 3) << "plan, drain and template at least";
}

TEST(Cover, NamesTheSheetsOnWhichTheOtherFailuresStand) {
  // Source: the inspection sheets of the same set: those with a row that fails.
  const Drawn d = drawn(job::read(sample::random_room(70008), "random.toml"), false);
  std::string codes;
  for (const Sheet& sheet : d.sheets)
    if (sheet.name.rfind("inspection", 0) == 0 && read_through(sheet).find(" FAILS ") != std::string::npos)
      codes += (codes.empty() ? "" : ", ") + sheet.code;
  EXPECT_THAT(read_through(d.sheet("cover")), HasSubstr(" more: see " + codes));
}

TEST(Cover, ListsAllThatFailsWhereThePageHasRoom) {
  // Source: the judgement: seven checks of this room fail, and half of its cover was free.
  const Drawn d = drawn(job::read(sample::random_room(90407), "random.toml"), false);
  const std::string cover = read_through(d.sheet("cover"));
  int failing = 0;
  for (const rules::Result& r : d.judgement.results) {
    if (r.outcome != rules::Outcome::fail) continue;
    ++failing;
    EXPECT_THAT(cover, HasSubstr("- " + r.title.substr(0, 20)));
  }
  EXPECT_EQ(failing, 7);
  EXPECT_THAT(cover, testing::Not(HasSubstr(" more: see ")));
}

TEST(Walls, AFixtureWithoutTimberBehindItIsStruckOut) {
  // Source: by hand: its plate of 2-13/16" reaches from 25-5/16 to 28-1/8 along, of which the stud there, 1-1/2" thick
  // with its centre at 27-7/16, backs what lies past 26-11/16: 1-7/16", 51 %. No row of blocking is at its height.
  const Drawn d = drawn(job::read(sample::random_room(90117), "random.toml"), false);
  const job::Fixture& fixture = d.model->job.fixtures.front();
  const Sheet& wall = d.sheet(std::string{"wall-"} + job::name_of(fixture.wall));
  EXPECT_THAT(wall.holds, testing::Contains("SET BLOCKING BEHIND FIXTURE 1"));
  const double way = fixture.wall == job::Side::left ? -1 : 1,
               x = -way * d.model->job.alcove.depth.in_mm() + way * fixture.along.in_mm(), z = fixture.height.in_mm(),
               w = fixture.width.in_mm() / 2, h = fixture.tall.in_mm() / 2;
  const auto in_plate = [&](const Line& line) {
    return std::abs(line.from.x - x) < w + 0.01 && std::abs(line.to.x - x) < w + 0.01 &&
           std::abs(line.from.y - z) < h + 0.01 && std::abs(line.to.y - z) < h + 0.01;
  };
  int diagonals = 0, dashes = 0;
  for (const Line& line : wall.lines) {
    if (!in_plate(line)) continue;
    diagonals += line.kind == LineKind::rejected;
    if (line.kind != LineKind::phantom) continue;
    ++dashes;
    EXPECT_LT(std::hypot(line.to.x - line.from.x, line.to.y - line.from.y), 0.8 * w) << "no side is one full line";
  }
  EXPECT_EQ(diagonals, 2);
  EXPECT_EQ(dashes, 4 * 4) << "dash, two dots, dash on each side";
  for (const Sheet& sheet : drawn_demo("tannery-lane-2a").sheets)
    if (sheet.name.rfind("wall-", 0) == 0) {
      EXPECT_THAT(sheet.holds, testing::IsEmpty()) << sheet.name << ": all of its fixtures are backed";
    }
}

TEST(Bed, ItsExtremesAreMarkedByTwoFullStrokes) {
  // Source: ISO 128-2 (from memory): a short stroke in dashes comes out as a dot.
  const Drawn& d = drawn_demo("tannery-lane-2a");
  const Sheet& bed = d.sheet("bed");
  for (const facts::Point& at : {d.facts.bed.least_at_mm, d.facts.bed.greatest_at_mm}) {
    int strokes = 0;
    for (const Line& line : bed.lines)
      strokes += line.kind == LineKind::outline && std::abs((line.from.x + line.to.x) / 2 - at[0]) < 1e-6 &&
                 std::abs((line.from.y + line.to.y) / 2 - at[1]) < 1e-6 &&
                 std::abs(std::abs(line.to.x - line.from.x) - std::abs(line.to.y - line.from.y)) < 1e-6;
    EXPECT_EQ(strokes, 2);
  }
}

TEST(Waste, ThatStandsIsToldApartFromTheBasesDrain) {
  // Source: the job file: the waste was read 26-1/8 in from the left stud face; the base's drain comes down at 26-3/16.
  const Drawn& d = drawn_demo("chandlers-row-9");
  const std::string drain = read_through(d.sheet("drain")), plan = read_through(d.sheet("plan"));
  EXPECT_THAT(drain, HasSubstr("26-3/16   drain of the base from the left stud face (waste as read 26-1/8)"));
  EXPECT_EQ(drain.find("bore centre"), std::string::npos);
  EXPECT_THAT(plan, HasSubstr("studs to drain"));
  for (const Sheet& sheet : d.sheets) EXPECT_EQ(sheet.title.find("Bore template"), std::string::npos) << sheet.name;
}

}  // namespace
}  // namespace fallwright::drawing
