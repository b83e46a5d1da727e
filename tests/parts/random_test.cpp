#include <cmath>
#include <random>
#include <utility>

#include <gtest/gtest.h>

#include "brep/properties.hpp"
#include "diag/fault.hpp"
#include "job/validate.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/draws.hpp"
#include "support/sample.hpp"

namespace fallwright::parts {
namespace {

using job::Fall;
using job::Length;

/// A job within the ranges of the job file, of which many cannot stand: those must be refused in words. Lengths are
/// whole marks, as people write them, so that sides and circles come to touch; without a mark any number.
job::Job random_job(std::mt19937& random, double mark_mm) {
  const auto number = [&](double from, double to) { return std::uniform_real_distribution<double>{from, to}(random); };
  const auto count = [&](int from, int to) { return std::uniform_int_distribution<int>{from, to}(random); };
  job::Job j = sample::alcove();
  const auto mm = [&](double from, double to) {
    const double length = number(from, to);
    return Length::mm(mark_mm > 0 ? std::round(length / mark_mm) * mark_mm : length);
  };
  j.alcove.width = mm(1200, 2400);
  j.alcove.depth = mm(750, 1500);
  const int place = count(0, 3);
  if (place == 3)
    j.bench.reset();
  else
    j.bench->place = place == 0 ? job::Side::left : place == 1 ? job::Side::right : job::Side::back;
  const double bench = j.bench ? 330 : 0;
  if (j.bench) j.bench->depth = Length::mm(bench);
  const bool back = place == 2;
  j.base.length = j.alcove.width - Length::mm(back ? 0 : bench) - mm(0, 10);
  j.base.width = j.alcove.depth - Length::mm(back ? bench : 0) - mm(0, 10);
  j.base.pattern = static_cast<job::FallPattern>(count(0, 1));
  j.base.fall = Fall::ratio(number(0.01, 0.05));
  j.base.underside = static_cast<job::Underside>(count(0, 1));
  j.base.shell = mm(6, 20);
  j.base.rib_depth = mm(6, 25);
  j.base.ribs = {count(0, 12), count(0, 12), mm(6, 20)};
  j.base.upstand_height = mm(60, 150);
  j.base.threshold = {mm(60, 120), mm(50, 90), Fall::ratio(number(0.005, 0.04))};
  j.drain.opening = static_cast<job::Opening>(count(0, 1));
  j.drain.size = mm(90, 140);
  j.drain.across = {count(0, 1) ? job::Side::left : job::Side::right, mm(100, 1100)};
  j.drain.along = {count(0, 1) ? job::Side::back : job::Side::front, mm(100, 700)};
  j.bed.least = mm(8, 30);
  j.floor.drop_along_width = mm(-15, 15);
  j.floor.drop_along_depth = mm(-10, 10);
  return j;
}

/// Some jobs of each seed; a hundred and more by hand.
class RandomJobs : public testing::TestWithParam<std::pair<unsigned, double>> {};

TEST_P(RandomJobs, AreValidSolidsOrAreRefusedInWords) {
  // Source: property test, fixed seeds: whatever the job, all solids are closed and valid, or a contradiction is named.
  const auto [seed, mark_mm] = GetParam();
  const int jobs = draws(40);
  std::mt19937 random{seed};
  int built = 0;
  for (int i = 0; i < jobs; ++i) {
    const job::Job j = random_job(random, mark_mm);
    const auto refused = job::contradictions(j);
    for (const auto& c : refused) EXPECT_FALSE(c.message.empty());
    if (!refused.empty()) continue;
    ++built;
    std::shared_ptr<const Model> model;
    ASSERT_NO_THROW(model = build(j)) << "seed " << seed << " job " << i;
    for (const char* id : {"base", "bed", "bed-spread", "drain", "subfloor"})
      ASSERT_TRUE(brep::is_sound(model->find(id)->shape)) << id << ", seed " << seed << " job " << i;
    if (j.bench) {
      ASSERT_TRUE(brep::is_sound(model->find("seat-block")->shape)) << "seed " << seed << " job " << i;
    }
    EXPECT_GE(brep::volume_mm3(model->find("bed-spread")->shape), brep::volume_mm3(model->find("bed")->shape) - 1);
  }
  EXPECT_GT(built, jobs / 10) << "too few of the random jobs can be built for the test to mean anything";
}

INSTANTIATE_TEST_SUITE_P(Seeds, RandomJobs,
                         testing::Values(std::pair{11u, 0.}, std::pair{23u, 0.}, std::pair{47u, 1.}, std::pair{83u, 1.},
                                         std::pair{131u, 25.4 / 8}));

}  // namespace
}  // namespace fallwright::parts
