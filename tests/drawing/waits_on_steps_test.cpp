// Steps that wait for what lies under them, stands before them or is closed by them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/order_words.hpp"
#include "drawing/steps.hpp"
#include "job/read.hpp"
#include "outside/drawn.hpp"
#include "support/random_room.hpp"

namespace fallwright::drawing {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

job::Job room_that_waits(const std::string& name) {
  const std::string file = std::string{PROJECT_DIR} + "/tests/cases/" + name + ".toml";
  return job::read(diag::read_text(file), file);
}

std::vector<Step> steps_of_room(const job::Job& job) {
  const Drawn& d = drawn(job, false);
  return steps_of(d.model->job, {d.facts, d.cuts, d.plan, d.rows, d.judgement});
}

/// From the first step that says so on each waits until that; none before it does.
void expect_held_from(const std::vector<Step>& steps, const std::string& first, const std::string& until) {
  bool come = false;
  for (const Step& step : steps) {
    come = come || step.what.find(first) != std::string::npos;
    EXPECT_EQ(step.what.find("HOLD until " + until + ". Then: ") == 0, come) << step.what;
    EXPECT_TRUE(!come || (step.hold && step.waits)) << step.what;
  }
  EXPECT_TRUE(come) << first;
}

TEST(WaitsOnSteps, NothingIsLaidOnAFloorThatCarriesTooLittle) {
  // Source: by hand: a deck too thin, and on site joists over 24 ft; what mends them comes before the bed, and so
  // before the felt under it.
  job::Job site = demo("coopers-yard-4");
  site.floor.joist_span = job::Length::inches(24 * 12);
  for (const job::Job& job : {room_that_waits("deck-too-thin-for-its-joists"), site})
    expect_held_from(steps_of_room(job), "Felt on the deck", "the floor carries it");
}

TEST(WaitsOnSteps, NoMortarBeforeAWallStandsThatIsToBeFramedOut) {
  // Source: common practice, no source: boards beside a base that is bedded already leave no room for a wall's plates.
  const std::vector<Step> steps = steps_of_room(room_that_waits("wall-that-waits-to-be-framed-out"));
  const std::string until = "the studs that stand too far back are brought out";
  expect_held_from(steps, "Mix outside", until);
  for (const Step& step : steps_of_room(demo("tannery-lane-2a"))) EXPECT_THAT(step.what, Not(HasSubstr(until)));
}

TEST(WaitsOnSteps, NothingIsSetAgainstAWallThatIsToBeMovedWhateverHoldsTheUpstands) {
  // Source: common practice, no source: a bench's wall whose studs are to be plumbed first, though every upstand has
  // its timber elsewhere; and one of which nobody said how high its tile goes, which may end below those studs.
  const auto expect = [](const char* name, const std::string& first, const std::string& until) {
    const std::string file = std::string{PROJECT_DIR} + "/tests/outside/jobs/" + name + ".toml";
    const std::string text = diag::read_text(file);
    for (const std::string& twin : {text, sample::mirrored(text), sample::in_millimetres(text)})
      expect_held_from(steps_of_room(job::read(twin, file)), first, until);
  };
  expect("bench-at-a-wall-to-be-plumbed", "Mix outside", "the studs that stand too far back are brought out");
  expect("tile-not-said", "Board, flashing", "it is said how high tile goes");
}

TEST(WaitsOnSteps, NoWallIsClosedOverWhatItLacks) {
  // Source: by hand: a fixture with nothing behind it, and walls that are to be waterproof to 72 in and are to 48. What
  // is behind the board is told to the framer; a height that is too low is no number to work to.
  job::Job bare = demo("tannery-lane-2a");
  bare.walls.blocking.clear();
  using job::Length;
  bare.fixtures.push_back(
      {"shelf", job::Side::back, Length::inches(20), Length::inches(40), Length::inches(6), Length::inches(3)});
  const std::vector<Step> steps = steps_of_room(bare);
  expect_held_from(steps, "Board, flashing", "each fixture has its place and timber");
  EXPECT_THAT(steps.at(2).what, HasSubstr("For what is fastened to the walls: set blocking behind"));
  job::Job on_another = demo("tannery-lane-2a");  // two on one spot
  for (const char* name : {"shelf", "valve"})
    on_another.fixtures.push_back(
        {name, job::Side::back, Length::inches(32), Length::inches(34), Length::inches(1), Length::inches(1)});
  on_another.walls.blocking = {Length::inches(34)};
  expect_held_from(steps_of_room(on_another), "Board, flashing", "each fixture has its place and timber");
  const std::vector<Step> low = steps_of_room(room_that_waits("waterproof-to-48"));
  expect_held_from(low, "Board, flashing", "the wall is waterproof high enough");
  for (const Step& step : low)
    if (step.what.find("Board, flashing") != std::string::npos) {
      EXPECT_THAT(step.measure, StartsWith("carry tile and waterproofing 24-9/16\" higher"));
    }
}

}  // namespace
}  // namespace fallwright::drawing
