// Pieces cut to the tape: what is printed is what is modelled, and what is modelled goes together.
#include <cmath>
#include <random>

#include <gtest/gtest.h>

#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

/// The sample alcove at sizes that no tape shows.
job::Job odd(unsigned seed) {
  std::mt19937 random{seed};
  const auto between = [&](double low, double high) {
    return job::Length::inches(low + (high - low) * double(random() % 10007) / 10007);
  };
  job::Job job = sample::alcove();
  job.cuts.to_tape = true;
  job.unit = seed % 2 ? job::UnitSystem::metric : job::UnitSystem::inch;
  job.base.length = between(50, 58), job.base.width = between(33, 38);
  job.bench->depth = between(12, 16), job.bench->height = between(16, 20);
  job.alcove.width = job.base.length + job.bench->depth + between(0, 0.4);
  job.alcove.depth = job.base.width + between(0, 0.4);
  job.alcove.height = between(88, 97);
  job.drain.across.distance = job.base.length / 2;
  job.drain.along.distance = job.base.width * 0.45;
  if (seed % 3 == 0) job.floor.drop_along_width = between(-0.5, 0.5), job.floor.drop_along_depth = between(-0.3, 0.3);
  if (seed % 5 == 0) job.bench->place = job::Side::right, job.drain.across.side = job::Side::right;
  return job;
}

double to_mark(double mm, job::UnitSystem unit) {
  const double mark = unit == job::UnitSystem::metric ? 1 : in / 16;
  return std::abs(mm - std::round(mm / mark) * mark);
}

TEST(Tape, EveryPieceIsOnAMarkAndNothingClashes) {
  // Source: property; ten rooms at odd sizes, level and not, both units, both hands.
  for (unsigned seed = 1; seed <= 10; ++seed) {
    const job::Job job = odd(seed);
    const facts::Facts facts = measure::measure(*parts::build(job));
    for (const facts::Member& m : facts.members)
      EXPECT_LT(to_mark(m.length_mm, job.unit), 1e-4) << seed << " " << m.part_id << " " << m.length_mm;
    for (const facts::Fit& fit : facts.fits)
      EXPECT_NE(fit.state, facts::Touch::clash)
          << seed << " " << text_of(fit.a) << " " << text_of(fit.b) << " " << fit.overlap_mm3;
    for (const facts::Part& part : facts.parts) EXPECT_TRUE(part.valid) << seed << " " << part.id;
  }
}

double seat_front(const job::Job& job) {
  for (const facts::Facet& f : measure::measure_solids(*parts::build(job)).facets)
    if (f.surface == facts::Surface::seat) return f.low_mm[2];
  ADD_FAILURE() << "no seat";
  return 0;
}

TEST(Tape, TheSeatComesLowerByLessThanAMark) {
  // Source: property; studs are cut at or below their length, and the seat stands on them.
  for (unsigned seed = 1; seed <= 30; ++seed) {
    job::Job job = odd(seed);
    const double mark = job.unit == job::UnitSystem::metric ? 1 : in / 16;
    const double cut = seat_front(job);
    job.cuts.to_tape = false;
    const double exact = seat_front(job);
    EXPECT_LE(cut, exact + 1e-6) << seed;
    EXPECT_GT(cut, exact - mark - 1e-6) << seed;
  }
}

TEST(Tape, AStudOfTheWorkedBench) {
  // Source: worked example, invented: a plate's top at 13-3/8 in leaves studs of 10-3/8 in between plates of 1-1/2 in,
  // four over 34-3/4 in at 33.25 / 3 = 11.083 in; a bench at nominal sizes would have cut them 8-7/8 in.
  job::Job job = sample::alcove();
  job.cuts.to_tape = true;
  job.alcove.depth = job.base.width = job::Length::inches(34.75);
  job.bench->height = job::Length::inches(13.375 + 3.5 + 0.75 + 1.25);
  job.drain.along.distance = job::Length::inches(15.5);
  const facts::Facts facts = measure::measure(*parts::build(job));
  int studs = 0, plates = 0;
  for (const facts::Member& m : facts.members) {
    const bool stud = m.part_id.rfind("bench-frame/stud", 0) == 0;
    const bool plate = m.part_id == "bench-frame/sole-plate" || m.part_id == "bench-frame/top-plate";
    studs += stud, plates += plate;
    if (stud || plate) {
      EXPECT_NEAR(m.length_mm, (stud ? 10.375 : 34.75) * in, 1e-6);
    }
  }
  EXPECT_EQ(studs, 4);
  EXPECT_EQ(plates, 2);
  std::vector<double> places;
  for (const facts::Part& p : facts.parts)
    if (p.id.rfind("bench-frame/stud", 0) == 0) places.push_back(p.centroid_mm[1]);
  std::sort(places.begin(), places.end());
  for (std::size_t i = 1; i < places.size(); ++i) EXPECT_NEAR(places[i] - places[i - 1], 33.25 / 3 * in, 1e-6);
}

TEST(Tape, WithoutItNothingIsRounded) {
  // Source: property.
  job::Job job = odd(4);
  job.cuts.to_tape = false;
  double off = 0;
  for (const facts::Member& m : measure::measure(*parts::build(job)).members)
    off = std::max(off, to_mark(m.length_mm, job.unit));
  EXPECT_GT(off, 0.05);
}

}  // namespace
}  // namespace fallwright
