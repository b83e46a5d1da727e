// How a base's upstand is held along a wall: its screws, what stands behind them, and what does not.
#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "diag/text_file.hpp"
#include "drawing/clear.hpp"
#include "drawing/order_words.hpp"
#include "drawing/steps.hpp"
#include "drawing/views.hpp"
#include "job/read.hpp"
#include "outside/drawn.hpp"
#include "support/imperial.hpp"

namespace fallwright::drawing {
namespace {

using testing::Contains, testing::HasSubstr, testing::Not;

job::Job job_of_case(const std::string& name) {
  const std::string file = std::string{PROJECT_DIR} + "/tests/cases/" + name + ".toml";
  return job::read(diag::read_text(file), file);
}

/// Heavy crosses that reach from one place to another along a wall.
std::pair<double, double> crossed_out(const Sheet& sheet) {
  std::pair<double, double> reach{1e9, -1e9};
  for (const Line& line : sheet.lines)
    if (line.kind == LineKind::rejected) {
      reach.first = std::min({reach.first, line.from.x, line.to.x});
      reach.second = std::max({reach.second, line.from.x, line.to.x});
    }
  return reach;
}

TEST(Upstand, WithoutTimberBehindItIsStruckOnItsWall) {
  // Source: by hand: studs at 3/4 and 71 in behind a base from 14-3/4 in on: no screw finds timber up to 3/8 in short
  // of the middle of the stud at 71 in; rooms of either hand.
  job::Job job = job_of_case("no-stud-behind-the-upstand");
  const Drawn d = drawn(job, false);
  const Sheet& back = d.sheet("wall-back");
  const auto& hold = *std::find_if(d.facts.holds.begin(), d.facts.holds.end(),
                                   [](const facts::Hold& h) { return h.side == job::Side::back; });
  EXPECT_NEAR(crossed_out(back).first, hold.from_at_mm[0], 1e-6);
  EXPECT_NEAR(crossed_out(back).second, hold.to_at_mm[0], 1e-6);
  EXPECT_NEAR(crossed_out(back).second, 70.625 * in, 1e-6);
  EXPECT_THAT(read_through(back), HasSubstr("5-5/8  VOID: no timber for the upstand's screws"));
  EXPECT_THAT(back.holds, Contains("SET TIMBER BEHIND THE UPSTAND FIRST"));
  for (const char* held : {"wall-left", "wall-right"}) {
    EXPECT_THAT(read_through(d.sheet(held)), Not(HasSubstr("VOID"))) << held;
    EXPECT_THAT(d.sheet(held).holds, Not(Contains("SET TIMBER BEHIND THE UPSTAND FIRST"))) << held;
  }
}

TEST(Upstand, HasItsScrewsHeightAndTheirKindOnHold) {
  // Source: by hand: an edge 5-1/2 in over the datum, screws 1/8 in over that; which screws nobody said. 2A's studs
  // behind the base: at 16, 32, 48, 64 and 71-1/4 in along the back.
  const Drawn d = drawn_demo("tannery-lane-2a");
  for (const char* wall : {"wall-back", "wall-right"})
    EXPECT_THAT(read_through(d.sheet(wall)), HasSubstr("5-1/2  upstand: screws 5-5/8, nothing below")) << wall;
  EXPECT_THAT(read_through(d.sheet("wall-back")), HasSubstr("one at each stud, first to last"));
  EXPECT_THAT(read_through(d.sheet("wall-back")), HasSubstr("kind on HOLD"));
  const std::string order = read_through(d.sheet("order-of-work")) + read_through(d.sheet("order-of-work-2"));
  EXPECT_THAT(order, HasSubstr("upstand's edge 5-1/2\" above the datum, screws 5-5/8\""));
}

TEST(Upstand, IsCutWithTheFurringBehindItsEdge) {
  // Source: by hand: new studs of this room stand 1/4 in behind the base, whose furring is parted over its edge; the
  // stud nearest the back corner is centred 3/4 in off it. Beside the view or on a sheet of its own, alike on either
  // hand; where the base is not settled it is VOID and has no number.
  for (const char* name : {"passes-everything", "bath-floor-above-the-threshold"}) {
    const bool settled = std::string{name} == "passes-everything";
    const Drawn d = drawn(job_of_case(name), false);
    const auto has = [&](const Sheet& sheet) { return read_through(sheet).find("foot piece") != std::string::npos; };
    const auto sheet = std::find_if(d.sheets.begin(), d.sheets.end(),
                                    [&](const Sheet& s) { return s.name.starts_with("wall-right") && has(s); });
    ASSERT_NE(sheet, d.sheets.end()) << name;
    const std::string told = read_through(*sheet);
    EXPECT_THAT(told, HasSubstr("ection D-D, furring at the stud at 3/4"));
    const auto& marks = d.sheet("wall-right").texts;
    EXPECT_EQ(1, std::count_if(marks.begin(), marks.end(),
                               [&](const Text& t) {
                                 return t.words == "D" && t.height > 4.9 * d.sheet("wall-right").page.scale;
                               }))
        << name;
    if (settled) {
      EXPECT_THAT(told, HasSubstr("foot piece L, 3/16 thick"));
      EXPECT_THAT(told, HasSubstr("strip K, 3/16 thick"));
      EXPECT_THAT(told, HasSubstr("upstand's screw, 5-5/8 up"));
      EXPECT_THAT(told, HasSubstr("1/4 gap for foot piece"));
      EXPECT_THAT(told, HasSubstr("foot piece's own staple, first"));
      EXPECT_THAT(told, HasSubstr("joint, 7-1/2 up"));
    } else {
      EXPECT_THAT(told, HasSubstr("VOID"));
      EXPECT_THAT(told, HasSubstr("foot piece L, HOLD"));
      EXPECT_THAT(told, Not(HasSubstr("3/16 thick")));
      EXPECT_THAT(told, Not(HasSubstr("joint, ")));
    }
    EXPECT_FALSE(has(d.sheet("wall-back"))) << "there strips go in with the framing";
  }
}

/// The sheet of a set that has those words; null where none has.
const Sheet* sheet_with(const Drawn& d, const std::string& words, const std::string& prefix) {
  const auto at = std::find_if(d.sheets.begin(), d.sheets.end(), [&](const Sheet& s) {
    return s.name.starts_with(prefix) && read_through(s).find(words) != std::string::npos;
  });
  return at == d.sheets.end() ? nullptr : &*at;
}

TEST(Upstand, IsCutWhereAScrewFindsAStudClearOfTheOther) {
  // Source: by hand: the back upstand is thicker than what a screw keeps from a corner's stud at 3/4 in: of the right
  // wall the next takes one, at 16 in, and three of its four do. There the base is a floor with an edge, not solid.
  const Drawn d = drawn(job_of_case("upstand-thicker-than-the-board"), false);
  const Sheet* cut = sheet_with(d, "foot piece", "wall-right");
  ASSERT_TRUE(cut);
  EXPECT_THAT(read_through(*cut), testing::ContainsRegex("Section D-D, furring at the stud at 16"
                                                         "(, 1:[24] |.*scale 1:[24] )"))
      << "no smaller than 3 in to the foot, beside the wall or on a sheet of its own";
  EXPECT_THAT(read_through(*cut), HasSubstr("3-7/16 over base"));
  for (const char* words : {"none at the stud at 3/4, too near a corner", "staples, in each of 12 shims"})
    EXPECT_TRUE(sheet_with(d, words, "wall-right") || sheet_with(d, words, "schedules")) << words;
}

TEST(Upstand, HasShimsThatCanBeToldApartOnSmallPaperToo) {
  // Source: by hand: 1/8 in is 1.6 mm of paper at 1:2, two edges of 0.7 wide with white between; at 1:4 one black bar.
  // Of the same pieces up to one height the column of heights tells, and no row of lines leads to them.
  job::Job job = job_of_case("blocking-in-a-wall-to-be-framed-out");
  job.drawings.paper = job::PaperSize::letter;
  const Drawn d = drawn(job, false);
  EXPECT_LE(d.sheet("wall-right-furring").page.scale, 2);
  EXPECT_THAT(read_through(d.sheet("wall-right-furring")), HasSubstr("joint, 8 up"));
  const std::string wall = read_through(d.sheet("wall-right"));
  EXPECT_THAT(wall, HasSubstr("8  joint in furring, below it fur G"));
  EXPECT_EQ(wall.find("fur G"), wall.rfind("fur G"));
}

TEST(Upstand, HasFootPiecesUprightBeforeStudsWhoseFeetSlope) {
  // Source: by hand: studs of this room lean by less than 1 in 50 on a floor that slopes, at whose feet a strip's face
  // is the stud's all the same; a bench at the other end has them on the other wall.
  const std::string file = std::string{PROJECT_DIR} + "/params/ferry-steps-3.toml";
  const auto put = [](std::string text, const std::string& old, const std::string& now) {
    return text.replace(text.find(old), old.size(), now);
  };
  const std::string as_is = diag::read_text(file), other = put(put(as_is, "left-end", "right-end"),
                                                               "from_left = \"28 in\"", "from_right = \"28-5/16 in\"");
  for (const std::string& text : {as_is, other}) {
    const Drawn d = drawn(job::read(text, file), false);
    const Sheet* cut = sheet_with(d, "foot piece", text == as_is ? "wall-right" : "wall-left");
    ASSERT_TRUE(cut) << (text == as_is);
    for (const Line& line : cut->lines) {
      const double across = std::abs(line.to.x - line.from.x), up = std::abs(line.to.y - line.from.y);
      if (line.kind != LineKind::section || up < 60) continue;
      EXPECT_LT(across, up / 50) << line.from.x << ", " << line.from.y;
    }
  }
}

TEST(Upstand, HasItsBoardDownOverTheEdge) {
  // Source: by hand: a board stands 3 mm over the screw that goes in over the edge, not on the joint of strip and foot
  // piece, 2 in up.
  const Drawn d = drawn(job_of_case("walls-built-up-three-inches"), false);
  const Sheet* cut = sheet_with(d, "foot piece", "wall-right-furring");
  ASSERT_TRUE(cut);
  double foot = 1e9, screw = -1e9;
  for (const Line& line : cut->lines)
    if (line.kind == LineKind::phantom) foot = std::min({foot, line.from.y, line.to.y});
  for (const Text& text : cut->texts)
    if (text.words.starts_with("upstand's screw")) screw = text.at.y;
  EXPECT_LT(std::abs(foot - screw), 12) << "at the screw's own height, not two inches over it";
}

TEST(Upstand, FurringBeforeABlockIsDrawnAlongItsMiddleAndNotUnderItsMark) {
  // Source: none; asked of it: a strip is drawn where it is set, on the solid, and its block's mark stays legible.
  const Drawn d = drawn(job_of_case("passes-everything"), false);
  const Sheet& wall = d.sheet("wall-right");
  std::vector<double> middles;
  for (const takeoff::CutRow& cut : d.cuts)
    for (const std::string& id : cut.part_ids)
      if (const auto box = parts::box_of(*d.model->find(id)); cut.on_block) middles.push_back((box[2] + box[5]) / 2);
  ASSERT_FALSE(middles.empty());
  int level = 0;
  for (const Line& line : wall.lines) {
    if (line.kind != LineKind::correction || line.from.y != line.to.y) continue;
    ++level;
    EXPECT_TRUE(std::any_of(middles.begin(), middles.end(), [&](double z) { return std::abs(z - line.to.y) < 0.01; }));
    for (const Text& text : wall.texts) EXPECT_FALSE(crosses(line, box_of(text))) << text.words;
  }
  EXPECT_GE(level, 4);
}

TEST(Upstand, WithoutTimberHoldsItsScrewsAndTellsWhatToSet) {
  // Source: by hand: no blocking or stud behind the back upstand of this room: no count of its screws stands on any
  // sheet, and the check's own advice, without keys of a job file, on the wall's sheet and in the order of work.
  const Drawn d = drawn(job_of_case("no-stud-behind-the-upstand"), false);
  const std::string wall = read_through(d.sheet("wall-back"));
  EXPECT_THAT(wall, HasSubstr("HOLD: set timber behind it first"));
  EXPECT_THAT(wall, Not(HasSubstr("one at each stud")));
  EXPECT_THAT(wall, HasSubstr("For the screws of the back upstand: set a row of blocking behind it (at 5-5/8\")"));
  std::string order;
  for (const Sheet& sheet : d.sheets)
    if (sheet.name.starts_with("order-of-work")) order += read_through(sheet);
  EXPECT_THAT(order, HasSubstr("set a row of blocking behind it (at 5-5/8\")"));
  EXPECT_THAT(order, HasSubstr("HOLD a: until timber stands behind the upstand"));
  // Once the mortar is mixed nobody sets any: that step and all after it wait, as those before it do not.
  bool mortar = false;
  for (const Step& step : steps_of(d.model->job, {d.facts, d.cuts, {}, d.rows, d.judgement})) {
    mortar = mortar || step.measure.find("minutes in all") != std::string::npos;
    EXPECT_EQ(step.waits && step.hold, mortar) << step.what;
  }
  EXPECT_TRUE(mortar);
  for (const takeoff::Row& row : d.rows)
    if (row.item == "fasteners, upstands") {
      EXPECT_TRUE(row.hold);
    }
}

TEST(Upstand, HasItsFreeEndMeasuredOnItsWall) {
  // Source: by hand: the last stud stands centred at 60 in and a screw keeps 3/8 in from its edges, so that the last
  // one goes in at 60-3/8; the base ends at 72: 11-5/8 in are free. Nothing of that is struck out.
  job::Job job = job_of_case("no-stud-behind-the-upstand");
  const auto back = std::find_if(job.survey.studs.begin(), job.survey.studs.end(),
                                 [](const survey::Studs& studs) { return studs.wall == job::Side::back; });
  ASSERT_NE(back, job.survey.studs.end());
  back->centres_mm = {0.75 * in, 16 * in, 32 * in, 48 * in, 60 * in};
  const Drawn d = drawn(job, false);
  const std::string wall = read_through(d.sheet("wall-back"));
  EXPECT_THAT(wall, HasSubstr("5-5/8  right end free: stud or block first"));
  EXPECT_THAT(wall, HasSubstr("11-5/8"));
  EXPECT_THAT(wall, Not(HasSubstr("VOID")));
}

TEST(Upstand, LeadsTheMarkOfEachPieceBesideIt) {
  // Source: the cut list: each of its pieces behind the base's edge has its mark on the wall, with a line to it; where
  // all are one piece up to one height, at that height among the wall's: 6 in on a sole plate of 1-1/2.
  const Drawn& apart = drawn_demo("ferry-steps-3");
  const Drawn alike = drawn(job_of_case("passes-everything"), false);
  for (const Drawn* d : {&apart, &alike}) {
    const Sheet& wall = d->sheet("wall-right");
    std::size_t pieces = 0;
    for (const takeoff::CutRow& cut : d->cuts) {
      if (!cut.furring || cut.on_block || cut.turn != facts::Turn::base) continue;
      for (const std::string& id : cut.part_ids) {
        if (part(d->facts, id).which.family.wall != job::Side::right) continue;
        const double foot = part(d->facts, id).bbox_mm[2];
        ++pieces;
        const double x = -(part(d->facts, id).bbox_mm[1] + part(d->facts, id).bbox_mm[4]) / 2;
        EXPECT_EQ(d == &apart, std::any_of(wall.arcs.begin(), wall.arcs.end(),
                                           [&](const Arc& dot) {
                                             return std::abs(dot.centre.x - x) < 0.5 && dot.centre.y > foot &&
                                                    dot.centre.y < foot + 8 * in;
                                           }))
            << id;
      }
    }
    EXPECT_EQ(pieces, 4u);
    EXPECT_EQ(d == &alike, read_through(wall).find("7-1/2  joint in furring, below it fur L") != std::string::npos);
  }
}

/// The first step of the order of work that says so.
Step step_that_says(const std::string& room, const std::string& words) {
  const Drawn d = worked_out(job_of_case(room), false);
  for (const Step& step : steps_of(d.model->job, {d.facts, d.cuts, {}, {}, d.judgement}))
    if (step.what.find(words) != std::string::npos) return step;
  throw std::out_of_range{words};
}

TEST(Upstand, ShimsBesideItAreStapledAndNobodyPlanesThem) {
  // Source: docs/changelog.md: shims have staples; none of this room is ripped.
  const Step beside = step_that_says("shims-beside-the-base", "Fur the studs beside the base");
  EXPECT_THAT(beside.what, HasSubstr("Slip each shim down behind the upstand and staple it where"));
  EXPECT_THAT(beside.stop + beside.what, Not(testing::AnyOf(HasSubstr("screw"), HasSubstr("plane"))));
  const Step rest = step_that_says("shims-beside-the-base", "Fur the rest of the studs");
  EXPECT_THAT(rest.stop, HasSubstr("thinner shim"));
}

TEST(Upstand, TileOfAWallThatWaitsIsNotToldAsBought) {
  // Source: none; who reads the order of work buys by it.
  std::vector<takeoff::Row> rows{{"tile, floor", 17, "ft2", 2, "boxes", ""},
                                 {"tile, walls", 60, "ft2", 6, "boxes", ""}};
  EXPECT_EQ(tiles_bought(rows), "floor 2 boxes, walls 6 boxes");
  rows[1].hold = takeoff::Hold{takeoff::HangsOn::studs, "", "", "frame the left wall out"};
  EXPECT_EQ(tiles_bought(rows), "floor 2 boxes, walls HOLD");
}

TEST(Upstand, BlockingOfAWallThatIsToBeFramedOutComesAfterThatWall) {
  // Source: none; blocks between studs that a wall is framed before are buried.
  const Step walls = step_that_says("blocking-in-a-wall-to-be-framed-out", "First plumb or sister");
  EXPECT_LT(walls.what.find("First plumb or sister"), walls.what.find("et blocking"));
  EXPECT_THAT(walls.what, HasSubstr("on HOLD till those are read"));
  EXPECT_TRUE(walls.hold);
  const Drawn d = drawn(job_of_case("blocking-in-a-wall-to-be-framed-out"), false);
  EXPECT_THAT(read_through(d.sheet("wall-left")), HasSubstr("HOLD: the wall is to be brought out first"));
  EXPECT_THAT(read_through(d.sheet("wall-left")), Not(HasSubstr("2 in each end")));
  EXPECT_THAT(read_through(d.sheet("wall-right")), HasSubstr("2 in each end"));
}

}  // namespace
}  // namespace fallwright::drawing
