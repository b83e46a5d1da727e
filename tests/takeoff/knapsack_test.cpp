// The most that pieces on a stick can be worth, against every way of laying them on it.
#include <algorithm>
#include <random>

#include <gtest/gtest.h>

#include "takeoff/pattern.hpp"

namespace fallwright::takeoff {
namespace {

/// Every way to lay pieces of the sizes from `kind` on into so much room.
std::int64_t most_of_every_way(const CutProblem& problem, const std::vector<std::int64_t>& worth, std::size_t kind,
                               std::int64_t room) {
  if (kind == problem.kinds()) return 0;
  std::int64_t most = 0;
  for (int n = 0; n <= problem.count[kind] && n * problem.size[kind] <= room; ++n)
    most = std::max(most, n * worth[kind] + most_of_every_way(problem, worth, kind + 1, room - n * problem.size[kind]));
  return most;
}

TEST(Knapsack, IsTheMostOfEveryWayWhetherItsSumsAreFewOrMany) {
  // Source: closed form: all ways are tried; what the best pattern holds is worth as much and fits its stick.
  std::mt19937 random{7};
  int few = 0, many = 0;
  for (int n = 0; n < 400; ++n) {
    CutProblem problem;
    const std::int64_t tick = n % 2 ? 1 : 97;
    for (int i = 0; i < 4; ++i) problem.size.push_back(tick * static_cast<std::int64_t>(5 + random() % 30) + (n % 3));
    std::sort(problem.size.rbegin(), problem.size.rend());
    for (int i = 0; i < 4; ++i) problem.count.push_back(static_cast<int>(random() % 5));
    problem.room = {problem.size.front() + 3, 2 * problem.size.front() + 11, 3 * problem.size.front()};
    std::vector<std::int64_t> worth;
    for (int i = 0; i < 4; ++i) worth.push_back(static_cast<std::int64_t>(random() % 50));
    const Sums sums{problem};
    ++(sums.are_all() ? many : few);
    const Knapsack sack{problem, sums, worth};
    for (std::size_t s = 0; s < problem.room.size(); ++s) {
      const std::int64_t most = most_of_every_way(problem, worth, 0, problem.room[s]);
      EXPECT_EQ(sack.most(s), most) << n;
      const Pattern best = sack.best(s);
      std::int64_t held = 0;
      for (std::size_t i = 0; i < problem.kinds(); ++i) {
        EXPECT_LE(best.of[i], problem.count[i]);
        held += best.of[i] * worth[i];
      }
      EXPECT_EQ(held, most) << n;
      EXPECT_LE(used(problem, best), problem.room[s]) << n;
    }
  }
  EXPECT_GT(few, 50);
  EXPECT_GT(many, 50);
}

}  // namespace
}  // namespace fallwright::takeoff
