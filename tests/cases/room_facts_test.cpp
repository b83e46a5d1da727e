// Whole rooms, each and its mirror image, in which a number or a solid once came out wrong.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "diag/text_file.hpp"
#include "job/read.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/loads.hpp"
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
      for (const facts::CornerGap& c : facts.room.corners) EXPECT_LT(c.at_floor_mm, 50) << name << ": " << c.name();
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

TEST(RoomFacts, JoistsOfFerryStepsCarryWhatStandsOnThem) {
  // Source: by hand, in pounds and inches. Joists 2x8 at 16 in over 132 in: 13.141 in3 x 875 psi x 1.2 x 1.15 = 15867
  // lb in. People 40 psf, deck and joists 4.46, the bath's floor of 5/8 in 7.48: 51.94 psf on all of the span, 5.771 lb
  // an inch, 12569 lb in. The first joist's strip, 14-1/2 in of bench and 1 in of base, has the bench's 38.1 and the
  // base's 30.4 psf in place of the bath's floor, 3.25 lb an inch over 36-1/2 in: with these in the middle of the span
  // another 3340: 100.3 %; with them at its end 86.0 %. The bath's floor under base and bench as well, where it does
  // not lie, would make that 88 to 105 %, and the bench over all 16 in of the strip besides 88 to 107.
  const std::string file = std::string{PROJECT_DIR} + "/params/ferry-steps-3.toml";
  const job::Job job = job::read(diag::read_text(file), file);
  const auto load = rules::floor_load(job, measure::measure(*parts::build(job)));
  ASSERT_TRUE(load);
  EXPECT_NEAR(load->bending_share, 1.003, 0.003);
  EXPECT_NEAR(load->best_share, 0.860, 0.003);
  ASSERT_EQ(load->burdens.size(), 2U);
  EXPECT_NEAR(load->burdens[0].kpa() / 0.04788, 30.4, 0.1);
  EXPECT_NEAR(load->burdens[1].kpa() / 0.04788, 38.3, 0.3);
}

}  // namespace
}  // namespace fallwright
