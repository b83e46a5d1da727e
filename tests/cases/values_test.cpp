// Whole rooms in which a number once came out wrong, each held to what was found a second way.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "diag/text_file.hpp"
#include "job/read.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/check.hpp"
#include "rules/limits.hpp"
#include "study/study.hpp"

namespace fallwright {
namespace {

job::Job job_of(const std::string& name) {
  const std::string file = std::string{PROJECT_DIR} + "/tests/cases/" + name + ".toml";
  return job::read(diag::read_text(file), file);
}

facts::Facts facts_of(const std::string& name) {
  return measure::measure(*parts::build(job_of(name)));
}

/// With every question of what would be if.
facts::Facts studied(const std::string& name) {
  const job::Job job = job_of(name);
  const auto model = parts::build(job);
  return study::with_studies(*model, measure::measure(*model), rules::limits_for(job));
}

const rules::Result& result_of(const std::vector<rules::Result>& results, const std::string& id) {
  return *std::find_if(results.begin(), results.end(), [&](const rules::Result& r) { return r.id == id; });
}

TEST(CaseValues, AWayInIsToldOnTheSideThatFails) {
  // Source: level section of the exported triangles at 16-1/2 in: 0.0036 in less than the base is long.
  const facts::Facts facts = facts_of("way-in-a-hair-too-narrow");
  EXPECT_NEAR(facts.room.drop_in.least_mm / 25.4, -0.0036, 5e-5);
  EXPECT_NEAR(facts.room.drop_in.least_at_mm, 16.5 * 25.4, 1e-6);
  const auto results = rules::check(job_of("way-in-a-hair-too-narrow"), facts);
  const rules::Result& level = result_of(results, "room.drop-in");
  EXPECT_EQ(level.outcome, rules::Outcome::fail);
  EXPECT_NE(level.advice.find("level it lacks under 1/32\""), std::string::npos) << level.advice;
  for (const rules::Result& r : results) EXPECT_EQ((r.where + r.advice).find(" mm"), std::string::npos) << r.id;
}

TEST(CaseValues, PlumbWallsHaveTheirWidthAtEveryHeight) {
  // Source: level sections of the exported triangles; the first base is as wide as its room: it has nothing to spare.
  const struct {
    const char* name;
    double width_mm, spare_mm;
  } rooms[] = {{"walls-no-wider-than-the-base", 1682.75, 0}, {"one-width-at-every-height", 1406.525, 409.575}};
  for (const auto& room : rooms) {
    const facts::DropIn drop = facts_of(room.name).room.drop_in;
    ASSERT_GT(drop.widths_mm.size(), 12u) << room.name;
    for (const auto& [height, width] : drop.widths_mm) EXPECT_NEAR(width, room.width_mm, 1e-6) << height;
    EXPECT_NEAR(drop.least_mm, room.spare_mm, 1e-6) << room.name;
  }
}

TEST(CaseValues, ABaseThatFitsExactlyGoesIn) {
  // Source: closed form: bench 14-1/2 in and base 41-3/8 in are the opening; zero is zero, in every check of it.
  const job::Job job = job_of("base-and-bench-as-wide-as-the-room");
  const facts::Facts facts = facts_of("base-and-bench-as-wide-as-the-room");
  EXPECT_EQ(facts.room.drop_in.least_mm, 0);
  EXPECT_EQ(facts.room.drop_in.tip_deg, 0);
  const auto results = rules::check(job, facts);
  EXPECT_EQ(result_of(results, "room.goes-in").outcome, rules::Outcome::pass);
  for (const char* id : {"opening.width", "room.goes-in", "room.drop-in"}) {
    EXPECT_NEAR(*result_of(results, id).measured, 0, 1e-9) << id;
    EXPECT_NE(result_of(results, id).outcome, rules::Outcome::fail) << id;
  }
}

TEST(CaseValues, TheFreeFloorOfAChannelIsAllOfIt) {
  // Source: polygon clipping of the exported triangles: 1,178,122 mm2, and a circle of 984 mm.
  const facts::Clear clear = facts_of("channel-in-a-room-with-a-bench").clear;
  EXPECT_NEAR(clear.area_mm2, 1178122.64, 0.01);
  EXPECT_NEAR(clear.circle_mm, 984.25, 1e-6);
}

TEST(CaseValues, NoMoreOfABaseBearsThanItsBedLiesUnder) {
  // Source: the plan's own arcs: all that lies over the bed touches it there.
  const facts::Bed bed = facts_of("bed-round-a-round-drain").bed;
  EXPECT_LT(bed.contact_mm2 / bed.underside_mm2, 1);
  EXPECT_NEAR(bed.contact_mm2 / bed.plan_mm2, 1, 1e-6);
}

TEST(CaseValues, AHumpStandsOverThePlaneThatFitsTheCornersBest) {
  // Source: least squares by another program over the exported triangles.
  EXPECT_NEAR(facts_of("hump-beside-a-twisted-floor").room.floor.hump_mm, 1.609, 0.0005);
}

TEST(CaseValues, AFloorIsOutOfLevelAlsoBetweenItsSpots) {
  // Source: a section of the exported triangles along their edges: 1/16 in.
  EXPECT_NEAR(facts_of("edge-of-the-floor-between-two-spots").room.floor.along_depth_mm, 1.5875, 1e-6);
}

TEST(CaseValues, AQuestionOfWhatIfNeverCostsTheJob) {
  // Source: property: every number that may be off has its bounds, or the reason why nobody knows them.
  for (const char* name : {"base-near-its-walls-with-every-reading-off", "drain-that-must-move-beside-a-joist",
                           "bed-that-ends-on-a-rib"}) {
    const facts::Facts facts = studied(name);
    for (const facts::Part& part : facts.parts) EXPECT_TRUE(part.valid) << name << " " << part.id;
    if (facts.room.drain.joists_known) {
      EXPECT_TRUE(facts.room.drain.greatest_fall > 0 || !facts.room.drain.falls_unknown.empty()) << name;
    }
    for (const facts::Worst& w : facts.room.worst)
      EXPECT_TRUE(!w.unknown.empty() || (w.least <= w.nominal && w.nominal <= w.greatest)) << name << " " << w.what;
  }
}

TEST(CaseValues, OneSetOutAddsUpWhereItFallsBetweenMarks) {
  // Source: closed form: from the left and from the right stud face to the bore is the room's width there, and from the
  // back 949 mm less the 386 mm from the base's front.
  const facts::Room room = facts_of("places-that-fall-between-two-marks").room;
  const auto mark = [&](const std::string& name) {
    const auto it =
        std::find_if(room.set_out.begin(), room.set_out.end(), [&](const auto& m) { return m.name == name; });
    return it == room.set_out.end() ? NAN : it->mm;
  };
  EXPECT_NEAR(mark("bore centre from the right stud face"), 570.5015, 1e-3);
  EXPECT_NEAR(mark("bore centre from the back stud face") + mark("bore centre from the base's front edge"), 949, 1e-6);
}

TEST(CaseValues, AWidthIsALengthOrNotTold) {
  // Source: property: a base as long as its room is wide leaves heights at which nothing stands on one side of it.
  const facts::DropIn drop = facts_of("base-as-wide-as-a-tilted-room").room.drop_in;
  for (const auto& [height, width] : drop.widths_mm) EXPECT_TRUE(std::isfinite(width) && width < 1e6) << height;
}

}  // namespace
}  // namespace fallwright
