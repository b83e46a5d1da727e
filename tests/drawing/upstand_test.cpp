// How a base's upstand is held along a wall: its screws, what stands behind them, and what does not.
#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "diag/text_file.hpp"
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
    EXPECT_THAT(told, HasSubstr("Furring at the stud at 3/4, seen from the entry"));
    if (settled) {
      EXPECT_THAT(told, HasSubstr("foot piece L, 3/16 thick"));
      EXPECT_THAT(told, HasSubstr("strip K, 3/16 thick"));
      EXPECT_THAT(told, HasSubstr("upstand's screw, 5-5/8 up"));
      EXPECT_THAT(told, HasSubstr("1/4 clear"));
    } else {
      EXPECT_THAT(told, HasSubstr("VOID"));
      EXPECT_THAT(told, HasSubstr("foot piece L, HOLD"));
      EXPECT_THAT(told, Not(HasSubstr("3/16 thick")));
    }
    EXPECT_FALSE(has(d.sheet("wall-back"))) << "there strips go in with the framing";
  }
}

TEST(Upstand, LeadsTheMarkOfEachPieceBesideIt) {
  // Source: the cut list: each of its pieces behind the base's edge has its mark on the wall, with a line to it.
  const Drawn d = drawn(job_of_case("passes-everything"), false);
  const Sheet& wall = d.sheet("wall-right");
  std::size_t pieces = 0;
  for (const takeoff::CutRow& cut : d.cuts) {
    if (!cut.furring || cut.on_block || cut.turn != facts::Turn::base) continue;
    for (const std::string& id : cut.part_ids) {
      if (part(d.facts, id).which.family.wall != job::Side::right) continue;
      const double foot = part(d.facts, id).bbox_mm[2];
      ++pieces;
      const double x = -(part(d.facts, id).bbox_mm[1] + part(d.facts, id).bbox_mm[4]) / 2;
      EXPECT_TRUE(std::any_of(wall.arcs.begin(), wall.arcs.end(), [&](const Arc& dot) {
        return std::abs(dot.centre.x - x) < 0.5 && dot.centre.y > foot && dot.centre.y < foot + 8 * in;
      })) << id;
    }
  }
  EXPECT_EQ(pieces, 4u);
}

}  // namespace
}  // namespace fallwright::drawing
