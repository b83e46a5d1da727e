// A base in its wet bed, pressed as it is told and read again, round after round.
#include "rules/press_rounds.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "survey/floor.hpp"

namespace fallwright {
namespace {

using Place = std::array<double, 2>;

/// Corners and middles of the sides of a base 57-1/2 x 36 in.
constexpr Place back_left{0, 914.4}, back_right{1460.5, 914.4}, front_right{1460.5, 0}, front_left{0, 0},
    back{730.25, 914.4}, front{730.25, 0}, left{0, 457.2}, right{1460.5, 457.2};

survey::HeightPlane plane_through(const std::vector<Place>& places, const std::vector<double>& heights) {
  std::vector<survey::Spot> spots;
  for (std::size_t i = 0; i < places.size(); ++i) spots.push_back({places[i][0], places[i][1], heights[i]});
  return survey::best_plane(spots);
}

/// As it is read: above the lowest reading, each with the plane that fits best above its own lowest place.
facts::AsSet read_at(const std::vector<Place>& places, const std::vector<double>& heights, double mark) {
  std::vector<double> read, planes;
  for (const double h : heights) read.push_back(std::round(h / mark) * mark);
  const survey::HeightPlane plane = plane_through(places, read);
  for (const Place& p : places) planes.push_back(plane.at(p[0], p[1]));
  facts::AsSet set;
  for (std::size_t i = 0; i < places.size(); ++i) {
    facts::AsSetPoint point;
    point.x_mm = places[i][0], point.y_mm = places[i][1];
    point.off_mm = read[i] - *std::min_element(read.begin(), read.end());
    point.plane_mm = planes[i] - *std::min_element(planes.begin(), planes.end());
    set.points.push_back(point);
  }
  return set;
}

/// In how many rounds it reads level; six where five do not do.
int rounds_to_level(const job::Job& job, const std::vector<Place>& places, std::vector<double> heights) {
  for (int round = 0; round <= 5; ++round) {
    const rules::Presses told = rules::presses_of(job, read_at(places, heights, job.mark_mm()));
    if (!told.any()) return round;
    const survey::HeightPlane pressed = plane_through(places, told.down_mm);
    for (std::size_t i = 0; i < places.size(); ++i) heights[i] -= pressed.at(places[i][0], places[i][1]);
  }
  return 6;
}

TEST(PressRounds, ThatWouldGoToAndFroArePressedAtOnePlaceAlone) {
  // Source: by hand: three places read a mark above the back left. The plane through them stands 0.1, 1.13 and 0.9 of a
  // mark above its lowest there: pressed by a mark at two, as the nearest marks have it, the readings that follow are
  // those of the other corner, and then these again. At the front alone they end.
  job::Job job;
  for (const job::UnitSystem unit : {job::UnitSystem::inch, job::UnitSystem::metric})
    for (const bool mirrored : {false, true}) {
      job.unit = unit;
      const double mark = job.mark_mm();
      const std::vector<Place> places =
          mirrored ? std::vector{back_right, back_left, front, right} : std::vector{back_left, back_right, front, left};
      const std::vector<double> heights{0, mark, mark, mark};
      const rules::Presses told = rules::presses_of(job, read_at(places, heights, mark));
      EXPECT_TRUE(told.end);
      EXPECT_EQ(told.down_mm, (std::vector<double>{0, 0, mark, 0}));
      EXPECT_LE(rounds_to_level(job, places, heights), 5);
    }
}

TEST(PressRounds, EndWithinFiveWhateverWasRead) {
  // Source: none: all readings of up to two marks at three sets of places, each base bent by no more than a mark,
  // pressed to the letter and read to the mark again.
  job::Job job;
  job.unit = job::UnitSystem::inch;
  const double mark = job.mark_mm();
  int followed = 0;
  for (const auto& places : {std::vector{back_left, back_right, front_right, front_left},
                             std::vector{back_left, back_right, front, left}, std::vector{back, left, right, front}})
    for (int code = 0; code < 81; ++code) {
      const std::vector<double> heights{code % 3 * mark, code / 3 % 3 * mark, code / 9 % 3 * mark, code / 27 * mark};
      const survey::HeightPlane plane = plane_through(places, heights);
      bool bent = false;
      for (std::size_t i = 0; i < places.size(); ++i)
        bent = bent || std::abs(heights[i] - plane.at(places[i][0], places[i][1])) > mark;
      if (bent) continue;
      EXPECT_LE(rounds_to_level(job, places, heights), 5) << code;
      ++followed;
    }
  EXPECT_GT(followed, 150);
}

}  // namespace
}  // namespace fallwright
