/// The seat block's apron over a base that turns up beside the bench, and over one that does not.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "brep/properties.hpp"
#include "job/layout.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::parts {
namespace {

using job::Length;
using job::Side;

job::Job bench_at(Side place) {
  job::Job j = sample::alcove();
  j.bench->place = place;
  if (place == Side::back) j.alcove.depth = Length::inches(50.5), j.base.length = Length::inches(72);
  return j;
}

/// Beside the bench nothing turns up: walls are lapped there.
job::Job lapped_at(Side place) {
  job::Job j = bench_at(place);
  std::erase(j.base.upstands, place);
  j.base.lapped = {place};
  return j;
}

double seat_in3(const job::Job& job) {
  const auto model = build(job);
  const Solid& seat = *model->first(Role::seat_block);
  EXPECT_TRUE(brep::is_sound(seat.shape));
  return brep::volume_mm3(seat.shape) / std::pow(25.4, 3);
}

TEST(Apron, IsNotchedOverThresholdAndUpstandsWhereTheBaseDoesNotTurnUpBesideIt) {
  // Source: by hand: 1/2 in thick, its foot on an upstand 5-1/2 in over the datum. Without that it goes down to the
  // rim, but for 4 in of a threshold whose outer edge is 4-1/12 in up and 1/2 in of the upstand behind.
  const double rim = job::lay_out(lapped_at(Side::left)).rim_greatest() / 25.4, threshold = 4 + 4. / 48;
  for (const Side place : {Side::left, Side::right})
    EXPECT_NEAR(seat_in3(lapped_at(place)) - seat_in3(bench_at(place)),
                0.5 * ((36 - 4 - 0.5) * (5.5 - rim) + 4 * (5.5 - threshold)), 1e-6)
        << name_of(place);
}

TEST(Apron, OfABenchAtTheBackIsNotchedOverTheUpstandsOfBothEnds) {
  // Source: by hand: as above, along 72 in less two upstands of 1/2 in.
  const double rim = job::lay_out(lapped_at(Side::back)).rim_greatest() / 25.4;
  EXPECT_NEAR(seat_in3(lapped_at(Side::back)) - seat_in3(bench_at(Side::back)), 0.5 * (72 - 1) * (5.5 - rim), 1e-6);
}

TEST(Apron, OfABenchAtTheBackIsNotchedAtTheEndThatTurnsUp) {
  // Source: by hand: as above, with the other end lapped too: one upstand of 1/2 in is left to go over.
  for (const Side end : {Side::left, Side::right}) {
    job::Job job = lapped_at(Side::back);
    std::erase(job.base.upstands, end);
    job.base.lapped.push_back(end);
    const double rim = job::lay_out(job).rim_greatest() / 25.4;
    EXPECT_NEAR(seat_in3(job) - seat_in3(bench_at(Side::back)), 0.5 * (72 - 0.5) * (5.5 - rim), 1e-6) << name_of(end);
  }
}

TEST(Seat, TurnsUpAtTheEndsThatAreWalled) {
  // Source: by hand: an upstand 1/2 in thick and 3 in high along a seat 14-1/2 in deep but for that behind it, at that
  // end of a bench along the back where a wall stands: it takes the seat's middle so far that way.
  job::Job both = bench_at(Side::back), left = both, right = both;
  left.alcove.walls = {Side::back, Side::left}, right.alcove.walls = {Side::back, Side::right};
  const auto moment_in4 = [](const job::Job& job) {  // about the alcove's middle
    const auto model = build(job);
    const brep::Properties p = brep::properties(model->first(Role::seat_block)->shape);
    return p.volume_mm3 * (p.centroid.X() - 36 * 25.4) / std::pow(25.4, 4);
  };
  EXPECT_NEAR(moment_in4(both), 0, 1e-6);
  const double upstand = 0.5 * 3 * 14 * (36 - 0.25), over_the_fall = 0.5 * 14 * 0.3 * 36;
  EXPECT_GT(moment_in4(right), upstand);
  EXPECT_LT(moment_in4(right), upstand + over_the_fall);
  EXPECT_NEAR(moment_in4(left), -moment_in4(right), 1e-6);
  EXPECT_NEAR(seat_in3(both) - seat_in3(left), seat_in3(both) - seat_in3(right), 1e-6);
}

TEST(Apron, StandsBesideABaseWithoutThresholdDownToItsRim) {
  // Source: by hand: nothing rises at the entry; the notch over the upstand behind is all there is.
  job::Job with = bench_at(Side::left), without = lapped_at(Side::left);
  for (job::Job* j : {&with, &without}) j->base.threshold.width = Length{};
  const double rim = job::lay_out(without).rim_greatest() / 25.4;
  EXPECT_NEAR(seat_in3(without) - seat_in3(with), 0.5 * (36 - 0.5) * (5.5 - rim), 1e-6);
}

}  // namespace
}  // namespace fallwright::parts
