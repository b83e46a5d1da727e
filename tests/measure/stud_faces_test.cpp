// What is told of a place is what a tape reads there, and what a tape read is found in that place again.
#include <cmath>

#include <gtest/gtest.h>

#include "job/layout.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/book.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::measure {
namespace {

using job::Length;
using job::Side;

/// The sample's alcove, 72 by 36 in, whose one side wall comes in by 3 in from the entry to the back: left, or as it is
/// seen in a mirror.
job::Job flared(Side wall) {
  job::Job j = sample::alcove();
  const bool left = wall == Side::left;
  sample::read_plan(j, {0, 36 * in}, {72 * in, 36 * in}, {left ? -3 * in : 0, 0}, {left ? 72 * in : 75 * in, 0});
  if (!left) j.bench->place = Side::right, j.drain.across.side = Side::right;
  j.survey.level_tolerance_mm = 0.8;
  return j;
}

facts::Facts facts_of_flared(const job::Job& job) {
  return measure(*parts::build(job));
}

/// x of the flaring wall's stud face in the room as it is built: in the mirror it runs from 75 to 72.
double face_at(Side wall, double y) {
  return wall == Side::left ? -3 * in + 3 * y / 36 : 75 * in - 3 * y / 36;
}

TEST(StudFaces, AreThoseOfTheSolids) {
  // Source: by hand: the left stud face at -3 in at the entry and at 0 at the back, 36 in from it.
  const survey::StudFaces faces = facts_of_flared(flared(Side::left)).room.faces;
  EXPECT_NEAR(faces.left.at(0) / in, -3, 1e-6);
  EXPECT_NEAR(faces.left.at(18 * in) / in, -1.5, 1e-6);
  EXPECT_NEAR(faces.left.at(36 * in) / in, 0, 1e-6);
  EXPECT_NEAR(faces.right.at(18 * in) / in, 72, 1e-6);
  EXPECT_NEAR(faces.back.at(18 * in) / in, 36, 1e-6);
  job::Job open = sample::alcove();
  std::erase(open.alcove.walls, Side::right);
  EXPECT_NEAR(facts_of_flared(open).room.faces.right.at(0) / in, 72, 1e-9) << "as designed";
}

TEST(StudFaces, ASpotLevelLiesWhereTheTapeReadIt) {
  // Source: by hand: a hump read 40 in from the left and 9 in from the entry, where the wall's face stands at -2.25 in,
  // is at 37.75; told, it is at 40 again. In the mirror the left wall is square: read 32 in off that, it is at 32, and
  // 74.25 - 32 = 42.25 off the flaring one.
  for (const Side wall : {Side::left, Side::right}) {
    job::Job j = flared(wall);
    const double across = wall == Side::left ? 40 * in : 32 * in, x = wall == Side::left ? 37.75 * in : 32 * in;
    const double w = 72 * in, d = 36 * in;
    j.survey.spots = {{1 * in, d - in, 0}, {w - in, d - in, 0}, {w - in, in, 0}, {in, in, 0}, {across, 9 * in, 6}};
    const facts::Facts facts = facts_of_flared(j);
    EXPECT_NEAR(facts.room.floor.hump_at_mm[0] / in, x / in, 1e-6);
    EXPECT_NEAR(facts.room.floor.hump_at_mm[1] / in, 9, 1e-6);
    const survey::Point told = facts.room.faces.told({facts.room.floor.hump_at_mm[0], facts.room.floor.hump_at_mm[1]});
    EXPECT_NEAR(told.x / in, across / in, 1e-6);
    EXPECT_EQ(rules::place_of(facts.room.floor.hump_at_mm, facts.room.faces, j),
              wall == Side::left ? "40\" from the left stud face, 9\" from the entry"
                                 : "32\" from the left stud face, 9\" from the entry");
  }
}

TEST(StudFaces, WhatIsPrintedAndTypedAgainLandsWhereItWas) {
  // Source: property: the bore's place as told is that of a hub below it, that of a gauge as told that of a spot level,
  // in a room that flares, in its mirror, and in either unit.
  for (const Side wall : {Side::left, Side::right})
    for (const bool metric : {false, true}) {
      job::Job j = flared(wall);
      if (metric) j.unit = job::UnitSystem::metric;
      const facts::Facts before = facts_of_flared(j);
      const survey::StudFaces& faces = before.room.faces;
      const auto& bore = before.room.drain.now_mm;
      j.trap = sample::trap();
      j.trap->from_left = Length::mm(faces.off(Side::left, {bore[0], bore[1]}));
      j.trap->from_back = Length::mm(faces.off(Side::back, {bore[0], bore[1]}));
      double height = 0;
      for (const facts::Gauge& gauge : before.room.gauges) {
        const survey::Point told = faces.told({gauge.x_mm, gauge.y_mm});
        j.survey.spots.push_back({told.x, told.y, height += 0.5});
      }
      const facts::Facts after = facts_of_flared(j);
      EXPECT_NEAR(after.pipe.aside_mm, 0, 1e-6);
      ASSERT_EQ(after.room.gauges.size(), 9U);
      for (std::size_t i = 0; i < 9; ++i)
        EXPECT_NEAR(after.room.gauges[i].floor_mm - after.room.gauges[0].floor_mm, 0.5 * static_cast<double>(i), 1e-6)
            << after.room.gauges[i].name;
      EXPECT_NEAR(faces.off(wall, {before.room.gauges[0].x_mm, before.room.gauges[0].y_mm}),
                  std::abs(before.room.gauges[0].x_mm - face_at(wall, before.room.gauges[0].y_mm)), 1e-6);
    }
}

TEST(StudFaces, MirroredReadingsMakeTheSameMortar) {
  // Source: symmetry: spots read off the left wall, and in the mirror off what is the left one there.
  job::Job one = flared(Side::left), other = flared(Side::right);
  const survey::StudFaces faces = job::lay_out(one).room.faces();
  int i = 0;
  for (const double x : {2., 36., 68.})
    for (const double y : {1., 17., 35.}) {
      const double z = (i++ * 5 % 7) * 0.7;
      one.survey.spots.push_back({x * in, y * in, z});
      other.survey.spots.push_back({faces.right.at(y * in) - faces.left.at(y * in) - x * in, y * in, z});
    }
  const facts::Facts a = facts_of_flared(one), b = facts_of_flared(other);
  EXPECT_NEAR(a.bed.set_mm3, b.bed.set_mm3, 1e-3);
  EXPECT_NEAR(a.room.floor.hump_mm, b.room.floor.hump_mm, 1e-6);
}

}  // namespace
}  // namespace fallwright::measure
