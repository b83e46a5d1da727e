/// Rooms side by side: whatever goes wrong in one is its own failure.
#include "app/side_by_side.hpp"

#include <new>

#include <gtest/gtest.h>

namespace fallwright::app {
namespace {

class Silent : public Progress {
  void stage(const std::string&, const std::string&) override {}
};

/// An error like the geometry kernel's: of no kind that the standard library knows.
struct Refusal_OfTheKernel {};

std::vector<job::Job> rooms(std::size_t count) {
  std::vector<job::Job> jobs(count);
  for (std::size_t i = 0; i < count; ++i) jobs[i].name = "room " + std::to_string(i + 1);
  return jobs;
}

TEST(SideBySide, AnErrorOfAnyKindIsTheFailureOfItsRoom) {
  // Source: ISO C++ [except.terminate]: an exception that leaves a thread ends the process.
  Silent silent;
  std::vector<std::string> told;
  const auto outcomes = side_by_side(
      rooms(6), silent,
      [](std::size_t room) -> Finish {
        if (room % 3 == 0) throw Refusal_OfTheKernel{};
        if (room % 3 == 1) throw std::bad_alloc{};
        throw std::runtime_error{"no such luck"};
      },
      [&](const Outcome& outcome) { told.push_back(outcome.name + ": " + outcome.failure); });
  ASSERT_EQ(outcomes.size(), 6u);
  EXPECT_NE(told[0].find("Refusal_OfTheKernel"), std::string::npos) << told[0];
  EXPECT_EQ(told[1], "room 2: there is not enough memory");
  EXPECT_EQ(told[5], "room 6: no such luck");
}

TEST(SideBySide, ARoomThatCannotBeToldHasFailed) {
  // Source: the same: report text is made on whichever thread ended the room.
  Silent silent;
  int asked = 0;
  const auto outcomes = side_by_side(
      rooms(2), silent, [](std::size_t) -> Finish { throw std::runtime_error{"first"}; },
      [&](const Outcome& outcome) {
        if (outcome.failure == "first" && ++asked == 1) throw Refusal_OfTheKernel{};
      });
  EXPECT_NE(outcomes[0].failure.find("Refusal_OfTheKernel"), std::string::npos);
  EXPECT_EQ(outcomes[1].failure, "first");
}

}  // namespace
}  // namespace fallwright::app
