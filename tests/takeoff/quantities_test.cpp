// Quantities to buy.
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/good_facts.hpp"
#include "support/sample.hpp"
#include "takeoff/takeoff.hpp"
#include "units/quantity.hpp"

namespace fallwright {
namespace {

using testing::HasSubstr;
using testing::Not;

constexpr double in = 25.4;

const takeoff::Row& row(const std::vector<takeoff::Row>& rows, const std::string& item) {
  for (const takeoff::Row& r : rows)
    if (r.item == item) return r;
  throw std::logic_error(item);
}

facts::Facts bed_of(double ft3) {
  facts::Facts facts = sample::good_facts();
  facts.bed.set_mm3 = ft3 * units::mm3_per_ft3;
  return facts;
}

job::Job with_bags(double yield_ft3) {
  job::Job job = sample::alcove();
  job.bed.bag_yield_m3 = yield_ft3 * units::mm3_per_ft3 * 1e-9;
  return job;
}

TEST(Bags, ABedOfOnePointTwoThreeFiveCubicFeetTakesFourBags) {
  // Source: by hand: 1.23511 ft3 x 1.10 / 0.45 = 3.019, so 4 bags, and the fourth is for 2 % of a bag.
  const auto rows = takeoff::take_off(with_bags(0.45), bed_of(1.23511));
  EXPECT_NEAR(row(rows, "mortar, bed as set").quantity, 1.23511, 1e-9);
  EXPECT_NEAR(row(rows, "mortar, bed as set").buy, 1.35862, 1e-5);
  const takeoff::Row& bags = row(rows, "mortar, bags");
  EXPECT_NEAR(bags.quantity * (1 + bags.waste) / bags.pack, 3.01916, 1e-5);
  EXPECT_EQ(bags.buy, 4);
  EXPECT_EQ(bags.buy_unit, "bags");
  EXPECT_THAT(bags.basis, HasSubstr(": 3.019"));
  EXPECT_THAT(bags.basis, HasSubstr("the last of the bags is for 2 % of one"));
}

TEST(Bags, AWholeNumberOfBagsIsNotRoundedUpByRounding) {
  // Source: closed form: 0.9 ft3 x 1.1 / 0.33 is 3 exactly, which doubles miss by a hair.
  EXPECT_EQ(row(takeoff::take_off(with_bags(0.33), bed_of(0.9)), "mortar, bags").buy, 3);
}

TEST(Bags, OnlyANarrowCountIsWarnedOf) {
  // Source: by hand: 1.0 x 1.1 / 0.45 = 2.44 bags.
  const takeoff::Row bags = row(takeoff::take_off(with_bags(0.45), bed_of(1.0)), "mortar, bags");
  EXPECT_EQ(bags.buy, 3);
  EXPECT_THAT(bags.basis, Not(HasSubstr("careful")));
}

TEST(Bags, WithoutAYieldThereIsAVolumeAndNoBag) {
  // Source: none; nought bags would be a lie.
  for (const auto unit : {job::UnitSystem::inch, job::UnitSystem::metric}) {
    job::Job job = sample::alcove();
    job.bed.bag_yield_m3.reset();
    job.unit = unit;
    const takeoff::Row bags = row(takeoff::take_off(job, bed_of(1)), "mortar, bags");
    const bool metric = unit == job::UnitSystem::metric;
    EXPECT_NEAR(bags.buy, metric ? 1.1 * 28.316846592 : 1.1, 1e-9);
    EXPECT_EQ(bags.buy_unit, metric ? "L" : "ft3");
    EXPECT_THAT(bags.basis, HasSubstr("no bag_yield"));
  }
}

TEST(TakeOff, ComesFromTheFactsAndNotFromTheJob) {
  // Source: property; another size in the job changes nothing, twice the bed in the facts doubles it.
  job::Job job = with_bags(0.45);
  const auto before = takeoff::take_off(job, bed_of(1));
  job.base.length = job.base.length * 2;
  job.alcove.width = job.alcove.width * 2;
  EXPECT_DOUBLE_EQ(row(takeoff::take_off(job, bed_of(1)), "mortar, bed as set").buy,
                   row(before, "mortar, bed as set").buy);
  EXPECT_DOUBLE_EQ(row(takeoff::take_off(job, bed_of(2)), "mortar, bed as set").buy,
                   2 * row(before, "mortar, bed as set").buy);
}

TEST(TakeOff, SticksAreEightFeetUnlessAPieceIsLonger) {
  // Source: by hand. Lumber is sold in steps of two feet (common practice, no source).
  facts::Facts facts = sample::good_facts();
  facts.members.clear();
  const auto add = [&](const char* stock, double length_in) {
    facts::Member m;
    m.part_id = m.stock = stock;
    m.length_mm = length_in * in;
    facts.members.push_back(m);
  };
  add("2x4", 34.75), add("2x4", 34.75), add("2x4", 10.375), add("2x6", 100);
  const auto rows = takeoff::take_off(sample::alcove(), facts);
  EXPECT_NEAR(row(rows, "2x4").quantity, 79.875 / 12, 1e-9);
  EXPECT_EQ(row(rows, "2x4").buy, 1);
  EXPECT_EQ(row(rows, "2x4").buy_unit, "sticks of 8 ft");
  EXPECT_THAT(row(rows, "2x4").basis, HasSubstr("3 pieces"));
  EXPECT_EQ(row(rows, "2x6").buy_unit, "sticks of 10 ft");
  job::Job metric = sample::alcove();
  metric.unit = job::UnitSystem::metric;
  EXPECT_EQ(row(takeoff::take_off(metric, facts), "2x4").buy_unit, "sticks of 2.4 m");
  EXPECT_EQ(row(takeoff::take_off(metric, facts), "2x6").buy_unit, "sticks of 2.7 m");
}

TEST(TakeOff, SheetsGoByThickness) {
  // Source: by hand: 34.75 x 13.75 in twice is 6.636 ft2.
  facts::Facts facts = sample::good_facts();
  for (const double thickness : {0.75, 0.75, 0.5}) {
    facts::Member m;
    m.stock = "deck";
    m.sheet = true;
    m.length_mm = 34.75 * in, m.width_mm = 13.75 * in, m.thickness_mm = thickness * in;
    facts.members.push_back(m);
  }
  const auto rows = takeoff::take_off(sample::alcove(), facts);
  EXPECT_NEAR(row(rows, "deck sheet 3/4\"").quantity, 2 * 34.75 * 13.75 / 144, 1e-9);
  EXPECT_EQ(row(rows, "deck sheet 3/4\"").buy, 1);
  EXPECT_NEAR(row(rows, "deck sheet 1/2\"").quantity, 34.75 * 13.75 / 144, 1e-9);
}

TEST(TakeOff, BaseAndSeatAreWeighed) {
  // Source: international pound, 0.45359237 kg.
  const auto rows = takeoff::take_off(sample::alcove(), sample::good_facts());
  EXPECT_NEAR(row(rows, "shower base").quantity, 90 / 0.45359237, 1e-9);
  EXPECT_NEAR(row(rows, "seat block").quantity, 40 / 0.45359237, 1e-9);
  EXPECT_EQ(row(rows, "seat block").unit, "lb");
}

TEST(TakeOff, EveryRowSaysWhatItRestsOn) {
  // Source: none.
  for (const takeoff::Row& r : takeoff::take_off(sample::alcove(), sample::good_facts())) {
    EXPECT_FALSE(r.basis.empty()) << r.item;
    EXPECT_GT(r.buy, 0) << r.item;
  }
}

}  // namespace
}  // namespace fallwright
