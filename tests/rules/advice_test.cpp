// What to do about a floor that does not fall as it should: hand calculations, then the advice followed.
#include <algorithm>
#include <cmath>
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job/layout.hpp"
#include "rules/advice.hpp"
#include "rules/check.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

using job::Length;
using job::Side;
using testing::HasSubstr;

constexpr double quarter = 0.25 / 12, half = 0.5 / 12;

Length inches(double v) {
  return Length::inches(v);
}

/// A bare base with a drain whose planes start at its centre.
job::Job base(double length, double width, double x, double y) {
  return sample::bare(inches(length), inches(width), inches(x), inches(y));
}

/// The same with a 4 in square opening in the middle: its planes start at the opening's edge.
job::Job square(double length, double width) {
  job::Job job = base(length, width, length / 2, width / 2);
  job.drain.opening = job::Opening::square;
  job.drain.size = inches(4);
  return job;
}

std::pair<double, double> least_and_greatest_fall(const job::Job& job) {
  double least = 1e9, greatest = 0;
  for (const job::FacetPlane& facet : job::lay_out(job).facets) {
    const double fall = std::hypot(facet.plane.gx, facet.plane.gy);
    least = std::min(least, fall), greatest = std::max(greatest, fall);
  }
  return {least, greatest};
}

TEST(Advice, ADrainNearOneEndMovesTowardTheOther) {
  // Source: by hand. 60 x 34, drain at 48 from the left: runs 48, 12, 17, 17. A band of 2 wants both long runs between
  // 26 and 34, so the nearest place is 34 from the left; the right run is then 26.
  const auto remedy = rules::floor_remedy(base(60, 34, 48, 17), quarter, half);
  EXPECT_NEAR(remedy.longest_mm, 48 * in, 1e-9);
  EXPECT_NEAR(remedy.shortest_mm, 12 * in, 1e-9);
  ASSERT_TRUE(remedy.across_mm);
  EXPECT_NEAR(*remedy.across_mm, 34 * in, 1e-6);
  EXPECT_FALSE(remedy.along_mm);
  EXPECT_FALSE(remedy.rise) << "1/4 in/ft on the longest run still does";
  EXPECT_EQ(rules::floor_advice(base(60, 34, 48, 17), quarter, half),
            "no rim height passes: the longest run, 48\", is over 2 times the shortest, 12\", from the drain's "
            "centre to the rim; move the drain's centre to 34\" from the left edge of the base (drain.from_left, now "
            "48\"), or take base.pattern = "
            "\"equal-fall\" and base.fall = \"3/8 in/ft\" (the rim is then not level)");
}

TEST(Advice, DistancesAreInTheJobFilesOwnTerms) {
  // Source: by hand, the same floor told from the right: the right run must become 26.
  job::Job job = base(60, 34, 48, 17);
  job.drain.across = {Side::right, inches(12)};
  EXPECT_NEAR(*rules::floor_remedy(job, quarter, half).across_mm, 26 * in, 1e-6);
  EXPECT_THAT(rules::floor_advice(job, quarter, half),
              HasSubstr("26\" from the right edge of the base (drain.from_right, now 12\")"));
}

TEST(Advice, ARimThatCanBeSetIsGivenOnTheTape) {
  // Source: by hand. 60 x 34, 4 in square, runs 28 and 15: rise between 28/48 = 0.5833 and 15/24 = 0.6250 in, and the
  // one sixteenth of an inch in that is 5/8.
  job::Job job = square(60, 34);
  job.base.rise = inches(0.5);
  const auto remedy = rules::floor_remedy(job, quarter, half);
  ASSERT_TRUE(remedy.rise);
  EXPECT_NEAR(remedy.rise->least_mm, 28.0 / 48 * in, 1e-9);
  EXPECT_NEAR(remedy.rise->greatest_mm, 0.625 * in, 1e-9);
  EXPECT_EQ(rules::floor_advice(job, quarter, half), "set the rim 5/8\" above the drain's edge (base.rise)");
}

TEST(Advice, FallOnTheLongestRunIsNamedWhereNoMarkOfTheTapeFits) {
  // Source: by hand. 60 x 32, 4 in square: 28/14 is exactly 2, so one single rim passes, 7/12 in, and no tape shows it.
  job::Job job = square(60, 32);
  job.base.rise = inches(0.5);
  EXPECT_THAT(rules::floor_advice(job, quarter, half),
              HasSubstr("base.fall = 1/4 in/ft (1:48), in place of base.rise"));
  job.base.rise.reset();
  job.base.fall = job::Fall::inches_per_foot(0.25);
  const auto [least, greatest] = least_and_greatest_fall(job);
  EXPECT_TRUE(rules::keeps(least, {quarter, half, rules::Unit::ratio, "", {}})) << least;
  EXPECT_TRUE(rules::keeps(greatest, {quarter, half, rules::Unit::ratio, "", {}})) << greatest;
}

TEST(Advice, OneFallForAllLeavesBothLimitsRoom) {
  // Source: by hand: half way between 1/4 and 1/2 in/ft is 3/8; at either limit a base would have to lie level to the
  // last hair. What the job has already stays where it leaves both a quarter of what lies between them: from 5/16 to
  // 7/16.
  job::Job job = square(60, 30);
  job.base.rise.reset();
  for (const auto& [now, advised] :
       {std::pair{0.25, 0.375}, {0.125, 0.375}, {0.5, 0.375}, {1., 0.375}, {0.3125, 0.3125}, {0.4375, 0.4375}}) {
    job.base.fall = job::Fall::inches_per_foot(now);
    const auto lines = rules::floor_changes(job, quarter, half).back();
    const auto fall = std::find_if(lines.begin(), lines.end(), [](const auto& l) { return l.key == "base.fall"; });
    EXPECT_EQ(fall == lines.end(), now == advised) << now;
    if (fall != lines.end()) {
      EXPECT_NE(fall->value.find("3/8 in/ft"), std::string::npos) << fall->value;
    }
  }
}

TEST(Advice, AFloorTooNarrowForItsLengthHasNoPlaceForTheDrain) {
  // Source: by hand. 60 x 30, 4 in square in the middle: 28/13 = 2.15, and the middle is the best there is.
  const auto remedy = rules::floor_remedy(square(60, 30), quarter, half);
  EXPECT_FALSE(remedy.possible());
  EXPECT_THAT(rules::floor_advice(square(60, 30), quarter, half), HasSubstr("no place of the drain mends that"));
}

TEST(Advice, SixtyByThirtyToOnePointPassesAtTheBoundaryOnly) {
  // Source: closed form: runs 30 and 15 to a point, rise 0.625 in gives 1/4 and 1/2 in/ft exactly, of which a round
  // opening's edge has taken 2 / hypot(30, 15) where it is lowest; 66 x 30 has none.
  const double rise = 0.625 * (1 - 2 / std::hypot(30, 15)) * in;
  const auto remedy = rules::floor_remedy(base(60, 30, 30, 15), quarter, half);
  ASSERT_TRUE(remedy.rise);
  EXPECT_NEAR(remedy.rise->least_mm, rise, 1e-9);
  EXPECT_NEAR(remedy.rise->greatest_mm, rise, 1e-9);
  EXPECT_FALSE(rules::floor_remedy(base(66, 30, 33, 15), quarter, half).possible());
}

TEST(Advice, ANarrowerBandOfFallsIsToldAsItIs) {
  // Source: NCC 2022 Housing Provisions 10.2.12, 1:80 to 1:50, a band of 1.6: 1800 x 900 mm with one waste is
  // impossible.
  job::Job job = sample::bare(Length::mm(1800), Length::mm(900), Length::mm(900), Length::mm(450));
  job.unit = job::UnitSystem::metric;
  EXPECT_FALSE(rules::floor_remedy(job, 1.0 / 80, 1.0 / 50).possible());
  EXPECT_THAT(rules::floor_advice(job, 1.0 / 80, 1.0 / 50),
              HasSubstr("the longest run, 900 mm, is over 1.6 times the shortest, 450 mm, from the drain's "));
}

TEST(Advice, RunsAreToldInWholeMarksAndFromWhere) {
  // Source: by hand: 1800.4 wide, the drain 600.3 from the left, 450.2 from back and front: 1200.1, up to 1201; the
  // shortest, 450.2, down to 450. Those of a round opening begin at its centre.
  job::Job job = sample::bare(Length::mm(1800.4), Length::mm(900.4), Length::mm(600.3), Length::mm(450.2));
  job.unit = job::UnitSystem::metric;
  job.drain.opening = job::Opening::round;
  EXPECT_THAT(
      rules::floor_advice(job, quarter, half),
      HasSubstr("the longest run, 1201 mm, is over 2 times the shortest, 450 mm, from the drain's centre to the "
                "rim"));
}

TEST(Advice, OtherPatternsAreMendedByTheirFall) {
  // Source: none; where every facet has one fall, that is what is wrong.
  job::Job job = sample::alcove();
  job.base.pattern = job::FallPattern::equal_fall;
  EXPECT_EQ(rules::floor_advice(job, quarter, half), "set base.fall between 1/4 in/ft (1:48) and 1/2 in/ft (1:24)");
}

TEST(Advice, NeverSpeaksInDecimalsOfAnInch) {
  // Source: none; a tape has fractions.
  for (const double x : {9.3, 11.7, 46.1, 51.9}) {
    const std::string text = rules::floor_advice(base(61.3, 35.1, x, 13.2), quarter, half);
    for (std::size_t at = text.find('"'); at != std::string::npos; at = text.find('"', at + 1))
      EXPECT_FALSE(at > 3 && text[at - 2] == '.') << text;
  }
}

job::Job random_floor(std::mt19937& random) {
  const auto between = [&](double a, double b) { return std::uniform_real_distribution<>{a, b}(random); };
  const double length = between(32, 72), width = between(30, 60);
  job::Job job = base(length, width, between(4, length - 4), between(4, width - 4));
  if (random() % 2) job.drain.opening = job::Opening::square;
  if (random() % 2) job.drain.across = {Side::right, inches(length) - job.drain.across.distance};
  if (random() % 2) job.drain.along = {Side::back, inches(width) - job.drain.along.distance};
  if (random() % 2) job.base.rise = inches(between(0.2, 1.5));
  if (random() % 3 == 0) job.base.upstands = {Side::left, Side::back}, job.base.upstand_thickness = inches(0.5);
  if (random() % 3 == 0) job.unit = job::UnitSystem::metric;
  job.base.fall = job::Fall::inches_per_foot(between(0.15, 0.6));
  return job;
}

TEST(Advice, WhoeverFollowsItPasses) {
  // Source: property; the remedy is put into the job and the falls are taken anew from the laid-out planes.
  std::mt19937 random{20240611};
  int moved = 0;
  for (int n = 0; n < 2000; ++n) {
    job::Job job = random_floor(random);
    const auto remedy = rules::floor_remedy(job, quarter, half);
    if (!remedy.possible()) continue;
    moved += remedy.across_mm || remedy.along_mm;
    if (remedy.across_mm) job.drain.across.distance = Length::mm(*remedy.across_mm);
    if (remedy.along_mm) job.drain.along.distance = Length::mm(*remedy.along_mm);
    std::vector<std::optional<Length>> rises{job.base.rise};
    if (remedy.rise) rises = {Length::mm(remedy.rise->least_mm), Length::mm(remedy.rise->greatest_mm)};
    for (const auto& rise : rises) {
      job.base.rise = rise;
      const auto [least, greatest] = least_and_greatest_fall(job);
      EXPECT_GE(least, quarter - 1e-8) << "floor " << n;
      EXPECT_LE(greatest, half + 1e-8) << "floor " << n;
    }
  }
  EXPECT_GT(moved, 100) << "the cases must reach the drain's move";
}

TEST(Advice, WhereItSeesNoWayThereIsNone) {
  // Source: property; every place of the drain on a 1/4 in grid is tried.
  std::mt19937 random{20240612};
  int hopeless = 0;
  for (int n = 0; n < 300; ++n) {
    job::Job job = random_floor(random);
    if (rules::floor_remedy(job, quarter, half).possible()) continue;
    ++hopeless;
    job.base.rise = inches(1);
    for (double x = 3; x < job.base.length.in_inches() - 3; x += 0.25)
      for (double y = 3; y < job.base.width.in_inches() - 3; y += 0.25) {
        job.drain.across.distance = inches(x), job.drain.along.distance = inches(y);
        const auto [least, greatest] = least_and_greatest_fall(job);
        ASSERT_GT(greatest / least, 2) << "floor " << n << " with the drain at " << x << ", " << y;
      }
  }
  EXPECT_GT(hopeless, 5);
}

/// A channel 2 in wide from rim to rim over a base 60 x 34, its middle so far from the back.
job::Job channel(double from_back) {
  job::Job job = base(60, 34, 30, 17);
  job.drain.kind = job::DrainKind::line;
  job.drain.opening = job::Opening::square;
  job.drain.size = inches(2), job.drain.channel_length = Length{};
  job.drain.channel_direction = job::Direction::along_width;
  job.drain.along = {Side::back, inches(from_back)};
  return job;
}

TEST(Advice, AChannelFromRimToRimMovesAcrossItself) {
  // Source: by hand: 34 less 2 in of channel leaves 32 in for both runs; a band of 2 wants the shorter at 10-2/3 at
  // least, the next mark is 10-11/16 (a sixteenth), and the channel's middle lies an inch farther. Along itself the
  // channel has no run: none is told.
  const auto remedy = rules::floor_remedy(channel(4), quarter, half);
  EXPECT_NEAR(remedy.longest_mm, 29 * in, 1e-9);
  EXPECT_NEAR(remedy.shortest_mm, 3 * in, 1e-9);
  ASSERT_TRUE(remedy.along_mm);
  EXPECT_FALSE(remedy.across_mm);
  EXPECT_NEAR(*remedy.along_mm, (11 + 11. / 16) * in, 1e-6);
  job::Job moved = channel(4);
  moved.drain.along.distance = Length::mm(*remedy.along_mm);
  const auto [least, greatest] = least_and_greatest_fall(moved);
  EXPECT_GE(least, quarter - 1e-9);
  EXPECT_LE(greatest, half + 1e-9);
}

TEST(Advice, TellsTheWayToALineByWhatTheDrainIs) {
  // Source: none; keys that are there already are not asked for. No run may be longer than another: none is equal here.
  job::Job point = base(60, 34, 57, 17), line = channel(4), part = channel(4);
  part.drain.channel_length = inches(40);
  EXPECT_THAT(rules::floor_advice(point, quarter, quarter),
              HasSubstr("or a line drain (drain.kind = \"line\", base.pattern = \"to-line\")"));
  EXPECT_THAT(rules::floor_advice(point, quarter, quarter), HasSubstr("is longer than the shortest"));
  EXPECT_THAT(rules::floor_advice(part, quarter, half),
              HasSubstr("or a channel from rim to rim (base.pattern = \"to-line\", without drain.length)"));
  EXPECT_THAT(rules::floor_advice(line, quarter, half), HasSubstr("drain.from_back, now 4\""));
}

}  // namespace
}  // namespace fallwright
