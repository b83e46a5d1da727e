// Whole rooms, each and its mirror image, in which a number or a solid once came out wrong.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "diag/text_file.hpp"
#include "job/read.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/random_room.hpp"

namespace fallwright {
namespace {

/// The room as it is and in a mirror.
std::vector<facts::Facts> both_hands(const std::string& name) {
  const std::string file = std::string{PROJECT_DIR} + "/tests/cases/" + name + ".toml", text = diag::read_text(file);
  std::vector<facts::Facts> both;
  for (const std::string& room : {text, sample::mirrored(text)})
    both.push_back(measure::measure(*parts::build(job::read(room, file))));
  return both;
}

TEST(RoomFacts, SolidsAreValidWhereTheRingRoundTheDrainTouchesARib) {
  // Source: closed form: a ring of 73 mm about a drain 73 mm from a pocket's side, and one of 3 in 3 in from it.
  for (const char* name : {"ring-round-a-round-drain-touches-a-rib", "ring-round-a-square-drain-touches-a-rib"})
    for (const facts::Facts& facts : both_hands(name))
      for (const facts::Part& part : facts.parts) EXPECT_TRUE(part.valid) << name << ": " << part.id;
}

TEST(RoomFacts, NoGapIsTakenToTheWallBehindABench) {
  // Source: by hand: the bench is 15-1/2 in deep, or 402 mm, and no stud stands anywhere near as far from the base.
  for (const char* name : {"base-a-hair-deeper-than-the-bench", "base-a-hair-wider-than-the-back-bench"})
    for (const facts::Facts& facts : both_hands(name)) {
      EXPECT_GE(facts.room.corners.size(), 3u);
      for (const facts::CornerGap& c : facts.room.corners) EXPECT_LT(c.at_floor_mm, 50) << name << ": " << c.corner;
      for (const facts::StudGap& s : facts.room.studs) EXPECT_LT(s.at_floor_mm, 50) << name << ": " << s.part_id;
    }
}

TEST(RoomFacts, TheWayInIsTakenWhereItIsNarrowest) {
  // Source: level sections of the exported triangles at every height at which one of them has a corner.
  const struct {
    const char* name;
    double least_mm, at_mm;
  } rooms[] = {{"narrowest-at-the-benchs-deck", -0.0313, 440}, {"sole-plate-narrows-the-way-in", 8.9137, 0}};
  for (const auto& room : rooms)
    for (const facts::Facts& facts : both_hands(room.name)) {
      EXPECT_NEAR(facts.room.drop_in.least_mm, room.least_mm, 1e-3) << room.name;
      if (room.at_mm > 0) {
        EXPECT_NEAR(facts.room.drop_in.least_at_mm, room.at_mm, 0.01) << room.name;
      }
    }
}

}  // namespace
}  // namespace fallwright
