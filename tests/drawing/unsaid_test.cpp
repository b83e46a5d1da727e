// What nobody said or read is told as that where it is worked to: what holds plates, which pipe and trap there is.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "outside/drawn.hpp"
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

TEST(Plates, AreHeldAsNoKeySaysAndNeverByTheirEnds) {
  // Source: by hand, from the cut list: the back wall has 8 studs and 6 + 2 + 2 blocks, 18 sticks of 2 x 2, 72; its two
  // plates are held along their length. The side walls of a room that stands already have blocks alone.
  const Sheet& framed = drawn_demo("tannery-lane-2a").sheet("wall-back");
  const std::string words = read_through(framed);
  EXPECT_THAT(words, AllOf(HasSubstr("18 sticks"), HasSubstr(" 72 "), HasSubstr("sole plate to floor"),
                           HasSubstr("top plate to what is"), HasSubstr("plates and studs at")));
  EXPECT_THAT(read_through(drawn_demo("tannery-lane-5c").sheet("wall-back")),
              AllOf(HasSubstr("sole plate to slab"), HasSubstr("scan the slab")));
  EXPECT_THAT(read_through(drawn_demo("ferry-steps-3").sheet("wall-back")),
              AllOf(Not(HasSubstr("plate to")), HasSubstr("5 sticks")));
}

TEST(Outlet, TellsWhichPipeAndWhatOfItNobodyRead) {
  // Source: the job's own numbers: an outlet of 2 in, and a trap of which the side and the vent are not.
  job::Job job = demo("tannery-lane-2a");
  const std::string none = all_notes(drawn_demo("tannery-lane-2a").sheet("drain"));
  EXPECT_THAT(none, HasSubstr("Not read, so no sheet tells of it: trap, arm, vent."));
  EXPECT_THAT(read_through(drawn_demo("tannery-lane-2a").sheet("order-of-work")), HasSubstr("Not read: trap, arm, vent."));
  job.trap.emplace();
  job.trap->pipe = job::Length::inches(2), job.trap->arm = job::Length::inches(40);
  job.trap->hub = job::Length::inches(-8), job.trap->fall = job::Fall::inches_per_foot(0.25);
  const std::string some = all_notes(drawn(job, false).sheet("drain"));
  EXPECT_THAT(some, AllOf(HasSubstr("Drain's outlet 2\" inside. Below it: pipe 2 in"), HasSubstr("1/4 in/ft"),
                          HasSubstr("40\" from weir to vent"), HasSubstr("tells of it: arm's side, vent.")));
}

}  // namespace
}  // namespace fallwright::drawing
